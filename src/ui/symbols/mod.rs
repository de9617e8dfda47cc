//! Every part as a section cut along its bore: solid walls, open passage at the part's own bore.
//!
//! A hole-like part is drawn with its own hole-equivalent diameter, so the narrow is seen before
//! a number is read. Pressure joints are nuts, volts joints are blades.

mod flow_parts;
mod marks;
mod pen;
mod power_parts;

use egui::{Color32, Painter, Rect};

use super::style::Palette;
pub use marks::{Mark, paint_kit_mark, paint_mark};
pub use pen::{BOX, Pen};

/// What a symbol shows. Diameters are hole-equivalents in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Symbol {
    /// The system that is being emptied.
    Vessel { liquid_ratio: f32 },
    /// The recovery cylinder on its scale.
    Cylinder { liquid_ratio: f32 },
    /// Nothing but the passage; fills its column.
    Pipe,
    /// A hose; fills its column.
    Hose { bore_mm: f32 },
    /// A valve core in place, pushed open.
    CoreIn { hole_mm: f32 },
    /// An access valve whose core has been taken out.
    CoreRemoved { hole_mm: f32 },
    /// A ball valve, open.
    BallValve { hole_mm: f32 },
    /// A self-sealing end, pushed open.
    SelfSealingEnd { hole_mm: f32 },
    /// A gauge set with one or two seats in the way.
    GaugeSet { hole_mm: f32, seats: usize },
    /// A filter-drier.
    FilterDrier { loaded: bool },
    /// A sight glass.
    SightGlass { hole_mm: f32 },
    /// The screen in an inlet.
    Screen { hole_mm: f32 },
    /// A tee.
    Tee { hole_mm: f32 },
    /// An adapter or a reducer.
    Adapter { hole_mm: f32 },
    /// A valve seat.
    Seat { hole_mm: f32 },
    /// The recovery machine.
    Machine,
    /// The electrical panel.
    Panel,
    /// The wires behind the wall.
    Branch,
    /// The receptacle.
    Receptacle,
    /// An extension cord; conductor area in square millimetres.
    Cord { area_mm2: f32 },
    /// An extension cord left on its reel.
    Reel,
    /// A generator.
    Generator,
    /// The machine's motor.
    Motor,
}

/// What is in a passage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Fluid {
    /// Vapour only.
    #[default]
    Vapor,
    /// Liquid only.
    Liquid,
    /// Liquid with vapour in it.
    Mixed,
}

/// Colours of one drawing of a symbol.
#[derive(Clone, Copy, Debug)]
pub struct Tints {
    /// Solid.
    pub wall: Color32,
    /// What shows through an opening.
    pub sheet: Color32,
    /// Passage.
    pub fluid: Color32,
    /// Liquid in a vessel.
    pub liquid: Color32,
}

impl Tints {
    /// The usual colours; `stale` draws the walls in the edge colour while a new answer is sought.
    pub fn new(palette: &Palette, fluid: Fluid, stale: bool) -> Self {
        let fluid = match fluid {
            Fluid::Vapor => palette.vapor,
            Fluid::Liquid => palette.liquid,
            Fluid::Mixed => palette.vapor.lerp_to_gamma(palette.liquid, 0.5),
        };
        let wall = if stale { palette.edge } else { palette.wall };
        Self { wall, sheet: palette.sheet, fluid, liquid: palette.liquid }
    }
}

/// Half height of the open passage at a joint, in box units: 4.4 mm, the usual flare.
pub const JOINT_HALF: f32 = 4.4 * MM / 2.0;
/// Box units of passage for each millimetre of bore.
pub const MM: f32 = 2.9;
/// Thickness of a joint's wall, in box units.
pub const JOINT_WALL: f32 = 5.0;

/// Half height of a passage of this bore in box units, kept visible and inside the box.
fn half_of(bore_mm: f32) -> f32 {
    if bore_mm.is_finite() { (bore_mm * MM / 2.0).clamp(0.8, 30.0) } else { JOINT_HALF }
}

impl Symbol {
    /// Whether the drawing fills its column from edge to edge.
    pub const fn fills_column(self) -> bool {
        matches!(self, Self::Hose { .. } | Self::Pipe)
    }

    /// Draws into a rectangle; `size` is the side of the box of 96.
    pub fn paint(self, painter: &Painter, rect: Rect, size: f32, t: Tints) {
        let pen = Pen::new(painter, rect, size);
        match self {
            Self::Panel
            | Self::Branch
            | Self::Receptacle
            | Self::Cord { .. }
            | Self::Reel
            | Self::Generator
            | Self::Motor => power_parts::paint(self, &pen, t),
            _ => flow_parts::paint(self, &pen, t),
        }
    }
}
