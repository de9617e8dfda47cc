//! Kits side by side: each kit's answer, and in what it differs from the first.

use super::choice::MOST_KITS;
use super::differs::{Differing, differing};
use super::error::CompareError;
use super::headline::Headline;
use crate::job::{KitAnswer, solve};
use crate::scenario::{Document, KitSetup, resolve};

/// One kit among others.
#[derive(Debug, Clone)]
pub struct Column {
    /// The kit and its physics input.
    pub kit: KitSetup,
    /// Both answers.
    pub answer: KitAnswer,
    /// Its headline figures.
    pub headline: Headline,
    /// In what it differs from the first kit; empty for the first itself.
    pub differs: Differing,
}

/// Up to [`MOST_KITS`] kits that share system, day and supply.
#[derive(Debug, Clone)]
pub struct SideBySide {
    /// The kits in the document's order; the first is what the others are compared with.
    pub columns: Vec<Column>,
}

/// Solves every kit of a document and lists what differs.
///
/// # Errors
/// The document's faults; more kits than fit (see [`super::chosen`]).
pub fn side_by_side(document: &Document) -> Result<SideBySide, CompareError> {
    if document.kits.len() > MOST_KITS {
        return Err(CompareError::TooManyKits { count: document.kits.len(), most: MOST_KITS });
    }
    let setups = resolve(document)?;
    let first = document.kits.first();
    let columns = setups
        .into_iter()
        .zip(&document.kits)
        .map(|(kit, written)| {
            let answer = solve(&kit.setup);
            let differs = first.map(|first| differing(document, first, written)).unwrap_or_default();
            Column { headline: Headline::of(&answer), differs, answer, kit }
        })
        .collect();
    Ok(SideBySide { columns })
}
