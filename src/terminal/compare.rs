//! `narrows compare`: kits side by side.

use narrows::compare::{CompareError, DrawPlan, chosen};
use narrows::report::{compare_document, compared_json, compared_table};

use super::args::CompareArguments;
use super::document::{opened, pretty};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &CompareArguments) -> Result<String, Vec<String>> {
    let scenario = &arguments.scenario;
    let lines = |error: CompareError| lines_of(&scenario.file, &error);
    let document = opened(&scenario.file, &scenario.set)?;
    let document = chosen(&document, &arguments.kits).map_err(lines)?;
    let plan = match arguments.draws {
        0 => None,
        count => Some(DrawPlan::new(count, arguments.seed).map_err(lines)?),
    };
    let compared = compare_document(&document, plan, &|| false).map_err(lines)?;
    let units = scenario.units.into();
    if scenario.json {
        return pretty(&compared_json(&document, &compared, units));
    }
    Ok(compared_table(&document, &compared, units))
}

/// One line for each fault.
pub(super) fn lines_of(file: &str, error: &CompareError) -> Vec<String> {
    error.to_string().lines().map(|line| format!("{file}: {line}")).collect()
}
