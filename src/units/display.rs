//! How computed values are written: three figures, in the units of one set, with a true minus.
//!
//! What a person typed is never rewritten; this is for answers. A pressure below ambient is
//! written as inches of vacuum or as absolute, so that no gauge pressure is ever negative.

use super::factors::INCH_OF_MERCURY_PA;
use super::gauge::GaugePressure;
use super::measure::Measure;
use super::unit_set::{PressureUnit, UnitSet};
use super::words::bare_word;
use uom::si::f64::{
    ElectricCurrent, ElectricPotential, Length, Mass, MassRate, Power, Pressure, ThermodynamicTemperature,
};

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

impl UnitSet {
    /// A number to three figures, with this set's decimal sign.
    pub fn number(self, number: f64) -> String {
        self.signed(three_figures(number))
    }

    /// A number with so many decimals, a true minus and this set's decimal sign; a zero has no sign.
    pub fn decimals(self, number: f64, places: usize) -> String {
        let text = format!("{number:.places$}");
        let is_zero = !text.contains(|c: char| c.is_ascii_digit() && c != '0');
        self.signed(if is_zero { text.replace('-', "") } else { text.replace('-', "−") })
    }

    fn signed(self, number: String) -> String {
        if self.decimal_comma { number.replace('.', ",") } else { number }
    }

    /// A sentence whose numbers before a unit get this set's decimal sign: "16.4 A", but not the
    /// 173.304 of a rule.
    pub fn sentence(self, text: &str) -> String {
        if !self.decimal_comma {
            return text.to_owned();
        }
        let words: Vec<&str> = text.split(' ').collect();
        let next = |at: usize| words.get(at + 1).map(|word| bare_word(word));
        let said = |(at, word): (usize, &&str)| {
            let is_number = word.trim_start_matches(['(', '−', '+', '-']).parse::<f64>().is_ok();
            let has_unit = next(at)
                .is_some_and(|word| UNITS_IN_SENTENCES.contains(&word) || PressureUnit::is_written(word));
            if is_number && has_unit { word.replace('.', ",") } else { (*word).to_owned() }
        };
        words.iter().enumerate().map(said).collect::<Vec<_>>().join(" ")
    }

    fn with_unit(self, number: f64, unit: &str) -> String {
        format!("{} {unit}", self.number(number))
    }

    /// A mass flow.
    pub fn rate(self, rate: MassRate) -> String {
        self.with_unit(rate.si() / self.rate.size_si(), self.rate.name())
    }

    /// An absolute pressure as this set counts it: as a gauge in `ambient` air shows it, with inHg
    /// vac or kPa(a) below it, or absolute.
    pub fn pressure(self, absolute: Pressure, ambient: Pressure) -> String {
        let unit = self.pressure;
        let gauge_pa = GaugePressure::from_absolute(absolute, ambient).above_ambient_pa();
        match unit {
            _ if self.absolute => self.with_unit(absolute.si() / unit.size_si(), unit.absolute()),
            _ if gauge_pa >= 0.0 => self.with_unit(gauge_pa / unit.size_si(), unit.gauge()),
            PressureUnit::Psi => self.with_unit(-gauge_pa / INCH_OF_MERCURY_PA, "inHg vac"),
            PressureUnit::Bar | PressureUnit::Kilopascal => {
                self.with_unit(absolute.si() / 1e3, PressureUnit::Kilopascal.absolute())
            }
        }
    }

    /// A pressure lost.
    pub fn pressure_loss(self, loss: Pressure) -> String {
        self.with_unit(loss.si() / self.pressure.size_si(), self.pressure.name())
    }

    /// A temperature.
    pub fn temperature(self, temperature: ThermodynamicTemperature) -> String {
        self.with_unit(self.temperature.of_kelvin(temperature.si()), self.temperature.name())
    }

    /// A length run.
    pub fn length(self, length: Length) -> String {
        self.with_unit(length.si() / self.length.size_si(), self.length.name())
    }

    /// A bore.
    pub fn bore(self, bore: Length) -> String {
        self.with_unit(bore.si() / self.bore.size_si(), self.bore.name())
    }

    /// A mass.
    pub fn mass(self, mass: Mass) -> String {
        self.with_unit(mass.si() / self.mass.size_si(), self.mass.name())
    }

    /// A voltage, in V.
    pub fn voltage(self, voltage: ElectricPotential) -> String {
        self.with_unit(voltage.si(), "V")
    }

    /// A current, in A.
    pub fn current(self, current: ElectricCurrent) -> String {
        self.with_unit(current.si(), "A")
    }

    /// A power, in W.
    pub fn power(self, power: Power) -> String {
        self.with_unit(power.si(), "W")
    }

    /// A share of one, in per cent.
    pub fn share(self, ratio: f64) -> String {
        self.with_unit(ratio * 100.0, "%")
    }
}

/// What may stand behind a number of an answer, but for pressures.
const UNITS_IN_SENTENCES: [&str; 19] = [
    "lb", "kg", "lb/min", "kg/min", "kg/h", "g/s", "inHg", "°F", "°C", "K", "ft", "m", "mm", "in", "V", "A",
    "W", "%", "min",
];

#[cfg(test)]
mod tests {
    use super::super::factors::*;
    use super::super::unit_set::{BoreUnit, RateUnit};
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

    /// By hand: 100 psig in standard air is 114.696 psia, 6.895 bar(g), 790.8 kPa(a).
    #[test]
    fn each_quantity_has_its_own_unit_and_sign() {
        let ambient = Pressure::from_si(STANDARD_ATMOSPHERE_PA);
        let pressure = Pressure::from_si(STANDARD_ATMOSPHERE_PA + 100.0 * PSI_PA);
        let us = UnitSet::US_TRADE;
        let mixed = UnitSet { pressure: PressureUnit::Bar, rate: RateUnit::KilogramPerHour, ..us };
        assert_eq!(mixed.pressure(pressure, ambient), "6.89 bar(g)");
        assert_eq!(mixed.mass(Mass::from_si(POUND_KG)), "1.00 lb");
        assert_eq!(mixed.rate(MassRate::from_si(0.01)), "36.0 kg/h");
        let absolute = UnitSet { absolute: true, decimal_comma: true, ..us };
        assert_eq!(absolute.pressure(pressure, ambient), "115 psia");
        let kilopascal = UnitSet { pressure: PressureUnit::Kilopascal, ..absolute };
        assert_eq!(kilopascal.pressure(pressure, ambient), "791 kPa(a)");
        assert_eq!(absolute.mass(Mass::from_si(2.6 * POUND_KG)), "2,60 lb");
        assert_eq!(absolute.decimals(-1.25, 1), "−1,2");
        assert_eq!(us.decimals(-0.001, 2), "0.00");
        let inch = UnitSet { bore: BoreUnit::Inch, ..us };
        assert_eq!(inch.bore(Length::from_si(25.4e-3 / 4.0)), "0.250 in");
    }

    #[test]
    fn a_sentence_keeps_the_numbers_of_rules() {
        let comma = UnitSet { decimal_comma: true, ..UnitSet::US_TRADE };
        let text = "It draws 16.4 A (2.5 lb), by 49 CFR 173.304a and 82.156 Table 1; 40.5 of them. \
                    400 psig (27.6 bar(g)), 2.5 bar(a), or 67.4 kPa(a).";
        let expected = "It draws 16,4 A (2,5 lb), by 49 CFR 173.304a and 82.156 Table 1; 40.5 of them. \
                        400 psig (27,6 bar(g)), 2,5 bar(a), or 67,4 kPa(a).";
        assert_eq!(comma.sentence(text), expected);
        assert_eq!(UnitSet::US_TRADE.sentence(text), text);
    }

    #[test]
    fn a_vacuum_is_never_a_negative_gauge_pressure() {
        let ambient = Pressure::from_si(STANDARD_ATMOSPHERE_PA);
        let low = Pressure::from_si(STANDARD_ATMOSPHERE_PA - 10.0 * INCH_OF_MERCURY_PA);
        assert_eq!(UnitSet::US_TRADE.pressure(low, ambient), "10.0 inHg vac");
        assert_eq!(UnitSet::SI.pressure(low, ambient), "67.5 kPa(a)");
        let high = Pressure::from_si(STANDARD_ATMOSPHERE_PA + 185.0 * PSI_PA);
        assert_eq!(UnitSet::US_TRADE.pressure(high, ambient), "185 psig");
    }
}
