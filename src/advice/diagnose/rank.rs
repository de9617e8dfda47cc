//! All states together: what is likely, whether it can be told, what to read next.

use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::kelvin;

use super::cause::{Cause, Group};
use super::change::{changed, own_screen, source_pa, standing_at};
use super::error::DiagnoseError;
use super::flow_case::{FlowEvidence, FlowReading, flow_evidence, flow_reading};
use super::likelihood::{FlowContext, cylinder_was_read, misses, power_was_read};
use super::next_check::{NextCheck, State, best_check};
use super::side::{SideEvidence, SideReading, cylinder_states, power_states, side_reading};
use super::weights::{CHILL_RATIO, flow_priors};
use crate::job::Setup;
use crate::kit::PartKind;
use crate::scenario::{PartName, ReadingKind, ReadingsSetup};

/// What is likely.
#[derive(Debug, Clone)]
pub struct Diagnosis {
    /// Every hypothesis, the likeliest first.
    pub hypotheses: Vec<Hypothesis>,
    /// Every group, the likeliest first. Power and cylinder may be at fault beside another group,
    /// so these need not add up to one.
    pub groups: Vec<(Group, f64)>,
    /// Why no verdict is given, if none is.
    pub cannot_tell: Option<CannotTell>,
    /// The reading or look that would separate what is left.
    pub next_check: Option<NextCheck>,
    /// The readings that even the likeliest causes do not explain, with how many times their
    /// tolerance they are off.
    pub misfits: Vec<(ReadingKind, f64)>,
    /// What the gauges would read with nothing wrong, at the system pressure that was read.
    pub expected: FlowReading,
    /// What meter and cylinder would read with nothing wrong.
    pub expected_side: SideReading,
    /// Saturation pressure of the system at the temperature written.
    pub saturated_pa: f64,
}

impl Diagnosis {
    /// The likeliest group.
    pub fn verdict(&self) -> Option<Group> {
        self.groups.first().map(|(group, _)| *group)
    }
}

/// One cause and how it fares.
#[derive(Debug, Clone)]
pub struct Hypothesis {
    /// The cause.
    pub cause: Cause,
    /// What it is called: a part by its name.
    pub name: String,
    /// Its group.
    pub group: Group,
    /// Probability, 0 to 1, that it is at fault, alone or beside another.
    pub likelihood_ratio: f64,
    /// The severity that agrees best with the readings.
    pub severity: Option<f64>,
    /// What it makes the gauges read, at that severity.
    pub flow: Option<FlowReading>,
    /// What it makes meter and cylinder read.
    pub side: SideReading,
}

/// Two groups that the readings do not separate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CannotTell {
    /// One of them.
    pub first: Group,
    /// The other.
    pub second: Group,
    /// The reading that was not taken and would separate them most.
    pub missing: Option<ReadingKind>,
    /// No cause that is looked at explains the readings at all.
    pub unexplained: bool,
}

/// A group at least this likely is a verdict.
const VERDICT_RATIO: f64 = 0.8;
/// Steps of volts and back pressure.
type Steps = (i64, i64);
/// Volts and back pressures this close move the flow by less than a per cent.
const STEP_V: f64 = 4.0;
const STEP_PRESSURE_RATIO: f64 = 0.04;
/// A reading this many spreads away from the likeliest state's is explained by none.
const MISFIT_SIGMA: f64 = 4.0;
/// States less likely than this share of the likeliest are not looked into.
const NEGLIGIBLE_RATIO: f64 = 1e-5;

/// Cylinder and volts are read directly and quickly put right: they go first where certain, the
/// cylinder before the volts.
fn direct_rank(groups: &[(Group, f64)], group: Group) -> u8 {
    let certain = groups.iter().any(|(one, likelihood)| *one == group && *likelihood >= VERDICT_RATIO);
    match group {
        Group::Cylinder if certain => 0,
        Group::Power if certain => 1,
        _ => 2,
    }
}

/// Finds the cause.
///
/// # Errors
/// No reading at all; readings outside the refrigerant's table; a setup that has no operating point
/// even without a fault.
pub fn diagnose(readings: &ReadingsSetup) -> Result<Diagnosis, DiagnoseError> {
    if readings.observed.is_empty() && readings.cold.is_none() {
        return Err(DiagnoseError::NothingRead);
    }
    let case = Case::new(readings)?;
    let states = case.states()?;
    Ok(case.diagnosis(&states))
}

fn blocked_name(part: Option<&PartName>) -> String {
    match part {
        Some(part) if part.kind == PartKind::FilterDrier => format!("{} loaded", part.name),
        Some(part) if part.kind == PartKind::Hose => format!("{} kinked or blocked", part.name),
        Some(part) => format!("{} blocked or not open", part.name),
        None => "A part blocked".to_owned(),
    }
}

/// The readings and the setup as it stood when they were taken.
struct Case<'a> {
    readings: &'a ReadingsSetup,
    /// The document's setup at the system pressure and cylinder temperature that were read.
    setup: Setup,
    saturated_pa: f64,
    expected: FlowReading,
    expected_side: SideReading,
    context: FlowContext,
}

impl<'a> Case<'a> {
    fn new(readings: &'a ReadingsSetup) -> Result<Self, DiagnoseError> {
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
    fn states(&self) -> Result<Vec<State>, DiagnoseError> {
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

    fn diagnosis(&self, states: &[State]) -> Diagnosis {
        let mut causes: Vec<Cause> = Vec::new();
        for state in states {
            for cause in state.causes() {
                if !causes.contains(&cause) {
                    causes.push(cause);
                }
            }
        }
        let mut hypotheses: Vec<Hypothesis> =
            causes.into_iter().filter_map(|cause| self.hypothesis(states, cause)).collect();
        let groups = self.groups(states);
        let certain = |group: Group| direct_rank(&groups, group);
        hypotheses.sort_by(|a, b| {
            certain(a.group).cmp(&certain(b.group)).then(b.likelihood_ratio.total_cmp(&a.likelihood_ratio))
        });
        let unsure = groups.first().is_none_or(|(_, likelihood)| *likelihood < VERDICT_RATIO);
        let by_group = best_check(self.readings, &self.context, self.saturated_pa, states, true);
        let by_cause = best_check(self.readings, &self.context, self.saturated_pa, states, false);
        let cannot_tell = match (unsure, groups.as_slice()) {
            // In a fixed order, so that the sentence does not turn on the last per cent.
            (true, [(first, _), (second, _), ..]) => Some(CannotTell {
                first: *first.min(second),
                second: *first.max(second),
                missing: by_group.as_ref().and_then(|check| check.check.reading()),
                unexplained: groups.iter().all(|(_, likelihood)| *likelihood == 0.0),
            }),
            _ => None,
        };
        Diagnosis {
            hypotheses,
            groups,
            misfits: self.misfits(states),
            next_check: if cannot_tell.is_some() { by_group.or(by_cause) } else { by_cause },
            cannot_tell,
            expected: self.expected,
            expected_side: self.expected_side,
            saturated_pa: self.saturated_pa,
        }
    }

    /// What the likeliest state misses by far.
    fn misfits(&self, states: &[State]) -> Vec<(ReadingKind, f64)> {
        let likeliest = states.iter().max_by(|a, b| a.weight.total_cmp(&b.weight));
        let Some((state, (_, flow))) = likeliest.and_then(|state| Some((state, state.flow.best?))) else {
            return Vec::new();
        };
        let context = FlowContext { system_pa: flow.system_pa, ..self.context };
        let all = misses(self.readings, &flow, &state.side(), &context);
        all.into_iter().filter(|(_, miss)| *miss > MISFIT_SIGMA).collect()
    }

    fn hypothesis(&self, states: &[State], cause: Cause) -> Option<Hypothesis> {
        let with = || states.iter().filter(|state| state.causes().contains(&cause));
        let likeliest = with().max_by(|a, b| a.weight.total_cmp(&b.weight))?;
        let severity = match cause.group() {
            Group::Power => Some(likeliest.power.severity),
            Group::Cylinder => Some(likeliest.cylinder.severity),
            Group::None => None,
            _ => likeliest.flow.best.map(|(severity, _)| severity),
        };
        Some(Hypothesis {
            cause,
            name: self.name_of(cause),
            group: cause.group(),
            likelihood_ratio: with().map(|state| state.weight).sum::<f64>().clamp(0.0, 1.0),
            severity,
            flow: likeliest.flow.best.map(|(_, reading)| reading),
            side: likeliest.side(),
        })
    }

    fn name_of(&self, cause: Cause) -> String {
        let kit = &self.readings.kit;
        match cause {
            Cause::Nothing => "Nothing wrong".to_owned(),
            Cause::PartBlocked(index) => blocked_name(kit.parts.get(index)),
            Cause::SecondPartBlocked(index) => {
                format!("Second port: {}", blocked_name(kit.second_parts.get(index)))
            }
            Cause::DischargePartBlocked(index) => {
                format!("Discharge: {}", blocked_name(kit.discharge_parts.get(index)))
            }
            Cause::InletScreen => "Inlet screen inside the machine blocked".to_owned(),
            Cause::WornMachine => "Machine worn: valves or seals".to_owned(),
            Cause::LowSource => "System cold or low".to_owned(),
            Cause::WeakSupply => "Low voltage from supply or branch circuit".to_owned(),
            Cause::LossyCord => "Voltage lost in cord or plug".to_owned(),
            Cause::HotCylinder => "Hot cylinder".to_owned(),
            Cause::AirInCylinder => "Air or other non-condensables in the cylinder".to_owned(),
        }
    }

    fn groups(&self, states: &[State]) -> Vec<(Group, f64)> {
        let mut groups: Vec<(Group, f64)> = Group::ALL
            .iter()
            .map(|&group| {
                let inside = |state: &&State| state.causes().iter().any(|cause| cause.group() == group);
                (group, states.iter().filter(inside).map(|state| state.weight).sum::<f64>().clamp(0.0, 1.0))
            })
            .collect();
        let unsorted = groups.clone();
        groups.sort_by(|a, b| {
            direct_rank(&unsorted, a.0).cmp(&direct_rank(&unsorted, b.0)).then(b.1.total_cmp(&a.1))
        });
        groups
    }
}
