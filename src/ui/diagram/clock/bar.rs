//! The job as one bar: phases by name, pauses hatched, the end, the deadline, the marker.

use egui::{Align2, Painter, Rangef, Rect, Shape, Stroke, StrokeKind, pos2, vec2};

use super::Clock;
use super::names::reach;
use crate::ui::diagram::lines;
use crate::ui::diagram::ticks::Scale;
use crate::ui::style::{Look, fonts};

pub fn paint(painter: &Painter, rect: Rect, clock: &Clock, x: &Scale, focused: bool, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let y = rect.y_range().shrink(rect.height() * 0.2);
    let here = clock.spans.iter().rposition(|s| s.from <= clock.cursor);
    for span in &clock.spans {
        let left = x.at(span.from);
        let area = Rect::from_x_y_ranges(Rangef::new(left, x.at(span.to).max(left + 1.0)), y);
        painter.rect(
            area,
            0.0,
            if span.pause { p.ground } else { p.field },
            look.hairline(p.ink),
            StrokeKind::Inside,
        );
        if span.pause {
            let corners = [area.left_top(), area.right_top(), area.right_bottom(), area.left_bottom()];
            lines::hatch(painter, &corners, p.edge, 7.0);
        }
    }
    names(painter, y.center(), clock, x, here, look);
    if let Some((at, _)) = &clock.deadline {
        let dash: (&[f32], &[f32]) = (&[10.0, 2.0], &[3.0, 3.0]);
        let points = vec![pos2(x.at(*at), rect.top() + 2.0), pos2(x.at(*at), rect.bottom() - 2.0)];
        lines::polyline(painter, points, Stroke::new(2.2 * m.line, p.fall_text), Some(dash));
    }
    if let Some((at, words)) = &clock.end {
        let at = pos2(x.at(*at) + 8.0, rect.center().y);
        painter.text(at, Align2::LEFT_CENTER, words, fonts::bold(m.small), p.ink);
    }
    marker(painter, rect, x.at(clock.cursor), focused, look);
}

/// Each name whole or not at all: half a word says less than none. A phase without room for its name says
/// it over what follows, up to a phase of another name.
fn names(painter: &Painter, middle: f32, clock: &Clock, x: &Scale, here: Option<usize>, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let mut free = f32::NEG_INFINITY;
    for (i, span) in clock.spans.iter().enumerate() {
        let left = x.at(span.from) + 6.0;
        let font = if here == Some(i) { fonts::bold(m.small) } else { fonts::regular(m.small) };
        let name = painter.layout_no_wrap(span.name.clone(), font, p.ink);
        let right = left + name.size().x + 4.0;
        let fits = right <= x.at(span.to);
        let hangs = !span.pause && right + 4.0 <= reach(clock, i, x);
        if left < free || !(fits || hangs) {
            continue;
        }
        let place = Rect::from_min_size(pos2(left, middle - name.size().y / 2.0), name.size());
        if span.pause || !fits {
            painter.rect_filled(
                place.expand2(vec2(2.0, 1.0)),
                0.0,
                if span.pause { p.ground } else { p.field },
            );
        }
        painter.galley(place.min, name, p.ink);
        free = right;
    }
}

fn marker(painter: &Painter, rect: Rect, at: f32, focused: bool, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let y = rect.y_range().shrink(4.0);
    painter.vline(at, y, Stroke::new(3.0 * m.line, p.fall_text));
    let tip = pos2(at, y.min + 8.0);
    let head = vec![tip + vec2(-6.0, -8.0), tip + vec2(6.0, -8.0), tip];
    painter.add(Shape::convex_polygon(head, p.fall_text, Stroke::NONE));
    if focused {
        painter.rect_stroke(rect.shrink(1.0), 0.0, Stroke::new(m.focus_line(), p.ink), StrokeKind::Inside);
    }
}
