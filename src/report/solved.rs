//! A kit with its answer and its cautions: what window and terminal both show.

use crate::advice::{Caution, cautions, withheld_because};
use crate::job::{JobError, KitAnswer, OperatingPoint, solve};
use crate::kit::Fault;
use crate::scenario::{Document, KitSetup, resolve};

/// One kit, solved.
#[derive(Debug, Clone)]
pub struct SolvedKit {
    /// The kit and its physics input.
    pub kit: KitSetup,
    /// Both answers.
    pub answer: KitAnswer,
    /// Its cautions, Stops first.
    pub cautions: Vec<Caution>,
}

impl SolvedKit {
    /// The operating point, unless a Stop withholds it or there is none.
    pub fn shown_point(&self) -> Result<&OperatingPoint, Unshown<'_>> {
        if let Some(caution) = withheld_because(&self.cautions) {
            return Err(Unshown::Withheld(caution));
        }
        self.answer.point.as_ref().map_err(Unshown::NoPoint)
    }
}

/// Why a rate is not shown.
#[derive(Debug, Clone, Copy)]
pub enum Unshown<'a> {
    /// A Stop withholds it.
    Withheld(&'a Caution),
    /// There is none.
    NoPoint(&'a JobError),
}

/// Solves one kit.
pub fn solve_kit(kit: KitSetup) -> SolvedKit {
    let answer = solve(&kit.setup);
    let cautions = cautions(&kit, &answer);
    SolvedKit { kit, answer, cautions }
}

/// Solves every kit of a document.
///
/// # Errors
/// Every fault of the document at once.
pub fn solve_document(document: &Document) -> Result<Vec<SolvedKit>, Vec<Fault>> {
    Ok(resolve(document)?.into_iter().map(solve_kit).collect())
}
