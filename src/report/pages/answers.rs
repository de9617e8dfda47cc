//! Everything that pages say, solved once.

use crate::advice::limit_cautions;
use crate::compare::Prices;
use crate::job::{JobLimits, LimitsAsk, OperatingPoint, job_limits};
use crate::kit::{Fault, Rules};
use crate::presets::Shelf;
use crate::report::compared::{Compared, Draws, compare_document};
use crate::report::job_solved::{SolvedJob, SolvedJobs, solve_jobs};
use crate::report::ranked::{Ranked, rank_document};
use crate::report::solved::{SolvedKit, solve_document};
use crate::scenario::{Document, resolve_limits};

use super::cautions::{PageCaution, gathered};

/// What pages are asked for.
#[derive(Debug, Clone, Copy)]
pub struct PageAsk<'a> {
    /// The rules where the document has none of its own.
    pub rules: &'a Rules,
    /// The shelf that changes are looked for on.
    pub shelf: &'a Shelf,
    /// How bands are drawn.
    pub draws: Draws,
    /// Also follow the whole job of each change in what counts: some dozens a kit.
    pub follow_changes: bool,
    /// The kit that customer, crew and class pages are about; the first if left out.
    pub kit: Option<&'a str>,
}

/// The answers that pages are made of.
#[derive(Debug, Clone)]
pub struct PageAnswers {
    /// Every kit.
    pub kits: Vec<SolvedKit>,
    /// The jobs, or what they lack, in sentences.
    pub jobs: Result<SolvedJobs, Vec<String>>,
    /// What cylinders, level and method depend on.
    pub ask: LimitsAsk,
    /// Cylinders, level and method.
    pub limits: JobLimits,
    /// Kits side by side, or why not.
    pub compared: Result<Compared, String>,
    /// What counts in each kit, or why that is not known.
    pub ranked: Result<Vec<Ranked>, String>,
    /// Every caution of the document, Stops first.
    pub cautions: Vec<PageCaution>,
    /// Place of the kit that the pages are about.
    pub hand: usize,
}

impl PageAnswers {
    /// The kit that the pages are about.
    pub fn kit(&self) -> Option<&SolvedKit> {
        self.kits.get(self.hand)
    }

    /// Its job, if jobs could be followed at all.
    pub fn job(&self) -> Option<&SolvedJob> {
        self.jobs.as_ref().ok()?.kits.get(self.hand)
    }

    /// Its operating point, if it may be shown.
    pub fn point(&self) -> Option<&OperatingPoint> {
        self.kit()?.shown_point().ok()
    }
}

/// Why there are no pages.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PagesError {
    /// The document has faults.
    #[error("{}", faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))]
    Faults {
        /// All of them.
        faults: Vec<Fault>,
    },
    /// No such kit.
    #[error("kit {name:?}: there is none of this name; expected one of {known}")]
    NoKit {
        /// The name that was asked for.
        name: String,
        /// Those that there are.
        known: String,
    },
}

impl From<Vec<Fault>> for PagesError {
    fn from(faults: Vec<Fault>) -> Self {
        Self::Faults { faults }
    }
}

/// Solves everything that the pages of a document say.
///
/// # Errors
/// The document's faults, or a kit that it has not. What only the job lacks is no error: the pages
/// say it.
pub fn page_answers(
    document: &Document,
    ask: PageAsk<'_>,
    should_stop: &dyn Fn() -> bool,
) -> Result<PageAnswers, PagesError> {
    let kits = solve_document(document)?;
    let hand = place_of(document, ask.kit)?;
    let limits_ask = resolve_limits(document, ask.rules)?;
    let limits = job_limits(&limits_ask);
    let mut jobs = solve_jobs(document, ask.rules, should_stop)
        .map_err(|faults| faults.iter().map(ToString::to_string).collect());
    let compared =
        compare_document(document, ask.rules, ask.draws, should_stop).map_err(|error| error.to_string());
    if let Ok(jobs) = &mut jobs {
        match (&compared, ask.draws.jobs) {
            // The same draws.
            (Ok(compared), _) => jobs.bands.clone_from(&compared.job_bands),
            (Err(_), Some(plan)) => jobs.draw(document, plan, ask.rules, should_stop),
            (Err(_), None) => {}
        }
    }
    let job_kits = jobs.as_ref().map(|jobs: &SolvedJobs| jobs.kits.iter().map(|job| &job.start).collect());
    let cautions =
        gathered(job_kits.unwrap_or_else(|_| kits.iter().collect()), limit_cautions(&limits_ask, &limits));
    Ok(PageAnswers {
        compared,
        ranked: ranked(document, ask, should_stop),
        kits,
        jobs,
        ask: limits_ask,
        limits,
        cautions,
        hand,
    })
}

fn ranked(
    document: &Document,
    ask: PageAsk<'_>,
    should_stop: &dyn Fn() -> bool,
) -> Result<Vec<Ranked>, String> {
    let said = |error: crate::compare::CompareError| error.to_string();
    let mut ranked = rank_document(document, ask.shelf, &Prices::of(document)).map_err(said)?;
    for kit in ranked.iter_mut().filter(|_| ask.follow_changes) {
        kit.follow_jobs(document, ask.rules, should_stop);
    }
    Ok(ranked)
}

fn place_of(document: &Document, name: Option<&str>) -> Result<usize, PagesError> {
    let Some(name) = name else { return Ok(0) };
    document.kits.iter().position(|kit| kit.name == name).ok_or_else(|| PagesError::NoKit {
        name: name.to_owned(),
        known: document.kits.iter().map(|kit| kit.name.as_str()).collect::<Vec<_>>().join(", "),
    })
}
