//! Volts through the document: any supply, any wiring, any motor.

use narrows::job::solve;
use narrows::power::PowerPoint;
use narrows::scenario::{read, resolve};
use proptest::prelude::*;

use super::runner::{Came, law};

#[derive(Debug, Clone)]
struct Wiring {
    volts: f64,
    source: Source,
    branch: Option<(usize, f64)>,
    cords: Vec<(usize, f64, bool)>,
    motor: usize,
    rated_a: f64,
}

#[derive(Debug, Clone, Copy)]
enum Source {
    Held,
    Service { ohm: f64 },
    Generator { continuous_va: f64 },
}

const GAUGES: [&str; 8] = ["18 AWG", "16 AWG", "1.5 mm2", "14 AWG", "2.5 mm2", "12 AWG", "10 AWG", "8 AWG"];
const MOTORS: [&str; 4] = [
    "kind: induction",
    "kind: induction, start: split_phase",
    "kind: universal",
    "kind: electronic, trip_voltage: \"60 V\"",
];
const SLACK_V: f64 = 1e-6;

impl Wiring {
    fn text(&self) -> String {
        let source = match self.source {
            Source::Held => String::new(),
            Source::Service { ohm } => {
                format!("source_resistance: \"{ohm} ohm\", source_reactance: \"{} ohm\",", 0.5 * ohm)
            }
            Source::Generator { continuous_va } => {
                format!(
                    "generator: (continuous: \"{continuous_va} VA\", surge: \"{} VA\"),",
                    1.3 * continuous_va
                )
            }
        };
        let branch = self.branch.map_or(String::new(), |(gauge, ft)| {
            format!("branch: (gauge: \"{}\", length: \"{ft} ft\"),", GAUGES[gauge])
        });
        let cord = |(gauge, ft, coiled): &(usize, f64, bool)| {
            let lay = if *coiled { "coiled" } else { "straight" };
            format!("(gauge: \"{}\", length: \"{ft} ft\", lay: {lay}), ", GAUGES[*gauge])
        };
        let cords: String = self.cords.iter().map(cord).collect();
        format!(
            "(narrows: 1, title: \"drawn\", refrigerant: \"R-22\", source: (temperature: \"75 degF\"),\n\
             ambient: (temperature: \"85 degF\"),\n\
             machine: (displacement: \"0.42 cfm\", clearance: \"5 %\", loss_factor: \"0.95\", \
             condenser: (condensing_temperature: \"100 degF\"), motor: ({}, rated_voltage: \"115 V\", \
             rated_current: \"{} A\")),\n\
             cylinder: (temperature: \"75 degF\"),\n\
             supply: (voltage: \"{} V\", {source} {branch} cords: [{cords}]),\n\
             kits: [(name: \"A\", parts: [])])",
            MOTORS[self.motor], self.rated_a, self.volts,
        )
    }

    fn point(&self) -> Result<PowerPoint, TestCaseError> {
        let text = self.text();
        let document = read(&text).map_err(|error| TestCaseError::fail(format!("{error} in {text}")))?;
        let kits = resolve(&document).map_err(|faults| TestCaseError::fail(format!("{faults:?}")))?;
        solve(&kits[0].setup).power.map_err(|error| TestCaseError::fail(error.to_string()))
    }
}

fn wiring() -> impl Strategy<Value = Wiring> {
    let source = prop_oneof![
        Just(Source::Held),
        (0.01..0.6_f64).prop_map(|ohm| Source::Service { ohm }),
        (800.0..6000.0_f64).prop_map(|continuous_va| Source::Generator { continuous_va }),
    ];
    let branch = prop::option::of((3..GAUGES.len(), 0.0..150.0_f64));
    let cords = prop::collection::vec((0..GAUGES.len(), 0.0..160.0_f64, any::<bool>()), 0..4);
    (95.0..132.0_f64, source, branch, cords, 0..MOTORS.len(), 2.0..16.0_f64).prop_map(
        |(volts, source, branch, cords, motor, rated_a)| Wiring {
            volts,
            source,
            branch,
            cords,
            motor,
            rated_a,
        },
    )
}

/// Volts at the motor, running and starting; a motor that cannot hold is below any.
fn volts(point: &PowerPoint) -> (f64, f64) {
    (point.running.point().map_or(0.0, |run| run.voltage.value), point.starting.voltage.value)
}

fn not_higher(after: &PowerPoint, before: &PowerPoint, what: &str) -> Result<(), TestCaseError> {
    let ((after_v, after_start_v), (before_v, before_start_v)) = (volts(after), volts(before));
    prop_assert!(after_v <= before_v + SLACK_V, "{what}: running at {after_v} V after {before_v} V");
    prop_assert!(
        after_start_v <= before_start_v + SLACK_V,
        "{what}: starting at {after_start_v} V after {before_start_v} V"
    );
    Ok(())
}

fn came(point: &PowerPoint) -> Came {
    if point.running.point().is_some() { Came::Held } else { Came::InWords }
}

#[test]
fn a_lower_supply_never_raises_the_motors_voltage() {
    law("lower supply", 150, 0.5, (wiring(), 0.001..15.0_f64), |(wiring, less_v)| {
        // A generator of the same VA for a lower voltage is built with less impedance: no such law.
        let source = match wiring.source {
            Source::Generator { .. } => Source::Held,
            other => other,
        };
        let wiring = Wiring { source, ..wiring };
        let before = wiring.point()?;
        let after = Wiring { volts: wiring.volts - less_v, ..wiring }.point()?;
        not_higher(&after, &before, "a lower supply")?;
        Ok(came(&before))
    });
}

#[test]
fn a_longer_cord_never_raises_the_motors_voltage() {
    let cord = (0..GAUGES.len(), 0.0..120.0_f64, any::<bool>());
    law("longer cord", 150, 0.5, (wiring(), cord, 0.01..100.0_f64), |(wiring, cord, more_ft)| {
        let with = |cord| {
            let mut cords = wiring.cords.clone();
            cords.push(cord);
            Wiring { cords, ..wiring.clone() }
        };
        let (plain, with_cord) = (wiring.point()?, with(cord).point()?);
        let longer = with((cord.0, cord.1 + more_ft, cord.2)).point()?;
        // Warmer conductors draw less at the start; only running is compared where they are warm.
        let running = |point: &PowerPoint| volts(point).0;
        prop_assert!(running(&with_cord) <= running(&plain) + SLACK_V, "one cord more");
        prop_assert!(running(&longer) <= running(&with_cord) + SLACK_V, "a longer cord");
        Ok(came(&with_cord))
    });
}

/// What the source gives is what the motor takes and what the copper warms by; drops add up.
/// `P = V I cos φ` at the motor, `I² R` in each element, and at the source the law of the mesh:
/// the in-phase part of its voltage is `V cos φ + I R`.
#[test]
fn the_copper_warms_by_what_the_motor_does_not_take() {
    law("copper loss", 150, 0.5, wiring(), |wiring| {
        let point = wiring.point()?;
        let Some(run) = point.running.point() else { return Ok(Came::InWords) };
        let (v, i, cosine) = (run.voltage.value, run.current.value, run.power_factor_ratio);
        let input_w = run.input_power.value;
        prop_assert!((v * i * cosine / input_w - 1.0).abs() < 1e-9, "{v} V {i} A {cosine} {input_w} W");
        let heat_w: f64 = point.elements.iter().filter_map(|e| e.heat).map(|h| h.value).sum();
        let drop_v: f64 = point.elements.iter().filter_map(|e| e.running_drop).map(|d| d.value).sum();
        let open_v = point.open_circuit.value;
        prop_assert!((open_v - drop_v - v).abs() < SLACK_V, "{open_v} V less {drop_v} V is not {v} V");
        // The source's power factor lies between one and what resistance alone leaves.
        let given_w = input_w + heat_w;
        prop_assert!(given_w <= open_v * i * (1.0 + 1e-9), "{given_w} W from {open_v} V and {i} A");
        let in_phase = v * cosine + heat_w / i;
        let across = (v * (1.0 - cosine * cosine).max(0.0).sqrt()).abs();
        prop_assert!(
            in_phase.hypot(across) <= open_v * (1.0 + 1e-9),
            "{in_phase} V and {across} V in {open_v} V"
        );
        Ok(Came::Held)
    });
}
