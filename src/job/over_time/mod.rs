//! The job over time: vessels, methods, events and pauses, from the first turn to the level.

mod answer;
mod break_even;
mod check;
mod closing;
mod course;
mod delivery;
mod draw;
mod event;
mod filling;
mod gas_delivery;
mod interruptions;
mod moment;
mod path_curve;
mod path_map;
mod push_pull;
mod receiving;
mod record;
mod setup;
mod stage;
mod stretch;
mod system;
mod vessel;

pub use answer::{
    CylinderUse, EndsBecause, JobAnswer, JobNote, JobTrace, PhaseKind, PhaseSpan, PushPullLimit,
    PushPullLimits,
};
pub use break_even::{BreakEven, Compared, break_even};
pub use course::{follow, push_pull_limits};
pub use setup::{
    Contents, CylinderWalls, Dissolved, Finish, JobCylinder, JobSetup, Joins, Machines, Pauses, PushPull,
    Recovery, RunLimits, System, Target,
};
