//! What a whole job comes to, as far as comparisons want it.

use uom::si::f64::{Mass, Time};
use uom::si::mass::kilogram;

use super::error::CompareError;
use super::headline::Headline;
use super::prices::Costs;
use crate::job::over_time::{CylinderWalls, EndsBecause, JobAnswer, JobNote, JobSetup, Recovery, follow};
use crate::job::{self, JobError};
use crate::kit::Rules;
use crate::scenario::{Document, JobPlanned, resolve_jobs};

/// The figures of one job.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JobFigures {
    /// Time to the level, pauses included; none if the level is not reached.
    pub total: Option<Time>,
    /// Part of it in which refrigerant flows.
    pub flowing: Time,
    /// What left the system.
    pub recovered: Mass,
    /// Cylinders that took some of it.
    pub cylinders: usize,
    /// Liquid that is left where the level is reached: the pressure comes back.
    pub liquid_left: Option<Mass>,
}

impl JobFigures {
    /// Of an answer.
    pub fn of(answer: &JobAnswer) -> Self {
        let is_done = matches!(answer.ends_because, EndsBecause::LevelReached | EndsBecause::AlreadyAtLevel);
        let left = answer.notes.iter().find_map(|note| match note {
            JobNote::LiquidLeft { liquid_kg, .. } => Some(Mass::new::<kilogram>(*liquid_kg)),
            _ => None,
        });
        let flows = answer.phases.iter().filter(|phase| phase.kind.flows());
        Self {
            total: is_done.then_some(answer.total),
            flowing: flows.map(|phase| phase.end - phase.start).sum(),
            recovered: answer.recovered,
            cylinders: answer.cylinders.len(),
            liquid_left: left.filter(|_| is_done),
        }
    }

    /// The same with all flows in proportion: `pauses + flowing/factor`. Neglects that heat from
    /// outside has less time then.
    ///
    /// # Example
    /// 20 min, of which 16 flow, at 0.8 of the rate: 4 + 16/0.8 = 24 min.
    pub(super) fn with_rate_times(self, factor_ratio: f64) -> Self {
        let flowing = self.flowing / factor_ratio;
        Self { total: self.total.map(|total| total - self.flowing + flowing), flowing, ..self }
    }
}

/// One kit's whole job, and what it costs.
#[derive(Debug, Clone)]
pub struct WholeJob {
    /// The job, or why it cannot be followed.
    pub answer: Result<JobAnswer, JobError>,
    costs: Costs,
}

impl WholeJob {
    /// Figures of the operating point, with those of the job.
    pub fn added_to(&self, headline: Headline) -> Headline {
        match &self.answer {
            Ok(answer) => headline.with_job(&JobFigures::of(answer)).with_cost(&self.costs),
            Err(_) => headline,
        }
    }

    /// What the kit costs on this job, its minutes not counted.
    pub fn price(&self) -> Option<f64> {
        self.costs.kit
    }
}

/// Follows the job of every kit.
///
/// # Errors
/// The document describes no whole job.
pub fn whole_jobs(document: &Document, rules: &Rules) -> Result<Vec<WholeJob>, CompareError> {
    let kits = planned(document, rules)?.kits.into_iter().zip(&document.kits);
    Ok(kits
        .map(|(job, kit)| WholeJob { answer: follow(&job.setup), costs: Costs::new(document, kit) })
        .collect())
}

/// The jobs of a document, or why it has none.
pub(super) fn planned(document: &Document, rules: &Rules) -> Result<JobPlanned, CompareError> {
    resolve_jobs(document, rules).map_err(|faults| CompareError::NoJob { faults })
}

/// A job with another operating setup: all else stays, what stands in both follows the setup.
///
/// A cylinder's temperature is changed by what it stands in, so that goes for all cylinders.
pub(super) fn with_setup(job: &JobSetup, setup: job::Setup) -> JobSetup {
    let before = job.kit.cylinder;
    let mut changed = job.clone();
    if let Recovery::PushPull(lines) = &mut changed.method {
        lines.liquid_line = setup.path.clone();
    }
    let now = setup.cylinder;
    for cylinder in &mut changed.cylinders {
        if now.temperature != before.temperature {
            cylinder.temperature = now.temperature;
            if let CylinderWalls::Exchange { surroundings, .. } = &mut cylinder.walls {
                *surroundings = now.temperature;
            }
        }
        if now.non_condensables != before.non_condensables {
            cylinder.non_condensables = now.non_condensables;
        }
    }
    changed.kit = setup;
    changed
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Measure;

    #[test]
    fn a_slower_flow_lengthens_what_flows() {
        let minutes = |minutes: f64| Time::from_si(60.0 * minutes);
        let figures = JobFigures {
            total: Some(minutes(20.0)),
            flowing: minutes(16.0),
            recovered: Mass::from_si(5.0),
            cylinders: 1,
            liquid_left: None,
        };
        let slower = figures.with_rate_times(0.8);
        assert!((slower.total.unwrap() - minutes(24.0)).si().abs() < 1e-9);
        assert_eq!(figures.with_rate_times(1.0), figures);
        assert_eq!(JobFigures { total: None, ..figures }.with_rate_times(0.8).total, None);
    }
}
