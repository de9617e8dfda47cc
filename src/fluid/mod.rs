//! Refrigerants: saturation, liquid, two-phase and vapour states from property tables.
//!
//! The tables (`assets/refrigerants/`) are computed offline from a reference library and built
//! into the program; a refrigerant's table is parsed when that refrigerant is first loaded.
//!
//! Neglected: the compressibility of liquid (density and enthalpy of a liquid depend on its
//! temperature alone; density is low by 0.3 to 1.1 % per 10 bar), oil, air, and any shift of a
//! blend's composition as part of it leaves.

mod bent;
mod catalogue;
mod class;
mod coordinate;
mod cubic;
mod curve;
mod error;
mod flash;
mod gibbs;
mod grid;
mod liquid;
mod quantities;
mod refrigerant;
mod saturation;
mod spline;
mod state;
mod table;

pub use catalogue::{Listing, list};
pub use class::{PressureClass, SafetyClass};
pub use error::FluidError;
pub use refrigerant::Refrigerant;
pub use saturation::Saturation;
pub use state::{Phase, State};

/// Molar gas constant, J/(mol K): exact by the definition of the SI (2019).
pub(crate) const GAS_CONSTANT_J_MOL_K: f64 = 8.314_462_618;
