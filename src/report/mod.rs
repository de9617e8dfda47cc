//! Words, tables and numbers for people and for programs.

mod error_words;
mod json;
mod note_words;
pub mod published;
mod solved;
mod table;

pub use error_words::job_error_text;
pub use json::solved_json;
pub use note_words::{note_text, notes_of};
pub use solved::{SolvedKit, Unshown, solve_document, solve_kit};
pub use table::solved_table;
