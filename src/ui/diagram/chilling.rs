//! Pressure of the system against the share that is recovered, point by point, for a class.

use egui::{Align2, Pos2, Rangef, Rect, Stroke, Ui, pos2, vec2};

use super::lines;
use super::ticks::Scale;
use crate::ui::style::{Look, fonts};

/// One point of the curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Share recovered, 0 to 1.
    pub share_ratio: f64,
    /// Pressure in the shown unit.
    pub pressure: f64,
    /// Pressure in words.
    pub text: String,
    /// Temperature in words.
    pub beside: String,
}

/// The whole picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Chilling {
    /// Share recovered and pressure, from the start.
    pub curve: Vec<[f64; 2]>,
    /// The curve before a change.
    pub ghost: Vec<[f64; 2]>,
    /// Points that are shown.
    pub marks: Vec<Mark>,
    /// How far the curve is drawn, as a share recovered.
    pub until_ratio: f64,
    /// The end of the scales: share recovered and pressure; the same however much is covered.
    pub top: (f64, f64),
    /// Unit of the pressure.
    pub unit: String,
}

/// Draws the curve.
pub fn chilling_ui(ui: &mut Ui, rect: Rect, model: &Chilling, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let inside = Rect::from_min_max(
        rect.min + vec2(m.body * 3.0, m.body * 1.4),
        (rect.max - vec2(m.body * 4.0, m.body * 1.8)).max(rect.min + vec2(m.body * 3.0 + 1.0, m.body + 1.0)),
    );
    let x = Scale::across((0.0, model.top.0), inside.x_range());
    let y = Scale::up((0.0, model.top.1), inside.y_range());
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    for tick in y.ticks(m.body * 2.0) {
        painter.hline(inside.x_range(), y.at(tick), look.hairline(p.rule));
        let at = pos2(inside.left() - m.body * 0.3, y.at(tick));
        painter.text(at, Align2::RIGHT_CENTER, format!("{tick:.0}"), fonts::regular(m.small), p.ink2);
    }
    painter.text(rect.left_top(), Align2::LEFT_TOP, &model.unit, fonts::regular(m.small), p.ink2);
    let ticks = x.ticks(m.body * 6.0);
    for (i, tick) in ticks.iter().enumerate() {
        let at = pos2(x.at(*tick), inside.bottom() + 2.0);
        let last = if i + 1 == ticks.len() { " recovered" } else { "" };
        let text = format!("{:.0} %{last}", 100.0 * tick);
        painter.text(at, Align2::CENTER_TOP, text, fonts::regular(m.small), p.ink2);
    }
    painter.hline(inside.x_range(), inside.bottom(), Stroke::new(2.0 * m.line, p.ink));
    let points = |curve: &[[f64; 2]], until: f64| -> Vec<Pos2> {
        cut(curve, until).into_iter().map(|[a, b]| pos2(x.at(a), y.at(b))).collect()
    };
    if model.ghost.len() > 1 {
        lines::ghost(&painter, points(&model.ghost, model.top.0), look);
    }
    let line = points(&model.curve, model.until_ratio.min(model.top.0));
    if line.len() > 1 {
        lines::polyline(&painter, line, Stroke::new(m.level_line(), p.level), None);
    }
    for (i, mark) in model.marks.iter().enumerate() {
        let at = pos2(x.at(mark.share_ratio), y.at(mark.pressure));
        painter.circle(at, m.level_line() * 1.7, p.field, Stroke::new(m.level_line() * 0.7, p.level));
        let above = at + vec2(m.body * 0.5, -m.body * 0.3);
        let words = painter.text(above, Align2::LEFT_BOTTOM, &mark.text, fonts::bold(m.strong), p.level);
        let under = pos2(words.left(), words.top() + m.strong * 0.1);
        painter.text(under, Align2::LEFT_BOTTOM, &mark.beside, fonts::regular(m.body), p.ink2);
        let hit = Rect::from_x_y_ranges(Rangef::new(at.x - 8.0, at.x + 8.0), inside.y_range());
        let response = ui.interact(hit, ui.scope_id().with(("mark", i)), egui::Sense::hover());
        let said = format!("{:.0} % recovered: {}, {}", 100.0 * mark.share_ratio, mark.text, mark.beside);
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &said));
    }
}

/// The curve up to a share, ended exactly there.
fn cut(curve: &[[f64; 2]], until: f64) -> Vec<[f64; 2]> {
    let mut kept: Vec<[f64; 2]> = Vec::new();
    for &point in curve {
        if point[0] <= until {
            kept.push(point);
            continue;
        }
        if let Some(last) = kept.last().copied() {
            let share = (until - last[0]) / (point[0] - last[0]);
            kept.push([until, last[1] + share * (point[1] - last[1])]);
        }
        break;
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_curve_ends_where_it_is_cut() {
        let curve = [[0.0, 10.0], [0.2, 6.0], [0.4, 2.0]];
        let cut_at = cut(&curve, 0.3);
        assert_eq!(cut_at.len(), 3);
        assert!((cut_at[2][0] - 0.3).abs() < 1e-12 && (cut_at[2][1] - 4.0).abs() < 1e-12);
        assert_eq!(cut(&curve, 9.0).len(), 3);
        assert!(cut(&[], 0.5).is_empty());
    }
}
