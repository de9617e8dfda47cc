//! How well a prediction agrees with what was read: Gaussian, in logarithms of densities.

use super::flow_case::FlowReading;
use super::side::SideReading;
use super::weights::{
    CURRENT_RATIO, DISCHARGE_RATIO, DROP_RATIO, FELT_RATIO, PRESSURE_RATIO, RATE_RATIO, SHELL_K,
    VOLTAGE_RATIO,
};
use crate::scenario::{ColdSpot, Observed, ReadingKind, ReadingTolerance, ReadingsSetup};

/// A rate of nothing, for logarithms.
const LEAST_KG_S: f64 = 1e-7;

/// What a flow prediction is judged with.
#[derive(Debug, Clone, Copy)]
pub(super) struct FlowContext {
    /// Pressure of the system in the prediction.
    pub system_pa: f64,
    /// The system gauge was read, so its tolerance moves every prediction.
    pub system_was_read: bool,
    /// Drop of the path as written.
    pub clear_drop_pa: f64,
}

/// Logarithm of a Gaussian density, without its constant.
fn log_normal(miss: f64, sigma: f64) -> f64 {
    -0.5 * (miss / sigma).powi(2) - sigma.ln()
}

/// One reading's value and spread as a hypothesis predicts it: the logarithm for rates and amps.
pub(super) struct Predicted {
    pub mean: f64,
    pub sigma: f64,
}

/// The scale on which a reading is compared.
pub(super) fn on_scale(kind: ReadingKind, value: f64) -> f64 {
    match kind {
        ReadingKind::Rate | ReadingKind::RunningCurrent => value.max(LEAST_KG_S).ln(),
        _ => value,
    }
}

/// A flow reading as predicted; none for readings that are not of the flow.
pub(super) fn predicted_flow(
    kind: ReadingKind,
    flow: &FlowReading,
    tolerance: &ReadingTolerance,
    context: &FlowContext,
) -> Option<Predicted> {
    let system_ratio = if context.system_was_read { tolerance.pressure_pa / context.system_pa } else { 0.0 };
    let squares = |terms: &[f64]| terms.iter().map(|term| term * term).sum::<f64>().sqrt();
    Some(match kind {
        ReadingKind::Rate => Predicted {
            mean: flow.rate_kg_s.max(LEAST_KG_S).ln(),
            sigma: squares(&[tolerance.rate_ratio, RATE_RATIO, system_ratio]),
        },
        ReadingKind::MachineInlet => {
            let inlet = flow.machine_inlet_pa;
            let drop = (context.system_pa - inlet).clamp(0.0, context.clear_drop_pa);
            Predicted {
                mean: inlet,
                sigma: squares(&[
                    tolerance.pressure_pa,
                    system_ratio * inlet,
                    DROP_RATIO * drop,
                    PRESSURE_RATIO * inlet,
                ]),
            }
        }
        ReadingKind::Discharge => Predicted {
            mean: flow.discharge_pa,
            sigma: squares(&[tolerance.pressure_pa, DISCHARGE_RATIO * flow.discharge_pa]),
        },
        _ => return None,
    })
}

/// A reading of volts, amps or cylinder as predicted; none where there is none, or for readings of
/// the flow.
pub(super) fn predicted_side(
    kind: ReadingKind,
    side: &SideReading,
    tolerance: &ReadingTolerance,
) -> Option<Predicted> {
    let volts = |volts: Option<f64>| {
        volts.map(|mean| Predicted { mean, sigma: tolerance.voltage_v.hypot(VOLTAGE_RATIO * mean) })
    };
    match kind {
        ReadingKind::RunningVoltage => volts(side.running_v),
        ReadingKind::ReceptacleVoltage => volts(side.receptacle_v),
        ReadingKind::RunningCurrent => side.running_a.map(|amps| Predicted {
            mean: amps.max(LEAST_KG_S).ln(),
            sigma: tolerance.current_ratio.hypot(CURRENT_RATIO),
        }),
        ReadingKind::CylinderPressure => {
            let by_temperature = side.cylinder_slope_pa_k * tolerance.temperature_k.hypot(SHELL_K);
            Some(Predicted { mean: side.cylinder_pa, sigma: tolerance.pressure_pa.hypot(by_temperature) })
        }
        ReadingKind::CylinderTemperature => {
            Some(Predicted { mean: side.cylinder_k, sigma: tolerance.temperature_k.hypot(SHELL_K) })
        }
        _ => None,
    }
}

const FLOW_KINDS: [ReadingKind; 3] = [ReadingKind::Rate, ReadingKind::MachineInlet, ReadingKind::Discharge];
const POWER_KINDS: [ReadingKind; 3] =
    [ReadingKind::RunningVoltage, ReadingKind::ReceptacleVoltage, ReadingKind::RunningCurrent];
const CYLINDER_KINDS: [ReadingKind; 2] = [ReadingKind::CylinderPressure, ReadingKind::CylinderTemperature];

/// Density of the flow readings under a prediction.
pub(super) fn flow_likelihood(readings: &ReadingsSetup, flow: &FlowReading, context: &FlowContext) -> f64 {
    let mut log = 0.0;
    for kind in FLOW_KINDS {
        let Some(read) = readings.reading(kind) else { continue };
        if let Some(predicted) = predicted_flow(kind, flow, &readings.tolerance, context) {
            log += log_normal(on_scale(kind, read.value) - predicted.mean, predicted.sigma);
        }
    }
    log.exp() * readings.cold.map_or(1.0, |felt| cold_likelihood(felt, flow.cold, readings.kit.parts.len()))
}

/// Chance to feel cold there where it is here: mostly right, else anywhere.
pub(super) fn cold_likelihood(felt: ColdSpot, is: ColdSpot, parts: usize) -> f64 {
    if felt == is { FELT_RATIO } else { (1.0 - FELT_RATIO) / (parts + 1) as f64 }
}

/// Density of volts and amps under a prediction. A motor that cannot hold has no running volts.
pub(super) fn power_likelihood(readings: &ReadingsSetup, side: &SideReading) -> f64 {
    side_likelihood(readings, side, &POWER_KINDS)
}

/// Density of the cylinder's readings under a prediction.
pub(super) fn cylinder_likelihood(readings: &ReadingsSetup, side: &SideReading) -> f64 {
    side_likelihood(readings, side, &CYLINDER_KINDS)
}

fn side_likelihood(readings: &ReadingsSetup, side: &SideReading, kinds: &[ReadingKind]) -> f64 {
    let mut log = 0.0;
    for &kind in kinds {
        let Some(read) = readings.reading(kind) else { continue };
        match predicted_side(kind, side, &readings.tolerance) {
            Some(predicted) => {
                log += log_normal(on_scale(kind, read.value) - predicted.mean, predicted.sigma)
            }
            None => return 0.0,
        }
    }
    log.exp()
}

/// How many spreads each reading lies off a prediction.
pub(super) fn misses(
    readings: &ReadingsSetup,
    flow: &FlowReading,
    side: &SideReading,
    context: &FlowContext,
) -> Vec<(ReadingKind, f64)> {
    let one = |read: &Observed| {
        let predicted = predicted_flow(read.kind, flow, &readings.tolerance, context)
            .or_else(|| predicted_side(read.kind, side, &readings.tolerance))?;
        Some((read.kind, ((on_scale(read.kind, read.value) - predicted.mean) / predicted.sigma).abs()))
    };
    readings.observed.iter().filter_map(one).collect()
}

/// Whether any reading speaks of volts.
pub(super) fn power_was_read(readings: &ReadingsSetup) -> bool {
    POWER_KINDS.iter().any(|kind| readings.reading(*kind).is_some())
}

/// Whether the cylinder's pressure was read.
pub(super) fn cylinder_was_read(readings: &ReadingsSetup) -> bool {
    readings.reading(ReadingKind::CylinderPressure).is_some()
}
