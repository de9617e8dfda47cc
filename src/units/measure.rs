//! The quantities people type, and the units each may be typed in.
//!
//! A unit is a scale and a shift: `SI value = (number + shift) · scale`. Spellings are compared
//! without blanks and, where that is unambiguous, without regard to capitals.

use super::factors::*;
use std::f64::consts::TAU;
use std::fmt::Debug;
use uom::si::f64::{
    AngularVelocity, ElectricCurrent, ElectricPotential, ElectricalResistance, Frequency, HeatCapacity,
    Length, Mass, MassRate, Power, Pressure, Ratio, TemperatureInterval, ThermalConductance,
    ThermodynamicTemperature, Time, Volume, VolumeRate,
};

/// One unit of a quantity.
#[derive(Debug)]
pub struct Unit {
    /// How people write it; the first is how we write it.
    pub spellings: &'static [&'static str],
    /// SI units in one of this unit.
    pub scale: f64,
    /// Added to the number before scaling: zero but for temperatures.
    pub shift: f64,
}

impl Unit {
    const fn new(spellings: &'static [&'static str], scale: f64) -> Self {
        Self { spellings, scale, shift: 0.0 }
    }

    const fn shifted(spellings: &'static [&'static str], scale: f64, shift: f64) -> Self {
        Self { spellings, scale, shift }
    }

    /// The SI value of `number` in this unit.
    pub fn to_si(&self, number: f64) -> f64 {
        (number + self.shift) * self.scale
    }

    /// The number in this unit of an SI value.
    pub fn from_si(&self, si: f64) -> f64 {
        si / self.scale - self.shift
    }

    /// Whether `text` (signs already plain) spells this unit.
    pub(super) fn is_spelled(&self, text: &str) -> bool {
        self.spellings.iter().any(|spelling| same_unit(spelling, text))
    }
}

/// A quantity that can be typed with a unit.
pub trait Measure: Copy + PartialEq + Debug {
    /// With its article, for sentences: "a length".
    const NOUN: &'static str;
    /// How one is written: "25 ft".
    const EXAMPLE: &'static str;
    /// What it may be typed in.
    const UNITS: &'static [Unit];
    /// Whether a number without unit is clear.
    const BARE: bool = false;
    /// The lowest SI value there can be, and its name.
    const FLOOR: Option<(f64, &'static str)> = None;

    /// From the SI value.
    fn from_si(si: f64) -> Self;
    /// The SI value.
    fn si(self) -> f64;
}

/// Blanks and a closing full stop do not matter. Capitals do only where `m` and `M` would
/// exchange milli for mega.
fn same_unit(spelling: &str, text: &str) -> bool {
    let squeeze = |s: &str| -> String { s.chars().filter(|c| !c.is_whitespace()).collect() };
    let text = squeeze(text.trim_end_matches('.'));
    let spelling = squeeze(spelling);
    let prefix = |s: &str| s.chars().next().filter(|c| matches!(c, 'm' | 'M'));
    text == spelling || (prefix(&text) == prefix(&spelling) && text.eq_ignore_ascii_case(&spelling))
}

macro_rules! measure {
    (@type BARE) => { bool };
    (@type FLOOR) => { Option<(f64, &'static str)> };
    ($quantity:ty, $noun:literal, $example:literal, [$($unit:expr),+ $(,)?] $(, $name:ident = $value:expr)* $(,)?) => {
        impl Measure for $quantity {
            const NOUN: &'static str = $noun;
            const EXAMPLE: &'static str = $example;
            const UNITS: &'static [Unit] = &[$($unit),+];
            $(const $name: measure!(@type $name) = $value;)*

            fn from_si(si: f64) -> Self {
                Self { dimension: Default::default(), units: Default::default(), value: si }
            }

            fn si(self) -> f64 {
                self.value
            }
        }
    };
}

measure!(
    Length,
    "a length",
    "25 ft",
    [
        Unit::new(&["ft", "'", "foot", "feet"], FOOT_M),
        Unit::new(&["in", "\"", "''", "inch", "inches"], INCH_M),
        Unit::new(&["mm", "MM", "millimetre", "millimetres", "millimeter", "millimeters"], 1e-3),
        Unit::new(&["cm", "centimetre", "centimeter"], 1e-2),
        Unit::new(&["m", "metre", "metres", "meter", "meters"], 1.0),
        Unit::new(&["km", "kilometre", "kilometer"], 1e3),
        Unit::new(&["um", "micrometre", "micrometer"], 1e-6),
        Unit::new(&["yd", "yard", "yards"], 3.0 * FOOT_M),
        Unit::new(&["mil", "mils", "thou"], INCH_M * 1e-3),
    ]
);

measure!(
    ThermodynamicTemperature,
    "a temperature",
    "75 degF",
    [
        Unit::shifted(&["degF", "F", "deg F", "Fahrenheit"], FAHRENHEIT_DEGREE_K, FAHRENHEIT_SHIFT),
        Unit::shifted(&["degC", "C", "deg C", "Celsius"], 1.0, CELSIUS_SHIFT_K),
        Unit::new(&["K", "kelvin"], 1.0),
        Unit::new(&["degR", "R", "Rankine"], FAHRENHEIT_DEGREE_K),
    ],
    FLOOR = Some((0.0, "absolute zero"))
);

measure!(
    TemperatureInterval,
    "a temperature difference",
    "10 degF",
    [
        Unit::new(&["degF", "F", "Fdeg", "deltadegF"], FAHRENHEIT_DEGREE_K),
        Unit::new(&["K", "degC", "C", "kelvin"], 1.0),
    ]
);

measure!(
    Volume,
    "a volume",
    "25 ft3",
    [
        Unit::new(&["ft3", "ft^3", "cu ft", "cubic feet", "cf"], CUBIC_FOOT_M3),
        Unit::new(&["L", "litre", "litres", "liter", "liters", "dm3"], 1e-3),
        Unit::new(&["m3", "M3", "m^3", "cubic metre"], 1.0),
        Unit::new(&["in3", "in^3", "cu in"], INCH_M * INCH_M * INCH_M),
        Unit::new(&["mL", "ml", "cm3", "cc"], 1e-6),
        Unit::new(&["gal", "gallon", "gallons", "US gal"], US_GALLON_M3),
    ]
);

measure!(
    VolumeRate,
    "a volume rate",
    "0.42 cfm",
    [
        Unit::new(&["cfm", "ft3/min", "ft^3/min", "cu ft/min"], CFM_M3_S),
        Unit::new(&["L/min", "lpm", "l/min"], 1e-3 / 60.0),
        Unit::new(&["m3/h", "M3/h", "m^3/h", "m3/hr"], 1.0 / 3600.0),
        Unit::new(&["m3/s", "m^3/s"], 1.0),
        Unit::new(&["m3/min", "m^3/min"], 1.0 / 60.0),
        Unit::new(&["L/s"], 1e-3),
        Unit::new(&["cm3/s", "cc/s", "mL/s", "ml/s"], 1e-6),
        Unit::new(&["in3/min", "in^3/min"], INCH_M * INCH_M * INCH_M / 60.0),
        Unit::new(&["gpm", "gal/min"], US_GALLON_M3 / 60.0),
    ]
);

measure!(
    Mass,
    "a mass",
    "22 lb",
    [
        Unit::new(&["lb", "lbs", "pound", "pounds", "lbm"], POUND_KG),
        Unit::new(&["oz", "ounce", "ounces"], OUNCE_KG),
        Unit::new(&["kg", "kilogram", "kilograms", "kilo"], 1.0),
        Unit::new(&["g", "gram", "grams"], 1e-3),
        Unit::new(&["t", "tonne"], 1e3),
    ]
);

measure!(
    MassRate,
    "a mass rate",
    "1.3 lb/min",
    [
        Unit::new(&["lb/min", "lbs/min", "lb per min"], POUND_KG / 60.0),
        Unit::new(&["kg/min"], 1.0 / 60.0),
        Unit::new(&["kg/h", "kg/hr"], 1.0 / 3600.0),
        Unit::new(&["kg/s"], 1.0),
        Unit::new(&["g/s"], 1e-3),
        Unit::new(&["g/min"], 1e-3 / 60.0),
        Unit::new(&["lb/h", "lb/hr", "lbs/h", "lbs/hr"], POUND_KG / 3600.0),
        Unit::new(&["oz/min"], OUNCE_KG / 60.0),
    ]
);

measure!(
    Pressure,
    "an absolute pressure",
    "14.7 psia",
    [
        Unit::new(&["psia", "psi abs", "psi"], PSI_PA),
        Unit::new(&["kPa", "kPa abs", "kPaa", "kPa a"], 1e3),
        Unit::new(&["bara", "bar a", "bar abs", "bar"], 1e5),
        Unit::new(&["mbar", "mbar abs", "hPa"], 1e2),
        Unit::new(&["inHg", "inHg abs", "in Hg"], INCH_OF_MERCURY_PA),
        Unit::new(&["mmHg", "mmHg abs", "Torr"], MILLIMETRE_OF_MERCURY_PA),
        Unit::new(&["MPa", "MPa abs"], 1e6),
        Unit::new(&["Pa", "Pa abs"], 1.0),
        Unit::new(&["atm"], STANDARD_ATMOSPHERE_PA),
    ],
    FLOOR = Some((0.0, "absolute vacuum"))
);

measure!(
    Ratio,
    "a ratio",
    "5 %",
    [Unit::new(&["%", "percent", "per cent", "pct"], 1e-2), Unit::new(&[""], 1.0),],
    BARE = true
);

measure!(
    ElectricPotential,
    "a voltage",
    "120 V",
    [
        Unit::new(&["V", "volt", "volts", "Vac", "V AC"], 1.0),
        Unit::new(&["kV"], 1e3),
        Unit::new(&["mV"], 1e-3),
    ]
);

measure!(
    ElectricCurrent,
    "a current",
    "12 A",
    [Unit::new(&["A", "amp", "amps", "ampere", "amperes"], 1.0), Unit::new(&["mA"], 1e-3),]
);

measure!(
    Power,
    "a power",
    "1 hp",
    [
        Unit::new(&["W", "watt", "watts"], 1.0),
        Unit::new(&["kW"], 1e3),
        Unit::new(&["hp", "horsepower", "HP"], HORSEPOWER_W),
        Unit::new(&["Btu/h", "Btu/hr", "Btuh"], BTU_J / 3600.0),
    ]
);

measure!(
    ElectricalResistance,
    "a resistance",
    "50 mohm",
    [Unit::new(&["ohm", "ohms", "R"], 1.0), Unit::new(&["mohm", "milliohm", "m ohm"], 1e-3),]
);

measure!(Frequency, "a frequency", "60 Hz", [Unit::new(&["Hz", "hertz", "cps"], 1.0),]);

measure!(
    AngularVelocity,
    "a speed of rotation",
    "3450 rpm",
    [Unit::new(&["rpm", "r/min", "1/min", "min-1"], TAU / 60.0), Unit::new(&["rad/s"], 1.0),]
);

measure!(
    Time,
    "a time",
    "20 min",
    [
        Unit::new(&["s", "sec", "second", "seconds"], 1.0),
        Unit::new(&["min", "Min", "minute", "minutes"], 60.0),
        Unit::new(&["h", "hr", "hour", "hours"], 3600.0),
        Unit::new(&["ms"], 1e-3),
    ]
);

measure!(
    ThermalConductance,
    "a heat conductance",
    "60 W/K",
    [
        Unit::new(&["W/K", "W/degC"], 1.0),
        Unit::new(&["kW/K"], 1e3),
        Unit::new(
            &["Btu/h/degF", "Btu/h degF", "Btu/(h degF)", "Btu/hr/degF", "Btu/h-F", "Btu/h/F"],
            BTU_J / 3600.0 / FAHRENHEIT_DEGREE_K
        ),
    ]
);

measure!(
    HeatCapacity,
    "a heat capacity",
    "12 kJ/K",
    [
        Unit::new(&["J/K"], 1.0),
        Unit::new(&["kJ/K"], 1e3),
        Unit::new(&["Btu/degF", "Btu/F"], BTU_J / FAHRENHEIT_DEGREE_K),
    ]
);

/// Declares a quantity that uom does not tell apart from another of the same dimension.
macro_rules! own_measure {
    ($(#[$doc:meta])* $name:ident, $noun:literal, $example:literal, [$($unit:expr),+ $(,)?]) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct $name(f64);

        impl Measure for $name {
            const NOUN: &'static str = $noun;
            const EXAMPLE: &'static str = $example;
            const UNITS: &'static [Unit] = &[$($unit),+];

            fn from_si(si: f64) -> Self {
                Self(si)
            }

            fn si(self) -> f64 {
                self.0
            }
        }
    };
}

own_measure!(
    /// Volts times amps of a source, in VA. Not a [`Power`]: it says nothing of the phase.
    ApparentPower, "an apparent power", "2200 VA", [
        Unit::new(&["VA", "volt-amp", "volt-amps"], 1.0),
        Unit::new(&["kVA"], 1e3),
        Unit::new(&["W", "watt", "watts"], 1.0),
        Unit::new(&["kW"], 1e3),
    ]
);

own_measure!(
    /// A pressure loss, in Pa. It has no zero point: 1 psi lost is 1 psi, gauge or absolute.
    PressureDifference, "a pressure difference", "1 psi", [
        Unit::new(&["psi", "psid"], PSI_PA),
        Unit::new(&["kPa"], 1e3),
        Unit::new(&["bar"], 1e5),
        Unit::new(&["mbar", "hPa"], 1e2),
        Unit::new(&["Pa"], 1.0),
        Unit::new(&["inHg"], INCH_OF_MERCURY_PA),
    ]
);

own_measure!(
    /// Flow coefficient of a valve, held as Kv: m³/h of cold water at a loss of 1 bar
    /// (IEC 60534-1). Cv is US gal/min at 1 psi.
    FlowCoefficient, "a flow coefficient", "1.2 Kv", [
        Unit::new(&["Kv", "kvs"], 1.0),
        Unit::new(&["Cv"], KV_PER_CV),
    ]
);

own_measure!(
    /// Refrigerating capacity in W, as filter-driers are rated in. One ton is 12 000 Btu/h.
    CoolingCapacity, "a cooling capacity", "5 tons", [
        Unit::new(&["tons", "ton", "TR"], 12_000.0 * BTU_J / 3600.0),
        Unit::new(&["kW"], 1e3),
        Unit::new(&["W"], 1.0),
        Unit::new(&["Btu/h", "Btu/hr"], BTU_J / 3600.0),
    ]
);

impl FlowCoefficient {
    /// Kv in m³/h at 1 bar.
    pub fn kv(self) -> f64 {
        self.0
    }
}
