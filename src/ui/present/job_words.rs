//! Whether a job is done.

use narrows::job::over_time::EndsBecause;

/// Whether the job is done as it should be.
pub fn is_done(ends: &EndsBecause) -> bool {
    matches!(ends, EndsBecause::LevelReached | EndsBecause::AlreadyAtLevel | EndsBecause::NothingToRecover)
}
