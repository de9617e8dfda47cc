//! What counts: what each thing by itself costs a kit, and what to change first.
//!
//! Each thing is made ideal alone ("without"), kept alone with everything else ideal ("only this"),
//! and, where there is one, changed for something real ("better"). Gains do not add up, since what
//! is behind one restriction shows only once that is gone; both the sum and the gain of everything
//! together are told.

use super::aspect::{Aspect, Group, Listed};
use super::better::{Change, apply, change, part};
use super::choice::alone;
use super::differs::described;
use super::error::CompareError;
use super::headline::{Figure, Headline};
use super::ideal::{Mixture, only};
use super::prices::Prices;
use crate::job::{KitAnswer, Setup, solve};
use crate::kit::{Part, PartKind};
use crate::power::StartOutcome;
use crate::presets::Shelf;
use crate::scenario::{Document, KitSetup};

/// One thing a kit's answer hangs on.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Where it stands in the document.
    pub id: String,
    /// What it is called.
    pub name: String,
    /// The same with its size: "Hose, 4.8 mm, 5 ft".
    pub words: String,
    /// What kind of part it is, if it is one.
    pub kind: Option<PartKind>,
    /// Where it belongs.
    pub group: Group,
    /// What "ideal" means for it.
    pub ideal: &'static str,
    /// The kit's figures with this ideal.
    pub without: Headline,
    /// The kit's figures with everything but this ideal.
    pub only_this: Headline,
    /// A real change, if there is one that helps.
    pub better: Option<Better>,
}

/// A real change and what it brings.
#[derive(Debug, Clone, PartialEq)]
pub struct Better {
    /// What is done.
    pub words: String,
    /// The kit's figures then.
    pub headline: Headline,
    /// What it costs, if that was said.
    pub price: Option<f64>,
    /// Jobs after which it has paid for itself, where that can be told.
    pub pay_back_jobs: Option<f64>,
    change: Change,
    aspect: Aspect,
}

/// Two changes together.
#[derive(Debug, Clone, PartialEq)]
pub struct BestPair {
    /// Ids of their rows.
    pub rows: [String; 2],
    /// The kit's figures with both.
    pub headline: Headline,
}

/// What something brings against the kit as it is. SI units of its figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gain {
    /// The rate, in kg/s; from standstill where the kit has none as it is.
    pub rate_kg_s: Option<f64>,
    /// Voltage at the running motor.
    pub running_v: Option<f64>,
    /// Voltage at the motor as it starts.
    pub starting_v: Option<f64>,
    /// Time of the whole job; more is longer.
    pub total_s: Option<f64>,
}

/// What counts in one kit.
#[derive(Debug, Clone, PartialEq)]
pub struct WhatCounts {
    /// The kit.
    pub kit: String,
    /// As it is.
    pub base: Headline,
    /// With everything ideal.
    pub ideal: Headline,
    /// What it hangs on, what counts most first.
    pub rows: Vec<Row>,
    /// Where the motor may not start or cannot hold its load as it is: the id of the row whose
    /// change brings most volts at the start. No rate is worth anything before that.
    pub to_start: Option<String>,
    /// The id of the row whose change brings most.
    pub best_change: Option<String>,
    /// The two changes that bring most together.
    pub best_pair: Option<BestPair>,
}

impl WhatCounts {
    /// What these figures bring against the kit as it is.
    pub fn gain(&self, then: &Headline) -> Gain {
        gain(&self.base, then)
    }

    /// Which of two brings more comes first.
    pub fn more(&self, one: &Headline, other: &Headline) -> std::cmp::Ordering {
        more(&self.gain(one), &self.gain(other))
    }

    /// The row of this id.
    pub fn row(&self, id: &str) -> Option<&Row> {
        self.rows.iter().find(|row| row.id == id)
    }

    /// All rows' gains in rate added up; it is not what all of them bring together.
    pub fn sum_of_gains_kg_s(&self) -> f64 {
        self.rows.iter().filter_map(|row| self.gain(&row.without).rate_kg_s).sum()
    }

    /// What a change costs for each kg/s that it brings.
    pub fn price_per_rate(&self, better: &Better) -> Option<f64> {
        let rate_kg_s = self.gain(&better.headline).rate_kg_s?;
        (rate_kg_s > WORTH_NAMING_KG_S).then_some(better.price? / rate_kg_s)
    }
}

fn gain(base: &Headline, then: &Headline) -> Gain {
    Gain {
        rate_kg_s: then.si(Figure::Rate).map(|rate| rate - base.si(Figure::Rate).unwrap_or(0.0)),
        running_v: then.less(base, Figure::RunningVoltage),
        starting_v: then.less(base, Figure::StartingVoltage),
        total_s: then.less(base, Figure::Minutes),
    }
}

/// Less than this brings nothing: 0.0001 lb/min, ten times the solver's own error.
const WORTH_NAMING_KG_S: f64 = 7.6e-7;
/// Less than this brings nothing.
const WORTH_NAMING_V: f64 = 0.05;
/// Pairs are tried among this many changes at most.
const MOST_PAIRED: usize = 6;

/// Orders gains: minutes saved where both are known, else rate, then volts running, then starting.
fn worth(gain: &Gain) -> [f64; 3] {
    let first = gain.total_s.map(|s| -s).or(gain.rate_kg_s).unwrap_or(f64::NEG_INFINITY);
    // What is within the solver's error is equal, so that volts decide.
    let first = if first.abs() < WORTH_NAMING_KG_S { 0.0 } else { first };
    let volts = |v: Option<f64>| v.unwrap_or(f64::NEG_INFINITY);
    [first, volts(gain.running_v), volts(gain.starting_v)]
}

fn more(a: &Gain, b: &Gain) -> std::cmp::Ordering {
    let pairs = worth(a).into_iter().zip(worth(b));
    pairs.map(|(a, b)| b.total_cmp(&a)).find(|order| order.is_ne()).unwrap_or(std::cmp::Ordering::Equal)
}

fn is_worth_naming(gain: &Gain) -> bool {
    gain.rate_kg_s.is_some_and(|rate| rate > WORTH_NAMING_KG_S)
        || [gain.running_v, gain.starting_v].into_iter().flatten().any(|volts| volts > WORTH_NAMING_V)
}

/// What counts in the kit of this name. Changes are taken from the shelf.
///
/// # Errors
/// No such kit; the document's faults; a price for what is no row.
pub fn what_counts(
    document: &Document,
    kit: &str,
    shelf: &Shelf,
    prices: &Prices,
) -> Result<WhatCounts, CompareError> {
    let mixture = Mixture::new(alone(document, kit)?)?;
    let answer = solve(&mixture.base.setup);
    let base = Headline::of(&answer);
    let ideal = headline(&mixture.with_ideal(|_| true));
    let mut rows: Vec<Row> =
        mixture.listed.iter().map(|listed| row(&mixture, &base, listed, shelf, prices)).collect();
    rows.sort_by(|a, b| more(&gain(&base, &a.without), &gain(&base, &b.without)));
    check_prices(prices, document, &rows)?;
    let to_start = if runs_and_starts(&answer) { None } else { most_volts(&base, &rows) };
    let best_change = best_change(&base, &rows);
    let best_pair = best_pair(&mixture, &base, &rows);
    Ok(WhatCounts { kit: mixture.base.name.clone(), base, ideal, rows, to_start, best_change, best_pair })
}

fn headline(setup: &Setup) -> Headline {
    Headline::of(&solve(setup))
}

fn runs_and_starts(answer: &KitAnswer) -> bool {
    answer.power.as_ref().is_ok_and(|power| {
        power.running.point().is_some() && matches!(power.starting.outcome, StartOutcome::Starts)
    })
}

/// The row whose change brings most volts at the start.
fn most_volts(base: &Headline, rows: &[Row]) -> Option<String> {
    let volts = |row: &Row| gain(base, &row.better.as_ref()?.headline).starting_v;
    let gaining = rows.iter().filter_map(|row| Some((row, volts(row).filter(|v| *v > WORTH_NAMING_V)?)));
    gaining.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(row, _)| row.id.clone())
}

fn row(mixture: &Mixture, base: &Headline, listed: &Listed, shelf: &Shelf, prices: &Prices) -> Row {
    let this = listed.aspect;
    let without = headline(&mixture.with_ideal(|aspect| aspect == this));
    let only_this = headline(&mixture.with_ideal(|aspect| aspect != this));
    let better = change(&mixture.document, listed, shelf)
        .and_then(|change| {
            let headline = match &change.effect {
                super::better::Effect::TakenOut => without,
                _ => headline(&changed(mixture, &[(this, &change)])?),
            };
            Some((change, headline))
        })
        .filter(|(_, headline)| is_worth_naming(&gain(base, headline)))
        .map(|(change, headline)| {
            let price = prices.of_row(&listed.id);
            let saved_s = gain(base, &headline).total_s.map(|s| -s);
            let pay_back_jobs = price.zip(saved_s).and_then(|(price, s)| prices.pay_back_jobs(price, s));
            Better { words: change.words.clone(), headline, price, pay_back_jobs, change, aspect: this }
        });
    let part = part(&mixture.document, this);
    Row {
        id: listed.id.clone(),
        name: listed.name.clone(),
        words: part.map_or_else(|| listed.name.clone(), described),
        kind: part.map(Part::kind),
        group: listed.group,
        ideal: listed.ideal,
        without,
        only_this,
        better,
    }
}

/// The kit with these changes; none where the document refuses them.
fn changed(mixture: &Mixture, changes: &[(Aspect, &Change)]) -> Option<Setup> {
    let mut document = mixture.document.clone();
    let mut taken_out = Vec::new();
    for (aspect, change) in changes {
        if apply(&mut document, *aspect, &change.effect) {
            taken_out.push(*aspect);
        }
    }
    let kit: KitSetup = only(&document).ok()?;
    Some(mixture.made_ideal(kit.setup, |aspect| taken_out.contains(&aspect)))
}

fn best_change(base: &Headline, rows: &[Row]) -> Option<String> {
    let with_change = rows.iter().filter_map(|row| Some((row, gain(base, &row.better.as_ref()?.headline))));
    with_change.min_by(|a, b| more(&a.1, &b.1)).map(|(row, _)| row.id.clone())
}

fn best_pair(mixture: &Mixture, base: &Headline, rows: &[Row]) -> Option<BestPair> {
    let mut betters: Vec<(&Row, &Better)> =
        rows.iter().filter_map(|row| Some((row, row.better.as_ref()?))).collect();
    betters.sort_by(|a, b| more(&gain(base, &a.1.headline), &gain(base, &b.1.headline)));
    betters.truncate(MOST_PAIRED);
    let mut best: Option<(Gain, BestPair)> = None;
    for (at, (one_row, one)) in betters.iter().enumerate() {
        for (other_row, other) in betters.iter().skip(at + 1) {
            let changes = [(one.aspect, &one.change), (other.aspect, &other.change)];
            let Some(setup) = changed(mixture, &changes) else { continue };
            let then = headline(&setup);
            let gained = gain(base, &then);
            if best.as_ref().is_none_or(|(most, _)| more(&gained, most).is_lt()) {
                let rows = [one_row.id.clone(), other_row.id.clone()];
                best = Some((gained, BestPair { rows, headline: then }));
            }
        }
    }
    best.map(|(_, pair)| pair)
}

/// Prices are given once for all kits: each must be a row of this kit or of another.
fn check_prices(prices: &Prices, document: &Document, rows: &[Row]) -> Result<(), CompareError> {
    let others = |id: &str| {
        document.kits.iter().any(|kit| {
            id.strip_prefix("kits.")
                .and_then(|rest| rest.strip_prefix(kit.name.as_str()))
                .is_some_and(|rest| rest.starts_with('.'))
        })
    };
    match prices.rows().find(|id| !others(id) && rows.iter().all(|row| row.id != *id)) {
        None => Ok(()),
        Some(id) => {
            let known: Vec<&str> = rows.iter().map(|row| row.id.as_str()).collect();
            let problem = format!("nothing is ranked there; expected one of {}", known.join(", "));
            Err(CompareError::Price { row: id.to_owned(), problem })
        }
    }
}
