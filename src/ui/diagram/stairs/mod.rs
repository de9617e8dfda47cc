//! The pressure stairs: under each part the level that leaves it. A hole is a step, a length is
//! a slope; blue is level, orange is loss.

mod grid;
mod labels;
mod layout;
mod letters;
mod paint;
mod second;

use egui::{Rect, Ui};

use super::columns::Columns;
use crate::ui::motion;
use crate::ui::style::Look;

/// How a part's loss is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// No part here, or no loss.
    Level,
    /// Spread over a length.
    Slope,
    /// At holes, evenly spaced in the column.
    Steps,
    /// The machine: the level is lifted.
    Lift,
    /// Condensed refrigerant falls into a cooler cylinder; no part of the chain can save it.
    Fall,
}

/// What happens in one column. Levels are absolute, in the unit shown.
#[derive(Clone, Debug, PartialEq)]
pub struct Stair {
    /// How it is drawn.
    pub shape: Shape,
    /// Level entering, after each step, leaving. At least two.
    pub levels: Vec<f64>,
    /// The loss at each step in words; empty if too small to print.
    pub drops: Vec<String>,
    /// Flow is choked in this part.
    pub choked: bool,
    /// Liquid begins to flash here; what to say.
    pub flash: Option<String>,
    /// Low and high level entering and leaving.
    pub band: Option<[(f64, f64); 2]>,
}

impl Stair {
    /// A column in which nothing happens.
    pub fn level(at: f64) -> Self {
        Self {
            shape: Shape::Level,
            levels: vec![at, at],
            drops: Vec::new(),
            choked: false,
            flash: None,
            band: None,
        }
    }
}

/// The stairs of one kit, column by column.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Run {
    /// Place of the kit: 0 is A.
    pub kit: usize,
    /// Its letter.
    pub letter: String,
    /// One stair a column.
    pub stairs: Vec<Stair>,
}

/// The whole picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stairs {
    /// The kit in hand first, drawn with losses and numbers; others as lines.
    pub runs: Vec<Run>,
    /// The branch of a second port of the kit in hand, up to where it meets the first, and its
    /// share of the flow in words.
    pub second: Option<(Run, String)>,
    /// The kit in hand before the last change, and what to call it.
    pub ghost: Option<(Run, String)>,
    /// Levels to mark across the picture.
    pub references: Vec<(f64, String)>,
    /// The ambient pressure: where the gauge scale has its zero.
    pub ambient: f64,
    /// Name of the absolute unit, as "psia".
    pub absolute_unit: String,
    /// Name of the gauge unit, as "psig".
    pub gauge_unit: String,
    /// The unit of a pressure difference, as "psi".
    pub difference_unit: String,
    /// System pressure in words.
    pub start_text: String,
    /// Machine inlet in words.
    pub inlet_text: String,
    /// What the machine adds, in words.
    pub lift_text: String,
    /// What the fall into the cylinder is, in words; empty if there is none.
    pub fall_text: String,
    /// Cylinder pressure in words.
    pub end_text: String,
    /// A sentence at the lower left, as "No part is choked."
    pub note: String,
    /// Losses that the axis leaves room for though they are not drawn yet.
    pub extent: Vec<(f64, f64)>,
    /// The answer is being renewed.
    pub stale: bool,
}

/// The stairs with their levels on the way from the old answer to the new one.
fn on_their_way(ui: &Ui, stairs: &Stairs, look: &Look) -> Stairs {
    let mut stairs = stairs.clone();
    // In other units it is another picture, not a change.
    let id = ui.scope_id().with(("levels", &stairs.absolute_unit));
    let second = stairs.second.iter_mut().map(|(run, _)| (true, run));
    for (second, run) in stairs.runs.iter_mut().map(|run| (false, run)).chain(second) {
        let kit = run.kit;
        for (column, stair) in run.stairs.iter_mut().enumerate() {
            for (j, level) in stair.levels.iter_mut().enumerate() {
                let id = id.with((second, kit, column, j));
                *level = motion::moving(ui.ctx(), id, *level, look);
            }
        }
    }
    stairs
}

/// Draws the stairs and returns where the machine's lift stands; `unfolded` shows the axis
/// without folds.
pub fn stairs_ui(
    ui: &mut Ui,
    rect: Rect,
    columns: &Columns,
    stairs: &Stairs,
    unfolded: bool,
    look: &Look,
) -> Option<Rect> {
    if rect.width() < 40.0 || rect.height() < 40.0 || !ui.is_rect_visible(rect) {
        return None;
    }
    let stairs = on_their_way(ui, stairs, look);
    let plan = layout::Plan::new(rect, columns, &stairs, unfolded, look);
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    paint::paint(&painter, columns, &stairs, &plan, look);
    plan.tracks.first()?.lift
}
