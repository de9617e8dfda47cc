//! Narrows: what hoses, fittings, valve cores, gauge sets, filter-driers and extension cords
//! cost a refrigerant recovery.
//!
//! The library knows no window, file, clock or thread: text and quantities in, values out, and
//! the same input gives the same bits. Layers, each importing only from the left (a test in
//! `tests/tidy.rs` holds this):
//!
//! `units, numerics → fluid → flow | power → machine → job → kit → presets | scenario → compare → advice → report → ui`
//!
//! Below `report`, pressures are absolute and temperatures thermodynamic. Public physics takes
//! and returns `uom` quantities; kernels use plain `f64` in SI units with a unit suffix.

#![cfg_attr(not(test), warn(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

pub mod advice;
pub mod compare;
pub mod flow;
pub mod fluid;
pub mod job;
pub mod kit;
pub mod machine;
pub mod numerics;
pub mod power;
pub mod presets;
pub mod report;
pub mod scenario;
pub mod units;
