//! Pictures of a dish or a formula, for whoever takes it over.

use super::file::LONGEST;
use crate::units::InputError;
use crate::units::{Reason, typed};
use crate::written_name;
use serde::{Deserialize, Serialize};

/// As many pictures as one dish or formula has: what a page has room for.
pub const MOST_PICTURES: usize = 6;

/// A picture's number in the store.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct PictureId(pub i64);

impl core::fmt::Display for PictureId {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        self.0.fmt(f)
    }
}

/// What a picture is of, and what stands under it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pictured {
    of: String,
    caption: String,
}

impl Pictured {
    /// A picture of the dish, formula or preparation of that name; the caption
    /// may be empty.
    ///
    /// # Errors
    /// A name or a caption that is none.
    pub fn new(of: &str, caption: &str) -> Result<Self, InputError> {
        let caption = match caption.trim() {
            "" => String::new(),
            caption => written_name::name("caption", caption, 200, "scored once, lengthwise")?,
        };
        Ok(Self {
            of: written_name::name("name", of, 60, "tideline loaf")?,
            caption,
        })
    }

    /// What it is of.
    #[must_use]
    pub fn of(&self) -> &str {
        &self.of
    }

    /// What stands under it; empty where nothing does.
    #[must_use]
    pub fn caption(&self) -> &str {
        &self.caption
    }

    /// By what its name is found, in any case.
    #[must_use]
    pub fn key(&self) -> String {
        picture_key(&self.of)
    }
}

/// By what the pictures of a name are found, in any case and spelling.
#[must_use]
pub fn picture_key(of: &str) -> String {
    written_name::one_spelling(of).to_lowercase()
}

/// The pictures of one name as a text beside their files.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PictureList {
    /// What they are of.
    pub of: String,
    /// Each file's plain name, with what stands under the picture.
    pub files: Vec<(String, Pictured)>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct ListText {
    of: String,
    #[serde(default)]
    picture: Vec<PictureText>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PictureText {
    file: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    caption: String,
}

impl PictureList {
    /// Reads the list's TOML.
    ///
    /// # Errors
    /// What makes no sense: more pictures than there is room for, none, one
    /// named twice, or a file that does not lie beside the list.
    pub fn from_toml(toml: &str) -> Result<Self, InputError> {
        let wrong = |value: &str, problem: Reason, expected: Reason| {
            InputError::new("pictures", value, problem, expected)
        };
        if toml.len() > LONGEST {
            return Err(wrong(
                &format!("{} bytes", toml.len()),
                problem!("longer-than-pictures"),
                expected!("most-bytes", most = LONGEST),
            ));
        }
        let text: ListText = toml::from_str(toml).map_err(|error| {
            wrong(
                error.message(),
                problem!("no-list-of-pictures"),
                expected!("picture-list"),
            )
        })?;
        if text.picture.is_empty() || text.picture.len() > MOST_PICTURES {
            return Err(wrong(
                &text.picture.len().to_string(),
                problem!("pictures-count"),
                expected!("from-to", low = 1, high = MOST_PICTURES),
            ));
        }
        let mut files: Vec<(String, Pictured)> = Vec::new();
        for PictureText { file, caption } in text.picture {
            let plain = !file.starts_with('.')
                && !file.contains(['/', '\\', ':'])
                && !file.chars().any(char::is_control)
                && file.rsplit_once('.').is_some_and(|(stem, ending)| {
                    !stem.is_empty()
                        && matches!(ending.to_lowercase().as_str(), "jpg" | "jpeg" | "png")
                });
            if !plain {
                return Err(wrong(
                    &file,
                    problem!("no-picture-beside"),
                    expected!("file-alone"),
                ));
            }
            if files.iter().any(|(known, _)| *known == file) {
                return Err(wrong(
                    &file,
                    problem!("listed-twice"),
                    expected!("each-once"),
                ));
            }
            files.push((file, Pictured::new(&text.of, &caption)?));
        }
        let of = files
            .first()
            .map_or_else(String::new, |(_, first)| first.of.clone());
        Ok(Self { of, files })
    }

    /// Writes the list; reading it gives the same one.
    ///
    /// # Errors
    /// None that a list can cause; what the writer reports is handed on.
    pub fn to_toml(&self) -> Result<String, InputError> {
        let text = ListText {
            of: self.of.clone(),
            picture: self
                .files
                .iter()
                .map(|(file, pictured)| PictureText {
                    file: file.clone(),
                    caption: pictured.caption.clone(),
                })
                .collect(),
        };
        toml::to_string(&text).map_err(|error| {
            InputError::new(
                "pictures",
                &self.of,
                problem!("cannot-be-written", why = typed(error.to_string())),
                expected!("tell-maintainer"),
            )
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_caption_may_be_empty_and_is_one_line() {
        let plain = Pictured::new(" Tideline  Loaf", " ").unwrap();
        assert_eq!((plain.of(), plain.caption()), ("Tideline Loaf", ""));
        assert_eq!(plain.key(), picture_key("tideline loaf"));
        for (of, caption, field) in [
            ("", "", "name"),
            ("loaf", "scored\nonce", "caption"),
            ("loaf", "\u{1b}[2J", "caption"),
        ] {
            let error = Pictured::new(of, caption).unwrap_err();
            assert_eq!(error.field(), field, "{error}");
        }
        assert!(Pictured::new("loaf", &"x".repeat(201)).is_err());
    }

    #[test]
    fn a_list_is_read_back_and_names_nothing_outside_its_folder() {
        let list = "of = \"tideline loaf\"\n\n[[picture]]\nfile = \"tideline-loaf-1.jpg\"\n\
                    caption = \"scored \\\"once\\\", lengthwise\"\n\n[[picture]]\nfile = \"crumb.PNG\"\n";
        let read = PictureList::from_toml(list).unwrap();
        assert_eq!(
            PictureList::from_toml(&read.to_toml().unwrap()).unwrap(),
            read
        );
        assert_eq!(read.files[0].1.caption(), "scored \"once\", lengthwise");
        for outside in [
            "../crumb.png",
            "/tmp/crumb.png",
            "sub/crumb.png",
            "..\\\\crumb.png",
            "C:crumb.png",
            ".png",
            "crumb.toml",
            "tideline-loaf-1.jpg",
        ] {
            let error = PictureList::from_toml(&list.replace("crumb.PNG", outside)).unwrap_err();
            assert_eq!(error.field(), "pictures", "{outside}");
        }
        for wrong in [
            "",
            "of = 1",
            "of = \"loaf\"",
            &list.replace("of =", "from ="),
            &list.replace("tideline loaf", ""),
        ] {
            assert!(PictureList::from_toml(wrong).is_err(), "{wrong}");
        }
    }
}
