//! `evenhand spread`.

use super::amounts::UnitArguments;
use super::period::PeriodArguments;
use super::service::{DayArguments, assumptions, day_to_show};
use super::spread_table::{DoubtedJson, SpreadJson, against_others_line, doubted_lines};
use super::words::{bad_input, failed, say};
use super::{Data, Failure, output, written};
use clap::{Args, ValueEnum};
use evenhand_kitchen::cook::Cook;
use evenhand_kitchen::dish::DishName;
use evenhand_kitchen::service::{
    Assumptions, CookFigures, CookLabel, DoubtedSpread, FailedTest, ServiceCalendar, label_cooks,
};
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::statistics::{Confidence, Difference, spread_difference};
use evenhand_kitchen::tin::TinId;
use evenhand_store::Store;
use evenhand_use_cases::review::{Night, page, words};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// What portions are put together by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum By {
    /// Each dish.
    Dish,
    /// Each cook, as the setting of `evenhand service settings` allows.
    Cook,
    /// Each hour of the clock, in the order of the night.
    Hour,
    /// Each tin, fish or cut.
    Tin,
}

impl From<By> for evenhand_store::By {
    fn from(by: By) -> Self {
        match by {
            By::Dish => Self::Dish,
            By::Cook => Self::Cook,
            By::Hour => Self::Hour,
            By::Tin => Self::Tin,
        }
    }
}

#[derive(Debug, Args)]
pub(super) struct SpreadArguments {
    /// Only this dish; otherwise each dish by itself.
    #[arg(long, value_name = "NAME")]
    dish: Option<String>,
    /// Each dish apart by cook, hour or tin too.
    #[arg(long, value_enum, default_value = "dish")]
    by: By,
    /// Your own initials: your figures are shown under them.
    #[arg(long, value_name = "INITIALS")]
    cook: Option<String>,
    #[command(flatten)]
    period: PeriodArguments,
    #[command(flatten)]
    unit: UnitArguments,
    /// One JSON object a line for each dish, weights in grams.
    #[arg(long)]
    json: bool,
    /// Write a page for the wall on one service: a .pdf, .png or .svg file.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["dish", "by", "from", "to", "json"])]
    report: Option<PathBuf>,
    /// Write over a report that is there.
    #[arg(long, requires = "report")]
    force: bool,
    /// Only this service, past midnight too: 2026-05-01, yesterday. Of a report the latest, if not said.
    #[arg(long, value_name = "DAY", conflicts_with_all = ["from", "to"])]
    day: Option<String>,
    /// What a short portion costs, for the report: "1.50 EUR"; otherwise its food again.
    #[arg(
        long,
        value_name = "MONEY",
        requires = "report",
        allow_hyphen_values = true
    )]
    short_cost: Option<String>,
    /// How many services a month the report supposes, 1 to 62.
    #[arg(long, value_name = "COUNT", requires = "report")]
    services_a_month: Option<String>,
    /// Let an aim of the report lie below the target, which the guest is promised.
    #[arg(long, requires = "report")]
    below_promise: bool,
}

pub(super) fn run(data: &Data, arguments: &SpreadArguments) -> Result<(), Failure> {
    if let Some(report) = &arguments.report {
        return self::report(data, arguments, report);
    }
    let language = data.language;
    let unit = arguments.unit.unit()?;
    let now = ZonedDateTime::now();
    let (mut from, mut to) = arguments.period.period(&now)?;
    let asked = arguments
        .dish
        .as_ref()
        .map(|name| DishName::new("--dish", name))
        .transpose()?;
    let cook = arguments
        .cook
        .as_ref()
        .map(|cook| Cook::new("--cook", cook))
        .transpose()?;
    let mut store = data.existing()?;
    // Told as it is called now, also when nothing was made of it.
    let asked = match asked {
        Some(name) => Some(store.known_dish(&name)?.name),
        None => None,
    };
    let calendar = store.service_calendar(now.time_zone().clone())?;
    let day = DayArguments {
        day: arguments.day.clone(),
    };
    if let Some(day) = day.said(&calendar)? {
        let (begin, end) = calendar.span(day);
        (from, to) = (Some(begin), Some(end));
    }
    // What is in doubt comes before the figures that it is in.
    failed_tests(language, &store, &calendar, (from, to))?;
    let mut groups: BTreeMap<Option<DishName>, BTreeMap<ShownGroup, DoubtedSpread>> =
        BTreeMap::new();
    if let Some(name) = &asked
        && arguments.by == By::Dish
    {
        groups
            .entry(Some(name.clone()))
            .or_default()
            .insert(ShownGroup::Whole, DoubtedSpread::default());
    }
    for tally in store.tallies(arguments.by.into(), calendar.zone(), from, to)? {
        if asked.is_none() || tally.dish == asked {
            groups
                .entry(tally.dish)
                .or_default()
                .entry(ShownGroup::of(tally.part, &calendar))
                .or_default()
                .merge(&tally.spread);
        }
    }
    let cooks = store.cook_figures()?;
    let mut told = 0;
    for (dish, parts) in groups {
        let parts = labelled(parts, cooks, cook.as_ref());
        for (place, (part, spread)) in parts.iter().enumerate() {
            let apart = match part {
                ShownGroup::Shown(_) => against_the_others(&parts, place),
                _ => None,
            };
            if arguments.json {
                let mut json = DoubtedJson::of(dish.as_ref(), spread);
                part.put_into(&mut json.all);
                json.all.put_against_others(apart.as_ref());
                output::json(&json)?;
                continue;
            }
            if told > 0 {
                output::line("")?;
            }
            told += 1;
            for line in doubted_lines(language, dish.as_ref(), &part.words(language), spread, unit)
            {
                output::line(&line)?;
            }
            if let Some(apart) = &apart {
                output::line(&against_others_line(language, apart))?;
            }
        }
    }
    if told == 0 && !arguments.json {
        return output::line(&say!(language, "spread-nothing"));
    }
    Ok(())
}

/// Says where a failed test of the scale reaches into the time asked for: the
/// figures have what was weighed around it as the scale showed it.
fn failed_tests(
    language: Language,
    store: &Store,
    calendar: &ServiceCalendar,
    (from, to): (Option<Timestamp>, Option<Timestamp>),
) -> Result<(), Failure> {
    for failed in FailedTest::all(&store.scale_findings()?) {
        if failed.reaches(from, to) {
            eprintln!(
                "evenhand: {}",
                words::failed_in_figures(language, &failed, calendar)
            );
        }
    }
    Ok(())
}

/// What sets portions of one dish apart.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
enum ShownGroup {
    Whole,
    Cook(Option<Cook>),
    /// Hours into the service's day, and the hour of the clock.
    Hour(i8, i8),
    Tin(Option<TinId>),
    /// A cook as shown: the label.
    Shown(CookLabel),
}

impl ShownGroup {
    fn of(part: evenhand_store::Group, calendar: &ServiceCalendar) -> Self {
        match part {
            evenhand_store::Group::Whole => Self::Whole,
            evenhand_store::Group::Cook(cook) => Self::Cook(cook),
            evenhand_store::Group::Hour(hour) => Self::Hour(calendar.hours_into_day(hour), hour),
            evenhand_store::Group::Tin(tin) => Self::Tin(tin),
        }
    }

    fn words(&self, language: Language) -> String {
        match self {
            Self::Whole | Self::Cook(_) => String::new(),
            Self::Hour(_, hour) => say!(
                language,
                "spread-hour",
                from = format!("{hour:02}:00"),
                to = format!("{:02}:00", (hour + 1) % 24)
            )
            .into_owned(),
            Self::Tin(Some(tin)) => {
                say!(language, "spread-tin", tin = tin.to_string()).into_owned()
            }
            Self::Tin(None) => say!(language, "spread-no-tin").into_owned(),
            Self::Shown(CookLabel::Asking(cook)) => cook.to_string(),
            Self::Shown(CookLabel::Hidden(number)) => {
                say!(language, "spread-cook", number = number.to_string()).into_owned()
            }
            Self::Shown(CookLabel::Everybody) => say!(language, "spread-everybody").into_owned(),
        }
    }

    fn put_into(&self, json: &mut SpreadJson) {
        match self {
            Self::Whole | Self::Cook(_) => {}
            Self::Hour(_, hour) => json.hour = Some(*hour),
            Self::Tin(tin) => json.tin = Some(tin.map(|tin| tin.0)),
            Self::Shown(label) => json.cook = Some(label.to_string()),
        }
    }
}

/// How far the mean of one part lies from that of all the others together, by the
/// weights that can be relied on.
fn against_the_others(parts: &[(ShownGroup, DoubtedSpread)], place: usize) -> Option<Difference> {
    let mut others = Spread::new();
    for (other, (_, spread)) in parts.iter().enumerate() {
        if other != place {
            others.merge(&spread.relied);
        }
    }
    // As many comparisons are made as there are parts, and all together are to err at most
    // once in twenty.
    let confidence = Confidence::new(1.0 - 0.05 / parts.len() as f64).ok()?;
    spread_difference(&others, &parts.get(place)?.1.relied, confidence)
}

/// Cooks' figures as the setting allows them to be shown.
fn labelled(
    parts: BTreeMap<ShownGroup, DoubtedSpread>,
    setting: CookFigures,
    asking: Option<&Cook>,
) -> Vec<(ShownGroup, DoubtedSpread)> {
    let cooks: Vec<(Option<Cook>, usize)> = parts
        .iter()
        .filter_map(|(part, spread)| match part {
            ShownGroup::Cook(cook) => Some((cook.clone(), spread.all.n())),
            _ => None,
        })
        .collect();
    if cooks.is_empty() {
        return parts.into_iter().collect();
    }
    let mut shown: BTreeMap<CookLabel, DoubtedSpread> = BTreeMap::new();
    for (label, spread) in label_cooks(setting, asking, &cooks)
        .into_iter()
        .zip(parts.into_values())
    {
        shown.entry(label).or_default().merge(&spread);
    }
    shown
        .into_iter()
        .map(|(label, spread)| (ShownGroup::Shown(label), spread))
        .collect()
}

fn report(data: &Data, arguments: &SpreadArguments, path: &Path) -> Result<(), Failure> {
    let language = data.language;
    let ending = path
        .extension()
        .and_then(|ending| ending.to_str())
        .map(str::to_ascii_lowercase);
    let form = match ending.as_deref() {
        Some("pdf") => Form::Pdf,
        Some("png") => Form::Png,
        Some("svg") => Form::Svg,
        _ => {
            return Err(bad_input!(
                "spread-report-ending",
                path = format!("{:?}", path.display().to_string()),
            ));
        }
    };
    let assumptions = Assumptions {
        below_promise: arguments.below_promise,
        ..assumptions(
            arguments.short_cost.as_deref(),
            arguments.services_a_month.as_deref(),
        )?
    };
    let store = data.existing()?;
    let calendar = store.service_calendar(TimeZone::system())?;
    let day = DayArguments {
        day: arguments.day.clone(),
    };
    let day = day_to_show(&store, &calendar, &day)?;
    let night = Night::gather(&store, &calendar, day, assumptions)?;
    if night.dishes.is_empty() {
        return Err(bad_input!("spread-no-service", day = day.to_string()));
    }
    let bytes = match form {
        Form::Pdf => page::pdf(language, &night, &calendar),
        Form::Png => page::png(language, &night, &calendar),
        Form::Svg => Ok(page::svg(language, &night, &calendar).into_bytes()),
    }
    .map_err(|error| failed!("page-failed", why = error.to_string()))?;
    written::to_file(data, "--report", path, arguments.force, |file| {
        std::io::Write::write_all(file, &bytes)
    })?;
    let path = path.display().to_string();
    let day = day.to_string();
    eprintln!(
        "{}",
        say!(language, "spread-report-written", day = day, path = path)
    );
    Ok(())
}

enum Form {
    Pdf,
    Png,
    Svg,
}
