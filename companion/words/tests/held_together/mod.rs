//! What holds code and words together: read, compared, and said where not.

use fluent_syntax::ast::{
    Entry, Expression, InlineExpression, Message, Pattern, PatternElement, Resource,
};
use fluent_syntax::parser::parse;
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// Every language has a file of each feature.
pub const LANGUAGES: [&str; 3] = ["en", "es", "fr"];

/// A macro that says a message: its name, which of its arguments is the key, and
/// what stands before that in the files.
pub type Saying = (&'static str, usize, &'static str);

/// The macros that say a message of the crate they stand in.
pub const SAYING: &[Saying] = &[
    ("say!", 1, ""),
    ("said!", 0, ""),
    ("bad_input!", 0, ""),
    ("failed!", 0, ""),
];

/// The macros that make a reason, wherever they stand: its sentence lies with the kitchen.
pub const REASONS: &[Saying] = &[("problem!", 0, "problem-"), ("expected!", 0, "expected-")];

/// A file of words.
pub struct Words {
    /// The feature that says them.
    pub feature: String,
    /// The code of the language.
    pub language: String,
    /// The file's text.
    pub text: String,
}

/// A file of code.
pub struct Code {
    /// Where it is.
    pub path: String,
    /// Its text.
    pub text: String,
}

/// The words and the code of a crate.
pub fn read(root: &Path) -> (Vec<Words>, Vec<Code>) {
    (words_of(root), code_of(root))
}

/// The words that lie with a crate.
pub fn words_of(root: &Path) -> Vec<Words> {
    let mut words = Vec::new();
    for folder in entries(&root.join("words")) {
        for file in entries(&folder) {
            assert!(
                file.extension().is_some_and(|end| end == "ftl"),
                "{} is no file of words",
                file.display()
            );
            words.push(Words {
                feature: folder.file_name().unwrap().to_str().unwrap().to_owned(),
                language: file.file_stem().unwrap().to_str().unwrap().to_owned(),
                text: fs::read_to_string(&file).unwrap(),
            });
        }
    }
    words
}

/// The code of a crate.
pub fn code_of(root: &Path) -> Vec<Code> {
    let mut code = Vec::new();
    let mut open = vec![root.join("src")];
    while let Some(folder) = open.pop() {
        for path in entries(&folder) {
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|end| end == "rs") {
                code.push(Code {
                    path: path.strip_prefix(root).unwrap().display().to_string(),
                    text: fs::read_to_string(&path).unwrap(),
                });
            }
        }
    }
    code
}

fn entries(folder: &Path) -> Vec<std::path::PathBuf> {
    let read = fs::read_dir(folder).unwrap_or_else(|why| panic!("{}: {why}", folder.display()));
    let mut entries: Vec<_> = read.map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    entries
}

/// What a message speaks of, and its words alone.
#[derive(Default)]
struct Spoken {
    of: BTreeSet<String>,
    text: String,
}

/// What does not hold together. `elsewhere` is the code of other crates, which says
/// nothing of these files but reasons; it is empty where the files hold none.
pub fn findings(words: &[Words], code: &[Code], elsewhere: &[Code]) -> Vec<String> {
    let mut found = Vec::new();
    let mut languages: BTreeMap<&str, BTreeMap<String, (&str, Spoken)>> = BTreeMap::new();
    let mut there: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for file in words {
        let name = format!("{}/{}.ftl", file.feature, file.language);
        if !LANGUAGES.contains(&file.language.as_str()) {
            found.push(format!("{name} is of no language"));
            continue;
        }
        there
            .entry(file.feature.as_str())
            .or_default()
            .insert(file.language.as_str());
        let messages = languages.entry(file.language.as_str()).or_default();
        for message in messages_of(&name, &file.text, &mut found) {
            let key = message.id.name.to_owned();
            let spoken = spoken(&message);
            if messages
                .insert(key.clone(), (file.feature.as_str(), spoken))
                .is_some()
            {
                found.push(format!("{name}: {key} is there twice"));
            }
        }
    }
    for (feature, there) in &there {
        for language in LANGUAGES {
            if !there.contains(language) {
                found.push(format!("{feature}/{language}.ftl is missing"));
            }
        }
    }
    languages_agree(&languages, &mut found);
    code_agrees(&languages, &there, code, elsewhere, &mut found);
    found
}

fn messages_of<'t>(name: &str, text: &'t str, found: &mut Vec<String>) -> Vec<Message<&'t str>> {
    let resource: Resource<&str> = match parse(text) {
        Ok(resource) => resource,
        Err((resource, why)) => {
            for why in why {
                found.push(format!("{name} is broken: {why}"));
            }
            resource
        }
    };
    let mut messages = Vec::new();
    for entry in resource.body {
        match entry {
            Entry::Message(message) => {
                if !message.attributes.is_empty() {
                    found.push(format!(
                        "{name}: {}: attributes are not used",
                        message.id.name
                    ));
                }
                messages.push(message);
            }
            // A term is of use in its own file only.
            Entry::Term(_)
            | Entry::Comment(_)
            | Entry::GroupComment(_)
            | Entry::ResourceComment(_)
            | Entry::Junk { .. } => {}
        }
    }
    messages
}

fn spoken(message: &Message<&str>) -> Spoken {
    let mut spoken = Spoken::default();
    if let Some(pattern) = &message.value {
        of_pattern(pattern, &mut spoken);
    }
    spoken
}

fn of_pattern(pattern: &Pattern<&str>, spoken: &mut Spoken) {
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => spoken.text.push_str(value),
            PatternElement::Placeable { expression } => of_expression(expression, spoken),
        }
    }
}

fn of_expression(expression: &Expression<&str>, spoken: &mut Spoken) {
    match expression {
        Expression::Inline(inline) => of_inline(inline, spoken),
        Expression::Select { selector, variants } => {
            of_inline(selector, spoken);
            for variant in variants {
                of_pattern(&variant.value, spoken);
            }
        }
    }
}

fn of_inline(inline: &InlineExpression<&str>, spoken: &mut Spoken) {
    match inline {
        InlineExpression::VariableReference { id } => {
            spoken.of.insert(id.name.to_owned());
        }
        InlineExpression::Placeable { expression } => of_expression(expression, spoken),
        InlineExpression::StringLiteral { .. }
        | InlineExpression::NumberLiteral { .. }
        | InlineExpression::FunctionReference { .. }
        | InlineExpression::MessageReference { .. }
        | InlineExpression::TermReference { .. } => {}
    }
}

fn named(of: &BTreeSet<String>, before: &str) -> String {
    if of.is_empty() {
        return "nothing".to_owned();
    }
    let named: Vec<_> = of.iter().map(|name| format!("{before}{name}")).collect();
    named.join(", ")
}

type Languages<'t> = BTreeMap<&'t str, BTreeMap<String, (&'t str, Spoken)>>;

fn languages_agree(languages: &Languages<'_>, found: &mut Vec<String>) {
    let nothing = BTreeMap::new();
    let english = languages.get("en").unwrap_or(&nothing);
    for language in LANGUAGES.into_iter().filter(|language| *language != "en") {
        let other = languages.get(language).unwrap_or(&nothing);
        for (key, (feature, spoken)) in english {
            let Some((their_feature, theirs)) = other.get(key) else {
                found.push(format!("{feature}/{language}.ftl: {key} is missing"));
                continue;
            };
            if their_feature != feature {
                found.push(format!(
                    "{their_feature}/{language}.ftl: {key} is in {feature} in English"
                ));
            }
            if theirs.of != spoken.of {
                found.push(format!(
                    "{feature}/{language}.ftl: {key} speaks of {}, in English of {}",
                    named(&theirs.of, "$"),
                    named(&spoken.of, "$")
                ));
            }
            // Single words are often the same: portion, service, net.
            let words = spoken.text.split(|c: char| !c.is_alphanumeric());
            let words = words.filter(|word| !word.is_empty()).count();
            if theirs.text == spoken.text && words > 2 {
                found.push(format!("{feature}/{language}.ftl: {key} is still English"));
            }
        }
        for (key, (feature, _)) in other {
            if !english.contains_key(key) {
                found.push(format!("{feature}/{language}.ftl: {key} is not in English"));
            }
        }
    }
}

fn code_agrees(
    languages: &Languages<'_>,
    there: &BTreeMap<&str, BTreeSet<&str>>,
    code: &[Code],
    elsewhere: &[Code],
    found: &mut Vec<String>,
) {
    let nothing = BTreeMap::new();
    let english = languages.get("en").unwrap_or(&nothing);
    let mut said = BTreeSet::new();
    let mut built_in = BTreeSet::new();
    // Reasons are looked up where some are written.
    let reasons = english.keys().any(|key| key.starts_with("problem-"));
    let here = code.iter().map(|file| (file, true));
    for (file, here) in here.chain(elsewhere.iter().map(|file| (file, false))) {
        let text = without_comments(&file.text);
        let reasons = REASONS.iter().filter(|_| reasons);
        let saying = SAYING.iter().filter(|_| here).chain(reasons);
        for arguments in calls(&text, "catalogue!") {
            if !here {
                continue;
            }
            built_in.extend(
                arguments
                    .iter()
                    .filter_map(|argument| argument.rsplit(':').next())
                    .filter_map(literal)
                    // Words that lie with another crate are named by where they are.
                    .map(|feature| feature.rsplit('/').next().unwrap_or_default().to_owned()),
            );
        }
        let said_here = saying.flat_map(|(name, key, before)| {
            let of = calls(&text, name).into_iter();
            of.map(move |of| (*key, *before, of))
        });
        for (place, before, arguments) in said_here {
            // The macro of the crate itself, which hands its arguments on.
            if arguments.iter().any(|argument| argument.contains('$')) {
                continue;
            }
            let Some(key) = arguments.get(place).and_then(|key| literal(key)) else {
                found.push(format!(
                    "{}: say!({}) has no literal key",
                    file.path,
                    arguments.join(", ")
                ));
                continue;
            };
            let key = format!("{before}{key}");
            let given: BTreeSet<String> = arguments
                .iter()
                .skip(place + 1)
                .filter_map(|argument| argument.split_once('='))
                .map(|(name, _)| name.trim().to_owned())
                .collect();
            match english.get(&key) {
                None => found.push(format!("{}: {key} is in no English file", file.path)),
                Some((_, spoken)) if spoken.of != given => found.push(format!(
                    "{}: {key} is given {} and speaks of {}",
                    file.path,
                    named(&given, ""),
                    named(&spoken.of, "")
                )),
                Some(_) => {}
            }
            said.insert(key);
        }
    }
    for (key, (feature, _)) in english {
        if !said.contains(key) {
            found.push(format!("{feature}/en.ftl: {key} is said by no code"));
        }
    }
    for feature in there.keys() {
        if !built_in.contains(*feature) {
            found.push(format!("words/{feature} is in no catalogue!"));
        }
    }
    for feature in built_in {
        if !there.contains_key(feature.as_str()) {
            found.push(format!(
                "the catalogue! names {feature}, and words/{feature} is not there"
            ));
        }
    }
}

/// A literal without its quotes.
fn literal(argument: &str) -> Option<String> {
    let inner = argument.trim().strip_prefix('"')?.strip_suffix('"')?;
    Some(inner.to_owned())
}

/// The code without its comments.
fn without_comments(text: &str) -> String {
    text.lines()
        .filter(|line| !line.trim_start().starts_with("//"))
        .collect::<Vec<_>>()
        .join("\n")
}

/// The arguments of each call of a macro, those within others too.
fn calls(text: &str, name: &str) -> Vec<Vec<String>> {
    let mut calls = Vec::new();
    for (at, _) in text.match_indices(name) {
        let before = text[..at].chars().next_back();
        if before.is_some_and(|letter| letter.is_alphanumeric() || letter == '_') {
            continue;
        }
        let after = text[at + name.len()..].trim_start();
        if after.starts_with(['(', '{', '[']) {
            calls.push(arguments(&after[1..]));
        }
    }
    calls
}

/// What stands between commas until the bracket is closed.
fn arguments(text: &str) -> Vec<String> {
    let mut arguments = vec![String::new()];
    let mut depth = 0;
    let mut quoted = false;
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        let last = arguments.last_mut().unwrap();
        if quoted {
            last.push(letter);
            match letter {
                '\\' => last.extend(letters.next()),
                '"' => quoted = false,
                _ => {}
            }
            continue;
        }
        match letter {
            // A single letter in quotes, which may be a bracket.
            '\'' if letters.clone().nth(1) == Some('\'') => {
                last.push(letter);
                last.extend(letters.next());
                last.extend(letters.next());
                continue;
            }
            '"' => quoted = true,
            '(' | '[' | '{' => depth += 1,
            ')' | ']' | '}' if depth == 0 => break,
            ')' | ']' | '}' => depth -= 1,
            ',' if depth == 0 => {
                arguments.push(String::new());
                continue;
            }
            _ => {}
        }
        last.push(letter);
    }
    arguments
        .into_iter()
        .map(|argument| argument.trim().to_owned())
        .filter(|argument| !argument.is_empty())
        .collect()
}
