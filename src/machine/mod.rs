//! Compressor, condenser and inlet of a recovery machine.

mod compressor;
mod condenser;
mod error;
pub mod rating;
mod recovery_machine;

pub use compressor::{Compressor, Exponent, Suction};
pub use condenser::{Condensed, Condenser};
pub use error::MachineError;
pub use recovery_machine::RecoveryMachine;
