//! What is worked out behind the operating point: limits, jobs over time, card, readings and log,
//! what counts, bands.
//!
//! It comes in steps, the quick ones first, each with the document it is for. A newer document
//! ends the work on an older one.

use narrows::advice::{Caution, limit_cautions};
use narrows::compare::{DrawPlan, PlaceAsk, Prices};
use narrows::job::{JobLimits, LimitsAsk, job_limits};
use narrows::presets::{self, Shelf};
use narrows::report::{
    Compared, Draws, PlacedKit, Ranked, SolvedJobs, compare_document, place_document, rank_document,
    solve_jobs,
};
use narrows::scenario::{Document, Fault, resolve_limits};

use super::draws::FoundBreakEven;
use super::progress::Wish;
use super::reasons::Reasons;

/// Cylinders, schedule, level and method: what was asked and what is answered.
#[derive(Clone, Debug)]
pub struct Limits {
    /// Stock, rules, target, method.
    pub ask: LimitsAsk,
    /// What they come to.
    pub answer: JobLimits,
    /// What to heed.
    pub cautions: Vec<Caution>,
}

/// All of it for one document. What is not there yet is none; what has no answer says why.
#[derive(Clone, Debug)]
pub struct Study {
    /// The document it is for: the key.
    pub document: Document,
    /// Cylinders, schedule, level.
    pub limits: Option<Result<Limits, String>>,
    /// The job over time of each kit.
    pub jobs: Option<Result<SolvedJobs, String>>,
    /// What card, readings and log say.
    pub reasons: Option<Reasons>,
    /// What counts in each kit.
    pub ranked: Option<Result<Vec<Ranked>, String>>,
    /// Where to put the machine of each kit.
    pub places: Option<Result<Vec<PlacedKit>, String>>,
    /// Kits side by side, with bands once those are drawn.
    pub compared: Option<Result<Compared, String>>,
    /// Push-pull against liquid then vapour, for the kits that were asked about.
    pub break_evens: Vec<FoundBreakEven>,
    /// The long draw under way.
    pub drawing: Option<Wish>,
    /// All that is quick is there.
    pub done: bool,
}

impl Study {
    fn new(document: Document) -> Self {
        Self {
            document,
            limits: None,
            jobs: None,
            reasons: None,
            ranked: None,
            places: None,
            compared: None,
            break_evens: Vec::new(),
            drawing: None,
            done: false,
        }
    }

    /// Cylinders, schedule and level, if they have an answer.
    pub fn limits(&self) -> Option<&Limits> {
        self.limits.as_ref()?.as_ref().ok()
    }
}

/// Works through the steps; `tell` gets what there is after each. Ends early when `should_stop`.
pub fn study(
    document: Document,
    draws: Option<DrawPlan>,
    should_stop: &dyn Fn() -> bool,
    tell: &mut dyn FnMut(&Study),
) -> Study {
    let mut study = Study::new(document);
    type Step = fn(&mut Study, &dyn Fn() -> bool);
    let steps: [Step; 6] = [
        |s, _| s.limits = Some(limits(&s.document)),
        |s, stop| s.jobs = Some(jobs(&s.document, stop)),
        |s, _| s.reasons = Some(Reasons::of(&s.document)),
        |s, stop| s.compared = Some(compared(&s.document, None, stop)),
        |s, _| s.places = Some(places(&s.document)),
        |s, _| s.ranked = Some(ranked(&s.document)),
    ];
    for step in steps {
        if should_stop() {
            return study;
        }
        step(&mut study, should_stop);
        tell(&study);
    }
    if let Some(plan) = draws.filter(|_| !should_stop()) {
        weigh_places(&mut study, plan, should_stop);
        let banded = compared(&study.document, draws, should_stop);
        if !should_stop() {
            study.compared = Some(banded);
            tell(&study);
            follow_jobs(&mut study, should_stop);
        }
    }
    study.done = !should_stop();
    tell(&study);
    study
}

fn limits(document: &Document) -> Result<Limits, String> {
    let rules = presets::built_in_rules().map_err(|error| error.to_string())?;
    let ask = resolve_limits(document, &rules).map_err(|faults| in_words(&faults))?;
    let answer = job_limits(&ask);
    let cautions = limit_cautions(&ask, &answer);
    Ok(Limits { ask, answer, cautions })
}

fn jobs(document: &Document, should_stop: &dyn Fn() -> bool) -> Result<SolvedJobs, String> {
    let rules = presets::built_in_rules().map_err(|error| error.to_string())?;
    solve_jobs(document, &rules, should_stop).map_err(|faults| in_words(&faults))
}

fn in_words(faults: &[Fault]) -> String {
    let words: Vec<String> = faults.iter().map(ToString::to_string).collect();
    words.join("; ")
}

fn ranked(document: &Document) -> Result<Vec<Ranked>, String> {
    let shelf = Shelf::built_in().map_err(|error| error.to_string())?;
    rank_document(document, &shelf, &Prices::of(document)).map_err(|error| error.to_string())
}

fn places(document: &Document) -> Result<Vec<PlacedKit>, String> {
    place_document(document, &PlaceAsk::default()).map_err(|error| error.to_string())
}

/// As many draws tell whether another place is faster, at most; so many in the terminal, too.
const PLACE_DRAWS: usize = 256;

/// Whether another place is really faster than today's.
fn weigh_places(study: &mut Study, plan: DrawPlan, should_stop: &dyn Fn() -> bool) {
    let Ok(plan) = DrawPlan::new(plan.count().min(PLACE_DRAWS), plan.seed()) else { return };
    let Some(Ok(placed)) = &mut study.places else { return };
    for way in placed.iter_mut().filter_map(|kit| kit.way.as_mut().ok()) {
        // What cannot be drawn stays undrawn: the answer then says its numbers alone.
        if way.draw(&study.document, plan, should_stop).is_err() {
            way.difference = None;
        }
    }
}

fn compared(
    document: &Document,
    draws: Option<DrawPlan>,
    should_stop: &dyn Fn() -> bool,
) -> Result<Compared, String> {
    let rules = presets::built_in_rules().map_err(|error| error.to_string())?;
    let draws = Draws { points: draws, jobs: None };
    compare_document(document, &rules, draws, should_stop).map_err(|error| error.to_string())
}

/// What counts, in minutes: some dozens of jobs a kit.
fn follow_jobs(study: &mut Study, should_stop: &dyn Fn() -> bool) {
    let Ok(rules) = presets::built_in_rules() else { return };
    if let Some(Ok(ranked)) = &mut study.ranked {
        for kit in ranked {
            kit.follow_jobs(&study.document, &rules, should_stop);
        }
    }
}
