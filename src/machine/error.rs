//! What can be wrong with a machine, or with what is asked of it.

use crate::flow::FlowError;
use crate::fluid::FluidError;

/// Why a machine has no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum MachineError {
    /// A figure of the machine makes no sense.
    #[error("machine {quantity} is {got}; expected {expected}")]
    OutOfRange {
        /// The thing.
        quantity: &'static str,
        /// Its value in the unit that `quantity` names.
        got: f64,
        /// What would be right.
        expected: &'static str,
    },
    /// The condenser cannot reject the heat at any pressure that the tables know.
    #[error(
        "the condenser is at its limit: it cannot condense above {limit_k:.1} K, next to the critical \
         temperature, and the {at_limit_w:.0} W that it rejects there are less than it is given; expected a \
         larger condenser, a cooler place or less flow"
    )]
    CannotCondense {
        /// Heat to reject at the end of the table.
        heat_w: f64,
        /// Heat it rejects there.
        at_limit_w: f64,
        /// Condensing temperature there.
        limit_k: f64,
    },
    /// The refrigerant has no such state.
    #[error(transparent)]
    Fluid(#[from] FluidError),
    /// The discharge path or the inlet has no answer.
    #[error(transparent)]
    Flow(#[from] FlowError),
}

impl MachineError {
    pub(super) fn out_of_range(quantity: &'static str, got: f64, expected: &'static str) -> Self {
        Self::OutOfRange { quantity, got, expected }
    }
}
