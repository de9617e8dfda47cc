//! What the stairs stand on: columns, both scales, folds and reference lines.

use egui::{Align2, Painter, Rangef, Rect, Stroke, pos2, vec2};

use super::Stairs;
use super::layout::Plan;
use crate::ui::diagram::columns::Columns;
use crate::ui::diagram::lines;
use crate::ui::style::{Look, fonts};

/// Returns where the reference lines and their words stand.
pub(super) fn grid(painter: &Painter, columns: &Columns, s: &Stairs, plan: &Plan, look: &Look) -> Vec<Rect> {
    let mut taken = Vec::new();
    let (m, p) = (&look.measures, look.palette);
    let y = Rangef::new(plan.axis.pixels().upper, plan.axis.pixels().lower);
    for i in 1..columns.count {
        painter.vline(columns.span(i).min, Rangef::new(plan.rect.top(), y.max), look.hairline(p.rule));
    }
    let font = fonts::regular(m.small);
    let min_px = m.small * 2.2;
    for tick in plan.axis.ticks(0.0, min_px) {
        let at = plan.axis.y(tick);
        painter.hline(plan.x, at, look.hairline(p.rule));
        let label = pos2(plan.x.min - 8.0, at);
        painter.text(label, Align2::RIGHT_CENTER, look.decimal(number(tick)), font.clone(), p.ink2);
    }
    // A gauge scale has no negative numbers; below the air outside the absolute scale speaks.
    for tick in plan.axis.ticks(s.ambient, min_px).into_iter().filter(|t| *t >= 0.0) {
        let at = plan.axis.y(tick + s.ambient);
        painter.hline(Rangef::new(plan.x.max, plan.x.max + 4.0), at, look.hairline(p.edge));
        let label = pos2(plan.x.max + 8.0, at);
        painter.text(label, Align2::LEFT_CENTER, look.decimal(number(tick)), font.clone(), p.ink2);
    }
    for x in [plan.x.min, plan.x.max] {
        painter.vline(x, y, look.hairline(p.edge));
    }
    painter.hline(plan.x, y.max, Stroke::new(2.0 * m.line, p.ink));
    let top = plan.rect.top() + 3.0;
    let bold = fonts::bold(m.small);
    painter.text(pos2(plan.rect.left() + 4.0, top), Align2::LEFT_TOP, &s.absolute_unit, bold.clone(), p.ink2);
    let right = pos2(plan.x.max + m.right_margin - 2.0, top);
    painter.text(right, Align2::RIGHT_TOP, &s.gauge_unit, bold, p.ink2);
    for (fold, band) in plan.axis.folds() {
        let text = format!("{} {} folded away", number((fold.to - fold.from).round()), s.difference_unit);
        lines::fold(painter, plan.x, Rangef::new(band.upper, band.lower), &text, look);
    }
    for (level, text) in &s.references {
        let at = plan.axis.y(*level);
        lines::reference(painter, plan.x, at, look);
        let galley = painter.layout_no_wrap(text.clone(), font.clone(), p.ink2);
        // Over the line, or under it where a fold is close above.
        let height = galley.size().y;
        let over = Rangef::new(at - 2.0 - height, at - 2.0);
        let folded = plan.axis.folds().any(|(_, band)| over.min < band.lower && over.max > band.upper);
        let top = if folded { at + 1.0 } else { over.min };
        let place = Rect::from_min_size(pos2(plan.x.min + 8.0, top), galley.size());
        if folded {
            painter.rect_filled(place.shrink2(vec2(0.0, 2.0)), 0.0, p.sheet);
        }
        painter.galley(place.min, galley, p.ink2);
        taken.extend([place, Rect::from_x_y_ranges(plan.x, Rangef::point(at)).expand(1.0)]);
    }
    taken
}

/// A number on an axis, with a true minus.
fn number(v: f64) -> String {
    let text = if v == v.round() { format!("{v:.0}") } else { format!("{v:.1}") };
    text.replace('-', "\u{2212}")
}
