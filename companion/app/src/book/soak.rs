//! Timed brines and marinades: a piece on its way in, and one on its way out.

use super::moment::{Said, clock};
use super::refusal::caption;
use super::shown::{figure, grams, on_scale};
use super::view::{FieldView, FootView, RowView, Sheet};
use super::{BookField, BookObstacle, BookPage, BookRefusal, BookWish, Pan};
use crate::figures;
use crate::words::{Language, say};
use evenhand_kitchen::batch::BatchId;
use evenhand_kitchen::brine::{MEAT_WATER, MeatWater, PercentOfSolution, SharedPercent, Thickness};
use evenhand_kitchen::units::{
    InputError, Ratio, mass_not_negative, mass_positive, parse_percent, parse_span,
    parse_temperature,
};
use evenhand_kitchen::uptake::{Bath, Cut, IntoBath, Labelled, OutOfBath, SaltKnown, Shape, Soak};
use evenhand_protocol::{Mass, Temperature};
use evenhand_use_cases::times;
use evenhand_use_cases::uptake::{Answer, Asked, InBath, asked_words, out_words};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ZonedDateTime};

/// How warm a cold store is, where nobody said: as on the command line.
const COLD: Temperature = Temperature::from_millicelsius(4_000);
/// Within how many percentage points a meter or a bath is read, where nobody
/// said: as on the command line.
const WITHIN: f64 = 0.2;

/// A sauce or paste that is being entered.
#[derive(Debug, Clone, Default)]
struct Sauce {
    name: String,
    mass: Option<Mass>,
    salt: Option<f64>,
}

/// What came out of a bath, as far as it was said.
#[derive(Debug, Clone, Default)]
struct Out {
    mass: Option<Mass>,
    bath_after: Option<f64>,
    bath_mass: Option<Mass>,
    in_piece: Option<f64>,
    within: Option<f64>,
    at: Said,
}

/// What is asked of the worker, and what it said.
#[derive(Debug, Clone)]
struct Told {
    into: IntoBath,
    since: Timestamp,
    answer: Option<Answer>,
}

/// Everything on the soak's screens.
#[derive(Debug, Default)]
pub(super) struct SoakSheet {
    pub(super) pieces: Vec<InBath>,
    cut: Option<Cut>,
    mass: Option<Mass>,
    round: bool,
    thickness: Option<Thickness>,
    meat: Option<MeatWater>,
    water: Option<Mass>,
    salt: Option<Mass>,
    labelled: Vec<Labelled>,
    sauce: Sauce,
    held_at: Option<Temperature>,
    core: Option<Ratio>,
    lasting: Option<SignedDuration>,
    told: Option<Told>,
    /// When the piece goes in.
    in_at: Said,
    chosen: Option<InBath>,
    out: Out,
    came_out: Option<Soak>,
}

impl SoakSheet {
    /// Takes in what was typed; returns what is to be typed next.
    pub(super) fn enter(
        &mut self,
        field: BookField,
        text: &str,
    ) -> Result<Option<BookField>, InputError> {
        let name = "typed";
        match field {
            BookField::Cut => self.cut = Some(Cut::new(name, text)?),
            BookField::CutMass => self.mass = Some(mass_positive(name, text)?),
            BookField::Thickness => self.thickness = Some(Thickness::parse(name, text)?),
            BookField::MeatWater => self.meat = Some(MeatWater::parse(name, text)?),
            BookField::BathWater => self.water = Some(mass_not_negative(name, text)?),
            BookField::BathSalt => self.salt = Some(mass_not_negative(name, text)?),
            BookField::SauceName => {
                // A name that is none is refused now, not after its label was typed.
                let tried = Labelled::new(text, Mass::from_grams(1), 1.0, None)?;
                self.sauce = Sauce {
                    name: tried.name().to_owned(),
                    ..Sauce::default()
                };
                return Ok(Some(BookField::SauceMass));
            }
            BookField::SauceMass => {
                self.sauce.mass = Some(mass_positive(name, text)?);
                return Ok(Some(BookField::SauceSalt));
            }
            BookField::SauceSalt => {
                let percent = parse_percent(name, text)?;
                Labelled::new("sauce", Mass::from_grams(1), percent, None)?;
                self.sauce.salt = Some(percent);
                return Ok(Some(BookField::SauceWater));
            }
            BookField::SauceWater => {
                let water = if text.is_empty() {
                    None
                } else {
                    Some(parse_percent(name, text)?)
                };
                let mass = self.sauce.mass.unwrap_or(Mass::ZERO);
                let salt = self.sauce.salt.unwrap_or(0.0);
                let labelled = Labelled::new(&self.sauce.name, mass, salt, water)?;
                self.labelled
                    .retain(|there| there.name() != labelled.name());
                self.labelled.push(labelled);
                self.sauce = Sauce::default();
            }
            BookField::HeldAt => self.held_at = Some(parse_temperature(name, text)?),
            BookField::Core => {
                self.core = if text.is_empty() {
                    None
                } else {
                    Ratio::new(SharedPercent::parse(name, text)?.percent() / 100.0)
                };
            }
            BookField::Lasting => {
                self.lasting = if text.is_empty() {
                    None
                } else {
                    Some(parse_span(name, text)?)
                };
            }
            BookField::OutMass => self.out.mass = Some(mass_positive(name, text)?),
            BookField::BathAfter => {
                self.out.bath_after = Some(PercentOfSolution::parse(name, text)?.percent());
                self.out.in_piece = None;
            }
            BookField::BathMass => self.out.bath_mass = Some(mass_positive(name, text)?),
            BookField::InPiece => {
                self.out.in_piece = Some(parse_percent(name, text)?);
                self.out.bath_after = None;
                self.out.bath_mass = None;
            }
            BookField::Within => self.out.within = Some(parse_percent(name, text)?),
            _ => {}
        }
        Ok(None)
    }

    /// When what a page is about happened.
    const fn said_on(&mut self, page: BookPage) -> &mut Said {
        match page {
            BookPage::OutOfBath => &mut self.out.at,
            _ => &mut self.in_at,
        }
    }

    /// It went in, or came out, a day earlier.
    pub(super) fn turn_day(&mut self, page: BookPage, now: &ZonedDateTime) {
        self.said_on(page).turn_day(now);
    }

    /// It went in, or came out, at this time of that day.
    pub(super) fn say_time(
        &mut self,
        page: BookPage,
        text: &str,
        now: &ZonedDateTime,
    ) -> Result<(), InputError> {
        self.said_on(page).say(text, now)
    }

    /// When the piece goes in.
    pub(super) fn goes_in_at(&self, now: &ZonedDateTime) -> Result<Timestamp, BookRefusal> {
        moment(&self.in_at, BookField::InAt, now)
    }

    /// When the piece came out.
    pub(super) fn comes_out_at(&self, now: &ZonedDateTime) -> Result<Timestamp, BookRefusal> {
        moment(&self.out.at, BookField::OutAt, now)
    }

    pub(super) const fn turn_shape(&mut self) {
        self.round = !self.round;
    }

    pub(super) fn choose_meat(&mut self, nth: usize) {
        self.meat = MEAT_WATER.get(nth).copied();
    }

    pub(super) fn no_sauce(&mut self) {
        self.labelled.clear();
    }

    /// What stands in the way of putting it in, in the order of the screen.
    fn not_said(&self) -> Option<BookField> {
        [
            (self.cut.is_none(), BookField::Cut),
            (self.mass.is_none(), BookField::CutMass),
            (self.thickness.is_none(), BookField::Thickness),
            (self.meat.is_none(), BookField::MeatWater),
            (
                self.water.is_none() && self.labelled.is_empty(),
                BookField::BathWater,
            ),
            (
                self.salt.is_none() && self.labelled.is_empty(),
                BookField::BathSalt,
            ),
        ]
        .into_iter()
        .find_map(|(not_said, field)| not_said.then_some(field))
    }

    /// What is to go in.
    pub(super) fn to_go_in(&self) -> Result<IntoBath, BookRefusal> {
        let not_said = |field| BookRefusal::Obstacle(BookObstacle::NotSaid(field));
        if let Some(field) = self.not_said() {
            return Err(not_said(field));
        }
        let bath = Bath::new(
            self.water.unwrap_or(Mass::ZERO),
            self.salt.unwrap_or(Mass::ZERO),
            self.labelled.clone(),
        )
        .map_err(BookRefusal::Soak)?;
        let shape = if self.round {
            Shape::Cylinder
        } else {
            Shape::Slab
        };
        IntoBath::new(
            self.cut.clone().ok_or_else(|| not_said(BookField::Cut))?,
            self.mass.ok_or_else(|| not_said(BookField::CutMass))?,
            (
                shape,
                self.thickness
                    .ok_or_else(|| not_said(BookField::Thickness))?,
            ),
            &self.meat.ok_or_else(|| not_said(BookField::MeatWater))?,
            bath,
            self.held_at.unwrap_or(COLD),
        )
        .map_err(BookRefusal::Soak)
    }

    /// What is to be asked of the record for a page, where it can be asked.
    pub(super) fn question(
        &mut self,
        page: BookPage,
        now: &ZonedDateTime,
    ) -> Option<(IntoBath, Asked)> {
        let (into, since, lasting) = match page {
            BookPage::IntoBath => {
                let since = self.goes_in_at(now).ok()?;
                (self.to_go_in().ok()?, since, self.lasting)
            }
            BookPage::OutOfBath => {
                let out = self.comes_out_at(now).ok()?;
                let piece = self.chosen.as_ref()?;
                let lain = out.duration_since(piece.since);
                let lain = SignedDuration::from_mins(lain.as_mins().max(1));
                (piece.into.clone(), piece.since, Some(lain))
            }
            _ => return None,
        };
        let same = self
            .told
            .take()
            .filter(|told| told.into == into && told.since == since);
        self.told = Some(Told {
            into: into.clone(),
            since,
            // What was said a moment ago stands until it is said anew.
            answer: same.and_then(|told| told.answer),
        });
        let core = self.core;
        Some((into, Asked { lasting, core }))
    }

    pub(super) fn unsaid(&mut self) {
        self.told = None;
    }

    pub(super) fn answered(&mut self, answer: Answer) {
        if let Some(told) = &mut self.told {
            told.answer = Some(answer);
        }
    }

    pub(super) fn choose(&mut self, id: BatchId) -> bool {
        let piece = self.pieces.iter().find(|piece| piece.id == id).cloned();
        let there = piece.is_some();
        self.show_piece(piece);
        there
    }

    fn show_piece(&mut self, piece: Option<InBath>) {
        self.told = None;
        self.out = Out::default();
        self.came_out = None;
        self.chosen = piece;
    }

    /// It went in: the next one is weighed anew.
    pub(super) fn went_in(&mut self, piece: InBath) {
        self.mass = None;
        self.in_at = Said::default();
        self.show_piece(Some(piece));
    }

    pub(super) fn is_out(&mut self, soak: Soak) {
        self.came_out = Some(soak);
    }

    /// What came out, to be put on record.
    pub(super) fn out_of_bath(&self) -> Result<(BatchId, OutOfBath), BookRefusal> {
        let piece = self.chosen.as_ref().ok_or(BookObstacle::NotInBath)?;
        let mass = self
            .out
            .mass
            .ok_or(BookObstacle::NotSaid(BookField::OutMass))?;
        let within = self.out.within.unwrap_or(WITHIN);
        let salt = match (self.out.bath_after, self.out.in_piece) {
            (Some(percent_of_solution), _) => SaltKnown::BathAfter {
                percent_of_solution,
                within,
                mass: self.out.bath_mass,
            },
            (None, Some(percent)) => SaltKnown::InThePiece { percent, within },
            (None, None) => SaltKnown::Nothing,
        };
        Ok((piece.id, OutOfBath { mass, salt }))
    }

    /// Names of cuts that lie in a bath, to be touched instead of typed.
    pub(super) fn picks(&self, field: BookField, language: Language) -> Vec<String> {
        if matches!(field, BookField::InAt | BookField::OutAt) {
            return vec![say!(language, "book-now").into_owned()];
        }
        let mut cuts: Vec<String> = Vec::new();
        if field == BookField::Cut {
            for piece in self.pieces.iter().rev() {
                let name = piece.into.cut.name().to_owned();
                if !cuts.contains(&name) {
                    cuts.push(name);
                }
            }
        }
        cuts.truncate(4);
        cuts
    }

    // What is shown.

    pub(super) fn view(
        &self,
        page: BookPage,
        pan: &Pan,
        now: Timestamp,
        (language, zone): (Language, &TimeZone),
    ) -> Sheet {
        match page {
            BookPage::Pieces => self.list(now, language, zone),
            BookPage::IntoBath => self.piece_view(pan, now, language, zone),
            BookPage::Kind => kinds(self.meat, language),
            _ => self.out_view(pan, now, language, zone),
        }
    }

    fn list(&self, now: Timestamp, language: Language, zone: &TimeZone) -> Sheet {
        let today = now.to_zoned_datetime(zone.clone()).date();
        Sheet {
            heading: say!(language, "soak-heading").into_owned(),
            prompt: if self.pieces.is_empty() {
                say!(language, "soak-none").into_owned()
            } else {
                say!(language, "soak-choose").into_owned()
            },
            rows: self
                .pieces
                .iter()
                .map(|piece| RowView {
                    name: piece.into.cut.name().to_owned(),
                    about: say!(
                        language,
                        "soak-lies",
                        mass = grams(piece.into.mass, language),
                        since = times::near(language, piece.since, today, zone),
                        span = times::hours(now.duration_since(piece.since))
                    )
                    .into_owned(),
                    wish: BookWish::Piece(piece.id),
                })
                .collect(),
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Done),
                FootView::main(
                    say!(language, "soak-put-one-in"),
                    BookWish::Show(BookPage::IntoBath),
                    true,
                ),
            ],
            ..Sheet::default()
        }
    }

    fn answer_lines(&self, language: Language, zone: &TimeZone) -> Vec<String> {
        match &self.told {
            Some(Told {
                into,
                since,
                answer: Some(answer),
            }) => asked_words(language, into, answer, *since, zone),
            Some(_) => vec![say!(language, "soak-reckoning").into_owned()],
            None => Vec::new(),
        }
    }

    fn piece_view(&self, pan: &Pan, now: Timestamp, language: Language, zone: &TimeZone) -> Sheet {
        let now = clock(now, zone);
        let field = |field: BookField, value: Option<String>| {
            let value = value.unwrap_or_else(|| say!(language, "book-not-said").into_owned());
            FieldView::new(caption(language, field), value, BookWish::Ask(field))
        };
        let shape = if self.round {
            say!(language, "soak-round")
        } else {
            say!(language, "soak-flat")
        };
        let sauces: Vec<&str> = self.labelled.iter().map(Labelled::name).collect();
        let fields = vec![
            field(
                BookField::Cut,
                self.cut.as_ref().map(|cut| cut.name().to_owned()),
            ),
            field(
                BookField::CutMass,
                self.mass.map(|mass| grams(mass, language)),
            ),
            field(
                BookField::Thickness,
                self.thickness
                    .map(|thickness| figure(language, thickness.millimetres(), "mm")),
            ),
            FieldView::new(
                say!(language, "soak-shape"),
                shape.into_owned(),
                BookWish::Shape,
            ),
            FieldView::new(
                say!(language, "soak-kind"),
                self.meat.map_or_else(
                    || say!(language, "book-not-said").into_owned(),
                    |meat| meat_words(language, &meat),
                ),
                BookWish::Show(BookPage::Kind),
            ),
            field(
                BookField::HeldAt,
                Some(figures::celsius(self.held_at.unwrap_or(COLD), language)),
            ),
            field(
                BookField::BathWater,
                self.water.map(|mass| grams(mass, language)),
            ),
            field(
                BookField::BathSalt,
                self.salt.map(|mass| grams(mass, language)),
            ),
            FieldView::new(
                say!(language, "soak-sauces"),
                if sauces.is_empty() {
                    say!(language, "soak-no-sauce").into_owned()
                } else {
                    sauces.join(", ")
                },
                BookWish::Ask(BookField::SauceName),
            ),
            field(
                BookField::Core,
                self.core.map(|core| figure(language, core.percent(), "%")),
            ),
            FieldView::new(
                say!(language, "soak-in-on"),
                self.in_at.day_words(language, &now),
                BookWish::AnotherDay,
            ),
            field(BookField::InAt, Some(self.in_at.time_words(language))),
            field(BookField::Lasting, self.lasting.map(times::hours)),
        ];
        let goes_in_at = self.goes_in_at(&now);
        let refused = match (self.to_go_in(), &goes_in_at) {
            (Err(refusal @ BookRefusal::Soak(_)), _) => Some(refusal.in_words(language)),
            (_, Err(refusal)) => Some(refusal.in_words(language)),
            _ => None,
        };
        let not_said = self.not_said();
        Sheet {
            heading: say!(language, "soak-into").into_owned(),
            prompt: not_said
                .map_or_else(|| on_scale(pan, language), |field| caption(language, field)),
            fields,
            lines: if refused.is_some() {
                Vec::new()
            } else if not_said.is_some() {
                vec![say!(language, "soak-say-all").into_owned()]
            } else {
                self.answer_lines(language, zone)
            },
            foot: vec![
                FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Pieces)),
                FootView {
                    enabled: !self.labelled.is_empty(),
                    ..FootView::plain(say!(language, "soak-drop-sauces"), BookWish::NoSauce)
                },
                FootView::main(
                    say!(language, "soak-put-in"),
                    BookWish::PutIn,
                    not_said.is_none() && refused.is_none(),
                ),
            ],
            loud: refused,
            ..Sheet::default()
        }
    }

    fn out_view(&self, pan: &Pan, now: Timestamp, language: Language, zone: &TimeZone) -> Sheet {
        let Some(piece) = &self.chosen else {
            return self.list(now, language, zone);
        };
        let back = FootView::plain(say!(language, "back"), BookWish::Show(BookPage::Pieces));
        let heading = say!(language, "soak-of", cut = piece.into.cut.name()).into_owned();
        if let Some(soak) = &self.came_out {
            return Sheet {
                heading,
                prompt: say!(language, "soak-on-record", batch = piece.id.to_string()).into_owned(),
                lines: out_words(language, soak),
                foot: vec![back],
                ..Sheet::default()
            };
        }
        let field = |field: BookField, value: Option<String>| {
            let value = value.unwrap_or_else(|| say!(language, "book-not-said").into_owned());
            FieldView::new(caption(language, field), value, BookWish::Ask(field))
        };
        let percent = |value: Option<f64>| value.map(|value| figure(language, value, "%"));
        let local = clock(now, zone);
        let refused = self
            .comes_out_at(&local)
            .err()
            .map(|refusal| refusal.in_words(language));
        let today = now.to_zoned_datetime(zone.clone()).date();
        let mut lines = vec![
            say!(
                language,
                "soak-lies",
                mass = grams(piece.into.mass, language),
                since = times::near(language, piece.since, today, zone),
                span = times::hours(now.duration_since(piece.since))
            )
            .into_owned(),
        ];
        lines.extend(self.answer_lines(language, zone));
        Sheet {
            heading,
            prompt: on_scale(pan, language),
            fields: vec![
                field(
                    BookField::OutMass,
                    self.out.mass.map(|mass| grams(mass, language)),
                ),
                field(BookField::BathAfter, percent(self.out.bath_after)),
                field(
                    BookField::BathMass,
                    self.out.bath_mass.map(|mass| grams(mass, language)),
                ),
                field(BookField::InPiece, percent(self.out.in_piece)),
                field(
                    BookField::Within,
                    percent(Some(self.out.within.unwrap_or(WITHIN))),
                ),
                field(
                    BookField::Core,
                    self.core.map(|core| figure(language, core.percent(), "%")),
                ),
                FieldView::new(
                    say!(language, "soak-out-on"),
                    self.out.at.day_words(language, &local),
                    BookWish::AnotherDay,
                ),
                field(BookField::OutAt, Some(self.out.at.time_words(language))),
            ],
            lines,
            foot: vec![
                back,
                FootView::main(
                    say!(language, "soak-take-out"),
                    BookWish::TakeOut,
                    self.out.mass.is_some() && refused.is_none(),
                ),
            ],
            loud: refused,
            ..Sheet::default()
        }
    }
}

/// When something happened, where that is said whole.
fn moment(said: &Said, field: BookField, now: &ZonedDateTime) -> Result<Timestamp, BookRefusal> {
    said.at(now)
        .map_err(BookRefusal::Moment)?
        .ok_or_else(|| BookObstacle::NotSaid(field).into())
}

/// The table of meats, to be touched.
fn kinds(chosen: Option<MeatWater>, language: Language) -> Sheet {
    let mut fields: Vec<FieldView> = MEAT_WATER
        .iter()
        .enumerate()
        .map(|(nth, meat)| FieldView {
            chosen: chosen.is_some_and(|chosen| chosen.name == meat.name),
            ..FieldView::new(
                say!(
                    language,
                    "soak-water-in-it",
                    percent = figure(language, meat.percent, "%"),
                    within = figure(language, meat.give_or_take, "%")
                ),
                meat_words(language, meat),
                BookWish::Meat(nth),
            )
        })
        .collect();
    fields.push(FieldView::new(
        say!(language, "soak-water-said-detail"),
        say!(language, "soak-water-said").into_owned(),
        BookWish::Ask(BookField::MeatWater),
    ));
    Sheet {
        heading: say!(language, "soak-kind-heading").into_owned(),
        fields,
        foot: vec![FootView::plain(
            say!(language, "back"),
            BookWish::Show(BookPage::IntoBath),
        )],
        ..Sheet::default()
    }
}

fn meat_words(language: Language, meat: &MeatWater) -> String {
    if MEAT_WATER.iter().any(|line| line.name == meat.name) {
        say!(language, "soak-meat", meat = meat.name).into_owned()
    } else {
        say!(
            language,
            "soak-meat-said",
            percent = figure(language, meat.percent, "%")
        )
        .into_owned()
    }
}
