//! Letters at the ends of the kits' lines.

use egui::{Align2, Painter, Pos2, Rect, pos2, vec2};

use super::Stairs;
use super::layout::Plan;
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::paint_kit_mark;

/// One letter and its place.
pub(super) struct Letter<'a> {
    kit: usize,
    letter: &'a str,
    /// Middle of the kit's mark, which stands before the letter.
    mark: Pos2,
    /// What both take.
    pub patch: Rect,
}

/// Where the letters stand, pushed apart where they would touch; none for one kit alone.
pub(super) fn kit_letters<'a>(plan: &Plan, s: &'a Stairs, look: &Look) -> Vec<Letter<'a>> {
    if s.runs.len() < 2 {
        return Vec::new();
    }
    let runs = plan.tracks.iter().zip(&s.runs);
    let mut ends: Vec<_> = runs.filter_map(|(track, run)| Some((*track.suction.last()?, run))).collect();
    ends.sort_by(|a, b| a.0.y.total_cmp(&b.0.y));
    let (pitch, line) = (look.measures.strong * 1.25, look.measures.line);
    let mut last = f32::NEG_INFINITY;
    let place = |(end, run): (Pos2, &'a super::Run)| {
        last = end.y.max(last + pitch);
        // Clear of the machine's edge at the right and of the last joint's ring at the left.
        let patch = Rect::from_center_size(pos2(end.x - 19.0 * line, last), vec2(28.0 * line, pitch));
        Letter { kit: run.kit, letter: &run.letter, mark: pos2(end.x - 26.0 * line, last), patch }
    };
    ends.into_iter().map(place).collect()
}

impl Letter<'_> {
    pub(super) fn paint(&self, painter: &Painter, look: &Look) {
        let (m, p) = (&look.measures, look.palette);
        painter.rect_filled(self.patch, 0.0, p.sheet);
        paint_kit_mark(painter, self.mark, 5.0 * m.line, self.kit, p);
        let at = self.mark + vec2(9.0 * m.line, 0.0);
        painter.text(at, Align2::LEFT_CENTER, self.letter, fonts::bold(m.strong), p.ink);
    }
}
