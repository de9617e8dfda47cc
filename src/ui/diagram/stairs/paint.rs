//! Painting of the pressure stairs.

use egui::{Align2, Color32, Painter, Pos2, Rangef, Rect, Shape as Paint, Stroke, StrokeKind, pos2, vec2};

use super::grid::grid;
use super::labels::Labels;
use super::layout::{Fall, Plan, Track};
use super::letters::kit_letters;
use super::second::{hatch_fall, own_falls, second_track};
use super::{Run, Shape, Stairs};
use crate::ui::diagram::columns::Columns;
use crate::ui::diagram::lines;
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::{Mark, paint_mark};

pub fn paint(painter: &Painter, columns: &Columns, s: &Stairs, plan: &Plan, look: &Look) {
    let mut labels = Labels::new(plan.rect);
    labels.placed = grid(painter, columns, s, plan, look);
    labels.placed.extend(plan.axis.folds().map(|(_, y)| Rect::from_x_y_ranges(plan.x, y.upper..=y.lower)));
    // They stand where they must; numbers and words give way to them.
    let letters = kit_letters(plan, s, look);
    labels.placed.extend(letters.iter().map(|letter| letter.patch));
    if let Some(run) = s.runs.first() {
        band(painter, columns, run, plan, look);
    }
    if let Some(track) = plan.tracks.first() {
        for fall in &track.falls {
            fill_fall(painter, fall, look);
        }
        for fall in plan.second.iter().flat_map(|second| own_falls(second, track)) {
            hatch_fall(painter, fall, look);
        }
    }
    if let Some(ghost) = &plan.ghost {
        lines::ghost(painter, ghost.suction.clone(), look);
        labels.keep_clear_of(&ghost.suction);
    }
    for (track, run) in plan.tracks.iter().zip(&s.runs).skip(1) {
        let color = lines::kit_color(run.kit, look.palette);
        let stroke = Stroke::new(look.measures.level_line() * 0.8, color);
        lines::polyline(painter, track.suction.clone(), stroke, lines::kit_dash(run.kit));
        labels.keep_clear_of(&track.suction);
    }
    if let (Some(track), Some(run)) = (plan.tracks.first(), s.runs.first()) {
        main_track(painter, track, run, s, &mut labels, look);
        if let Some((ghost, (_, name))) = plan.ghost.as_ref().zip(s.ghost.as_ref()) {
            ghost_name(painter, ghost, track, name, &mut labels, look);
        }
        if let Some((second, (_, share))) = plan.second.as_ref().zip(s.second.as_ref()) {
            second_track(painter, second, track, share, s, &mut labels, look);
        }
    }
    for letter in &letters {
        letter.paint(painter, look);
    }
    labels.text(
        painter,
        &note_places(plan, s),
        &s.note,
        fonts::regular(look.measures.small),
        look.palette.ink2,
        look.palette.sheet,
    );
}

/// Above the lowest fold, or above the reference lines.
fn note_places(plan: &Plan, s: &Stairs) -> Vec<(Pos2, Align2)> {
    let x = plan.x.min + 8.0;
    let fold = plan.axis.folds().map(|(_, y)| y.upper).fold(f32::NEG_INFINITY, f32::max);
    let low = plan.axis.y(s.ambient) - 22.0;
    let heights = if fold.is_finite() { vec![fold - 2.0, low] } else { vec![low, low - 20.0] };
    // Farther right where a number stands there already.
    let across = [0.0, 0.25, 0.5, 0.72].map(|share| x + share * plan.x.span());
    let places = heights.iter().flat_map(|y| across.map(|x| (pos2(x, *y), Align2::LEFT_BOTTOM)));
    places.collect()
}

fn band(painter: &Painter, columns: &Columns, run: &Run, plan: &Plan, look: &Look) {
    for (i, stair) in run.stairs.iter().enumerate() {
        if let Some([(low_in, high_in), (low_out, high_out)]) = stair.band {
            let x = columns.span(i);
            let y = |v| plan.axis.y(v);
            let piece = |x: Rangef, (low_a, high_a): (f64, f64), (low_b, high_b): (f64, f64)| {
                let outline = [
                    pos2(x.min, y(high_a)),
                    pos2(x.max, y(high_b)),
                    pos2(x.max, y(low_b)),
                    pos2(x.min, y(low_a)),
                ];
                lines::hatch(painter, &outline, look.palette.level.gamma_multiply(0.7), 7.0);
            };
            let (enters, leaves) = ((low_in, high_in), (low_out, high_out));
            if stair.shape == Shape::Steps {
                piece(Rangef::new(x.min, x.center()), enters, enters);
                piece(Rangef::new(x.center(), x.max), leaves, leaves);
            } else {
                piece(x, enters, leaves);
            }
        }
    }
}

fn fill_fall(painter: &Painter, fall: &Fall, look: &Look) {
    let fill = look.palette.fall_fill;
    if fall.step {
        let width = 7.0 * look.measures.line;
        let rect = Rect::from_min_max(pos2(fall.from.x - width, fall.from.y), fall.to);
        painter.rect_filled(rect, 0.0, fill);
    } else if fall.to.y - fall.from.y > 0.3 {
        let points = vec![fall.from, fall.to, pos2(fall.from.x, fall.to.y)];
        painter.add(Paint::convex_polygon(points, fill, Stroke::NONE));
    }
}

fn main_track(painter: &Painter, track: &Track, run: &Run, s: &Stairs, labels: &mut Labels, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let color = if s.stale { p.edge } else { lines::kit_color(run.kit, p) };
    let stroke = Stroke::new(m.level_line(), color);
    for line in [&track.suction, &track.discharge] {
        labels.keep_clear_of(line);
        if line.len() > 1 {
            lines::polyline(painter, line.clone(), stroke, lines::kit_dash(run.kit));
        }
    }
    if let Some(ends) = track.into_cylinder {
        into_cylinder(painter, ends, s, labels, look);
    }
    if let Some(lift) = track.lift {
        machine_lift(painter, lift, color, look);
        labels.placed.push(lift.expand(3.0));
    }
    for &joint in &track.joints {
        painter.circle(joint, 3.6 * m.line, p.field, Stroke::new(1.6 * m.line, color));
    }
    for fall in track.falls.iter().filter(|f| f.choked) {
        choked(painter, fall, labels, look);
    }
    ends(painter, track, s, color, labels, look);
    let largest = track.falls.iter().map(|f| f.to.y - f.from.y).fold(0.0, f32::max);
    for fall in &track.falls {
        let is_largest = fall.to.y - fall.from.y >= largest;
        drop_number(painter, fall, is_largest, &s.difference_unit, labels, look);
    }
    for (joint, stair) in run.stairs.iter().enumerate().filter(|(_, st)| st.flash.is_some()) {
        flash(painter, track, joint, stair.flash.as_deref().unwrap_or_default(), labels, look);
    }
}

/// Not orange: it costs the rate nothing, so it is no loss to hunt for.
fn into_cylinder(painter: &Painter, ends: (Pos2, Pos2), s: &Stairs, labels: &mut Labels, look: &Look) {
    let (from, to) = ends;
    let width = 7.0 * look.measures.line;
    let outline = [from - vec2(width, 0.0), from, to, to - vec2(width, 0.0)];
    lines::hatch(painter, &outline, look.palette.level, 5.0);
    let right = to.x + 8.0;
    let places = [0.5, 0.35, 0.65, 0.2, 0.8]
        .map(|share| (pos2(right, from.y + share * (to.y - from.y)), Align2::LEFT_CENTER));
    let small = fonts::regular(look.measures.small);
    let one_line = s.fall_text.replace('\n', " ");
    let above = [8.0, 26.0].map(|up| (pos2(to.x + 70.0, from.y - up), Align2::RIGHT_BOTTOM));
    let (text, places) = if labels.has_room(painter, &places, &s.fall_text, &small) {
        (s.fall_text.as_str(), places.as_slice())
    } else {
        (one_line.as_str(), above.as_slice())
    };
    if labels.has_room(painter, places, text, &small) {
        labels.text(painter, places, text, small, look.palette.ink2, look.palette.sheet);
    }
}

fn machine_lift(painter: &Painter, lift: Rect, color: Color32, look: &Look) {
    painter.rect_filled(lift, 0.0, look.palette.field);
    painter.rect_stroke(lift, 0.0, Stroke::new(2.0, color), StrokeKind::Inside);
    let (half, pitch) = (lift.width() * 0.22, 8.0 * look.measures.line);
    let mut y = lift.bottom() - 6.0;
    while y - half > lift.top() + 4.0 {
        let tip = pos2(lift.center().x, y - half);
        let wings = [pos2(tip.x - half, y), tip, pos2(tip.x + half, y)];
        painter.add(Paint::line(wings.to_vec(), Stroke::new(1.5 * look.measures.line, color)));
        y -= pitch;
    }
}

fn ends(painter: &Painter, track: &Track, s: &Stairs, color: Color32, labels: &mut Labels, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let bold = fonts::bold(m.strong);
    if let Some(start) = track.suction.first() {
        let at = pos2(start.x + 18.0, start.y - 5.0);
        let places = [(at, Align2::LEFT_BOTTOM), (at + vec2(0.0, 10.0), Align2::LEFT_TOP)];
        labels.text(painter, &places, &s.start_text, bold.clone(), color, p.sheet);
    }
    if let Some(end) = track.discharge.last() {
        let at = pos2(end.x - 14.0, end.y - 5.0);
        let below = pos2(end.x - 14.0, end.y + 5.0);
        let places = [(at, Align2::RIGHT_BOTTOM), (below, Align2::RIGHT_TOP)];
        labels.text(painter, &places, &s.end_text, bold.clone(), color, p.sheet);
    }
    if let Some(lift) = track.lift {
        let right = lift.right() + 7.0;
        inlet(painter, lift, &s.inlet_text, color, labels, look);
        let small = fonts::regular(m.small);
        let places = [0.5, 0.6, 0.4, 0.7, 0.3]
            .map(|share| (pos2(right, lift.top() + share * lift.height()), Align2::LEFT_CENTER));
        if labels.has_room(painter, &places, &s.lift_text, &small) {
            labels.text(painter, &places, &s.lift_text, small, p.ink2, p.sheet);
        }
    }
}

/// The pressure at the machine's inlet, under its name: beside the lift's foot; a line lower where the
/// cylinder's pressure stands there, left of it where a fall into the cylinder passes.
fn inlet(painter: &Painter, lift: Rect, text: &str, color: Color32, labels: &mut Labels, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let (bold, small) = (fonts::bold(m.strong), fonts::regular(m.small));
    let line = m.strong * 1.25;
    let (right, left) = (lift.right() + 7.0, lift.left() - 7.0);
    let places = [
        (pos2(right, lift.bottom() + 2.0), Align2::LEFT_BOTTOM),
        (pos2(right, lift.bottom() + 2.0 + line), Align2::LEFT_BOTTOM),
        (pos2(left, lift.bottom() + 8.0 + 2.0 * line), Align2::RIGHT_BOTTOM),
    ];
    let over = |(at, anchor): (Pos2, Align2)| (at - vec2(0.0, line + 2.0), anchor);
    let has_room = |place: &(Pos2, Align2)| {
        labels.has_room(painter, &[*place], text, &bold)
            && labels.has_room(painter, &[over(*place)], "inlet", &small)
    };
    let place = places.into_iter().find(has_room).unwrap_or(places[1]);
    labels.text(painter, &[place], text, bold, color, p.sheet);
    labels.text(painter, &[over(place)], "inlet", small, p.ink2, p.sheet);
}

pub(super) fn drop_number(
    painter: &Painter,
    fall: &Fall,
    largest: bool,
    unit: &str,
    labels: &mut Labels,
    look: &Look,
) {
    if fall.text.is_empty() {
        return;
    }
    let (m, p) = (&look.measures, look.palette);
    let size = if largest { m.strong } else { m.small };
    let middle = fall.from + (fall.to - fall.from) * 0.5;
    let tall = fall.to.y - fall.from.y > 1.35 * size;
    let side = if fall.choked { 16.0 } else { 8.0 };
    let beside = (pos2(fall.to.x + side, middle.y), Align2::LEFT_CENTER);
    let under = (pos2(middle.x, fall.to.y + 6.0), Align2::CENTER_TOP);
    let lower = (pos2(middle.x, fall.to.y + 8.0 + 1.3 * size), Align2::CENTER_TOP);
    let above = (pos2(middle.x, fall.from.y - 6.0), Align2::CENTER_BOTTOM);
    let under_right = (pos2(fall.to.x + 6.0, fall.to.y + 6.0), Align2::LEFT_TOP);
    let places = if fall.step && tall {
        vec![beside, under, under_right, lower, above]
    } else {
        vec![under, lower, under_right, above]
    };
    let text = if largest { format!("{} {unit}", fall.text) } else { fall.text.clone() };
    labels.text(painter, &places, &text, fonts::bold(size), p.fall_text, p.sheet);
}

pub(super) fn choked(painter: &Painter, fall: &Fall, labels: &mut Labels, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let y = Rangef::new(fall.from.y - 14.0, fall.to.y + 14.0);
    for dx in [-11.0, 11.0] {
        painter.vline(fall.from.x + dx, y, Stroke::new(5.0 * m.line, p.ink));
    }
    let galley = painter.layout_no_wrap("CHOKED".to_owned(), fonts::bold(m.small), p.sheet);
    let size = galley.size() + vec2(14.0, 6.0);
    let rect = Rect::from_center_size(pos2(fall.from.x, y.max + 4.0 + size.y / 2.0), size);
    painter.rect_filled(rect, 0.0, p.ink);
    painter.galley(rect.min + vec2(7.0, 3.0), galley, p.sheet);
    labels.placed.push(rect);
    labels.text(
        painter,
        &[
            (pos2(rect.right() + 8.0, rect.center().y), Align2::LEFT_CENTER),
            (pos2(rect.left() - 8.0, rect.center().y), Align2::RIGHT_CENTER),
        ],
        "pulling harder does nothing",
        fonts::regular(m.small),
        p.ink2,
        p.sheet,
    );
}

fn flash(painter: &Painter, track: &Track, column: usize, text: &str, labels: &mut Labels, look: &Look) {
    // The first point of a column is where liquid enters it.
    let at = track.falls.iter().find(|f| f.to.y >= f.from.y).map(|f| f.from);
    let at = track.joints.get(column.wrapping_sub(1)).copied().or(at);
    let Some(at) = at else { return };
    let size = 26.0 * look.measures.line;
    // Above the line; farther on or below it where something stands there, or the picture ends.
    let place = |x: f32, up: f32| Rect::from_center_size(at + vec2(x, -up * size * 0.9), vec2(size, size));
    let above = [0.0, 0.5, 1.0, 1.5].map(|on| place(20.0 + on * size, 1.0));
    let below = [0.0, 1.0].map(|on| place(20.0 + on * size, -1.0));
    let places = [above.as_slice(), below.as_slice()].concat();
    let rect = labels.first_free(&places).unwrap_or(above[0]);
    paint_mark(Mark::Flash, painter, rect, look.palette);
    let places = [(rect.right_center() + vec2(6.0, 0.0), Align2::LEFT_CENTER)];
    let font = fonts::regular(look.measures.small);
    // Where there is no room for all of it, its first clause, or the mark alone; the table says it all.
    let clause = text.split(',').next().unwrap_or_default();
    let fits = [text, clause].into_iter().find(|words| labels.has_room(painter, &places, words, &font));
    if let Some(words) = fits {
        labels.text(painter, &places, words, font, look.palette.ink2, look.palette.sheet);
    }
    labels.placed.push(rect);
}

/// Over or under the ghost's line, where it is farthest from the line that is now.
fn ghost_name(painter: &Painter, ghost: &Track, now: &Track, name: &str, labels: &mut Labels, look: &Look) {
    let pairs = ghost.suction.windows(2).filter_map(|pair| Some((*pair.first()?, *pair.last()?)));
    let mut middles: Vec<Pos2> =
        pairs.filter(|(a, b)| b.x - a.x > 20.0).map(|(a, b)| a + (b - a) * 0.5).collect();
    let gap = |at: &Pos2| height_at(&now.suction, at.x).map_or(0.0, |y| (y - at.y).abs());
    middles.sort_by(|a, b| gap(b).total_cmp(&gap(a)));
    let beside =
        |at: Pos2| [(at + vec2(0.0, 4.0), Align2::CENTER_TOP), (at - vec2(0.0, 4.0), Align2::CENTER_BOTTOM)];
    let places: Vec<(Pos2, Align2)> = middles.into_iter().flat_map(beside).collect();
    let font = fonts::regular(look.measures.small);
    labels.text(painter, &places, name, font, look.palette.ink2, look.palette.sheet);
}

/// How high a line from left to right stands at a place.
fn height_at(line: &[Pos2], x: f32) -> Option<f32> {
    line.windows(2).find_map(|pair| match *pair {
        [a, b] if a.x < b.x && (a.x..=b.x).contains(&x) => Some(a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x)),
        _ => None,
    })
}
