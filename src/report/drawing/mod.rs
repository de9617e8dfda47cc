//! Drawings that screen and paper share: parts as sections, marks, axes. Plain shapes, no window.
//!
//! Every part is a section cut along its bore: solid walls, open passage at the part's own bore. A
//! hole-like part is drawn with its own hole-equivalent diameter, so the narrow is seen before a
//! number is read. Pressure joints are nuts, volts joints are blades.

pub mod axis;
mod flow_parts;
mod marks;
mod pen;
mod power_parts;
mod symbol;
pub mod ticks;

pub use marks::Mark;
pub use pen::{AXIS, BOX, Ink, Pen, Shape};
pub use symbol::{JOINT_HALF, JOINT_WALL, MM, Symbol, symbol_of};

use symbol::half_of;
