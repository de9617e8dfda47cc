//! Draws of a document, one a step: whoever drives it can show progress, stop, or go on later.
//!
//! Each draw changes the whole document and solves all its kits, so that kits share what they
//! share. What no model holds of a line-up scatters its rate besides (`uncertain::line_up`).
//! Neglected: that inputs may depend on each other, and that a flow model may be off for all kits
//! alike (its choice is in the method).

use super::bands::{Bands, KitBands, differences};
use super::draws::DrawPlan;
use super::error::CompareError;
use super::headline::Headline;
use super::prices::Costs;
use super::uncertain::{LineUp, drawn};
use super::whole_job::{JobFigures, planned};
use crate::job::over_time::follow;
use crate::kit::Rules;
use crate::scenario::{Document, resolve};

/// What is solved in each draw.
#[derive(Debug, Clone, Copy)]
pub enum Depth<'a> {
    /// The operating point: some tenths of a millisecond a kit.
    Point,
    /// The whole job, under these rules: some milliseconds a kit.
    WholeJob(&'a Rules),
}

/// Draws under way.
pub struct Drawing<'a> {
    document: &'a Document,
    plan: DrawPlan,
    depth: Depth<'a>,
    names: Vec<String>,
    line_ups: Vec<LineUp>,
    costs: Vec<Costs>,
    /// One headline a kit and draw, so that differences are of the same draw.
    drawn: Vec<Vec<Headline>>,
    made: usize,
    refused: usize,
}

impl<'a> Drawing<'a> {
    /// Nothing drawn yet.
    ///
    /// # Errors
    /// The document cannot be solved as it stands, or describes no whole job.
    pub fn new(document: &'a Document, plan: DrawPlan, depth: Depth<'a>) -> Result<Self, CompareError> {
        let names: Vec<String> = resolve(document)?.into_iter().map(|kit| kit.name).collect();
        if let Depth::WholeJob(rules) = depth {
            planned(document, rules)?;
        }
        Ok(Self {
            document,
            plan,
            depth,
            line_ups: document.kits.iter().map(LineUp::of).collect(),
            costs: document.kits.iter().map(|kit| Costs::new(document, kit)).collect(),
            drawn: vec![Vec::with_capacity(plan.count()); names.len()],
            names,
            made: 0,
            refused: 0,
        })
    }

    /// How many draws were made.
    pub fn made(&self) -> usize {
        self.made
    }

    /// Makes one more draw; false if all are made.
    pub fn step(&mut self) -> bool {
        let Some(index) = self.plan.next(self.made) else { return false };
        self.made += 1;
        let solved = self.solved(index).unwrap_or_default();
        if solved.is_empty() {
            self.refused += 1;
        }
        for (at, kit) in self.drawn.iter_mut().enumerate() {
            kit.push(solved.get(at).copied().unwrap_or_default());
        }
        true
    }

    /// One headline a kit; none if the drawn document cannot be solved.
    fn solved(&self, index: u32) -> Option<Vec<Headline>> {
        let document = drawn(self.document, &self.plan, index);
        let factor = |line_up: &LineUp| line_up.factor_ratio(&self.plan, index);
        let factors = self.line_ups.iter().map(factor);
        match self.depth {
            Depth::Point => {
                let kits = resolve(&document).ok()?;
                let one = |(kit, factor)| Headline::solved(kit).with_rate_times(factor);
                Some(kits.iter().zip(factors).map(one).collect())
            }
            Depth::WholeJob(rules) => {
                let jobs = planned(&document, rules).ok()?;
                let one = |((job, factor), costs): ((&crate::scenario::KitJob, f64), &Costs)| {
                    let Ok(answer) = follow(&job.setup) else { return Headline::default() };
                    let figures = JobFigures::of(&answer).with_rate_times(factor);
                    Headline::default().with_job(&figures).with_cost(costs)
                };
                Some(jobs.kits.iter().zip(factors).zip(&self.costs).map(one).collect())
            }
        }
    }

    /// The bands of what was drawn so far.
    pub fn bands(&self) -> Bands {
        let named = self.names.iter().zip(&self.drawn);
        Bands {
            plan: self.plan,
            draws: self.made,
            refused: self.refused,
            stopped: self.made < self.plan.count(),
            kits: named.map(|(name, drawn)| KitBands::of(name.clone(), drawn)).collect(),
            differences: differences(&self.names, &self.drawn, self.made),
        }
    }
}

/// Draws all operating points. `should_stop` is asked once before each draw, so it can count them too; what was
/// drawn until it says yes is still summed up.
///
/// # Errors
/// As [`Drawing::new`].
pub fn bands(
    document: &Document,
    plan: DrawPlan,
    should_stop: &dyn Fn() -> bool,
) -> Result<Bands, CompareError> {
    let mut drawing = Drawing::new(document, plan, Depth::Point)?;
    while !should_stop() && drawing.step() {}
    Ok(drawing.bands())
}
