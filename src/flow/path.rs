//! The parts between the system and the machine: in series, with a second branch where two ports
//! or both sides of a gauge set are open.

use super::element::Element;
use super::error::FlowError;

/// One part: the elements a flow meets in it, in order.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PathPart {
    /// Tubes and restrictions; a gauge set has two seats.
    pub elements: Vec<Element>,
}

/// A second branch that meets the first.
#[derive(Debug, Clone, PartialEq)]
pub struct SecondBranch {
    /// Its own parts, from its port to where the branches meet.
    pub parts: Vec<PathPart>,
    /// How many parts of the first branch come before the meeting.
    pub joins_before: usize,
}

/// A whole path. Without parts, the machine stands at the system's port.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Path {
    /// From the system's port to the machine.
    pub parts: Vec<PathPart>,
    /// The other port's branch, if both are open.
    pub second: Option<SecondBranch>,
}

impl Path {
    /// A path in series.
    pub fn series(parts: Vec<PathPart>) -> Self {
        Self { parts, second: None }
    }

    /// A path with a second branch, checked.
    ///
    /// # Errors
    /// The branches must meet after at least one part of each, and not beyond the last part.
    pub fn with_second(parts: Vec<PathPart>, second: SecondBranch) -> Result<Self, FlowError> {
        let alone = |parts: &[PathPart]| parts.iter().any(|part| !part.elements.is_empty());
        let joins = second.joins_before;
        if joins > parts.len() || !alone(&parts[..joins]) || !alone(&second.parts) {
            return Err(FlowError::out_of_range(
                "parts of the first branch before the branches meet",
                joins as f64,
                "at least one part in each branch before they meet",
            ));
        }
        Ok(Self { parts, second: Some(second) })
    }
}
