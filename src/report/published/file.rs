//! The data file of the published cases: groups that share a source, a mark and a tolerance.

use serde::Deserialize;

use super::Case;
use super::question::Question;
use crate::kit::dialect;

const TEXT: &str = include_str!("../../../assets/published_cases.ron");

/// The data file does not read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("the published cases do not read at line {line}, column {column}: {detail}")]
pub struct CasesError {
    /// Where.
    pub line: usize,
    /// Where.
    pub column: usize,
    /// Why.
    pub detail: String,
}

/// What kind of source an expected value has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// Printed in a standard, a regulation, a handbook or a paper.
    Published,
    /// Computed by a named library of a named version, or by a closed form.
    Library,
    /// Recalled from a publication that was not at hand.
    Memory,
    /// What people of the trade go by; no source.
    CommonPractice,
}

impl Mark {
    /// Every mark, the strongest first.
    pub const ALL: [Self; 4] = [Self::Published, Self::Library, Self::Memory, Self::CommonPractice];

    /// In words.
    pub fn label(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Library => "library or closed form",
            Self::Memory => "from memory",
            Self::CommonPractice => "common practice",
        }
    }

    /// The word that programs read.
    pub fn tag(self) -> &'static str {
        match self {
            Self::Published => "published",
            Self::Library => "library",
            Self::Memory => "memory",
            Self::CommonPractice => "common_practice",
        }
    }
}

/// How far an answer may be from the expected value.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
pub enum Within {
    /// A share of the expected value.
    Share(f64),
    /// An amount in the case's unit.
    Amount(f64),
    /// Anywhere from the expected value up to this one.
    UpTo(f64),
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Group {
    topic: String,
    source: String,
    mark: Mark,
    within: Within,
    cases: Vec<(Question, Expected)>,
}

#[derive(Debug, Clone, Copy, Deserialize)]
enum Expected {
    /// This value, within the group's tolerance.
    Is(f64),
    /// Anywhere between.
    Between(f64, f64),
}

/// The groups of the file that the program brings with it.
pub(super) fn built_in() -> Result<Vec<Group>, CasesError> {
    dialect().from_str(TEXT).map_err(|error| CasesError {
        line: error.span.start.line,
        column: error.span.start.col,
        detail: error.code.to_string(),
    })
}

impl Group {
    /// Asks every question.
    pub(super) fn run(self) -> Vec<Case> {
        let case = |(question, expected): (Question, Expected)| {
            let (expected, within) = match expected {
                Expected::Is(value) => (value, self.within),
                Expected::Between(low, high) => (low, Within::UpTo(high)),
            };
            Case {
                topic: self.topic.clone(),
                what: question.to_string(),
                source: self.source.clone(),
                mark: self.mark,
                expected,
                got: question.answer(),
                unit: question.unit(),
                within,
            }
        };
        self.cases.into_iter().map(case).collect()
    }
}
