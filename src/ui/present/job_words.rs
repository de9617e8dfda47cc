//! Whether a job is done, and the end of one that is not, in few words.

use narrows::job::over_time::{EndsBecause, JobAnswer};
use narrows::units::UnitSet;

/// Whether the job is done as it should be.
pub fn is_done(ends: &EndsBecause) -> bool {
    matches!(ends, EndsBecause::LevelReached | EndsBecause::AlreadyAtLevel | EndsBecause::NothingToRecover)
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
