//! What counts: what each thing by itself costs a kit, and what to change first.
//!
//! Each thing is made ideal alone ("without"), kept alone with everything else ideal ("only this"),
//! and, where there is one, changed for something real ("better"). Gains do not add up, since what
//! is behind one restriction shows only once that is gone; both the sum and the gain of everything
//! together are told. Here it is about the operating point; `count_minutes` adds whole jobs.

use super::aspect::{Aspect, Group, Listed};
use super::better::{Change, apply, change, part};
use super::choice::alone;
use super::differs::described;
use super::error::CompareError;
use super::gain::{Gain, WORTH_NAMING_KG_S, WORTH_NAMING_TIME_RATIO, gain, is_worth_naming, more};
use super::headline::{Figure, Headline};
use super::ideal::{Mixture, only};
use super::prices::Prices;
use super::to_start::ToStart;
use crate::job::{Setup, solve};
use crate::kit::{Part, PartKind};
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
    pub(super) aspect: Aspect,
}

/// A real change and what it brings.
#[derive(Debug, Clone, PartialEq)]
pub struct Better {
    /// What is done.
    pub words: String,
    /// The kit's figures then.
    pub headline: Headline,
    /// What is fitted, bought or done: prices go by it.
    pub key: String,
    /// What it costs, if that was said.
    pub price: Option<f64>,
    pub(super) change: Change,
}

/// Two changes together.
#[derive(Debug, Clone, PartialEq)]
pub struct BestPair {
    /// Ids of their rows.
    pub rows: [String; 2],
    /// The kit's figures with both.
    pub headline: Headline,
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
    /// What it hangs on, what counts most first: parts and cords, then conditions, whose ideals
    /// nobody can buy.
    pub rows: Vec<Row>,
    /// What lets the motor start and hold its load. No rate is worth anything before that.
    pub to_start: ToStart,
    /// The id of the row whose change brings most.
    pub best_change: Option<String>,
    /// The two changes that bring most together.
    pub best_pair: Option<BestPair>,
    prices: Prices,
}

impl WhatCounts {
    /// What these figures bring against the kit as it is.
    pub fn gain(&self, then: &Headline) -> Gain {
        gain(&self.base, then)
    }

    /// Which of two brings more comes first.
    pub fn more(&self, one: &Headline, other: &Headline) -> std::cmp::Ordering {
        more(&self.base, one, other)
    }

    /// Whether whole jobs were followed; minutes may still be missing where none gets done.
    pub fn has_jobs(&self) -> bool {
        self.base.recovered.is_some()
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

    /// Seconds that figures save on a job, if it is worth naming.
    pub fn saved_s(&self, then: &Headline) -> Option<f64> {
        let saved_s = -self.gain(then).total_s?;
        (saved_s > WORTH_NAMING_TIME_RATIO * self.base.si(Figure::Minutes)?).then_some(saved_s)
    }

    /// What a change costs for each minute that it saves on one job.
    pub fn price_per_minute(&self, better: &Better) -> Option<f64> {
        Some(better.price? * 60.0 / self.saved_s(&better.headline)?)
    }

    /// Jobs after which a change has paid for itself, where that can be told.
    pub fn pay_back_jobs(&self, better: &Better) -> Option<f64> {
        self.prices.pay_back_jobs(better.price?, self.saved_s(&better.headline)?)
    }

    /// Puts the rows in order and finds what to change first, among figures that may have changed.
    pub(super) fn settle(&mut self, pairs: Vec<BestPair>) {
        let Self { base, rows, .. } = self;
        let is_condition = |row: &Row| row.group == Group::Condition;
        rows.sort_by(|a, b| {
            is_condition(a).cmp(&is_condition(b)).then_with(|| more(base, &a.without, &b.without))
        });
        let with_change = rows.iter().filter_map(|row| Some((row, row.better.as_ref()?)));
        let best = with_change.min_by(|a, b| more(base, &a.1.headline, &b.1.headline));
        self.best_change = best.map(|(row, _)| row.id.clone());
        self.best_pair = pairs.into_iter().min_by(|a, b| more(base, &a.headline, &b.headline));
    }

    /// Pairs of changes worth trying, those that bring most by themselves.
    pub(super) fn candidates(&self) -> Vec<(&Row, &Row)> {
        let mut changed: Vec<(&Row, &Better)> =
            self.rows.iter().filter_map(|row| Some((row, row.better.as_ref()?))).collect();
        changed.sort_by(|a, b| self.more(&a.1.headline, &b.1.headline));
        changed.truncate(MOST_PAIRED);
        let rest = |at: usize| changed.iter().skip(at + 1);
        changed.iter().enumerate().flat_map(|(at, one)| rest(at).map(|other| (one.0, other.0))).collect()
    }
}

/// Pairs are tried among this many changes at most.
const MOST_PAIRED: usize = 6;

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
    let to_start = ToStart::find(&mixture, &answer, shelf, prices);
    let ideal = headline(&mixture.with_ideal(|_| true));
    let rows: Vec<Row> =
        mixture.listed.iter().map(|listed| row(&mixture, &base, listed, shelf, prices)).collect();
    check_prices(prices, document, &rows)?;
    let mut counts = WhatCounts {
        kit: mixture.base.name.clone(),
        base,
        ideal,
        to_start,
        rows,
        best_change: None,
        best_pair: None,
        prices: prices.clone(),
    };
    let pairs = pairs(&mixture, &counts);
    counts.settle(pairs.into_iter().map(|(pair, _)| pair).collect());
    Ok(counts)
}

/// The pairs of changes worth trying, with their figures and setups.
pub(super) fn pairs(mixture: &Mixture, counts: &WhatCounts) -> Vec<(BestPair, Setup)> {
    let mut pairs = Vec::new();
    for (one, other) in counts.candidates() {
        let (Some(first), Some(second)) = (&one.better, &other.better) else { continue };
        let changes = [(one.aspect, &first.change), (other.aspect, &second.change)];
        let rows = [one.id.clone(), other.id.clone()];
        let made = changed(mixture, &changes);
        pairs.extend(made.map(|setup| (BestPair { rows, headline: headline(&setup) }, setup)));
    }
    pairs
}

fn headline(setup: &Setup) -> Headline {
    Headline::of(&solve(setup))
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
            let price = prices.of_change(&listed.id, &change.key);
            Better { words: change.words.clone(), key: change.key.clone(), headline, price, change }
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
        aspect: this,
    }
}

/// The kit with these changes; none where the document refuses them.
pub(super) fn changed(mixture: &Mixture, changes: &[(Aspect, &Change)]) -> Option<Setup> {
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

/// Prices are given once for all kits: one by a row's id must be a row of this kit or of another.
fn check_prices(prices: &Prices, document: &Document, rows: &[Row]) -> Result<(), CompareError> {
    let others = |id: &str| {
        document.kits.iter().any(|kit| {
            id.strip_prefix("kits.")
                .and_then(|rest| rest.strip_prefix(kit.name.as_str()))
                .is_some_and(|rest| rest.starts_with('.'))
        })
    };
    // What changes are called has no dots; another kit may have that change.
    let ids = prices.rows().filter(|id| id.contains('.') && !id.contains(' '));
    match ids.into_iter().find(|id| !others(id) && rows.iter().all(|row| row.id != *id)) {
        None => Ok(()),
        Some(id) => {
            let known: Vec<&str> = rows.iter().map(|row| row.id.as_str()).collect();
            let problem = format!("nothing is ranked there; expected one of {}", known.join(", "));
            Err(CompareError::Price { row: id.to_owned(), problem })
        }
    }
}
