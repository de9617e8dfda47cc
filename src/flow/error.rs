//! What can be wrong with a flow question.

use crate::fluid::FluidError;

/// Why a flow has no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FlowError {
    /// A part's dimension makes no sense.
    #[error("{quantity} is {got}; expected {expected}")]
    OutOfRange {
        /// The thing.
        quantity: &'static str,
        /// Its value in the unit that `quantity` names.
        got: f64,
        /// What would be right.
        expected: &'static str,
    },
    /// A branch loses more than there is, however little flows: it lifts liquid too high.
    #[error(
        "nothing passes this branch above {floor_pa:.0} Pa (absolute), the lowest pressure of the property \
         table; expected less height"
    )]
    NothingPasses {
        /// The table's floor.
        floor_pa: f64,
    },
    /// The refrigerant has no such state.
    #[error(transparent)]
    Fluid(#[from] FluidError),
}

impl FlowError {
    pub(super) fn out_of_range(quantity: &'static str, got: f64, expected: &'static str) -> Self {
        Self::OutOfRange { quantity, got, expected }
    }
}
