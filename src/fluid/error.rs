//! What can be wrong with a question about a refrigerant, said in whole sentences.

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
        "{quantity} of {refrigerant} is {}; expected at most {} ({reason})",
        said(*value, unit),
        said(*limit, unit)
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
        "{quantity} of {refrigerant} is {}; expected at least {} ({reason})",
        said(*value, unit),
        said(*limit, unit)
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
        "{refrigerant} at {} and {} can be liquid, vapour or both; expected a temperature below {} or above {}",
        said(*pressure_pa, "Pa"),
        said(*temperature_k, "K"),
        said(*bubble_temperature_k, "K"),
        said(*dew_temperature_k, "K")
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

/// A value in units that people read: temperatures in °C and °F, pressures in kPa and psia.
fn said(value: f64, unit: &str) -> String {
    match unit {
        "K" => {
            let celsius = value - 273.15;
            format!("{celsius:.1} °C ({:.1} °F)", 1.8 * celsius + 32.0).replace('-', "−")
        }
        "Pa" => format!("{:.4} kPa(a) ({:.4} psia)", value / 1e3, value / 6894.757293168),
        other => format!("{value:.6} {other}"),
    }
}
