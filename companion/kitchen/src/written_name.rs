//! Names as people type them, brought to one spelling.

use crate::units::InputError;
use crate::units::{Reason, typed};
use unicode_normalization::UnicodeNormalization;

/// Reads a name of 1 to `longest` characters on one line, in one spelling.
/// `field` says where it was typed and `such_as` gives an example, for the
/// error.
///
/// # Errors
/// An empty name, one that is too long, over several lines, or with control
/// characters.
pub(crate) fn name(
    field: &str,
    text: &str,
    longest: usize,
    such_as: &str,
) -> Result<String, InputError> {
    let wrong = |problem: Reason| {
        Err(InputError::new(
            field,
            text,
            problem,
            expected!("name", longest = longest, example = typed(such_as)),
        ))
    };
    let text = text.trim();
    if text.contains(LINE_BREAKS) {
        return wrong(problem!("many-lines"));
    }
    if text.chars().any(|c| c.is_control() && !c.is_whitespace()) {
        return wrong(problem!("control-characters"));
    }
    let name = one_spelling(text);
    match name.chars().count() {
        0 => wrong(problem!("empty")),
        count if count > longest => wrong(problem!("too-long", longest = longest)),
        _ => Ok(name),
    }
}

/// Reads words of up to `longest` characters, over several lines where they are. Each line is
/// brought to one spelling. `field` says where they were typed, for the error.
///
/// # Errors
/// Words that are too long, or have control characters in them.
pub(crate) fn words(field: &str, text: &str, longest: usize) -> Result<String, InputError> {
    let wrong = |problem: Reason| {
        let expected = expected!("words", longest = longest);
        Err(InputError::new(field, text, problem, expected))
    };
    if text.chars().any(|c| c.is_control() && !c.is_whitespace()) {
        return wrong(problem!("control-characters"));
    }
    let lines: Vec<String> = text
        .trim()
        .replace("\r\n", "\n")
        .split(LINE_BREAKS)
        .map(one_spelling)
        .collect();
    let words = lines.join("\n");
    if words.chars().count() > longest {
        return wrong(problem!("too-long", longest = longest));
    }
    Ok(words)
}

/// What begins a new line, wherever it is shown (Unicode Standard, 5.8, from
/// memory).
const LINE_BREAKS: [char; 7] = [
    '\n', '\r', '\u{b}', '\u{c}', '\u{85}', '\u{2028}', '\u{2029}',
];

/// Brings a name to one spelling: composed letters (NFC, Unicode Standard
/// Annex 15), single spaces between words, and nothing in it that cannot be
/// seen, such as marks that turn the direction of writing. What joins the
/// letters of a script that needs it stays.
pub(crate) fn one_spelling(text: &str) -> String {
    let letters: Vec<char> = text.nfc().collect();
    let visible: String = letters
        .iter()
        .enumerate()
        .filter(|(place, letter)| {
            let beside = |place: Option<usize>| {
                place
                    .and_then(|place| letters.get(place))
                    .is_some_and(|beside| !beside.is_ascii() && !is_invisible(*beside))
            };
            !is_invisible(**letter)
                || (is_joiner(**letter)
                    && beside(place.checked_sub(1))
                    && beside(place.checked_add(1)))
        })
        .map(|(_, letter)| *letter)
        .collect();
    visible.split_whitespace().collect::<Vec<_>>().join(" ")
}

const fn is_joiner(letter: char) -> bool {
    matches!(letter, '\u{200c}' | '\u{200d}')
}

/// Whether a letter leaves no mark of its own: the general category Cf of
/// Unicode, as far as names may meet it.
const fn is_invisible(letter: char) -> bool {
    matches!(
        letter,
        '\u{ad}'
            | '\u{34f}'
            | '\u{61c}'
            | '\u{180e}'
            | '\u{200b}'..='\u{200f}'
            | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}'
            | '\u{feff}'
            | '\u{fff9}'..='\u{fffb}'
            | '\u{e0000}'..='\u{e007f}'
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn composed_and_decomposed_are_one() {
        // Worked example of Annex 15: e with acute, and e followed by the accent.
        assert_eq!(one_spelling("puree\u{301}"), one_spelling("pure\u{e9}"));
        assert_eq!(one_spelling("  Salt \t fish\n"), "Salt fish");
    }

    #[test]
    fn a_name_stands_on_one_line() {
        assert_eq!(
            name("--name", " Blue \t jug\n", 40, "jug").unwrap(),
            "Blue jug"
        );
        for text in ["blue\njug", "blue\r\njug", "blue\u{2028}jug"] {
            let error = name("--name", text, 40, "jug").unwrap_err();
            assert_eq!(
                error.problem().in_english(),
                "goes over several lines",
                "{text:?}"
            );
        }
    }

    #[test]
    fn words_keep_their_lines_and_nothing_that_commands_a_terminal() {
        assert_eq!(
            words("note", " too \u{200b}salty\r\nnext  time ", 100),
            Ok("too salty\nnext time".to_owned())
        );
        let error = words("note", "red\u{1b}[31m", 100).unwrap_err();
        assert_eq!(error.problem().in_english(), "has control characters in it");
        assert!(words("note", &"x".repeat(101), 100).is_err());
    }

    #[test]
    fn what_cannot_be_seen_is_taken_out_and_what_joins_letters_stays() {
        assert_eq!(one_spelling("sh\u{200b}ri\u{ad}mp\u{feff}"), "shrimp");
        assert_eq!(one_spelling("\u{202e}pmirhs\u{202c}"), "pmirhs");
        let joined = "\u{645}\u{6cc}\u{200c}\u{62e}";
        assert_eq!(one_spelling(joined), joined);
        assert_eq!(one_spelling("a\u{200d}b"), "ab");
    }
}
