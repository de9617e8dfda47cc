//! The person's own shelf: what is put on it and changed there. The document stays as it is.

use narrows::presets::{Item, Shelf, Thing};

use super::Session;
use crate::ui::actions::NewOnShelf;
use crate::ui::own_shelf::OwnShelf;
use crate::ui::view::View;

impl Session {
    /// The shelf.
    pub fn shelf(&self) -> &OwnShelf {
        &self.shelf
    }

    /// What the program brings with it.
    pub fn set_built_in_shelf(&mut self, shelf: Shelf) {
        self.shelf.set_built_in(shelf);
    }

    pub(super) fn shelve(&mut self, new: NewOnShelf) {
        match self.shelf.add(&new.name, new.origin, new.note, new.thing) {
            Ok(id) => {
                self.view.view = View::Shelf;
                // A search or another kind would hide it.
                (self.view.shelf.words, self.view.shelf.kind) = (String::new(), None);
                self.view.shelf.chosen = Some(id);
            }
            Err(error) => self.view.message = Some(error),
        }
    }

    pub(super) fn change_shelf(&mut self, item: &Item<Thing>) {
        if let Err(error) = self.shelf.change(item) {
            self.view.message = Some(error);
        }
    }
}
