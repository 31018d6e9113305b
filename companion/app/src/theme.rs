//! How the screens look: one light, high-contrast surface for a bright, steamy
//! kitchen, and one scale for every window size.
//!
//! Light behind dark was chosen on purpose: steam and lamps wash out a dark
//! screen first, and wet glass mirrors the room on it.

use eframe::egui::{
    self, Color32, Context, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Stroke,
    Theme, Ui, Visuals,
};
use evenhand_protocol::Verdict;
use evenhand_use_cases::colours::{self, Colour};
use std::sync::Arc;

const fn of(colour: Colour) -> Color32 {
    let [red, green, blue] = colour.rgb();
    Color32::from_rgb(red, green, blue)
}

/// The page.
pub const PAPER: Color32 = Color32::from_rgb(0xF4, 0xF3, 0xEE);
/// What things lie on.
pub const SURFACE: Color32 = Color32::WHITE;
/// Words and figures.
pub const INK: Color32 = of(colours::INK);
/// Captions.
pub const SOFT_INK: Color32 = of(colours::SOFT_INK);
/// Edges of things that can be touched, ticks.
pub const EDGE: Color32 = Color32::from_rgb(0x6A, 0x74, 0x7C);
/// Faint divisions that carry no meaning alone.
pub const FAINT: Color32 = of(colours::FAINT);
/// The rail and the main button.
pub const SLATE: Color32 = Color32::from_rgb(0x1D, 0x2B, 0x38);
/// Words on [`SLATE`] and other dark fills.
pub const ON_DARK: Color32 = Color32::WHITE;
/// Behind something that wants a look.
pub const ATTENTION: Color32 = Color32::from_rgb(0xFF, 0xDD, 0x75);
/// Behind something that stops work.
pub const STOP: Color32 = Color32::from_rgb(0x7B, 0x0F, 0x3F);
/// Around everything while there is no real scale.
pub const PRACTICE: Color32 = Color32::from_rgb(0xD9, 0xC8, 0xF0);
/// The tolerance band behind dots and marker.
pub const BAND: Color32 = of(colours::BAND);

/// The colours of one verdict.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct VerdictColours {
    /// Behind words.
    pub fill: Color32,
    /// Words and shapes on the fill.
    pub ink: Color32,
    /// Shapes on a light surface.
    pub mark: Color32,
}

/// The colours of a verdict. The three fills differ in lightness as well as
/// hue, so that they stay apart for every common kind of colour blindness.
#[must_use]
pub const fn verdict(verdict: Verdict) -> VerdictColours {
    match verdict {
        Verdict::Short => VerdictColours {
            fill: Color32::from_rgb(0x9F, 0xCD, 0xFF),
            ink: INK,
            mark: of(colours::SHORT),
        },
        Verdict::On => VerdictColours {
            fill: Color32::from_rgb(0x00, 0x5C, 0x46),
            ink: ON_DARK,
            mark: of(colours::ON),
        },
        Verdict::Heavy => VerdictColours {
            fill: Color32::from_rgb(0xFF, 0x96, 0x38),
            ink: INK,
            mark: of(colours::HEAVY),
        },
    }
}

/// The size, in units, of words that are read from two metres. Capitals of it are at
/// least 16 minutes of arc high there on a 13-inch panel of either size.
pub const FAR: f32 = 72.0;

/// The smallest side of anything that can be touched, in points at any window
/// size down to the smallest supported one (1280 by 800).
pub const TOUCH: f32 = 64.0;

/// The window that one unit equals one point in.
pub const BASE: egui::Vec2 = egui::vec2(1280.0, 800.0);

/// Sizes for the present window: everything is drawn in units, and a unit is
/// 1/800 of the window's height (or 1/1280 of its width where that is less).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale(f32);

impl Scale {
    /// The scale of the window that `ui` is in.
    #[must_use]
    pub fn of(ui: &Ui) -> Self {
        let ctx = ui.ctx();
        let part = ctx.data(|data| data.get_temp(part()));
        Self::for_size(part.unwrap_or_else(|| ctx.content_rect().size()))
    }

    /// From now on everything is drawn for a part of the window of this size; for all of
    /// it where none is given.
    pub(crate) fn within(ctx: &Context, size: Option<egui::Vec2>) {
        ctx.data_mut(|data| match size {
            Some(size) => {
                data.insert_temp(part(), size);
            }
            None => data.remove::<egui::Vec2>(part()),
        });
    }

    /// The scale of a window of this size in points.
    #[must_use]
    pub fn for_size(size: egui::Vec2) -> Self {
        let fit = (size.x / BASE.x).min(size.y / BASE.y);
        // Below half size nothing is legible anyway; a window may be that small for a moment.
        Self(if fit.is_finite() { fit.max(0.5) } else { 1.0 })
    }

    /// So many units in points.
    #[must_use]
    pub fn u(self, units: f32) -> f32 {
        units * self.0
    }

    /// The everyday weight at a size in units.
    #[must_use]
    pub fn plain(self, units: f32) -> FontId {
        FontId::new(self.u(units), FontFamily::Proportional)
    }

    /// The heavy weight at a size in units.
    #[must_use]
    pub fn heavy(self, units: f32) -> FontId {
        FontId::new(self.u(units), heavy_family())
    }

    /// A line of a thickness in units.
    #[must_use]
    pub fn stroke(self, units: f32, colour: Color32) -> Stroke {
        Stroke::new(self.u(units), colour)
    }

    /// Rounded corners of a radius in units.
    #[must_use]
    pub fn corner(self, units: f32) -> CornerRadius {
        CornerRadius::same(self.u(units).clamp(0.0, 255.0) as u8)
    }
}

fn part() -> egui::Id {
    egui::Id::unique("part of the window")
}

fn heavy_family() -> FontFamily {
    FontFamily::Name("heavy".into())
}

/// Sets fonts and style. Call once, before the first pass.
pub fn install(ctx: &Context) {
    ctx.set_fonts(fonts());
    ctx.set_theme(Theme::Light);
    ctx.options_mut(|options| options.zoom_with_keyboard = false);
    let mut visuals = Visuals::light();
    visuals.panel_fill = PAPER;
    visuals.override_text_color = Some(INK);
    visuals.extreme_bg_color = SURFACE;
    visuals.selection.bg_fill = Color32::from_rgb(0xBF, 0xD9, 0xF7);
    visuals.selection.stroke = Stroke::new(2.0, INK);
    visuals.widgets.inactive.bg_stroke = Stroke::new(2.0, EDGE);
    for theme in [Theme::Light, Theme::Dark] {
        ctx.set_visuals_of(theme, visuals.clone());
    }
    ctx.all_styles_mut(|style| {
        // Nothing moves by itself: an animation would repaint a still bench.
        style.animation_time = 0.0;
        style.visuals.text_cursor.blink = false;
        style.interaction.selectable_labels = false;
    });
}

/// Atkinson Hyperlegible Next (SIL Open Font Licence, see `fonts/OFL.txt`):
/// drawn for people who see little, so its figures stay apart behind steam.
fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::default();
    let bundled: [(&str, &'static [u8]); 2] = [
        (
            "medium",
            include_bytes!("../../fonts/AtkinsonHyperlegibleNext-Medium.ttf"),
        ),
        (
            "extra-bold",
            include_bytes!("../../fonts/AtkinsonHyperlegibleNext-ExtraBold.ttf"),
        ),
    ];
    for (name, bytes) in bundled {
        fonts
            .font_data
            .insert(name.to_owned(), Arc::new(FontData::from_static(bytes)));
    }
    let family = |name| fonts.families.get(&name).cloned().unwrap_or_default();
    // The fixed-width face has shapes that the others lack, the mark of a curing agent among them.
    let mut fallback = family(FontFamily::Proportional);
    fallback.extend(family(FontFamily::Monospace));
    let with = |first: &str| {
        let mut chain = vec![first.to_owned()];
        chain.extend(fallback.iter().cloned());
        chain
    };
    fonts
        .families
        .insert(FontFamily::Proportional, with("medium"));
    fonts.families.insert(heavy_family(), with("extra-bold"));
    fonts
}
