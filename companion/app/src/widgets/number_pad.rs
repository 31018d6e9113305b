//! Digits to touch, where no keyboard is at hand.

use super::big_button::BigButton;
use crate::layout;
use crate::theme::Scale;
use crate::words::{self, say};
use eframe::egui::{Rect, Ui};

/// Digits in the order of a telephone, which is how most people know them.
const ROWS: [[&str; 4]; 3] = [
    ["1", "2", "3", "0"],
    ["4", "5", "6", "."],
    ["7", "8", "9", "\u{2212}"],
];

/// Shows the pad in `place`; returns `written` as it becomes by a touch.
pub fn show(ui: &Ui, place: Rect, written: &str) -> Option<String> {
    let mark = words::of(ui).decimal_mark().to_string();
    pad(ui, place, written, [&mark, "\u{2212}"])
}

/// Shows the pad for a time of day.
pub fn show_time(ui: &Ui, place: Rect, written: &str) -> Option<String> {
    pad(ui, place, written, [":", "+"])
}

fn pad(ui: &Ui, place: Rect, written: &str, [mark, sign]: [&str; 2]) -> Option<String> {
    let scale = Scale::of(ui);
    let gap = scale.u(8.0);
    let mut becomes = None;
    let rows = layout::rows(place, ROWS.len(), gap);
    for (row, digits) in rows.iter().zip(ROWS) {
        let places = layout::columns(*row, digits.len() + 1, gap);
        for (place, digit) in places.iter().zip(digits) {
            let digit = match digit {
                "." => mark,
                "\u{2212}" => sign,
                digit => digit,
            };
            if BigButton::new(digit).show(ui, *place) {
                let typed = if digit == "\u{2212}" { "-" } else { digit };
                becomes = Some(format!("{written}{typed}"));
            }
        }
    }
    if let Some(row) = rows.first()
        && let Some(place) = layout::columns(*row, 5, gap).last()
        && BigButton::new(&say!(words::of(ui), "erase")).show(ui, *place)
    {
        let mut shorter = written.to_owned();
        shorter.pop();
        becomes = Some(shorter);
    }
    if let (Some(second), Some(third)) = (rows.get(1), rows.get(2))
        && let (Some(above), Some(below)) = (
            layout::columns(*second, 5, gap).last(),
            layout::columns(*third, 5, gap).last(),
        )
        && BigButton::new(&say!(words::of(ui), "erase-all")).show(ui, above.union(*below))
    {
        becomes = Some(String::new());
    }
    becomes
}
