//! Advice: cautions where work can hurt someone, rating cards read, causes found.

mod caution;
pub mod diagnose;
mod limit_rules;
mod more_volts;
pub mod rating;
mod rules;
mod several_machines;
mod thin_charge;
mod verdicts;
mod warm_place;
mod weak_parts;

pub use caution::{Caution, DEFERENCE, Place, cautions, withheld_because};
pub use limit_rules::limit_cautions;
pub use more_volts::more_volts;
