//! A sweep: one or two inputs over a range, all kits solved at every point.

use super::error::CompareError;
use super::headline::Headline;
use super::vary::Axis;
use crate::job::{KitAnswer, solve};
use crate::scenario::{Document, KitSetup, resolve, set};

/// The most points that are worth computing.
pub const MOST_CELLS: usize = 10_000;

/// One kit at one point.
#[derive(Debug, Clone)]
pub struct SweptKit {
    /// The kit and its physics input there.
    pub kit: KitSetup,
    /// Both answers.
    pub answer: KitAnswer,
    /// Its headline figures.
    pub headline: Headline,
}

/// One point of a sweep.
#[derive(Debug, Clone)]
pub struct SweptRow {
    /// The number of each field of each axis, in the field's unit.
    pub numbers: Vec<f64>,
    /// The kits, or why the document cannot be solved there.
    pub kits: Result<Vec<SweptKit>, String>,
}

/// A sweep's points; the last axis moves fastest.
#[derive(Debug, Clone)]
pub struct Sweep {
    /// What was varied.
    pub axes: Vec<Axis>,
    /// The points.
    pub rows: Vec<SweptRow>,
    /// It was stopped before its last point.
    pub stopped: bool,
}

/// Solves a document along one axis, or over two. `should_stop` is asked before each point.
///
/// # Errors
/// No axis or more than two, too many points, a text that its field cannot read. A value out of
/// range is told at its point.
pub fn sweep(
    document: &Document,
    axes: &[Axis],
    should_stop: &dyn Fn() -> bool,
) -> Result<Sweep, CompareError> {
    let count = axes.iter().try_fold(1usize, |count, axis| count.checked_mul(axis.steps()));
    let count = count.filter(|count| (1..=2).contains(&axes.len()) && (1..=MOST_CELLS).contains(count));
    let Some(count) = count else {
        let count = axes.iter().fold(1usize, |count, axis| count.saturating_mul(axis.steps()));
        let count = if axes.is_empty() { 0 } else { count };
        return Err(CompareError::TooManyCells { count, most: MOST_CELLS });
    };
    let mut rows = Vec::with_capacity(count);
    for cell in 0..count {
        if should_stop() {
            return Ok(Sweep { axes: axes.to_vec(), rows, stopped: true });
        }
        rows.push(row(document, axes, cell)?);
    }
    Ok(Sweep { axes: axes.to_vec(), rows, stopped: false })
}

fn row(document: &Document, axes: &[Axis], cell: usize) -> Result<SweptRow, CompareError> {
    let steps = steps_of(axes, cell);
    let numbers = steps.iter().flat_map(|(axis, step)| axis.numbers(*step)).collect();
    let edits = steps.iter().flat_map(|(axis, step)| axis.edits(*step));
    let changed = edited(document, edits)?;
    Ok(SweptRow { numbers, kits: solved(&changed) })
}

/// The document with these fields set: path and text.
pub(super) fn edited<'e>(
    document: &Document,
    edits: impl IntoIterator<Item = (&'e str, String)>,
) -> Result<Document, CompareError> {
    let mut changed = document.clone();
    for (path, text) in edits {
        set(&mut changed, path, &text)?;
    }
    Ok(changed)
}

/// Every kit of a document solved, or why none can be.
pub(super) fn solved(document: &Document) -> Result<Vec<SweptKit>, String> {
    let solved = |kit: KitSetup| {
        let answer = solve(&kit.setup);
        SweptKit { headline: Headline::of(&answer), answer, kit }
    };
    resolve(document)
        .map(|kits| kits.into_iter().map(solved).collect())
        .map_err(|faults| faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))
}

/// Each axis with its step at a cell; the last axis moves fastest.
fn steps_of(axes: &[Axis], cell: usize) -> Vec<(&Axis, usize)> {
    let mut rest = cell;
    let mut steps: Vec<(&Axis, usize)> = axes
        .iter()
        .rev()
        .map(|axis| {
            let step = rest % axis.steps().max(1);
            rest /= axis.steps().max(1);
            (axis, step)
        })
        .collect();
    steps.reverse();
    steps
}
