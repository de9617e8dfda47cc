//! A diagnosis in plain sentences and as a table.

use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{ElectricCurrent, ElectricPotential, MassRate, Pressure, ThermodynamicTemperature};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;

use super::wrap::wrapped;
use crate::advice::DEFERENCE;
use crate::advice::diagnose::{CannotTell, Cause, Check, Diagnosis, Group, Hypothesis, NextCheck};
use crate::scenario::{Document, ReadingKind, ReadingsSetup};
use crate::units::{UnitSet, as_sentence};

/// What a reading is called.
pub(super) fn reading_name(kind: ReadingKind) -> &'static str {
    match kind {
        ReadingKind::Rate => "rate",
        ReadingKind::SystemPressure => "system pressure",
        ReadingKind::MachineInlet => "machine inlet pressure",
        ReadingKind::Discharge => "discharge pressure",
        ReadingKind::CylinderPressure => "cylinder pressure",
        ReadingKind::CylinderTemperature => "cylinder temperature",
        ReadingKind::RunningVoltage => "volts at the machine",
        ReadingKind::ReceptacleVoltage => "volts at the receptacle",
        ReadingKind::RunningCurrent => "amps of the machine",
        ReadingKind::ColdPart => "place where cold begins",
    }
}

/// A reading's SI value in the reader's units.
pub(super) fn value_text(kind: ReadingKind, si: f64, readings: &ReadingsSetup, units: UnitSet) -> String {
    match kind {
        ReadingKind::Rate => units.rate(MassRate::new::<kilogram_per_second>(si)),
        ReadingKind::SystemPressure
        | ReadingKind::MachineInlet
        | ReadingKind::Discharge
        | ReadingKind::CylinderPressure => {
            units.pressure(Pressure::new::<pascal>(si), readings.kit.setup.ambient.pressure)
        }
        ReadingKind::CylinderTemperature => units.temperature(ThermodynamicTemperature::new::<kelvin>(si)),
        ReadingKind::RunningVoltage | ReadingKind::ReceptacleVoltage => {
            units.voltage(ElectricPotential::new::<volt>(si))
        }
        ReadingKind::RunningCurrent => units.current(ElectricCurrent::new::<ampere>(si)),
        ReadingKind::ColdPart => String::new(),
    }
}

/// What a hypothesis predicts for a reading, in SI units.
pub(super) fn predicted(one: &Hypothesis, kind: ReadingKind) -> Option<f64> {
    match kind {
        ReadingKind::Rate => one.flow.map(|flow| flow.rate_kg_s),
        ReadingKind::SystemPressure => one.flow.map(|flow| flow.system_pa),
        ReadingKind::MachineInlet => one.flow.map(|flow| flow.machine_inlet_pa),
        ReadingKind::Discharge => one.flow.map(|flow| flow.discharge_pa),
        ReadingKind::CylinderPressure => Some(one.side.cylinder_pa),
        ReadingKind::CylinderTemperature => Some(one.side.cylinder_k),
        ReadingKind::RunningVoltage => one.side.running_v,
        ReadingKind::ReceptacleVoltage => one.side.receptacle_v,
        ReadingKind::RunningCurrent => one.side.running_a,
        ReadingKind::ColdPart => None,
    }
}

/// The readings that speak for or against a group.
fn telling(group: Group) -> &'static [ReadingKind] {
    match group {
        Group::Power => &[
            ReadingKind::RunningVoltage,
            ReadingKind::ReceptacleVoltage,
            ReadingKind::RunningCurrent,
            ReadingKind::Rate,
        ],
        Group::Cylinder => {
            &[ReadingKind::CylinderPressure, ReadingKind::CylinderTemperature, ReadingKind::Discharge]
        }
        Group::None => &[
            ReadingKind::Rate,
            ReadingKind::MachineInlet,
            ReadingKind::RunningVoltage,
            ReadingKind::CylinderPressure,
        ],
        Group::Path | Group::Machine | Group::Source => &[
            ReadingKind::Rate,
            ReadingKind::SystemPressure,
            ReadingKind::MachineInlet,
            ReadingKind::Discharge,
        ],
    }
}

/// Why a hypothesis stands where it does: what it would make the gauges read, beside what they read.
pub fn because_text(one: &Hypothesis, readings: &ReadingsSetup, units: UnitSet) -> String {
    let compared: Vec<String> = telling(one.group)
        .iter()
        .filter_map(|&kind| {
            let read = readings.reading(kind)?;
            let says = predicted(one, kind)?;
            Some(format!(
                "{} {} (read {})",
                reading_name(kind),
                value_text(kind, says, readings, units),
                value_text(kind, read.value, readings, units),
            ))
        })
        .collect();
    let lead = lead(one, readings, units);
    if compared.is_empty() {
        return format!("{} No reading speaks of it.", as_sentence(&lead));
    }
    as_sentence(&format!("{lead} would give {}", compared.join(", ")))
}

fn lead(one: &Hypothesis, readings: &ReadingsSetup, units: UnitSet) -> String {
    let severity = one.severity.unwrap_or(1.0);
    let share = units.share(severity);
    match one.cause {
        Cause::Nothing => "everything as written".to_owned(),
        Cause::PartBlocked(index) => {
            let name = readings.kit.parts.get(index).map_or("the part", |part| part.name.as_str());
            format!("{name} at {share} of its open area")
        }
        Cause::SecondPartBlocked(_) | Cause::DischargePartBlocked(_) => {
            format!("{} to {share} of its area", one.name)
        }
        Cause::InletScreen => format!("the screen inside the machine at {share} of its open area"),
        Cause::WornMachine => format!("a machine that draws {share} of its displacement"),
        Cause::LowSource => format!("a system at {share} of its saturation pressure"),
        Cause::WeakSupply => format!("a supply at {share} of its voltage"),
        Cause::LossyCord => format!("{} ohm in cord or plug", units.number(severity)),
        Cause::HotCylinder => format!("a cylinder {} K hotter", units.number(severity)),
        Cause::AirInCylinder => {
            format!("{} of air in the cylinder", units.pressure_loss(Pressure::new::<pascal>(severity)))
        }
    }
}

/// The verdict in a sentence or two.
pub fn verdict_text(found: &Diagnosis, readings: &ReadingsSetup, units: UnitSet) -> String {
    if let Some(cannot) = &found.cannot_tell {
        return cannot_tell_text(cannot);
    }
    let inside = found.hypotheses.iter().find(|one| Some(one.group) == found.verdict());
    let first = inside.map_or("nothing wrong", |one| one.name.as_str());
    let expected = units.rate(MassRate::new::<kilogram_per_second>(found.expected.rate_kg_s));
    match found.verdict() {
        Some(Group::Path) => {
            let lost = readings
                .reading(ReadingKind::SystemPressure)
                .zip(readings.reading(ReadingKind::MachineInlet));
            let takes = lost.map_or(String::new(), |(system, inlet)| {
                let psi = |pa: f64| units.pressure_loss(Pressure::new::<pascal>(pa));
                format!(
                    " It takes {}, where {} is expected.",
                    psi((system.value - inlet.value).max(0.0)),
                    psi((found.expected.system_pa - found.expected.machine_inlet_pa).max(0.0)),
                )
            });
            format!(
                "Path: something between system and machine holds the flow back.{takes} Likeliest: {first}."
            )
        }
        Some(Group::Machine) => format!(
            "Machine: the pressure arrives and is not drawn; about {expected} is expected. Look at its inlet screen \
             first, then valves and seals."
        ),
        Some(Group::Power) => {
            format!("Power first: {first}. Fix it, then read again before blaming the machine.")
        }
        Some(Group::Cylinder) => {
            format!("Cylinder first: {first}. Compare its pressure with saturation at its temperature.")
        }
        Some(Group::Source) => format!(
            "Low system pressure: the system stands below saturation at its temperature, and about {expected} is all \
             that can be expected there."
        ),
        Some(Group::None) | None => {
            format!("Nothing wrong: about {expected} is expected, and the readings agree.")
        }
    }
}

/// "Cannot tell between … and …", with the reading that is missing.
pub fn cannot_tell_text(cannot: &CannotTell) -> String {
    if cannot.unexplained {
        return "Cannot tell: no cause that is looked at explains these readings; take them again."
            .to_owned();
    }
    let because = match cannot.missing {
        Some(ReadingKind::ColdPart) => "nobody felt where cold begins".to_owned(),
        Some(kind) => format!("no {} was read", reading_name(kind)),
        None => "the readings agree with both".to_owned(),
    };
    format!("Cannot tell between {} and {}: {because}.", cannot.first.label(), cannot.second.label())
}

/// What to do next, in a sentence.
pub fn next_check_text(next: &NextCheck) -> String {
    let text = match next.check {
        Check::LookAtScreen => {
            "Open the machine's inlet as its instructions say and look at the screen inside it."
        }
        Check::Read(ReadingKind::Rate) => "Time the scale over ten minutes.",
        Check::Read(ReadingKind::SystemPressure) => {
            "Read a gauge at the system itself, before the first part of the path."
        }
        Check::Read(ReadingKind::MachineInlet) => "Read the gauge at the machine's inlet.",
        Check::Read(ReadingKind::Discharge) => "Read the machine's discharge gauge.",
        Check::Read(ReadingKind::CylinderPressure) => "Read the pressure at the cylinder.",
        Check::Read(ReadingKind::CylinderTemperature) => "Measure the cylinder's temperature.",
        Check::Read(ReadingKind::RunningVoltage) => "Measure the volts at the machine while it runs.",
        Check::Read(ReadingKind::ReceptacleVoltage) => {
            "Measure the volts at the receptacle while the machine runs: that tells supply from cord."
        }
        Check::Read(ReadingKind::RunningCurrent) => "Measure the machine's amps while it runs.",
        Check::Read(ReadingKind::ColdPart) => {
            "Feel along the path for the first cold or frosted fitting: the pressure falls there."
        }
    };
    text.to_owned()
}

/// What else should be known.
pub fn diagnosis_notes(found: &Diagnosis, readings: &ReadingsSetup, units: UnitSet) -> Vec<String> {
    let mut notes = Vec::new();
    if let Some(read) = readings.reading(ReadingKind::SystemPressure)
        && read.value > found.saturated_pa + 2.0 * read.tolerance
    {
        notes.push(format!(
            "The system reads {}, above saturation at the temperature written, {}: air, another refrigerant, or \
             another temperature?",
            value_text(ReadingKind::SystemPressure, read.value, readings, units),
            value_text(ReadingKind::SystemPressure, found.saturated_pa, readings, units),
        ));
    }
    if let Some(read) = readings.reading(ReadingKind::CylinderPressure)
        && read.value + 4.0 * read.tolerance < found.expected_side.cylinder_pa
    {
        notes.push(
            "The cylinder reads well below saturation at its temperature: it is colder inside, holds vapour only, or \
             another refrigerant."
                .to_owned(),
        );
    }
    for (kind, miss) in &found.misfits {
        notes.push(format!(
            "The {} does not fit even the likeliest cause: {} times its tolerance off. Read it again.",
            reading_name(*kind),
            units.number(*miss),
        ));
    }
    notes.push(
        "Likelihoods compare these hypotheses with one another, one moment's readings and a model. Power and \
         cylinder may be at fault beside another, so that all add up to more than 100 %; a cause that is not \
         listed has none."
            .to_owned(),
    );
    notes
}

/// Hypotheses less likely than this are left out of the table.
const SHOWN_RATIO: f64 = 0.005;

/// The whole answer of `narrows diagnose`.
pub fn diagnosis_table(
    document: &Document,
    readings: &ReadingsSetup,
    found: &Diagnosis,
    units: UnitSet,
) -> String {
    let mut lines = vec![
        format!("{} - kit {}", document.title, readings.kit.name),
        String::new(),
        wrapped(&verdict_text(found, readings, units), ""),
    ];
    if let Some(next) = &found.next_check {
        lines.push(wrapped(&next_check_text(next), "Next: "));
    }
    lines.push(String::new());
    lines.push(format!("{:<12}{:<11}{}", "Likelihood", "Group", "Cause"));
    for one in found.hypotheses.iter().filter(|one| one.likelihood_ratio >= SHOWN_RATIO) {
        lines.push(format!(
            "{:<12}{:<11}{}",
            format!("{:.0} %", 100.0 * one.likelihood_ratio),
            one.group.tag(),
            one.name
        ));
        lines.push(wrapped(&because_text(one, readings, units), &format!("{:<23}", "")));
    }
    lines.push(String::new());
    lines.extend(diagnosis_notes(found, readings, units).iter().map(|note| wrapped(note, "")));
    lines.extend([String::new(), wrapped(DEFERENCE, "")]);
    lines.join("\n") + "\n"
}
