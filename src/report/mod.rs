//! Words, tables and numbers for people and for programs.

mod compared;
mod compared_table;
mod error_words;
mod figures;
mod json;
mod note_words;
pub mod published;
mod ranked;
mod ranked_table;
mod solved;
mod swept;
mod table;

pub use compared::{Compared, compare_document, compared_json};
pub use compared_table::compared_table;
pub use error_words::job_error_text;
pub use json::solved_json;
pub use note_words::{note_text, notes_of};
pub use ranked::{Ranked, rank_document, ranked_json};
pub use ranked_table::ranked_table;
pub use solved::{SolvedKit, Unshown, solve_document, solve_kit};
pub use swept::{SweptError, swept_csv, swept_json};
pub use table::solved_table;
