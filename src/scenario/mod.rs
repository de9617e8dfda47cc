//! The document: its fields, its file, its edits, and the physics input it stands for.
//!
//! [`read`] turns text into a [`Document`], [`set`] changes one field of it by its path, [`check`]
//! lists what cannot be used. Nothing here reads a file or keeps a result.

mod document;
mod edit;
mod file;
mod resolve;
mod suggest;

pub use crate::kit::Fault;
pub use document::{Ambient, Document, Source, VERSION, check, standard_atmosphere};
pub use edit::{SetError, get, set};
pub use file::{ReadError, WriteError, read, write};
pub use resolve::{KitSetup, PartName, resolve, resolve_limits};
