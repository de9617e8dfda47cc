//! A diagnosis for programs. SI units, pressures absolute; keys only ever added.

use serde_json::{Value, json};

use super::diagnosis_words::{
    because_text, cannot_tell_text, diagnosis_notes, next_check_text, predicted, reading_name, verdict_text,
};
use crate::advice::DEFERENCE;
use crate::advice::diagnose::{Check, Diagnosis, FlowReading, Hypothesis, SideReading};
use crate::scenario::{ColdSpot, Document, ReadingKind, ReadingsSetup};
use crate::units::UnitSet;

/// The whole answer of `narrows diagnose --json`.
pub fn diagnosis_json(
    document: &Document,
    readings: &ReadingsSetup,
    found: &Diagnosis,
    units: UnitSet,
) -> Value {
    json!({
        "narrows": document.version,
        "title": document.title,
        "kit": readings.kit.name,
        "verdict": found.cannot_tell.is_none().then(|| found.verdict().map(|group| group.tag())),
        "verdict_words": verdict_text(found, readings, units),
        "hypotheses": found.hypotheses.iter().map(|one| hypothesis_json(one, readings, units)).collect::<Vec<_>>(),
        "groups": found.groups.iter().map(|(group, likelihood)| json!({
            "group": group.tag(), "likelihood": likelihood,
        })).collect::<Vec<_>>(),
        "next_check": found.next_check.as_ref().map(next_check_text),
        "next_check_reading": found.next_check.as_ref().map(|next| match next.check {
            Check::Read(kind) => tag(kind),
            Check::LookAtScreen => "inlet_screen",
        }),
        "next_check_information_nats": found.next_check.as_ref().map(|next| next.information_nats),
        "cannot_tell": found.cannot_tell.as_ref().map(cannot_tell_text),
        "cannot_tell_between": found.cannot_tell.as_ref().map(|cannot| [cannot.first.tag(), cannot.second.tag()]),
        "misfits": found.misfits.iter().map(|(kind, miss)| json!({
            "reading": tag(*kind), "times_tolerance": miss,
        })).collect::<Vec<_>>(),
        "expected": {
            "flow": flow_json(&found.expected, readings),
            "side": side_json(&found.expected_side),
        },
        "readings": readings.observed.iter().map(|one| json!({
            "reading": tag(one.kind), "name": reading_name(one.kind), "value": one.value, "tolerance": one.tolerance,
        })).collect::<Vec<_>>(),
        "notes": diagnosis_notes(found, readings, units),
        "deference": DEFERENCE,
    })
}

fn tag(kind: ReadingKind) -> &'static str {
    match kind {
        ReadingKind::Rate => "rate",
        ReadingKind::SystemPressure => "system_pressure",
        ReadingKind::MachineInlet => "machine_inlet_pressure",
        ReadingKind::Discharge => "discharge_pressure",
        ReadingKind::CylinderPressure => "cylinder_pressure",
        ReadingKind::CylinderTemperature => "cylinder_temperature",
        ReadingKind::RunningVoltage => "running_voltage",
        ReadingKind::ReceptacleVoltage => "receptacle_voltage",
        ReadingKind::RunningCurrent => "running_current",
        ReadingKind::ColdPart => "cold_part",
    }
}

fn hypothesis_json(one: &Hypothesis, readings: &ReadingsSetup, units: UnitSet) -> Value {
    json!({
        "name": one.name,
        "cause": one.cause.tag(),
        "group": one.group.tag(),
        "likelihood": one.likelihood_ratio,
        "because": because_text(one, readings, units),
        "severity": one.severity,
        "predicts": readings.observed.iter().filter_map(|read| {
            Some(json!({ "reading": tag(read.kind), "value": predicted(one, read.kind)?, "read": read.value }))
        }).collect::<Vec<_>>(),
        "cold": one.flow.map(|flow| cold_text(flow.cold, readings)),
    })
}

fn cold_text(cold: ColdSpot, readings: &ReadingsSetup) -> String {
    match cold {
        ColdSpot::Nowhere => "nowhere".to_owned(),
        ColdSpot::MachineInlet => "machine inlet".to_owned(),
        ColdSpot::Part(index) => {
            readings.kit.parts.get(index).map_or_else(|| index.to_string(), |part| part.name.clone())
        }
    }
}

fn flow_json(flow: &FlowReading, readings: &ReadingsSetup) -> Value {
    json!({
        "rate_kg_s": flow.rate_kg_s,
        "system_pa": flow.system_pa,
        "machine_inlet_pa": flow.machine_inlet_pa,
        "discharge_pa": flow.discharge_pa,
        "cold": cold_text(flow.cold, readings),
    })
}

fn side_json(side: &SideReading) -> Value {
    json!({
        "running_v": side.running_v,
        "receptacle_v": side.receptacle_v,
        "running_a": side.running_a,
        "cylinder_pa": side.cylinder_pa,
        "cylinder_k": side.cylinder_k,
    })
}
