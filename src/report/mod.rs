//! Words, tables and numbers for people and for programs.

mod error_words;
mod json;
mod note_words;
pub mod published;
mod rating_json;
mod rating_words;
mod solved;
mod table;

pub use error_words::job_error_text;
pub use json::solved_json;
pub use note_words::{note_text, notes_of};
pub use rating_json::rating_json;
pub use rating_words::{rating_notes, rating_table};
pub use solved::{SolvedKit, Unshown, solve_document, solve_kit};
pub use table::solved_table;
