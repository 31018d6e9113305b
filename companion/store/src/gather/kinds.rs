//! The tables whose rows are known by their stamp, and what their columns hold.

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Holds {
    /// A figure or a text.
    Plain,
    /// Bytes.
    Bytes,
    /// The moment of an end, said later; the earliest counts.
    Ended,
    /// The number of a row of another table.
    Of(Other),
}

/// A table that rows of others speak of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Other {
    Dish,
    Vessel,
    HeatLog,
    Tin,
    Batch,
    Told,
    Picture,
    GoodsEvent,
}

impl Other {
    /// Its table, and the column that it is known by everywhere.
    pub(super) const fn known_by(self) -> (&'static str, &'static str) {
        match self {
            Self::Dish => ("dish", "born"),
            Self::Vessel => ("vessel", "key"),
            Self::HeatLog => ("heat_log", "key"),
            Self::Tin => ("tin", "stamp"),
            Self::Batch => ("batch", "stamp"),
            Self::Told => ("heat_told", "stamp"),
            Self::Picture => ("picture", "stamp"),
            Self::GoodsEvent => ("goods_event", "stamp"),
        }
    }
}

/// A table whose rows are known by their stamp.
pub(super) struct Kind {
    pub(super) table: &'static str,
    pub(super) columns: &'static [(&'static str, Holds)],
}

const PLAIN: Holds = Holds::Plain;
const DISH: Holds = Holds::Of(Other::Dish);
const LOG: Holds = Holds::Of(Other::HeatLog);
const TIN: Holds = Holds::Of(Other::Tin);

macro_rules! kinds {
    ($($table:literal: $($column:literal $holds:expr),+;)+) => {
        &[$(Kind { table: $table, columns: &[$(($column, $holds)),+] }),+]
    };
}

/// Every such table but `strike`, `lifting` and `batch_line`, which have rules of their own.
pub(super) const STAMPED: &[Kind] = kinds! {
    "dish_version": "dish" DISH, "since" PLAIN, "target" PLAIN, "below" PLAIN, "above" PLAIN,
        "mode" PLAIN, "cost" PLAIN, "currency" PLAIN;
    "former_name": "dish" DISH, "name" PLAIN, "key" PLAIN, "until" PLAIN;
    "tin": "dish" DISH, "label" PLAIN, "net" PLAIN, "price" PLAIN, "currency" PLAIN,
        "opened" PLAIN, "kind" PLAIN, "closed" Holds::Ended;
    "clock_step": "at" PLAIN, "by" PLAIN;
    "batch": "begun" PLAIN;
    "heat_marker": "log" LOG, "at" PLAIN, "words" PLAIN, "recorded" PLAIN;
    "heat_correction": "log" LOG, "since" PLAIN, "until" PLAIN, "difference" PLAIN,
        "reason" PLAIN, "recorded" PLAIN, "lifted" Holds::Ended;
    "heat_aim": "log" LOG, "since" PLAIN, "aim" PLAIN;
    "heat_told": "log" LOG, "at" PLAIN, "level" PLAIN, "falling" PLAIN, "early" PLAIN,
        "likely" PLAIN, "late" PLAIN, "of_limit" PLAIN;
    "heat_came": "told" Holds::Of(Other::Told), "came" PLAIN, "at" PLAIN;
    "vessel_filling": "vessel" Holds::Of(Other::Vessel), "at" PLAIN, "water" PLAIN,
        "temperature" PLAIN, "material" PLAIN, "mass_within" PLAIN, "level_within" PLAIN,
        "temperature_within" PLAIN, "empty" PLAIN;
    "yield_line": "tin" TIN, "what" PLAIN, "mass" PLAIN, "at" PLAIN, "struck" Holds::Ended;
    "prep_menu": "day" PLAIN, "since" PLAIN, "menu" PLAIN;
    "prep_event": "day" PLAIN, "step" PLAIN, "at" PLAIN, "what" PLAIN, "recorded" PLAIN;
    "cover": "day" PLAIN, "covers" PLAIN, "recorded" PLAIN;
    "left_over": "day" PLAIN, "dish" DISH, "portions" PLAIN, "recorded" PLAIN;
    "melt_limit": "dish" DISH, "since" PLAIN, "seconds" PLAIN;
    "back_in_cold": "run" PLAIN, "at" PLAIN;
    "gone_out": "day" PLAIN, "dish" DISH, "portions" PLAIN, "at" PLAIN;
    "goods_list": "since" PLAIN, "list" PLAIN;
    "goods_event": "goods" PLAIN, "at" PLAIN, "what" PLAIN, "recorded" PLAIN;
    "goods_taken_back": "event" Holds::Of(Other::GoodsEvent), "at" PLAIN, "reason" PLAIN;
    "picture": "of" PLAIN, "key" PLAIN, "caption" PLAIN, "image" Holds::Bytes, "added" PLAIN,
        "checksum" PLAIN;
    "picture_off": "picture" Holds::Of(Other::Picture), "at" PLAIN;
};

/// What is known by a name or a number of its own, or has rules of its own: see `take`.
#[cfg(test)]
pub(super) const OTHERS: &[&str] = &[
    "strike",
    "lifting",
    "batch_line",
    "instrument",
    "dish",
    "vessel",
    "heat_log",
    "heat_reading",
    "run",
    "portion",
    "start",
    "scale_test",
    "scale_calibration",
    "service",
    "setting",
    "refused",
    "plain_file",
];

/// What is made of the rest, or is this desktop's alone.
#[cfg(test)]
pub(super) const NOT_TOLD: &[&str] = &[
    "tally",
    "tally_of_tin",
    "stale_block",
    "desk",
    "change",
    "gathered_portion",
    "journal",
    "waiting",
    "overruled",
    "gathering",
];

/// What goes into a journal before the portions that speak of it.
pub(super) const BEFORE_PORTIONS: &[&str] = &[
    "instrument",
    "dish",
    "dish_version",
    "vessel",
    "heat_log",
    "tin",
    "run",
    "batch",
];
