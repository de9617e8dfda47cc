//! The deadline of a job, with its words where no curve passes.

use egui::{Painter, Rangef, Rect, Stroke, pos2, vec2};

use super::paint::{lane_scale, three_lanes, value_at};
use super::{Clock, Curve, Layout};
use crate::ui::diagram::lines;
use crate::ui::diagram::ticks::Scale;
use crate::ui::style::{Look, fonts};

pub(super) fn deadline(
    painter: &Painter,
    inside: Rangef,
    clock: &Clock,
    layout: Layout,
    x: &Scale,
    look: &Look,
) {
    let (m, p) = (&look.measures, look.palette);
    let Some((at, words)) = &clock.deadline else { return };
    let at = x.at(*at);
    let points = vec![pos2(at, inside.min - m.small), pos2(at, inside.max)];
    let dash: (&[f32], &[f32]) = (&[10.0, 2.0], &[3.0, 3.0]);
    lines::polyline(painter, points, Stroke::new(2.0 * m.line, p.fall_text), Some(dash));
    let galley = painter.layout_no_wrap(words.clone(), fonts::bold(m.small), p.fall_text);
    let curves = curves(clock, layout, inside, look);
    let place = |share: f32| {
        let corner = pos2(at - 5.0 - galley.size().x, inside.min + share * inside.span());
        Rect::from_min_size(corner, galley.size()).expand2(vec2(3.0, 0.0))
    };
    let free = |rect: &Rect| !curves.iter().any(|(curve, y)| passes(curve, x, y, *rect));
    // Late in the job little is left: the middle of the upper picture is mostly free.
    let shares = [0.26, 0.13, 0.02, 0.4, 0.55];
    let rect = shares.into_iter().map(place).find(free).unwrap_or_else(|| place(shares[0]));
    painter.rect_filled(rect, 0.0, p.sheet);
    painter.galley(rect.min + vec2(3.0, 0.0), galley, p.fall_text);
}

/// The curves with their scales.
fn curves<'a>(clock: &'a Clock, layout: Layout, inside: Rangef, look: &Look) -> Vec<(&'a Curve, Scale)> {
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
fn passes(curve: &Curve, x: &Scale, y: &Scale, rect: Rect) -> bool {
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
