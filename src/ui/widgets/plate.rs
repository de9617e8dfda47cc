//! A plate: an answer in large numerals, riveted on. Nothing on it can be typed.

use std::sync::Arc;

use egui::{Align2, Galley, Painter, Rect, Response, Stroke, StrokeKind, Ui, pos2, vec2};

use crate::ui::motion;
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::{Mark, paint_mark};

/// What a plate says.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plate {
    /// What the number is, as "Rate now, vapour".
    pub title: String,
    /// Upper right, as "92 % of nameplate".
    pub aside: String,
    /// The number; empty if there is none.
    pub numeral: String,
    /// Its unit.
    pub unit: String,
    /// The number before the last change, as "was 1.41".
    pub was: String,
    /// Instead of a number: why there is none.
    pub instead: Option<(Mark, String)>,
    /// A mark beside the number.
    pub mark: Option<Mark>,
    /// The answer is being renewed.
    pub stale: bool,
    /// The answer just changed.
    pub changed: bool,
    /// Which number it is, to explain it.
    pub about: About,
}

/// The numbers that can be explained.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum About {
    /// None.
    #[default]
    Nothing,
    /// The recovery rate.
    Rate,
    /// The pressure at the machine's inlet.
    Inlet,
    /// Volts at the motor, running.
    Running,
    /// Volts at the motor, starting.
    Starting,
    /// The time until the level is reached.
    Level,
    /// The weight to stop at.
    Stop,
}

/// Draws a plate over the available width.
pub fn plate_ui(ui: &mut Ui, plate: &Plate, height: f32, look: &Look) -> Response {
    let size = vec2(ui.available_width(), height);
    let explains = plate.about != About::Nothing;
    let sense = if explains { egui::Sense::click() } else { egui::Sense::hover() };
    let (rect, response) = ui.allocate_exact_size(size, sense);
    let words = plate.words();
    let role = if explains { egui::Role::Button } else { egui::Role::Label };
    response.widget_info(|| egui::WidgetInfo::labeled(role, true, &words));
    if ui.is_rect_visible(rect) {
        let numeral = motion::moving_numeral(
            ui.ctx(),
            response.id.with((&plate.title, &plate.unit)),
            &plate.numeral,
            look,
        );
        paint(ui, rect, plate, &numeral, look);
        if response.has_focus() || (explains && response.hovered()) {
            let width = if response.has_focus() { look.measures.focus_line() } else { 1.0 };
            ui.painter().rect_stroke(rect, 0.0, Stroke::new(width, look.palette.ink), StrokeKind::Inside);
        }
    }
    response
}

impl Plate {
    /// The plate read aloud.
    pub fn words(&self) -> String {
        let answer = match &self.instead {
            Some((_, text)) => text.clone(),
            None => format!("{} {}", self.numeral, self.unit),
        };
        let mut words = format!("{}: {answer}", self.title);
        for more in [&self.aside, &self.was] {
            if !more.is_empty() {
                words = format!("{words}, {more}");
            }
        }
        words
    }
}

/// How high a plate must be for what it says; a sentence may need more than a numeral.
pub fn plate_height(ui: &Ui, plate: &Plate, width: f32, look: &Look) -> f32 {
    let Some((_, text)) = &plate.instead else { return look.measures.plate };
    let sentence = sentence(ui.painter(), text, width, look);
    (SENTENCE_TOP + sentence.size().y + 9.0).max(look.measures.plate)
}

/// Where a sentence begins, under the title.
const SENTENCE_TOP: f32 = 28.0;

/// A sentence beside its mark.
fn sentence(painter: &Painter, text: &str, width: f32, look: &Look) -> Arc<Galley> {
    let room = width - mark_side(look) - 36.0;
    painter.layout(text.to_owned(), fonts::bold(look.measures.small), look.palette.ink, room)
}

fn mark_side(look: &Look) -> f32 {
    look.measures.numeral * 0.7
}

fn paint(ui: &Ui, rect: Rect, plate: &Plate, numeral: &str, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    painter.rect(rect, 0.0, p.plate, Stroke::new(1.3 * m.line, p.edge), StrokeKind::Inside);
    for x in [rect.left() + 7.0, rect.right() - 7.0] {
        painter.circle_filled(pos2(x, rect.top() + 7.0), 2.0, p.edge);
    }
    if plate.changed {
        let bar = Rect::from_min_max(rect.min, pos2(rect.left() + 4.0, rect.bottom()));
        painter.rect_filled(bar, 0.0, p.level);
    }
    let title = rect.min + vec2(16.0, 9.0);
    let title = painter.text(title, Align2::LEFT_TOP, &plate.title, fonts::regular(m.body), p.ink2);
    let aside = if plate.stale { "solving" } else { plate.aside.as_str() };
    let right = pos2(rect.right() - 16.0, rect.top() + 9.0);
    let aside = painter.layout_no_wrap(aside.to_owned(), fonts::regular(m.small), p.ink2);
    // Where both have no room, the title is worth more.
    if title.right() + 6.0 + aside.size().x <= right.x {
        painter.galley(right - vec2(aside.size().x, 0.0), aside, p.ink2);
    }
    let base = rect.bottom() - 9.0;
    if let Some((mark, text)) = &plate.instead {
        let side = mark_side(look);
        let square = Rect::from_min_size(pos2(rect.left() + 16.0, base - side), vec2(side, side));
        paint_mark(*mark, &painter, square, p);
        let galley = sentence(&painter, text, rect.width(), look);
        let middle = square.center().y - galley.size().y / 2.0;
        let top = middle.min(base - galley.size().y).max(rect.top() + SENTENCE_TOP);
        painter.galley(pos2(square.right() + 10.0, top), galley, p.ink);
        return;
    }
    let color = if plate.stale { p.edge } else { p.ink };
    let unit = painter.layout_no_wrap(plate.unit.clone(), fonts::regular(m.strong), p.ink2);
    let numeral_in = |size: f32| painter.layout_no_wrap(numeral.to_owned(), fonts::bold(size), color);
    let mut size = m.numeral;
    let mut numeral = numeral_in(size);
    let room = rect.width() - 34.0 - unit.size().x;
    if numeral.size().x > room {
        size *= (room / numeral.size().x).clamp(0.4, 1.0);
        numeral = numeral_in(size);
    }
    let at = pos2(rect.left() + 16.0, base + size * 0.22 - numeral.size().y);
    let unit_at = pos2(at.x + numeral.size().x + 10.0, base);
    let numeral_width = numeral.size().x;
    painter.galley(at, numeral, color);
    let unit = painter.text(unit_at, Align2::LEFT_BOTTOM, &plate.unit, fonts::regular(m.strong), p.ink2);
    if let Some(mark) = plate.mark {
        let side = m.numeral * 0.68;
        let square = Rect::from_min_size(pos2(rect.right() - 14.0 - side, base - side), vec2(side, side));
        paint_mark(mark, &painter, square, p);
    } else {
        let was = painter.layout_no_wrap(plate.was.clone(), fonts::regular(m.small), p.ink2);
        let right = rect.right() - 16.0;
        let top = base - size * 0.9;
        if unit.right() + 8.0 + was.size().x < right {
            // Beside the number.
            painter.galley(pos2(right - was.size().x, base - was.size().y), was, p.ink2);
        } else if title.bottom() + was.size().y < top {
            // Under the title.
            painter.galley(pos2(title.left(), title.bottom() + 2.0), was, p.ink2);
        } else if at.x + numeral_width + 8.0 + was.size().x < right {
            // Over the unit.
            let bottom = base - m.strong * 1.3;
            painter.galley(pos2(right - was.size().x, bottom - was.size().y), was, p.ink2);
        }
    }
}
