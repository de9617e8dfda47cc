//! Trying a change: it is shown and solved, and goes again unless it is kept.

use narrows::scenario::{self, Document};

use super::Session;
use super::edits::selected_in;
use crate::ui::actions::Edit;
use crate::ui::answer::Answer;
use crate::ui::study::Study;
use crate::ui::view::Selected;

/// What comes back when a trial ends.
pub(super) struct Trial {
    pub(super) document: Document,
    answer: Option<Answer>,
    before: Option<Answer>,
    pub(super) study: Option<Study>,
    selected: Option<Selected>,
    edit: Edit,
}

impl Session {
    /// The document without what is only tried.
    pub fn committed(&self) -> &Document {
        self.trial.as_ref().map_or(&self.document, |trial| &trial.document)
    }

    /// The change that is tried.
    pub fn tried(&self) -> Option<&Edit> {
        self.trial.as_ref().map(|trial| &trial.edit)
    }

    /// Tries a change; the answer that stands becomes the ghost.
    pub(super) fn try_out(&mut self, edit: Edit) {
        self.end_trial();
        let trial = Trial {
            document: self.document.clone(),
            answer: self.answer.clone(),
            before: self.before.clone(),
            study: self.view.projector.as_ref().and(self.study.clone()),
            selected: self.view.selected,
            edit: edit.clone(),
        };
        if self.carry_out(edit).is_err() {
            self.document = trial.document;
            return;
        }
        self.view.selected = trial.selected;
        self.before.clone_from(&trial.answer);
        self.trial = Some(trial);
        self.seek_answer();
    }

    pub(super) fn end_trial(&mut self) {
        if let Some(trial) = self.trial.take() {
            self.document = trial.document;
            self.answer = trial.answer;
            self.before = trial.before;
            self.study = trial.study.or(self.study.take());
            self.view.selected = trial.selected;
            self.faults = scenario::check(&self.document);
            if self.is_stale() {
                self.seek_answer();
            }
        }
    }

    pub(super) fn keep_trial(&mut self) {
        if let Some(trial) = self.trial.take() {
            self.history.push(trial.document);
            if let Edit::Remove { list, at } = trial.edit {
                self.view.selected = Some(selected_in(list, at));
            }
            self.take_in_hand(self.view.kit);
        }
    }
}
