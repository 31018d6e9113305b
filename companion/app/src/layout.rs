//! Cutting a screen into places, from the edges inward.

use eframe::egui::Rect;

/// What is left of a place while strips are cut from it.
#[derive(Debug, Clone, Copy)]
pub struct Rest(pub Rect);

impl Rest {
    /// Cuts a strip of this height from the top.
    pub fn top(&mut self, height: f32) -> Rect {
        let (cut, rest) = self.0.split_top_bottom_at_y(self.0.top() + height);
        self.0 = rest;
        cut
    }

    /// Cuts a strip of this height from the bottom.
    pub fn bottom(&mut self, height: f32) -> Rect {
        let (rest, cut) = self.0.split_top_bottom_at_y(self.0.bottom() - height);
        self.0 = rest;
        cut
    }

    /// Cuts a strip of this width from the left.
    pub fn left(&mut self, width: f32) -> Rect {
        let (cut, rest) = self.0.split_left_right_at_x(self.0.left() + width);
        self.0 = rest;
        cut
    }

    /// Cuts a strip of this width from the right.
    pub fn right(&mut self, width: f32) -> Rect {
        let (rest, cut) = self.0.split_left_right_at_x(self.0.right() - width);
        self.0 = rest;
        cut
    }
}

/// `count` equal places side by side with `gap` between them.
#[must_use]
pub fn columns(place: Rect, count: usize, gap: f32) -> Vec<Rect> {
    let count_f = count.max(1) as f32;
    let width = (place.width() - gap * (count_f - 1.0)) / count_f;
    (0..count)
        .map(|nth| {
            let left = place.left() + nth as f32 * (width + gap);
            Rect::from_x_y_ranges(left..=left + width, place.y_range())
        })
        .collect()
}

/// `count` equal places below one another with `gap` between them.
#[must_use]
pub fn rows(place: Rect, count: usize, gap: f32) -> Vec<Rect> {
    let count_f = count.max(1) as f32;
    let height = (place.height() - gap * (count_f - 1.0)) / count_f;
    (0..count)
        .map(|nth| {
            let top = place.top() + nth as f32 * (height + gap);
            Rect::from_x_y_ranges(place.x_range(), top..=top + height)
        })
        .collect()
}
