//! Why there is no diagnosis.

use crate::fluid::FluidError;
use crate::job::JobError;
use crate::power::PowerError;

/// No diagnosis, or no fit of a log.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum DiagnoseError {
    /// Nothing was read.
    #[error("no reading is given; expected at least one, as rate: \"0.14 lb/min\"")]
    NothingRead,
    /// The system gauge reads what this refrigerant has no saturation for.
    #[error(
        "system_pressure is {pressure_pa:.0} Pa (absolute), which is outside the refrigerant's table: {error}"
    )]
    SystemPressure {
        /// As read.
        pressure_pa: f64,
        /// What the table says.
        error: FluidError,
    },
    /// A temperature that was read has no saturation.
    #[error(
        "cylinder_temperature is {temperature_k:.1} K, which is outside the refrigerant's table: {error}"
    )]
    CylinderTemperature {
        /// As read.
        temperature_k: f64,
        /// What the table says.
        error: FluidError,
    },
    /// The setup without any fault has no answer.
    #[error("the setup has no operating point even without a fault: {0}")]
    NoPoint(JobError),
    /// The power path has no answer.
    #[error(transparent)]
    Power(#[from] PowerError),
    /// No factor is to be fitted.
    #[error("the log names no factor to fit; expected the machine's health, a part, or both")]
    NothingToFit,
    /// Too few rows can be used.
    #[error(
        "{usable} rows of the log can be used; expected at least {needed}: a weight, and a point that can be solved at its pressures"
    )]
    TooFewRows {
        /// That can be used.
        usable: usize,
        /// That are needed.
        needed: usize,
    },
    /// The log gained no weight.
    #[error("the log gained {gained_kg:.4} kg from first row to last; expected a gain")]
    NoGain {
        /// From first row to last.
        gained_kg: f64,
    },
    /// The least squares did not settle.
    #[error("the fit of the log did not settle ({detail}); expected rows that agree with one another")]
    NotSettled {
        /// What the method says.
        detail: String,
    },
}
