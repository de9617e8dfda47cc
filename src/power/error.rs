//! What can be wrong with a power path or a nameplate. Each sentence names the thing, the value
//! and what was expected.

/// A power path, motor or condition that has no meaning as given.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PowerError {
    /// A quantity outside the range that makes sense for it (NaN included).
    #[error("{thing} is {got} {unit}; expected {low} to {high} {unit}")]
    OutOfRange {
        /// What was given.
        thing: &'static str,
        /// Its value in `unit`.
        got: f64,
        /// Unit of `got`, `low` and `high`.
        unit: &'static str,
        /// Smallest accepted value.
        low: f64,
        /// Largest accepted value.
        high: f64,
    },
    /// An American wire gauge that is not on the list.
    #[error("conductor gauge is {got} AWG; expected one of 18, 17, 16, 14, 12, 10, 8, 6, 4 AWG")]
    UnknownAwg {
        /// The number given.
        got: i64,
    },
    /// A metric cross-section that is not on the list.
    #[error("conductor cross-section is {got_mm2} mm²; expected one of 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10 mm²")]
    UnknownArea {
        /// The cross-section given.
        got_mm2: f64,
    },
    /// A gauge text that is neither AWG nor mm².
    #[error(
        "conductor gauge is {got:?}; expected a number with AWG or mm2, such as \"16 AWG\" or \"1.5 mm2\""
    )]
    UnreadableGauge {
        /// The text given.
        got: String,
    },
    /// A locked-rotor code letter that the code does not use.
    #[error("locked-rotor code letter is {got:?}; expected A to V without I, O and Q")]
    UnknownCodeLetter {
        /// The letter given.
        got: char,
    },
    /// A motor size that the full-load-current table does not list.
    #[error("motor size is {got_hp} hp; expected one of 1/6, 1/4, 1/3, 1/2, 3/4, 1, 1.5, 2, 3, 5 hp")]
    UnknownHorsepower {
        /// The size given.
        got_hp: f64,
    },
    /// A code letter without the horsepower it multiplies.
    #[error(
        "shaft power is missing; expected it beside locked-rotor code letter {letter}, which counts kVA per horsepower"
    )]
    CodeLetterNeedsPower {
        /// The letter given.
        letter: char,
    },
    /// A generator whose surge rating is below its continuous one.
    #[error(
        "generator surge rating is {surge_va} VA; expected at least its continuous rating of {continuous_va} VA"
    )]
    SurgeBelowContinuous {
        /// Surge rating.
        surge_va: f64,
        /// Continuous rating.
        continuous_va: f64,
    },
    /// More shaft power than the nameplate takes in, after the losses that the circuit needs.
    #[error(
        "shaft power is {got_w:.0} W; expected at most {limit_w:.0} W, which is what rated volts, amps, power factor and copper losses leave"
    )]
    ShaftPowerTooHigh {
        /// Shaft power on the nameplate.
        got_w: f64,
        /// Largest consistent shaft power.
        limit_w: f64,
    },
    /// A locked-rotor current that is not above the rated current by enough.
    #[error(
        "locked-rotor current is {got_a:.1} A; expected more than {limit_a:.1} A beside the rated current and power factor of this motor"
    )]
    LockedRotorTooLow {
        /// Locked-rotor current given.
        got_a: f64,
        /// Smallest consistent locked-rotor current.
        limit_a: f64,
    },
    /// A power factor so near one that no reactance is left for the motor's leakage.
    #[error(
        "rated power factor is {got_ratio:.3}; expected at most {limit_ratio:.3} beside this locked-rotor current and its power factor"
    )]
    PowerFactorTooHigh {
        /// Rated power factor.
        got_ratio: f64,
        /// Largest consistent rated power factor.
        limit_ratio: f64,
    },
    /// A rated speed that implies more rotor resistance than the locked rotor shows.
    #[error(
        "rated speed is {got_rpm:.0} rpm, a slip of {slip_ratio:.3}; expected a smaller slip, or a lower locked-rotor current or higher locked-rotor power factor"
    )]
    SlipTooLarge {
        /// Rated speed.
        got_rpm: f64,
        /// Slip below the synchronous speed above it.
        slip_ratio: f64,
    },
    /// A rated speed that no pole count gives.
    #[error(
        "rated speed is {got_rpm:.0} rpm; expected 0.5 % to 20 % below a synchronous speed such as {synchronous_rpm:.0} rpm"
    )]
    NoSuchSpeed {
        /// Rated speed.
        got_rpm: f64,
        /// Nearest synchronous speed above it.
        synchronous_rpm: f64,
    },
}

/// Lets `got` through when it lies in `low..=high`; NaN never does.
pub(crate) fn checked(
    thing: &'static str,
    got: f64,
    unit: &'static str,
    low: f64,
    high: f64,
) -> Result<f64, PowerError> {
    if (low..=high).contains(&got) {
        Ok(got)
    } else {
        Err(PowerError::OutOfRange { thing, got, unit, low, high })
    }
}
