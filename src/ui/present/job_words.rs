//! Whether a job is done, and the end of one that is not, in few words.

use narrows::job::over_time::{EndsBecause, JobAnswer};
use narrows::units::{Measure, UnitSet};
use uom::si::f64::Mass;

/// Whether the job is done as it should be.
pub fn is_done(ends: &EndsBecause) -> bool {
    matches!(ends, EndsBecause::LevelReached | EndsBecause::AlreadyAtLevel | EndsBecause::NothingToRecover)
}

/// Liquid left at the end that is worth a word, of the charge.
const LEFT_RATIO: f64 = 0.01;

/// Liquid that is left though the job is done: a level can be reached over cold liquid, and then the
/// job is not what its owner thinks.
pub fn liquid_left(job: &JobAnswer, units: UnitSet) -> Option<String> {
    let liquid_kg = job.trace.liquid_kg.last().copied().unwrap_or(0.0);
    let charge_kg = job.trace.remaining_kg.first().copied().unwrap_or(0.0);
    (liquid_kg > LEFT_RATIO * charge_kg)
        .then(|| format!("{} liquid left", units.mass(Mass::from_si(liquid_kg))))
}

/// Why it is not done, for a plate; the whole sentence stands in the job clock.
pub fn not_done(job: &JobAnswer, units: UnitSet) -> String {
    let left = units.mass(job.remaining);
    let why = match &job.ends_because {
        EndsBecause::CylindersFull { .. } => "Cylinders full",
        EndsBecause::CylinderLiquidFull { .. } => "Cylinder liquid-full: stop",
        EndsBecause::CutOutLoop { .. } => "Cut-out trips again and again",
        EndsBecause::BeyondMachine { .. } => "Level beyond the machine",
        EndsBecause::LevelDoesNotHold { .. } => "Level does not hold",
        EndsBecause::Stalled { .. } => "Hardly anything flows",
        EndsBecause::TimeLimit => "More than 30 days",
        _ => "No rate any more",
    };
    format!("{why}, {left} left")
}
