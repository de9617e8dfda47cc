//! All states together: what is likely, whether it can be told, what to read next.

use super::case::Case;
use super::cause::{Cause, Group};
use super::error::DiagnoseError;
use super::flow_case::FlowReading;
use super::likelihood::{FlowContext, misses};
use super::next_check::{NextCheck, best_check};
use super::side::SideReading;
use super::state::State;
use crate::scenario::{ReadingKind, ReadingsSetup};

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
/// A reading this many spreads away from the likeliest state's is explained by none.
const MISFIT_SIGMA: f64 = 4.0;

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

impl Case<'_> {
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
            name: cause.name(&self.readings.kit),
            group: cause.group(),
            likelihood_ratio: with().map(|state| state.weight).sum::<f64>().clamp(0.0, 1.0),
            severity,
            flow: likeliest.flow.best.map(|(_, reading)| reading),
            side: likeliest.side(),
        })
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
