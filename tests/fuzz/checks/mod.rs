//! What must hold for any bytes that reach a door. One function a door; each panics where
//! something does not hold. The fuzz targets and an ordinary test over the kept corpus call them.

mod budget;
mod doors;
mod edits;
mod jobs;

pub use doors::{document, log, preset, quantity};
pub use edits::{mutate, mutate_in_place, set};
pub use jobs::job;
