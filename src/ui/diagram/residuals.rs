//! What is left over of a log, row by row over time: as the document was written, and as fitted.

use egui::{Align2, Painter, Pos2, Rangef, Rect, Response, Sense, Stroke, StrokeKind, Ui, pos2, vec2};

use super::lines;
use super::ticks::{Scale, short};
use crate::ui::style::{Look, fonts};

/// One row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// Since the first row.
    pub minutes: f64,
    /// Logged less model, as written.
    pub written: f64,
    /// Logged less model, as fitted.
    pub fitted: f64,
}

/// All rows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Residuals {
    /// In the order of time.
    pub points: Vec<Residual>,
    /// Unit of what is left over.
    pub unit: String,
    /// An earlier answer.
    pub stale: bool,
}

impl Residuals {
    /// The largest, as written and as fitted.
    fn largest(&self) -> (f64, f64) {
        let most = |of: fn(&Residual) -> f64| {
            self.points.iter().map(of).filter(|r| r.is_finite()).fold(0.0, |most: f64, r| most.max(r.abs()))
        };
        (most(|p| p.written), most(|p| p.fitted))
    }

    /// All of it in words.
    pub fn words(&self) -> String {
        let (written, fitted) = self.largest();
        format!(
            "Left over in {} rows: up to {} {unit} as written, up to {} {unit} as fitted",
            self.points.len(),
            short(written),
            short(fitted),
            unit = self.unit,
        )
    }
}

/// Draws them with zero in the middle.
pub fn residuals_ui(ui: &mut Ui, residuals: &Residuals, look: &Look) -> Response {
    let m = &look.measures;
    let size = vec2(ui.available_width().max(0.0), 15.0 * m.strong);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, residuals.words()));
    if ui.is_rect_visible(rect) {
        paint(&ui.painter().with_clip_rect(rect.intersect(ui.clip_rect())), rect, residuals, look);
    }
    response
}

fn paint(painter: &Painter, rect: Rect, residuals: &Residuals, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let (written, fitted) = residuals.largest();
    let most = written.max(fitted).max(1e-6) * 1.15;
    let last = residuals.points.last().map_or(1.0, |p| p.minutes).max(1e-6);
    let x = Rangef::new(
        rect.left() + 5.0 * m.small,
        (rect.right() - 8.0 * m.small).max(rect.left() + 5.1 * m.small),
    );
    let y =
        Rangef::new(rect.top() + m.small, (rect.bottom() - 2.2 * m.small).max(rect.top() + m.small + 1.0));
    let (across, up) = (Scale::across((0.0, last), x), Scale::up((-most, most), y));
    paint_axes(painter, &across, &up, residuals, look);
    let line = |of: fn(&Residual) -> f64| -> Vec<Pos2> {
        residuals.points.iter().map(|r| pos2(across.at(r.minutes), up.at(of(r)))).collect()
    };
    let (as_written, as_fitted) = (line(|r| r.written), line(|r| r.fitted));
    let color = if residuals.stale { p.edge } else { p.level };
    lines::ghost(painter, as_written.clone(), look);
    for at in &as_written {
        let square = Rect::from_center_size(*at, vec2(7.0, 7.0));
        painter.rect(square, 0.0, p.field, Stroke::new(1.5 * m.line, p.ghost), StrokeKind::Inside);
    }
    lines::polyline(painter, as_fitted.clone(), Stroke::new(1.8 * m.line, color), None);
    for at in &as_fitted {
        painter.circle_filled(*at, 4.0, color);
    }
    paint_names(painter, as_written.last(), as_fitted.last(), look);
}

fn paint_axes(painter: &Painter, across: &Scale, up: &Scale, residuals: &Residuals, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let (left, right) = (across.pixels.0, across.pixels.1);
    let font = fonts::regular(m.small);
    for tick in up.ticks(2.6 * m.small) {
        let y = up.at(tick);
        painter.hline(left..=right, y, look.hairline(p.rule));
        let sign = if tick > 0.0 { "+" } else { "" };
        let text = format!("{sign}{}", look.decimal(short(tick)));
        painter.text(pos2(left - 6.0, y), Align2::RIGHT_CENTER, text, font.clone(), p.ink2);
    }
    painter.hline(left..=right, up.at(0.0), Stroke::new(2.0 * m.line, p.ink));
    for tick in across.time_ticks(6.0 * m.small) {
        let at = pos2(across.at(tick), up.pixels.0 + 4.0);
        painter.text(
            at,
            Align2::CENTER_TOP,
            format!("{} min", look.decimal(short(tick))),
            font.clone(),
            p.ink2,
        );
    }
    let unit = pos2(right + 8.0, up.pixels.1 - 2.0);
    painter.text(unit, Align2::LEFT_TOP, &residuals.unit, fonts::bold(m.small), p.ink2);
}

/// The names at the lines' ends, kept apart.
fn paint_names(painter: &Painter, written: Option<&Pos2>, fitted: Option<&Pos2>, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let (Some(written), Some(fitted)) = (written, fitted) else { return };
    let apart = m.small * 1.3;
    let down = if written.y < fitted.y { 1.0 } else { -1.0 };
    let push = ((apart - (written.y - fitted.y).abs()) / 2.0).max(0.0) * down;
    for (at, name, push) in [(written, "as written", -push), (fitted, "as fitted", push)] {
        let at = pos2(at.x + 9.0, at.y + push);
        painter.text(at, Align2::LEFT_CENTER, name, fonts::regular(m.small), p.ink);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_words_name_the_largest_of_each() {
        let point = |minutes, written, fitted| Residual { minutes, written, fitted };
        let points = vec![point(0.0, 0.0, 0.0), point(10.0, -1.5, 0.25), point(20.0, 0.5, -0.1)];
        let residuals = Residuals { points, unit: "lb".to_owned(), stale: false };
        assert_eq!(
            residuals.words(),
            "Left over in 3 rows: up to 1.5 lb as written, up to 0.25 lb as fitted"
        );
    }
}
