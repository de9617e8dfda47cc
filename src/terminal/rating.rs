//! `narrows rating`: the machine that would pass its printed ratings.

use narrows::advice::rating::read_rating;
use narrows::report::{rating_json, rating_table};
use narrows::scenario::card_of;

use super::args::SolveArguments;
use super::solve::{apply, open};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &SolveArguments) -> Result<String, Vec<String>> {
    let mut document = open(&arguments.file)?;
    for change in &arguments.set {
        apply(&mut document, change)?;
    }
    let card = card_of(&document).map_err(|faults| {
        faults.iter().map(|fault| format!("{}: {fault}", arguments.file)).collect::<Vec<_>>()
    })?;
    let reading = read_rating(&card);
    let units = arguments.units.into();
    if arguments.json {
        let value = rating_json(&document, &reading, units);
        let text = serde_json::to_string_pretty(&value).map_err(|error| vec![error.to_string()])?;
        return Ok(text + "\n");
    }
    Ok(rating_table(&document, &reading, units))
}
