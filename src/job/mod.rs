//! The operating point (path, machine, cylinder and motor solved together) and the job over time.

mod balance;
mod discharge;
mod error;
mod meeting;
mod note;
mod over_time;
mod point;
mod setup;
mod solve;

pub use error::JobError;
pub use meeting::{MeetingCurves, meeting_curves};
pub use note::Note;
pub use over_time::{
    BreakEven, Compared, Connection, Contents, CylinderUse, CylinderWalls, Dissolved, EndsBecause, Finish,
    JobAnswer, JobCylinder, JobLimits, JobNote, JobSetup, JobTrace, Joins, Machines, Pauses, PhaseKind,
    PhaseSpan, PushPull, PushPullLimit, PushPullLimits, Recovery, System, Target, break_even, follow,
    push_pull_limits,
};
pub use point::{MachinePoint, OperatingPoint, PartPoint, SecondPort};
pub use setup::{Ambient, Cylinder, LoadBasis, Port, Setup, Source};
pub use solve::{KitAnswer, solve};
