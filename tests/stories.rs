//! The acceptance stories of technician, instructor and estimator, run through the document as a
//! person would. Ranges are wide and come from one simple model (common practice, no source); the
//! lines a wrong tool would cross are sharp.

mod documents;

use documents::{preset, with};
use narrows::job::OperatingPoint;
use narrows::report::{SolvedKit, solve_document};
use uom::si::f64::Pressure;
use uom::si::mass_rate::pound_per_minute;
use uom::si::pressure::psi;

fn solved(scenario: &str, changes: &[(&str, &str)]) -> Vec<SolvedKit> {
    solve_document(&with(preset(scenario), changes)).unwrap()
}

fn point<'a>(kits: &'a [SolvedKit], name: &str) -> &'a OperatingPoint {
    let kit = kits.iter().find(|kit| kit.kit.name == name).unwrap();
    kit.shown_point().unwrap()
}

fn rate(kits: &[SolvedKit], name: &str) -> f64 {
    point(kits, name).mass_flow.get::<pound_per_minute>()
}

fn psig(kits: &[SolvedKit], pressure: Pressure) -> f64 {
    (pressure - kits[0].kit.setup.ambient.pressure).get::<psi>()
}

#[track_caller]
fn in_range(got: f64, low: f64, high: f64) {
    assert!((low..=high).contains(&got), "{got} is not within {low} to {high}");
}

/// A bakery's freezer, R-404A at 75 °F, vapour, 0.42 cfm.
#[test]
fn bakery_core_and_manifold() {
    let at_100_f =
        [("machine.condenser.conductance", "none"), ("machine.condenser.condensing_temperature", "100 degF")];
    let kits = solved("bakery-freezer", &at_100_f);
    in_range(psig(&kits, point(&kits, "A").system_pressure), 158.0, 163.0);
    in_range(rate(&kits, "A"), 0.95, 1.4);
    in_range(psig(&kits, point(&kits, "A").machine_inlet_pressure), 118.0, 140.0);
    in_range(rate(&kits, "B"), 1.3, 1.6);
    in_range(rate(&kits, "C"), 1.4, 1.65);
    assert!(rate(&kits, "C") < 1.15 * rate(&kits, "B"), "three-eighths hose wins too much");
    let drops: Vec<f64> = point(&kits, "A").parts.iter().map(|part| part.drop().get::<psi>()).collect();
    let largest = drops.iter().copied().fold(0.0, f64::max);
    assert_eq!(drops[0], largest, "the core is not the largest step: {drops:?}");
    let other = solved("bakery-freezer", &[&at_100_f[..], &[("refrigerant", "R-134a")]].concat());
    assert!(rate(&other, "A") < 0.8 * rate(&kits, "A"), "the rate does not depend on the refrigerant");
}

/// The same kits on a larger machine, R-410A at 75 °F.
#[test]
fn the_same_kits_on_a_bigger_machine() {
    let small = solved("reference-kits", &[]);
    let large = solved("reference-kits", &[("machine.displacement", "1.6 cfm")]);
    in_range(rate(&large, "A"), 1.5, 2.5);
    in_range(rate(&large, "B"), 3.5, 4.6);
    in_range(rate(&large, "C"), 4.8, 5.7);
    in_range(rate(&large, "A") / rate(&small, "A"), 1.4, 1.9);
    in_range(rate(&large, "C") / rate(&small, "C"), 3.1, 3.7);
    let open = solved("reference-kits", &[("machine.displacement", "1.6 cfm"), ("kits.A.parts", "none")]);
    in_range(rate(&open, "A"), 5.5, 6.3);
    let strong = solved("reference-kits", &[("machine.displacement", "6 cfm")]);
    let stronger = solved("reference-kits", &[("machine.displacement", "12 cfm")]);
    assert!(point(&strong, "A").choked_part.is_some(), "kit A is not choked by a strong machine");
    in_range(rate(&stronger, "A") / rate(&strong, "A"), 1.0, 1.0001);
}

/// Liquid through a depressed core to a strong machine.
#[test]
fn liquid_through_a_core() {
    let core_alone = |refrigerant: &'static str, temperature: &'static str, cfm: &'static str| {
        solved(
            "reference-kits",
            &[
                ("kits.A.parts", "none"),
                ("kits.A.parts.0", "ValveCore(bore: \"2.2 mm\")"),
                ("source.port", "liquid"),
                ("refrigerant", refrigerant),
                ("source.temperature", temperature),
                ("machine.displacement", cfm),
            ],
        )
    };
    for (refrigerant, temperature, low, high) in
        [("R-410A", "75 degF", 4.5, 10.0), ("R-22", "75 degF", 3.5, 8.0), ("R-410A", "40 degF", 3.0, 7.0)]
    {
        let kits = core_alone(refrigerant, temperature, "20 cfm");
        in_range(rate(&kits, "A"), low, high);
        let core = &point(&kits, "A").parts[0];
        assert!(core.choked && core.flash_onset, "{refrigerant}: {core:?}");
        let stronger = core_alone(refrigerant, temperature, "40 cfm");
        in_range(rate(&stronger, "A") / rate(&kits, "A"), 0.9999, 1.0001);
    }
}

/// A 12 A motor on a library's roof; then a 15 A one.
#[test]
fn library_roof_cord() {
    let supply = |kits: &[SolvedKit]| {
        let power = kits[0].answer.power.as_ref().unwrap().clone();
        let running = *power.running.point().unwrap();
        (running.voltage.value, running.current.value, power)
    };
    let (volts, amps, power) = supply(&solved("long-cord", &[]));
    in_range(volts, 105.0, 108.0);
    in_range(amps, 12.6, 13.3);
    in_range(power.starting.voltage.value, 78.0, 90.0);
    in_range(power.starting.voltage_ratio, 0.68, 0.78);
    in_range(power.starting.torque_ratio, 0.46, 0.61);
    let thick = [("supply.cords.0.gauge", "12 AWG"), ("supply.cords.0.length", "50 ft")];
    let (volts, _, power) = supply(&solved("long-cord", &thick));
    in_range(volts, 114.0, 116.0);
    in_range(power.starting.voltage.value, 101.0, 106.0);
    let cautions = &solved("long-cord", &[])[0].cautions;
    assert!(cautions.iter().any(|caution| caution.id == "cord-over-marking"));
    assert!(cautions.iter().any(|caution| caution.id == "may-not-start"));
}
