//! Something told of a step that happened at another time than now: which step, what, when and by
//! whom.

use super::book::{FieldView, FootView, RowView, Sheet};
use super::intent::Intent;
use super::state::{Screen, State};
use super::words::{Language, say};
use evenhand_kitchen::prep::Happened;
use evenhand_use_cases::prep::length;
use evenhand_use_cases::times;
use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

/// What was told of is at most so many minutes ago: two days.
const MOST_AGO: i64 = 2 * 24 * 60;
/// By how many minutes the time is changed at a touch.
const STEPS: [i64; 6] = [-60, -15, -5, 5, 15, 60];
/// What can have happened.
const WHAT: [(Happened, &str); 3] = [
    (Happened::Done, "done"),
    (Happened::Begun, "begun"),
    (Happened::Undone, "undone"),
];

/// What is being told.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Telling {
    /// The service's day, and the step of it.
    pub of: (Date, String),
    /// What happened.
    pub what: Happened,
    /// Who did it, where that is said.
    pub by: Option<String>,
    /// When the step was chosen.
    pub(crate) chosen: Timestamp,
    /// How many minutes before that it happened.
    pub(crate) ago: i64,
    /// The time of day, with its day where that is not today.
    pub(crate) time: String,
}

/// One wish about it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TellWish {
    /// Tell of this step.
    Choose(Date, String),
    /// This happened.
    What(Happened),
    /// It was so many minutes later, or earlier.
    Move(i64),
    /// This pair of hands did it.
    By(Option<String>),
    /// Put it down.
    PutDown,
}

impl Telling {
    /// Of a step, done by `by`; until something else is said, now.
    #[must_use]
    pub fn of(
        (day, step): (Date, String),
        by: Option<String>,
        now: Timestamp,
        zone: &TimeZone,
        language: Language,
    ) -> Self {
        let telling = Self {
            of: (day, step),
            what: Happened::Done,
            by,
            chosen: now,
            ago: 0,
            time: String::new(),
        };
        telling.moved(0, zone, language)
    }

    /// When it happened.
    #[must_use]
    pub fn at(&self) -> Timestamp {
        self.chosen
            .saturating_sub(SignedDuration::from_mins(self.ago))
            .unwrap_or(self.chosen)
    }

    /// The same so many minutes later; never after it was chosen.
    #[must_use]
    pub fn moved(mut self, by: i64, zone: &TimeZone, language: Language) -> Self {
        self.ago = (self.ago - by).clamp(0, MOST_AGO);
        let today = self.chosen.to_zoned_datetime(zone.clone()).date();
        self.time = times::near(language, self.at(), today, zone);
        self
    }

    fn when(&self, language: Language) -> String {
        let time = self.time.as_str();
        if self.ago == 0 {
            return say!(language, "prep-tell-now", time = time).into_owned();
        }
        let ago = length(SignedDuration::from_mins(self.ago));
        say!(language, "prep-tell-when", time = time, ago = ago).into_owned()
    }
}

fn what_words(language: Language, what: Happened) -> String {
    let known = WHAT.iter().find(|(known, _)| *known == what);
    let code = known.map_or("undone", |(_, code)| code);
    say!(language, "prep-tell-what", what = code).into_owned()
}

/// The screen: the steps to choose among, or what is being told of one.
#[must_use]
pub fn sheet(state: &State) -> Sheet<Intent> {
    let language = state.language;
    let back = FootView::plain(say!(language, "back"), Intent::Go(Screen::Prep));
    let Some(telling) = &state.telling else {
        let rows = state.prep.steps.iter().map(|tile| RowView {
            name: tile.step.clone(),
            about: tile.about.clone(),
            wish: Intent::Tell(TellWish::Choose(tile.day, tile.step.clone())),
        });
        return Sheet {
            heading: say!(language, "prep-tell-heading").into_owned(),
            prompt: say!(language, "prep-tell-touch").into_owned(),
            rows: rows.collect(),
            foot: vec![back],
            ..Sheet::default()
        };
    };
    let field = |value: String, chosen: bool, wish: TellWish| FieldView {
        chosen,
        ..FieldView::new("", value, Intent::Tell(wish))
    };
    let mut fields: Vec<FieldView<Intent>> = WHAT
        .iter()
        .map(|(what, _)| {
            let words = what_words(language, *what);
            field(words, telling.what == *what, TellWish::What(*what))
        })
        .collect();
    for by in STEPS {
        let words = say!(
            language,
            "prep-later-by",
            sign = if by < 0 { "\u{2212}" } else { "+" },
            minutes = by.abs().to_string()
        );
        fields.push(field(words.into_owned(), false, TellWish::Move(by)));
    }
    if !state.prep.hands.is_empty() {
        let nobody = say!(language, "prep-tell-nobody").into_owned();
        fields.push(field(nobody, telling.by.is_none(), TellWish::By(None)));
    }
    for hand in &state.prep.hands {
        let chosen = telling.by.as_ref() == Some(hand);
        let wish = TellWish::By(Some(hand.clone()));
        fields.push(field(hand.clone(), chosen, wish));
    }
    let what = what_words(language, telling.what);
    let by = telling.by.as_ref().map_or_else(String::new, |by| {
        say!(language, "prep-tell-by", who = by.as_str()).into_owned()
    });
    Sheet {
        heading: telling.of.1.clone(),
        prompt: format!("{what}: {} {by}", telling.when(language))
            .trim_end()
            .to_owned(),
        fields,
        foot: vec![
            FootView::plain(say!(language, "back"), Intent::Go(Screen::Telling)),
            FootView::main(
                say!(language, "prep-tell-put-down"),
                Intent::Tell(TellWish::PutDown),
                true,
            ),
        ],
        ..Sheet::default()
    }
}
