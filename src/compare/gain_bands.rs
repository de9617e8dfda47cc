//! Bands of what counts: each gain over many draws of all uncertain inputs.
//!
//! A thing made ideal leaves the rest of the line-up as it is, so what no model holds of it is
//! shared. A real change of the path makes another line-up, as it would beside the first one
//! (`drawing`), which keeps the scatter of the parts that stay. What a change fits has a band of its own, too.

use super::aspect::{Group, Listed};
use super::bands::Difference;
use super::better::Effect;
use super::choice::alone;
use super::count_minutes::Follower;
use super::drawing::Depth;
use super::draws::DrawPlan;
use super::error::CompareError;
use super::headline::Headline;
use super::ideal::{Mixture, only};
use super::uncertain::{LineUp, drawn};
use super::what_counts::{Row, WhatCounts};
use super::{better, whole_job};
use crate::job::Setup;
use crate::scenario::Document;

/// The band of one row's gains.
#[derive(Debug, Clone, PartialEq)]
pub struct RowBands {
    /// The row's id.
    pub id: String,
    /// Made ideal, less as it is.
    pub ideal: Difference,
    /// The real change, less as it is.
    pub change: Option<Difference>,
}

/// Bands of what counts in one kit.
#[derive(Debug, Clone, PartialEq)]
pub struct GainBands {
    /// What was asked for.
    pub plan: DrawPlan,
    /// How many draws were made.
    pub draws: usize,
    /// One a row.
    pub rows: Vec<RowBands>,
}

impl GainBands {
    /// The bands of a row.
    pub fn row(&self, id: &str) -> Option<&RowBands> {
        self.rows.iter().find(|row| row.id == id)
    }
}

/// A real change of a row's thing.
struct Change {
    /// With what is fitted; none where the thing is taken out.
    document: Option<Document>,
    line_up: LineUp,
}

/// A row and its figures, one a draw.
struct Drawn<'a> {
    row: &'a Row,
    change: Option<Change>,
    ideal: Vec<Headline>,
    changed: Vec<Headline>,
}

/// Draws of what counts under way.
pub struct GainDrawing<'a> {
    document: Document,
    listed: Vec<Listed>,
    plan: DrawPlan,
    depth: Depth<'a>,
    line_up: LineUp,
    base: Vec<Headline>,
    rows: Vec<Drawn<'a>>,
    made: usize,
}

impl<'a> GainDrawing<'a> {
    /// Nothing drawn yet.
    ///
    /// # Errors
    /// The document cannot be solved as it stands, or describes no whole job.
    pub fn new(
        document: &Document,
        counts: &'a WhatCounts,
        plan: DrawPlan,
        depth: Depth<'a>,
    ) -> Result<Self, CompareError> {
        let Mixture { document, listed, .. } = Mixture::new(alone(document, &counts.kit)?)?;
        if let Depth::WholeJob(rules) = depth {
            whole_job::planned(&document, rules)?;
        }
        let rows = counts.rows.iter().map(|row| Drawn {
            row,
            change: change_of(&document, row),
            ideal: Vec::with_capacity(plan.count()),
            changed: Vec::new(),
        });
        let rows = rows.collect();
        let line_up = line_up_of(&document);
        Ok(Self { document, listed, plan, depth, line_up, base: Vec::new(), rows, made: 0 })
    }

    /// How many draws were made.
    pub fn made(&self) -> usize {
        self.made
    }

    /// Makes one more draw; false if all are made.
    pub fn step(&mut self) -> bool {
        let Some(index) = self.plan.next(self.made) else { return false };
        self.made += 1;
        let Self { plan, depth, .. } = *self;
        let factor = |line_up: &LineUp| line_up.factor_ratio(&plan, index);
        let own = factor(&self.line_up);
        let solver = Solver::new(drawn(&self.document, &plan, index), &self.listed, depth);
        let Some(solver) = solver else {
            // Every row keeps one headline a draw, so that differences are of the same draw.
            self.base.push(Headline::default());
            for one in &mut self.rows {
                one.ideal.push(Headline::default());
                one.changed.push(Headline::default());
            }
            return true;
        };
        self.base.push(solver.figures(solver.mixture.base.setup.clone(), true, own));
        for one in &mut self.rows {
            let power_only = one.row.group == Group::Power;
            let ideal = || solver.mixture.with_ideal(|aspect| aspect == one.row.aspect);
            one.ideal.push(solver.figures(ideal(), power_only, own));
            let Some(change) = &one.change else { continue };
            let setup = match &change.document {
                None => Some(ideal()),
                Some(changed) => only(&drawn(changed, &plan, index)).ok().map(|kit| kit.setup),
            };
            let factor = factor(&change.line_up);
            let figures = setup.map(|setup| solver.figures(setup, power_only, factor));
            one.changed.push(figures.unwrap_or_default());
        }
        true
    }

    /// The bands of what was drawn so far.
    pub fn bands(&self) -> GainBands {
        let of = |to: &str, then: &[Headline]| {
            Difference::of(("as it is".to_owned(), &self.base), (to.to_owned(), then), self.made)
        };
        let rows = self.rows.iter().map(|drawn| RowBands {
            id: drawn.row.id.clone(),
            ideal: of("ideal", &drawn.ideal),
            change: drawn.change.as_ref().map(|_| of("changed", &drawn.changed)),
        });
        GainBands { plan: self.plan, draws: self.made, rows: rows.collect() }
    }
}

fn change_of(document: &Document, row: &Row) -> Option<Change> {
    let change = &row.better.as_ref()?.change;
    let mut changed = document.clone();
    let taken_out = change.effect == Effect::TakenOut;
    if taken_out {
        better::take_out(&mut changed, row.aspect);
    } else {
        better::apply(&mut changed, row.aspect, &change.effect);
    }
    let line_up = line_up_of(&changed);
    Some(Change { document: (!taken_out).then_some(changed), line_up })
}

fn line_up_of(document: &Document) -> LineUp {
    document.kits.first().map(LineUp::of).unwrap_or_default()
}

/// Solves one drawn document and what is changed in it.
struct Solver {
    mixture: Mixture,
    follower: Option<Follower>,
}

impl Solver {
    fn new(document: Document, listed: &[Listed], depth: Depth<'_>) -> Option<Self> {
        let mixture = Mixture::of(document, listed.to_vec()).ok()?;
        let follower = match depth {
            Depth::Point => None,
            Depth::WholeJob(rules) => {
                let planned = whole_job::planned(&mixture.document, rules).ok()?;
                Some(Follower::new(planned.kits.into_iter().next()?.setup))
            }
        };
        Some(Self { mixture, follower })
    }

    fn figures(&self, setup: Setup, power_only: bool, factor_ratio: f64) -> Headline {
        match &self.follower {
            None => Headline::of(&crate::job::solve(&setup)).with_rate_times(factor_ratio),
            Some(follower) => follower
                .figures(setup, power_only)
                .map(|job| Headline::default().with_job(&job.with_rate_times(factor_ratio)))
                .unwrap_or_default(),
        }
    }
}
