//! Names in the job clock: of phases, and of the three curves that share one low picture.

use egui::{Align2, Painter, Pos2, Rangef, Rect, Stroke, pos2, vec2};

use super::deadline::{curves, passes};
use super::paint::{pencils, value_at};
use super::{Clock, Curve, Layout};
use crate::ui::diagram::lines;
use crate::ui::diagram::ticks::Scale;
use crate::ui::style::{Look, fonts};

/// How far the name of a phase may hang over what follows: up to a phase of another name.
pub(super) fn reach(clock: &Clock, phase: usize, x: &Scale) -> f32 {
    let name = clock.spans.get(phase).map(|span| &span.name);
    let after = clock.spans.iter().skip(phase + 1).find(|s| !s.pause && Some(&s.name) != name);
    after.map_or(x.pixels.1, |s| x.at(s.from))
}

/// Names beside their lines, clear of every line, pause and word; what finds no place stands behind the
/// end with a piece of its line. `taken` is where words stand already.
pub(super) fn strip_names(
    painter: &Painter,
    inside: Rangef,
    clock: &Clock,
    x: &Scale,
    mut taken: Vec<Rect>,
    look: &Look,
) {
    let (m, p) = (&look.measures, look.palette);
    let all = curves(clock, Layout::Strip, inside, look);
    let pauses = clock.spans.iter().filter(|span| span.pause);
    taken.extend(pauses.map(|s| Rect::from_x_y_ranges(Rangef::new(x.at(s.from), x.at(s.to)), inside)));
    let mut left = Vec::new();
    for (i, ((curve, y), pencil)) in all.iter().zip(pencils(clock, look)).enumerate() {
        if curve.stretches.is_empty() {
            continue;
        }
        let font = if i == 0 { fonts::bold(m.small) } else { fonts::regular(m.small) };
        let galley = painter.layout_no_wrap(curve.name.clone(), font, pencil.color);
        let is_free = |rect: &Rect, clear: f32| {
            let others = all.iter().enumerate().filter(|(other, _)| *other != i);
            inside.contains(rect.top())
                && inside.contains(rect.bottom())
                && rect.left() > x.pixels.0 + 4.0
                && !taken.iter().any(|other| other.expand(2.0).intersects(*rect))
                && !passes(curve, x, y, *rect)
                && !others.into_iter().any(|(_, (curve, y))| passes(curve, x, y, rect.expand(clear)))
        };
        let places = places(curve, clock, x, y, galley.size());
        // Far from the other lines, if there is such a place: a name between two may be either's.
        let place = [9.0, 5.0, 0.0].iter().find_map(|clear| places.iter().find(|r| is_free(r, *clear)));
        match place {
            Some(place) => {
                painter.galley(place.min, galley, pencil.color);
                taken.push(*place);
            }
            None => left.push((galley, pencil)),
        }
    }
    if left.is_empty() {
        return;
    }
    // Behind the end, and behind what is said there.
    let sample = 2.0 * m.small;
    let wide = left.iter().map(|(galley, _)| galley.size().x).fold(0.0, f32::max) + sample + 6.0;
    let room = |from: f32| Rect::from_x_y_ranges(Rangef::new(from, from + wide), inside);
    let mut from = x.at(clock.total()) + m.small;
    while let Some(other) = taken.iter().find(|other| other.intersects(room(from))) {
        from = other.right().max(from) + m.small;
    }
    if room(from).right() > x.pixels.1 {
        return;
    }
    let mut y = inside.min;
    for (galley, pencil) in left {
        let middle = y + galley.size().y / 2.0;
        let line = vec![pos2(from, middle), pos2(from + sample, middle)];
        lines::polyline(painter, line, Stroke::new(pencil.width, pencil.color), pencil.dash);
        let height = galley.size().y;
        painter.rect_filled(Rect::from_min_size(pos2(from + sample + 4.0, y), galley.size()), 0.0, p.sheet);
        painter.galley(pos2(from + sample + 6.0, y), galley, pencil.color);
        y += height;
    }
}

/// Where a curve's name may stand: over it or under it, from its beginning on.
fn places(curve: &Curve, clock: &Clock, x: &Scale, y: &Scale, size: egui::Vec2) -> Vec<Rect> {
    const LOOKS: u32 = 48;
    let minutes = (1..LOOKS).map(|i| clock.total() * f64::from(i) / f64::from(LOOKS));
    let on_it = minutes.filter_map(|minute| Some(pos2(x.at(minute), y.at(value_at(curve, minute)?))));
    let beside = |at: Pos2| {
        // Over a line that falls to its right, under it to its left; and the other way round.
        let sides = [
            (Align2::LEFT_BOTTOM, vec2(3.0, -4.0)),
            (Align2::RIGHT_TOP, vec2(-3.0, 4.0)),
            (Align2::RIGHT_BOTTOM, vec2(-3.0, -4.0)),
            (Align2::LEFT_TOP, vec2(3.0, 4.0)),
        ];
        sides.map(|(anchor, off)| anchor.anchor_size(at + off, size))
    };
    on_it.flat_map(beside).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ui::diagram::clock::Span;

    /// Three phases with pauses between, 10 minutes each on 500 pixels: the first one's name may reach to
    /// the third, which has another name, and that one's to the end.
    #[test]
    fn a_name_hangs_over_pauses_and_its_like() {
        let names = ["push-pull", "swap", "push-pull", "hose change", "tail"];
        let span = |(i, name): (u8, &str)| Span {
            from: 10.0 * f64::from(i),
            to: 10.0 * f64::from(i) + 10.0,
            name: name.to_owned(),
            pause: i % 2 == 1,
        };
        let clock = Clock { spans: (0..).zip(names).map(span).collect(), ..Clock::default() };
        let x = Scale::across((0.0, 50.0), 0.0..=500.0);
        assert_eq!([0, 2, 4].map(|phase| reach(&clock, phase, &x)), [400.0, 400.0, 500.0]);
    }
}
