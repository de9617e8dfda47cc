//! Words, tables and numbers for people and for programs.

mod diagnosis_json;
mod diagnosis_words;
mod error_words;
mod json;
mod log_fit;
mod note_words;
pub mod published;
mod rating_json;
mod rating_words;
mod solved;
mod table;

pub use diagnosis_json::diagnosis_json;
pub use diagnosis_words::{because_text, cannot_tell_text, diagnosis_table, next_check_text, verdict_text};
pub use error_words::job_error_text;
pub use json::solved_json;
pub use log_fit::{log_fit_json, log_fit_notes, log_fit_table};
pub use note_words::{note_text, notes_of};
pub use rating_json::rating_json;
pub use rating_words::{rating_notes, rating_table};
pub use solved::{SolvedKit, Unshown, solve_document, solve_kit};
pub use table::solved_table;
