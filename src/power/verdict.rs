//! Judging a solved power path: what is wrong, how badly, and by which measure.
//!
//! Thresholds without a named source
//! are common practice. Current on the breaker is the motor's plus the other loads as given,
//! added in magnitude.

use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::ampacity::{AMPACITY_AMBIENT_C, Installation, ampacity_a, rated_temperature_c};
use super::finding::{Finding, Grade, Note, Verdict};
use super::motor::Motor;
use super::network::is_capped;
use super::path::{Cord, PowerPath};
use super::point::{Element, ElementKind, PowerPoint, Running, RunningPoint, StartOutcome, StartReason};
use super::solve::EQUALISED_START_TORQUE_RATIO;
use super::supply::Source;
use super::warming::{COILED_AMPACITY_RATIO, Lay};

/// Fills in verdicts and notes of a solved point.
pub(crate) fn judge(path: &PowerPath, motor: &Motor, ambient_c: f64, point: &mut PowerPoint) {
    let mut verdicts = Vec::new();
    let mut notes = Vec::new();
    judge_start(path, motor, point, &mut verdicts, &mut notes);
    match &point.running {
        Running::CannotHold(reason) => {
            verdicts.push(stop(Finding::CannotHold(*reason)));
        }
        Running::Holds(running) => {
            judge_motor(path, motor, running, &mut verdicts);
            judge_circuit(path, running, &mut verdicts);
            judge_cords(path, ambient_c, running, &point.elements, &mut verdicts);
            note_drops(path, running, &point.elements, &mut notes);
        }
    }
    let ampacity_a = ampacity_a(&path.branch.conductor, Installation::Building);
    if path.branch.breaker_a > ampacity_a * 1.001 {
        verdicts.push(warning(Finding::BreakerOverWire { breaker_a: path.branch.breaker_a, ampacity_a }));
    }
    for (cord, it) in path.cords.iter().enumerate() {
        let marking = it.marking();
        if marking.typical {
            notes.push(Note::TypicalMarking { cord, marked_a: marking.amps.get::<ampere>() });
        }
        if it.lay == Lay::Coiled {
            notes.push(Note::CoiledCord { cord });
        }
    }
    notes.extend(motor.assumed().iter().copied().map(Note::Assumed));
    notes.push(Note::KeepGroundFaultProtection);
    verdicts.sort_by_key(|verdict| std::cmp::Reverse(verdict.grade));
    point.verdicts = verdicts;
    point.notes = notes;
}

fn judge_start(
    path: &PowerPath,
    motor: &Motor,
    point: &PowerPoint,
    verdicts: &mut Vec<Verdict>,
    notes: &mut Vec<Note>,
) {
    match point.starting.outcome {
        StartOutcome::Starts => {}
        StartOutcome::MayNotStart(reason) => verdicts.push(warning(Finding::MayNotStart(reason))),
        StartOutcome::WillNotStart(reason) => verdicts.push(stop(Finding::WillNotStart(reason))),
    }
    let short_of_torque = matches!(
        point.starting.outcome,
        StartOutcome::MayNotStart(StartReason::Torque { .. })
            | StartOutcome::WillNotStart(StartReason::Torque { .. })
    );
    if short_of_torque && point.starting.load_torque_ratio > EQUALISED_START_TORQUE_RATIO {
        notes.push(Note::EqualiseBeforeStart);
    }
    // Magnetic trips of small breakers lie at 5 to 10 times their rating.
    let breaker_a = path.branch.breaker_a;
    let current_a = point.starting.branch_current.get::<ampere>();
    if current_a > 5.0 * breaker_a {
        let grade = if current_a > 10.0 * breaker_a { Grade::Warning } else { Grade::Note };
        verdicts.push(Verdict { grade, finding: Finding::BreakerAtStart { current_a, breaker_a } });
    }
    if let Source::Generator(generator) = path.supply.source() {
        let starting_a = motor.plate.voltage_v / motor.starting_impedance(1.0).magnitude();
        // Locked-rotor volt-amperes are a motor's own figure at its nameplate voltage (so NEC Table
        // 430.7(B) counts its code letters), and generators are chosen by it. Were the source's voltage
        // held, they would be (V_source/V_plate)² of it, 9 % more for 115 V on 120 V; no generator holds
        // it, and what this one's sag leaves is in the volts at start.
        let asked_va =
            motor.plate.voltage_v * starting_a + path.supply.open_circuit_v() * path.branch.other_load_a;
        let rated_va = generator.surge_va();
        if asked_va > rated_va {
            // A drive limits its own inrush, so a short generator only delays it.
            let grade = if motor.drive().is_some() { Grade::Warning } else { Grade::Stop };
            verdicts.push(Verdict { grade, finding: Finding::GeneratorSurge { asked_va, rated_va } });
        }
    }
}

/// A motor has too few volts below this share of its nameplate's (NEMA MG 1).
pub const LEAST_VOLTAGE_RATIO: f64 = 0.9;

fn judge_motor(path: &PowerPath, motor: &Motor, running: &RunningPoint, verdicts: &mut Vec<Verdict>) {
    let rated_v = motor.plate.voltage_v;
    let voltage_v = running.voltage.get::<volt>();
    let frequency_ratio = path.supply.frequency_hz() / motor.plate.frequency_hz;
    if running.voltage_ratio < LEAST_VOLTAGE_RATIO {
        verdicts.push(warning(Finding::UnderVoltage { voltage_v, rated_v }));
    } else if running.voltage_ratio > 1.1 {
        let grade = if running.voltage_ratio > 1.25 { Grade::Stop } else { Grade::Warning };
        verdicts.push(Verdict { grade, finding: Finding::OverVoltage { voltage_v, rated_v } });
    }
    if motor.drive().is_none() && frequency_ratio < 0.98 && running.voltage_ratio > 1.1 * frequency_ratio {
        let voltage_ratio = running.voltage_ratio;
        verdicts.push(warning(Finding::OverFluxed { voltage_ratio, frequency_ratio }));
    }
    if running.current_ratio > 1.005 {
        // Motor overload devices are set at 115 % where no service factor is marked
        // (NEC 430.32(A)(1), from memory).
        let grade = if running.current_ratio > 1.15 { Grade::Warning } else { Grade::Note };
        let current_a = running.current.get::<ampere>();
        let finding = Finding::MotorOverload { current_a, rated_a: motor.plate.current_a };
        verdicts.push(Verdict { grade, finding });
    }
}

fn judge_circuit(path: &PowerPath, running: &RunningPoint, verdicts: &mut Vec<Verdict>) {
    let breaker_a = path.branch.breaker_a;
    let current_a = running.current.get::<ampere>() + path.branch.other_load_a;
    if current_a > breaker_a {
        verdicts.push(stop(Finding::BreakerExceeded { current_a, breaker_a }));
    } else if current_a > 0.8 * breaker_a {
        verdicts.push(warning(Finding::BreakerContinuous { current_a, breaker_a }));
    }
    if let Source::Generator(generator) = path.supply.source() {
        // What its winding bears is a current, printed as volt-amperes at its own voltage.
        let asked_va = path.supply.open_circuit_v() * current_a;
        let rated_va = generator.continuous_va();
        if asked_va > rated_va {
            verdicts.push(stop(Finding::GeneratorContinuous { asked_va, rated_va }));
        }
    }
}

fn judge_cords(
    path: &PowerPath,
    ambient_c: f64,
    running: &RunningPoint,
    elements: &[Element],
    verdicts: &mut Vec<Verdict>,
) {
    let current_a = running.current.get::<ampere>();
    for (index, cord) in path.cords.iter().enumerate() {
        let marking = cord.marking();
        let marked_a = marking.amps.get::<ampere>();
        if current_a > marked_a {
            let grade = if current_a > 1.5 * marked_a { Grade::Stop } else { Grade::Warning };
            let typical = marking.typical;
            let finding = Finding::CordOverMarking { cord: index, current_a, marked_a, typical };
            verdicts.push(Verdict { grade, finding });
        }
        let ampacity_a = corrected_ampacity_a(cord, ambient_c);
        if current_a > ampacity_a {
            let temperature_c = elements
                .iter()
                .find(|element| element.kind == ElementKind::Cord(index))
                .and_then(|element| element.conductor_temperature)
                .map_or(ambient_c, |t| t.get::<degree_celsius>());
            // Common cord insulations end at 60 °C, the best at 90 to 105 °C.
            let grade = if temperature_c > 90.0 { Grade::Stop } else { Grade::Warning };
            let coiled = cord.lay == Lay::Coiled;
            let finding =
                Finding::CordOverAmpacity { cord: index, current_a, ampacity_a, temperature_c, coiled };
            verdicts.push(Verdict { grade, finding });
        }
    }
}

/// Ampacity at another ambient and lay: `I √((T_max − T_ambient)/(T_max − 30 °C))`, halved in a
/// coil. NEC 310.15(B) states the same rule for ambient.
fn corrected_ampacity_a(cord: &Cord, ambient_c: f64) -> f64 {
    let rated_c = rated_temperature_c(cord.conductor.gauge, Installation::Cord);
    let headroom = ((rated_c - ambient_c) / (rated_c - AMPACITY_AMBIENT_C)).max(0.0);
    let lay_ratio = match cord.lay {
        Lay::Straight => 1.0,
        Lay::Coiled => COILED_AMPACITY_RATIO,
    };
    ampacity_a(&cord.conductor, Installation::Cord) * headroom.sqrt() * lay_ratio
}

fn note_drops(path: &PowerPath, running: &RunningPoint, elements: &[Element], notes: &mut Vec<Note>) {
    let supply_v = path.supply.open_circuit_v();
    let branch_v = elements
        .iter()
        .find(|element| element.kind == ElementKind::Branch)
        .and_then(|element| element.running_drop)
        .map_or(0.0, |drop| drop.get::<volt>());
    if branch_v > 0.03 * supply_v {
        notes.push(Note::BranchDropAdvice { drop_ratio: branch_v / supply_v });
    }
    let total_ratio = 1.0 - running.voltage.get::<volt>() / supply_v;
    if total_ratio > 0.05 {
        notes.push(Note::TotalDropAdvice { drop_ratio: total_ratio });
    }
    if running.voltage_ratio < 0.97 && running.speed_ratio > 0.95 {
        let (speed_ratio, current_ratio) = (running.speed_ratio, running.current_ratio);
        notes.push(Note::SmallEffectOnRate { speed_ratio, current_ratio });
    }
    notes.extend(
        elements
            .iter()
            .filter(|e| e.conductor_temperature.is_some_and(|t| is_capped(t.get::<degree_celsius>() + 1e-9)))
            .filter(|e| e.heat.is_some_and(|heat| heat.get::<watt>() > 0.0))
            .map(|e| Note::ConductorTooHot(e.kind)),
    );
}

fn stop(finding: Finding) -> Verdict {
    Verdict { grade: Grade::Stop, finding }
}

fn warning(finding: Finding) -> Verdict {
    Verdict { grade: Grade::Warning, finding }
}
