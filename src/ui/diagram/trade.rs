//! Hose against cord: the machine on its way between system and receptacle, and under it the rate and
//! the volts of every place, on the same axis.
//!
//! The machine is dragged; it stands at solved places only.

mod paint;

use egui::{Rangef, Rect, Sense, Ui, pos2, vec2};

use super::ticks::Scale;
use crate::ui::style::Look;
use crate::ui::symbols::{Fluid, Symbol};
use crate::ui::widgets::arrows::arrows;

/// One place.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spot {
    /// Length of the hose, in the unit of the axis.
    pub hose: f64,
    /// The rate, in the unit of answers.
    pub rate: Option<f64>,
    /// Volts at the running motor.
    pub running: Option<f64>,
}

/// The whole picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Trade {
    /// From the system to the receptacle.
    pub spots: Vec<Spot>,
    /// The place that is looked at.
    pub at: usize,
    /// Today's place.
    pub today: usize,
    /// That place in words.
    pub words: String,
    /// Hose and cord there: "25 ft of hose".
    pub lengths: [String; 2],
    /// From the system to the receptacle.
    pub way: f64,
    /// Unit of the axis.
    pub unit: String,
    /// Unit of the rate.
    pub rate_unit: String,
    /// Volts to mark, as the nameplate less 10 %.
    pub references: Vec<(f64, String)>,
    /// Bore of the hose.
    pub bore_mm: f32,
    /// What the hose carries.
    pub fluid: Fluid,
    /// What feeds the machine.
    pub outlet: Option<Symbol>,
    /// An earlier answer.
    pub stale: bool,
}

/// Where things lie.
struct Layout {
    side: f32,
    x: Scale,
    way: Rect,
    lengths: Rect,
    rate: Rangef,
    volts: Rangef,
    axis: f32,
}

/// Left free inside the box of what has the focus.
const MARGIN: f32 = 8.0;

impl Layout {
    fn new(rect: Rect, trade: &Trade, look: &Look) -> Self {
        let m = &look.measures;
        let side = (m.symbol * 0.72).min(rect.width() * 0.12).max(1.0);
        let left = rect.left() + m.left_margin.max(1.5 * side + MARGIN);
        let right = (rect.right() - (1.5 * side + MARGIN).max(m.small * 5.5)).max(left + 1.0);
        let top = rect.top() + MARGIN / 2.0;
        let way = Rect::from_min_max(pos2(rect.left(), top), pos2(rect.right(), top + side + 4.0));
        let lengths = Rect::from_min_size(way.left_bottom(), vec2(rect.width(), m.small * 1.5));
        let axis = rect.bottom() - m.small * 1.6 - MARGIN / 2.0;
        let lanes = Rangef::new(lengths.bottom() + m.small * 1.6, axis.max(lengths.bottom() + 4.0 * m.small));
        let gap = m.small * 2.0;
        let lane = ((lanes.span() - gap) / 2.0).max(1.0);
        Self {
            side,
            x: Scale::across((0.0, trade.way.max(1e-9)), Rangef::new(left, right)),
            way,
            lengths,
            rate: Rangef::new(lanes.min, lanes.min + lane),
            volts: Rangef::new(lanes.min + lane + gap, lanes.min + 2.0 * lane + gap),
            axis,
        }
    }
}

/// How high it wants to be.
pub fn trade_height(look: &Look) -> f32 {
    look.measures.symbol * 0.72 + look.measures.small * 21.0
}

/// Draws the picture over the available width; returns the hose of another place if one is chosen.
pub fn trade_ui(ui: &mut Ui, trade: &Trade, height: f32, look: &Look) -> Option<usize> {
    let size = vec2(ui.available_width().max(1.0), height.max(1.0));
    let (rect, response) = ui.allocate_exact_size(size, Sense::click_and_drag());
    let spot = trade.spots.get(trade.at).copied().unwrap_or_default();
    let words = format!("Where the machine stands, {}", trade.words);
    response.widget_info(|| egui::WidgetInfo::slider(true, spot.hose, &words));
    let layout = Layout::new(rect, trade, look);
    if ui.is_rect_visible(rect) {
        let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
        paint::paint(&painter, rect, trade, &layout, response.has_focus(), look);
    }
    // The next place, with Shift the fifth.
    let last = trade.spots.len().saturating_sub(1);
    let keys = || arrows(ui, response.id, trade.at as f64, (0.0, last as f64), [1.0, 5.0]);
    let chosen = response.has_focus().then(keys).flatten().map(|at| at as usize);
    if response.clicked() || response.drag_started() {
        response.request_focus();
    }
    let pointed = (response.clicked() || response.dragged())
        .then(|| response.interact_pointer_pos().map(|at| nearest(trade, layout.x.value(at.x))))
        .flatten();
    pointed.or(chosen).filter(|at| *at != trade.at && *at < trade.spots.len())
}

/// The place whose hose is nearest to this long.
fn nearest(trade: &Trade, hose: f64) -> usize {
    let off = |at: &usize| trade.spots.get(*at).map_or(f64::INFINITY, |spot| (spot.hose - hose).abs());
    (0..trade.spots.len()).min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or_default()
}
