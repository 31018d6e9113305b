//! A button for a wet hand, a glove or a key.

use crate::{text, theme, theme::Scale};
use eframe::egui::{Align2, Key, Rect, Response, Role, Sense, StrokeKind, Ui, WidgetInfo, vec2};

/// How much a button stands out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// The one to press next.
    Main,
    /// Any other.
    Plain,
    /// Chosen among several.
    Chosen,
}

/// A large button with its key.
#[derive(Debug, Clone, Copy)]
pub struct BigButton<'a> {
    /// What it does, in a word or two.
    pub words: &'a str,
    /// A smaller second line.
    pub detail: Option<&'a str>,
    /// What a screen reader says, where the words alone do not tell.
    pub spoken: Option<&'a str>,
    /// The key that does the same.
    pub key: Option<Key>,
    /// How much it stands out.
    pub weight: Weight,
    /// Whether it can be pressed.
    pub enabled: bool,
}

impl<'a> BigButton<'a> {
    /// A plain button.
    #[must_use]
    pub const fn new(words: &'a str) -> Self {
        Self {
            words,
            detail: None,
            spoken: None,
            key: None,
            weight: Weight::Plain,
            enabled: true,
        }
    }

    /// With a key that does the same.
    #[must_use]
    pub const fn key(mut self, key: Key) -> Self {
        self.key = Some(key);
        self
    }

    /// With a smaller second line.
    #[must_use]
    pub const fn detail(mut self, detail: &'a str) -> Self {
        self.detail = Some(detail);
        self
    }

    /// With other words for a screen reader.
    #[must_use]
    pub const fn spoken(mut self, spoken: &'a str) -> Self {
        self.spoken = Some(spoken);
        self
    }

    /// With another weight.
    #[must_use]
    pub const fn weight(mut self, weight: Weight) -> Self {
        self.weight = weight;
        self
    }

    /// Only where `enabled`.
    #[must_use]
    pub const fn enabled(mut self, enabled: bool) -> Self {
        self.enabled = enabled;
        self
    }

    /// Shows it in `place`; true where it was pressed, by hand or key.
    pub fn show(self, ui: &Ui, place: Rect) -> bool {
        let response = self.drawn(ui, place, Sense::click());
        response.clicked() || (self.enabled && self.key.is_some_and(|key| struck(ui, key)))
    }

    /// Shows it in `place`; true as long as it is held down.
    pub fn is_held(self, ui: &Ui, place: Rect) -> bool {
        // What only senses clicks lets go by itself after a moment.
        self.drawn(ui, place, Sense::click_and_drag())
            .is_pointer_button_down_on()
    }

    fn drawn(self, ui: &Ui, place: Rect, sense: Sense) -> Response {
        let scale = Scale::of(ui);
        let spoken = self.spoken.unwrap_or(self.words);
        let id = ui.unique_id().with(("button", spoken));
        let sense = if self.enabled { sense } else { Sense::hover() };
        let response = ui.interact(place, id, sense);
        response.widget_info(|| {
            let words = match self.detail {
                Some(detail) => format!("{spoken}, {detail}"),
                None => spoken.to_owned(),
            };
            match self.weight {
                Weight::Chosen => WidgetInfo::selected(Role::Button, self.enabled, true, words),
                Weight::Main | Weight::Plain => {
                    WidgetInfo::labeled(Role::Button, self.enabled, words)
                }
            }
        });

        let pressed = response.is_pointer_button_down_on();
        let (fill, ink, edge) = match (self.enabled, self.weight) {
            (false, _) => (theme::PAPER, theme::SOFT_INK, theme::FAINT),
            (true, Weight::Main) => (theme::SLATE, theme::ON_DARK, theme::SLATE),
            (true, Weight::Chosen) => (theme::SLATE, theme::ON_DARK, theme::SLATE),
            (true, Weight::Plain) if pressed => (theme::FAINT, theme::INK, theme::INK),
            (true, Weight::Plain) => (theme::SURFACE, theme::INK, theme::EDGE),
        };
        let painter = ui.painter();
        painter.rect(
            place,
            scale.corner(10.0),
            fill,
            scale.stroke(2.0, edge),
            StrokeKind::Inside,
        );
        if response.has_focus() {
            painter.rect_stroke(
                place.expand(scale.u(3.0)),
                scale.corner(13.0),
                scale.stroke(4.0, theme::verdict(evenhand_protocol::Verdict::Short).mark),
                StrokeKind::Inside,
            );
        }

        if let Some(key) = self.key
            && self.enabled
        {
            let corner = Rect::from_min_size(
                place.min + vec2(scale.u(10.0), scale.u(4.0)),
                vec2(scale.u(70.0), scale.u(24.0)),
            );
            text::paint(
                ui,
                corner,
                key_name(key),
                &text::Style::new(scale.plain(19.0), ink, Align2::LEFT_CENTER),
            );
        }
        let mut inner = place.shrink2(vec2(scale.u(10.0), scale.u(6.0)));
        if self.key.is_some() {
            // Clear of the key's name.
            inner.set_top(inner.top() + scale.u(12.0));
        }
        // A tall button has room for larger words.
        let size = if self.detail.is_none() && place.height() > scale.u(88.0) {
            38.0
        } else {
            29.0
        };
        let heavy = text::Style::new(scale.heavy(size), ink, Align2::CENTER_CENTER);
        match self.detail {
            None => {
                text::paint(ui, inner, self.words, &heavy);
            }
            Some(detail) => {
                let (above, below) = inner.split_top_bottom_at_fraction(0.56);
                text::paint(
                    ui,
                    above,
                    self.words,
                    &text::Style {
                        align: Align2::CENTER_CENTER,
                        ..heavy
                    },
                );
                text::paint(
                    ui,
                    below,
                    detail,
                    &text::Style::new(scale.plain(24.0), ink, Align2::CENTER_CENTER),
                );
            }
        }

        response
    }
}

/// What stands on a key.
fn key_name(key: Key) -> &'static str {
    match key {
        Key::Escape => "Esc",
        Key::Plus => "+",
        Key::Minus => "-",
        Key::Comma => ",",
        Key::Period => ".",
        key => key.name(),
    }
}

/// Whether a key was struck, outside text being typed. Keys that type nothing always count, so
/// that no field keeps anybody on a screen.
#[must_use]
pub fn struck(ui: &Ui, key: Key) -> bool {
    let types = !matches!(
        key,
        Key::Escape | Key::F1 | Key::F2 | Key::F3 | Key::F4 | Key::F5 | Key::F6 | Key::F7 | Key::F8
    );
    !(types && ui.ctx().text_edit_focused())
        && ui.input(|input| input.modifiers.is_none() && input.key_pressed(key))
}
