//! `narrows solve`: the operating point of each kit.

use narrows::report::{solve_document, solved_json, solved_table};

use super::args::ScenarioArguments;
use super::document::{fault_lines, opened, pretty};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &ScenarioArguments) -> Result<String, Vec<String>> {
    let document = opened(&arguments.file, &arguments.set)?;
    let solved = solve_document(&document).map_err(|faults| fault_lines(&arguments.file, &faults))?;
    let units = arguments.units.into();
    if arguments.json {
        return pretty(&solved_json(&document, &solved, units));
    }
    Ok(solved_table(&document, &solved, units))
}
