//! Which units answers are written in: each quantity's own choice, gauge or absolute, decimal sign.

use super::factors::*;
use serde::{Deserialize, Serialize};

/// Declares the units a quantity can be answered in: variant, name, SI units in one of it.
macro_rules! choice {
    ($(#[$doc:meta])* $name:ident { $($(#[$unit_doc:meta])* $unit:ident = ($text:literal, $size:expr)),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum $name {
            $($(#[$unit_doc])* $unit),+
        }

        impl $name {
            /// All there are.
            pub const ALL: &'static [Self] = &[$(Self::$unit),+];

            /// How it is written.
            pub fn name(self) -> &'static str {
                match self { $(Self::$unit => $text),+ }
            }

            /// SI units in one of it.
            pub fn size_si(self) -> f64 {
                match self { $(Self::$unit => $size),+ }
            }
        }
    };
}

choice!(
    /// Units of pressure.
    PressureUnit {
        /// Pounds-force per square inch.
        Psi = ("psi", PSI_PA),
        /// Bar.
        Bar = ("bar", 1e5),
        /// Kilopascal.
        Kilopascal = ("kPa", 1e3),
    }
);

impl PressureUnit {
    /// Written behind an absolute pressure.
    pub fn absolute(self) -> &'static str {
        match self {
            Self::Psi => "psia",
            Self::Bar => "bar(a)",
            Self::Kilopascal => "kPa(a)",
        }
    }

    /// Written behind a gauge pressure.
    pub fn gauge(self) -> &'static str {
        match self {
            Self::Psi => "psig",
            Self::Bar => "bar(g)",
            Self::Kilopascal => "kPa(g)",
        }
    }

    /// Whether this word is what stands behind a pressure or a pressure loss of an answer; a vacuum
    /// in inches apart.
    pub(crate) fn is_written(word: &str) -> bool {
        Self::ALL.iter().any(|unit| [unit.name(), unit.absolute(), unit.gauge()].contains(&word))
    }
}

choice!(
    /// Units of temperature; the size is one degree's.
    TemperatureUnit {
        /// Degrees Fahrenheit.
        Fahrenheit = ("°F", FAHRENHEIT_DEGREE_K),
        /// Degrees Celsius.
        Celsius = ("°C", 1.0),
    }
);

impl TemperatureUnit {
    /// The number on this scale.
    pub fn of_kelvin(self, kelvin: f64) -> f64 {
        match self {
            Self::Fahrenheit => kelvin / FAHRENHEIT_DEGREE_K - FAHRENHEIT_SHIFT,
            Self::Celsius => kelvin - CELSIUS_SHIFT_K,
        }
    }

    /// Kelvins of a number on this scale.
    pub fn to_kelvin(self, number: f64) -> f64 {
        match self {
            Self::Fahrenheit => (number + FAHRENHEIT_SHIFT) * FAHRENHEIT_DEGREE_K,
            Self::Celsius => number + CELSIUS_SHIFT_K,
        }
    }
}

choice!(
    /// Units of mass.
    MassUnit {
        /// Pounds.
        Pound = ("lb", POUND_KG),
        /// Kilograms.
        Kilogram = ("kg", 1.0),
    }
);

choice!(
    /// Units of mass flow.
    RateUnit {
        /// Pounds per minute.
        PoundPerMinute = ("lb/min", POUND_KG / 60.0),
        /// Kilograms per minute.
        KilogramPerMinute = ("kg/min", 1.0 / 60.0),
        /// Kilograms per hour.
        KilogramPerHour = ("kg/h", 1.0 / 3600.0),
        /// Grams per second.
        GramPerSecond = ("g/s", 1e-3),
    }
);

choice!(
    /// Units of a length run.
    LengthUnit {
        /// Feet.
        Foot = ("ft", FOOT_M),
        /// Metres.
        Metre = ("m", 1.0),
    }
);

choice!(
    /// Units of a bore.
    BoreUnit {
        /// Millimetres.
        Millimetre = ("mm", 1e-3),
        /// Inches.
        Inch = ("in", INCH_M),
    }
);

/// The units answers are written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct UnitSet {
    /// Of pressures and pressure losses.
    pub pressure: PressureUnit,
    /// Pressures count from nothing at all, not from the air around.
    pub absolute: bool,
    /// Of temperatures.
    pub temperature: TemperatureUnit,
    /// Of masses.
    pub mass: MassUnit,
    /// Of mass flows.
    pub rate: RateUnit,
    /// Of length runs; displacements follow it.
    pub length: LengthUnit,
    /// Of bores.
    pub bore: BoreUnit,
    /// A comma before the decimals, not a point.
    pub decimal_comma: bool,
}

impl UnitSet {
    /// lb/min, psig, °F, ft, lb.
    pub const US_TRADE: Self = Self {
        pressure: PressureUnit::Psi,
        absolute: false,
        temperature: TemperatureUnit::Fahrenheit,
        mass: MassUnit::Pound,
        rate: RateUnit::PoundPerMinute,
        length: LengthUnit::Foot,
        bore: BoreUnit::Millimetre,
        decimal_comma: false,
    };
    /// kg/min, bar(g), °C, m, kg.
    pub const SI: Self = Self {
        pressure: PressureUnit::Bar,
        absolute: false,
        temperature: TemperatureUnit::Celsius,
        mass: MassUnit::Kilogram,
        rate: RateUnit::KilogramPerMinute,
        length: LengthUnit::Metre,
        bore: BoreUnit::Millimetre,
        decimal_comma: false,
    };
}

impl Default for UnitSet {
    fn default() -> Self {
        Self::US_TRADE
    }
}
