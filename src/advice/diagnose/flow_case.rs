//! What a fault of the flow makes the gauges read, over its severities.

use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;

use super::cause::Cause;
use super::change::{changed, own_screen, severity_range, source_pa};
use super::likelihood::{FlowContext, flow_likelihood};
use super::weights::COLD_DROP_RATIO;
use crate::job::{JobError, OperatingPoint, Setup, solve};
use crate::scenario::{ColdSpot, KitSetup, ReadingKind, ReadingsSetup};

/// Flow, pressures and cold as predicted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlowReading {
    /// Recovery rate; zero where there is no steady point.
    pub rate_kg_s: f64,
    /// Pressure at the system.
    pub system_pa: f64,
    /// Pressure where the machine's inlet gauge stands.
    pub machine_inlet_pa: f64,
    /// Discharge pressure.
    pub discharge_pa: f64,
    /// Where cold begins.
    pub cold: ColdSpot,
}

/// How one fault fares.
#[derive(Debug, Clone, Copy)]
pub(super) struct FlowEvidence {
    pub cause: Cause,
    /// Density of the readings, averaged over the severities.
    pub marginal: f64,
    /// The severity that agrees best, with what it predicts.
    pub best: Option<(f64, FlowReading)>,
}

/// Severities that are solved, evenly spaced in their logarithm.
const NODES: usize = 11;
/// A predicted rate below this share of the one that was read agrees with nothing.
const HOPELESS_RATIO: f64 = 0.1;
/// Severities between two solved ones that are interpolated.
const BETWEEN: usize = 8;

/// What the gauges read in this setup; none where the question has no answer at all.
pub(super) fn flow_reading(kit: &KitSetup, setup: &Setup) -> Option<FlowReading> {
    let system_pa = source_pa(setup)?;
    match solve(setup).point {
        Ok(point) => Some(reading_of(kit, &point)),
        Err(JobError::DrawsNothing { discharge_pa, .. } | JobError::CutOut { discharge_pa, .. }) => {
            Some(standing(system_pa, discharge_pa))
        }
        Err(JobError::MotorCannotHold(_) | JobError::DischargeBlocked { .. }) => {
            Some(standing(system_pa, system_pa))
        }
        Err(_) => None,
    }
}

/// Nothing flows: every gauge shows what stands before it.
fn standing(system_pa: f64, discharge_pa: f64) -> FlowReading {
    FlowReading {
        rate_kg_s: 0.0,
        system_pa,
        machine_inlet_pa: system_pa,
        discharge_pa,
        cold: ColdSpot::Nowhere,
    }
}

fn reading_of(kit: &KitSetup, point: &OperatingPoint) -> FlowReading {
    let screen = own_screen(kit);
    // The gauge stands before the screen that is inside the machine.
    let gauge = match screen.and_then(|index| point.parts.get(index)) {
        Some(part) => part.inlet_pressure,
        None => point.machine_inlet_pressure,
    };
    FlowReading {
        rate_kg_s: point.mass_flow.get::<kilogram_per_second>(),
        system_pa: point.system_pressure.get::<pascal>(),
        machine_inlet_pa: gauge.get::<pascal>(),
        discharge_pa: point.machine.discharge_pressure.get::<pascal>(),
        cold: cold_spot(point, screen),
    }
}

/// The place where the largest share of the absolute pressure is lost, if it is large enough.
fn cold_spot(point: &OperatingPoint, screen: Option<usize>) -> ColdSpot {
    let mut spots: Vec<(ColdSpot, f64)> = point
        .parts
        .iter()
        .enumerate()
        .map(|(index, part)| {
            let spot = if Some(index) == screen { ColdSpot::MachineInlet } else { ColdSpot::Part(index) };
            (spot, part.drop().value / part.inlet_pressure.value)
        })
        .collect();
    let inlet = point.machine_inlet_pressure.value;
    spots.push((ColdSpot::MachineInlet, (inlet - point.machine.suction_pressure.value) / inlet));
    let most = spots.into_iter().max_by(|a, b| a.1.total_cmp(&b.1));
    most.filter(|(_, share)| *share >= COLD_DROP_RATIO).map_or(ColdSpot::Nowhere, |(spot, _)| spot)
}

/// Solves a fault over its severities and judges it.
pub(super) fn flow_evidence(
    readings: &ReadingsSetup,
    setup: &Setup,
    cause: Cause,
    context: &FlowContext,
) -> FlowEvidence {
    let kit = &readings.kit;
    let (mild, worst) = severity_range(cause);
    let count = if mild == worst { 1 } else { NODES };
    let read_kg_s = readings.reading(ReadingKind::Rate).map(|read| read.value);
    let mut nodes: Vec<(f64, Option<FlowReading>)> = Vec::with_capacity(count);
    let mut hopeless = false;
    for index in 0..count {
        let share = index as f64 / (NODES - 1) as f64;
        let log = mild.ln() + share * (worst.ln() - mild.ln());
        // A worse fault flows less still: once far below the rate that was read, nothing agrees.
        let reading = if hopeless {
            None
        } else {
            changed(kit, setup, cause, log.exp()).and_then(|one| flow_reading(kit, &one))
        };
        hopeless |= reading.zip(read_kg_s).is_some_and(|(one, read)| one.rate_kg_s < HOPELESS_RATIO * read);
        nodes.push((log, reading));
    }
    let mut sum = 0.0;
    let mut samples = 0.0;
    let mut best: Option<(f64, (f64, FlowReading))> = None;
    let mut judge = |log: f64, reading: Option<FlowReading>| {
        samples += 1.0;
        let Some(reading) = reading else { return };
        // A fault of the source moves the system's pressure itself.
        let context = match cause {
            Cause::LowSource => FlowContext { system_pa: reading.system_pa, ..*context },
            _ => *context,
        };
        let density = flow_likelihood(readings, &reading, &context);
        sum += density;
        if best.is_none_or(|(known, _)| density > known) {
            best = Some((density, (log.exp(), reading)));
        }
    };
    for pair in nodes.windows(2) {
        let [(low, first), (high, second)] = pair else { continue };
        for step in 0..BETWEEN {
            let share = step as f64 / BETWEEN as f64;
            let between = match (first, second) {
                (Some(first), Some(second)) => Some(interpolated(first, second, share)),
                _ if share == 0.0 => *first,
                _ => None,
            };
            judge(low + share * (high - low), between);
        }
    }
    if let Some((log, reading)) = nodes.last() {
        judge(*log, *reading);
    }
    FlowEvidence { cause, marginal: sum / samples, best: best.map(|(_, best)| best) }
}

/// Between two severities: rates and pressures as powers of the severity.
fn interpolated(first: &FlowReading, second: &FlowReading, share: f64) -> FlowReading {
    let between = |a: f64, b: f64| {
        if a > 0.0 && b > 0.0 { (a.ln() + share * (b.ln() - a.ln())).exp() } else { a + share * (b - a) }
    };
    FlowReading {
        rate_kg_s: between(first.rate_kg_s, second.rate_kg_s),
        system_pa: between(first.system_pa, second.system_pa),
        machine_inlet_pa: between(first.machine_inlet_pa, second.machine_inlet_pa),
        discharge_pa: between(first.discharge_pa, second.discharge_pa),
        cold: if share < 0.5 { first.cold } else { second.cold },
    }
}
