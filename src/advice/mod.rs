//! Advice: cautions where work can hurt someone, rating cards read, causes found.

mod caution;
pub mod diagnose;
pub mod rating;
mod rules;

pub use caution::{Caution, DEFERENCE, Place, cautions, withheld_because};
