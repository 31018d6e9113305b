//! The words of the screens.

use eframe::egui::{Context, Id, Ui};
pub use evenhand_words::Language;

evenhand_words::catalogue! {
    pub(crate) WORDS:
    "figures", "navigation", "batches", "bench", "book", "book-entry", "brine", "counts", "cure", "cut", "dishes", "formula", "heat", "heat-aim", "lots", "menus", "mixing",
    "mixing-entry", "orders", "plates", "portions", "practice", "prep", "scale", "service", "settings", "soak", "yields"
}

/// Says a message of the screens: `say!(language, "bench-undo")`.
macro_rules! say {
    ($language:expr, $($message:tt)+) => {
        evenhand_words::say!($crate::words::WORDS, $language, $($message)+)
    };
}
pub(crate) use say;

fn id() -> Id {
    Id::unique("language")
}

/// Sets the language of what is drawn from now on.
pub(crate) fn speak(ctx: &Context, language: Language) {
    ctx.data_mut(|data| data.insert_temp(id(), language));
}

/// The language of what is drawn.
#[must_use]
pub(crate) fn of(ui: &Ui) -> Language {
    ui.ctx()
        .data(|data| data.get_temp(id()))
        .unwrap_or_default()
}
