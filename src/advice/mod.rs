//! Advice: cautions where work can hurt someone.

mod caution;
mod limit_rules;
mod rules;

pub use caution::{Caution, DEFERENCE, Place, cautions, withheld_because};
pub use limit_rules::limit_cautions;
