//! Advice: cautions where work can hurt someone.

mod caution;
mod rules;

pub use caution::{Caution, DEFERENCE, Place, cautions, withheld_because};
