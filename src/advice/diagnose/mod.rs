//! Find the cause: which single thing, with perhaps a second beside it, explains what was read.
//!
//! Each hypothesis changes the setup (a part blocked, a worn machine, a weak supply, air in the
//! cylinder), is solved over a range of severities and predicts every reading. Gaussian
//! likelihoods with the tolerance of reading and of model are averaged over the severities, so
//! that a hypothesis that can explain anything gains nothing by it. Volts and cylinder are read
//! directly and may fail beside the flow; the path, the machine and the source are alternatives.
//! Where the groups do not separate, the answer is "cannot tell", with the reading that would
//! separate them most.
//!
//! Neglected: two faults of the flow at once, and faults that no reading of one moment can show.

mod case;
mod cause;
mod change;
mod error;
mod flow_case;
mod likelihood;
mod log;
mod next_check;
mod rank;
mod side;
mod state;
mod weights;

pub use cause::{Cause, Group};
pub use error::DiagnoseError;
pub use flow_case::FlowReading;
pub use log::{LogFit, LogRowFit, fit_log};
pub use next_check::{Check, NextCheck};
pub use rank::{CannotTell, Diagnosis, Hypothesis, diagnose};
pub use side::SideReading;
