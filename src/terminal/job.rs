//! `narrows job`: each kit's whole job.

use narrows::compare::DrawPlan;
use narrows::presets::built_in_rules;
use narrows::report::{
    break_even_json, break_even_lines, break_evens, jobs_csv, jobs_json, jobs_table, solve_jobs,
};

use super::args::{JobArguments, ScenarioArguments};
use super::compare::lines_of;
use super::document::{fault_lines, opened, pretty};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &JobArguments) -> Result<String, Vec<String>> {
    let ScenarioArguments { file, json, set, units } = &arguments.scenario;
    let document = opened(file, set)?;
    let rules = built_in_rules().map_err(|error| vec![error.to_string()])?;
    let mut jobs = solve_jobs(&document, &rules, &|| false).map_err(|faults| fault_lines(file, &faults))?;
    if arguments.draws > 0 && !arguments.csv {
        let plan = DrawPlan::new(arguments.draws, arguments.seed).map_err(|error| lines_of(file, &error))?;
        jobs.draw(&document, plan, &rules, &|| false);
    }
    let units = (*units).into();
    if arguments.csv {
        return Ok(jobs_csv(&jobs));
    }
    let found = arguments.break_even.then(|| break_evens(&jobs.planned));
    if *json {
        let mut value = jobs_json(&document, &jobs, units);
        if let (Some(found), Some(object)) = (&found, value.as_object_mut()) {
            object.insert("break_even".to_owned(), break_even_json(found));
        }
        return pretty(&value);
    }
    let mut text = jobs_table(&document, &jobs, units);
    if let Some(found) = &found {
        let lines = break_even_lines(found, units, document.ambient.absolute_pressure());
        text = format!("{}\n\n{text}", lines.join("\n"));
    }
    Ok(text)
}
