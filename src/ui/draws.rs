//! The long draws behind the window, one stage at a time: whole jobs, gains, the break-even.
//!
//! The library draws step by step; here each step asks whether to go on and tells how far it is.

use narrows::advice::withheld_because;
use narrows::compare::{
    BreakEvenBand, BreakEvenDrawing, Depth, DrawPlan, Drawing, GainBands, GainDrawing, inputs,
    methods_break_even,
};
use narrows::job::JobError;
use narrows::job::over_time::BreakEven;
use narrows::kit::Rules;
use narrows::presets::built_in_rules;

use super::progress::Wish;
use super::study::Study;

/// How many draws each stage makes.
#[derive(Clone, Copy, Debug)]
pub struct Counts {
    /// Whole jobs of every kit: some milliseconds each.
    pub jobs: usize,
    /// What counts at the operating point: some milliseconds.
    pub gains: usize,
    /// What counts in whole jobs: a dozen jobs each.
    pub job_gains: usize,
    /// Break-evens: some twenty jobs each.
    pub break_evens: usize,
}

impl Counts {
    /// What the window draws.
    pub const WINDOW: Self = Self { jobs: 256, gains: 256, job_gains: 64, break_evens: 16 };
}

/// The break-even of one kit's methods.
#[derive(Clone, Debug)]
pub struct FoundBreakEven {
    /// Which kit, by its place.
    pub kit: usize,
    /// The answer.
    pub found: Result<BreakEven, JobError>,
    /// Its band.
    pub band: Option<BreakEvenBand>,
    /// All its draws were made.
    pub is_whole: bool,
}

/// How a stage is told about.
pub struct Telling<'a> {
    /// Whether to stop; what was drawn is kept if `keep` says so.
    pub stop: &'a dyn Fn() -> bool,
    /// Whether what was drawn before a stop is kept.
    pub keep: &'a dyn Fn() -> bool,
    /// Draws made, draws wanted.
    pub tell: &'a dyn Fn(usize, usize),
}

/// Whether the study has what is wished for.
pub fn has(study: &Study, wish: Wish) -> bool {
    match wish {
        Wish::Jobs => match &study.compared {
            Some(Ok(compared)) => {
                compared.jobs.is_err() || compared.job_bands.as_ref().is_some_and(|bands| !bands.stopped)
            }
            other => other.is_some(),
        },
        Wish::Gains(kit) => match &study.ranked {
            Some(Ok(ranked)) => ranked.get(kit).is_none_or(|one| {
                let is_whole = |gains: &Option<GainBands>| {
                    gains.as_ref().is_some_and(|gains| gains.draws == gains.plan.count())
                };
                is_whole(&one.gains) && (is_whole(&one.job_gains) || !one.counts.has_jobs())
            }),
            other => other.is_some(),
        },
        Wish::BreakEven(kit) => {
            let no_charge = study.document.source.charge.is_none();
            let found = study.break_evens.iter().any(|one| one.kit == kit && one.is_whole);
            no_charge || !is_planned(study) || found
        }
    }
}

fn is_planned(study: &Study) -> bool {
    matches!(&study.jobs, Some(Ok(_)))
}

/// Draws one stage.
pub fn draw(study: &mut Study, wish: Wish, counts: Counts, telling: &Telling<'_>) {
    let Ok(rules) = built_in_rules() else { return };
    match wish {
        Wish::Jobs => draw_jobs(study, &rules, counts.jobs, telling),
        Wish::Gains(kit) => draw_gains(study, &rules, kit, counts, telling),
        Wish::BreakEven(kit) => draw_break_even(study, &rules, kit, counts.break_evens, telling),
    }
    (telling.tell)(0, 0);
}

/// Steps until all is drawn or a stop; whether what was drawn is to be kept.
fn steps(telling: &Telling<'_>, count: usize, mut step: impl FnMut() -> Option<usize>) -> bool {
    loop {
        if (telling.stop)() {
            return (telling.keep)();
        }
        match step() {
            Some(made) => (telling.tell)(made, count),
            None => return true,
        }
    }
}

/// Fewer draws make no band.
const LEAST: usize = 8;

fn draw_jobs(study: &mut Study, rules: &Rules, count: usize, telling: &Telling<'_>) {
    let Some(Ok(compared)) = &mut study.compared else { return };
    let Ok(plan) = DrawPlan::new(count, 1) else { return };
    let Ok(mut drawing) = Drawing::new(&study.document, plan, Depth::WholeJob(rules)) else { return };
    let keep = steps(telling, count, || drawing.step().then(|| drawing.made()));
    if keep && drawing.made() >= LEAST.min(count) {
        compared.job_bands = Some(drawing.bands());
        if compared.inputs.is_empty() {
            compared.inputs = inputs(&study.document);
        }
    }
}

fn draw_gains(study: &mut Study, rules: &Rules, kit: usize, counts: Counts, telling: &Telling<'_>) {
    let Some(Ok(ranked)) = &mut study.ranked else { return };
    let Some(ranked) = ranked.get_mut(kit) else { return };
    let drawn = |count: usize, depth: Depth<'_>, of: usize, before: usize| {
        let plan = DrawPlan::new(count, 1).ok()?;
        let mut drawing = GainDrawing::new(&study.document, &ranked.counts, plan, depth).ok()?;
        let telling = Telling { tell: &|made, _| (telling.tell)(before + made, of), ..*telling };
        let keep = steps(&telling, of, || drawing.step().then(|| drawing.made()));
        (keep && drawing.made() >= LEAST.min(count)).then(|| drawing.bands())
    };
    let has_jobs = ranked.counts.has_jobs();
    let of = counts.gains + if has_jobs { counts.job_gains } else { 0 };
    let gains = drawn(counts.gains, Depth::Point, of, 0);
    let job_gains = if has_jobs && gains.is_some() {
        drawn(counts.job_gains, Depth::WholeJob(rules), of, counts.gains)
    } else {
        None
    };
    (ranked.gains, ranked.job_gains) = (gains, job_gains);
}

fn draw_break_even(study: &mut Study, rules: &Rules, kit: usize, count: usize, telling: &Telling<'_>) {
    let Some(Ok(jobs)) = &study.jobs else { return };
    let (Some(job), Some(solved)) = (jobs.planned.kits.get(kit), jobs.kits.get(kit)) else { return };
    // A job that is withheld has no break-even either.
    if withheld_because(&solved.start.cautions).is_some() {
        return;
    }
    (telling.tell)(0, count);
    let found = methods_break_even(job);
    let drawing = DrawPlan::new(count, 1)
        .ok()
        .and_then(|plan| BreakEvenDrawing::new(&study.document, &job.kit.name, plan, rules).ok());
    let mut band = None;
    if let Some(mut drawing) = drawing
        && steps(telling, count, || drawing.step().then(|| drawing.made()))
        && drawing.made() >= LEAST.min(count)
    {
        band = Some(drawing.band());
    }
    let is_whole = band.as_ref().is_some_and(|band| band.draws == count);
    if band.is_some() || (telling.keep)() {
        study.break_evens.retain(|one| one.kit != kit);
        study.break_evens.push(FoundBreakEven { kit, found, band, is_whole });
    }
}
