//! The operating point: path, machine, cylinder and motor solved together.

mod balance;
mod discharge;
mod error;
mod meeting;
mod note;
mod point;
mod setup;
mod solve;

pub use error::JobError;
pub use meeting::{MeetingCurves, meeting_curves};
pub use note::Note;
pub use point::{MachinePoint, OperatingPoint, PartPoint, SecondPort};
pub use setup::{Ambient, Cylinder, LoadBasis, Port, Setup, Source};
pub use solve::{KitAnswer, solve};
