//! What to change in a kit, in words: to start at all, first, as a pair, or else.

use super::figures::difference_text;
use super::ranked::Ranked;
use crate::compare::{Better, Figure, Gain, Row, StartingChange, ToStart, Verdict, WhatCounts};
use crate::units::UnitSet;

/// When to do it, or what of it, and what it is with what it brings.
pub type ChangeRow = (&'static str, String);

/// What to do to start at all, first, and as a pair.
pub fn first_changes(ranked: &Ranked, units: UnitSet) -> Vec<ChangeRow> {
    let counts = &ranked.counts;
    let words = |id: &str| counts.row(id).and_then(|row| Some((row, row.better.as_ref()?)));
    let mut rows = Vec::new();
    if counts.to_start != ToStart::AsItIs {
        let text = match counts.to_start.change().and_then(|start| Some((counts.row(&start.row)?, start))) {
            Some((row, StartingChange { better, .. })) => {
                format!("{}: {}", change_name(row, better), gained(ranked, better, units))
            }
            None => "no single change listed here lets it start".to_owned(),
        };
        rows.push(("To start", text));
    }
    rows.push((
        "Change first",
        match counts.best_change.as_deref().and_then(words) {
            Some((row, change)) => change_text(ranked, row, change, units),
            None => "nothing that this program knows of helps".to_owned(),
        },
    ));
    if let Some(pair) = &counts.best_pair {
        let both = pair.rows.iter().filter_map(|id| words(id)).map(|(row, change)| change_name(row, change));
        let gain = gain_words(&counts.gain(&pair.headline), ranked.is_withheld(), units);
        rows.push(("Best pair", format!("{}: {gain}", both.collect::<Vec<_>>().join("; and "))));
    }
    rows
}

/// What else could be changed, what brings most first.
pub(super) fn other_changes(ranked: &Ranked, units: UnitSet) -> Vec<ChangeRow> {
    let counts = &ranked.counts;
    let is_first = |row: &Row| counts.best_change.as_deref() == Some(&row.id);
    let mut others: Vec<(&Row, &Better)> = counts
        .rows
        .iter()
        .filter(|row| !is_first(row))
        .filter_map(|row| Some((row, row.better.as_ref()?)))
        .collect();
    others.sort_by(|a, b| counts.more(&a.1.headline, &b.1.headline));
    others.iter().map(|(row, change)| ("Or else", change_text(ranked, row, change, units))).collect()
}

/// All that could be changed.
pub(super) fn change_rows(ranked: &Ranked, units: UnitSet) -> Vec<ChangeRow> {
    first_changes(ranked, units).into_iter().chain(other_changes(ranked, units)).collect()
}

/// How the gains add up.
pub fn all_of_it(ranked: &Ranked, units: UnitSet) -> Option<ChangeRow> {
    let counts = &ranked.counts;
    let all = counts.gain(&counts.ideal).rate_kg_s.filter(|_| !ranked.is_withheld())?;
    let text = |rate| difference_text(Figure::Rate, rate, units);
    let words = format!(
        "{} one by one, {} all at once. They do not add up: what one thing costs depends on what else is \
         in the way.",
        text(counts.sum_of_gains_kg_s()),
        text(all)
    );
    Some(("All of it", words))
}

fn change_text(ranked: &Ranked, row: &Row, change: &Better, units: UnitSet) -> String {
    let price = price_words(&ranked.counts, change, ranked.is_withheld(), units);
    let certain = certainty(ranked, row, units);
    format!("{}: {}{certain}{price}", change_name(row, change), gained(ranked, change, units))
}

/// The thing and what becomes of it.
fn change_name(row: &Row, change: &Better) -> String {
    format!("{}: {}", row.words, lower_first(&change.words))
}

fn gained(ranked: &Ranked, change: &Better, units: UnitSet) -> String {
    gain_words(&ranked.counts.gain(&change.headline), ranked.is_withheld(), units)
}

/// Smaller than these is nothing to a reader.
const LEAST_V: f64 = 0.05;
const LEAST_S: f64 = 1.0;
pub(super) const LEAST_KG_S: f64 = 5e-4 * 0.453_592_37 / 60.0;

fn gain_words(gain: &Gain, withheld: bool, units: UnitSet) -> String {
    let mut words = Vec::new();
    match gain.rate_kg_s {
        _ if withheld => words.push("withheld".to_owned()),
        Some(rate) if rate.abs() >= LEAST_KG_S => words.push(difference_text(Figure::Rate, rate, units)),
        Some(_) => {}
        None => words.push("no rate".to_owned()),
    }
    if let Some(seconds) = gain.total_s.filter(|s| !withheld && s.abs() >= LEAST_S) {
        words.push(difference_text(Figure::Minutes, seconds, units));
    }
    words.extend(volts_words(gain, units));
    if words.is_empty() { "nothing".to_owned() } else { words.join(", ") }
}

fn volts_words(gain: &Gain, units: UnitSet) -> Vec<String> {
    let running = volts_text(gain.running_v, units).map(|volts| format!("{volts} running"));
    let starting = volts_text(gain.starting_v, units).map(|volts| format!("{volts} starting"));
    running.into_iter().chain(starting).collect()
}

/// Volts in a narrow column: "+1.6 V, start +2.5 V".
pub(super) fn volts_cell(gain: &Gain, units: UnitSet) -> String {
    let starting = volts_text(gain.starting_v, units).map(|volts| format!("start {volts}"));
    volts_text(gain.running_v, units).into_iter().chain(starting).collect::<Vec<_>>().join(", ")
}

/// A difference in volts, if it is worth naming.
fn volts_text(volts: Option<f64>, units: UnitSet) -> Option<String> {
    let volts = volts.filter(|volts| volts.abs() >= LEAST_V)?;
    Some(difference_text(Figure::RunningVoltage, volts, units))
}

/// The range of a change's gain, in minutes where there are any, or that its sign is not certain.
fn certainty(ranked: &Ranked, row: &Row, units: UnitSet) -> String {
    if ranked.is_withheld() {
        return String::new();
    }
    let figure = if ranked.job_gains.is_some() { Figure::Minutes } else { Figure::Rate };
    let Some(drawn) = ranked.drawn(&row.id, figure, true) else { return String::new() };
    match (drawn.verdict(figure), drawn.band(figure)) {
        (Verdict::More | Verdict::Less, Some(band)) => {
            let text = |si| difference_text(figure, si, units);
            format!(" (range {} to {})", text(band.low), text(band.high))
        }
        (Verdict::Same, _) | (_, None) => String::new(),
        (verdict, _) => format!(" ({})", verdict.words()),
    }
}

fn price_words(counts: &WhatCounts, change: &Better, withheld: bool, units: UnitSet) -> String {
    let Some(price) = change.price else { return String::new() };
    let mut words = format!(", for {}", units.number(price));
    if let Some(per_kg_s) = counts.price_per_rate(change).filter(|_| !withheld) {
        let price = units.number(per_kg_s * units.rate.size_si());
        words.push_str(&format!(", {price} for each {}", units.rate.name()));
    }
    if let Some(per_minute) = counts.price_per_minute(change).filter(|_| !withheld) {
        words.push_str(&format!(", {} for each minute saved on a job", units.number(per_minute)));
    }
    if let Some(jobs) = counts.pay_back_jobs(change).filter(|_| !withheld) {
        words.push_str(&format!(", paid back after {} jobs", jobs.ceil()));
    }
    words
}

/// In the middle of a sentence.
pub(super) fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Measure;
    use crate::units::factors::POUND_KG;
    use uom::si::f64::MassRate;

    #[test]
    fn a_gain_is_said_in_rate_and_volts() {
        let rate = MassRate::from_si(0.1 * POUND_KG / 60.0).si();
        let gain =
            Gain { rate_kg_s: Some(rate), running_v: Some(1.5), starting_v: Some(0.01), total_s: None };
        assert_eq!(gain_words(&gain, false, UnitSet::US_TRADE), "+0.100 lb/min, +1.50 V running");
        assert_eq!(gain_words(&gain, true, UnitSet::US_TRADE), "withheld, +1.50 V running");
        let nothing = Gain { rate_kg_s: Some(0.0), running_v: None, starting_v: None, total_s: None };
        assert_eq!(gain_words(&nothing, false, UnitSet::US_TRADE), "nothing");
    }
}
