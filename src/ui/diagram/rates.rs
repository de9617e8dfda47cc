//! Rates as bars, large enough for the last row: each kit before and after one change.

use egui::{Align2, Rangef, Rect, Stroke, StrokeKind, Ui, pos2, vec2};

use super::chain::paint::fit;
use super::lines;
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::paint_kit_mark;

/// One kit.
#[derive(Clone, Debug, PartialEq)]
pub struct RateBar {
    /// Its place and letter.
    pub kit: (usize, String),
    /// What it is, in words.
    pub name: String,
    /// Value and words before.
    pub before: Option<(f64, String)>,
    /// Value and words after; none as long as it is covered.
    pub after: Option<(f64, String)>,
    /// How much of the bar after has grown, 0 to 1.
    pub grown: f32,
}

/// The whole picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rates {
    /// One a kit.
    pub bars: Vec<RateBar>,
    /// What stands before: "0.42 cfm".
    pub before: String,
    /// What stands after: "1.6 cfm".
    pub after: String,
    /// The end of the scale; the same however much is covered.
    pub top: f64,
}

impl RateBar {
    /// All of it in words.
    pub fn words(&self) -> String {
        let before = self.before.as_ref().map_or(String::new(), |(_, text)| format!(", before {text}"));
        let after = self.after.as_ref().map_or(String::new(), |(_, text)| format!(", now {text}"));
        format!("Kit {}{before}{after}", self.kit.1)
    }
}

/// Draws the bars, one row a kit.
pub fn rates_ui(ui: &mut Ui, rect: Rect, rates: &Rates, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let row = rect.height() / rates.bars.len().max(1) as f32;
    let room = (rect.width() - m.strong * 6.5).max(1.0);
    let length = |value: f64| room * (value / rates.top.max(1e-9)).clamp(0.0, 1.0) as f32;
    for (i, bar) in rates.bars.iter().enumerate() {
        let y = Rangef::new(rect.top() + row * i as f32, rect.top() + row * (i as f32 + 1.0));
        let area = Rect::from_x_y_ranges(rect.x_range(), y);
        let response = ui.interact(area, ui.scope_id().with(("rate", i)), egui::Sense::hover());
        let words = bar.words();
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &words));
        let painter = ui.painter();
        let head = y.min + m.body * 0.8;
        paint_kit_mark(painter, pos2(rect.left() + m.body * 0.4, head), m.body * 0.3, bar.kit.0, p);
        let at = pos2(rect.left() + m.body, head);
        let letter = painter.text(at, Align2::LEFT_CENTER, &bar.kit.1, fonts::bold(m.strong), p.ink);
        let at = pos2(letter.right() + m.body * 0.6, head);
        let name = fit(painter, &bar.name, fonts::regular(m.body), p.ink2, (rect.right() - at.x).max(1.0));
        painter.galley(pos2(at.x, head - name.size().y / 2.0), name, p.ink2);
        let thick = ((row - m.body * 2.0) * 0.42).max(4.0);
        let top = y.min + m.body * 1.6;
        for (line, value) in [&bar.before, &bar.after].into_iter().enumerate() {
            let Some((value, text)) = value else { continue };
            let grown = if line == 1 { bar.grown } else { 1.0 };
            let y = top + line as f32 * (thick + 2.0);
            let size = vec2(length(*value) * grown, thick);
            let shape = Rect::from_min_size(pos2(rect.left(), y), size);
            if line == 1 {
                painter.rect_filled(shape, 0.0, lines::kit_color(0, p));
            } else {
                painter.rect_stroke(shape, 0.0, Stroke::new(2.0 * m.line, p.ink2), StrokeKind::Inside);
            }
            if grown >= 1.0 {
                let font = if line == 1 { fonts::bold(m.strong) } else { fonts::regular(m.body) };
                let at = shape.right_center() + vec2(m.body * 0.4, 0.0);
                painter.text(at, Align2::LEFT_CENTER, text, font, p.ink);
            }
        }
    }
}
