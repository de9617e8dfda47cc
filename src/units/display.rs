//! How computed values are written: three figures, in the units of one set, with a true minus.
//!
//! What a person typed is never rewritten; this is for answers. A pressure below ambient is
//! written as inches of vacuum or as absolute, so that no gauge pressure is ever negative.

use super::factors::*;
use super::gauge::GaugePressure;
use super::measure::Measure;
use uom::si::f64::{
    ElectricCurrent, ElectricPotential, Length, Mass, MassRate, Power, Pressure, ThermodynamicTemperature,
};

/// The units answers are written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum UnitSet {
    /// lb/min, psig, °F, ft, lb.
    #[default]
    UsTrade,
    /// kg/min, bar(g), °C, m, kg.
    Si,
}

/// A number to three figures; whole numbers of four and more figures keep all of them.
///
/// `1.294 → 1.29`, `211.9 → 212`, `0.0521 → 0.0521`, `1234.5 → 1235`, `-3 → −3.00`.
pub fn three_figures(number: f64) -> String {
    if !number.is_finite() {
        return "no number".to_owned();
    }
    let exponent = leading_exponent(number);
    let places = usize::try_from(2 - exponent).unwrap_or(0).min(12);
    let text = format!("{:.places$}", number.abs());
    if !text.contains(|c: char| matches!(c, '1'..='9')) {
        return "0.00".to_owned();
    }
    if number < 0.0 { format!("−{text}") } else { text }
}

/// The decimal exponent after rounding to three figures: 2 for 99.96, since it is written 100.
fn leading_exponent(number: f64) -> i32 {
    let text = format!("{:.2e}", number.abs());
    text.split_once('e').and_then(|(_, exponent)| exponent.parse().ok()).unwrap_or(0)
}

fn with_unit(number: f64, unit: &str) -> String {
    format!("{} {unit}", three_figures(number))
}

impl UnitSet {
    /// A mass flow: lb/min or kg/min.
    pub fn rate(self, rate: MassRate) -> String {
        match self {
            Self::UsTrade => with_unit(rate.si() * 60.0 / POUND_KG, "lb/min"),
            Self::Si => with_unit(rate.si() * 60.0, "kg/min"),
        }
    }

    /// An absolute pressure as a gauge in `ambient` air shows it: psig or inHg vac, bar(g) or
    /// kPa abs.
    pub fn pressure(self, absolute: Pressure, ambient: Pressure) -> String {
        let gauge_pa = GaugePressure::from_absolute(absolute, ambient).above_ambient_pa();
        match self {
            Self::UsTrade if gauge_pa >= 0.0 => with_unit(gauge_pa / PSI_PA, "psig"),
            Self::UsTrade => with_unit(-gauge_pa / INCH_OF_MERCURY_PA, "inHg vac"),
            Self::Si if gauge_pa >= 0.0 => with_unit(gauge_pa / 1e5, "bar(g)"),
            Self::Si => with_unit(absolute.si() / 1e3, "kPa abs"),
        }
    }

    /// A pressure lost: psi or bar.
    pub fn pressure_loss(self, loss: Pressure) -> String {
        match self {
            Self::UsTrade => with_unit(loss.si() / PSI_PA, "psi"),
            Self::Si => with_unit(loss.si() / 1e5, "bar"),
        }
    }

    /// A temperature: °F or °C.
    pub fn temperature(self, temperature: ThermodynamicTemperature) -> String {
        let kelvin = temperature.si();
        match self {
            Self::UsTrade => with_unit(kelvin / FAHRENHEIT_DEGREE_K - FAHRENHEIT_SHIFT, "°F"),
            Self::Si => with_unit(kelvin - CELSIUS_SHIFT_K, "°C"),
        }
    }

    /// A length run: ft or m.
    pub fn length(self, length: Length) -> String {
        match self {
            Self::UsTrade => with_unit(length.si() / FOOT_M, "ft"),
            Self::Si => with_unit(length.si(), "m"),
        }
    }

    /// A bore: mm in both, as parts are measured.
    pub fn bore(self, bore: Length) -> String {
        with_unit(bore.si() * 1e3, "mm")
    }

    /// A mass: lb or kg.
    pub fn mass(self, mass: Mass) -> String {
        match self {
            Self::UsTrade => with_unit(mass.si() / POUND_KG, "lb"),
            Self::Si => with_unit(mass.si(), "kg"),
        }
    }

    /// A voltage, in V.
    pub fn voltage(self, voltage: ElectricPotential) -> String {
        with_unit(voltage.si(), "V")
    }

    /// A current, in A.
    pub fn current(self, current: ElectricCurrent) -> String {
        with_unit(current.si(), "A")
    }

    /// A power, in W.
    pub fn power(self, power: Power) -> String {
        with_unit(power.si(), "W")
    }

    /// A share of one, in per cent.
    pub fn share(self, ratio: f64) -> String {
        with_unit(ratio * 100.0, "%")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(number: f64, expected: &str) {
        assert_eq!(three_figures(number), expected);
    }

    #[test]
    fn three_figures_and_a_true_minus() {
        check(1.294, "1.29");
        check(211.9, "212");
        check(99.96, "100");
        check(9.996, "10.0");
        check(0.0521, "0.0521");
        check(1234.4, "1234");
        check(0.0, "0.00");
        check(-3.0, "−3.00");
        check(-1e-30, "0.00");
        check(f64::NAN, "no number");
    }

    #[test]
    fn a_vacuum_is_never_a_negative_gauge_pressure() {
        let ambient = Pressure::from_si(STANDARD_ATMOSPHERE_PA);
        let low = Pressure::from_si(STANDARD_ATMOSPHERE_PA - 10.0 * INCH_OF_MERCURY_PA);
        assert_eq!(UnitSet::UsTrade.pressure(low, ambient), "10.0 inHg vac");
        assert_eq!(UnitSet::Si.pressure(low, ambient), "67.5 kPa abs");
        let high = Pressure::from_si(STANDARD_ATMOSPHERE_PA + 185.0 * PSI_PA);
        assert_eq!(UnitSet::UsTrade.pressure(high, ambient), "185 psig");
    }
}
