//! Formulas: made and changed by touch, scaled, their dough's water; and what
//! good batches share, frozen on a word.

mod draft;
mod method;

pub use method::Way;

use super::refusal::caption;
use super::shown::{figure, grams};
use super::view::{FieldView, FootView, RowView, Sheet};
use super::{BookField, BookObstacle, BookPage, BookRefusal, BookWish, Pan};
use crate::figures;
use crate::words::{Language, say};
use draft::{Draft, Line, StageLine};
use evenhand_kitchen::batch::Mark;
use evenhand_kitchen::book::{Counts, Ingredient, Size, StagedFormula, Starter, Trials};
use evenhand_kitchen::dough::MixedDough;
use evenhand_kitchen::limits::Limits;
use evenhand_kitchen::units::{
    InputError, Ratio, mass_not_negative, mass_positive, parse_percent, parse_temperature,
    parse_temperature_difference,
};
use evenhand_kitchen::{expected, problem};
use evenhand_protocol::{Mass, Temperature};
use evenhand_use_cases::book::{
    BookError, DoughToMix, DoughWater, book_error_words, book_refused_words, going, rose_words,
    trials_words, water, water_words, weighing_words,
};
use evenhand_use_cases::limits::LimitsError;
use std::path::PathBuf;

/// The coldest water at hand, where nobody said: as on the command line.
const COLDEST: Temperature = Temperature::from_millicelsius(15_000);
/// The least mark of a good batch, where nobody said: as on the command line.
const GOOD: u8 = 6;

/// How much is to be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
enum By {
    #[default]
    Base,
    Pieces,
    Total,
    Of,
}

/// What the worker read of the book.
#[derive(Debug, Default)]
pub(super) struct InTheBook {
    pub(super) formulas: Vec<StagedFormula>,
    pub(super) trouble: Vec<BookError>,
    pub(super) titles: Vec<String>,
    /// The limits in force, or why there are none to go by.
    pub(super) limits: Option<Result<Limits, LimitsError>>,
}

/// Batches of one title, lined up.
#[derive(Debug)]
pub(super) struct LinedUp {
    pub(super) title: String,
    /// What the shares are of.
    pub(super) bases: Vec<String>,
    pub(super) names: Vec<String>,
    pub(super) trials: Option<Result<Trials, InputError>>,
}

/// Everything on the formulas' screens.
#[derive(Debug, Default)]
pub(super) struct FormulaSheet {
    book: InTheBook,
    draft: Draft,
    /// The name that the draft has in the book already.
    kept_as: Option<String>,
    saved: bool,
    line: usize,
    stage: usize,
    /// The sentence of how it is done that is shown.
    work: usize,
    /// What was taken out of the book last, and where its file lies.
    taken_out: Option<(String, PathBuf)>,
    by: By,
    base: Option<Mass>,
    pieces: Option<u32>,
    each: Option<Mass>,
    lost: f64,
    total: Option<Mass>,
    of: Option<String>,
    of_mass: Option<Mass>,
    step: Option<Mass>,
    flour_at: Option<Temperature>,
    before_at: Option<Temperature>,
    wanted: Option<Temperature>,
    coldest: Option<Temperature>,
    room: Option<Temperature>,
    friction: Option<f64>,
    water_at: Option<Temperature>,
    ice: Option<Mass>,
    came_out_at: Option<Temperature>,
    measured: Vec<MixedDough>,
    rose: Option<f64>,
    lined_up: Option<LinedUp>,
    pub(super) bases: Vec<String>,
    mark: Option<Mark>,
    freeze_as: String,
}

impl FormulaSheet {
    pub(super) fn read(&mut self, book: InTheBook) {
        self.book = book;
    }

    /// The doughs of a formula, where it is still the one on the screen.
    pub(super) fn measured(&mut self, name: &str, doughs: Vec<MixedDough>) {
        if name == self.draft.name {
            self.measured = doughs;
        }
    }

    /// Batches lined up, where their shares are still of what is chosen now.
    pub(super) fn lined_up(&mut self, lined_up: LinedUp) {
        if lined_up.bases == self.bases {
            self.lined_up = Some(lined_up);
        }
    }

    pub(super) fn name(&self) -> &str {
        &self.draft.name
    }

    pub(super) fn title(&self) -> Option<&str> {
        self.lined_up.as_ref().map(|it| it.title.as_str())
    }

    pub(super) fn nth_title(&self, nth: usize) -> Option<String> {
        self.book.titles.get(nth).cloned()
    }

    pub(super) fn begin_trials(&mut self) {
        self.lined_up = None;
        self.bases.clear();
        self.freeze_as.clear();
    }

    pub(super) fn toggle_base(&mut self, nth: usize) {
        let Some(name) = self
            .lined_up
            .as_ref()
            .and_then(|it| it.names.get(nth))
            .cloned()
        else {
            return;
        };
        if self.bases.contains(&name) {
            self.bases.retain(|there| *there != name);
        } else {
            self.bases.push(name);
        }
        // Shares of another base are not those of this one.
        if let Some(lined_up) = &mut self.lined_up {
            lined_up.trials = None;
        }
    }

    fn least(&self) -> Result<Mark, InputError> {
        self.mark.map_or_else(|| Mark::new("mark", GOOD), Ok)
    }

    /// The formula that the good batches share, as a draft of its own.
    pub(super) fn freeze(&mut self) -> Result<Box<StagedFormula>, BookRefusal> {
        let lined_up = self
            .lined_up
            .as_ref()
            .ok_or(BookObstacle::NotSaid(BookField::FreezeAs))?;
        let Some(Ok(trials)) = &lined_up.trials else {
            return Err(BookObstacle::NoBase.into());
        };
        let name = if self.freeze_as.is_empty() {
            lined_up.title.clone()
        } else {
            self.freeze_as.clone()
        };
        let least = self.least().map_err(BookRefusal::Formula)?;
        trials
            .formula(&name, least)
            .map(Box::new)
            .map_err(BookRefusal::Formula)
    }

    /// A draft that is new, or one of the book's.
    pub(super) fn begin(&mut self, formula: Option<usize>) {
        let formula = formula.and_then(|nth| self.book.formulas.get(nth));
        self.draft = formula.map(Draft::of).unwrap_or_default();
        self.kept_as = formula.map(|it| it.name().to_owned());
        self.saved = formula.is_some();
        self.of = None;
        self.rose = None;
        self.measured = Vec::new();
        self.wanted = None;
        self.taken_out = None;
    }

    /// It is in the book.
    pub(super) fn kept(&mut self, formula: &StagedFormula) {
        self.draft = Draft::of(formula);
        self.kept_as = Some(formula.name().to_owned());
        self.saved = true;
    }

    pub(super) fn rose(&mut self, kelvin: f64) {
        self.rose = Some(kelvin);
        self.came_out_at = None;
    }

    /// The draft as a formula, and whether the one of that name is written over.
    pub(super) fn to_keep(&self) -> Result<(Box<StagedFormula>, bool), BookRefusal> {
        let formula = self.draft.formula().map_err(BookRefusal::Formula)?;
        let over = self
            .kept_as
            .as_ref()
            .is_some_and(|name| name.to_lowercase() == formula.name().to_lowercase());
        Ok((Box::new(formula), over))
    }

    /// Takes in what was typed; returns what is to be typed next.
    pub(super) fn enter(
        &mut self,
        field: BookField,
        text: &str,
    ) -> Result<Option<BookField>, InputError> {
        let name = "typed";
        let none = text.is_empty();
        let draft = &mut self.draft;
        let temperature = || -> Result<Option<Temperature>, InputError> {
            if none {
                return Ok(None);
            }
            parse_temperature(name, text).map(Some)
        };
        match field {
            BookField::FormulaName => {
                plain(text)?;
                text.clone_into(&mut draft.name);
            }
            BookField::EndsAt => draft.ends_at = temperature()?,
            BookField::NewIngredient => {
                plain(text)?;
                draft.lines.push(Line {
                    name: text.to_owned(),
                    percent: 0.0,
                    // What a formula begins with is what its shares are of.
                    is_base: draft.lines.is_empty(),
                    water: if is_water(text) { 100.0 } else { 0.0 },
                });
                self.line = draft.lines.len() - 1;
                return Ok(Some(BookField::Percent(self.line)));
            }
            BookField::Rename(nth) => {
                plain(text)?;
                let before = draft.lines.get(nth).map(|line| line.name.clone());
                draft.rename_line(nth, text);
                if before.is_some() && self.of == before {
                    self.of = Some(text.to_owned());
                }
            }
            BookField::RenameStage => {
                plain(text)?;
                let stage = draft.stages.get(self.stage);
                let before = stage.map(|stage| stage.name.clone());
                draft.rename_stage(self.stage, text);
                if before.is_some() && self.of == before {
                    self.of = Some(text.to_owned());
                }
            }
            BookField::NewWork => {
                sentence(text)?;
                draft.how.push(text.to_owned());
            }
            BookField::Work(nth) => {
                sentence(text)?;
                if let Some(line) = draft.how.get_mut(nth) {
                    text.clone_into(line);
                }
            }
            BookField::Percent(nth) => {
                let percent = parse_percent(name, text)?;
                if let Some(line) = draft.lines.get_mut(nth) {
                    Ingredient::new(&line.name, Counts::Base, percent)?;
                    line.percent = percent;
                }
            }
            BookField::WaterIn(nth) => {
                let percent = parse_percent(name, text)?;
                if let Some(line) = draft.lines.get_mut(nth) {
                    let water = Ratio::new(percent / 100.0).unwrap_or_default();
                    Ingredient::new(&line.name, Counts::Other { water }, 1.0)?;
                    line.water = percent;
                    line.is_base = false;
                }
            }
            BookField::NewStage => {
                plain(text)?;
                draft.stages.push(StageLine {
                    name: text.to_owned(),
                    hydration: 100.0,
                    ..StageLine::default()
                });
                self.stage = draft.stages.len() - 1;
            }
            BookField::Takes(nth) => {
                let percent = if none {
                    0.0
                } else {
                    parse_percent(name, text)?
                };
                if let (Some(line), Some(stage)) =
                    (draft.lines.get(nth), draft.stages.get_mut(self.stage))
                {
                    if percent != 0.0 {
                        Ingredient::new(&line.name, Counts::Base, percent)?;
                    }
                    stage.takes.retain(|(there, _)| *there != line.name);
                    if percent > 0.0 {
                        stage.takes.push((line.name.clone(), percent));
                    }
                }
            }
            BookField::StarterPercent => {
                let percent = if none {
                    None
                } else {
                    Some(parse_percent(name, text)?).filter(|percent| *percent != 0.0)
                };
                if let Some(percent) = percent {
                    Starter::new(percent, "flour", 100.0)?;
                }
                if let Some(stage) = draft.stages.get_mut(self.stage) {
                    stage.starter = percent;
                }
            }
            BookField::StarterHydration => {
                let percent = parse_percent(name, text)?;
                Starter::new(1.0, "flour", percent)?;
                if let Some(stage) = draft.stages.get_mut(self.stage) {
                    stage.hydration = percent;
                }
            }
            BookField::Base => (self.base, self.by) = (Some(mass_positive(name, text)?), By::Base),
            BookField::Total => {
                (self.total, self.by) = (Some(mass_positive(name, text)?), By::Total);
            }
            BookField::Pieces => {
                let count = text
                    .parse()
                    .ok()
                    .filter(|count| (1..=10_000).contains(count));
                let count = count.ok_or_else(|| {
                    InputError::new(
                        "pieces",
                        text,
                        problem!("no-count"),
                        expected!("from-to", low = 1, high = 10000),
                    )
                })?;
                (self.pieces, self.by) = (Some(count), By::Pieces);
            }
            BookField::Each => {
                (self.each, self.by) = (Some(mass_positive(name, text)?), By::Pieces)
            }
            BookField::Lost => {
                let percent = parse_percent(name, text)?;
                if !(0.0..50.0).contains(&percent) {
                    return Err(InputError::new(
                        "lost",
                        text,
                        problem!("no-dough-loss"),
                        expected!("dividing-loss"),
                    ));
                }
                (self.lost, self.by) = (percent, By::Pieces);
            }
            BookField::OfMass => {
                (self.of_mass, self.by) = (Some(mass_positive(name, text)?), By::Of);
            }
            BookField::ScaleStep => self.step = Some(mass_positive(name, text)?),
            BookField::FlourAt => self.flour_at = temperature()?,
            BookField::BeforeAt => self.before_at = temperature()?,
            BookField::DoughAt => self.wanted = temperature()?,
            BookField::Coldest => self.coldest = temperature()?,
            BookField::Room => self.room = temperature()?,
            BookField::Friction => {
                self.friction = if none {
                    None
                } else {
                    Some(parse_temperature_difference(name, text)?.celsius())
                };
            }
            BookField::WaterAt => self.water_at = temperature()?,
            BookField::Ice => self.ice = Some(mass_not_negative(name, text)?),
            BookField::CameOutAt => self.came_out_at = temperature()?,
            BookField::FreezeAs => {
                plain(text)?;
                text.clone_into(&mut self.freeze_as);
            }
            BookField::LeastMark => {
                let mark = text.parse().unwrap_or(0);
                self.mark = Some(Mark::new(name, mark)?);
            }
            _ => {}
        }
        if matches!(
            field,
            BookField::FormulaName
                | BookField::EndsAt
                | BookField::NewIngredient
                | BookField::Rename(_)
                | BookField::Percent(_)
                | BookField::WaterIn(_)
                | BookField::NewStage
                | BookField::RenameStage
                | BookField::NewWork
                | BookField::Work(_)
                | BookField::Takes(_)
                | BookField::StarterPercent
                | BookField::StarterHydration
        ) {
            self.saved = false;
        }
        Ok(None)
    }

    pub(super) const fn show_line(&mut self, nth: usize) {
        self.line = nth;
    }

    pub(super) const fn show_stage(&mut self, nth: usize) {
        self.stage = nth;
    }

    pub(super) fn turn_base(&mut self) {
        if let Some(line) = self.draft.lines.get_mut(self.line) {
            line.is_base = !line.is_base;
            self.saved = false;
        }
    }

    pub(super) fn drop_line(&mut self) {
        if self.line < self.draft.lines.len() {
            let gone = self.draft.lines.remove(self.line);
            for stage in &mut self.draft.stages {
                stage.takes.retain(|(name, _)| *name != gone.name);
            }
            self.saved = false;
        }
    }

    pub(super) fn drop_stage(&mut self) {
        if self.stage < self.draft.stages.len() {
            let gone = self.draft.stages.remove(self.stage);
            for stage in &mut self.draft.stages {
                stage.made.retain(|name| *name != gone.name);
            }
            self.saved = false;
        }
    }

    /// Another of the flours is the starter's.
    pub(super) fn turn_starter_flour(&mut self) {
        let flours: Vec<String> = self
            .draft
            .lines
            .iter()
            .filter(|line| line.is_base)
            .map(|line| line.name.clone())
            .collect();
        if let Some(stage) = self.draft.stages.get_mut(self.stage) {
            let place = stage
                .flour
                .as_ref()
                .and_then(|flour| flours.iter().position(|it| it == flour));
            let next = place.map_or(usize::from(flours.len() > 1), |place| place + 1);
            stage.flour = flours.get(next % flours.len().max(1)).cloned();
            self.saved = false;
        }
    }

    /// Another of the things is what there is so much of.
    pub(super) fn turn_of(&mut self) {
        let things: Vec<&String> = self
            .draft
            .lines
            .iter()
            .map(|line| &line.name)
            .chain(self.draft.stages.iter().map(|stage| &stage.name))
            .collect();
        let place = self
            .of
            .as_ref()
            .and_then(|of| things.iter().position(|it| *it == of));
        let next = place.map_or(0, |place| place + 1);
        self.of = things
            .get(next % things.len().max(1))
            .map(|it| (*it).clone());
        self.by = By::Of;
    }

    fn of_thing(&self) -> Option<String> {
        self.of
            .clone()
            .or_else(|| self.draft.lines.first().map(|line| line.name.clone()))
    }

    /// How much is to be made.
    fn size(&self) -> Result<Size, BookRefusal> {
        let not_said = |field| BookRefusal::Obstacle(BookObstacle::NotSaid(field));
        Ok(match self.by {
            By::Base => Size::Base(self.base.ok_or_else(|| not_said(BookField::Base))?),
            By::Total => Size::Total(self.total.ok_or_else(|| not_said(BookField::Total))?),
            By::Pieces => Size::Pieces {
                count: self.pieces.ok_or_else(|| not_said(BookField::Pieces))?,
                each: self.each.ok_or_else(|| not_said(BookField::Each))?,
                lost: Ratio::new(self.lost / 100.0).unwrap_or_default(),
            },
            By::Of => Size::Of {
                name: self
                    .of_thing()
                    .ok_or_else(|| not_said(BookField::NewIngredient))?,
                mass: self.of_mass.ok_or_else(|| not_said(BookField::OfMass))?,
            },
        })
    }

    fn dough(&self) -> Result<DoughToMix, BookRefusal> {
        let size = self.size()?;
        let flour_at = self
            .flour_at
            .ok_or(BookObstacle::NotSaid(BookField::FlourAt))?;
        let by_rule = self.room.zip(self.friction);
        Ok(DoughToMix {
            size,
            flour_at,
            before_at: self.before_at.filter(|_| !self.draft.stages.is_empty()),
            wanted: self.wanted,
            coldest: self.coldest.unwrap_or(COLDEST),
            by_rule,
        })
    }

    /// The dough that came out of the mixer, to be put on record.
    pub(super) fn mixed(&self) -> Result<(String, MixedDough), BookRefusal> {
        let not_said = |field| BookRefusal::Obstacle(BookObstacle::NotSaid(field));
        let formula = self.draft.formula().map_err(BookRefusal::Formula)?;
        let water_at = self.water_at.ok_or_else(|| not_said(BookField::WaterAt))?;
        let came_out = self
            .came_out_at
            .ok_or_else(|| not_said(BookField::CameOutAt))?;
        let going = going(&formula, &self.dough()?).map_err(BookRefusal::Formula)?;
        let dough = MixedDough::new(going, water_at, self.ice.unwrap_or(Mass::ZERO), came_out)
            .map_err(BookRefusal::Formula)?;
        Ok((formula.name().to_owned(), dough))
    }

    /// Names in use, to be touched instead of typed.
    pub(super) fn picks(&self, field: BookField, language: Language) -> Vec<String> {
        let mut picks: Vec<String> = match field {
            BookField::NewIngredient => ["flour", "water", "salt"]
                .into_iter()
                .map(|name| say!(language, "formula-usual", name = name).into_owned())
                .collect(),
            _ => Vec::new(),
        };
        picks.retain(|pick| self.draft.lines.iter().all(|line| line.name != *pick));
        picks
    }

    // What is shown.

    pub(super) fn view(&self, page: BookPage, pan: &Pan, language: Language) -> Sheet {
        match page {
            BookPage::Formulas => self.list(language),
            BookPage::Ingredient => self.line_view(language),
            BookPage::Stage => self.stage_view(language),
            BookPage::GoesInto => self.goes_into_view(language),
            BookPage::How => self.how_view(language),
            BookPage::Work => self.work_view(language),
            BookPage::Limits => self.limits_view(language),
            BookPage::Remove => self.remove_view(language),
            BookPage::Amounts => self.amounts(pan, language),
            BookPage::Water => self.water_view(language),
            BookPage::Titles => self.titles(language),
            BookPage::Trials => self.trials(language),
            _ => self.draft_view(language),
        }
    }

    fn list(&self, language: Language) -> Sheet {
        Sheet {
            heading: say!(language, "formula-heading").into_owned(),
            prompt: if self.book.formulas.is_empty() {
                say!(language, "formula-none").into_owned()
            } else {
                String::new()
            },
            lines: self.taken_out_words(language),
            rows: self
                .book
                .formulas
                .iter()
                .enumerate()
                .map(|(nth, formula)| RowView {
                    name: formula.name().to_owned(),
                    about: about(formula, language),
                    wish: BookWish::Formula(Some(nth)),
                })
                .collect(),
            loud: self.book.trouble.first().map(|first| {
                say!(
                    language,
                    "book-not-understood",
                    count = self.book.trouble.len(),
                    first = book_refused_words(language, first)
                )
                .into_owned()
            }),
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Done),
                FootView::plain(
                    say!(language, "formula-from-trials"),
                    BookWish::Show(BookPage::Titles),
                ),
                FootView::main(say!(language, "formula-new"), BookWish::Formula(None), true),
            ],
            ..Sheet::default()
        }
    }

    fn draft_view(&self, language: Language) -> Sheet {
        let draft = &self.draft;
        let mut fields = vec![
            named(language, BookField::FormulaName, &draft.name),
            field(
                language,
                BookField::EndsAt,
                draft.ends_at.map(|at| figures::celsius(at, language)),
            ),
        ];
        for (nth, line) in draft.lines.iter().enumerate() {
            let caption = if line.is_base {
                say!(language, "formula-of-base", name = line.name.as_str()).into_owned()
            } else {
                line.name.clone()
            };
            fields.push(FieldView::new(
                caption,
                figure(language, line.percent, "%"),
                BookWish::Ingredient(nth),
            ));
        }
        for (nth, stage) in draft.stages.iter().enumerate() {
            fields.push(FieldView::new(
                say!(language, "formula-beforehand"),
                stage.name.clone(),
                BookWish::Stage(nth),
            ));
        }
        fields.push(FieldView::new(
            say!(language, "formula-add-detail"),
            say!(language, "formula-add").into_owned(),
            BookWish::Ask(BookField::NewIngredient),
        ));
        fields.push(FieldView::new(
            say!(language, "formula-add-stage-detail"),
            say!(language, "formula-add-stage").into_owned(),
            BookWish::Ask(BookField::NewStage),
        ));
        fields.extend(self.method_fields(language));
        let formula = draft.formula();
        let lines = match &formula {
            Ok(formula) => {
                let mut lines = vec![about(formula, language)];
                if !formula.stages().is_empty() {
                    let base = figure(language, formula.base_in_stages().percent(), "%");
                    lines.push(say!(language, "formula-in-stages", base = base).into_owned());
                }
                lines.push(
                    if self.saved {
                        say!(language, "formula-is-kept")
                    } else {
                        say!(language, "formula-not-kept")
                    }
                    .into_owned(),
                );
                lines.extend(self.beside_the_old(language));
                lines
            }
            Err(error) => vec![
                say!(language, "formula-not-yet").into_owned(),
                book_error_words(language, error),
            ],
        };
        let whole = formula.is_ok();
        Sheet {
            heading: if draft.name.is_empty() {
                say!(language, "formula-new-heading").into_owned()
            } else {
                draft.name.clone()
            },
            fields,
            lines,
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Formulas)),
                FootView {
                    enabled: self.kept_as.is_some(),
                    ..FootView::plain(
                        say!(language, "formula-remove"),
                        BookWish::Show(BookPage::Remove),
                    )
                },
                FootView {
                    enabled: whole,
                    ..FootView::plain(
                        say!(language, "formula-amounts"),
                        BookWish::Show(BookPage::Amounts),
                    )
                },
                FootView {
                    enabled: whole,
                    ..FootView::plain(
                        say!(language, "formula-water"),
                        BookWish::Show(BookPage::Water),
                    )
                },
                FootView::main(
                    say!(language, "formula-keep"),
                    BookWish::Keep,
                    whole && !self.saved,
                ),
            ],
            ..Sheet::default()
        }
    }

    fn line_view(&self, language: Language) -> Sheet {
        let Some(line) = self.draft.lines.get(self.line) else {
            return self.draft_view(language);
        };
        let counts = if line.is_base {
            say!(language, "formula-counts-base")
        } else {
            say!(language, "formula-counts-other")
        };
        Sheet {
            heading: line.name.clone(),
            fields: vec![
                named(language, BookField::Rename(self.line), &line.name),
                field(
                    language,
                    BookField::Percent(self.line),
                    Some(figure(language, line.percent, "%")),
                ),
                FieldView::new(
                    say!(language, "formula-counts"),
                    counts.into_owned(),
                    BookWish::CountsAsBase,
                ),
                field(
                    language,
                    BookField::WaterIn(self.line),
                    Some(figure(language, line.water, "%")),
                ),
            ],
            lines: vec![say!(language, "formula-line-about").into_owned()],
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Formula)),
                FootView::plain(say!(language, "formula-drop"), BookWish::DropIngredient),
            ],
            ..Sheet::default()
        }
    }

    fn stage_view(&self, language: Language) -> Sheet {
        let Some(stage) = self.draft.stages.get(self.stage) else {
            return self.draft_view(language);
        };
        let mut fields = vec![
            named(language, BookField::RenameStage, &stage.name),
            FieldView::new(
                say!(language, "formula-goes-into"),
                self.stage_words(self.draft.goes_into(self.stage), language),
                BookWish::Show(BookPage::GoesInto),
            ),
            field(
                language,
                BookField::StarterPercent,
                stage.starter.map(|percent| figure(language, percent, "%")),
            ),
            FieldView::new(
                say!(language, "formula-starter-flour"),
                stage
                    .flour
                    .clone()
                    .or_else(|| self.draft.first_base())
                    .unwrap_or_default(),
                BookWish::StarterFlour,
            ),
            field(
                language,
                BookField::StarterHydration,
                Some(figure(language, stage.hydration, "%")),
            ),
        ];
        for (nth, line) in self.draft.lines.iter().enumerate() {
            let takes = stage.takes.iter().find(|(name, _)| *name == line.name);
            fields.push(FieldView::new(
                line.name.clone(),
                takes.map_or_else(
                    || say!(language, "formula-takes-none").into_owned(),
                    |(_, percent)| figure(language, *percent, "%"),
                ),
                BookWish::Ask(BookField::Takes(nth)),
            ));
        }
        let refused = self.draft.formula().err();
        Sheet {
            heading: say!(
                language,
                "formula-stage-heading",
                name = stage.name.as_str()
            )
            .into_owned(),
            fields,
            lines: std::iter::once(say!(language, "formula-stage-about").into_owned())
                .chain(stage.made.iter().map(|made| {
                    say!(language, "formula-made-for", name = made.as_str()).into_owned()
                }))
                .chain(refused.map(|error| book_error_words(language, &error)))
                .collect(),
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Formula)),
                FootView::plain(say!(language, "formula-drop"), BookWish::DropStage),
            ],
            ..Sheet::default()
        }
    }

    fn amounts(&self, pan: &Pan, language: Language) -> Sheet {
        let step = self.step.unwrap_or(pan.interval);
        let told = self
            .draft
            .formula()
            .map_err(BookRefusal::Formula)
            .and_then(|formula| {
                let weighing = formula
                    .weigh(&self.size()?, step)
                    .map_err(BookRefusal::Formula)?;
                Ok(weighing_words(language, &formula, &weighing, step))
            });
        let mass = |mass: Option<Mass>| mass.map(|mass| grams(mass, language));
        let by = |by: By, view: FieldView| FieldView {
            chosen: self.by == by,
            ..view
        };
        Sheet {
            heading: self.draft.name.clone(),
            prompt: say!(language, "formula-how-much").into_owned(),
            fields: vec![
                by(By::Base, field(language, BookField::Base, mass(self.base))),
                by(
                    By::Total,
                    field(language, BookField::Total, mass(self.total)),
                ),
                by(
                    By::Pieces,
                    field(
                        language,
                        BookField::Pieces,
                        self.pieces.map(|count| count.to_string()),
                    ),
                ),
                by(
                    By::Pieces,
                    field(language, BookField::Each, mass(self.each)),
                ),
                by(
                    By::Of,
                    FieldView::new(
                        say!(language, "formula-all-of"),
                        self.of_thing().unwrap_or_default(),
                        BookWish::OfThing,
                    ),
                ),
                by(
                    By::Of,
                    field(language, BookField::OfMass, mass(self.of_mass)),
                ),
                field(
                    language,
                    BookField::Lost,
                    Some(figure(language, self.lost, "%")),
                ),
                field(language, BookField::ScaleStep, mass(Some(step))),
            ],
            lines: match told {
                Ok(lines) => lines,
                Err(refusal) => vec![refusal.in_words(language)],
            },
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Formula)),
                FootView::plain(
                    say!(language, "formula-water"),
                    BookWish::Show(BookPage::Water),
                ),
            ],
            ..Sheet::default()
        }
    }

    fn water_view(&self, language: Language) -> Sheet {
        let coldest = self.coldest.unwrap_or(COLDEST);
        let told: Result<(DoughWater, DoughToMix), BookRefusal> = self
            .draft
            .formula()
            .map_err(BookRefusal::Formula)
            .and_then(|formula| {
                let dough = self.dough()?;
                let found =
                    water(&formula, &dough, &self.measured).map_err(BookRefusal::Formula)?;
                Ok((found, dough))
            });
        let degrees = |at: Option<Temperature>| at.map(|at| figures::celsius(at, language));
        let wanted = self.wanted.or(self.draft.ends_at);
        let mut fields = vec![
            FieldView::new(
                say!(language, "formula-how-much"),
                self.size_words(language),
                BookWish::Show(BookPage::Amounts),
            ),
            field(language, BookField::DoughAt, degrees(wanted)),
            field(language, BookField::FlourAt, degrees(self.flour_at)),
        ];
        if !self.draft.stages.is_empty() {
            fields.push(field(
                language,
                BookField::BeforeAt,
                degrees(self.before_at),
            ));
        }
        fields.extend([
            field(language, BookField::Coldest, degrees(Some(coldest))),
            field(language, BookField::Room, degrees(self.room)),
            field(
                language,
                BookField::Friction,
                self.friction.map(|kelvin| figure(language, kelvin, "K")),
            ),
            field(language, BookField::WaterAt, degrees(self.water_at)),
            field(
                language,
                BookField::Ice,
                Some(grams(self.ice.unwrap_or(Mass::ZERO), language)),
            ),
            field(language, BookField::CameOutAt, degrees(self.came_out_at)),
        ]);
        let mut lines: Vec<String> = self
            .rose
            .map(|kelvin| rose_words(language, kelvin))
            .into_iter()
            .collect();
        match told {
            Ok((found, _)) => lines.extend(water_words(language, &found, coldest)),
            Err(refusal) => lines.push(refusal.in_words(language)),
        }
        Sheet {
            heading: self.draft.name.clone(),
            prompt: say!(language, "formula-water-prompt").into_owned(),
            fields,
            lines,
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Formula)),
                FootView::main(
                    say!(language, "formula-mixed"),
                    BookWish::Mixed,
                    self.came_out_at.is_some() && self.water_at.is_some(),
                ),
            ],
            ..Sheet::default()
        }
    }

    fn size_words(&self, language: Language) -> String {
        match self.size() {
            Ok(Size::Base(mass) | Size::Total(mass) | Size::Of { mass, .. }) => {
                grams(mass, language)
            }
            Ok(Size::Pieces { count, each, .. }) => {
                format!("{count} \u{d7} {}", grams(each, language))
            }
            Err(_) => say!(language, "book-not-said").into_owned(),
        }
    }

    fn titles(&self, language: Language) -> Sheet {
        Sheet {
            heading: say!(language, "formula-trials-heading").into_owned(),
            prompt: if self.book.titles.is_empty() {
                say!(language, "formula-no-trials").into_owned()
            } else {
                String::new()
            },
            fields: self
                .book
                .titles
                .iter()
                .enumerate()
                .map(|(nth, title)| FieldView::new("", title.clone(), BookWish::TrialsOf(nth)))
                .collect(),
            foot: vec![FootView::plain(
                say!(language, "back"),
                BookWish::Show(BookPage::Formulas),
            )],
            ..Sheet::default()
        }
    }

    fn trials(&self, language: Language) -> Sheet {
        let Some(lined_up) = &self.lined_up else {
            return self.titles(language);
        };
        let least = self.least();
        let mut fields = vec![
            field(
                language,
                BookField::LeastMark,
                least.as_ref().ok().map(|mark| mark.value().to_string()),
            ),
            named(
                language,
                BookField::FreezeAs,
                if self.freeze_as.is_empty() {
                    &lined_up.title
                } else {
                    &self.freeze_as
                },
            ),
        ];
        for (nth, name) in lined_up.names.iter().enumerate() {
            let chosen = self.bases.contains(name);
            let detail = if chosen {
                say!(language, "formula-counts-base")
            } else {
                say!(language, "formula-touch-for-base")
            };
            fields.push(FieldView {
                chosen,
                ..FieldView::new(detail, name.clone(), BookWish::TrialBase(nth))
            });
        }
        let (lines, can) = match (&lined_up.trials, least) {
            (Some(Ok(trials)), Ok(least)) => (
                trials_words(language, trials, least),
                trials.good_count(least) > 0,
            ),
            (Some(Err(error)), _) => (vec![book_error_words(language, error)], false),
            _ => (
                vec![say!(language, "formula-choose-base").into_owned()],
                false,
            ),
        };
        Sheet {
            heading: lined_up.title.clone(),
            prompt: say!(language, "formula-trials-prompt").into_owned(),
            fields,
            lines,
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Titles)),
                FootView::main(say!(language, "formula-freeze"), BookWish::Freeze, can),
            ],
            ..Sheet::default()
        }
    }
}

fn about(formula: &StagedFormula, language: Language) -> String {
    say!(
        language,
        "formula-about",
        water = figure(language, formula.hydration().percent(), "%"),
        total = figure(language, formula.total().percent(), "%"),
        stages = formula.stages().len()
    )
    .into_owned()
}

fn field(language: Language, field: BookField, value: Option<String>) -> FieldView {
    let value = value.unwrap_or_else(|| say!(language, "book-not-said").into_owned());
    FieldView::new(caption(language, field), value, BookWish::Ask(field))
}

fn named(language: Language, of: BookField, name: &str) -> FieldView {
    field(
        language,
        of,
        Some(name.to_owned()).filter(|name| !name.is_empty()),
    )
}

/// A sentence of how it is done that can be one.
fn sentence(text: &str) -> Result<(), InputError> {
    let ingredients = ["flour", "water"].map(|name| Ingredient::new(name, Counts::Base, 50.0));
    let [one, other] = ingredients;
    StagedFormula::new("any", vec![one?, other?])?
        .done_by(&[text.to_owned()])
        .map(drop)
}

/// A name that can be one.
fn plain(name: &str) -> Result<(), InputError> {
    Ingredient::new(name, Counts::Base, 1.0).map(drop)
}

/// Water, in the languages that a cook may write it in.
fn is_water(name: &str) -> bool {
    Language::ALL
        .into_iter()
        .any(|language| *say!(language, "formula-usual", name = "water") == name.to_lowercase())
}
