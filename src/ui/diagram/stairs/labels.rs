//! Text that keeps clear of what is already there.

use egui::{Align2, Color32, FontId, Painter, Pos2, Rect, vec2};

/// Where text stands and may stand.
pub(super) struct Labels {
    /// What is taken.
    pub placed: Vec<Rect>,
    /// Where text may stand.
    pub area: Rect,
}

impl Labels {
    pub fn new(area: Rect) -> Self {
        Self { placed: Vec::new(), area }
    }

    /// Level stretches and steps of a line count as taken.
    pub fn keep_clear_of(&mut self, line: &[Pos2]) {
        for pair in line.windows(2) {
            if let [a, b] = *pair {
                self.placed.push(Rect::from_two_pos(a, b).expand(1.0));
            }
        }
    }

    /// Whether one of the places is free.
    pub fn has_room(&self, painter: &Painter, places: &[(Pos2, Align2)], text: &str, font: &FontId) -> bool {
        let size = painter.layout_no_wrap(text.to_owned(), font.clone(), Color32::BLACK).size();
        places.iter().any(|(at, align)| self.is_free(align.anchor_size(*at, size)))
    }

    /// The first of these that touches nothing.
    pub fn first_free(&self, places: &[Rect]) -> Option<Rect> {
        places.iter().copied().find(|place| self.is_free(place.expand(1.0)))
    }

    fn is_free(&self, rect: Rect) -> bool {
        self.area.contains_rect(rect) && !self.placed.iter().any(|other| other.intersects(rect))
    }

    /// Writes at the first free place, else at the first one.
    pub fn text(
        &mut self,
        painter: &Painter,
        places: &[(Pos2, Align2)],
        text: &str,
        font: FontId,
        color: Color32,
        patch: Color32,
    ) {
        if text.is_empty() {
            return;
        }
        let galley = painter.layout_no_wrap(text.to_owned(), font, color);
        let rects: Vec<Rect> =
            places.iter().map(|(at, align)| align.anchor_size(*at, galley.size())).collect();
        let free = |r: &&Rect| self.is_free(**r);
        let Some(&rect) = rects.iter().find(free).or(rects.first()) else { return };
        painter.rect_filled(rect.expand2(vec2(2.0, -1.0)), 0.0, patch);
        painter.galley(rect.min, galley, color);
        self.placed.push(rect);
    }
}
