//! `narrows rating`: the machine that would pass its printed ratings.

use narrows::advice::rating::read_rating;
use narrows::report::{rating_json, rating_table};
use narrows::scenario::card_of;

use super::args::ScenarioArguments;
use super::document::{fault_lines, opened, pretty};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &ScenarioArguments) -> Result<String, Vec<String>> {
    let document = opened(&arguments.file, &arguments.set)?;
    let card = card_of(&document).map_err(|faults| fault_lines(&arguments.file, &faults))?;
    let reading = read_rating(&card);
    let units = arguments.units.into();
    if arguments.json {
        return pretty(&rating_json(&document, &reading, units));
    }
    Ok(rating_table(&document, &reading, units))
}
