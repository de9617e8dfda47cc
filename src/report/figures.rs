//! Headline figures in words and for programs; what a Stop withholds is left out of both.

use serde_json::{Map, Value, json};
use uom::si::f64::{ElectricPotential, Mass, MassRate, Pressure, Time};

use super::time_words::time_text;
use super::wrap::wrapped;
use crate::compare::{Band, Figure, Gain, Headline};
use crate::units::{Measure, UnitSet};

/// The figures a Stop about refrigerant or machine does not withhold.
pub(super) fn is_volts(figure: Figure) -> bool {
    matches!(figure, Figure::RunningVoltage | Figure::StartingVoltage)
}

/// The figures that may be shown.
pub(super) fn shown(headline: &Headline, withheld: bool) -> Headline {
    if withheld { headline.withheld() } else { *headline }
}

/// The gains that may be shown.
pub(super) fn shown_gain(gain: Gain, withheld: bool) -> Gain {
    if withheld { Gain { rate_kg_s: None, total_s: None, ..gain } } else { gain }
}

/// Figures by their tags, in SI units.
pub(super) fn headline_json(headline: &Headline) -> Value {
    let fields = Figure::ALL.map(|figure| (figure.tag().to_owned(), json!(headline.si(figure))));
    let left = headline.liquid_left.map(|left| ("liquid_left_kg".to_owned(), json!(left.si())));
    Value::Object(fields.into_iter().chain(left).collect())
}

/// That a kit's time is not the whole of it; none where no liquid is left.
pub(super) fn liquid_left_line(kit: &str, headline: &Headline, units: UnitSet) -> Option<String> {
    let left = headline.liquid_left?;
    let words = format!(
        "Kit {kit} reaches its level with {} of liquid in the system: it boils and the pressure comes back, so its \
         time is not the whole of it.",
        units.mass(left)
    );
    Some(wrapped(&words, "  Warning     "))
}

/// Bands by their figures' tags, in SI units.
pub(super) fn bands_json<'b>(band: impl Fn(Figure) -> Option<&'b Band>) -> Value {
    let fields = Figure::ALL.map(|figure| {
        let value = band(figure).map(|band| {
            json!({ "low": band.low, "median": band.median, "high": band.high, "answered": band.answered })
        });
        (figure.tag().to_owned(), json!(value))
    });
    Value::Object(Map::from_iter(fields))
}

/// Gains, in SI units.
pub(super) fn gain_json(gain: &Gain) -> Value {
    json!({
        "rate_kg_s": gain.rate_kg_s,
        "running_v": gain.running_v,
        "starting_v": gain.starting_v,
        "total_s": gain.total_s,
    })
}

/// A figure in words.
pub(super) fn figure_text(figure: Figure, si: f64, units: UnitSet, ambient: Pressure) -> String {
    match figure {
        Figure::Rate => units.rate(MassRate::from_si(si)),
        Figure::MachineInlet => units.pressure(Pressure::from_si(si), ambient),
        Figure::RunningVoltage | Figure::StartingVoltage => units.voltage(ElectricPotential::from_si(si)),
        Figure::Minutes => units.sentence(&time_text(Time::from_si(si))),
        Figure::Recovered | Figure::Cylinders | Figure::Cost => plain_text(figure, si, units),
    }
}

/// Mass, number of cylinders, money.
fn plain_text(figure: Figure, si: f64, units: UnitSet) -> String {
    match figure {
        Figure::Recovered => units.mass(Mass::from_si(si)),
        Figure::Cylinders => format!("{si:.0}").replace('-', "\u{2212}"),
        _ => units.number(si),
    }
}

/// A difference of a figure in words, with its sign; none where it is too small for a digit.
pub(super) fn difference_text(figure: Figure, si: f64, units: UnitSet) -> String {
    let (size, none) = (change_text(figure, si.abs(), units), change_text(figure, 0.0, units));
    match si {
        _ if size == none => none,
        si if si > 0.0 => format!("+{size}"),
        _ => format!("\u{2212}{size}"),
    }
}

fn change_text(figure: Figure, si: f64, units: UnitSet) -> String {
    match figure {
        Figure::Rate => units.rate(MassRate::from_si(si)),
        Figure::MachineInlet => units.pressure_loss(Pressure::from_si(si)),
        Figure::RunningVoltage | Figure::StartingVoltage => units.voltage(ElectricPotential::from_si(si)),
        Figure::Minutes => units.sentence(&time_text(Time::from_si(si))),
        Figure::Recovered | Figure::Cylinders | Figure::Cost => plain_text(figure, si, units),
    }
}

/// What a figure is called in a table.
pub(super) fn figure_name(figure: Figure) -> &'static str {
    match figure {
        Figure::Rate => "Rate",
        Figure::MachineInlet => "Machine inlet",
        Figure::RunningVoltage => "Volts running",
        Figure::StartingVoltage => "Volts starting",
        Figure::Minutes => "Time",
        Figure::Recovered => "Recovered",
        Figure::Cylinders => "Cylinders",
        Figure::Cost => "Cost",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::factors::{POUND_KG, PSI_PA};

    /// By hand: 0.1 lb/min more; 2 psi less.
    #[test]
    fn differences_carry_their_sign() {
        let lb_min = POUND_KG / 60.0;
        assert_eq!(difference_text(Figure::Rate, 0.1 * lb_min, UnitSet::US_TRADE), "+0.100 lb/min");
        assert_eq!(difference_text(Figure::MachineInlet, -2.0 * PSI_PA, UnitSet::US_TRADE), "−2.00 psi");
        assert_eq!(difference_text(Figure::Rate, 0.0, UnitSet::US_TRADE), "0.00 lb/min");
        for seconds in [0.3, -0.3] {
            assert_eq!(difference_text(Figure::Minutes, seconds, UnitSet::US_TRADE), "0 min");
        }
        assert_eq!(difference_text(Figure::Minutes, -30.0, UnitSet::US_TRADE), "\u{2212}30 s");
    }

    #[test]
    fn a_stop_withholds_the_rate_and_leaves_the_volts() {
        let headline = Headline {
            rate: Some(MassRate::from_si(0.01)),
            machine_inlet: Some(Pressure::from_si(1e6)),
            running_voltage: Some(ElectricPotential::from_si(117.0)),
            ..Headline::default()
        };
        let shown = shown(&headline, true);
        assert_eq!((shown.rate, shown.machine_inlet), (None, None));
        assert_eq!(shown.running_voltage, headline.running_voltage);
    }
}
