//! One array of columns for chain, stairs, hit areas and accessible names.

use egui::Rangef;

use crate::ui::style::Measures;
use crate::ui::style::measures::COLUMN;

/// Equal columns from the left margin on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Columns {
    /// Left edge of the first column.
    pub left: f32,
    /// Width of each.
    pub width: f32,
    /// How many.
    pub count: usize,
}

impl Columns {
    /// As many columns as parts in the space between the two axes; never wider than is good to
    /// read, as narrow as it must be.
    pub fn fit(area: Rangef, count: usize, m: &Measures) -> Self {
        let room = (area.span() - m.left_margin - m.right_margin).max(1.0);
        let width = (room / count.max(1) as f32).floor().min(*COLUMN.end() * m.line).max(1.0);
        Self { left: area.min + m.left_margin, width, count }
    }

    /// Left and right edge of a column.
    pub fn span(&self, i: usize) -> Rangef {
        let left = self.left + self.width * i as f32;
        Rangef::new(left, left + self.width)
    }

    /// Right edge of the last column.
    pub fn right(&self) -> f32 {
        self.left + self.width * self.count as f32
    }

    /// Side of the box of 96 that a symbol is drawn in.
    pub fn symbol_size(&self, m: &Measures) -> f32 {
        (self.width - 6.0).min(m.symbol).max(8.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: (1366 − 252 − 50 − 52) / 10 = 101.2, floored.
    #[test]
    fn ten_columns_at_1366() {
        let m = Measures::for_window(1366.0, 768.0, false);
        let c = Columns::fit(Rangef::new(0.0, 1366.0 - 252.0), 10, &m);
        assert_eq!((c.left, c.width, c.span(9).max), (50.0, 101.0, 1060.0));
    }

    #[test]
    fn no_room_is_no_trouble() {
        let m = Measures::for_window(0.0, 0.0, false);
        for count in [0, 1, 40] {
            assert!(Columns::fit(Rangef::new(0.0, 0.0), count, &m).width >= 1.0);
        }
    }
}
