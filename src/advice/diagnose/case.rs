//! The case in hand: the readings, the setup they were taken on, and every state that may be.

use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::kelvin;

use super::cause::Cause;
use super::change::{changed, own_screen, source_pa, standing_at};
use super::error::DiagnoseError;
use super::flow_case::{FlowEvidence, FlowReading, flow_evidence, flow_reading};
use super::likelihood::{FlowContext, cylinder_was_read, power_was_read};
use super::side::{SideEvidence, SideReading, cylinder_states, power_states, side_reading};
use super::state::State;
use super::weights::{CHILL_RATIO, flow_priors};
use crate::job::Setup;
use crate::scenario::{ReadingKind, ReadingsSetup};

/// Steps of volts and back pressure.
type Steps = (i64, i64);
/// Volts and back pressures this close move the flow by less than a per cent.
const STEP_V: f64 = 4.0;
const STEP_PRESSURE_RATIO: f64 = 0.04;
/// States less likely than this share of the likeliest are not looked into.
const NEGLIGIBLE_RATIO: f64 = 1e-5;

/// The readings and the setup as it stood when they were taken.
pub(super) struct Case<'a> {
    pub readings: &'a ReadingsSetup,
    /// The document's setup at the system pressure and cylinder temperature that were read.
    pub setup: Setup,
    pub saturated_pa: f64,
    pub expected: FlowReading,
    pub expected_side: SideReading,
    pub context: FlowContext,
}

impl<'a> Case<'a> {
    pub fn new(readings: &'a ReadingsSetup) -> Result<Self, DiagnoseError> {
        let mut setup = readings.kit.setup.clone();
        let written_pa = source_pa(&setup).unwrap_or_default();
        let system = readings.reading(ReadingKind::SystemPressure);
        if let Some(read) = system {
            // One look-up that fails gives the table's own reason.
            if let Err(error) = setup.refrigerant.saturation_at_pressure(read.value) {
                return Err(DiagnoseError::SystemPressure { pressure_pa: read.value, error });
            }
            if let Some(temperature) = standing_at(&setup, read.value) {
                setup.source.temperature = temperature;
            }
        }
        if let Some(read) = readings.reading(ReadingKind::CylinderTemperature) {
            if let Err(error) = setup.refrigerant.bubble_pressure_pa(read.value) {
                return Err(DiagnoseError::CylinderTemperature { temperature_k: read.value, error });
            }
            setup.cylinder.temperature = ThermodynamicTemperature::new::<kelvin>(read.value);
        }
        let expected = match flow_reading(&readings.kit, &setup) {
            Some(expected) => expected,
            None => {
                return Err(match crate::job::solve(&setup).point {
                    Err(error) => DiagnoseError::NoPoint(error),
                    Ok(_) => DiagnoseError::NothingRead,
                });
            }
        };
        let context = FlowContext {
            system_pa: expected.system_pa,
            system_was_read: system.is_some(),
            clear_drop_pa: expected.system_pa - expected.machine_inlet_pa,
        };
        let expected_side = side_reading(&setup)?;
        Ok(Self { readings, setup, saturated_pa: written_pa, expected, expected_side, context })
    }

    /// Priors of the flow's causes. Where the system gauge was read, "nothing wrong" and "low
    /// system" predict the same gauges; how far the system stands below saturation tells them apart.
    fn priors(&self) -> Vec<(Cause, f64)> {
        let kit = &self.readings.kit;
        let mut priors = flow_priors(kit, own_screen(kit));
        if self.context.system_was_read {
            let short = (1.0 - self.context.system_pa / self.saturated_pa).max(0.0);
            let as_written = (-0.5 * (short / CHILL_RATIO).powi(2)).exp();
            for (cause, weight) in &mut priors {
                match cause {
                    Cause::Nothing => *weight *= as_written,
                    Cause::LowSource => *weight *= 1.0 - as_written,
                    _ => {}
                }
            }
        }
        priors
    }

    /// Every state of power, cylinder and flow together, with its weight.
    pub fn states(&self) -> Result<Vec<State>, DiagnoseError> {
        let power = power_states(self.readings, &self.setup)?;
        let cylinder = cylinder_states(self.readings, &self.setup)?;
        let heaviest = |all: &[SideEvidence]| all.iter().map(|one| one.weight).fold(0.0, f64::max);
        let enough = NEGLIGIBLE_RATIO * heaviest(&power) * heaviest(&cylinder);
        let mut solved: Vec<(Steps, Vec<FlowEvidence>)> = Vec::new();
        let mut states = Vec::new();
        for electric in &power {
            for vessel in &cylinder {
                let weight = electric.weight * vessel.weight;
                if !(weight > enough) {
                    continue;
                }
                // States of nearly the same volts and back pressure share their flows.
                let steps = self.steps(electric, vessel);
                let at = match solved.iter().position(|(known, _)| *known == steps) {
                    Some(at) => at,
                    None => {
                        solved.push((steps, self.flow_evidences(electric, vessel)));
                        solved.len() - 1
                    }
                };
                let flows = solved.get(at).map(|(_, flows)| flows.as_slice()).unwrap_or_default();
                for (flow, (_, prior)) in flows.iter().zip(self.priors()) {
                    states.push(State {
                        flow: *flow,
                        power: *electric,
                        cylinder: *vessel,
                        weight: weight * prior * flow.marginal,
                    });
                }
            }
        }
        let all: f64 = states.iter().map(|state| state.weight).sum();
        // Readings that nothing explains at all leave every weight at zero.
        if all > 0.0 {
            for state in &mut states {
                state.weight /= all;
            }
        }
        Ok(states)
    }

    /// Volts and back pressure of a state in steps too small to move the flow. A side fault that no
    /// reading fixes is taken as written.
    fn steps(&self, electric: &SideEvidence, vessel: &SideEvidence) -> Steps {
        let written = &self.expected_side;
        let volts = match (electric.reading.running_v, written.running_v) {
            (Some(volts), Some(written)) if power_was_read(self.readings) => (volts - written) / STEP_V,
            (None, Some(_)) => f64::NEG_INFINITY,
            _ => 0.0,
        };
        let pressure = if cylinder_was_read(self.readings) {
            (vessel.reading.cylinder_pa / written.cylinder_pa).ln() / STEP_PRESSURE_RATIO
        } else {
            0.0
        };
        // Casting saturates, which is as good for a state that is far away.
        (volts.round() as i64, pressure.round() as i64)
    }

    fn flow_evidences(&self, electric: &SideEvidence, vessel: &SideEvidence) -> Vec<FlowEvidence> {
        let kit = &self.readings.kit;
        let mut setup = self.setup.clone();
        let steps = self.steps(electric, vessel);
        let power = electric.cause.filter(|_| steps.0 != 0);
        let cylinder = vessel.cause.filter(|_| steps.1 != 0);
        for (cause, severity) in [(power, electric.severity), (cylinder, vessel.severity)] {
            if let Some(with) = cause.and_then(|cause| changed(kit, &setup, cause, severity)) {
                setup = with;
            }
        }
        self.priors()
            .into_iter()
            .map(|(cause, _)| {
                // The system's pressure was read: standing low predicts what is written there.
                if cause == Cause::LowSource && self.context.system_was_read {
                    let as_read = flow_evidence(self.readings, &setup, Cause::Nothing, &self.context);
                    let severity = self.context.system_pa / self.saturated_pa;
                    return FlowEvidence {
                        cause,
                        best: as_read.best.map(|(_, best)| (severity, best)),
                        ..as_read
                    };
                }
                flow_evidence(self.readings, &setup, cause, &self.context)
            })
            .collect()
    }
}
