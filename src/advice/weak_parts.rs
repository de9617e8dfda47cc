//! Hoses and gauge sets that are made for less than they can meet.

use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};

use super::caution::{Caution, Facts, Place};
use crate::job::{Setup, Side, highest_pressure, hottest_temperature};
use crate::power::Grade;
use crate::scenario::RatedPart;
use crate::units::factors::PSI_PA;
use crate::units::{GaugePressure, both_scales};

/// A Stop for every part that says what it is made for and can meet more.
pub(super) fn weak_parts(facts: &Facts<'_>) -> Vec<Caution> {
    let stop = |part: &RatedPart| {
        let (met, side) = highest(facts, part)?;
        (met > part.made_for).then(|| Caution {
            id: "part-too-weak",
            grade: Grade::Stop,
            place: Place::LineUp,
            text: words(&facts.kit.setup, part, met, side),
            withholds: true,
        })
    };
    facts.kit.rated.iter().filter_map(stop).collect()
}

/// The highest pressure of all that presses on it, and where that comes from.
fn highest(facts: &Facts<'_>, part: &RatedPart) -> Option<(GaugePressure, Side)> {
    let point = facts.answer.point.as_ref().ok();
    let of_side = |side: &Side| Some((highest_pressure(&facts.kit.setup, point, *side)?, *side));
    let by_pressure = |one: &(GaugePressure, Side), other: &(GaugePressure, Side)| {
        one.0.above_ambient_pa().total_cmp(&other.0.above_ambient_pa())
    };
    part.sides.iter().filter_map(of_side).max_by(by_pressure)
}

fn words(setup: &Setup, part: &RatedPart, met: GaugePressure, side: Side) -> String {
    let line = part.line.map(|line| format!(" of {line}")).unwrap_or_default();
    format!(
        "{} (part {}{line}) is made for {} and can meet {}, {}: it can burst. Use one marked for more.",
        part.name,
        part.number,
        both(part.made_for),
        both(met),
        reason(setup, side)
    )
}

fn reason(setup: &Setup, side: Side) -> String {
    let refrigerant = setup.refrigerant.designation();
    match side {
        Side::System => {
            let hottest = hottest_temperature(setup);
            if hottest.get::<kelvin>() > setup.refrigerant.highest_saturation_temperature_k() {
                format!("and more where {refrigerant} gets as warm as {}", warm(hottest))
            } else {
                format!("the pressure of {refrigerant} at {}", warm(hottest))
            }
        }
        Side::Machine if setup.machine.cut_out.is_some() => {
            "where the high-pressure cut-out stops the machine".to_owned()
        }
        Side::Machine => "the machine's discharge pressure".to_owned(),
        Side::Cylinder => {
            format!("the pressure in the cylinder at {}", warm(setup.cylinder.temperature))
        }
    }
}

fn warm(temperature: ThermodynamicTemperature) -> String {
    both_scales(temperature.get::<degree_celsius>())
}

/// In psig and in bar.
fn both(pressure: GaugePressure) -> String {
    let pa = pressure.above_ambient_pa();
    format!("{:.0} psig ({:.1} bar(g))", pa / PSI_PA, pa / 1e5)
}
