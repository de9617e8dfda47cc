//! Words, tables, numbers and pages for people and for programs.

mod break_even_words;
mod compared;
mod compared_table;
mod diagnosis_json;
mod diagnosis_words;
pub mod drawing;
mod error_words;
mod figures;
mod job_csv;
mod job_json;
mod job_solved;
mod job_steps;
mod job_table;
mod job_words;
mod json;
mod log_fit;
mod note_words;
pub mod pages;
mod part_words;
pub mod published;
mod ranked;
mod ranked_table;
mod rating_json;
mod rating_words;
mod reading_rows;
mod solved;
mod swept;
mod table;
mod trade_words;

pub use break_even_words::{break_even_json, break_even_lines, break_even_text, charges_tried};
pub use compared::{Compared, Draws, compare_document, compared_json};
pub use compared_table::compared_table;
pub use diagnosis_json::diagnosis_json;
pub use diagnosis_words::{
    because_text, cannot_tell_text, diagnosis_notes, diagnosis_table, next_check_text, verdict_text,
};
pub use error_words::job_error_text;
pub use job_csv::jobs_csv;
pub use job_json::jobs_json;
pub use job_solved::{SolvedJob, SolvedJobs, UnshownJob, break_evens, solve_jobs};
pub use job_steps::{JobStep, job_steps, whole_time};
pub use job_table::jobs_table;
pub use job_words::{ends_tag, ends_text, job_note_text, phase_name, push_pull_limit_text, time_text};
pub use json::{grade_word, solved_json};
pub use log_fit::{log_fit_json, log_fit_notes, log_fit_table};
pub use note_words::{note_text, notes_of};
pub use part_words::{part_detail, part_name, typed_text};
pub use ranked::{Ranked, rank_document, ranked_json};
pub use ranked_table::ranked_table;
pub use rating_json::rating_json;
pub use rating_words::{displacement_text, rating_notes, rating_table};
pub use reading_rows::{ReadingRow, reading_rows};
pub use solved::{SolvedKit, Unshown, solve_document, solve_kit};
pub use swept::{SweptError, swept_csv, swept_json};
pub use table::solved_table;
pub use trade_words::{words_json, words_text};
