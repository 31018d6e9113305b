//! Names as people type them, brought to one spelling.

use unicode_normalization::UnicodeNormalization;

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
    fn what_cannot_be_seen_is_taken_out_and_what_joins_letters_stays() {
        assert_eq!(one_spelling("sh\u{200b}ri\u{ad}mp\u{feff}"), "shrimp");
        assert_eq!(one_spelling("\u{202e}pmirhs\u{202c}"), "pmirhs");
        let joined = "\u{645}\u{6cc}\u{200c}\u{62e}";
        assert_eq!(one_spelling(joined), joined);
        assert_eq!(one_spelling("a\u{200d}b"), "ab");
    }
}
