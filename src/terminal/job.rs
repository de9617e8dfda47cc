//! `narrows job`: each kit's whole job.

use narrows::presets::built_in_rules;
use narrows::report::{jobs_csv, jobs_json, jobs_table, solve_jobs};

use super::args::{JobArguments, ScenarioArguments};
use super::document::{fault_lines, opened, pretty};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &JobArguments) -> Result<String, Vec<String>> {
    let ScenarioArguments { file, json, set, units } = &arguments.scenario;
    let document = opened(file, set)?;
    let rules = built_in_rules().map_err(|error| vec![error.to_string()])?;
    let jobs = solve_jobs(&document, &rules, &|| false).map_err(|faults| fault_lines(file, &faults))?;
    let units = (*units).into();
    if arguments.csv {
        return Ok(jobs_csv(&jobs));
    }
    if *json {
        return pretty(&jobs_json(&document, &jobs, units));
    }
    Ok(jobs_table(&document, &jobs, units))
}
