//! A menu as a table, for whoever keeps theirs in a spreadsheet or compares it line by line:
//! `what,in,name,key,value`, a line for each thing that the menu says.
//!
//! | what | in | name | key |
//! | --- | --- | --- | --- |
//! | `menu` | | | `opens`, `closes`, `spare`, `from`, `until`, `days` |
//! | `resource` | | its name | `places`, `from`, `to`, `closed`, `serves` |
//! | `who` | the resource's name | a name or a mark | `skills` |
//! | `preparation` | | its name | `due`, `preferred`, `fallback`, `buy_in` |
//! | `batch` | the preparation's name | | `portions`, `keeps`, `source`, `dish`, `needs`, `per_cover`, `date_marked`, `allergens` |
//! | `step` | the preparation's name | its name | `takes`, `rests`, `needs`, `skill`, `in_service`, `not_before`, `after`, `portions_of`, `portions`, `batch`, `when.log`, `when.from`, `when.to` |
//!
//! What can be said several times (days, needs, skills, allergens, what a step waits for) has
//! a line each; one line with an empty value says that there is none. A line without a key
//! only says that the thing is there. Semicolons or tabulators between values, decimal commas
//! with them, and a byte order mark are recognised, as of earlier weighings.

use super::board::{Board, BoardError};
use super::calendar::ResourceError;
use super::file::{
    BatchEntry, FileError, HandEntry, LONGEST_NAME, LONGEST_SOURCE, Menu, NeedsEntry,
    PreparationEntry, ResourceEntry, StepEntry, WhenEntry, read,
};
use super::step::Need;
use crate::units::InputError;
use crate::units::{Reason, typed};
use crate::written_name;
use crate::written_table::{self, ReadAs, TableOf};
use jiff::civil::Date;
use jiff::tz::TimeZone;

const HEADINGS: [&str; 5] = ["what", "in", "name", "key", "value"];

/// The keys whose values are numbers, or have some in them.
const MEASURED: [&str; 7] = [
    "spare",
    "keeps",
    "takes",
    "rests",
    "per_cover",
    "when.from",
    "when.to",
];

const TABLE: TableOf = TableOf {
    field: "menu",
    longer: problem!("longer-than-menu"),
    headings: problem!("no-menu-headings"),
    longest: 1_000_000,
};

/// The places of the columns.
const WHAT: usize = 0;
const IN: usize = 1;
const NAME: usize = 2;
const KEY: usize = 3;
const VALUE: usize = 4;

/// A menu as it is written down, for every form that it is written in.
#[derive(Debug, Clone, PartialEq)]
pub struct WrittenMenu(Menu);

impl WrittenMenu {
    /// Reads a menu's TOML.
    ///
    /// # Errors
    /// [`FileError`], as for [`Board::from_menu`].
    pub fn from_toml(toml: &str) -> Result<Self, FileError> {
        Self::of_menu(read(toml)?)
    }

    /// A menu that was put together, checked as one that is read.
    pub(super) fn of_menu(menu: Menu) -> Result<Self, FileError> {
        hangs_together(&menu)?;
        Ok(Self(in_one_form(menu)))
    }

    /// What is written in it.
    pub(super) const fn menu(&self) -> &Menu {
        &self.0
    }

    /// Writes it as TOML; reading it gives the same menu.
    ///
    /// # Errors
    /// None that a menu can cause; what the writer reports is handed on.
    pub fn to_toml(&self) -> Result<String, InputError> {
        toml::to_string(&self.0).map_err(|error| cannot_be_written(&error.to_string()))
    }

    /// From which date and until which it is in force, where it says so.
    ///
    /// # Errors
    /// A date that is none; none of a menu that was read.
    pub fn period(&self) -> Result<(Option<Date>, Option<Date>), FileError> {
        self.0.period()
    }

    /// Reads a menu's table, as [`WrittenMenu::to_csv`] writes it.
    ///
    /// # Errors
    /// What is refused is named by its line and column, with what was expected.
    pub fn from_csv(table: &str) -> Result<Self, InputError> {
        Self::from_csv_as(table).map(|(menu, _)| menu)
    }

    /// As [`WrittenMenu::from_csv`], with how the table was read.
    ///
    /// # Errors
    /// As for [`WrittenMenu::from_csv`].
    pub fn from_csv_as(table: &str) -> Result<(Self, ReadAs), InputError> {
        let (mut read_as, mut reader) = written_table::open(
            table,
            &HEADINGS,
            &TABLE,
            csv::ReaderBuilder::new().flexible(true),
        )?;
        let mut menu = Menu::default();
        let mut lines = Vec::new();
        for row in reader.records() {
            let row = row.map_err(|error| {
                let line = error.position().map_or(0, csv::Position::line);
                InputError::new(
                    &format!("line {line}"),
                    "",
                    problem!("no-line-of-table"),
                    expected!("as-spreadsheet"),
                )
            })?;
            if row.iter().all(|cell| cell.trim().is_empty()) {
                continue;
            }
            let number = row.position().map_or(0, csv::Position::line);
            if let Some(more) = row
                .iter()
                .skip(HEADINGS.len())
                .find(|cell| !cell.is_empty())
            {
                return Err(InputError::new(
                    &format!("line {number}, column 6"),
                    more,
                    problem!("beside-table"),
                    expected!("comma-in-quotes"),
                ));
            }
            let cell = |place: usize| row.get(place).unwrap_or_default();
            let line = Line {
                number,
                what: cell(WHAT).trim().to_owned(),
                of: cell(IN).trim().to_owned(),
                name: cell(NAME).trim().to_owned(),
                key: cell(KEY).trim().to_owned(),
                value: if MEASURED.contains(&cell(KEY).trim()) {
                    read_as.numbers(cell(VALUE))
                } else {
                    cell(VALUE).to_owned()
                },
            };
            line.read(&mut menu, &lines)?;
            lines.push(line);
        }
        if menu.opens.is_empty() {
            return Err(InputError::new(
                "line 1",
                "",
                problem!("no-opens"),
                expected!("opens-line"),
            ));
        }
        hangs_together(&menu).map_err(|error| at_its_line(&lines, &error))?;
        Ok((Self(in_one_form(menu)), read_as))
    }

    /// Writes a menu's table; reading it gives the same menu.
    ///
    /// # Errors
    /// None that a menu can cause; what the writer reports is handed on.
    pub fn to_csv(&self) -> Result<String, InputError> {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer
            .write_record(HEADINGS)
            .and_then(|()| {
                lines_of(&self.0)
                    .iter()
                    .try_for_each(|line| writer.write_record(line))
            })
            .map_err(|error| cannot_be_written(&error.to_string()))?;
        let bytes = writer
            .into_inner()
            .map_err(|error| cannot_be_written(&error.to_string()))?;
        String::from_utf8(bytes).map_err(|error| cannot_be_written(&error.to_string()))
    }
}

fn cannot_be_written(why: &str) -> InputError {
    InputError::new(
        "menu",
        "",
        problem!("cannot-be-written", why = typed(why.to_string())),
        expected!("tell-maintainer"),
    )
}

/// Whether a board can be made of it. On which day does not matter.
fn hangs_together(menu: &Menu) -> Result<(), FileError> {
    Board::of_menu(menu, jiff::civil::date(2024, 1, 1), TimeZone::UTC).map(|_| ())
}

/// What can be written in several ways, in one.
fn in_one_form(mut menu: Menu) -> Menu {
    for step in menu.preparation.iter_mut().flat_map(|p| &mut p.step) {
        step.needs = step.needs.take().and_then(|needs| written(&needs.needs()));
    }
    menu
}

pub(super) fn written(needs: &[Need]) -> Option<NeedsEntry> {
    match needs {
        [] => None,
        [one] if one.places == 1 => Some(NeedsEntry::One(one.resource.clone())),
        several if several.iter().all(|need| need.places == 1) => Some(NeedsEntry::Several(
            several.iter().map(|need| need.resource.clone()).collect(),
        )),
        counted => Some(NeedsEntry::Counted(
            counted
                .iter()
                .map(|need| (need.resource.clone(), need.places))
                .collect(),
        )),
    }
}

/// `hands`, or `2 hands`; with the count where the name alone would read as one.
fn need_words(need: &Need) -> String {
    match (need.places, counted(&need.resource)) {
        (1, None) => need.resource.clone(),
        (places, _) => format!("{places} {}", need.resource),
    }
}

/// The count before a name, where there is one.
fn counted(text: &str) -> Option<(u32, &str)> {
    let (count, name) = text.split_once(' ')?;
    Some((count.parse().ok()?, name))
}

type Cells = [String; 5];

struct Lines {
    lines: Vec<Cells>,
    what: &'static str,
    of: String,
    name: String,
}

impl Lines {
    fn begin(&mut self, what: &'static str, of: &str, name: &str) {
        self.what = what;
        of.clone_into(&mut self.of);
        name.clone_into(&mut self.name);
    }

    fn say(&mut self, key: &str, value: &str) {
        let what = self.what.to_owned();
        let (key, value) = (key.to_owned(), value.to_owned());
        self.lines
            .push([what, self.of.clone(), self.name.clone(), key, value]);
    }

    fn there(&mut self) {
        self.say("", "");
    }

    fn maybe(&mut self, key: &str, value: Option<&String>) {
        if let Some(value) = value {
            self.say(key, value);
        }
    }

    fn each(&mut self, key: &str, values: &[String]) {
        for value in values {
            self.say(key, value);
        }
    }

    /// A list that may be there and empty.
    fn list(&mut self, key: &str, values: Option<&Vec<String>>) {
        match values {
            None => {}
            Some(values) if values.is_empty() => self.say(key, ""),
            Some(values) => self.each(key, values),
        }
    }
}

fn lines_of(menu: &Menu) -> Vec<Cells> {
    let mut all = Lines {
        lines: Vec::new(),
        what: "menu",
        of: String::new(),
        name: String::new(),
    };
    all.say("opens", &menu.opens);
    all.maybe("closes", menu.closes.as_ref());
    all.maybe("spare", menu.spare.as_ref());
    all.maybe("from", menu.from.as_ref());
    all.maybe("until", menu.until.as_ref());
    all.list("days", menu.days.as_ref());
    for resource in &menu.resource {
        all.begin("resource", "", &resource.name);
        all.say("places", &resource.places.to_string());
        all.maybe("from", resource.from.as_ref());
        all.maybe("to", resource.to.as_ref());
        all.each("closed", &resource.closed);
        if resource.serves {
            all.say("serves", "true");
        }
        for hand in &resource.who {
            all.begin("who", &resource.name, &hand.name);
            all.there();
            all.each("skills", &hand.skills);
        }
    }
    for preparation in &menu.preparation {
        all.begin("preparation", "", &preparation.name);
        all.there();
        all.maybe("due", preparation.due.as_ref());
        all.maybe("preferred", preparation.preferred.as_ref());
        all.maybe("fallback", preparation.fallback.as_ref());
        if preparation.buy_in {
            all.say("buy_in", "true");
        }
        if let Some(batch) = &preparation.batch {
            all.begin("batch", &preparation.name, "");
            all.say("portions", &batch.portions.to_string());
            all.maybe("keeps", batch.keeps.as_ref());
            all.maybe("source", batch.source.as_ref());
            all.maybe("dish", batch.dish.as_ref());
            all.maybe("needs", batch.needs.map(|it| it.to_string()).as_ref());
            all.maybe(
                "per_cover",
                batch.per_cover.map(|it| it.to_string()).as_ref(),
            );
            if !batch.date_marked {
                all.say("date_marked", "false");
            }
            all.list("allergens", batch.allergens.as_ref());
        }
        for step in &preparation.step {
            all.begin("step", &preparation.name, &step.name);
            all.maybe("takes", step.takes.as_ref());
            all.maybe("rests", step.rests.as_ref());
            for need in step.needs.iter().flat_map(NeedsEntry::needs) {
                all.say("needs", &need_words(&need));
            }
            all.maybe("skill", step.skill.as_ref());
            if step.in_service {
                all.say("in_service", "true");
            }
            all.maybe("not_before", step.not_before.as_ref());
            all.list("after", step.after.as_ref());
            all.maybe("portions_of", step.portions_of.as_ref());
            all.maybe("portions", step.portions.map(|it| it.to_string()).as_ref());
            all.maybe("batch", step.batch.as_ref());
            if let Some(when) = &step.when {
                all.say("when.log", &when.log);
                all.say("when.from", &when.from);
                all.say("when.to", &when.to);
            }
        }
    }
    all.lines
}

/// One line of a table.
struct Line {
    number: u64,
    what: String,
    of: String,
    name: String,
    key: String,
    value: String,
}

impl Line {
    fn wrong(&self, column: usize, problem: Reason, expected: Reason) -> InputError {
        let (heading, value) = match column {
            WHAT => ("what", &self.what),
            IN => ("in", &self.of),
            NAME => ("name", &self.name),
            KEY => ("key", &self.key),
            _ => ("value", &self.value),
        };
        InputError::new(
            &format!("line {}, column {heading}", self.number),
            value,
            problem,
            expected,
        )
    }

    fn no_key(&self, keys: Reason) -> InputError {
        self.wrong(KEY, problem!("nothing-of", what = typed(&self.what)), keys)
    }

    /// What the menu calls the thing that the line is about.
    fn place(&self) -> String {
        match self.what.as_str() {
            "menu" => String::from("menu"),
            "who" | "batch" => self.of.clone(),
            "step" => format!("{}: {}", self.of, self.name),
            _ => self.name.clone(),
        }
    }

    /// Whether one thing may say it several times.
    fn is_of_a_list(&self) -> bool {
        matches!(
            (self.what.as_str(), self.key.as_str()),
            ("menu", "days")
                | ("resource", "closed")
                | ("who", "skills")
                | ("batch", "allergens")
                | ("step", "needs" | "after")
        )
    }

    fn name_of(&self, column: usize) -> Result<String, InputError> {
        let text = if column == IN { &self.of } else { &self.name };
        written_name::name("name", text, LONGEST_NAME, "hogget neck")
            .map_err(|error| self.wrong(column, error.problem().clone(), error.expected().clone()))
    }

    fn named_value(&self, longest: usize) -> Result<String, InputError> {
        written_name::name("value", &self.value, longest, "celery")
            .map_err(|error| self.wrong(VALUE, error.problem().clone(), error.expected().clone()))
    }

    fn number_value<N: std::str::FromStr>(&self, expected: Reason) -> Result<N, InputError> {
        let number = self.value.trim().parse();
        number.map_err(|_| self.wrong(VALUE, problem!("no-such-number"), expected))
    }

    fn whole<N: std::str::FromStr>(&self) -> Result<N, InputError> {
        self.number_value(expected!("whole-number"))
    }

    fn yes_or_no(&self) -> Result<bool, InputError> {
        match self.value.trim().to_ascii_lowercase().as_str() {
            "true" => Ok(true),
            "false" => Ok(false),
            _ => Err(self.wrong(
                VALUE,
                problem!("neither-yes-nor-no"),
                expected!("true-or-false"),
            )),
        }
    }

    fn text(&self) -> Result<String, InputError> {
        if self.value.trim().is_empty() {
            return Err(self.wrong(VALUE, problem!("says-nothing"), expected!("value-or-leave")));
        }
        Ok(self.value.clone())
    }

    /// Adds what it says to the menu. `before` are the lines above it.
    fn read(&self, menu: &mut Menu, before: &[Self]) -> Result<(), InputError> {
        let same = |line: &&Self| {
            line.what == self.what
                && line.of == self.of
                && line.name == self.name
                && line.key == self.key
        };
        // A second preparation of a name says its own.
        let since = before
            .iter()
            .rposition(|line| line.what == "preparation" && line.key.is_empty())
            .unwrap_or(0);
        let said = before.iter().skip(since).find(same);
        if let Some(said) = said.filter(|_| !self.key.is_empty() && !self.is_of_a_list()) {
            return Err(self.wrong(
                KEY,
                problem!("said-on-line", line = said.number),
                expected!("keep-one-of-two"),
            ));
        }
        match self.what.as_str() {
            "menu" => self.of_menu(menu),
            "resource" => self.of_resource(menu),
            "who" => self.of_hand(menu),
            "preparation" => self.of_preparation(menu),
            "batch" => self.of_batch(menu),
            "step" => self.of_step(menu),
            _ => Err(self.wrong(WHAT, problem!("nothing-of-menu"), expected!("menu-lines"))),
        }
    }

    fn add_to(&self, list: &mut Option<Vec<String>>) {
        let list = list.get_or_insert_with(Vec::new);
        if !self.value.trim().is_empty() {
            list.push(self.value.clone());
        }
    }

    fn of_menu(&self, menu: &mut Menu) -> Result<(), InputError> {
        match self.key.as_str() {
            "opens" => menu.opens = self.text()?,
            "closes" => menu.closes = Some(self.text()?),
            "spare" => menu.spare = Some(self.text()?),
            "from" => menu.from = Some(self.text()?),
            "until" => menu.until = Some(self.text()?),
            "days" => self.add_to(&mut menu.days),
            _ => {
                return Err(self.no_key(expected!(
                    "one-of",
                    names = "opens, closes, spare, from, until, days"
                )));
            }
        }
        Ok(())
    }

    fn of_resource(&self, menu: &mut Menu) -> Result<(), InputError> {
        let name = self.name_of(NAME)?;
        if !menu.resource.iter().any(|known| known.name == name) {
            menu.resource.push(ResourceEntry {
                name: name.clone(),
                ..ResourceEntry::default()
            });
        }
        let Some(resource) = menu.resource.iter_mut().find(|known| known.name == name) else {
            return Ok(());
        };
        match self.key.as_str() {
            "" => {}
            "places" => resource.places = self.whole()?,
            "from" => resource.from = Some(self.text()?),
            "to" => resource.to = Some(self.text()?),
            "closed" => resource.closed.push(self.text()?),
            "serves" => resource.serves = self.yes_or_no()?,
            _ => {
                return Err(self.no_key(expected!(
                    "one-of",
                    names = "places, from, to, closed, serves"
                )));
            }
        }
        Ok(())
    }

    fn of_hand(&self, menu: &mut Menu) -> Result<(), InputError> {
        let (of, name) = (self.name_of(IN)?, self.name_of(NAME)?);
        let Some(resource) = menu.resource.iter_mut().find(|known| known.name == of) else {
            return Err(self.wrong(IN, problem!("no-resource-above"), expected!("places-first")));
        };
        if !resource.who.iter().any(|known| known.name == name) {
            resource.who.push(HandEntry {
                name: name.clone(),
                skills: Vec::new(),
            });
        }
        let Some(hand) = resource.who.iter_mut().find(|known| known.name == name) else {
            return Ok(());
        };
        match self.key.as_str() {
            "" => {}
            "skills" => hand.skills.push(self.named_value(LONGEST_NAME)?),
            _ => return Err(self.no_key(expected!("skills-or-none"))),
        }
        Ok(())
    }

    fn of_preparation(&self, menu: &mut Menu) -> Result<(), InputError> {
        let name = self.name_of(NAME)?;
        let last = menu.preparation.last().map(|known| &known.name);
        if self.key.is_empty() || last != Some(&name) {
            menu.preparation.push(PreparationEntry {
                name,
                ..PreparationEntry::default()
            });
        }
        let Some(preparation) = menu.preparation.last_mut() else {
            return Ok(());
        };
        match self.key.as_str() {
            "" => {}
            "due" => preparation.due = Some(self.text()?),
            "preferred" => preparation.preferred = Some(self.text()?),
            "fallback" => preparation.fallback = Some(self.named_value(LONGEST_NAME)?),
            "buy_in" => preparation.buy_in = self.yes_or_no()?,
            _ => {
                return Err(self.no_key(expected!(
                    "one-of",
                    names = "due, preferred, fallback, buy_in"
                )));
            }
        }
        Ok(())
    }

    /// The preparation that the line is of.
    fn preparation<'m>(&self, menu: &'m mut Menu) -> Result<&'m mut PreparationEntry, InputError> {
        let of = self.name_of(IN)?;
        menu.preparation
            .iter_mut()
            .rev()
            .find(|known| known.name == of)
            .ok_or_else(|| {
                self.wrong(
                    IN,
                    problem!("no-preparation-above"),
                    expected!("preparation-first"),
                )
            })
    }

    fn of_batch(&self, menu: &mut Menu) -> Result<(), InputError> {
        let batch = self
            .preparation(menu)?
            .batch
            .get_or_insert_with(|| BatchEntry {
                date_marked: true,
                ..BatchEntry::default()
            });
        match self.key.as_str() {
            "" => {}
            "portions" => batch.portions = self.whole()?,
            "keeps" => batch.keeps = Some(self.text()?),
            "source" => batch.source = Some(self.named_value(LONGEST_SOURCE)?),
            "dish" => batch.dish = Some(self.named_value(LONGEST_NAME)?),
            "needs" => batch.needs = Some(self.whole()?),
            "per_cover" => {
                batch.per_cover = Some(self.number_value(expected!("number-with-point"))?);
            }
            "date_marked" => batch.date_marked = self.yes_or_no()?,
            "allergens" => {
                let list = batch.allergens.get_or_insert_with(Vec::new);
                if !self.value.trim().is_empty() {
                    list.push(self.named_value(LONGEST_NAME)?);
                }
            }
            _ => {
                return Err(self.no_key(expected!(
                    "one-of",
                    names =
                        "portions, keeps, source, dish, needs, per_cover, date_marked, allergens"
                )));
            }
        }
        Ok(())
    }

    fn of_step(&self, menu: &mut Menu) -> Result<(), InputError> {
        let name = self.name_of(NAME)?;
        let preparation = self.preparation(menu)?;
        if !preparation.step.iter().any(|known| known.name == name) {
            preparation.step.push(StepEntry {
                name: name.clone(),
                ..StepEntry::default()
            });
        }
        let Some(step) = preparation.step.iter_mut().find(|known| known.name == name) else {
            return Ok(());
        };
        match self.key.as_str() {
            "" => {}
            "takes" => step.takes = Some(self.text()?),
            "rests" => step.rests = Some(self.text()?),
            "needs" => self.add_need(step)?,
            "skill" => step.skill = Some(self.named_value(LONGEST_NAME)?),
            "in_service" => step.in_service = self.yes_or_no()?,
            "not_before" => step.not_before = Some(self.text()?),
            "after" => self.add_to(&mut step.after),
            "portions_of" => step.portions_of = Some(self.text()?),
            "portions" => step.portions = Some(self.whole()?),
            "batch" => step.batch = Some(self.text()?),
            "when.log" | "when.from" | "when.to" => {
                let when = step.when.get_or_insert_with(WhenEntry::default);
                let part = match self.key.as_str() {
                    "when.log" => &mut when.log,
                    "when.from" => &mut when.from,
                    _ => &mut when.to,
                };
                *part = self.text()?;
            }
            _ => {
                return Err(self.no_key(expected!("one-of", names = "takes, rests, needs, skill, in_service, not_before, after, portions_of, portions, batch, when.log, when.from, when.to")));
            }
        }
        Ok(())
    }

    fn add_need(&self, step: &mut StepEntry) -> Result<(), InputError> {
        let (places, name) = counted(self.value.trim()).unwrap_or((1, self.value.trim()));
        let name = written_name::name("needs", name, LONGEST_NAME, "hands").map_err(|error| {
            self.wrong(VALUE, error.problem().clone(), error.expected().clone())
        })?;
        let mut needs = step.needs.as_ref().map_or_else(Vec::new, NeedsEntry::needs);
        if needs.iter().any(|known| known.resource == name) {
            return Err(self.wrong(
                VALUE,
                problem!("needed-already"),
                expected!("places-on-one-line"),
            ));
        }
        needs.push(Need {
            resource: name,
            places,
        });
        let counted = needs.into_iter().map(|need| (need.resource, need.places));
        step.needs = Some(NeedsEntry::Counted(counted.collect()));
        Ok(())
    }
}

/// What does not hang together, with the line that says it.
fn at_its_line(lines: &[Line], error: &FileError) -> InputError {
    let needed;
    let (place, key, value, problem, expected) = match error {
        FileError::Field {
            place,
            field,
            value,
            expected,
        } => (
            place.as_str(),
            field.strip_prefix("batch.").unwrap_or(field),
            value.as_str(),
            problem!("makes-no-sense", key = field, place = typed(place)),
            expected.as_ref().clone(),
        ),
        FileError::Takes { step, error } => (step.as_str(), "takes", "", error.reason(), hint()),
        FileError::Keeping { preparation, error } => {
            (preparation.as_str(), "keeps", "", error.reason(), hint())
        }
        FileError::Resource(error) => {
            let (ResourceError::Places { name, .. } | ResourceError::NeverOpen(name)) = error;
            (name.as_str(), "places", "", error.reason(), hint())
        }
        FileError::Board(error) => {
            needed = match error {
                BoardError::NoSuchResource { resource, .. } => resource.clone(),
                BoardError::TooManyPlaces {
                    resource, places, ..
                } => need_words(&Need {
                    resource: resource.clone(),
                    places: *places,
                }),
                _ => String::new(),
            };
            let (place, key) = match error {
                BoardError::NoSuchResource { step, .. }
                | BoardError::TooManyPlaces { step, .. } => (step.as_str(), "needs"),
                BoardError::Ring(step) => (step.as_str(), "after"),
                BoardError::ResourceTwice(name) => (name.as_str(), "places"),
                BoardError::ClosesBeforeItOpens => ("menu", "closes"),
                BoardError::NoSuchStep => ("", ""),
            };
            (place, key, needed.as_str(), error.reason(), hint())
        }
        FileError::Syntax(why) | FileError::Goods(why) => (
            "",
            "",
            "",
            problem!("not-toml", why = typed(why.to_string())),
            hint(),
        ),
    };
    let of_place: Vec<&Line> = lines
        .iter()
        .filter(|line| line.place() == place || line.place().ends_with(&format!(": {place}")))
        .collect();
    let of_key = |line: &&&Line| {
        line.key == key
            || (key == "takes" && line.key == "rests")
            || (key == "name" && line.what == "step")
    };
    let exact = of_place.iter().filter(of_key).find(|line| {
        let said = line.value.trim();
        let named = counted(said).map(|(_, name)| name);
        !value.is_empty() && (said == value.trim() || (key == "needs" && named == Some(value)))
    });
    let column = if key == "name" { NAME } else { VALUE };
    match exact.or_else(|| of_place.iter().find(of_key)) {
        Some(line) => line.wrong(column, problem, expected),
        None => match of_place.first() {
            Some(line) => line.wrong(NAME, problem, expected),
            None => InputError::new("menu", value, problem, expected),
        },
    }
}

fn hint() -> Reason {
    expected!("see-page-menu")
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use proptest::sample::subsequence;

    /// The example that a cook reads, between its fences.
    fn example() -> &'static str {
        let page = include_str!("../../../MENU.md");
        let from = page.find("```toml\n").unwrap() + "```toml\n".len();
        let to = from + page[from..].find("```").unwrap();
        &page[from..to]
    }

    /// Every key that the TOML of a menu may have, as a table calls it.
    const KEYS: [(&str, &[&str]); 6] = [
        (
            "menu",
            &["opens", "closes", "spare", "from", "until", "days"],
        ),
        ("resource", &["places", "from", "to", "closed", "serves"]),
        ("who", &["skills"]),
        ("preparation", &["due", "preferred", "fallback", "buy_in"]),
        (
            "batch",
            &[
                "portions",
                "keeps",
                "source",
                "dish",
                "needs",
                "per_cover",
                "date_marked",
                "allergens",
            ],
        ),
        (
            "step",
            &[
                "takes",
                "rests",
                "needs",
                "skill",
                "in_service",
                "not_before",
                "after",
                "portions_of",
                "portions",
                "batch",
                "when.log",
                "when.from",
                "when.to",
            ],
        ),
    ];

    fn says(table: &str, what: &str, key: &str) -> bool {
        let mut reader = csv::Reader::from_reader(table.as_bytes());
        reader
            .records()
            .map(Result::unwrap)
            .any(|row| &row[WHAT] == what && &row[KEY] == key)
    }

    #[test]
    fn the_page_for_cooks_shows_every_key_and_its_example_is_the_same_in_both_forms() {
        let menu = WrittenMenu::from_toml(example()).unwrap();
        let table = menu.to_csv().unwrap();
        for (what, keys) in KEYS {
            for key in keys {
                assert!(says(&table, what, key), "{what} {key} is not in:\n{table}");
            }
        }
        assert_eq!(WrittenMenu::from_csv(&table).unwrap(), menu);
        let toml = menu.to_toml().unwrap();
        assert_eq!(WrittenMenu::from_toml(&toml).unwrap(), menu, "{toml}");
        assert_eq!(
            WrittenMenu::from_csv(&table).unwrap().to_csv().unwrap(),
            table
        );
    }

    #[test]
    fn a_table_is_read_as_its_lines_say() {
        // By hand: what each line is to come to in TOML.
        let table = "\u{feff}what,in,name,key,value\n\
            menu,,,opens,18:00\nmenu,,,days,fri\nmenu,,,days,sat\n\
            resource,,hands,places,2\nwho,hands,MO,skills,fish\nwho,hands,ZE,,\n,,,,\n\
            preparation,,bream,fallback,\"shrimp, potted\"\n\
            batch,bream,,portions,40\nbatch,bream,,keeps,3 days\nbatch,bream,,source,the kitchen's own\n\
            batch,bream,,allergens,\n\
            step,bream,fillet,takes,40 min to 1 h\nstep,bream,fillet,needs,2 hands\n\
            step,bream,chill,rests,2 h\nstep,bream,chill,after,\n";
        let toml = "opens = '18:00'\ndays = ['fri', 'sat']\n\
            [[resource]]\nname = 'hands'\nplaces = 2\nwho = [{ name = 'MO', skills = ['fish'] }, { name = 'ZE' }]\n\
            [[preparation]]\nname = 'bream'\nfallback = 'shrimp, potted'\n\
            batch = { portions = 40, keeps = '3 days', source = \"the kitchen's own\", allergens = [] }\n\
            [[preparation.step]]\nname = 'fillet'\ntakes = '40 min to 1 h'\nneeds = { hands = 2 }\n\
            [[preparation.step]]\nname = 'chill'\nrests = '2 h'\nafter = []\n";
        assert_eq!(
            WrittenMenu::from_csv(table).unwrap(),
            WrittenMenu::from_toml(toml).unwrap()
        );
    }

    #[test]
    fn what_is_refused_is_named_by_line_and_column() {
        let table = WrittenMenu::from_toml(example()).unwrap().to_csv().unwrap();
        WrittenMenu::from_csv(&table).unwrap();
        let line_of = |begin: &str| 1 + table.lines().position(|l| l.starts_with(begin)).unwrap();
        for (from, to, column) in [
            ("menu,,,opens,18:00", "menu,,,opens,late", "value"),
            ("menu,,,opens,18:00", "menu,,,opened,18:00", "key"),
            ("menu,,,days,wed", "menu,,,days,mercredi", "value"),
            ("menu,,,until,", "menu,,,from,2026-06-30#", "key"),
            (
                "resource,,hands,places,3",
                "resource,,hands,places,three",
                "value",
            ),
            (
                "resource,,hands,places,3",
                "resource,,hands,places,1001",
                "value",
            ),
            ("resource,,hands,places,3", "resource,,,places,3", "name"),
            (
                "resource,,hands,serves,true",
                "resource,,hands,serves,oui",
                "value",
            ),
            ("who,hands,MO,skills", "who,feet,MO,skills", "in"),
            (
                "preparation,,oatcakes,due",
                "preparation,,oatcakes,dew",
                "key",
            ),
            (
                "preparation,,oatcakes,due,19:30",
                "preparation,,oatcakes,due,25:00",
                "value",
            ),
            (
                "batch,hogget neck,,portions,40",
                "batch,hogget neck,,portions,0",
                "value",
            ),
            (
                "batch,hogget neck,,portions,40",
                "batch,hogget nick,,portions,40",
                "in",
            ),
            (
                "batch,hogget neck,,keeps,",
                "batch,hogget neck,,keeps,long#",
                "value",
            ),
            (
                "step,bream,delivery,takes,10 min",
                "step,bream,delivery,takes,soon",
                "value",
            ),
            (
                "step,bream,delivery,takes,10 min",
                "stop,bream,delivery,takes,10 min",
                "what",
            ),
            (
                "step,bream,scale and fillet,needs,hands",
                "step,bream,scale and fillet,needs,feet",
                "value",
            ),
            (
                "step,bream,scale and fillet,needs,hands",
                "step,bream,scale and fillet,needs,9 hands",
                "value",
            ),
            (
                "step,bream,scale and fillet,skill,fish",
                "step,bream,scale and fillet,skill,magic",
                "value",
            ),
            (
                "step,oatcakes,bake,when.from,180degC",
                "step,oatcakes,bake,when.from,warm",
                "value",
            ),
            (
                "step,oatcakes,portion,after,bake",
                "step,oatcakes,portion,after,bakes",
                "value",
            ),
            (
                "step,oatcakes,portion,portions,24",
                "step,oatcakes,portion,portions,-1",
                "value",
            ),
        ] {
            let begun = table.find(from).unwrap_or_else(|| panic!("{from}"));
            // A replacement that ends in # takes the rest of the line with it.
            let end = match to.strip_suffix('#') {
                Some(_) => begun + table[begun..].find('\n').unwrap(),
                None => begun + from.len(),
            };
            let broken = format!(
                "{}{}{}",
                &table[..begun],
                to.trim_end_matches('#'),
                &table[end..]
            );
            let error = WrittenMenu::from_csv(&broken).unwrap_err();
            let place = format!("line {}, column {column}", line_of(from));
            assert_eq!(error.field(), place, "{from} -> {to}: {error}");
        }
        for nonsense in [
            "",
            "what,in,name\n",
            "what,in,name,key,value\n",
            "what,in,name,key,value\nmenu,,,opens,18:00,19:00\n",
        ] {
            let error = WrittenMenu::from_csv(nonsense).unwrap_err();
            assert!(error.field().starts_with("line "), "{nonsense:?}: {error}");
        }
        assert!(WrittenMenu::from_csv(&"x".repeat(10_000_000)).is_err());
    }

    /// Names that a table must quote, and that read like a count.
    fn named() -> impl Strategy<Value = String> {
        prop_oneof![
            "[a-z][a-z\",;' éß]{0,10}[a-z]",
            "[1-9] [a-z]{1,6}",
            "[a-z]{1,4} [=#\"|][a-z]{1,4}"
        ]
        .prop_map(|name| written_name::one_spelling(&name))
    }

    fn some_of(all: &'static [&'static str], least: usize) -> impl Strategy<Value = Vec<String>> {
        subsequence(all, least..=all.len())
            .prop_map(|some| some.into_iter().map(str::to_owned).collect())
    }

    fn one_of(all: &'static [&'static str]) -> impl Strategy<Value = String> {
        prop::sample::select(all).prop_map(str::to_owned)
    }

    const WEEK: &[&str] = &["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
    const LENGTHS: &[&str] = &["25 min", "1 h 30 min", "2 h to 3 h"];
    const EVENING: &[&str] = &["18:30", "19:00", "21:15"];

    fn resource() -> impl Strategy<Value = ResourceEntry> {
        (
            1usize..6,
            prop::option::of((one_of(&["08:00", "22:00"]), one_of(&["02:00", "23:30"]))),
            some_of(&WEEK[..6], 0),
            any::<bool>(),
            prop::collection::vec(prop::collection::vec(named(), 0..3), 0..3),
        )
            .prop_map(|(places, hours, closed, serves, skills)| ResourceEntry {
                name: String::new(),
                places: places.max(skills.len()),
                from: hours.as_ref().map(|(from, _)| from.clone()),
                to: hours.map(|(_, to)| to),
                closed,
                serves,
                who: skills
                    .into_iter()
                    .map(|skills| HandEntry {
                        name: String::new(),
                        skills,
                    })
                    .collect(),
            })
    }

    fn batch() -> impl Strategy<Value = BatchEntry> {
        (
            1u32..10_000,
            prop::option::of((one_of(&["3 days", "36 h"]), named())),
            prop::option::of(named()),
            prop_oneof![
                Just((None, None)),
                (1u32..500).prop_map(|needs| (Some(needs), None)),
                (0.001f64..100.0).prop_map(|share| (None, Some(share))),
            ],
            any::<bool>(),
            prop::option::of(prop::collection::vec(named(), 0..3)),
        )
            .prop_map(
                |(portions, keeps, dish, (needs, per_cover), date_marked, allergens)| BatchEntry {
                    portions,
                    keeps: keeps.as_ref().map(|(keeps, _)| keeps.clone()),
                    source: keeps.map(|(_, source)| source),
                    dish,
                    needs,
                    per_cover,
                    date_marked,
                    allergens,
                },
            )
    }

    type Ticked = (Option<String>, Option<u32>, Option<String>);

    fn ticked() -> impl Strategy<Value = Ticked> {
        prop_oneof![
            Just((None, None, None)),
            (named(), prop::option::of(1u32..100)).prop_map(|(dish, n)| (Some(dish), n, None)),
            named().prop_map(|title| (None, None, Some(title))),
        ]
    }

    /// A step; what it needs is said as places of the first resources.
    fn step() -> impl Strategy<Value = (StepEntry, Vec<bool>)> {
        (
            (any::<bool>(), one_of(LENGTHS)),
            prop::collection::vec(any::<bool>(), 3),
            any::<bool>(),
            prop::option::of(one_of(&["09:00", "14:30"])),
            prop::option::of(Just(Vec::new())),
            ticked(),
            prop::option::of((named(), one_of(&["180degC", "356degF"]))),
        )
            .prop_map(
                |((rest, length), needs, in_service, not_before, after, ticked, when)| {
                    let step = StepEntry {
                        takes: (!rest).then(|| length.clone()),
                        rests: rest.then_some(length),
                        in_service,
                        not_before,
                        after,
                        portions_of: ticked.0,
                        portions: ticked.1,
                        batch: ticked.2,
                        when: when.map(|(log, from)| WhenEntry {
                            log,
                            from,
                            to: String::from("230degC"),
                        }),
                        ..StepEntry::default()
                    };
                    (step, needs)
                },
            )
    }

    type Made = (PreparationEntry, Vec<(StepEntry, Vec<bool>)>);

    fn preparation() -> impl Strategy<Value = Made> {
        (
            named(),
            prop::option::of(one_of(EVENING)),
            prop::option::of(one_of(EVENING)),
            prop::option::of(named()),
            any::<bool>(),
            prop::option::of(batch()),
            prop::collection::vec(step(), 1..4),
        )
            .prop_map(|(name, due, preferred, fallback, buy_in, batch, steps)| {
                let entry = PreparationEntry {
                    name,
                    due,
                    preferred,
                    fallback,
                    buy_in,
                    batch,
                    step: Vec::new(),
                };
                (entry, steps)
            })
    }

    /// Any menu that hangs together.
    fn any_menu() -> impl Strategy<Value = Menu> {
        (
            prop::option::of(one_of(&["22:30", "01:00"])),
            prop::option::of(one_of(&["45 min", "2 h"])),
            prop::option::of(one_of(&["2026-05-01", "2026-05-09"])),
            prop::option::of(one_of(&["2026-06-30", "2026-12-31"])),
            prop::option::of(some_of(WEEK, 0)),
            prop::collection::vec((named(), resource()), 0..4),
            prop::collection::vec(preparation(), 0..4),
        )
            .prop_map(|(closes, spare, from, until, days, resources, made)| {
                let mut menu = Menu {
                    opens: String::from("18:00"),
                    closes,
                    spare,
                    from,
                    until,
                    days,
                    ..Menu::default()
                };
                // Names differ by their number, and keep what is odd about them.
                for (n, (name, mut resource)) in resources.into_iter().enumerate() {
                    resource.name = format!("{name} {n}");
                    for (of, hand) in resource.who.iter_mut().enumerate() {
                        hand.name = format!("M, {n} \"{of}\"");
                        hand.skills.sort();
                        hand.skills.dedup();
                    }
                    menu.resource.push(resource);
                }
                let mut before: Option<String> = None;
                for (n, (mut entry, steps)) in made.into_iter().enumerate() {
                    entry.name = format!("{} {n}", entry.name);
                    for (m, (mut step, needs)) in steps.into_iter().enumerate() {
                        step.name = format!("do, {m}");
                        let needed: Vec<Need> = menu
                            .resource
                            .iter()
                            .zip(&needs)
                            .filter(|(_, needed)| **needed)
                            .map(|(resource, _)| Need {
                                resource: resource.name.clone(),
                                places: 1 + u32::from(resource.places > 2),
                            })
                            .collect();
                        let skilled = menu.resource.iter().zip(&needs).filter(|(_, n)| **n);
                        let mut skills =
                            skilled.flat_map(|(r, _)| r.who.iter().flat_map(|h| h.skills.clone()));
                        step.skill = skills.next();
                        drop(skills);
                        step.needs = written(&needed);
                        if let (Some(list), Some(before)) = (&mut step.after, &before) {
                            list.push(before.clone());
                        }
                        before = Some(format!("{}: {}", entry.name, step.name));
                        entry.step.push(step);
                    }
                    menu.preparation.push(entry);
                }
                menu
            })
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(256))]
        #[test]
        fn any_menu_is_read_back_from_either_text_as_it_was(menu in any_menu()) {
            let written = WrittenMenu(in_one_form(menu));
            let toml = written.to_toml().unwrap();
            prop_assert_eq!(&WrittenMenu::from_toml(&toml).unwrap(), &written, "{}", toml);
            let table = written.to_csv().unwrap();
            let read = WrittenMenu::from_csv(&table);
            prop_assert!(read.is_ok(), "{:?}\n{}", read, table);
            let read = read.unwrap();
            prop_assert_eq!(&read, &written, "{}", table);
            prop_assert_eq!(read.to_csv().unwrap(), table);
            prop_assert_eq!(read.to_toml().unwrap(), toml);
        }
    }
}
