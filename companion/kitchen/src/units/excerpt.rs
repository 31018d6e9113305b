//! What was typed or read, as far as it is said again in an error.

use std::borrow::Cow;

/// The longest text that is repeated in full, in characters.
const LONGEST: usize = 300;
/// How much of the beginning and of the end of a longer one is.
const BEGINNING: usize = 160;
const END: usize = 80;

/// A text for an error: in full where it is short, else its beginning and its
/// end with how long it is. Control characters are written out, so that a
/// terminal takes none of them for a command.
#[must_use]
pub fn excerpt(text: &str) -> Cow<'_, str> {
    let count = text.chars().count();
    let cut = if count <= LONGEST {
        Cow::Borrowed(text)
    } else {
        let beginning: String = text.chars().take(BEGINNING).collect();
        let end: String = text.chars().skip(count - END).collect();
        Cow::Owned(format!("{beginning}... ({count} characters) ...{end}"))
    };
    match without_commands(&cut) {
        Cow::Owned(written_out) => Cow::Owned(written_out),
        Cow::Borrowed(_) => cut,
    }
}

/// As much of a line of an error as a terminal is given.
const LONGEST_LINE: usize = 2_000;

/// An error as a terminal is given it, whatever was put into it: no line is
/// longer than two thousand characters.
#[must_use]
pub fn for_terminal(error: &str) -> String {
    let lines: Vec<_> = error
        .split('\n')
        .map(|line| {
            if line.len() > LONGEST_LINE {
                excerpt(line)
            } else {
                without_commands(line)
            }
        })
        .collect();
    lines.join("\n")
}

/// A text with its control characters written out, so that a terminal takes none of them
/// for a command. Line breaks and tabs stay.
#[must_use]
pub fn without_commands(text: &str) -> Cow<'_, str> {
    if !text.chars().any(is_command) {
        return Cow::Borrowed(text);
    }
    let shown = text.chars().flat_map(|letter| {
        let escaped = is_command(letter).then(|| letter.escape_default());
        let plain = (!is_command(letter)).then_some(letter);
        escaped.into_iter().flatten().chain(plain)
    });
    Cow::Owned(shown.collect())
}

fn is_command(letter: char) -> bool {
    letter.is_control() && letter != '\n' && letter != '\t'
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_text_is_told_by_its_ends() {
        let text = format!("begin{}end", "x".repeat(10_000_000));
        let said = excerpt(&text);
        assert!(
            said.starts_with("beginx") && said.ends_with("xend"),
            "{said}"
        );
        assert!(said.contains("(10000008 characters)") && said.len() < 300);
    }

    #[test]
    fn no_terminal_takes_it_for_a_command() {
        assert_eq!(excerpt("a\u{1b}[2Jb\nc"), "a\\u{1b}[2Jb\nc");
        assert_eq!(excerpt("plain"), "plain");
        assert_eq!(for_terminal("plain\na\u{7}"), "plain\na\\u{7}");
        assert!(for_terminal(&"x".repeat(10_000_000)).len() < 300);
    }
}
