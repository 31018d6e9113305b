//! Whose figures are shown to whom: nobody is ranked in public.

use crate::cook::Cook;
use crate::units::InputError;

/// A kitchen's setting for figures by cook.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum CookFigures {
    /// A cook sees her or his own figures, and everybody else's together.
    #[default]
    Own,
    /// Each cook's figures are shown by themselves with the names hidden,
    /// apart from those of the cook who asks. With two cooks that hides little.
    Hidden,
}

impl CookFigures {
    /// Its word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Own => "own",
            Self::Hidden => "hidden",
        }
    }

    /// Reads its word. `field` says where it was typed, for the error.
    ///
    /// # Errors
    /// Anything but `own` or `hidden`.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        match text.trim() {
            "own" => Ok(Self::Own),
            "hidden" => Ok(Self::Hidden),
            _ => Err(InputError::new(
                field,
                text,
                problem!("not-cooks-setting"),
                expected!("cooks-setting"),
            )),
        }
    }
}

/// What a cook's figures stand under.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum CookLabel {
    /// The cook who asks, by initials.
    Asking(Cook),
    /// A cook whose name is hidden, numbered by how many portions were made.
    Hidden(usize),
    /// Everybody else together, also portions whose cook was not said.
    Everybody,
}

impl core::fmt::Display for CookLabel {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::Asking(cook) => write!(f, "{cook}"),
            Self::Hidden(number) => write!(f, "cook {number}"),
            Self::Everybody => f.write_str("everybody else"),
        }
    }
}

/// What each cook's figures stand under, in the order given. `cooks` are the
/// cooks with how many portions each made; `None` is a portion whose cook was
/// not said. Numbers go by how many portions were made, which says nothing of
/// how even they were.
#[must_use]
pub fn label_cooks(
    setting: CookFigures,
    asking: Option<&Cook>,
    cooks: &[(Option<Cook>, usize)],
) -> Vec<CookLabel> {
    let mut order: Vec<usize> = (0..cooks.len()).collect();
    order.sort_by_key(|nth| core::cmp::Reverse(cooks[*nth].1));
    let mut labels = vec![CookLabel::Everybody; cooks.len()];
    let mut number = 0;
    for nth in order {
        labels[nth] = match (&cooks[nth].0, setting) {
            (Some(cook), _) if Some(cook) == asking => CookLabel::Asking(cook.clone()),
            (Some(_), CookFigures::Hidden) => {
                number += 1;
                CookLabel::Hidden(number)
            }
            (Some(_), CookFigures::Own) | (None, _) => CookLabel::Everybody,
        };
    }
    labels
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cook(initials: &str) -> Cook {
        Cook::new("cook", initials).unwrap()
    }

    #[test]
    fn nobody_is_named_but_the_cook_who_asks() {
        let cooks = [
            (Some(cook("AB")), 40),
            (Some(cook("MO")), 90),
            (None, 10),
            (Some(cook("ZE")), 70),
        ];
        let words = |setting, asking: Option<&str>| {
            let asking = asking.map(cook);
            label_cooks(setting, asking.as_ref(), &cooks)
                .iter()
                .map(ToString::to_string)
                .collect::<Vec<_>>()
        };
        assert_eq!(
            words(CookFigures::Hidden, Some("AB")),
            ["AB", "cook 1", "everybody else", "cook 2"]
        );
        assert_eq!(
            words(CookFigures::Own, Some("MO")),
            ["everybody else", "MO", "everybody else", "everybody else"]
        );
        for setting in [CookFigures::Own, CookFigures::Hidden] {
            for words in words(setting, None) {
                assert!(!["AB", "MO", "ZE"].contains(&words.as_str()), "{words}");
            }
        }
    }
}
