//! The job clock: mass left, rate and pressure against time, with phases, pauses and a scrubber.
//!
//! On the Bench the three curves share one low picture; in the view of its own each has a lane
//! with its own scale from zero, since pounds, pounds a minute and psi share none.

mod bar;
mod deadline;
mod names;
mod paint;

use egui::{Rangef, Rect, Sense, Ui};

use super::ticks::Scale;
use crate::ui::style::Look;
use crate::ui::widgets::arrows::arrows;

/// A phase or a pause.
#[derive(Clone, Debug, PartialEq)]
pub struct Span {
    /// Begins, in minutes.
    pub from: f64,
    /// Ends, in minutes.
    pub to: f64,
    /// What it is.
    pub name: String,
    /// Nothing flows in it.
    pub pause: bool,
}

/// One curve.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Curve {
    /// What it is, as "mass left".
    pub name: String,
    /// Its unit.
    pub unit: String,
    /// Minutes and values; a gap wherever nothing is to be drawn.
    pub stretches: Vec<Vec<[f64; 2]>>,
    /// The line of another kit, with its place and letter.
    pub others: Vec<(usize, String, Vec<[f64; 2]>)>,
    /// A level to mark, with its words.
    pub mark: Option<(f64, String)>,
}

impl Curve {
    /// The highest value, at least a little above zero.
    pub fn top(&self) -> f64 {
        let own = self.stretches.iter().flatten();
        let all = own.chain(self.others.iter().flat_map(|o| &o.2)).map(|p| p[1]);
        let marked = self.mark.iter().map(|m| m.0);
        all.chain(marked).filter(|v| v.is_finite()).fold(1e-9, f64::max)
    }
}

/// The whole picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Clock {
    /// Place of the kit in hand: its colour and dash.
    pub kit: usize,
    /// In order; they fill the time.
    pub spans: Vec<Span>,
    /// Mass left in the system.
    pub mass: Curve,
    /// What flows.
    pub rate: Curve,
    /// Pressure of the system, absolute.
    pub pressure: Curve,
    /// When it ends, with its words.
    pub end: Option<(f64, String)>,
    /// Low and high of the end.
    pub end_band: Option<(f64, f64)>,
    /// When it has to be done, with its words.
    pub deadline: Option<(f64, String)>,
    /// The moment that is looked at.
    pub cursor: f64,
    /// That moment in words.
    pub cursor_words: String,
    /// An earlier answer.
    pub stale: bool,
}

impl Clock {
    /// Last minute shown.
    pub fn range(&self) -> f64 {
        let ends = self.spans.iter().map(|s| s.to);
        let more = [self.end.as_ref().map(|e| e.0), self.end_band.map(|b| b.1)];
        let others = self.mass.others.iter().filter_map(|o| o.2.last().map(|p| p[0]));
        let all =
            ends.chain(more.into_iter().flatten()).chain(others).chain(self.deadline.as_ref().map(|d| d.0));
        1.04 * all.filter(|v| v.is_finite()).fold(0.05, f64::max)
    }

    /// When the job is over.
    pub fn total(&self) -> f64 {
        self.spans.last().map_or(0.0, |s| s.to)
    }
}

/// How the curves are laid out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Layout {
    /// All in one low picture.
    Strip,
    /// A lane each.
    Lanes,
    /// No curves: only the phases, in one bar.
    Bar,
}

/// Draws the picture; returns another moment if one is chosen.
pub fn clock_ui(
    ui: &mut Ui,
    rect: Rect,
    clock: &Clock,
    layout: Layout,
    left: f32,
    look: &Look,
) -> Option<f64> {
    let beside = match layout {
        Layout::Lanes => 24.0,
        Layout::Strip => 66.0,
        // The range ends a little behind the job; the end's words need more.
        Layout::Bar => look.measures.small * 5.0,
    };
    let right = rect.right() - beside;
    let x = Rangef::new(left, right.max(left + 1.0));
    let time = Scale::across((0.0, clock.range()), x);
    let area = Rect::from_x_y_ranges(x, rect.y_range());
    let response = ui.interact(area, ui.scope_id().with("job clock"), Sense::click_and_drag());
    let words = format!("Job clock, {}", clock.cursor_words);
    response.widget_info(|| egui::WidgetInfo::slider(true, clock.cursor, &words));
    if layout == Layout::Bar {
        let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
        bar::paint(&painter, rect, clock, &time, response.has_focus(), look);
    } else if ui.is_rect_visible(rect) {
        paint::paint(ui, rect, clock, layout, &time, response.has_focus(), look);
    }
    // A hundredth of the job, with Shift a tenth.
    let steps = [0.01, 0.1].map(|share| share * clock.total());
    let keys = || arrows(ui, response.id, clock.cursor, (0.0, clock.total()), steps);
    let chosen = response.has_focus().then(keys).flatten();
    let pointed = (response.clicked() || response.dragged())
        .then(|| response.interact_pointer_pos().map(|p| time.value(p.x)))
        .flatten();
    pointed.or(chosen).map(|m| m.clamp(0.0, clock.total())).filter(|m| *m != clock.cursor)
}
