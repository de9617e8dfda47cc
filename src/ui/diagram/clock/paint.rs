//! Painting of the job clock.

use egui::{Align2, Color32, Painter, Pos2, Rangef, Rect, Shape, Stroke, StrokeKind, Ui, pos2, vec2};

use super::deadline::{deadline, passes};
use super::names::{reach, strip_names};
use super::{Clock, Curve, Layout};
use crate::ui::diagram::lines;
use crate::ui::diagram::ticks::{Scale, short};
use crate::ui::diagram::time;
use crate::ui::style::{Look, fonts};

/// How a curve is drawn.
pub(super) struct Pencil {
    pub width: f32,
    pub color: Color32,
    pub dash: Option<(&'static [f32], &'static [f32])>,
}

pub fn paint(ui: &Ui, rect: Rect, clock: &Clock, layout: Layout, x: &Scale, focused: bool, look: &Look) {
    let painter = &ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    let m = &look.measures;
    let foot = m.small * 1.5 + 2.0;
    let head = m.small * 1.6 + if layout == Layout::Lanes { m.small * 1.7 } else { 0.0 };
    let inside = Rangef::new(rect.top() + head, (rect.bottom() - foot).max(rect.top() + head + 1.0));
    spans(painter, rect, inside, clock, x, look);
    let of_deadline = match layout {
        Layout::Strip | Layout::Bar => {
            strip(painter, inside, clock, x, look);
            deadline(painter, inside, clock, layout, x, look)
        }
        Layout::Lanes => {
            // Names of lanes stand over it, whole.
            let taken = deadline(painter, inside, clock, layout, x, look);
            lanes(painter, inside, clock, x, look);
            taken
        }
    };
    time_axis(painter, inside, x, look);
    let of_end = end(painter, inside, clock, layout, x, look);
    if layout == Layout::Strip {
        let taken = of_deadline.into_iter().flatten().chain(of_end).collect();
        strip_names(painter, inside, clock, x, taken, look);
    }
    cursor(painter, rect, inside, clock, x, focused, look);
}

/// Of mass, rate and pressure.
pub(super) fn pencils(clock: &Clock, look: &Look) -> [Pencil; 3] {
    let (m, p) = (&look.measures, look.palette);
    let (mass, thin) = if clock.stale { (p.edge, p.edge) } else { (p.level, p.ink) };
    let dots: (&[f32], &[f32]) = (&[2.0], &[4.0]);
    [
        Pencil { width: m.level_line(), color: mass, dash: None },
        Pencil { width: 1.4 * m.line, color: thin, dash: None },
        Pencil { width: 2.0 * m.line, color: thin, dash: Some(dots) },
    ]
}

/// Phases by their names; pauses as ground-coloured gaps.
fn spans(painter: &Painter, rect: Rect, inside: Rangef, clock: &Clock, x: &Scale, look: &Look) {
    let p = look.palette;
    for span in &clock.spans {
        let (left, right) = (x.at(span.from), x.at(span.to));
        if span.pause {
            let gap = Rect::from_min_max(pos2(left, rect.top()), pos2(right.max(left + 1.0), inside.max));
            painter.rect_filled(gap, 0.0, p.ground);
        }
        painter.vline(left, Rangef::new(rect.top() + 2.0, inside.max), look.hairline(p.edge));
    }
    span_names(painter, rect.top() + 3.0, clock, x, look);
}

/// Each name whole or not at all. A phase without room for it says it once, over what follows up to
/// a phase of another name.
fn span_names(painter: &Painter, top: f32, clock: &Clock, x: &Scale, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let mut free = f32::NEG_INFINITY;
    for (i, span) in clock.spans.iter().enumerate() {
        let (left, right) = (x.at(span.from), x.at(span.to));
        let font = if span.pause { fonts::regular(m.small) } else { fonts::bold(m.small) };
        let name = painter.layout_no_wrap(span.name.clone(), font, p.ink);
        let (wide, spare) = (name.size().x, right - left - name.size().x);
        let hangs = !span.pause && left + wide + 14.0 <= reach(clock, i, x);
        if left < free || (spare < 2.0 && !hangs) {
            continue;
        }
        // A tight one stands closer to the line at its left.
        let at = pos2(left + if spare < 2.0 { 4.0 } else { (spare / 2.0).min(4.0) }, top);
        if spare < 2.0 {
            let patch = Rect::from_min_size(at, name.size()).expand2(vec2(2.0, 0.0));
            painter.rect_filled(patch, 0.0, p.sheet);
        }
        free = at.x + wide;
        painter.galley(at, name, p.ink);
    }
}

fn strip(painter: &Painter, inside: Rangef, clock: &Clock, x: &Scale, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let [mass, rate, pressure] = pencils(clock, look);
    for (curve, pencil) in [(&clock.pressure, pressure), (&clock.rate, rate), (&clock.mass, mass)] {
        let y = Scale::up((0.0, curve.top()), inside);
        curve_lines(painter, curve, &pencil, x, &y);
    }
    let font = fonts::regular(m.small);
    let left = x.pixels.0 - 6.0;
    let top = look.decimal(short(clock.mass.top()));
    painter.text(pos2(left, inside.min), Align2::RIGHT_TOP, top, font.clone(), p.ink2);
    painter.text(pos2(left, inside.max), Align2::RIGHT_BOTTOM, "0", font.clone(), p.ink2);
    let unit = pos2(left, inside.min + m.small * 1.3);
    painter.text(unit, Align2::RIGHT_TOP, &clock.mass.unit, font.clone(), p.ink2);
    painter.hline(Rangef::new(x.pixels.0, x.pixels.1), inside.max, Stroke::new(1.5 * m.line, p.ink));
}

fn lanes(painter: &Painter, inside: Rangef, clock: &Clock, x: &Scale, look: &Look) {
    let [mass, rate, pressure] = pencils(clock, look);
    let all = [(&clock.mass, mass), (&clock.rate, rate), (&clock.pressure, pressure)];
    for (lane, (curve, pencil)) in three_lanes(inside, look).into_iter().zip(all) {
        lane_ui(painter, lane, clock, curve, &pencil, x, look);
    }
}

/// Heights of the three curves' lanes; what is left has the most.
pub(super) fn three_lanes(inside: Rangef, look: &Look) -> [Rangef; 3] {
    let gap = look.measures.small * 1.9;
    let room = (inside.span() - 2.0 * gap).max(3.0);
    let mut top = inside.min;
    [0.44, 0.28, 0.28].map(|share| {
        let lane = Rangef::new(top, top + room * share);
        top = lane.max + gap;
        lane
    })
}

/// A lane's scale, with room over the curve.
pub(super) fn lane_scale(curve: &Curve, lane: Rangef) -> Scale {
    Scale::up((0.0, 1.08 * curve.top()), lane)
}

fn lane_ui(
    painter: &Painter,
    lane: Rangef,
    clock: &Clock,
    curve: &Curve,
    pencil: &Pencil,
    x: &Scale,
    look: &Look,
) {
    let (m, p) = (&look.measures, look.palette);
    let y = lane_scale(curve, lane);
    let across = Rangef::new(x.pixels.0, x.pixels.1);
    let font = fonts::regular(m.small);
    for tick in y.ticks(m.small * 2.2) {
        painter.hline(across, y.at(tick), look.hairline(p.rule));
        let text = look.decimal(short(tick));
        painter.text(pos2(across.min - 6.0, y.at(tick)), Align2::RIGHT_CENTER, text, font.clone(), p.ink2);
    }
    // A deadline may leave the job a corner of the axis: words then stand behind its end.
    let end = across.max.min(x.at(clock.total()));
    let short_job = end < across.min + across.span() / 3.0;
    if let Some((level, words)) = &curve.mark {
        lines::reference(painter, across, y.at(*level), look);
        let galley = painter.layout_no_wrap(words.clone(), font.clone(), p.ink2);
        // At the beginning the pressure is far above it.
        let left = if short_job { end + 6.0 } else { across.min + 6.0 };
        let first = Rect::from_min_size(pos2(left, y.at(*level) - 2.0 - galley.size().y), galley.size());
        let place = clear_of_lines(curve, clock, x, &y, first).unwrap_or(first);
        painter.rect_filled(place.expand2(vec2(3.0, -1.0)), 0.0, p.sheet);
        painter.galley(place.min, galley, p.ink2);
    }
    let mut taken: Vec<Rect> = Vec::new();
    for (kit, letter, points) in &curve.others {
        let color = lines::kit_color(*kit, p);
        let other = Pencil { width: 1.8 * m.line, color, dash: lines::kit_dash(*kit) };
        stretch(painter, points, &other, x, &y);
        if let Some(last) = points.last() {
            let galley = painter.layout_no_wrap(letter.clone(), fonts::bold(m.small), p.ink);
            let end = pos2(x.at(last[0]), y.at(last[1]));
            // Over the line's end; beside and above that where another letter or a curve is.
            let places = [0.0, 1.0, 2.0, 3.0].map(|n| {
                let up = vec2(4.0, -2.0 - n * 0.7 * galley.size().y);
                Align2::LEFT_BOTTOM.anchor_size(end + up, galley.size())
            });
            let free = |place: &&Rect| {
                !taken.iter().any(|other| other.expand(1.0).intersects(**place))
                    && !passes(curve, x, &y, **place)
            };
            let place = *places.iter().find(free).unwrap_or(&places[0]);
            painter.galley(place.min, galley, p.ink);
            taken.push(place);
        }
    }
    curve_lines(painter, curve, pencil, x, &y);
    painter.hline(across, lane.max, Stroke::new(1.5 * m.line, p.ink));
    painter.vline(across.min, lane, look.hairline(p.edge));
    // Outside the spans nothing is told, so the name stands clear of the curve at the right.
    let name = format!("{}, {}", curve.name, curve.unit);
    let galley = painter.layout_no_wrap(name, fonts::bold(m.small), pencil.color);
    let rect = if short_job {
        Align2::LEFT_TOP.anchor_size(pos2(end + 6.0, lane.min), galley.size())
    } else {
        Align2::RIGHT_TOP.anchor_size(pos2(end - 6.0, lane.min), galley.size())
    };
    painter.rect_filled(rect.expand2(vec2(4.0, 0.0)), 0.0, p.sheet);
    painter.galley(rect.min, galley, pencil.color);
}

/// The first place for words, from one on, that no pause, no deadline and no curve crosses.
fn clear_of_lines(curve: &Curve, clock: &Clock, x: &Scale, y: &Scale, first: Rect) -> Option<Rect> {
    let mut place = first;
    let pauses = clock.spans.iter().filter(|span| span.pause).map(|span| (span.from, span.to));
    let deadline = clock.deadline.as_ref().map(|(at, _)| (*at, *at));
    for (from, to) in pauses.chain(deadline) {
        let (left, right) = (x.at(from) - 4.0, x.at(to) + 6.0);
        if left < place.right() && right > place.left() {
            place = place.translate(vec2(right - place.left(), 0.0));
        }
    }
    (place.right() < x.pixels.1 && !passes(curve, x, y, place)).then_some(place)
}

fn curve_lines(painter: &Painter, curve: &Curve, pencil: &Pencil, x: &Scale, y: &Scale) {
    for points in &curve.stretches {
        stretch(painter, points, pencil, x, y);
    }
}

fn stretch(painter: &Painter, points: &[[f64; 2]], pencil: &Pencil, x: &Scale, y: &Scale) {
    let points: Vec<Pos2> = points.iter().map(|p| pos2(x.at(p[0]), y.at(p[1]))).collect();
    if points.len() > 1 {
        lines::polyline(painter, points, Stroke::new(pencil.width, pencil.color), pencil.dash);
    }
}

/// A curve's value at a minute, straight between its points.
pub(super) fn value_at(curve: &Curve, minute: f64) -> Option<f64> {
    curve.stretches.iter().find_map(|points| {
        points.windows(2).find_map(|pair| match pair {
            [a, b] if a[0] <= minute && minute <= b[0] => {
                let share = if b[0] > a[0] { (minute - a[0]) / (b[0] - a[0]) } else { 0.0 };
                Some(a[1] + share * (b[1] - a[1]))
            }
            _ => None,
        })
    })
}

fn time_axis(painter: &Painter, inside: Rangef, x: &Scale, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let ticks = x.time_ticks(m.small * 5.0);
    for (tick, text) in ticks.iter().zip(time::ticks(&ticks)) {
        let at = pos2(x.at(*tick), inside.max);
        painter.line_segment([at, at + vec2(0.0, 4.0)], look.hairline(p.edge));
        painter.text(at + vec2(0.0, 4.0), Align2::CENTER_TOP, text, fonts::regular(m.small), p.ink2);
    }
}

/// When it ends, with its band; returns what both take.
fn end(
    painter: &Painter,
    inside: Rangef,
    clock: &Clock,
    layout: Layout,
    x: &Scale,
    look: &Look,
) -> Vec<Rect> {
    let mut taken = Vec::new();
    let (m, p) = (&look.measures, look.palette);
    // In lanes the band has a row of its own above the curves; in the strip it lies behind the words.
    let row = match layout {
        Layout::Lanes => Rangef::new(inside.min - m.small * 1.7, inside.min - 3.0),
        Layout::Strip | Layout::Bar => Rangef::new(inside.min + 2.0, inside.min + m.small * 1.6),
    };
    if let Some((low, high)) = clock.end_band {
        let band = Rect::from_x_y_ranges(Rangef::new(x.at(low), x.at(high)), row);
        let corners = [band.left_top(), band.right_top(), band.right_bottom(), band.left_bottom()];
        painter.rect_stroke(band, 0.0, look.hairline(p.edge), StrokeKind::Inside);
        lines::hatch(painter, &corners, p.ink2, 6.0);
        taken.push(band);
    }
    if let Some((at, words)) = &clock.end {
        let at = x.at(*at);
        painter.vline(at, Rangef::new(row.min, inside.max), Stroke::new(1.6 * m.line, p.ink));
        let galley = painter.layout_no_wrap(words.clone(), fonts::bold(m.small), p.ink);
        let right = clock.end_band.map_or(at, |b| x.at(b.1)) + 6.0;
        // Left of the end where there is no room to its right.
        let fits = right + galley.size().x <= painter.clip_rect().right() - 2.0;
        let left =
            if fits { right } else { clock.end_band.map_or(at, |b| x.at(b.0)) - 6.0 - galley.size().x };
        let rect = Rect::from_min_size(pos2(left, row.center() - galley.size().y / 2.0), galley.size());
        painter.rect_filled(rect.expand2(vec2(2.0, 0.0)), 0.0, p.sheet);
        painter.galley(rect.min, galley, p.ink);
        let line = Rect::from_x_y_ranges(Rangef::point(at), Rangef::new(row.min, inside.max));
        taken.extend([rect, line]);
    }
    taken
}

fn cursor(
    painter: &Painter,
    rect: Rect,
    inside: Rangef,
    clock: &Clock,
    x: &Scale,
    focused: bool,
    look: &Look,
) {
    let (m, p) = (&look.measures, look.palette);
    let at = x.at(clock.cursor);
    let width = if focused { m.focus_line() } else { 1.8 * m.line };
    painter.vline(at, Rangef::new(rect.top(), inside.max), Stroke::new(width, p.fall_text));
    let half = if focused { 8.0 } else { 6.0 };
    let tip =
        vec![pos2(at - half, rect.top()), pos2(at + half, rect.top()), pos2(at, rect.top() + 1.3 * half)];
    painter.add(Shape::convex_polygon(tip, p.fall_fill, Stroke::NONE));
    if focused {
        painter.rect_stroke(rect.shrink(1.0), 0.0, Stroke::new(m.focus_line(), p.ink), StrokeKind::Inside);
    }
}
