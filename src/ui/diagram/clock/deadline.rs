//! The deadline of a job, with its words where no curve passes.

use egui::{Painter, Rangef, Rect, Stroke, pos2, vec2};

use super::paint::{lane_scale, three_lanes, value_at};
use super::{Clock, Curve, Layout};
use crate::ui::diagram::lines;
use crate::ui::diagram::ticks::Scale;
use crate::ui::style::{Look, fonts};

/// Draws it; returns where its words and its line stand.
pub(super) fn deadline(
    painter: &Painter,
    inside: Rangef,
    clock: &Clock,
    layout: Layout,
    x: &Scale,
    look: &Look,
) -> Option<[Rect; 2]> {
    let (m, p) = (&look.measures, look.palette);
    let (at, words) = clock.deadline.as_ref()?;
    let at = x.at(*at);
    let points = vec![pos2(at, inside.min - m.small), pos2(at, inside.max)];
    let dash: (&[f32], &[f32]) = (&[10.0, 2.0], &[3.0, 3.0]);
    lines::polyline(painter, points, Stroke::new(2.0 * m.line, p.fall_text), Some(dash));
    let galley = painter.layout_no_wrap(words.clone(), fonts::bold(m.small), p.fall_text);
    let curves = curves(clock, layout, inside, look);
    let place = |(left, share): (f32, f32)| {
        let corner = pos2(left, inside.min + share * inside.span());
        Rect::from_min_size(corner, galley.size()).expand2(vec2(3.0, 0.0))
    };
    let ends = clock.end_band.map(|band| band.0).or(clock.end.as_ref().map(|end| end.0)).map(|at| x.at(at));
    let free = |rect: &Rect| {
        let over_end =
            rect.left() > at && ends.is_some_and(|end| rect.right() > end) || rect.right() > x.pixels.1;
        !over_end && !curves.iter().any(|(curve, y)| passes(curve, x, y, *rect))
    };
    // Late in the job little is left: the middle of the upper picture is mostly free. Behind the deadline
    // there is room where the job ends late.
    let shares = [0.26, 0.13, 0.02, 0.4, 0.55];
    let sides = [at - 5.0 - galley.size().x, at + 8.0];
    let places = sides.into_iter().flat_map(|left| shares.map(|share| (left, share)));
    let rect = places.map(place).find(free).unwrap_or_else(|| place((sides[0], shares[0])));
    painter.rect_filled(rect, 0.0, p.sheet);
    painter.galley(rect.min + vec2(3.0, 0.0), galley, p.fall_text);
    // Words of others keep clear of them and of the line.
    Some([rect, Rect::from_x_y_ranges(Rangef::point(at), inside)])
}

/// The curves with their scales.
pub(super) fn curves<'a>(
    clock: &'a Clock,
    layout: Layout,
    inside: Rangef,
    look: &Look,
) -> Vec<(&'a Curve, Scale)> {
    let all = [&clock.mass, &clock.rate, &clock.pressure];
    match layout {
        Layout::Lanes => {
            let lanes = three_lanes(inside, look).into_iter().zip(all);
            lanes.map(|(lane, curve)| (curve, lane_scale(curve, lane))).collect()
        }
        Layout::Strip | Layout::Bar => {
            all.into_iter().map(|curve| (curve, Scale::up((0.0, curve.top()), inside))).collect()
        }
    }
}

/// Whether a curve passes through a place: its own line, seen at a few moments.
pub(super) fn passes(curve: &Curve, x: &Scale, y: &Scale, rect: Rect) -> bool {
    const LOOKS: u32 = 12;
    let moments = (0..=LOOKS).map(|i| rect.left() + rect.width() * i as f32 / LOOKS as f32);
    let heights: Vec<f32> =
        moments.filter_map(|px| value_at(curve, x.value(px))).map(|value| y.at(value)).collect();
    let taken = rect.expand(3.0);
    heights.windows(2).any(|pair| match *pair {
        [a, b] => a.min(b) <= taken.bottom() && a.max(b) >= taken.top(),
        _ => false,
    })
}
