//! `narrows compare`: kits side by side.

use narrows::compare::{CompareError, DrawPlan, chosen};
use narrows::presets::built_in_rules;
use narrows::report::{Draws, compare_document, compared_json, compared_table};

use super::args::CompareArguments;
use super::document::{opened, pretty};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &CompareArguments) -> Result<String, Vec<String>> {
    let scenario = &arguments.scenario;
    let lines = |error: CompareError| lines_of(&scenario.file, &error);
    let document = opened(&scenario.file, &scenario.set)?;
    let document = chosen(&document, &arguments.kits).map_err(lines)?;
    let rules = built_in_rules().map_err(|error| vec![error.to_string()])?;
    let draws =
        draws(arguments.ranges.draws, arguments.ranges.job_draws, arguments.ranges.seed).map_err(lines)?;
    let compared = compare_document(&document, &rules, draws, &|| false).map_err(lines)?;
    let units = scenario.units.into();
    if scenario.json {
        return pretty(&compared_json(&document, &compared, units));
    }
    Ok(compared_table(&document, &compared, units))
}

/// What was asked for; without draws of operating points none of whole jobs either.
pub(super) fn draws(points: usize, jobs: usize, seed: u32) -> Result<Draws, CompareError> {
    let plan = |count: usize| match count {
        0 => Ok(None),
        count => DrawPlan::new(count, seed).map(Some),
    };
    let points = plan(points)?;
    // Whole jobs are the first of the same draws.
    let jobs = plan(jobs.min(points.map_or(0, |points| points.count())))?;
    Ok(Draws { points, jobs })
}

/// One line for each fault.
pub(super) fn lines_of(file: &str, error: &CompareError) -> Vec<String> {
    error.to_string().lines().map(|line| format!("{file}: {line}")).collect()
}
