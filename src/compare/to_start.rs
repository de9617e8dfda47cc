//! What lets a motor start that does not as it is.
//!
//! Only a change after which it does start and holds its load is named. Changes are tried one by one;
//! of a cord, one thicker than the other until one will do.

use super::aspect::Listed;
use super::better::{Change, changes_to_start};
use super::headline::{Figure, Headline};
use super::ideal::Mixture;
use super::prices::Prices;
use super::what_counts::{Better, changed};
use crate::job::{KitAnswer, solve};
use crate::power::StartOutcome;
use crate::presets::Shelf;

/// What lets a motor start and hold its load.
#[derive(Debug, Clone, PartialEq)]
pub enum ToStart {
    /// It does as it is.
    AsItIs,
    /// This change. Of several the one that brings most volts at the start.
    Change(Box<StartingChange>),
    /// No change by itself.
    NoChange,
}

/// A change with which a motor starts.
#[derive(Debug, Clone, PartialEq)]
pub struct StartingChange {
    /// The id of its row.
    pub row: String,
    /// What is done, and the kit's figures then.
    pub better: Better,
}

impl ToStart {
    pub(super) fn find(mixture: &Mixture, as_it_is: &KitAnswer, shelf: &Shelf, prices: &Prices) -> Self {
        if runs_and_starts(as_it_is) {
            return Self::AsItIs;
        }
        let starting = mixture.listed.iter().filter_map(|listed| first(mixture, listed, shelf, prices));
        let volts = |one: &StartingChange| one.better.headline.si(Figure::StartingVoltage).unwrap_or(0.0);
        let most = starting.max_by(|a, b| volts(a).total_cmp(&volts(b)));
        most.map_or(Self::NoChange, |change| Self::Change(Box::new(change)))
    }

    /// The change, if one is needed and there is one.
    pub fn change(&self) -> Option<&StartingChange> {
        match self {
            Self::Change(change) => Some(change),
            Self::AsItIs | Self::NoChange => None,
        }
    }
}

/// The first change of one thing with which the motor starts.
fn first(mixture: &Mixture, listed: &Listed, shelf: &Shelf, prices: &Prices) -> Option<StartingChange> {
    changes_to_start(&mixture.document, listed, shelf).into_iter().find_map(|change| {
        let answer = solve(&changed(mixture, &[(listed.aspect, &change)])?);
        let better = |change: Change| Better {
            words: change.words.clone(),
            headline: Headline::of(&answer),
            price: prices.of_change(&listed.id, &change.key),
            key: change.key.clone(),
            change,
        };
        runs_and_starts(&answer).then(|| StartingChange { row: listed.id.clone(), better: better(change) })
    })
}

fn runs_and_starts(answer: &KitAnswer) -> bool {
    answer.power.as_ref().is_ok_and(|power| {
        power.running.point().is_some() && matches!(power.starting.outcome, StartOutcome::Starts)
    })
}
