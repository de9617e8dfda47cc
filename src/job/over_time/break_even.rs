//! The charge at which two methods take the same time.

use uom::si::f64::{Mass, Time};
use uom::si::mass::kilogram;
use uom::si::time;

use super::answer::EndsBecause;
use super::course::follow;
use super::setup::{JobSetup, Recovery};
use crate::job::JobError;
use crate::numerics::{RootError, Tolerance, find_root};

/// Which of two methods is faster.
#[derive(Debug, Clone, PartialEq)]
pub enum BreakEven {
    /// The first below this charge, the second above it, or the other way round.
    At {
        /// Where both take the same time.
        charge: Mass,
        /// The second method is the faster one above it.
        second_wins_above: bool,
        /// Charges that were tried, with the minutes of both, by rising charge.
        tried: Vec<Compared>,
    },
    /// The first is no slower over the whole range.
    First {
        /// As above.
        tried: Vec<Compared>,
    },
    /// The second is faster over the whole range.
    Second {
        /// As above.
        tried: Vec<Compared>,
    },
}

/// Both methods on one charge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compared {
    /// The charge.
    pub charge: Mass,
    /// Time of the first method.
    pub first: Time,
    /// Time of the second.
    pub second: Time,
}

/// The charge is found to this share of itself.
const TOLERANCE: f64 = 0.005;

/// Finds the charge at which two methods take the same time, all else as in `job`.
///
/// A method that does not reach the level is taken to need the whole time limit.
///
/// # Errors
/// As [`follow`].
pub fn break_even(
    job: &JobSetup,
    first: &Recovery,
    second: &Recovery,
    range: (Mass, Mass),
) -> Result<BreakEven, JobError> {
    let mut tried = Vec::new();
    let mut compare = |charge_kg: f64| -> Result<f64, JobError> {
        let charge = Mass::new::<kilogram>(charge_kg);
        let pair =
            Compared { charge, first: time_of(job, first, charge)?, second: time_of(job, second, charge)? };
        tried.push(pair);
        Ok((pair.first - pair.second).get::<time::second>())
    };
    let (low, high) = (range.0.get::<kilogram>(), range.1.get::<kilogram>());
    let ends = ((low, compare(low)?), (high, compare(high)?));
    let tolerance = Tolerance { absolute: 0.0, relative: TOLERANCE, residual: 1.0 };
    let found = if ends.0.1 == 0.0 && ends.1.1 == 0.0 {
        Err(RootError::NotBracketed { low, high })
    } else {
        find_root(&mut compare, ends.0, ends.1, tolerance)
    };
    tried.sort_by(|a, b| a.charge.value.total_cmp(&b.charge.value));
    match found {
        Ok(root) => Ok(BreakEven::At {
            charge: Mass::new::<kilogram>(root.x),
            second_wins_above: ends.1.1 > 0.0,
            tried,
        }),
        Err(RootError::Function(error)) => Err(error),
        Err(RootError::NotBracketed { .. }) if ends.1.1 > 0.0 => Ok(BreakEven::Second { tried }),
        Err(RootError::NotBracketed { .. }) => Ok(BreakEven::First { tried }),
    }
}

fn time_of(job: &JobSetup, method: &Recovery, charge: Mass) -> Result<Time, JobError> {
    let mut job = job.clone();
    job.method = method.clone();
    job.system.charge = charge;
    let answer = follow(&job)?;
    Ok(match answer.ends_because {
        EndsBecause::LevelReached | EndsBecause::AlreadyAtLevel => answer.total,
        _ => job.limits.time,
    })
}
