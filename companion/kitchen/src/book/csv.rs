//! The same formula as a table, for whoever keeps theirs in a spreadsheet:
//! `what,stage,name,percent,water`, a line for each thing.
//!
//! | what | stage | name | percent | water |
//! | --- | --- | --- | --- | --- |
//! | `formula` | | its name | | |
//! | `ends_at` | | `24 degC` | | |
//! | `how`, `limit` | | a sentence, a limit's name | | |
//! | `base` | | an ingredient | of the base | |
//! | `other` | | an ingredient | of the base | how much of it is water, in per cent |
//! | `stage` | its name | | | |
//! | `starter` | the stage's | its flour | of the base | hydration, in per cent |
//! | `takes` | the stage's | an ingredient | of the base | |
//! | `made` | the stage's | an earlier stage, which goes into it whole | | |
//!
//! Semicolons or tabulators between values, decimal commas with them, and a byte order mark are
//! recognised, as of earlier weighings.

use super::file::{LONGEST, Other, Share, StageText, StarterText, Text};
use super::formula::StagedFormula;
use crate::units::InputError;
use crate::units::{Reason, typed};
use crate::written_table::{self, ReadAs, TableOf};

const HEADINGS: [&str; 5] = ["what", "stage", "name", "percent", "water"];

const TABLE: TableOf = TableOf {
    field: "formula",
    longer: problem!("formula-too-long"),
    headings: problem!("no-formula-headings"),
    longest: LONGEST,
};

fn wrong(line: u64, value: &str, problem: Reason, expected: Reason) -> InputError {
    InputError::new(&format!("line {line}"), value, problem, expected)
}

fn number(read_as: &mut ReadAs, line: u64, field: &str, text: &str) -> Result<f64, InputError> {
    let read = read_as.number(text);
    read.parse::<f64>()
        .ok()
        .filter(|value| value.is_finite())
        .ok_or_else(|| {
            wrong(
                line,
                text,
                problem!("no-number-for", key = field),
                expected!("point-or-comma"),
            )
        })
}

impl StagedFormula {
    /// Reads a formula's table, as [`StagedFormula::to_csv`] writes it.
    ///
    /// # Errors
    /// A table without those headings, a line that is none of these, with its
    /// number; otherwise as for [`StagedFormula::from_toml`].
    pub fn from_csv(table: &str) -> Result<Self, InputError> {
        Self::from_csv_as(table).map(|(formula, _)| formula)
    }

    /// As [`StagedFormula::from_csv`], with how the table was read.
    ///
    /// # Errors
    /// As for [`StagedFormula::from_csv`].
    pub fn from_csv_as(table: &str) -> Result<(Self, ReadAs), InputError> {
        let (mut read_as, mut reader) = written_table::open(
            table,
            &HEADINGS,
            &TABLE,
            csv::ReaderBuilder::new()
                .trim(csv::Trim::All)
                .flexible(true),
        )?;
        let mut text = Text::default();
        let mut named = false;
        for row in reader.records() {
            let row = row.map_err(|error| {
                let line = error.position().map_or(0, csv::Position::line);
                wrong(
                    line,
                    "",
                    problem!("no-line-of-table"),
                    expected!("as-spreadsheet"),
                )
            })?;
            let line = row.position().map_or(0, csv::Position::line);
            let [what, stage, name, percent, water] =
                [0, 1, 2, 3, 4].map(|place| row.get(place).unwrap_or_default());
            let share = |read_as: &mut ReadAs| -> Result<Share, InputError> {
                Ok(Share {
                    name: name.to_owned(),
                    percent: number(read_as, line, "percent", percent)?,
                })
            };
            match what {
                "" if row.iter().all(str::is_empty) => {}
                "formula" if named => {
                    return Err(wrong(
                        line,
                        name,
                        problem!("second-formula"),
                        expected!("one-formula-a-table"),
                    ));
                }
                "formula" => {
                    name.clone_into(&mut text.name);
                    named = true;
                }
                "ends_at" => text.ends_at = Some(read_as.numbers(name)),
                "how" => text.how.push(name.to_owned()),
                "limit" => text.limits.push(name.to_owned()),
                "base" => text.base.push(share(&mut read_as)?),
                "other" => text.other.push(Other {
                    name: name.to_owned(),
                    percent: number(&mut read_as, line, "percent", percent)?,
                    water: match water {
                        "" => None,
                        water => Some(number(&mut read_as, line, "water", water)?),
                    },
                }),
                "stage" => text.stage.push(StageText {
                    name: stage.to_owned(),
                    made: Vec::new(),
                    starter: None,
                    takes: Vec::new(),
                }),
                "starter" | "takes" | "made" => {
                    let of = text
                        .stage
                        .iter_mut()
                        .find(|known| known.name == stage)
                        .ok_or_else(|| {
                            wrong(
                                line,
                                stage,
                                problem!("no-stage-above-line"),
                                expected!("stage-line-first"),
                            )
                        })?;
                    if what == "takes" {
                        of.takes.push(share(&mut read_as)?);
                    } else if what == "made" {
                        of.made.push(name.to_owned());
                    } else if of.starter.is_some() {
                        return Err(wrong(
                            line,
                            stage,
                            problem!("second-starter"),
                            expected!("keep-one"),
                        ));
                    } else {
                        of.starter = Some(StarterText {
                            percent: number(&mut read_as, line, "percent", percent)?,
                            flour: name.to_owned(),
                            hydration: number(&mut read_as, line, "water", water)?,
                        });
                    }
                }
                _ => {
                    return Err(wrong(
                        line,
                        what,
                        problem!("nothing-of-formula"),
                        expected!("formula-lines"),
                    ));
                }
            }
        }
        Ok((Self::of_text(&text)?, read_as))
    }

    /// Writes a formula's table; reading it gives the same formula.
    ///
    /// # Errors
    /// None that a formula can cause; what the writer reports is handed on.
    pub fn to_csv(&self) -> Result<String, InputError> {
        let text = self.text();
        let plain = |number: f64| number.to_string();
        let mut rows: Vec<[String; 5]> = Vec::new();
        let mut row = |what: &str, stage: &str, name: &str, percent: String, water: String| {
            rows.push([
                what.to_owned(),
                stage.to_owned(),
                name.to_owned(),
                percent,
                water,
            ]);
        };
        let none = String::new;
        row("formula", "", &text.name, none(), none());
        if let Some(at) = &text.ends_at {
            row("ends_at", "", at, none(), none());
        }
        for how in &text.how {
            row("how", "", how, none(), none());
        }
        for limit in &text.limits {
            row("limit", "", limit, none(), none());
        }
        for base in &text.base {
            row("base", "", &base.name, plain(base.percent), none());
        }
        for other in &text.other {
            let water = other.water.map_or_else(none, plain);
            row("other", "", &other.name, plain(other.percent), water);
        }
        for stage in &text.stage {
            row("stage", &stage.name, "", none(), none());
            if let Some(starter) = &stage.starter {
                let (percent, water) = (plain(starter.percent), plain(starter.hydration));
                row("starter", &stage.name, &starter.flour, percent, water);
            }
            for made in &stage.made {
                row("made", &stage.name, made, none(), none());
            }
            for takes in &stage.takes {
                row(
                    "takes",
                    &stage.name,
                    &takes.name,
                    plain(takes.percent),
                    none(),
                );
            }
        }
        let failed = |error: String| {
            InputError::new(
                "formula",
                self.name(),
                problem!("cannot-be-written", why = typed(error.to_string())),
                expected!("tell-maintainer"),
            )
        };
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer
            .write_record(HEADINGS)
            .and_then(|()| rows.iter().try_for_each(|row| writer.write_record(row)))
            .map_err(|error| failed(error.to_string()))?;
        let bytes = writer
            .into_inner()
            .map_err(|error| failed(error.to_string()))?;
        String::from_utf8(bytes).map_err(|error| failed(error.to_string()))
    }
}

#[cfg(test)]
mod tests {
    use super::super::formula::{Counts, Ingredient, Starter};
    use super::*;
    use crate::units::Ratio;
    use crate::written_table::Separator;
    use proptest::prelude::*;

    #[test]
    fn a_spreadsheets_table_is_read_and_written() {
        let table = "what,stage,name,percent,water\n\
                     formula,,tideline loaf,,\nends_at,,24 degC,,\nhow,,\"fold, then rest\",,\nlimit,,cold-holding,,\n\
                     base,,bread flour,80,\nbase,,dark rye,20,\nother,,water,66,\nother,,buttermilk,10,90\n\
                     stage,levain,,,\nstarter,levain,dark rye,3,100\ntakes,levain,dark rye,13.5,\ntakes,levain,water,13.5,\n";
        let loaf = StagedFormula::from_csv(table).unwrap();
        assert_eq!(loaf.to_csv().unwrap(), table);
        // 66 % and nine tenths of 10 %, by hand.
        assert!((loaf.hydration().percent() - 75.0).abs() < 1e-9);
        assert_eq!(
            StagedFormula::from_toml(&loaf.to_toml().unwrap()).unwrap(),
            loaf
        );
        for (from, to, by) in [
            ("what,", "which,", "line 1"),
            ("base,,dark rye,20,", "base,,dark rye,a fifth,", "line 7"),
            ("stage,levain", "liquid,levain", "line 10"),
            ("takes,levain,water", "takes,poolish,water", "line 13"),
            ("base,,dark rye,20,", "base,,dark rye,19,", "base"),
        ] {
            let error = StagedFormula::from_csv(&table.replace(from, to)).unwrap_err();
            assert_eq!(error.field(), by, "{error}");
        }
        assert!(StagedFormula::from_csv("").is_err());
        assert!(StagedFormula::from_csv(&"x".repeat(10_000_000)).is_err());
    }

    /// As a spreadsheet of Madrid or Paris writes it: semicolons, decimal commas, a byte order
    /// mark, and as many semicolons a line as the widest has (common practice, no source).
    #[test]
    fn a_table_with_semicolons_and_decimal_commas_is_the_same_formula() {
        let points = "what,stage,name,percent,water\nformula,,tideline loaf,,\nends_at,,24.5 degC,,\n\
                      how,,\"fold, then rest\",,\nbase,,bread flour,82.5,\nbase,,dark rye,17.5,\n\
                      other,,water,66,\nother,,buttermilk,10.25,90.5\n";
        let commas = "\u{feff}what;stage;name;percent;water\r\nformula;;tideline loaf;;\r\nends_at;;24,5 degC;;\r\n\
                      how;;fold, then rest;;\r\nbase;;bread flour;82,5;\r\nbase;;dark rye;17,5;\r\n\
                      other;;water;66;\r\nother;;buttermilk;10,25;90,5\r\n";
        let (formula, read_as) = StagedFormula::from_csv_as(commas).unwrap();
        assert_eq!(formula, StagedFormula::from_csv(points).unwrap());
        assert_eq!(
            read_as,
            ReadAs {
                separator: Separator::Semicolon,
                byte_order_mark: true,
                decimal_commas: 5
            }
        );
        assert_eq!(
            StagedFormula::from_csv(&commas.replace(';', "\t")).unwrap(),
            formula
        );
        assert_eq!(
            StagedFormula::from_csv(&commas.replace("\r\n", ";;\r\n")).unwrap(),
            formula
        );
        for (from, to, field) in [
            ("82,5", "82,5,0", "line 5"),
            ("82,5", "1.082,5", "line 5"),
            ("82,5", "ochenta", "line 5"),
            ("what;", "cosa;", "line 1"),
        ] {
            let error = StagedFormula::from_csv(&commas.replace(from, to)).unwrap_err();
            assert_eq!(error.field(), field, "{error}");
        }
        // Commas between values leave none for decimals: 82,5 would stand in two columns.
        assert!(StagedFormula::from_csv(&points.replace("82.5", "82,5")).is_err());
    }

    proptest! {
        #[test]
        fn any_formula_is_read_back_from_either_text_as_it_was(
            name in "[a-z][a-z\", ']{0,20}[a-z]",
            others in prop::collection::vec((0.01f64..120.0, 0u32..=100), 1..6),
            taken in 0.01f64..0.9,
            starter in prop::option::of(30.0f64..300.0),
        ) {
            let mut ingredients = vec![
                Ingredient::new("flour", Counts::Base, 100.0).unwrap(),
                Ingredient::new("water", Counts::Other { water: Ratio::ONE }, 70.0).unwrap(),
            ];
            for (n, (percent, water)) in others.iter().enumerate() {
                let water = Ratio::new(f64::from(*water) / 100.0).unwrap();
                ingredients.push(
                    Ingredient::new(&format!("other, \"{n}\""), Counts::Other { water }, *percent).unwrap(),
                );
            }
            let starter = starter.map(|hydration| Starter::new(2.0, "flour", hydration).unwrap());
            let formula = StagedFormula::new(&name, ingredients)
                .unwrap()
                .with_stage("first, it", starter, &[("flour", 90.0 * taken)])
                .unwrap()
                .with_stage_of("second", None, &[("water", 7.0 * taken)], &["first, it"])
                .unwrap()
                .done_by(&[format!("say \"{name}\", twice")])
                .unwrap();
            prop_assert_eq!(&StagedFormula::from_csv(&formula.to_csv().unwrap()).unwrap(), &formula);
            prop_assert_eq!(&StagedFormula::from_toml(&formula.to_toml().unwrap()).unwrap(), &formula);
        }
    }
}
