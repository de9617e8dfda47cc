//! Results derived from a document, with the document they are for.

use narrows::job::{self, MeetingCurves, OperatingPoint};
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
    /// The operating point, or why there is none, in words.
    pub point: Result<OperatingPoint, String>,
    /// The curves that meet there.
    pub curves: Option<MeetingCurves>,
}

/// Solves every kit.
pub fn solve(document: Document) -> Answer {
    let kits = match scenario::resolve(&document) {
        Ok(setups) => setups.iter().map(|kit| kit_answer(&kit.setup)).collect(),
        Err(faults) => {
            let words: Vec<String> = faults.iter().map(ToString::to_string).collect();
            let refused = KitAnswer { point: Err(words.join("; ")), curves: None };
            vec![refused; document.kits.len()]
        }
    };
    Answer { document, kits }
}

fn kit_answer(setup: &job::Setup) -> KitAnswer {
    KitAnswer {
        point: job::solve(setup).map_err(|error| error.to_string()),
        curves: job::meeting_curves(setup, CURVE_POINTS).ok(),
    }
}
