//! The second port's branch, over and beside the first one's.

use egui::{Align2, Painter, Stroke, pos2, vec2};

use super::Stairs;
use super::labels::Labels;
use super::layout::{Fall, Track};
use super::paint::{choked, drop_number};
use crate::ui::diagram::lines;
use crate::ui::style::{Look, fonts};

/// Losses of the second branch where they are not the first one's.
pub(super) fn own_falls<'a>(second: &'a Track, first: &'a Track) -> impl Iterator<Item = &'a Fall> {
    let same = |a: &Fall, b: &Fall| (a.from - b.from).length() < 1.0 && (a.to - b.to).length() < 1.0;
    second.falls.iter().filter(move |fall| !first.falls.iter().any(|other| same(fall, other)))
}

pub(super) fn hatch_fall(painter: &Painter, fall: &Fall, look: &Look) {
    let width = if fall.step { 7.0 * look.measures.line } else { 0.0 };
    let lower = pos2(fall.from.x, fall.to.y);
    let outline = if fall.step {
        vec![fall.from - vec2(width, 0.0), fall.from, fall.to, fall.to - vec2(width, 0.0)]
    } else {
        vec![fall.from, fall.to, lower]
    };
    lines::hatch(painter, &outline, look.palette.fall_fill, 5.0);
}

/// A hollow line: over the first branch's where both are alike, beside it where they are not.
pub(super) fn second_track(
    painter: &Painter,
    second: &Track,
    first: &Track,
    share: &str,
    s: &Stairs,
    labels: &mut Labels,
    look: &Look,
) {
    let (m, p) = (&look.measures, look.palette);
    let color = if s.stale { p.edge } else { p.level };
    labels.keep_clear_of(&second.suction);
    for (width, color) in [(m.level_line(), color), (0.4 * m.level_line(), p.sheet)] {
        lines::polyline(painter, second.suction.clone(), Stroke::new(width, color), None);
    }
    if let Some(&end) = second.suction.last() {
        painter.circle(end, 4.5 * m.line, p.sheet, Stroke::new(2.0 * m.line, color));
        let up = [8.0, 24.0, 40.0, 60.0].map(|up| (end - vec2(0.0, up), Align2::CENTER_BOTTOM));
        let down = [8.0, 24.0, 40.0].map(|down| (end + vec2(0.0, down), Align2::CENTER_TOP));
        let places = [up.as_slice(), down.as_slice()].concat();
        labels.text(painter, &places, share, fonts::regular(m.small), p.ink2, p.sheet);
    }
    for fall in own_falls(second, first) {
        if fall.choked {
            choked(painter, fall, labels, look);
        }
        drop_number(painter, fall, false, "", labels, look);
    }
}
