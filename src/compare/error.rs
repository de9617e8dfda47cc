//! Why a comparison cannot be made.

use crate::scenario::{Fault, SetError};

/// No comparison, and why. Each sentence names the thing, its value and what is expected.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum CompareError {
    /// The document cannot be solved as it stands.
    #[error("{}", faults.iter().map(Fault::to_string).collect::<Vec<_>>().join("\n"))]
    Faults {
        /// Every fault.
        faults: Vec<Fault>,
    },
    /// The document describes no whole job that can be followed.
    #[error("{}", faults.iter().map(Fault::to_string).collect::<Vec<_>>().join("\n"))]
    NoJob {
        /// What is missing or wrong.
        faults: Vec<Fault>,
    },
    /// No kit of this name.
    #[error("there is no kit {name:?}; expected one of {known}")]
    UnknownKit {
        /// As asked.
        name: String,
        /// The kits there are.
        known: String,
    },
    /// More kits than can stand side by side.
    #[error("{count} kits stand in the document; name up to {most} of them to compare")]
    TooManyKits {
        /// How many.
        count: usize,
        /// How many fit.
        most: usize,
    },
    /// A number of draws that cannot be made.
    #[error("{count} draws; expected 2 to {most}")]
    Draws {
        /// As asked.
        count: usize,
        /// The longest sequence.
        most: usize,
    },
    /// A price for something that is not ranked, or that is no price.
    #[error("price {row:?}: {problem}")]
    Price {
        /// The row asked for.
        row: String,
        /// What is wrong, and what is expected.
        problem: String,
    },
    /// What is to be varied is not written as it should be.
    #[error(
        "vary {text:?}: {problem}; expected PATH=FROM..TO or PATH=FROM..TO:STEPS, as kits.A.parts.1.length=5 ft..50 ft:10"
    )]
    Vary {
        /// As written.
        text: String,
        /// What is wrong.
        problem: String,
    },
    /// A machine that is to be moved along a hose, a cord or in steps that there are not.
    #[error("{asked}: {problem}")]
    Place {
        /// What was asked for: `hose "x"`.
        asked: String,
        /// What is wrong, and what is expected.
        problem: String,
    },
    /// A field refuses a value on the way.
    #[error("vary {refusal}")]
    Set {
        /// What the field says.
        refusal: Box<SetError>,
    },
    /// More points than are worth computing.
    #[error("{count} points to sweep; expected 1 to {most}, on one or two axes")]
    TooManyCells {
        /// How many.
        count: usize,
        /// How many at most.
        most: usize,
    },
}

impl From<Vec<Fault>> for CompareError {
    fn from(faults: Vec<Fault>) -> Self {
        Self::Faults { faults }
    }
}

impl From<SetError> for CompareError {
    fn from(refusal: SetError) -> Self {
        Self::Set { refusal: Box::new(refusal) }
    }
}
