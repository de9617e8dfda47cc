//! What counts for people: one row a thing, what counts most first.

use super::change_words::{LEAST_KG_S, all_of_it, change_rows, volts_cell};
use super::figures::{difference_text, liquid_left_line};
use super::ranked::Ranked;
use super::table::{caution_line, heading};
use super::time_words::time_text;
use super::wrap::wrapped;
use crate::advice::DEFERENCE;
use crate::compare::{Figure, GainBands, Row, Verdict};
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
    lines.push(format!("  {:<NAME$}{:<17}{time}{:<17}{}", "", "Ideal", "Only this", "Ideal, in volts"));
    lines.extend(counts.rows.iter().map(|row| row_line(ranked, row, units)));
    lines.extend(drawn_lines(ranked));
    let changes = all_of_it(ranked, units).into_iter().chain(change_rows(ranked, units));
    lines.extend(changes.map(|(when, words)| wrapped(&words, &format!("  {when:<15}"))));
    lines.extend(liquid_left_line(&counts.kit, &counts.base, units).filter(|_| !ranked.is_withheld()));
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
    let volts = volts_cell(&gain, units);
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
const NAME: usize = 28;
