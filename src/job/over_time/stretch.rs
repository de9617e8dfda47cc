//! One stretch of a job: integrated until an event, a time or a failure.

use std::cell::Cell;

use super::event::Event;
use super::moment::{JobState, Mode, Moment, Vessels};
use crate::job::JobError;
use crate::numerics::{Integrator, OdeError, RootError, Step, Tolerance, find_root};

/// What ended a stretch.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Ended {
    Event(Event),
    Time,
    Failed(JobError),
}

/// What is integrated, and how.
pub(super) struct Stretch<'s, 'a> {
    pub vessels: &'s Vessels<'a>,
    pub mode: Mode<'s, 'a>,
    pub events: Vec<Event>,
    pub until_s: f64,
    pub tolerance: f64,
    /// Sizes of the state's components that matter.
    pub scale: JobState,
}

/// An event is located to this share of its step.
const LOCATED: f64 = 1e-7;

impl Stretch<'_, '_> {
    /// Runs from a time and state; `sample(time, state, moment)` sees start, end and points
    /// between. Returns time and state at the end, and why it ended.
    pub fn run(
        &self,
        time_s: f64,
        state: JobState,
        mut sample: impl FnMut(f64, &JobState, &Moment),
    ) -> (f64, JobState, Ended) {
        let mut here = match self.moment(&state) {
            Ok(moment) => moment,
            Err(error) => return (time_s, state, Ended::Failed(error)),
        };
        sample(time_s, &state, &here);
        if let Some(event) = self.at_once(&state, &here) {
            return (time_s, state, Ended::Event(event));
        }
        let first_s = (0.01 * (self.until_s - time_s)).min(1.0);
        let mut walk = Integrator::new(time_s, state, first_s, self.tolerance, self.scale);
        let latest: Cell<Option<(JobState, Moment)>> = Cell::new(None);
        let rhs = |_: f64, state: &JobState| {
            let moment = self.moment(state)?;
            latest.set(Some((*state, moment)));
            Ok(moment.slopes)
        };
        while walk.time_s() < self.until_s {
            let before = *walk.state();
            let step = match walk.step(rhs, self.until_s) {
                Ok(step) => step,
                Err(error) => {
                    let error = match error {
                        OdeError::Function(error) => error,
                        OdeError::StepTooSmall { time_s } => JobError::CannotFollow { time_s },
                    };
                    return (walk.time_s(), before, Ended::Failed(error));
                }
            };
            let end = step.end();
            // The integrator looked at the end of its step last.
            let moment = latest.get().filter(|(state, _)| *state == end).map(|(_, moment)| Ok(moment));
            let moment = match moment.unwrap_or_else(|| self.moment(&end)) {
                Ok(moment) => moment,
                Err(error) => return (step.start_s, before, Ended::Failed(error)),
            };
            let middle = step.at(0.5);
            let halfway = self.moment(&middle).ok();
            let looks: Vec<(f64, &Moment)> =
                [(0.0, Some(&here)), (0.5, halfway.as_ref()), (1.0, Some(&moment))]
                    .into_iter()
                    .filter_map(|(share, moment)| Some((share, moment?)))
                    .collect();
            if let Some((share, event)) = self.first_event(&step, &looks) {
                let state = step.at(share);
                let time_s = step.start_s + share * step.length_s;
                if let Ok(moment) = self.moment(&state) {
                    sample(time_s, &state, &moment);
                }
                return (time_s, state, Ended::Event(event));
            }
            if let Some(moment) = &halfway {
                sample(step.start_s + 0.5 * step.length_s, &middle, moment);
            }
            // Not the step's own end, which rounding may bring past a pause's.
            sample(walk.time_s(), &end, &moment);
            here = moment;
        }
        (walk.time_s(), *walk.state(), Ended::Time)
    }

    fn moment(&self, state: &JobState) -> Result<Moment, JobError> {
        self.vessels.moment(&self.mode, state)
    }

    fn at_once(&self, state: &JobState, moment: &Moment) -> Option<Event> {
        self.events.iter().copied().find(|event| event.distance(moment, state[5]) <= 0.0)
    }

    /// The first event within a step, as a share of it.
    ///
    /// - `looks`: the step's start, its middle and its end, as shares and moments. What happens and is undone
    ///   between two of them is not seen.
    fn first_event(&self, step: &Step<7>, looks: &[(f64, &Moment)]) -> Option<(f64, Event)> {
        let happens = |&event: &Event| Some((self.happens_at(event, step, looks)?, event));
        self.events.iter().filter_map(happens).min_by(|one, other| one.0.total_cmp(&other.0))
    }

    /// Where within a step an event happens first.
    fn happens_at(&self, event: Event, step: &Step<7>, looks: &[(f64, &Moment)]) -> Option<f64> {
        let away = |&(share, moment): &(f64, &Moment)| (share, event.distance(moment, step.at(share)[5]));
        let places: Vec<(f64, f64)> = looks.iter().map(away).collect();
        let pair = places.windows(2).find(|pair| pair[0].1 > 0.0 && pair[1].1 <= 0.0)?;
        let distance = |share: f64| -> Result<f64, JobError> {
            Ok(event.distance(&self.moment(&step.at(share))?, step.at(share)[5]))
        };
        let tolerance = Tolerance { absolute: LOCATED, relative: 0.0, residual: 0.0 };
        Some(match find_root(distance, pair[0], pair[1], tolerance) {
            Ok(root) => root.upper(),
            Err(RootError::NotBracketed { .. } | RootError::Function(_)) => pair[1].0,
        })
    }
}
