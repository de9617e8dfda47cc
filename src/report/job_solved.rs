//! Whole jobs: each kit followed to its end, with the band that the charge's own band gives.

use uom::si::f64::{Mass, Time};

use super::solved::{SolvedKit, solve_kit};
use crate::advice::{Caution, limit_cautions, withheld_because};
use crate::compare::{Band, Bands, Depth, DrawPlan, Drawing, Figure, methods_break_even};
use crate::job::JobError;
use crate::job::over_time::{BreakEven, EndsBecause, JobAnswer, JobSetup, follow};
use crate::kit::{Fault, Rules};
use crate::scenario::{Document, JobPlanned, KitJob, resolve_jobs};

/// The jobs of a document.
#[derive(Debug, Clone)]
pub struct SolvedJobs {
    /// What they share: limits, cylinders, target, times before and after.
    pub planned: JobPlanned,
    /// One a kit.
    pub kits: Vec<SolvedJob>,
    /// Cautions about cylinders, level and method, the same for every kit.
    pub cautions: Vec<Caution>,
    /// Bands over all uncertain inputs, once drawn.
    pub bands: Option<Bands>,
}

impl SolvedJobs {
    /// The band of a kit's figure, unless a Stop withholds the job.
    pub fn band(&self, kit: usize, figure: Figure) -> Option<&Band> {
        self.kits.get(kit)?.shown().ok()?;
        self.bands.as_ref()?.kits.get(kit)?.band(figure)
    }

    /// Draws bands of every kit's job.
    pub fn draw(
        &mut self,
        document: &Document,
        plan: DrawPlan,
        built_in: &Rules,
        should_stop: &dyn Fn() -> bool,
    ) {
        // The jobs were resolved already: there is no reason for a refusal left.
        let Ok(mut drawing) = Drawing::new(document, plan, Depth::WholeJob(built_in)) else { return };
        while !should_stop() && drawing.step() {}
        self.bands = Some(drawing.bands());
    }
}

/// One kit's job.
#[derive(Debug, Clone)]
pub struct SolvedJob {
    /// The kit at its first moment: rate, volts, its own cautions.
    pub start: SolvedKit,
    /// The job as it was set up.
    pub setup: JobSetup,
    /// The job, or why it cannot be followed.
    pub answer: Result<JobAnswer, JobError>,
    /// Time with the low and with the high charge, where both jobs are done.
    pub band: Option<(Time, Time)>,
}

impl SolvedJob {
    /// The job, unless a Stop withholds it or it cannot be followed.
    pub fn shown(&self) -> Result<&JobAnswer, UnshownJob<'_>> {
        if let Some(caution) = withheld_because(&self.start.cautions) {
            return Err(UnshownJob::Withheld(caution));
        }
        self.answer.as_ref().map_err(UnshownJob::NoAnswer)
    }
}

/// Why a job is not shown.
#[derive(Debug, Clone, Copy)]
pub enum UnshownJob<'a> {
    /// A Stop withholds it.
    Withheld(&'a Caution),
    /// It cannot be followed.
    NoAnswer(&'a JobError),
}

/// Follows the job of every kit. `should_stop` is looked at between kits.
///
/// # Errors
/// Every fault of the document at once.
pub fn solve_jobs(
    document: &Document,
    built_in: &Rules,
    should_stop: &dyn Fn() -> bool,
) -> Result<SolvedJobs, Vec<Fault>> {
    let planned = resolve_jobs(document, built_in)?;
    let mut kits = Vec::with_capacity(planned.kits.len());
    for job in &planned.kits {
        if should_stop() {
            break;
        }
        kits.push(solve_job(job, planned.charge_band));
    }
    let cautions = limit_cautions(&planned.ask, &planned.limits);
    Ok(SolvedJobs { planned, kits, cautions, bands: None })
}

fn solve_job(job: &KitJob, charge_band: Option<(Mass, Mass)>) -> SolvedJob {
    let answer = follow(&job.setup);
    let band = charge_band.and_then(|(low, high)| Some((done_in(job, low)?, done_in(job, high)?)));
    SolvedJob { start: solve_kit(job.kit.clone()), setup: job.setup.clone(), answer, band }
}

/// The charge above which push-pull beats liquid-then-vapour in each kit, hose change counted.
pub fn break_evens(planned: &JobPlanned) -> Vec<(String, Result<BreakEven, JobError>)> {
    planned.kits.iter().map(|job| (job.kit.name.clone(), methods_break_even(job))).collect()
}

/// The time with another charge, if that job is done.
fn done_in(job: &KitJob, charge: Mass) -> Option<Time> {
    let mut other = job.setup.clone();
    other.system.charge = charge;
    let answer = follow(&other).ok()?;
    matches!(answer.ends_because, EndsBecause::LevelReached).then_some(answer.total)
}
