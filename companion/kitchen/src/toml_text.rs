//! Why a TOML text cannot be read.

use crate::units::excerpt;

/// As much of a line as is shown with the place in it that is wrong.
const LONGEST_LINE: usize = 160;

/// What the reader says, with the line where that is short: it repeats the
/// whole line and the whole value, however long they are.
pub(crate) fn why(text: &str, error: &toml::de::Error) -> String {
    let Some(place) = error.span().map(|span| span.start.min(text.len())) else {
        return excerpt(error.message()).into_owned();
    };
    let before = text.get(..place).unwrap_or_default();
    let begin = before.rfind('\n').map_or(0, |end| end + 1);
    let line = text
        .get(begin..)
        .and_then(|rest| rest.lines().next())
        .unwrap_or_default();
    if line.len() <= LONGEST_LINE && error.message().len() <= LONGEST_LINE {
        return excerpt(error.to_string().trim_end()).into_owned();
    }
    format!(
        "line {}, column {}: {}",
        before.matches('\n').count() + 1,
        before.get(begin..).unwrap_or_default().chars().count() + 1,
        excerpt(error.message())
    )
}

#[cfg(test)]
mod tests {
    use super::why;

    fn error_of(text: &str) -> toml::de::Error {
        #[derive(Debug, serde::Deserialize)]
        #[expect(dead_code, reason = "only whether it reads is of interest")]
        struct Places {
            places: usize,
        }
        toml::from_str::<Places>(text).unwrap_err()
    }

    fn of(text: &str) -> String {
        why(text, &error_of(text))
    }

    #[test]
    fn a_short_line_is_shown_with_its_place() {
        let said = of("# of a menu\nplaces = \"three\"\n");
        assert!(
            said.contains("places = \"three\"") && said.contains("line 2"),
            "{said}"
        );
    }

    #[test]
    fn a_value_of_ten_megabytes_is_not_repeated() {
        let text = format!("# of a menu\nplaces = \"{}\"\n", "x".repeat(10_000_000));
        // The witness: the reader repeats the line and the value.
        assert!(error_of(&text).to_string().len() > 20_000_000);
        let said = of(&text);
        assert!(
            said.starts_with("line 2, column 10: invalid type: string \"xxx"),
            "{said}"
        );
        assert!(
            said.ends_with("expected usize") && said.len() < 400,
            "{said}"
        );
    }
}
