//! What can be wrong with a question about a refrigerant, said in whole sentences.

use crate::units::factors::{FAHRENHEIT_DEGREE_K, FAHRENHEIT_SHIFT, PSI_PA};

/// Why a refrigerant has no answer.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FluidError {
    /// The name matches no refrigerant of the catalogue.
    #[error("unknown refrigerant {name:?}; did you mean {nearest}?")]
    UnknownRefrigerant {
        /// What was asked for, as written.
        name: String,
        /// The designation closest to it.
        nearest: &'static str,
    },
    /// A built-in table is damaged: a fault of the program, not of its user.
    #[error("the table of {refrigerant} is damaged at {place}; expected {expected}")]
    DamagedTable {
        /// Designation.
        refrigerant: &'static str,
        /// Header field or section.
        place: &'static str,
        /// What should stand there.
        expected: &'static str,
    },
    /// The quantity is above what the table, or the substance, allows.
    #[error(
        "{quantity} of {refrigerant} is {}; expected at most {} ({reason})", amount(*value, unit), amount(*limit, unit)
    )]
    AboveRange {
        /// Designation.
        refrigerant: &'static str,
        /// What was given: "pressure", "enthalpy", ...
        quantity: &'static str,
        /// The value given, in `unit`.
        value: f64,
        /// The highest value accepted, in `unit`.
        limit: f64,
        /// Unit of `value` and `limit`.
        unit: &'static str,
        /// Why the limit is there.
        reason: &'static str,
    },
    /// The quantity is below what the table, or the substance, allows.
    #[error(
        "{quantity} of {refrigerant} is {}; expected at least {} ({reason})", amount(*value, unit), amount(*limit, unit)
    )]
    BelowRange {
        /// Designation.
        refrigerant: &'static str,
        /// What was given: "pressure", "enthalpy", ...
        quantity: &'static str,
        /// The value given, in `unit`.
        value: f64,
        /// The lowest value accepted, in `unit`.
        limit: f64,
        /// Unit of `value` and `limit`.
        unit: &'static str,
        /// Why the limit is there.
        reason: &'static str,
    },
    /// The quantity is not a number.
    #[error("{quantity} of {refrigerant} is not a number; expected a finite value")]
    NotANumber {
        /// Designation.
        refrigerant: &'static str,
        /// What was given.
        quantity: &'static str,
    },
    /// Pressure and temperature alone do not fix the state: liquid and vapour coexist there.
    #[error(
        "{refrigerant} at {pressure_pa:.1} Pa and {temperature_k:.3} K can be liquid, vapour or both; expected a temperature below {bubble_temperature_k:.3} K or above {dew_temperature_k:.3} K"
    )]
    TwoPhase {
        /// Designation.
        refrigerant: &'static str,
        /// Absolute pressure, Pa.
        pressure_pa: f64,
        /// Temperature, K.
        temperature_k: f64,
        /// Bubble temperature at that pressure, K.
        bubble_temperature_k: f64,
        /// Dew temperature at that pressure, K.
        dew_temperature_k: f64,
    },
}

/// A value as people in the trade read it, with the other half of the world's in brackets.
fn amount(value: f64, unit: &str) -> String {
    match unit {
        "K" => format!("{:.1} °F ({:.1} °C)", value / FAHRENHEIT_DEGREE_K - FAHRENHEIT_SHIFT, value - 273.15),
        "Pa" => format!("{} psia ({} kPa)", figures(value / PSI_PA), figures(value / 1e3)),
        _ => format!("{} {unit}", figures(value)),
    }
}

/// Five figures, without an exponent where that is readable.
fn figures(value: f64) -> String {
    let size = value.abs();
    if size != 0.0 && !(1e-3..1e7).contains(&size) {
        return format!("{value:.4e}");
    }
    let places = if size >= 1e4 {
        0
    } else if size >= 100.0 {
        1
    } else {
        4
    };
    format!("{value:.places$}")
}
