//! Every reading beside what it should be: with nothing wrong, and with the likeliest cause.

use super::diagnosis_words::{predicted, value_text};
use crate::advice::diagnose::{Diagnosis, Hypothesis};
use crate::scenario::{ReadingKind, ReadingsSetup};
use crate::units::UnitSet;

/// A reading and what it might have been, in the reader's units.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadingRow {
    /// What.
    pub kind: ReadingKind,
    /// With nothing wrong; none where there is no such point.
    pub expected: Option<String>,
    /// With the likeliest cause at its likeliest severity.
    pub likeliest: Option<String>,
}

/// The numbers that can be read, in the order of the flow.
const NUMBERS: [ReadingKind; 9] = [
    ReadingKind::Rate,
    ReadingKind::SystemPressure,
    ReadingKind::MachineInlet,
    ReadingKind::Discharge,
    ReadingKind::CylinderPressure,
    ReadingKind::CylinderTemperature,
    ReadingKind::RunningVoltage,
    ReadingKind::ReceptacleVoltage,
    ReadingKind::RunningCurrent,
];

/// A row for every number that can be read.
pub fn reading_rows(readings: &ReadingsSetup, found: &Diagnosis, units: UnitSet) -> Vec<ReadingRow> {
    let text = |kind, si: Option<f64>| si.map(|si| value_text(kind, si, readings, units));
    let as_predicted = |kind, one: &Hypothesis| text(kind, predicted(one, kind));
    NUMBERS
        .iter()
        .map(|&kind| ReadingRow {
            kind,
            expected: text(kind, expected(found, kind)),
            likeliest: found.hypotheses.first().and_then(|one| as_predicted(kind, one)),
        })
        .collect()
}

fn expected(found: &Diagnosis, kind: ReadingKind) -> Option<f64> {
    let (flow, side) = (&found.expected, &found.expected_side);
    match kind {
        ReadingKind::Rate => Some(flow.rate_kg_s),
        ReadingKind::SystemPressure => Some(flow.system_pa),
        ReadingKind::MachineInlet => Some(flow.machine_inlet_pa),
        ReadingKind::Discharge => Some(flow.discharge_pa),
        ReadingKind::CylinderPressure => Some(side.cylinder_pa),
        ReadingKind::CylinderTemperature => Some(side.cylinder_k),
        ReadingKind::RunningVoltage => side.running_v,
        ReadingKind::ReceptacleVoltage => side.receptacle_v,
        ReadingKind::RunningCurrent => side.running_a,
        ReadingKind::ColdPart => None,
    }
}
