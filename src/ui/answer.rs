//! Results derived from a document, with the document they are for.

use narrows::job::{self, MeetingCurves, OperatingPoint};
use narrows::power::PowerPoint;
use narrows::scenario::{self, Document};

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
    solved: Result<job::KitAnswer, String>,
    /// The curves that meet at the operating point.
    pub curves: Option<MeetingCurves>,
}

impl KitAnswer {
    /// The operating point, or why there is none.
    pub fn point_or_why(&self) -> Result<&OperatingPoint, String> {
        let solved = self.solved.as_ref().map_err(Clone::clone)?;
        solved.point.as_ref().map_err(ToString::to_string)
    }

    /// The operating point, if there is one.
    pub fn point(&self) -> Option<&OperatingPoint> {
        self.solved.as_ref().ok()?.point.as_ref().ok()
    }

    /// Volts and amps, if there are any.
    pub fn power(&self) -> Option<&PowerPoint> {
        self.solved.as_ref().ok()?.power.as_ref().ok()
    }
}

/// Solves every kit.
pub fn solve(document: Document) -> Answer {
    let kits = match scenario::resolve(&document) {
        Ok(setups) => setups.iter().map(|kit| kit_answer(&kit.setup)).collect(),
        Err(faults) => {
            let words: Vec<String> = faults.iter().map(ToString::to_string).collect();
            let refused = KitAnswer { solved: Err(words.join("; ")), curves: None };
            vec![refused; document.kits.len()]
        }
    };
    Answer { document, kits }
}

fn kit_answer(setup: &job::Setup) -> KitAnswer {
    KitAnswer {
        solved: Ok(job::solve(setup)),
        curves: job::meeting_curves(setup, CURVE_POINTS).ok(),
    }
}
