//! What is said to a person on the command line is said in each language: no
//! word is left in English, no figure changes, and machines are told the same.
//!
//! Every command is run in English and in every other language on the same
//! store. What is the same in two languages is a name, a unit or a word of the
//! short lists below; a new English sentence in the code fails here.

use crate::at_saltmarsh::Kitchen;
use evenhand_kitchen::brine;
use evenhand_kitchen::heat::ORGANISMS;
use evenhand_kitchen::limits::{Limits, Region};
use evenhand_kitchen::probe::TOLERANCES;
use evenhand_kitchen::uptake::PUBLISHED;
use std::cell::RefCell;
use std::sync::LazyLock;

/// The languages besides English.
pub const OTHERS: [&str; 2] = ["es", "fr"];

/// English words that neither Spanish nor French has.
const ENGLISH: &str = "the of is are was were be been and or with within from by this that these \
    which what where when who why how it its there then than not nothing none never only too very \
    write choose say said see look give put take make made kept keep held left such above below \
    over under between before after again already still yet later earlier first last next each \
    every other another both whole given wanted needed known unknown must cannot should does \
    did has have had for at to into out up down off one two three log probe limit reading readings \
    weight weighed weighing brine salt water meat cold hot warm oven batch vessel dough flour step \
    steps ready due turn taken name named number day days hour hours week month \
    temperature level scale sugar line file folder record recorded";

/// Words that are the same in every language: units and their exponents, keys
/// of files, and what a publication is called.
const SAME: &str = "degC degF min ppm log10 kg oz lb ml cl dl oiml jcgm fsis usda fda haccp sous \
    vide utc json toml csv evenhand k z";

fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| word.chars().count() > 1 && word.chars().any(char::is_alphabetic))
}

/// The names of publications, which are said in their own language.
static SOURCES: LazyLock<Vec<String>> = LazyLock::new(|| {
    let mut sources: Vec<String> = [Region::Us, Region::Eu]
        .into_iter()
        .flat_map(|region| {
            let limits = Limits::published(region);
            let all: Vec<String> = limits
                .iter()
                .flat_map(|limit| [limit.source.document.clone(), limit.source.section.clone()])
                .collect();
            all
        })
        .collect();
    let publications = [
        brine::BRINE_HEAT,
        brine::EXPANSION,
        brine::HEATS,
        brine::SUGAR_MODEL,
    ];
    let meat = brine::MEAT_WATER.iter().map(|kind| kind.source);
    let published = publications.into_iter().chain(meat).chain([TOLERANCES]);
    sources.extend(published.map(|source| source.title.to_owned()));
    sources.extend(PUBLISHED.map(|source| source.title.to_owned()));
    sources.extend(ORGANISMS.map(|organism| organism.source.title.to_owned()));
    sources.sort_by_key(|source| std::cmp::Reverse(source.len()));
    sources.dedup();
    sources
});

/// A line without what is no word of a language: what stands between
/// backquotes or double quotes, flags, the names of publications, and `names`.
fn prose(line: &str, names: &[&str]) -> String {
    let mut line = line.to_owned();
    for source in SOURCES.iter() {
        line = line.replace(source.as_str(), " ");
    }
    for name in names {
        line = line.replace(name, " ");
    }
    for quote in ['`', '"'] {
        line = line.split(quote).step_by(2).collect::<Vec<_>>().join(" ");
    }
    // A command or a word to type, quoted as its language does.
    line = line
        .split(['«', '»'])
        .step_by(2)
        .collect::<Vec<_>>()
        .join(" ");
    line.split_whitespace()
        .filter(|word| !word.trim_start_matches('(').starts_with("--"))
        .collect::<Vec<_>>()
        .join(" ")
}

/// The words of a line that are no unit and no name.
fn said(line: &str, names: &[&str]) -> Vec<String> {
    words(&prose(line, names))
        .filter(|word| {
            !SAME
                .split_whitespace()
                .any(|same| same.eq_ignore_ascii_case(word))
        })
        .filter(|word| !word.chars().any(|letter| letter.is_ascii_digit()))
        .map(str::to_lowercase)
        .collect()
}

/// Every figure of a text, in order of size, with a decimal point.
fn figures(text: &str) -> Vec<String> {
    let mut figures = Vec::new();
    let letters: Vec<char> = text.chars().collect();
    let digit = |place: Option<usize>| {
        place
            .and_then(|place| letters.get(place))
            .is_some_and(char::is_ascii_digit)
    };
    let mut figure = String::new();
    for (place, letter) in letters.iter().enumerate() {
        match letter {
            letter if letter.is_ascii_digit() => figure.push(*letter),
            '.' | ',' if digit(place.checked_sub(1)) && digit(place.checked_add(1)) => {
                figure.push('.');
            }
            _ if figure.is_empty() => {}
            _ => figures.push(std::mem::take(&mut figure)),
        }
    }
    figures.extend((!figure.is_empty()).then_some(figure));
    figures.sort();
    figures
}

/// What is wrong with what a command says in a language, against what it says
/// in English.
pub fn findings(english: &str, other: &str, names: &[&str]) -> Vec<String> {
    let mut found = Vec::new();
    let (lines, others) = (english.lines().count(), other.lines().count());
    if lines != others {
        found.push(format!("{lines} lines in English, {others}:\n{other}"));
    }
    for (english, other) in english.lines().zip(other.lines()) {
        let (before, after) = (said(english, names), said(other, names));
        if !before.is_empty() && before == after {
            found.push(format!("is the same: {other}"));
        }
        let left: Vec<&String> = after
            .iter()
            .filter(|word| ENGLISH.split_whitespace().any(|english| english == *word))
            .collect();
        if !left.is_empty() {
            found.push(format!("has {left:?} left in it: {other}"));
        }
    }
    let without = |text: &str| {
        names
            .iter()
            .fold(text.to_owned(), |text, name| text.replace(name, " "))
    };
    let (before, after) = (figures(&without(english)), figures(&without(other)));
    if before != after {
        found.push(format!(
            "other figures: {before:?}\n{after:?}\n{english}\n{other}"
        ));
    }
    found
}

/// What is written, and what is complained of.
pub fn all_of(kitchen: &Kitchen, language: &str, arguments: &[&str]) -> String {
    let out = kitchen.evenhand(&[&["--language", language], arguments].concat());
    let text = |bytes| String::from_utf8(bytes).unwrap();
    text(out.stdout) + &text(out.stderr)
}

/// A kitchen with the same on record.
fn copy_of(kitchen: &Kitchen) -> Kitchen {
    let copy = Kitchen::new();
    let (from, to) = (kitchen.0.path().join("data"), copy.0.path().join("data"));
    if from.exists() {
        std::fs::create_dir(&to).unwrap();
        for file in std::fs::read_dir(from).unwrap() {
            let file = file.unwrap();
            std::fs::copy(file.path(), to.join(file.file_name())).unwrap();
        }
    }
    copy
}

/// What was found wrong with the commands of a test, all of it told at its end.
#[derive(Default)]
pub struct Faults(RefCell<Vec<String>>);

impl Drop for Faults {
    fn drop(&mut self) {
        let faults = self.0.borrow();
        assert!(
            faults.is_empty() || std::thread::panicking(),
            "{}",
            faults.join("\n\n")
        );
    }
}

impl Faults {
    pub fn add(&self, arguments: &[&str], language: &str, found: &[String]) {
        if !found.is_empty() {
            let found = found.join("\n");
            let fault = format!("{arguments:?} in {language}:\n{found}");
            self.0.borrow_mut().push(fault);
        }
    }

    /// A command that changes nothing, in every language on the same store.
    /// Where the minute changed meanwhile, it is asked again.
    pub fn speaks(&self, kitchen: &Kitchen, names: &[&str], arguments: &[&str]) {
        let asked = || {
            let english = all_of(kitchen, "en", arguments);
            let said = OTHERS.map(|language| all_of(kitchen, language, arguments));
            let same = all_of(kitchen, "en", arguments) == english;
            (same, english, said)
        };
        let (same, mut english, mut said) = asked();
        if !same {
            (_, english, said) = asked();
        }
        assert!(!english.is_empty(), "{arguments:?} says nothing");
        for (language, said) in OTHERS.iter().zip(said) {
            self.add(arguments, language, &findings(&english, &said, names));
        }
    }

    /// A command that changes the store, in each language on a copy of one.
    pub fn does(&self, made: impl Fn() -> Kitchen, names: &[&str], arguments: &[&str]) {
        let first = made();
        let run = |language| {
            let kitchen = copy_of(&first);
            let folder = kitchen.0.path().display().to_string();
            all_of(&kitchen, language, arguments).replace(&folder, "")
        };
        let english = run("en");
        let said = OTHERS.map(run);
        assert!(!english.is_empty(), "{arguments:?} says nothing");
        for (language, said) in OTHERS.iter().zip(said) {
            self.add(arguments, language, &findings(&english, &said, names));
        }
    }

    /// Machines are told the same in every language.
    pub fn tells_machines(&self, kitchen: &Kitchen, arguments: &[&str]) {
        let json = [arguments, &["--json"]].concat();
        let told = |language| {
            let out = kitchen.evenhand(&[&["--language", language][..], &json].concat());
            String::from_utf8(out.stdout).unwrap()
        };
        let asked = || {
            let (english, others) = (told("en"), OTHERS.map(told));
            let same = told("en") == english;
            (same, english, others)
        };
        let (same, mut english, mut others) = asked();
        if !same {
            (_, english, others) = asked();
        }
        assert!(!english.is_empty(), "{arguments:?} says nothing");
        for (language, other) in OTHERS.iter().zip(others) {
            if other != english {
                self.add(&json, language, &[format!("{english}\n{other}")]);
            }
        }
    }
}

/// The tests below can fail: a line of English, a word of it and another figure
/// are found.
#[test]
fn what_is_left_in_english_is_found() {
    let english = "limit: at most 5.0 degC\n";
    assert!(findings(english, "límite: 5,0 degC como máximo\n", &[]).is_empty());
    for (other, expected) in [
        ("limit: at most 5,0 degC\n", "is the same"),
        ("límite: at most 5,0 degC\n", "left in it"),
        ("límite: 5,1 degC como máximo\n", "other figures"),
        ("límite: 5,0 degC\ncomo máximo\n", "2:"),
    ] {
        let found = findings(english, other, &[]).join("\n");
        assert!(found.contains(expected), "{other:?}: {found}");
    }
}
