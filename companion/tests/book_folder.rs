//! `evenhand book`: the whole book as a folder under version control.

use super::running::{json, refused, said};
use std::path::{Path, PathBuf};
use std::process::Command;

const LOAF: &str = "# From the first winter.\nname = \"tideline loaf\"\n\n[[base]]\nname = \"flour\"\n\
                    percent = 100.0\n\n[[other]]\nname = \"water\"\npercent = 70.0 # not a drop more\n";
/// Of a name that makes the same file name as another.
const LOAF_DASHED: &str = "name = \"tideline-loaf\"\n[[base]]\nname = \"rye\"\npercent = 100\n[[other]]\nname = \"water\"\npercent = 90\n";

fn menu(dates: &str, opens: &str) -> String {
    format!(
        "# Of the year.\n{dates}\nopens = \"{opens}\"\n[[resource]]\nname = \"hands\"\nplaces = 2\n\
         [[preparation]]\nname = \"bream\"\nfallback = \"shrimp, potted\"\n\
         [[preparation.step]]\nname = \"fillet\"\ntakes = \"40 min to 1 h\"\nneeds = {{ hands = 2 }}\n"
    )
}

struct Kept {
    here: tempfile::TempDir,
}

impl Kept {
    fn new() -> Self {
        let here = tempfile::tempdir().unwrap();
        for folder in ["data", "again", "repository"] {
            std::fs::create_dir(here.path().join(folder)).unwrap();
        }
        Self { here }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.here.path().join(name)
    }

    fn data(&self) -> PathBuf {
        self.path("data")
    }

    fn keep_menu(&self, name: &str, text: &str, more: &[&str]) {
        let file = self.path(name);
        std::fs::write(&file, text).unwrap();
        let keep = ["prep", "menu", "--keep", file.to_str().unwrap()];
        said(&self.data(), &[&keep[..], more].concat());
    }

    fn keep_goods(&self, text: &str) {
        let file = self.path("goods.toml");
        std::fs::write(&file, text).unwrap();
        let keep = ["prep", "goods", "--keep", file.to_str().unwrap()];
        said(&self.data(), &keep);
    }

    fn formula(&self, name: &str, text: &str) {
        let folder = self.data().join("formulas");
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(folder.join(name), text).unwrap();
    }

    fn git(&self, words: &[&str]) -> String {
        let output = Command::new("git")
            .arg("-C")
            .arg(self.path("repository"))
            .args(["-c", "user.name=Cook", "-c", "user.email=cook@example.org"])
            .args(["-c", "core.autocrlf=false", "-c", "commit.gpgsign=false"])
            .args(words)
            .output()
            .expect("git is there");
        assert!(output.status.success(), "{words:?}: {output:?}");
        String::from_utf8(output.stdout).unwrap()
    }

    fn book(&self, data: &Path, what: &str, more: &[&str]) -> serde_json::Value {
        let folder = self.path("repository");
        json(
            data,
            &[&["book", what, folder.to_str().unwrap()], more].concat(),
        )
    }
}

fn filled() -> Kept {
    let kept = Kept::new();
    // Under a name of the cook's own choosing.
    kept.formula("loaf.toml", LOAF);
    kept.formula("other.toml", LOAF_DASHED);
    kept.keep_menu("spring.toml", &menu("until = \"2026-06-30\"", "18:00"), &[]);
    kept.keep_menu("summer.toml", &menu("from = \"2026-07-01\"", "19:00"), &[]);
    kept.keep_menu("feast.toml", &menu("", "12:00"), &["--for", "2026-05-08"]);
    kept
}

#[test]
fn a_folder_that_went_out_and_in_and_out_shows_no_difference_under_git() {
    for form in ["toml", "csv"] {
        let kept = filled();
        kept.git(&["init", "-q"]);
        let first = kept.book(&kept.data(), "export", &["--form", form]);
        assert_eq!(first["written"], 5, "{first}");
        kept.git(&["add", "-A"]);
        kept.git(&["commit", "-q", "-m", "as it is"]);
        let files = kept.git(&["ls-files"]);
        let wanted = [
            "formulas/tideline-loaf-2",
            "formulas/tideline-loaf",
            "menus/every-day",
            "menus/from-2026-07-01",
            "menus/only-2026-05-08",
        ];
        for file in wanted {
            assert!(
                files.contains(&format!("{file}.{form}\n")),
                "{file}: {files}"
            );
        }
        // Into a kitchen that has nothing yet, and out of it again.
        let again = kept.path("again");
        let read = kept.book(&again, "import", &[]);
        for part in ["formulas", "menus"] {
            let all = read[part].as_array().unwrap();
            assert!(all.iter().all(|it| it["is"] == "new"), "{read}");
        }
        kept.git(&["rm", "-rq", "."]);
        kept.git(&["reset", "-q"]);
        assert!(!kept.path("repository").join("menus").exists());
        kept.book(&again, "export", &["--form", form]);
        assert_eq!(kept.git(&["status", "--porcelain"]), "", "{form}");
        assert_eq!(kept.git(&["diff"]), "", "{form}");
        // It was the folder that came back, and not nothing.
        let loaf = kept
            .path("repository")
            .join(format!("formulas/tideline-loaf.{form}"));
        let text = std::fs::read_to_string(loaf).unwrap();
        assert!(text.contains("tideline loaf"), "{text}");
        assert_eq!(text.contains("not a drop more"), form == "toml");
        // Both kitchens read the same menus of it.
        for day in ["2026-05-08", "2026-06-30", "2026-07-01"] {
            let shown = ["prep", "menu", "--csv", "--for", day];
            assert_eq!(said(&kept.data(), &shown), said(&again, &shown), "{day}");
        }
        // What is there already is not kept again.
        let read = kept.book(&again, "import", &[]);
        let all = read["menus"].as_array().unwrap();
        assert!(all.iter().all(|it| it["is"] == "as it was"), "{read}");
        let written = kept.book(&again, "export", &["--form", form]);
        assert_eq!(written["written"], 0);
    }
}

const GOODS: &str = "# Of the week.\n[[supplier]]\nname = \"Lower Field\"\ndelivers = [\"wed\"]\n\n\
                     [[goods]]\nname = \"eggs\"\nsupplier = \"Lower Field\"\npack = \"30 pieces\"\n\
                     for = [{ per_cover = \"0.5 pieces\" }] # at breakfast none\n";

#[test]
fn goods_go_out_and_in_with_the_book_and_their_counts_stay() {
    for form in ["toml", "csv"] {
        let kept = Kept::new();
        kept.keep_goods(GOODS);
        said(&kept.data(), &["prep", "count", "eggs", "45 pieces"]);
        let out = kept.book(&kept.data(), "export", &["--form", form]);
        assert_eq!(out["files"][0], format!("goods/goods.{form}"), "{out}");
        let file = kept.path("repository").join(format!("goods/goods.{form}"));
        let text = std::fs::read_to_string(&file).unwrap();
        assert_eq!(text.contains("at breakfast none"), form == "toml", "{text}");
        assert!(text.contains("eggs") && !text.contains("45"), "{text}");
        let again = kept.path("again");
        let read = kept.book(&again, "import", &[]);
        assert_eq!(
            (&read["goods"]["is"], &read["goods"]["count"]),
            (&"new".into(), &1.into())
        );
        let table = ["prep", "goods", "--csv"];
        assert_eq!(said(&again, &table), said(&kept.data(), &table));
        // What is there already is not kept again; what is changed is.
        let read = kept.book(&again, "import", &[]);
        assert_eq!(read["goods"]["is"], "as it was", "{read}");
        std::fs::write(&file, text.replace("eggs", "hen's eggs")).unwrap();
        let read = kept.book(&again, "import", &[]);
        assert_eq!(read["goods"]["is"], "changed", "{read}");
        assert!(said(&again, &table).contains("hen's eggs"));
        // A list that makes no sense is refused by its file, and nothing is changed.
        let pack = if form == "toml" { "30 pieces" } else { "30 " };
        assert!(text.contains(pack), "{text}");
        std::fs::write(&file, text.replace(pack, "many ")).unwrap();
        let folder = kept.path("repository");
        let import = ["book", "import", folder.to_str().unwrap()];
        refused(&again, &import, &format!("goods.{form}"));
        assert!(said(&again, &table).contains("hen's eggs"));
    }
}

#[test]
fn one_change_is_one_line_under_git() {
    let kept = filled();
    kept.git(&["init", "-q"]);
    kept.book(&kept.data(), "export", &["--form", "csv"]);
    kept.git(&["add", "-A"]);
    let longer = menu("from = \"2026-07-01\"", "19:00").replace("to 1 h", "to 2 h");
    kept.keep_menu("summer.toml", &longer, &[]);
    let repository = kept.path("repository");
    let out = repository.to_str().unwrap();
    // Nothing is written over unasked.
    refused(
        &kept.data(),
        &["book", "export", out, "--form", "csv"],
        "from-2026-07-01.csv is there already",
    );
    assert_eq!(kept.git(&["diff"]), "");
    kept.book(&kept.data(), "export", &["--form", "csv", "--force"]);
    let changed = kept.git(&["diff", "--numstat"]);
    assert_eq!(changed.trim(), "1\t1\tmenus/from-2026-07-01.csv");
}

#[test]
fn a_folder_with_one_wrong_line_is_refused_whole() {
    let kept = filled();
    kept.book(&kept.data(), "export", &["--form", "csv"]);
    let repository = kept.path("repository");
    let table = repository.join("menus/every-day.csv");
    let text = std::fs::read_to_string(&table).unwrap();
    let line = 1 + text.lines().position(|it| it.contains(",takes,")).unwrap();
    std::fs::write(&table, text.replace("40 min to 1 h", "an hour or so")).unwrap();
    let again = kept.path("again");
    let words = ["book", "import", repository.to_str().unwrap()];
    let place = format!("every-day.csv: line {line}, column value: \"an hour or so\"");
    refused(&again, &words, &place);
    assert!(
        !again.join("formulas").exists(),
        "a formula was written all the same"
    );
    assert_eq!(
        super::running::run(&again, &["prep", "menu", "--for", "2026-07-01"]).0,
        2
    );
    // Two files that say different things of one menu.
    std::fs::write(&table, &text).unwrap();
    std::fs::write(
        repository.join("menus/other.csv"),
        text.replace("18:00", "17:00"),
    )
    .unwrap();
    refused(&again, &words, "differ; keep one of the two");
    std::fs::remove_file(repository.join("menus/other.csv")).unwrap();
    std::fs::rename(&table, repository.join("menus/only-someday.csv")).unwrap();
    refused(&again, &words, "only-2026-05-08");
    std::fs::rename(repository.join("menus/only-someday.csv"), &table).unwrap();
    kept.book(&again, "import", &[]);
    // A formula of the book is not written over unasked.
    let loaf = again.join("formulas/tideline-loaf.toml");
    let own = std::fs::read_to_string(&loaf).unwrap().replace("70", "71");
    std::fs::write(&loaf, &own).unwrap();
    refused(&again, &words, "says something else");
    assert_eq!(std::fs::read_to_string(&loaf).unwrap(), own);
    let read = kept.book(&again, "import", &["--force"]);
    assert_eq!(read["formulas"][0]["is"], "changed", "{read}");
    assert!(std::fs::read_to_string(&loaf).unwrap().contains("70"));
    let nothing = kept.path("again").join("nothing");
    refused(
        &again,
        &["book", "import", nothing.to_str().unwrap()],
        "no formula and no menu",
    );
}
