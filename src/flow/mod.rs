//! Tubes, restrictions, choking, series and parallel paths.
//!
//! Steady, one-dimensional, adiabatic flow of a homogeneous mixture: total enthalpy is kept from
//! the system to the machine. The same march serves liquid, flashing liquid, two-phase and vapour.

mod bracket;
mod branch;
mod chain;
mod critical;
mod element;
mod error;
mod feed;
mod flashing;
mod friction;
mod join;
mod kink;
mod length_step;
mod line;
mod march;
mod medium;
mod nozzle;
mod path;
mod plateau;
mod restriction;
mod rising;
mod seen;
mod station;
mod step;
mod stretch;
mod tube;

pub use bracket::{FlowBracket, TooMuch};
pub use chain::LargestFlow;
pub use critical::critical;
pub use element::{Element, ElementFlow, Method};
pub use error::FlowError;
pub use flashing::{Flashing, FluidExpansion};
pub use friction::{Bore, Phases, TwoPhaseFriction, darcy_friction_factor, friction_gradient_pa_m};
pub use line::{Arrival, BranchFlow, Line, PartFlow, Profile};
pub use medium::{Medium, Point};
pub use nozzle::{Critical, Expanded, Expansion, Throat, throat};
pub use path::{Path, PathPart, SecondBranch};
pub use restriction::Restriction;
pub use tube::Tube;
