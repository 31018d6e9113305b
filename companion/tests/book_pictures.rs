//! Pictures of a dish: given once, kept with the kitchen's record, on its page.

use super::running::{json, refused, said};
use image::{DynamicImage, ImageFormat, Rgb, RgbImage};
use serde_json::Value;
use std::io::Cursor;
use std::path::{Path, PathBuf};

const LOAF: &str = "name = \"tideline loaf\"\nends_at = \"24 degC\"\nhow = [\"fold three times\"]\n\
                    limits = [\"cold-holding\"]\n\n[[base]]\nname = \"flour\"\npercent = 100.0\n\n\
                    [[other]]\nname = \"water\"\npercent = 70.0\n";

/// Left half red, right half blue.
fn halves(width: u32, height: u32) -> DynamicImage {
    RgbImage::from_fn(width, height, |x, _| {
        Rgb(if x < width / 2 {
            [210, 20, 20]
        } else {
            [20, 20, 210]
        })
    })
    .into()
}

fn written(image: &DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    image.write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

/// A photograph of a phone that was held upright: stored lying on its side, with an Exif
/// segment that says so, tag 0x0112 of value 6 (CIPA DC-008, Exif 2.32, 4.6.4, from memory).
fn photograph() -> Vec<u8> {
    let jpeg = written(&halves(1600, 1200), ImageFormat::Jpeg);
    let mut exif = b"Exif\0\0II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0".to_vec();
    exif.extend([6, 0, 0, 0, 0, 0, 0, 0]);
    let length = (exif.len() as u16 + 2).to_be_bytes();
    [&jpeg[..2], &[0xff, 0xe1], &length, &exif, &jpeg[2..]].concat()
}

struct Kitchen {
    here: tempfile::TempDir,
}

impl Kitchen {
    fn new() -> Self {
        let here = tempfile::tempdir().unwrap();
        for folder in ["data", "again"] {
            std::fs::create_dir(here.path().join(folder)).unwrap();
        }
        let kitchen = Self { here };
        let loaf = kitchen.file("loaf.toml", LOAF.as_bytes());
        said(&kitchen.data(), &["formula", "keep", &loaf]);
        let dish = [
            "dish",
            "add",
            "bream",
            "--target",
            "150g",
            "--tolerance",
            "5g",
        ];
        said(&kitchen.data(), &[&dish[..], &["--adding"]].concat());
        kitchen
    }

    fn data(&self) -> PathBuf {
        self.here.path().join("data")
    }

    fn again(&self) -> PathBuf {
        self.here.path().join("again")
    }

    fn file(&self, name: &str, bytes: &[u8]) -> String {
        let path = self.here.path().join(name);
        std::fs::write(&path, bytes).unwrap();
        path.to_str().unwrap().to_owned()
    }

    fn path(&self, name: &str) -> String {
        self.here.path().join(name).to_str().unwrap().to_owned()
    }

    /// Two pictures of the loaf; the files that they were given as are gone.
    fn with_pictures() -> Self {
        let kitchen = Self::new();
        let photograph = kitchen.file("IMG_0001.JPG", &photograph());
        let crumb = kitchen.file("crumb.png", &written(&halves(60, 40), ImageFormat::Png));
        for (file, caption) in [(&photograph, "scored once, \"lengthwise\""), (&crumb, "")] {
            let add = [
                "formula",
                "picture",
                "Tideline Loaf",
                file,
                "--caption",
                caption,
            ];
            said(&kitchen.data(), &add);
            std::fs::remove_file(file).unwrap();
        }
        kitchen
    }
}

fn pictures(data: &Path) -> Vec<Value> {
    let listed = said(data, &["formula", "pictures", "tideline loaf", "--json"]);
    listed
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect()
}

/// Every file of a folder by its place, with what is in it.
fn files(folder: &Path) -> Vec<(PathBuf, Vec<u8>)> {
    let mut found = Vec::new();
    for part in std::fs::read_dir(folder).unwrap() {
        for entry in std::fs::read_dir(part.unwrap().path()).unwrap() {
            let path = entry.unwrap().path();
            let bytes = std::fs::read(&path).unwrap();
            found.push((path.strip_prefix(folder).unwrap().to_owned(), bytes));
        }
    }
    found.sort();
    found
}

/// The words of each page of a PDF, and how many pictures it draws on each.
fn pages(pdf: &str) -> Vec<(String, usize)> {
    let document = lopdf::Document::load(pdf).unwrap();
    document
        .get_pages()
        .into_iter()
        .map(|(number, page)| {
            let words = document.extract_text(&[number]).unwrap();
            let words: String = words.split_whitespace().collect();
            let images = document.get_page_images(page).unwrap();
            for image in &images {
                // As it was given, not as dots in thousands.
                assert!(
                    image
                        .filters
                        .clone()
                        .unwrap()
                        .contains(&"DCTDecode".to_owned())
                );
            }
            (words, images.len())
        })
        .collect()
}

#[test]
fn a_photograph_stands_upright_on_the_page_and_pushes_no_limit_off_it() {
    let kitchen = Kitchen::new();
    let data = kitchen.data();
    let (plain, with) = (kitchen.path("plain.pdf"), kitchen.path("with.pdf"));
    said(
        &data,
        &["formula", "page", "tideline loaf", "--pdf", &plain],
    );
    let photograph = kitchen.file("IMG_0001.JPG", &photograph());
    let crumb = kitchen.file("crumb.png", &written(&halves(60, 40), ImageFormat::Png));
    let add = ["formula", "picture", "Tideline Loaf"];
    let kept = json(
        &data,
        &[&add[..], &[&photograph, "--caption", "scored once"]].concat(),
    );
    // Of 1600 by 1200, a quarter turn, its longest side 1280.
    let size = (&kept["width"], &kept["height"]);
    assert_eq!(size, (&Value::from(960), &Value::from(1280)), "{kept}");
    said(&data, &[&add[..], &[&crumb]].concat());
    // The files that they came from may go.
    std::fs::remove_file(photograph).unwrap();
    std::fs::remove_file(crumb).unwrap();
    said(&data, &["formula", "page", "tideline loaf", "--pdf", &with]);
    let (before, after) = (pages(&plain), pages(&with));
    assert_eq!(before.len(), after.len());
    assert_eq!(before.iter().map(|page| page.1).sum::<usize>(), 0);
    assert_eq!(after.iter().map(|page| page.1).sum::<usize>(), 2);
    assert!(after[0].0.contains("scoredonce"), "{}", after[0].0);
    for page in [&before[0].0, &after[0].0] {
        assert!(
            page.contains("Limitsthatapply") && page.contains("Localcodes"),
            "{page}"
        );
    }
    for (language, words) in [
        ("en", "scored once (960 by 1280 pixels)"),
        ("es", "scored once (960 por 1280"),
        ("fr", "scored once (960 sur 1280"),
    ] {
        let page = ["--language", language, "formula", "page", "tideline loaf"];
        assert!(said(&data, &page).contains(words), "{language}");
    }
    // Taken off, it is on no page, and cannot be taken off again.
    said(&data, &["formula", "picture-off", "1"]);
    assert!(!said(&data, &["formula", "page", "tideline loaf"]).contains("scored once"));
    assert_eq!(pictures(&data).len(), 1);
    refused(&data, &["formula", "picture-off", "1"], "no picture 1");
}

#[test]
fn what_is_no_picture_and_what_nothing_is_called_are_refused() {
    let kitchen = Kitchen::new();
    let data = kitchen.data();
    let words = kitchen.file("loaf.jpg", b"a loaf");
    let half = photograph();
    let half = kitchen.file("half.jpg", &half[..half.len() / 2]);
    let good = kitchen.file("good.png", &written(&halves(60, 40), ImageFormat::Png));
    let add = |name: &str, file: &str, why: &str| {
        refused(&data, &["formula", "picture", name, file], why);
    };
    add("tideline loaf", &words, "is no picture");
    add("tideline loaf", &half, "cut off");
    add(
        "tideline loaf",
        &kitchen.path("nowhere.jpg"),
        "cannot be read",
    );
    add(
        "tidal loaf",
        &good,
        "\"tidal loaf\" is no dish, no formula and in no menu",
    );
    assert_eq!(pictures(&data).len(), 0);
    said(&data, &["formula", "picture", "tideline loaf", &good]);
    add("TIDELINE LOAF", &good, "picture 1 of it is the same");
    for nth in 2..=6 {
        let other = kitchen.file(
            "other.png",
            &written(&halves(60, 40 + nth), ImageFormat::Png),
        );
        said(&data, &["formula", "picture", "tideline loaf", &other]);
    }
    let seventh = kitchen.file("other.png", &written(&halves(60, 90), ImageFormat::Png));
    add("tideline loaf", &seventh, "has 6 pictures");
}

/// A dish's pictures stay its own when it is called otherwise.
#[test]
fn a_dish_that_is_renamed_keeps_its_pictures() {
    let kitchen = Kitchen::new();
    let data = kitchen.data();
    let good = kitchen.file("good.png", &written(&halves(60, 40), ImageFormat::Png));
    said(
        &data,
        &["formula", "picture", "bream", &good, "--caption", "skin up"],
    );
    said(&data, &["dish", "rename", "bream", "sea bream"]);
    assert!(said(&data, &["formula", "page", "sea bream"]).contains("skin up"));
}

#[test]
fn a_backup_has_the_pictures_and_a_changed_one_is_found() {
    let kitchen = Kitchen::with_pictures();
    let (data, again) = (kitchen.data(), kitchen.again());
    let copy = kitchen.path("copy.sqlite3");
    said(&data, &["backup", &copy]);
    said(&again, &["restore", &copy]);
    let before = pictures(&data);
    assert_eq!(before.len(), 2);
    assert_eq!(pictures(&again), before);
    said(&again, &["check"]);
    // Each as it was, to the last byte.
    let images = |data: &Path| -> Vec<Vec<u8>> {
        let store = rusqlite::Connection::open(data.join("evenhand.sqlite3")).unwrap();
        let mut select = store
            .prepare("SELECT image FROM picture ORDER BY id")
            .unwrap();
        let rows = select.query_map([], |row| row.get(0)).unwrap();
        rows.map(Result::unwrap).collect()
    };
    assert_eq!(images(&again), images(&data));
    let store = rusqlite::Connection::open(again.join("evenhand.sqlite3")).unwrap();
    let changed = store
        .execute_batch(
            "DROP TRIGGER picture_is_not_rewritten;
             UPDATE picture SET caption = 'scored twice' WHERE id = 1;",
        )
        .and_then(|()| store.query_row("SELECT caption FROM picture", [], |row| row.get(0)));
    assert_eq!(changed, Ok("scored twice".to_owned()));
    drop(store);
    let (code, out, err) = super::running::run(&again, &["check"]);
    assert_ne!(code, 0);
    assert!(
        format!("{out}{err}").contains("picture 1 does not read as it was written"),
        "{out}{err}"
    );
}

#[test]
fn pictures_go_out_with_the_book_and_in_again_as_they_were() {
    let kitchen = Kitchen::with_pictures();
    let (data, again) = (kitchen.data(), kitchen.again());
    let (first, second) = (kitchen.path("first"), kitchen.path("second"));
    said(&data, &["book", "export", &first]);
    let read = json(&again, &["book", "import", &first]);
    assert_eq!(read["pictures"][0]["is"], "new", "{read}");
    assert_eq!(read["pictures"][0]["count"], 2, "{read}");
    said(&again, &["book", "export", &second]);
    let exported = files(Path::new(&first));
    assert_eq!(files(Path::new(&second)), exported);
    // It was the pictures that came back, and not nothing.
    let names: Vec<String> = exported
        .iter()
        .map(|(place, _)| place.to_str().unwrap().replace('\\', "/"))
        .collect();
    assert_eq!(
        names,
        [
            "formulas/tideline-loaf.toml",
            "pictures/tideline-loaf-1.jpg",
            "pictures/tideline-loaf-2.jpg",
            "pictures/tideline-loaf.toml",
        ]
    );
    let read = json(&again, &["book", "import", &first]);
    assert_eq!(read["pictures"][0]["is"], "as it was", "{read}");

    // A cook puts another photograph in the place of one, straight from the phone.
    let place = Path::new(&first).join("pictures");
    std::fs::write(place.join("tideline-loaf-2.jpg"), photograph()).unwrap();
    let import = ["book", "import", first.as_str()];
    refused(&again, &import, "other pictures of \"tideline loaf\"");
    assert_eq!(pictures(&again)[1]["width"], 60);
    let read = json(&again, &["book", "import", &first, "--force"]);
    assert_eq!(read["pictures"][0]["is"], "changed", "{read}");
    let now = pictures(&again);
    assert_eq!((now.len(), &now[1]["height"]), (2, &Value::from(1280)));

    // Nothing is read that lies elsewhere or that no list names; one that is missing is told.
    std::fs::write(place.join("stray.jpg"), photograph()).unwrap();
    let read = json(&again, &["book", "import", &first]);
    assert!(
        read["not_named"][0]
            .as_str()
            .unwrap()
            .ends_with("stray.jpg"),
        "{read}"
    );
    let list = place.join("tideline-loaf.toml");
    let text = std::fs::read_to_string(&list).unwrap();
    std::fs::write(
        &list,
        text.replace("tideline-loaf-2.jpg", "../first/pictures/stray.jpg"),
    )
    .unwrap();
    refused(&again, &import, "is no picture beside the list");
    std::fs::write(&list, text.replace("tideline-loaf-2.jpg", "gone.jpg")).unwrap();
    refused(&again, &import, "gone.jpg: it cannot be read");
}
