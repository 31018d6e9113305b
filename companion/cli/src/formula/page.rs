//! `evenhand formula page`.

use super::rounded;
use crate::heat::in_force;
use crate::words::say;
use crate::written::PdfArguments;
use crate::{Data, Failure, output};
use clap::Args;
use evenhand_kitchen::book::Lean;
use evenhand_kitchen::moment::read_day;
use evenhand_kitchen::units::{Grams, mass_positive};
use evenhand_use_cases::book::{
    PageRefused, TakeOver, TakeOverQuestion, Watch, page_pdf, page_words,
};
use evenhand_words::Language;
use jiff::tz::TimeZone;
use jiff::{Timestamp, ZonedDateTime};
use serde_json::{Value, json};

#[derive(Debug, Args)]
pub(in super::super) struct PageArguments {
    /// The dish, the formula or the preparation of the menu.
    name: String,
    /// So much of the formula's base is weighed.
    #[arg(
        long,
        value_name = "MASS",
        default_value = "1kg",
        allow_hyphen_values = true
    )]
    base: String,
    /// What the scale can weigh.
    #[arg(
        long,
        value_name = "MASS",
        default_value = "1g",
        allow_hyphen_values = true
    )]
    step: String,
    /// The service whose clocks are shown; the next one, if not said.
    #[arg(long = "for", value_name = "DAY")]
    day: Option<String>,
    #[command(flatten)]
    print: PdfArguments,
    /// As one JSON object.
    #[arg(long)]
    json: bool,
}

pub(super) fn run(
    data: &Data,
    arguments: &PageArguments,
    language: Language,
) -> Result<(), Failure> {
    let zone = TimeZone::system();
    let question = TakeOverQuestion {
        name: &arguments.name,
        base: mass_positive("--base", &arguments.base)?,
        step: mass_positive("--step", &arguments.step)?,
        day: arguments
            .day
            .as_ref()
            .map(|text| read_day("--for", text, &ZonedDateTime::now()))
            .transpose()?,
        now: Timestamp::now(),
        zone: &zone,
        language,
    };
    let asked = data.existing_or_empty()?;
    let page = TakeOver::gather(
        data.folder()?.path(),
        &asked.store,
        &in_force(data)?,
        &question,
    )
    .map_err(|error| match (error, data.existing()) {
        // A folder that was mistyped holds no such formula either.
        (PageRefused::Unknown { .. }, Err(no_store)) => no_store,
        (error, _) => refused(error),
    })?;
    let what = say!(language, "formula-page", name = page.name.as_str());
    arguments
        .print
        .write(data, &what, || page_pdf(language, &page, &question))?;
    if arguments.json {
        return output::json(&fields(&page));
    }
    output::sheet(&page_words(language, &page, &question))
}

fn refused(error: PageRefused) -> Failure {
    match error {
        PageRefused::Book(error) => super::failed(error),
        error => error.into(),
    }
}

fn lean(lean: &Lean) -> Value {
    json!({
        "mean_percent": rounded(lean.mean.percent()),
        "from_percent": rounded(lean.low.percent()),
        "to_percent": rounded(lean.high.percent()),
        "of": lean.of,
    })
}

fn fields(page: &TakeOver) -> Value {
    json!({
        "name": page.name,
        "target_grams": page.dish.as_ref().map(|dish| Grams(dish.goal.target())),
        "formula": page.formula.as_ref().map(|(formula, _)| super::fields(formula)),
        "how": page.formula.as_ref().map(|(formula, _)| formula.how()),
        "day": page.day,
        "pictures": page.pictures.iter().map(super::pictures::fields).collect::<Vec<_>>(),
        "steps": page.steps.iter().map(|step| json!({
            "name": step.name,
            "begin": step.begin,
            "takes_seconds": step.takes.as_secs(),
            "needs": step.needs,
        })).collect::<Vec<_>>(),
        "limits": page.limits.iter().map(|limit| json!({
            "name": limit.name,
            "demand": limit.demand.to_string(),
            "source": limit.source.to_string(),
        })).collect::<Vec<_>>(),
        "watch": page.watch.iter().map(|watch| match watch {
            Watch::Portions(of) => json!({"code": "portions", "lean": lean(of)}),
            Watch::Doughs { warm, cold, of } => {
                json!({"code": "doughs", "too_warm": warm, "too_cold": cold, "of": of})
            }
            Watch::Share { ingredient, lean: of } => {
                json!({"code": "share", "ingredient": ingredient, "lean": lean(of)})
            }
            Watch::Tasted { on, mark, note } => {
                json!({"code": "tasted", "day": on, "mark": mark, "note": note})
            }
        }).collect::<Vec<_>>(),
        "services_looked_at": page.looked_at.0,
        "doughs_looked_at": page.looked_at.1,
        "batches_looked_at": page.looked_at.2,
    })
}
