//! The job over time: vessels, methods, events and pauses, from the first turn to the level.

mod answer;
mod setup;

pub use answer::{
    CylinderUse, EndsBecause, JobAnswer, JobNote, JobTrace, PhaseKind, PhaseSpan, PushPullLimit,
    PushPullLimits,
};
pub use setup::{
    Connection, Contents, CylinderWalls, Dissolved, Finish, JobCylinder, RunLimits, JobSetup, Joins,
    Machines, Pauses, PushPull, Recovery, System, Target,
};
