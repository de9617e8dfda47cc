//! `narrows sweep`: a field over a range, as comma-separated values.

use narrows::compare::{Axis, CompareError, kept, sweep};
use narrows::report::{swept_csv, swept_json};

use super::args::SweepArguments;
use super::compare::lines_of;
use super::document::{opened, pretty};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &SweepArguments) -> Result<String, Vec<String>> {
    let scenario = &arguments.scenario;
    let lines = |error: CompareError| lines_of(&scenario.file, &error);
    let axes: Vec<Axis> =
        arguments.vary.iter().map(|text| Axis::parse(text)).collect::<Result<_, _>>().map_err(lines)?;
    let document = opened(&scenario.file, &scenario.set)?;
    let document = kept(&document, &arguments.kits).map_err(lines)?;
    let swept = sweep(&document, &axes, &|| false).map_err(lines)?;
    if scenario.json {
        return pretty(&swept_json(&document, &swept, scenario.units.into()));
    }
    swept_csv(&swept, scenario.units.into()).map_err(|error| vec![error.to_string()])
}
