//! Pages of the session: written by a thread, or at once where there is none.

use std::path::PathBuf;

use super::Session;
use crate::ui::pages::{Order, Outcome, carry_out};

impl Session {
    /// Writes pages of the document and the kit in hand into a folder.
    pub(super) fn write_pages(&mut self, folder: PathBuf, force: bool, ctx: &egui::Context) {
        if self.is_covered() {
            let words = "Pages hold the answers: first show the class all of it, or end the class.";
            self.view.message = Some(words.to_owned());
            return;
        }
        let is_threaded = self.worker.is_some();
        let order = Order {
            document: self.document.clone(),
            kit: self.view.kit,
            units: self.view.units,
            folder,
            force,
            thorough: is_threaded,
        };
        if !is_threaded {
            self.take_outcome(carry_out(&order));
            return;
        }
        self.view.message = Some(format!("Writing pages into {}.", order.folder.display()));
        if let Err(error) = self.printer.start(order, ctx) {
            self.view.message = Some(error);
        }
    }

    /// Takes in what came of pages.
    pub(super) fn poll_pages(&mut self) {
        for outcome in self.printer.outcomes() {
            self.take_outcome(outcome);
        }
    }

    fn take_outcome(&mut self, outcome: Outcome) {
        match outcome {
            Outcome::Written(words) => (self.view.message, self.view.path_field) = (Some(words), false),
            Outcome::Failed(words) => self.view.message = Some(words),
            Outcome::There(folder, words) => {
                self.view.message = None;
                self.pages_there = Some((folder, words));
            }
        }
    }

    /// A folder that has pages already, in words.
    pub fn pages_there(&self) -> Option<&str> {
        self.pages_there.as_ref().map(|(_, words)| words.as_str())
    }
}
