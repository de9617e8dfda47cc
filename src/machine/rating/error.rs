//! Why a rating cannot be simulated or fitted.

use crate::flow::FlowError;
use crate::fluid::FluidError;
use crate::machine::MachineError;

/// No simulated rating, and why.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum RatingError {
    /// The machine stops drawing before the vapour test is over.
    #[error(
        "the vapour test ends at {end_pa:.0} Pa (absolute) and the machine draws nothing from {stalled_pa:.0} Pa; \
         expected a machine that reaches the end of its test"
    )]
    Stalls {
        /// Where the test ends.
        end_pa: f64,
        /// The highest pressure tried from which nothing is drawn.
        stalled_pa: f64,
    },
    /// The test would end above where it starts.
    #[error(
        "the vapour test starts at {start_pa:.0} Pa and would end at {end_pa:.0} Pa (absolute); expected an end below the start"
    )]
    NoSpan {
        /// Start.
        start_pa: f64,
        /// End.
        end_pa: f64,
    },
    /// No displacement gives the printed rate.
    #[error(
        "no displacement gives the printed vapour rate of {rated_kg_s:.5} kg/s; the most that the inlet lets through is {most_kg_s:.5} kg/s"
    )]
    NoDisplacement {
        /// As printed.
        rated_kg_s: f64,
        /// The largest that was reached.
        most_kg_s: f64,
    },
    /// No inlet gives the printed rate.
    #[error(
        "no inlet gives the printed liquid rate of {rated_kg_s:.5} kg/s; wide open the machine draws {most_kg_s:.5} kg/s"
    )]
    NoThrottle {
        /// As printed.
        rated_kg_s: f64,
        /// The largest that was reached.
        most_kg_s: f64,
    },
    /// There is nothing to fit to.
    #[error("the card has neither a vapour nor a liquid rating; expected at least one of them")]
    NothingToFit,
    /// The refrigerant has no such state.
    #[error(transparent)]
    Fluid(#[from] FluidError),
    /// The inlet has no answer.
    #[error(transparent)]
    Flow(#[from] FlowError),
    /// The machine has no answer.
    #[error(transparent)]
    Machine(#[from] MachineError),
}
