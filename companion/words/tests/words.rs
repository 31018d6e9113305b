//! Every word that the code says is in the files, in every language, and
//! nothing else is.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod held_together;

use evenhand_words::Language;
use held_together::{Code, Words, code_of, findings, read, words_of};
use std::path::Path;

/// The crates that say something.
const CRATES: &[&str] = &["app", "cli", "use-cases"];

/// The crates that give reasons why something typed cannot be used. The sentences lie with
/// the kitchen and are said by the use cases.
const REASONING: &[&str] = &["app", "cli", "kitchen", "store"];

#[test]
fn what_the_code_says_and_what_the_files_hold_are_the_same() {
    let root = |name: &str| Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(name);
    let mut messages = 0;
    for name in CRATES {
        let (mut words, code) = read(&root(name));
        let says_reasons = *name == "use-cases";
        if says_reasons {
            words.extend(words_of(&root("kitchen")));
        }
        let reasoning = REASONING.iter().filter(|_| says_reasons);
        let elsewhere: Vec<Code> = reasoning.flat_map(|it| code_of(&root(it))).collect();
        let found = findings(&words, &code, &elsewhere);
        assert!(found.is_empty(), "in {name}:\n{}", found.join("\n"));
        messages += words
            .iter()
            .filter(|file| file.language == "en")
            .map(|file| file.text.matches("\n").count())
            .sum::<usize>();
    }
    // The files were read: an empty folder does not make this pass.
    assert!(messages > 50, "{messages} lines");
}

/// A feature in three languages and code that says it all.
fn sound() -> (Vec<Words>, Vec<Code>) {
    let words = |language: &str, title: &str, one: &str, other: &str| Words {
        feature: "bench".to_owned(),
        language: language.to_owned(),
        text: format!(
            "bench-title = {title}\n\
             bench-left = {{ $count ->\n    [one] {{ $count }} {one}\n   *[other] {{ $count }} {other} {{ $dish }}\n}}\n"
        ),
    };
    (
        vec![
            words("en", "Bench", "portion", "portions of"),
            words("es", "Mesa", "ración", "raciones de"),
            words("fr", "Poste", "portion", "portions de"),
        ],
        vec![Code {
            path: "src/bench.rs".to_owned(),
            text: "evenhand_words::catalogue! { pub(crate) WORDS: \"bench\" }\n\
                   // say!(language, \"in-a-comment\")\n\
                   let title = say!(words::of(ui), \"bench-title\");\n\
                   let left = say!(language, \"bench-left\", count = a.len(), dish = f(\"x, y\"));\n"
                .to_owned(),
        }],
    )
}

#[track_caller]
fn refused(spoil: impl FnOnce(&mut Vec<Words>, &mut Vec<Code>), expected: &str) {
    let (mut words, mut code) = sound();
    assert_eq!(findings(&words, &code, &[]), Vec::<String>::new());
    spoil(&mut words, &mut code);
    let found = findings(&words, &code, &[]);
    assert!(
        found.iter().any(|finding| finding.contains(expected)),
        "expected {expected:?}, found {found:#?}"
    );
}

fn replace(file: &mut Words, old: &str, new: &str) {
    assert!(file.text.contains(old), "{:?} lacks {old:?}", file.text);
    file.text = file.text.replace(old, new);
}

#[test]
fn a_key_that_no_file_has_is_found() {
    refused(
        |_, code| {
            code[0]
                .text
                .push_str("say!(language, \"bench-nowhere\");\n")
        },
        "src/bench.rs: bench-nowhere is in no English file",
    );
}

#[test]
fn a_failure_says_a_message_too() {
    refused(
        |_, code| code[0].text.push_str("bad_input!(\"bench-nowhere\");\n"),
        "src/bench.rs: bench-nowhere is in no English file",
    );
}

/// A reason that is given in one crate has its sentence in another's files.
#[test]
fn a_reason_without_a_sentence_is_found_wherever_it_is_given() {
    let (mut words, code) = sound();
    for file in &mut words {
        file.text.push_str("problem-too-long = { $longest }\n");
    }
    let given = |text: &str| {
        let elsewhere = Code {
            path: "src/elsewhere.rs".to_owned(),
            text: text.to_owned(),
        };
        findings(&words, &code, &[elsewhere])
    };
    assert_eq!(
        given("problem!(\"too-long\", longest = 40)"),
        Vec::<String>::new()
    );
    assert_eq!(
        given("problem!(\"too-long\", longest = 40); problem!(\"no-unit\")"),
        ["src/elsewhere.rs: problem-no-unit is in no English file"]
    );
    assert_eq!(
        given(""),
        ["bench/en.ftl: problem-too-long is said by no code"]
    );
    assert_eq!(
        given("problem!(\"too-long\")"),
        ["src/elsewhere.rs: problem-too-long is given nothing and speaks of longest"]
    );
}

#[test]
fn a_key_that_no_code_says_is_found() {
    refused(
        |words, _| {
            for file in words {
                file.text.push_str("bench-idle = Idle\n");
            }
        },
        "bench/en.ftl: bench-idle is said by no code",
    );
}

#[test]
fn a_key_that_a_language_lacks_or_has_alone_is_found() {
    refused(
        |words, _| replace(&mut words[1], "bench-title = Mesa\n", ""),
        "bench/es.ftl: bench-title is missing",
    );
    refused(
        |words, _| words[2].text.push_str("bench-encore = Encore\n"),
        "bench/fr.ftl: bench-encore is not in English",
    );
}

#[test]
fn a_language_without_a_file_is_found() {
    refused(
        |words, _| {
            words.remove(2);
        },
        "bench/fr.ftl is missing",
    );
    refused(
        |words, _| words[2].language = "de".to_owned(),
        "bench/de.ftl is of no language",
    );
}

#[test]
fn other_placeables_than_in_english_are_found() {
    refused(
        |words, _| replace(&mut words[1], "raciones de { $dish }", "raciones"),
        "bench/es.ftl: bench-left speaks of $count, in English of $count, $dish",
    );
    refused(
        |words, _| replace(&mut words[2], "Poste", "Poste { $dish }"),
        "bench/fr.ftl: bench-title speaks of $dish, in English of nothing",
    );
}

#[test]
fn what_the_code_gives_and_the_message_does_not_speak_of_is_found() {
    refused(
        |_, code| {
            code[0].text = code[0].text.replace("dish = f(\"x, y\")", "mass = 3");
        },
        "src/bench.rs: bench-left is given count, mass and speaks of count, dish",
    );
}

#[test]
fn a_key_twice_is_found() {
    refused(
        |words, _| words[0].text.push_str("bench-title = Again\n"),
        "bench/en.ftl: bench-title is there twice",
    );
    refused(
        |words, code| {
            for language in ["en", "es", "fr"] {
                words.push(Words {
                    feature: "scale".to_owned(),
                    language: language.to_owned(),
                    text: "bench-title = Again\n".to_owned(),
                });
            }
            code[0].text = code[0]
                .text
                .replace("\"bench\" }", "\"bench\", \"scale\" }");
        },
        "scale/en.ftl: bench-title is there twice",
    );
}

#[test]
fn what_is_no_fluent_is_found() {
    refused(
        |words, _| words[1].text.push_str("bench-broken = { $never\n"),
        "bench/es.ftl is broken",
    );
    refused(
        |words, _| words[1].text.push_str("bench-hint =\n    .tip = Tip\n"),
        "bench/es.ftl: bench-hint: attributes are not used",
    );
}

#[test]
fn a_feature_that_is_not_built_in_is_found() {
    refused(
        |_, code| code[0].text = code[0].text.replace("\"bench\" }", "\"scale\" }"),
        "words/bench is in no catalogue!",
    );
    refused(
        |_, code| code[0].text = code[0].text.replace("\"bench\" }", "\"bench\", \"heat\" }"),
        "the catalogue! names heat, and words/heat is not there",
    );
}

#[test]
fn a_key_that_is_no_literal_is_found() {
    refused(
        |_, code| code[0].text.push_str("say!(language, key);\n"),
        "src/bench.rs: say!(language, key) has no literal key",
    );
}

/// A word that is the same in another language may be a word that nobody
/// translated. What is the same on purpose is listed.
#[test]
fn a_sentence_is_not_left_in_english() {
    refused(
        |words, _| {
            replace(&mut words[0], "= Bench", "= Put an empty dish on");
            replace(&mut words[1], "= Mesa", "= Put an empty dish on");
        },
        "bench/es.ftl: bench-title is still English",
    );
}

#[test]
fn every_language_has_its_files_by_its_code() {
    let codes: Vec<_> = Language::ALL.into_iter().map(Language::code).collect();
    assert_eq!(codes, held_together::LANGUAGES);
}
