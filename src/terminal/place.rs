//! `narrows place`: where to put the machine between system and receptacle.

use narrows::compare::{CompareError, PlaceAsk, kept};
use narrows::report::{place_document, placed_json, placed_table};
use narrows::units::Typed;
use uom::si::f64::Length;

use super::args::PlaceArguments;
use super::compare::{draws, lines_of};
use super::document::{opened, pretty};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &PlaceArguments) -> Result<String, Vec<String>> {
    let scenario = &arguments.scenario;
    let lines = |error: CompareError| lines_of(&scenario.file, &error);
    let ask = PlaceAsk {
        hose: arguments.hose.clone(),
        cord: arguments.cord,
        steps: arguments.steps,
        shortest_hose: length("--shortest-hose", arguments.shortest_hose.as_deref())?,
        shortest_cord: length("--shortest-cord", arguments.shortest_cord.as_deref())?,
    };
    let document = opened(&scenario.file, &scenario.set)?;
    let document = kept(&document, &arguments.kits).map_err(lines)?;
    let plan = draws(arguments.draws, 0, arguments.seed).map_err(lines)?.points;
    let mut placed = place_document(&document, &ask).map_err(lines)?;
    let ways = placed.iter_mut().filter_map(|kit| kit.way.as_mut().ok());
    for (way, plan) in ways.filter_map(|way| Some((way, plan?))) {
        way.draw(&document, plan, &|| false).map_err(lines)?;
    }
    if scenario.json {
        return pretty(&placed_json(&document, &placed, scenario.units.into()));
    }
    Ok(placed_table(&document, &placed, scenario.units.into()))
}

/// A length as typed behind an option, zero or more.
fn length(option: &str, text: Option<&str>) -> Result<Option<Typed<Length>>, Vec<String>> {
    let Some(text) = text else { return Ok(None) };
    let typed: Typed<Length> = Typed::parse(text).map_err(|error| vec![format!("{option} {error}")])?;
    if typed.si() < 0.0 {
        return Err(vec![format!("{option} {text:?}: expected a length of 0 or more, as 3 ft")]);
    }
    Ok(Some(typed))
}
