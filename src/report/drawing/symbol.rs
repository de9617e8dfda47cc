//! What can be drawn, and the symbol of each part.

use super::pen::{Pen, Shape};
use super::{flow_parts, power_parts};
use crate::kit::{DrierState, Part};

/// What a symbol shows. Diameters are hole-equivalents in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Symbol {
    /// The system that is being emptied.
    Vessel {
        /// How full of liquid.
        liquid_ratio: f32,
    },
    /// The recovery cylinder on its scale.
    Cylinder {
        /// How full of liquid.
        liquid_ratio: f32,
    },
    /// Nothing but the passage; fills its column.
    Pipe,
    /// A hose; fills its column.
    Hose {
        /// Its bore.
        bore_mm: f32,
    },
    /// A valve core in place, pushed open.
    CoreIn {
        /// Hole-equivalent diameter.
        hole_mm: f32,
    },
    /// An access valve whose core has been taken out.
    CoreRemoved {
        /// Hole-equivalent diameter.
        hole_mm: f32,
    },
    /// A ball valve, open.
    BallValve {
        /// Hole-equivalent diameter.
        hole_mm: f32,
    },
    /// A self-sealing end, pushed open.
    SelfSealingEnd {
        /// Hole-equivalent diameter.
        hole_mm: f32,
    },
    /// A gauge set with one or two seats in the way.
    GaugeSet {
        /// Hole-equivalent diameter of one seat.
        hole_mm: f32,
        /// How many are in the way.
        seats: usize,
    },
    /// A filter-drier.
    FilterDrier {
        /// Its bed is full.
        loaded: bool,
    },
    /// A sight glass.
    SightGlass {
        /// Hole-equivalent diameter.
        hole_mm: f32,
    },
    /// The screen in an inlet.
    Screen {
        /// Hole-equivalent diameter.
        hole_mm: f32,
    },
    /// A tee.
    Tee {
        /// Hole-equivalent diameter.
        hole_mm: f32,
    },
    /// An adapter or a reducer.
    Adapter {
        /// Hole-equivalent diameter.
        hole_mm: f32,
    },
    /// A valve seat.
    Seat {
        /// Hole-equivalent diameter.
        hole_mm: f32,
    },
    /// The recovery machine.
    Machine,
    /// The electrical panel.
    Panel,
    /// The wires behind the wall.
    Branch,
    /// The receptacle.
    Receptacle,
    /// An extension cord; conductor area in square millimetres.
    Cord {
        /// Area of one conductor.
        area_mm2: f32,
    },
    /// An extension cord left on its reel.
    Reel,
    /// A generator.
    Generator,
    /// The machine's motor.
    Motor,
}

/// Half height of the open passage at a joint, in box units: 4.4 mm, the usual flare.
pub const JOINT_HALF: f32 = 4.4 * MM / 2.0;
/// Box units of passage for each millimetre of bore.
pub const MM: f32 = 2.9;
/// Thickness of a joint's wall, in box units.
pub const JOINT_WALL: f32 = 5.0;

/// Half height of a passage of this bore in box units, kept visible and inside the box.
pub(super) fn half_of(bore_mm: f32) -> f32 {
    if bore_mm.is_finite() { (bore_mm * MM / 2.0).clamp(0.8, 30.0) } else { JOINT_HALF }
}

impl Symbol {
    /// Whether the drawing fills its column from edge to edge.
    pub const fn fills_column(self) -> bool {
        matches!(self, Self::Hose { .. } | Self::Pipe)
    }

    /// Its shapes in a box of 96, or one that is wider, from the back to the front; `is_small`
    /// leaves out details that would only blur.
    pub fn shapes(self, width: f32, is_small: bool) -> Vec<Shape> {
        let mut pen = Pen::new(width, is_small);
        match self {
            Self::Panel
            | Self::Branch
            | Self::Receptacle
            | Self::Cord { .. }
            | Self::Reel
            | Self::Generator
            | Self::Motor => power_parts::paint(self, &mut pen),
            _ => flow_parts::paint(self, &mut pen),
        }
        pen.into_shapes()
    }
}

/// The drawing of a part, with its own bore.
pub fn symbol_of(part: &Part) -> Symbol {
    let mm = part.bore().map_or(4.4, |b| b.si() as f32 * 1e3);
    match part {
        Part::Hose(_) | Part::DipTube(_) => Symbol::Hose { bore_mm: mm },
        Part::ValveCore(_) => Symbol::CoreIn { hole_mm: mm },
        Part::Stem(_) => Symbol::CoreRemoved { hole_mm: mm },
        Part::SelfSealingEnd(_) => Symbol::SelfSealingEnd { hole_mm: mm },
        Part::BallValve(_) => Symbol::BallValve { hole_mm: mm },
        Part::GaugeSet(set) => Symbol::GaugeSet { hole_mm: mm, seats: set.seats as usize },
        Part::FilterDrier(drier) => Symbol::FilterDrier { loaded: drier.state == DrierState::Loaded },
        Part::SightGlass(_) => Symbol::SightGlass { hole_mm: mm },
        Part::InletScreen(_) => Symbol::Screen { hole_mm: mm },
        Part::Adapter(_) => Symbol::Adapter { hole_mm: mm },
        Part::ServiceValve(_) | Part::Valve(_) => Symbol::Seat { hole_mm: mm },
        Part::Tee(_) => Symbol::Tee { hole_mm: mm },
    }
}
