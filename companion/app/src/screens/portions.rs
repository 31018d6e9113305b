//! The portions of the run, and striking one out with its reason. Nothing is
//! ever deleted: a struck portion stays in the list, and can be counted again.

use crate::bench_view::{PortionState, PortionView};
use crate::intent::Intent;
use crate::layout::{self, Rest};
use crate::state::{Screen, State};
use crate::widgets::big_button::{BigButton, Weight};
use crate::widgets::shapes;
use crate::words::{self, Language, say};
use crate::{figures, text, theme, theme::Scale};
use eframe::egui::{
    Align2, Key, Rect, RichText, Role, ScrollArea, Sense, StrokeKind, TextEdit, Ui, UiBuilder,
    WidgetInfo, vec2,
};
use evenhand_protocol::{Mass, PortionId};
use std::borrow::Cow;

/// Reasons to pick from.
fn offered(language: Language) -> [Cow<'static, str>; 6] {
    [
        say!(language, "reason-fell"),
        say!(language, "reason-tasted"),
        say!(language, "reason-not-a-portion"),
        say!(language, "reason-wrong-dish"),
        say!(language, "reason-put-back"),
        say!(language, "reason-bumped"),
    ]
}

/// Shows the screen in `place`.
pub fn show(ui: &mut Ui, place: Rect, state: &State) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let language = words::of(ui);
    let mut intents = Vec::new();
    let mut rest = Rest(place);
    let head = rest.top(scale.u(52.0));
    rest.top(scale.u(8.0));
    let Some(run) = &state.bench.run else {
        text::label(
            ui,
            head,
            &say!(language, "portions-no-run"),
            &text::Style::new(scale.plain(32.0), theme::INK, Align2::LEFT_CENTER),
        );
        let places = layout::columns(rest.bottom(scale.u(72.0)), 3, gap);
        if let Some(back) = places.first()
            && BigButton::new(&say!(language, "back"))
                .key(Key::Escape)
                .show(ui, *back)
        {
            intents.push(Intent::Go(Screen::Bench));
        }
        return intents;
    };
    text::label(
        ui,
        head,
        &say!(language, "portions-title", dish = run.dish.as_str()),
        &text::Style::new(scale.heavy(36.0), theme::INK, Align2::LEFT_CENTER),
    );
    let side = rest.right(scale.u(476.0));
    rest.right(scale.u(20.0));
    let listed = state.strike.listed.unwrap_or(run.portions.len());
    let listed = run.portions.get(..listed).unwrap_or(&run.portions);
    let newer = run.portions.len() - listed.len();
    let more = rest.top(scale.u(theme::TOUCH));
    rest.top(scale.u(8.0));
    let words = if newer > 0 {
        say!(language, "portions-newer", count = newer)
    } else {
        say!(language, "portions-all-listed")
    };
    if BigButton::new(&words).enabled(newer > 0).show(ui, more) {
        intents.push(Intent::ListNewer);
    }
    intents.extend(list(
        ui,
        rest.0,
        listed,
        state.strike.portion,
        state.bench.mass.interval,
    ));
    let picked = state
        .strike
        .portion
        .and_then(|id| run.portions.iter().find(|portion| portion.id == id));
    intents.extend(side_panel(ui, side, state, picked));
    intents
}

/// Newest on top.
fn list(
    ui: &mut Ui,
    place: Rect,
    portions: &[PortionView],
    picked: Option<PortionId>,
    interval: Mass,
) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let tall = scale.u(theme::TOUCH);
    let gap = scale.u(6.0);
    // As many whole rows as there is room for, so that none is cut at rest.
    let rows = ((place.height() + gap) / (tall + gap)).floor().max(1.0);
    let place = place.with_max_y(place.top() + rows * (tall + gap) - gap);
    let mut intents = Vec::new();
    ui.scope_builder(UiBuilder::new().max_rect(place).id_salt("portions"), |ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, gap);
        ScrollArea::vertical()
            .auto_shrink(false)
            .content_margin(0.0)
            .show_rows(ui, tall, portions.len(), |ui, shown| {
                for nth in shown {
                    let Some(portion) = portions.iter().rev().nth(nth) else {
                        continue;
                    };
                    let (row, _) = ui.allocate_exact_size(
                        vec2(place.width() - scale.u(16.0), tall),
                        Sense::hover(),
                    );
                    if !ui.is_rect_visible(row.shrink(1.0)) {
                        continue;
                    }
                    if row_button(ui, row, portion, picked == Some(portion.id), interval) {
                        intents.push(Intent::PickPortion(portion.id));
                    }
                }
            });
    });
    intents
}

fn row_button(ui: &Ui, place: Rect, portion: &PortionView, picked: bool, interval: Mass) -> bool {
    let scale = Scale::of(ui);
    let response = ui.interact(
        place,
        ui.unique_id().with(("portion", portion.number)),
        Sense::click(),
    );
    let language = words::of(ui);
    let mass = figures::grams(portion.mass, interval, language);
    let verdict = figures::verdict(portion.verdict(), language);
    let tail = match (&portion.standing, &portion.doubt) {
        (PortionState::Struck(reason), _) => Cow::Borrowed(reason.as_str()),
        (PortionState::Corrected, _) => say!(language, "portion-corrected"),
        (PortionState::Counts, Some(doubt)) => say!(
            language,
            "portion-doubted",
            verdict = verdict,
            doubt = doubt.as_str()
        ),
        (PortionState::Counts, None) => verdict,
    };
    response.widget_info(|| {
        let (number, mass, tail) = (portion.number.to_string(), mass.as_str(), tail.as_ref());
        let spoken = match &portion.standing {
            PortionState::Struck(_) => say!(
                language,
                "portion-spoken-struck",
                number = number,
                mass = mass,
                reason = tail
            ),
            PortionState::Counts | PortionState::Corrected => say!(
                language,
                "portion-spoken",
                number = number,
                mass = mass,
                standing = tail
            ),
        };
        WidgetInfo::selected(Role::Button, true, picked, spoken)
    });
    let (fill, ink, edge) = if picked {
        (theme::SLATE, theme::ON_DARK, theme::SLATE)
    } else {
        (theme::SURFACE, theme::INK, theme::EDGE)
    };
    let painter = ui.painter();
    painter.rect(
        place,
        scale.corner(8.0),
        fill,
        scale.stroke(if response.has_focus() { 4.0 } else { 2.0 }, edge),
        StrokeKind::Inside,
    );
    let mut rest = Rest(place.shrink2(vec2(scale.u(14.0), 0.0)));
    let style = |font, align| text::Style::new(font, ink, align);
    text::paint(
        ui,
        rest.left(scale.u(64.0)),
        &portion.number.to_string(),
        &style(scale.plain(26.0), Align2::LEFT_CENTER),
    );
    text::paint(
        ui,
        rest.left(scale.u(92.0)),
        &portion.at,
        &style(scale.plain(26.0), Align2::LEFT_CENTER),
    );
    let weighed = text::paint(
        ui,
        rest.left(scale.u(150.0)),
        &mass,
        &style(scale.heavy(30.0), Align2::RIGHT_CENTER),
    );
    let mark = rest.left(scale.u(56.0)).center();
    if !portion.counts() {
        painter.hline(
            weighed.x_range(),
            weighed.center().y,
            scale.stroke(3.0, ink),
        );
        shapes::cross(painter, mark, scale.u(9.0), scale.stroke(4.0, ink));
    } else {
        let colour = if picked {
            ink
        } else {
            theme::verdict(portion.verdict()).mark
        };
        shapes::verdict(painter, mark, scale.u(12.0), portion.verdict(), colour);
    }
    text::paint(
        ui,
        rest.0,
        &tail,
        &style(scale.plain(26.0), Align2::LEFT_CENTER),
    );
    response.clicked()
}

fn side_panel(
    ui: &mut Ui,
    place: Rect,
    state: &State,
    picked: Option<&PortionView>,
) -> Vec<Intent> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let language = words::of(ui);
    let mut rest = Rest(place);
    let foot = layout::columns(rest.bottom(scale.u(80.0)), 2, gap);
    rest.bottom(gap);
    let mut intents = Vec::new();
    let [left, right] = foot.as_slice() else {
        return intents;
    };
    if BigButton::new(&say!(language, "back"))
        .key(Key::Escape)
        .show(ui, *left)
    {
        intents.push(Intent::Go(Screen::Bench));
    }
    let said = rest.top(scale.u(64.0));
    let words = match picked.map(|portion| (portion.number.to_string(), &portion.standing)) {
        None => say!(language, "strike-what-happens"),
        Some((number, PortionState::Counts)) => say!(language, "strike-why", number = number),
        Some((number, PortionState::Struck(reason))) => say!(
            language,
            "strike-was-struck",
            number = number,
            reason = reason.as_str()
        ),
        Some((number, PortionState::Corrected)) => {
            say!(language, "strike-was-corrected", number = number)
        }
    };
    text::label(
        ui,
        said,
        &words,
        &text::Style::new(scale.plain(28.0), theme::INK, Align2::LEFT_CENTER),
    );
    match picked.map(|portion| &portion.standing) {
        Some(PortionState::Counts) => {}
        Some(PortionState::Struck(_)) => {
            if BigButton::new(&say!(language, "strike-count-again"))
                .key(Key::Enter)
                .weight(Weight::Main)
                .show(ui, *right)
            {
                intents.push(Intent::CountAgain);
            }
            return intents;
        }
        Some(PortionState::Corrected) | None => return intents,
    }
    rest.top(gap);
    intents.extend(reasons(ui, &mut rest, &state.strike.reason).map(Intent::Reason));
    if BigButton::new(&say!(language, "strike-out"))
        .key(Key::Enter)
        .weight(Weight::Main)
        .enabled(!state.strike.reason.trim().is_empty())
        .show(ui, *right)
    {
        intents.push(Intent::StrikeOut);
    }
    intents
}

/// Reasons to pick from and a field for another, from the top of `rest` down.
/// Returns the reason where it changed.
pub(super) fn reasons(ui: &mut Ui, rest: &mut Rest, reason: &str) -> Option<String> {
    let scale = Scale::of(ui);
    let gap = scale.u(12.0);
    let mut said = None;
    let keys = [
        Key::Num1,
        Key::Num2,
        Key::Num3,
        Key::Num4,
        Key::Num5,
        Key::Num6,
    ];
    let grid = rest.top(scale.u(3.0 * 76.0 + 2.0 * 12.0));
    let places = layout::rows(grid, 3, gap)
        .into_iter()
        .flat_map(|row| layout::columns(row, 2, gap));
    for ((place, offered), key) in places.zip(offered(words::of(ui))).zip(keys) {
        let weight = if reason == offered.as_ref() {
            Weight::Chosen
        } else {
            Weight::Plain
        };
        if BigButton::new(&offered)
            .key(key)
            .weight(weight)
            .show(ui, place)
        {
            said = Some(offered.into_owned());
        }
    }
    rest.top(gap);
    let field = rest.top(scale.u(72.0));
    said.or(reason_field(ui, field, reason))
}

fn reason_field(ui: &mut Ui, place: Rect, reason: &str) -> Option<String> {
    let scale = Scale::of(ui);
    let language = words::of(ui);
    let mut written = reason.to_owned();
    let field = TextEdit::singleline(&mut written)
        .id_salt("reason")
        .font(scale.plain(28.0))
        .hint_text(
            RichText::new(say!(language, "reason-own-hint").as_ref()).font(scale.plain(28.0)),
        )
        .char_limit(120)
        .margin(vec2(scale.u(14.0), scale.u(10.0)))
        .align(Align2::LEFT_CENTER);
    ui.scope_builder(UiBuilder::new().max_rect(place), |ui| {
        ui.add_sized(place.size(), field)
    })
    .inner
    .accessible_name(say!(language, "reason-own"));
    (written != reason).then_some(written)
}
