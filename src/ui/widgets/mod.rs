//! Small pieces shared by the panels: fields to ask, plates to answer.

pub mod arrows;
pub mod boxed_row;
pub mod choice;
pub mod field;
pub mod find;
pub mod hold;
pub mod plate;
mod step;
pub mod word_button;
