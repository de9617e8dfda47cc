//! `narrows solve`: the operating point of each kit.

use std::io::Read as _;

use narrows::presets::built_in_scenario;
use narrows::report::{solve_document, solved_json, solved_table};
use narrows::scenario::{Document, read, set};

use super::args::SolveArguments;

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &SolveArguments) -> Result<String, Vec<String>> {
    let mut document = open(&arguments.file)?;
    for change in &arguments.set {
        apply(&mut document, change)?;
    }
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

pub(super) fn open(file: &str) -> Result<Document, Vec<String>> {
    let text = if file == "-" {
        let mut text = String::new();
        std::io::stdin()
            .read_to_string(&mut text)
            .map_err(|error| vec![format!("standard input: {error}")])?;
        text
    } else {
        match std::fs::read_to_string(file) {
            Ok(text) => text,
            Err(error) => match built_in_scenario(file) {
                Some(text) => text.to_owned(),
                None => return Err(vec![format!("{file}: {error}; expected a scenario file")]),
            },
        }
    };
    read(&text).map_err(|error| vec![format!("{file}: {error}")])
}

pub(super) fn apply(document: &mut Document, change: &str) -> Result<(), Vec<String>> {
    let Some((path, value)) = change.split_once('=') else {
        return Err(vec![format!(
            "--set {change:?}: expected PATH=VALUE, as kits.A.parts.0.bore=\"2.6 mm\""
        )]);
    };
    set(document, path.trim(), value.trim()).map_err(|error| vec![format!("--set {error}")])
}
