//! What counts for people: one row a thing, what counts most first.

use super::figures::difference_text;
use super::ranked::Ranked;
use super::table::{caution_line, heading};
use super::time_words::time_text;
use super::wrap::wrapped;
use crate::advice::DEFERENCE;
use crate::compare::{Better, Figure, Gain, GainBands, Row, Verdict, WhatCounts};
use crate::scenario::Document;
use crate::units::UnitSet;

/// The whole answer of `narrows rank`.
pub fn ranked_table(document: &Document, ranked: &[Ranked], units: UnitSet) -> String {
    let kits: Vec<_> = ranked.iter().map(|one| one.kit.clone()).collect();
    let mut lines = vec![heading(document, &kits, units)];
    for one in ranked {
        lines.push(String::new());
        lines.extend(kit_lines(one, units));
    }
    lines.extend([String::new(), wrapped(LEGEND, ""), String::new(), wrapped(DEFERENCE, "")]);
    lines.join("\n") + "\n"
}

/// What the columns mean.
pub(super) const LEGEND: &str = "Ideal: what is gained if this thing alone cost nothing. Only this: what this thing alone \
would still cost if all else were ideal. A filter-drier is never to be left out, fixed wiring is for a \
qualified person.";

fn kit_lines(ranked: &Ranked, units: UnitSet) -> Vec<String> {
    let counts = &ranked.counts;
    let label = ranked.kit.kit.label.as_deref().map(|label| format!(": {label}")).unwrap_or_default();
    let mut lines = vec![format!("What counts in kit {}{label}", counts.kit)];
    lines.push(format!("  As it is       {}", base_words(ranked, units)));
    if let Some(why) = &ranked.no_time {
        lines.extend(why.lines().map(|line| wrapped(line, "  No time        ")));
    }
    let time = if counts.has_jobs() { format!("{:<13}", "Ideal") } else { String::new() };
    lines.push(format!("  {:<30}{:<17}{time}{:<17}{}", "", "Ideal", "Only this", "Ideal, in volts"));
    lines.extend(counts.rows.iter().map(|row| row_line(ranked, row, units)));
    lines.extend(drawn_lines(ranked));
    lines.extend(interaction_lines(ranked, units));
    lines.extend(change_lines(ranked, units));
    lines.extend(ranked.kit.cautions.iter().map(caution_line));
    lines
}

fn base_words(ranked: &Ranked, units: UnitSet) -> String {
    let base = &ranked.counts.base;
    let rate = match base.rate {
        _ if ranked.is_withheld() => "rate withheld, see Stop".to_owned(),
        Some(rate) => units.rate(rate),
        None => "no rate".to_owned(),
    };
    let volts = |volts: Option<_>| volts.map_or("none".to_owned(), |volts| units.voltage(volts));
    let time = match base.minutes.filter(|_| !ranked.is_withheld()) {
        Some(time) => format!(", {} to the level", time_text(time)),
        // Under a Stop nothing is said of the time: the job may well come to its level.
        None if ranked.counts.has_jobs() && !ranked.is_withheld() => ", the level is not reached".to_owned(),
        None => String::new(),
    };
    let (running, starting) = (volts(base.running_voltage), volts(base.starting_voltage));
    format!("{rate}{time}, {running} running, {starting} starting")
}

/// How many draws, where gains were drawn.
fn drawn_lines(ranked: &Ranked) -> Vec<String> {
    drawn_words(ranked).map(|words| wrapped(&words, "  Certainty      ")).into_iter().collect()
}

/// How many draws, where gains were drawn.
pub(super) fn drawn_words(ranked: &Ranked) -> Option<String> {
    let count = |gains: &Option<GainBands>| gains.as_ref().map(|gains| gains.draws);
    let words = match (count(&ranked.gains), count(&ranked.job_gains)) {
        (None, None) => return None,
        (Some(points), Some(jobs)) => format!("{points} draws, {jobs} of whole jobs"),
        (Some(draws), None) | (None, Some(draws)) => format!("{draws} draws"),
    };
    Some(format!(
        "{words}. \u{201c}Too close\u{201d}: fewer than nine draws in ten agree on the sign. A real change brings \
         the scatter of what is fitted."
    ))
}

fn row_line(ranked: &Ranked, row: &Row, units: UnitSet) -> String {
    let [words, gained, time, alone, volts] = row_cells(ranked, row, units);
    let words: String = words.chars().take(NAME - 1).collect();
    let time = if time.is_empty() { time } else { format!("{time:<13}") };
    format!("  {words:<NAME$}{gained:<17}{time}{alone:<17}{volts}").trim_end().to_owned()
}

/// A row of what counts: the thing, its gain if it were ideal in rate and in time (empty without
/// jobs), what it alone would cost, and volts.
pub(super) fn row_cells(ranked: &Ranked, row: &Row, units: UnitSet) -> [String; 5] {
    let counts = &ranked.counts;
    let gain = counts.gain(&row.without);
    let alone_kg_s = row.only_this.less(&counts.ideal, Figure::Rate);
    let rate = |kg_s: Option<f64>| match kg_s {
        _ if ranked.is_withheld() => "withheld".to_owned(),
        None => "no rate".to_owned(),
        Some(rate) if rate.abs() < LEAST_KG_S => "nothing".to_owned(),
        Some(rate) => difference_text(Figure::Rate, rate, units),
    };
    let volts = volts_words(&gain, units).join(", ");
    let certain = |figure: Figure, text: String| match ranked.drawn(&row.id, figure, false) {
        Some(drawn) if drawn.verdict(figure) == Verdict::TooClose => "too close".to_owned(),
        _ => text,
    };
    let gained = certain(Figure::Rate, rate(gain.rate_kg_s));
    let time = match gain.total_s {
        _ if !counts.has_jobs() => String::new(),
        _ if ranked.is_withheld() => "withheld".to_owned(),
        None => "no time".to_owned(),
        Some(_) if counts.saved_s(&row.without).is_none() => "nothing".to_owned(),
        Some(s) => certain(Figure::Minutes, difference_text(Figure::Minutes, s, units)),
    };
    [row.words.clone(), gained, time, rate(alone_kg_s), volts]
}

/// Width of a row's name.
const NAME: usize = 30;

/// Smaller than these is nothing to a reader.
const LEAST_V: f64 = 0.05;
const LEAST_S: f64 = 1.0;
const LEAST_KG_S: f64 = 5e-4 * 0.453_592_37 / 60.0;

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
    let volts = [(gain.running_v, "running"), (gain.starting_v, "starting")].into_iter();
    let worth_naming = volts.filter_map(|(volts, when)| Some((volts.filter(|v| v.abs() >= LEAST_V)?, when)));
    worth_naming
        .map(|(volts, when)| format!("{} {when}", difference_text(Figure::RunningVoltage, volts, units)))
        .collect()
}

fn interaction_lines(ranked: &Ranked, units: UnitSet) -> Vec<String> {
    let counts = &ranked.counts;
    let Some(all) = counts.gain(&counts.ideal).rate_kg_s.filter(|_| !ranked.is_withheld()) else {
        return Vec::new();
    };
    let text = |rate| difference_text(Figure::Rate, rate, units);
    let words = format!(
        "{} one by one, {} all at once. They do not add up: what one thing costs depends on what else is \
         in the way.",
        text(counts.sum_of_gains_kg_s()),
        text(all)
    );
    vec![wrapped(&words, "  All of it      ")]
}

fn change_lines(ranked: &Ranked, units: UnitSet) -> Vec<String> {
    change_rows(ranked, units).iter().map(|(when, words)| wrapped(words, &format!("  {when:<15}"))).collect()
}

/// What to change: first, as a pair, or else; in words.
pub(super) fn change_rows(ranked: &Ranked, units: UnitSet) -> Vec<(&'static str, String)> {
    let counts = &ranked.counts;
    let gain = |then| gain_words(&counts.gain(then), ranked.is_withheld(), units);
    let better = |id: &str| counts.row(id).and_then(|row| row.better.as_ref().map(|better| (row, better)));
    let mut lines = Vec::new();
    let certain = |row: &Row| certainty(ranked, row, units);
    if let Some((row, change)) = counts.to_start.as_deref().and_then(better) {
        let gained = gain(&change.headline);
        let words = format!("{}: {}: {gained}", row.words, lower_first(&change.words));
        lines.push(("To start", words));
    }
    match counts.best_change.as_deref().and_then(better) {
        Some((row, change)) => {
            let price = price_words(counts, change, ranked.is_withheld(), units);
            let gained = gain(&change.headline);
            let words =
                format!("{}: {}: {gained}{}{price}", row.words, lower_first(&change.words), certain(row));
            lines.push(("Change first", words));
        }
        None => lines.push(("Change first", "nothing that this program knows of helps".to_owned())),
    }
    if let Some(pair) = &counts.best_pair {
        let words: Vec<String> = pair
            .rows
            .iter()
            .filter_map(|id| better(id))
            .map(|(row, change)| format!("{}: {}", row.words, lower_first(&change.words)))
            .collect();
        let words = format!("{}: {}", words.join("; and "), gain(&pair.headline));
        lines.push(("Best pair", words));
    }
    let is_first = |row: &Row| counts.best_change.as_deref() == Some(&row.id);
    let mut others: Vec<(&Row, &Better)> = counts
        .rows
        .iter()
        .filter(|row| !is_first(row))
        .filter_map(|row| Some((row, row.better.as_ref()?)))
        .collect();
    others.sort_by(|a, b| counts.more(&a.1.headline, &b.1.headline));
    for (row, change) in others {
        let price = price_words(counts, change, ranked.is_withheld(), units);
        let gained = gain(&change.headline);
        let words = format!("{}: {}: {gained}{}{price}", row.words, lower_first(&change.words), certain(row));
        lines.push(("Or else", words));
    }
    lines
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

fn lower_first(text: &str) -> String {
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
