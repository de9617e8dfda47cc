//! The panels of the window. Each draws what it is given and returns what it wants done.

pub mod bench;
pub mod break_even;
pub mod checks;
pub mod cord_run;
pub mod cylinders;
pub mod edit_field;
pub mod explained;
pub mod feet;
pub mod find_cause;
pub mod findings;
pub mod foot;
pub mod header;
pub mod inspector;
pub mod job_clock;
pub mod job_sheet;
pub mod line_up;
pub mod meeting_point;
pub mod narrow;
pub mod notices;
pub mod place;
pub mod prices;
pub mod progress;
pub mod projector;
pub mod read_rating;
pub mod search;
pub mod shelf;
pub mod shelf_menu;
pub mod side_by_side;
pub mod site_log;
pub mod strip;
mod top_counts;
pub mod tries;
pub mod under_wire;
pub mod units;
pub mod what_counts;
pub mod words;

use narrows::presets::Shelf;

use super::actions::{Action, Edit};
use super::present::Scene;
use super::style::Look;

/// What every panel works with.
pub struct Desk<'a> {
    /// What is shown.
    pub scene: &'a Scene<'a>,
    /// How it looks.
    pub look: &'a Look,
    /// The parts to choose from.
    pub shelf: &'a Shelf,
    /// What is wanted.
    pub actions: Vec<Action>,
}

impl Desk<'_> {
    /// Wants something done.
    pub fn want(&mut self, action: Action) {
        self.actions.push(action);
    }

    /// Wants the document changed.
    pub fn edit(&mut self, edit: Edit) {
        self.actions.push(Action::Edit(edit));
    }
}
