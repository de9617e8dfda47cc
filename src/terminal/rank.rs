//! `narrows rank`: what counts in each kit.

use narrows::compare::{CompareError, Prices, kept};
use narrows::presets::{Shelf, built_in_rules};
use narrows::report::{rank_document, ranked_json, ranked_table};
use narrows::scenario::Document;

use super::args::RankArguments;
use super::compare::{draws, lines_of};
use super::document::{opened, pretty};

/// The text to print, or the lines that say what is wrong.
pub fn run(arguments: &RankArguments) -> Result<String, Vec<String>> {
    let scenario = &arguments.scenario;
    let lines = |error: CompareError| lines_of(&scenario.file, &error);
    let document = opened(&scenario.file, &scenario.set)?;
    let document = kept(&document, &arguments.kits).map_err(lines)?;
    let shelf = Shelf::built_in().map_err(|error| vec![error.to_string()])?;
    let prices = prices(&document, arguments)?;
    let rules = built_in_rules().map_err(|error| vec![error.to_string()])?;
    let draws = draws(arguments.draws, arguments.job_draws, arguments.seed).map_err(lines)?;
    let mut ranked = rank_document(&document, &shelf, &prices).map_err(lines)?;
    for kit in &mut ranked {
        kit.follow_jobs(&document, &rules, &|| false);
        kit.draw(&document, &rules, draws, &|| false).map_err(lines)?;
    }
    if scenario.json {
        return pretty(&ranked_json(&document, &ranked));
    }
    Ok(ranked_table(&document, &ranked, scenario.units.into()))
}

/// The document's prices, and over them what was typed.
fn prices(document: &Document, arguments: &RankArguments) -> Result<Prices, Vec<String>> {
    let mut prices = Prices::of(document);
    for text in &arguments.prices {
        let read = text.split_once('=').and_then(|(id, price)| Some((id, price.trim().parse().ok()?)));
        let Some((id, price)) = read else {
            return Err(vec![format!("--price {text:?}: expected ID=PRICE, as kits.A.parts.0=25")]);
        };
        prices.set(id.trim(), price).map_err(|error| vec![format!("--price {error}")])?;
    }
    if let Some(price) = arguments.minute_price {
        prices.set_per_minute(price).map_err(|error| vec![format!("--minute-price {error}")])?;
    }
    Ok(prices)
}
