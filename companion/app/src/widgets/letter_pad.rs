//! Letters to touch, where no keyboard is at hand.

use super::big_button::BigButton;
use crate::layout;
use crate::theme::Scale;
use crate::words::{self, say};
use eframe::egui::{Rect, Ui};

/// Letters in the order of a keyboard.
const ROWS: [&str; 4] = ["1234567890", "QWERTYUIOP", "ASDFGHJKL-", "ZXCVBNM&',"];

/// Shows the pad in `place`; returns `written` as it becomes by a touch. The
/// first letter becomes a capital, the others small.
pub fn show(ui: &Ui, place: Rect, written: &str) -> Option<String> {
    let scale = Scale::of(ui);
    let gap = scale.u(8.0);
    let mut becomes = None;
    let rows = layout::rows(place, ROWS.len() + 1, gap);
    for (row, letters) in rows.iter().zip(ROWS) {
        for (key, letter) in layout::columns(*row, 10, gap)
            .into_iter()
            .zip(letters.chars())
        {
            let shown = letter.to_string();
            if BigButton::new(&shown).show(ui, key) {
                let letter = if written.is_empty() {
                    letter
                } else {
                    letter.to_ascii_lowercase()
                };
                becomes = Some(format!("{written}{letter}"));
            }
        }
    }
    if let Some(row) = rows.last() {
        let quarters = layout::columns(*row, 4, gap);
        if let [space, turn, back, clear] = quarters.as_slice() {
            if BigButton::new(&say!(words::of(ui), "letter-case")).show(ui, *turn) {
                becomes = Some(with_last_turned(written));
            }
            if BigButton::new(&say!(words::of(ui), "space")).show(ui, *space) {
                becomes = Some(format!("{written} "));
            }
            if BigButton::new(&say!(words::of(ui), "erase")).show(ui, *back) {
                let mut shorter = written.to_owned();
                shorter.pop();
                becomes = Some(shorter);
            }
            if BigButton::new(&say!(words::of(ui), "erase-all")).show(ui, *clear) {
                becomes = Some(String::new());
            }
        }
    }
    becomes
}

/// The same with its last letter in the other case.
fn with_last_turned(written: &str) -> String {
    let mut turned = written.to_owned();
    let Some(last) = turned.pop() else {
        return turned;
    };
    if last.is_uppercase() {
        turned.extend(last.to_lowercase());
    } else {
        turned.extend(last.to_uppercase());
    }
    turned
}
