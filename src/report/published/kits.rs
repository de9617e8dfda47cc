//! The reference kits through the document, as a person would run them.

use uom::si::f64::Pressure;
use uom::si::mass_rate::pound_per_minute;
use uom::si::pressure::psi;

use super::{Group, Within, words};
use crate::job::OperatingPoint;
use crate::presets::built_in_scenario;
use crate::report::solve_document;
use crate::scenario::{read, set};

const MARCH: &str = "Independent march straight on CoolProp 8.0.0 (equilibrium, homogeneous)";

pub(super) fn groups() -> Vec<Group> {
    vec![vapour(), liquid()]
}

/// Kit, displacement (cfm), lb/min, inlet psig.
const VAPOUR: [(&str, &str, f64, f64); 6] = [
    ("A", "0.42 cfm", 1.294, 185.0),
    ("B", "0.42 cfm", 1.505, 211.9),
    ("C", "0.42 cfm", 1.544, 216.7),
    ("A", "1.6 cfm", 2.055, 81.2),
    ("B", "1.6 cfm", 4.250, 161.5),
    ("C", "1.6 cfm", 5.452, 202.5),
];

/// Choked, lb/min.
const LIQUID: [(&str, f64); 3] = [("A", 5.11), ("B", 14.94), ("C", 27.80)];

/// One kit of the reference scenario after some changes.
fn point_of(kit: &str, changes: &[(&str, &str)]) -> Result<(OperatingPoint, Pressure), String> {
    let text = built_in_scenario("reference-kits").ok_or("the reference scenario is missing")?;
    let mut document = read(text).map_err(words)?;
    for (path, value) in changes {
        set(&mut document, path, value).map_err(words)?;
    }
    let solved = solve_document(&document).map_err(|faults| format!("{faults:?}"))?;
    let solved = solved.into_iter().find(|solved| solved.kit.name == kit).ok_or("no such kit")?;
    let ambient = solved.kit.setup.ambient.pressure;
    Ok((solved.answer.point.map_err(words)?, ambient))
}

fn vapour() -> Group {
    let mut group = Group::new(MARCH);
    for (kit, displacement, rate, inlet) in VAPOUR {
        let answer = point_of(kit, &[("machine.displacement", displacement)]);
        let at = format!("R-410A vapour 75 °F, kit {kit}, {displacement}");
        let got = answer.clone().map(|(point, _)| point.mass_flow.get::<pound_per_minute>());
        group.case(format!("{at}, rate"), (rate, "lb/min", Within::Share(0.02)), got);
        let got = answer.map(|(point, ambient)| (point.machine_inlet_pressure - ambient).get::<psi>());
        group.case(format!("{at}, inlet"), (inlet, "psig", Within::Amount(2.0)), got);
    }
    group
}

fn liquid() -> Group {
    let mut group = Group::new(MARCH);
    for (kit, rate) in LIQUID {
        let answer = point_of(kit, &[("source.port", "liquid"), ("machine.displacement", "40 cfm")]);
        let got = answer.map(|(point, _)| point.mass_flow.get::<pound_per_minute>());
        group.case(
            format!("R-410A saturated liquid 75 °F, kit {kit}, choked"),
            (rate, "lb/min", Within::Share(0.03)),
            got,
        );
    }
    group
}
