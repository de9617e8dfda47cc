//! How far a system must be evacuated: by its pressure class, its charge and the machine's date,
//! from a dated table that its user can replace.
//!
//! The class is read from the liquid's (bubble) saturation pressure at 104 °F. What the machine
//! can reach is not looked at here.

mod answer;
mod required;
mod table;

pub use answer::{
    CompressorRuns, Disagreement, LevelAsk, LevelBasis, LevelError, LevelNote, MachineMade, RequiredLevel,
};
pub use required::required_level;
pub use table::{LevelException, LevelRow, LevelTable, OtherTable, SmallAppliance};
