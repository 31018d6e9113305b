//! The words of the use cases.

evenhand_words::catalogue! {
    pub(crate) WORDS:
    "batch", "book", "brine", "cure", "handover", "heat", "heat-check", "input", "instrument", "limits", "lots", "mix", "order", "prep",
    "record", "../../kitchen/words/reasons", "review", "scale-test", "times", "uptake"
}

/// Says a message of the use cases: `say!(language, "prompt-ready")`.
macro_rules! say {
    ($language:expr, $($message:tt)+) => {
        evenhand_words::say!($crate::words::WORDS, $language, $($message)+)
    };
}
pub(crate) use say;
