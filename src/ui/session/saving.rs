//! Files of the session: opening, saving, what others do to them, recovery.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use narrows::scenario;

use super::Session;
use crate::ui::actions::Edit;
use crate::ui::files::{self, Purpose};
use crate::ui::keep::{Keep, Leftover};
use crate::ui::present::scale::sentence;
use crate::ui::settings::Settings;
use crate::ui::view::View;

/// A file that saving would take from someone else.
#[derive(Clone, Debug, PartialEq)]
pub struct Clash {
    /// The file.
    pub path: PathBuf,
    /// It is the document's own and was changed; else it is another one that is there already.
    pub own: bool,
}

impl Session {
    pub(super) fn ask(&mut self, purpose: Purpose, ctx: &egui::Context) {
        let name = format!("{}.{}", self.document.title, files::EXTENSION);
        if let Err(error) = self.dialogs.ask(purpose, &name, ctx) {
            self.view.message = Some(error);
        }
    }

    /// Takes the rows of a table into the site log; what the log fits stays.
    pub(super) fn take_log(&mut self, path: &std::path::Path) {
        match files::read_table(path, self.document.log.as_ref()) {
            Ok(log) => {
                let mut changed = self.document.clone();
                changed.log = Some(log.clone());
                // Rows in disorder would leave every view without an answer.
                match scenario::check(&changed).into_iter().find(|fault| fault.path.starts_with("log")) {
                    Some(fault) => self.view.message = Some(format!("{}: {fault}", path.display())),
                    None => {
                        self.edit(Edit::SwapLog(Some(Box::new(log))));
                        (self.view.view, self.view.path_field) = (View::SiteLog, false);
                    }
                }
            }
            Err(error) => self.view.message = Some(error),
        }
    }

    pub(super) fn open(&mut self, path: PathBuf) {
        match files::read(&path) {
            Ok((document, text)) => {
                self.remember_file(&path);
                self.start(document, Some(path));
                self.on_disk = Some(text);
            }
            Err(error) => self.view.message = Some(error),
        }
    }

    /// Saves, but for a file that would take something from someone else; then it asks.
    pub(super) fn save_to(&mut self, path: PathBuf) {
        let own = self.file.as_ref() == Some(&path);
        let there = files::text(&path);
        if there.is_some() && (!own || there != self.on_disk) {
            self.clash = Some(Clash { path, own });
        } else {
            self.write_to(path);
        }
    }

    /// Looks whether another program has changed the file or the shelf.
    pub fn look_at_disk(&mut self) {
        self.shelf.read();
        let Some(path) = &self.file else { return };
        let there = files::text(path);
        if there.is_some() && there != self.on_disk {
            self.clash = Some(Clash { path: path.clone(), own: true });
        }
    }

    /// Both stay; what is on the disk is known from now on.
    pub(super) fn leave_both(&mut self) {
        if let Some(clash) = self.clash.take().filter(|c| c.own) {
            self.on_disk = files::text(&clash.path);
            self.recovered = true;
        }
    }

    /// Keeps copies and recent names in a folder from now on.
    pub fn keep_in(&mut self, folder: PathBuf) {
        self.shelf.keep_in(folder.join("shelf"));
        match Settings::read(&folder) {
            Ok(settings) => self.settings = settings,
            Err(error) => self.view.message = Some(error),
        }
        self.view.units = self.units();
        self.dress();
        let keep = Keep::new(folder);
        self.leftovers = keep.leftovers();
        self.recent = keep.recent();
        self.keep = Some(keep);
    }

    /// Writes the recovery copy if it is due; says when to come again.
    pub fn tend(&mut self, now: Instant) -> Option<Duration> {
        let unsaved = self.is_unsaved();
        let document = self.trial.as_ref().map_or(&self.document, |trial| &trial.document);
        let tended = self.keep.as_mut()?.tend(document, self.file.as_deref(), unsaved, now);
        if let Some(trouble) = tended.trouble {
            self.view.message = Some(sentence(&trouble));
        }
        tended.again_in
    }

    /// The window closes as it should: no copy is needed.
    pub fn close(&mut self) {
        if let Some(keep) = &mut self.keep {
            keep.drop_copy();
        }
    }

    pub(super) fn recover(&mut self) {
        let Some(left) = self.leftovers.pop() else { return };
        let on_disk = left.file.as_deref().and_then(files::text);
        self.start(left.document.clone(), left.file.clone());
        self.on_disk = on_disk;
        self.recovered = true;
        if let Some(keep) = &self.keep {
            keep.forget(&left);
        }
    }

    pub(super) fn remember_file(&mut self, path: &Path) {
        if let Some(keep) = &self.keep {
            self.recent = keep.remember(path);
        }
    }

    /// What a window that was ended had not saved.
    pub fn leftover(&self) -> Option<&Leftover> {
        self.leftovers.last()
    }

    /// A file that saving would take from someone else.
    pub fn clash(&self) -> Option<&Clash> {
        self.clash.as_ref()
    }

    /// Recent files, newest first.
    pub fn recent(&self) -> &[PathBuf] {
        &self.recent
    }

    pub(super) fn write_to(&mut self, path: PathBuf) {
        match files::write(&path, &self.document) {
            Ok(text) => {
                self.remember_file(&path);
                self.on_disk = Some(text);
                self.recovered = false;
                self.saved = self.document.clone();
                self.file = Some(path);
                self.is_example = false;
                self.view.path_field = false;
                // What a failed save said is over.
                self.view.message = None;
            }
            Err(error) => self.view.message = Some(error),
        }
    }
}
