//! `narrows solve`: the operating point of each kit.

use narrows::report::{solve_document, solved_json, solved_table};

use super::args::SolveArguments;

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &SolveArguments) -> Result<String, Vec<String>> {
    let document = super::document::opened(&arguments.file, &arguments.set)?;
    let solved = solve_document(&document).map_err(|faults| {
        faults.iter().map(|fault| format!("{}: {fault}", arguments.file)).collect::<Vec<_>>()
    })?;
    let units = arguments.units.into();
    if arguments.json {
        let value = solved_json(&document, &solved, units);
        let text = serde_json::to_string_pretty(&value).map_err(|error| vec![error.to_string()])?;
        return Ok(text + "\n");
    }
    Ok(solved_table(&document, &solved, units))
}
