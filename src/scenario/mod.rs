//! The document: its fields, its file, its edits, and the physics input it stands for.
//!
//! [`read`] turns text into a [`Document`], [`set`] changes one field of it by its path, [`check`]
//! lists what cannot be used. Nothing here reads a file or keeps a result.

mod document;
mod edit;
mod file;
mod log;
mod rating;
mod readings;
mod resolve;
mod set_error;
mod suggest;
mod tree_text;
mod tree_walk;

pub use crate::kit::Fault;
pub use document::{Ambient, Document, Source, VERSION, check, standard_atmosphere};
pub use edit::{get, set, set_in};
pub use file::{ReadError, WriteError, read, write};
pub use log::{FitHealth, LogError, LogRow, LogSetup, LogStep, SiteLog, log_from_csv, log_of};
pub use rating::{CardSetup, Unknown, card_of};
pub use readings::{
    ColdSpot, Observed, ReadingKind, ReadingTolerance, Readings, ReadingsSetup, Tolerances, readings_of,
};
pub use resolve::{
    Charged, JobPlanned, KitJob, KitSetup, PartName, RatedPart, resolve, resolve_jobs, resolve_limits,
};
pub use set_error::SetError;
