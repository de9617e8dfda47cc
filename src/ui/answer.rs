//! Results derived from a document, with the document they are for.

use narrows::advice::Caution;
use narrows::job::{MeetingCurves, OperatingPoint, meeting_curves};
use narrows::power::PowerPoint;
use narrows::report::{SolvedKit, Unshown, job_error_text, notes_of, solve_document};
use narrows::scenario::Document;
use narrows::units::UnitSet;

/// Points on each of the two curves.
const CURVE_POINTS: usize = 80;

/// The answers for every kit of one document.
#[derive(Clone, Debug)]
pub struct Answer {
    /// The document they are for: the key.
    pub document: Document,
    /// One a kit, in the document's order.
    pub kits: Vec<KitAnswer>,
}

/// The answer for one kit.
#[derive(Clone, Debug)]
pub struct KitAnswer {
    solved: Result<SolvedKit, String>,
    /// The curves that meet at the operating point.
    pub curves: Option<MeetingCurves>,
}

/// Why no operating point is shown.
#[derive(Clone, Debug, PartialEq)]
pub struct NoPoint {
    /// In words.
    pub text: String,
    /// A Stop withholds it; else there is none.
    pub withheld: bool,
}

impl KitAnswer {
    /// The operating point, or why none is shown.
    pub fn point_or_why(&self, units: UnitSet) -> Result<&OperatingPoint, NoPoint> {
        let no_point = |text: String| NoPoint { text, withheld: false };
        let solved = self.solved.as_ref().map_err(|faults| no_point(faults.clone()))?;
        solved.shown_point().map_err(|unshown| match unshown {
            Unshown::Withheld(caution) => NoPoint { text: caution.text.clone(), withheld: true },
            Unshown::NoPoint(error) => {
                no_point(job_error_text(error, units, solved.kit.setup.ambient.pressure))
            }
        })
    }

    /// The operating point, if one is shown.
    pub fn point(&self) -> Option<&OperatingPoint> {
        self.solved.as_ref().ok()?.shown_point().ok()
    }

    /// Volts and amps, if there are any.
    pub fn power(&self) -> Option<&PowerPoint> {
        self.solved.as_ref().ok()?.answer.power.as_ref().ok()
    }

    /// Why there are no volts.
    pub fn power_trouble(&self) -> Option<String> {
        self.solved.as_ref().ok()?.answer.power.as_ref().err().map(ToString::to_string)
    }

    /// What to heed, Stops first.
    pub fn cautions(&self) -> &[Caution] {
        self.solved.as_ref().map_or(&[], |solved| &solved.cautions)
    }

    /// What a person should know beside the numbers.
    pub fn notes(&self) -> Vec<String> {
        self.solved.as_ref().map(notes_of).unwrap_or_default()
    }
}

/// Solves every kit, by the same function as the terminal.
pub fn solve(document: Document) -> Answer {
    let kits = match solve_document(&document) {
        Ok(solved) => solved.into_iter().map(kit_answer).collect(),
        Err(faults) => {
            let words: Vec<String> = faults.iter().map(ToString::to_string).collect();
            let refused = KitAnswer { solved: Err(words.join("; ")), curves: None };
            vec![refused; document.kits.len()]
        }
    };
    Answer { document, kits }
}

fn kit_answer(solved: SolvedKit) -> KitAnswer {
    let curves = solved.shown_point().ok().and_then(|_| meeting_curves(&solved.kit.setup, CURVE_POINTS).ok());
    KitAnswer { solved: Ok(solved), curves }
}
