//! The next best check: the reading or look that is expected to tell most.
//!
//! Expected information of a check is the mutual information between what it would read and the
//! groups (or causes) that are left: `Σ w ∫ p(x|c) ln(p(x|c)/p(x)) dx`, in nats.

use super::cause::{Cause, Group};
use super::likelihood::{FlowContext, Predicted, cold_likelihood, predicted_flow, predicted_side};
use super::state::State;
use super::weights::CHILL_RATIO;
use crate::scenario::{ColdSpot, ReadingKind, ReadingsSetup};

/// A check that can be made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Check {
    /// Take a reading.
    Read(ReadingKind),
    /// Take out and look at the screen inside the machine's inlet.
    LookAtScreen,
}

impl Check {
    /// The reading, if it is one.
    pub fn reading(self) -> Option<ReadingKind> {
        match self {
            Self::Read(kind) => Some(kind),
            Self::LookAtScreen => None,
        }
    }
}

/// The best check and what it is worth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NextCheck {
    /// Which.
    pub check: Check,
    /// Expected information, nats; at most the logarithm of the number of causes.
    pub information_nats: f64,
}

const KINDS: [ReadingKind; 10] = [
    ReadingKind::SystemPressure,
    ReadingKind::MachineInlet,
    ReadingKind::Rate,
    ReadingKind::RunningVoltage,
    ReadingKind::CylinderPressure,
    ReadingKind::CylinderTemperature,
    ReadingKind::ColdPart,
    ReadingKind::ReceptacleVoltage,
    ReadingKind::Discharge,
    ReadingKind::RunningCurrent,
];

/// Less than this is not worth a walk, nats.
const WORTH_NATS: f64 = 0.01;
/// States less likely than this do not count.
const LEAST_WEIGHT: f64 = 1e-3;
/// A blocked screen is seen this often, a clean one is taken for blocked this seldom.
const SEEN_RATIO: f64 = 0.95;
const MISTAKEN_RATIO: f64 = 0.05;

/// The check that tells groups (or causes) apart best; none where nothing is worth reading.
pub(super) fn best_check(
    readings: &ReadingsSetup,
    context: &FlowContext,
    saturated_pa: f64,
    states: &[State],
    by_group: bool,
) -> Option<NextCheck> {
    let states: Vec<&State> = states.iter().filter(|state| state.weight > LEAST_WEIGHT).collect();
    let classes = classes(&states, by_group);
    let view = View { readings, context, saturated_pa, states: &states, classes: &classes };
    let mut checks: Vec<NextCheck> = KINDS
        .iter()
        .filter(|kind| !view.is_read(**kind))
        .map(|&kind| NextCheck { check: Check::Read(kind), information_nats: view.information(kind) })
        .collect();
    checks.push(NextCheck { check: Check::LookAtScreen, information_nats: view.screen_information() });
    // The first of the best, so that ties go to the easier check.
    let mut best: Option<NextCheck> = None;
    for check in checks {
        if best.is_none_or(|known| check.information_nats > known.information_nats + 1e-9) {
            best = Some(check);
        }
    }
    best.filter(|check| check.information_nats > WORTH_NATS)
}

/// The class of each state: its groups, or its causes.
fn classes(states: &[&State], by_group: bool) -> Vec<usize> {
    let mut known: Vec<Vec<Cause>> = Vec::new();
    let mut known_groups: Vec<Vec<Group>> = Vec::new();
    states
        .iter()
        .map(|state| {
            let causes = state.causes();
            if by_group {
                let groups: Vec<Group> = causes.iter().map(|cause| cause.group()).collect();
                place(&mut known_groups, groups)
            } else {
                place(&mut known, causes)
            }
        })
        .collect()
}

fn place<T: PartialEq>(known: &mut Vec<T>, item: T) -> usize {
    match known.iter().position(|other| *other == item) {
        Some(at) => at,
        None => {
            known.push(item);
            known.len() - 1
        }
    }
}

struct View<'a> {
    readings: &'a ReadingsSetup,
    context: &'a FlowContext,
    saturated_pa: f64,
    states: &'a [&'a State],
    classes: &'a [usize],
}

impl View<'_> {
    fn is_read(&self, kind: ReadingKind) -> bool {
        match kind {
            ReadingKind::ColdPart => self.readings.cold.is_some(),
            _ => self.readings.reading(kind).is_some(),
        }
    }

    fn information(&self, kind: ReadingKind) -> f64 {
        match kind {
            ReadingKind::ColdPart => self.cold_information(),
            _ => self.continuous_information(kind),
        }
    }

    /// What a state says a reading will be.
    fn predicted(&self, kind: ReadingKind, state: &State) -> Option<Predicted> {
        let tolerance = &self.readings.tolerance;
        if kind == ReadingKind::SystemPressure {
            // A fault of the source has found its own pressure; else saturation, or a chilled charge.
            let (_, flow) = state.flow.best?;
            let mean = if state.flow.cause == Cause::LowSource { flow.system_pa } else { self.saturated_pa };
            return Some(Predicted { mean, sigma: tolerance.pressure_pa.hypot(CHILL_RATIO * mean) });
        }
        let (_, flow) = state.flow.best?;
        predicted_flow(kind, &flow, tolerance, self.context)
            .or_else(|| predicted_side(kind, &state.side(), tolerance))
    }

    fn continuous_information(&self, kind: ReadingKind) -> f64 {
        let predicted: Vec<(f64, usize, Predicted)> = self
            .states
            .iter()
            .zip(self.classes)
            .filter_map(|(state, class)| Some((state.weight, *class, self.predicted(kind, state)?)))
            .filter(|(.., one)| one.mean.is_finite() && one.sigma > 0.0)
            .collect();
        let low = predicted.iter().map(|(.., one)| one.mean - 4.0 * one.sigma).fold(f64::INFINITY, f64::min);
        let high =
            predicted.iter().map(|(.., one)| one.mean + 4.0 * one.sigma).fold(f64::NEG_INFINITY, f64::max);
        let finest = predicted.iter().map(|(.., one)| one.sigma).fold(f64::INFINITY, f64::min);
        if !(high > low) || !finest.is_finite() {
            return 0.0;
        }
        let steps = ((high - low) / (0.4 * finest)).ceil().clamp(50.0, 2000.0) as usize;
        let width = (high - low) / steps as f64;
        let count = self.classes.iter().max().map_or(0, |most| most + 1);
        let mut sum = 0.0;
        for step in 0..steps {
            let x = low + (step as f64 + 0.5) * width;
            let mut joint = vec![0.0; count];
            for (weight, class, one) in &predicted {
                let z = (x - one.mean) / one.sigma;
                if let Some(slot) = joint.get_mut(*class) {
                    *slot +=
                        weight * width * (-0.5 * z * z).exp() / (one.sigma * std::f64::consts::TAU.sqrt());
                }
            }
            sum += self.column(&joint);
        }
        sum.max(0.0)
    }

    /// `Σ_c p(c,x) ln(p(c,x)/(p(c) p(x)))` of one value.
    fn column(&self, joint: &[f64]) -> f64 {
        let all: f64 = joint.iter().sum();
        let prior = |class: usize| -> f64 {
            self.states
                .iter()
                .zip(self.classes)
                .filter(|(_, own)| **own == class)
                .map(|(state, _)| state.weight)
                .sum()
        };
        joint
            .iter()
            .enumerate()
            .filter(|(_, p)| **p > 0.0)
            .map(|(class, p)| p * (p / (prior(class) * all)).ln())
            .sum()
    }

    fn cold_information(&self) -> f64 {
        let parts = self.readings.kit.parts.len();
        let spots = (0..parts).map(ColdSpot::Part).chain([ColdSpot::MachineInlet, ColdSpot::Nowhere]);
        self.discrete(spots.map(|felt| {
            move |state: &State| {
                let is = state.flow.best.map_or(ColdSpot::Nowhere, |(_, reading)| reading.cold);
                cold_likelihood(felt, is, parts)
            }
        }))
    }

    fn screen_information(&self) -> f64 {
        self.discrete([true, false].into_iter().map(|seen| {
            move |state: &State| {
                let blocked = state.flow.cause == Cause::InletScreen;
                let chance = if blocked { SEEN_RATIO } else { MISTAKEN_RATIO };
                if seen { chance } else { 1.0 - chance }
            }
        }))
    }

    fn discrete<F: Fn(&State) -> f64>(&self, outcomes: impl Iterator<Item = F>) -> f64 {
        let count = self.classes.iter().max().map_or(0, |most| most + 1);
        let mut sum = 0.0;
        for chance in outcomes {
            let mut joint = vec![0.0; count];
            for (state, class) in self.states.iter().zip(self.classes) {
                if let Some(slot) = joint.get_mut(*class) {
                    *slot += state.weight * chance(state);
                }
            }
            sum += self.column(&joint);
        }
        sum.max(0.0)
    }
}
