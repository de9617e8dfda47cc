//! What counts in minutes: the whole job followed for each thing made ideal and for each change.
//!
//! Some milliseconds a job, some dozens of jobs a kit. Where only volts change and the motor keeps
//! its speed, the job is the same and is not followed again.

use super::aspect::Group;
use super::choice::alone;
use super::error::CompareError;
use super::headline::Headline;
use super::ideal::Mixture;
use super::to_start::ToStart;
use super::what_counts::{BestPair, Row, WhatCounts, changed, pairs};
use super::whole_job::{JobFigures, planned, with_setup};
use crate::job::over_time::{JobSetup, follow};
use crate::job::{Setup, speed_by_volts};
use crate::kit::Rules;
use crate::scenario::Document;

/// Follows the jobs of what counts in a kit and puts them into its figures; then the order is by
/// minutes. False if it was stopped: then nothing has changed.
///
/// # Errors
/// The document describes no whole job.
pub fn count_minutes(
    document: &Document,
    rules: &Rules,
    counts: &mut WhatCounts,
    should_stop: &dyn Fn() -> bool,
) -> Result<bool, CompareError> {
    let mixture = Mixture::new(alone(document, &counts.kit)?)?;
    let planned = planned(&mixture.document, rules)?;
    let Some(job) = planned.kits.into_iter().next() else { return Ok(false) };
    let follower = Follower::new(job.setup);
    let mut counted = counts.clone();
    counted.base = follower.with_job(counted.base, mixture.base.setup.clone(), true);
    counted.ideal = follower.with_job(counted.ideal, mixture.with_ideal(|_| true), false);
    for row in &mut counted.rows {
        if should_stop() {
            return Ok(false);
        }
        count_row(&mixture, &follower, row);
    }
    if let ToStart::Change(start) = &mut counted.to_start
        && let Some(row) = counted.rows.iter().find(|row| row.id == start.row)
        && let Some(setup) = changed(&mixture, &[(row.aspect, &start.better.change)])
    {
        start.better.headline = follower.with_job(start.better.headline, setup, false);
    }
    let mut best = Vec::new();
    for (pair, setup) in pairs(&mixture, &counted) {
        if should_stop() {
            return Ok(false);
        }
        best.push(BestPair { headline: follower.with_job(pair.headline, setup, false), ..pair });
    }
    counted.settle(best);
    *counts = counted;
    Ok(true)
}

fn count_row(mixture: &Mixture, follower: &Follower, row: &mut Row) {
    let this = row.aspect;
    let is_power = row.group == Group::Power;
    row.without = follower.with_job(row.without, mixture.with_ideal(|aspect| aspect == this), is_power);
    row.only_this = follower.with_job(row.only_this, mixture.with_ideal(|aspect| aspect != this), false);
    if let Some(better) = &mut row.better
        && let Some(setup) = changed(mixture, &[(this, &better.change)])
    {
        better.headline = follower.with_job(better.headline, setup, is_power);
    }
}

/// Follows jobs that differ from one in their setup.
pub(super) struct Follower {
    job: JobSetup,
    speed: Option<f64>,
    figures: Option<JobFigures>,
}

impl Follower {
    pub fn new(job: JobSetup) -> Self {
        Self { speed: speed_by_volts(&job.kit), figures: figures(&job), job }
    }

    /// The figures of the job with another setup; none where it cannot be followed.
    ///
    /// - `power_only`: the setup differs in its power at most
    pub fn figures(&self, setup: Setup, power_only: bool) -> Option<JobFigures> {
        if power_only && self.speed.is_some() && speed_by_volts(&setup) == self.speed {
            return self.figures;
        }
        figures(&with_setup(&self.job, setup))
    }

    fn with_job(&self, headline: Headline, setup: Setup, power_only: bool) -> Headline {
        self.figures(setup, power_only).map_or(headline, |job| headline.with_job(&job))
    }
}

fn figures(job: &JobSetup) -> Option<JobFigures> {
    Some(JobFigures::of(&follow(job).ok()?))
}
