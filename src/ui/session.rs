//! Document, results and view, each with one owner. Actions are done in `doing`.

mod choosing;
mod class;
mod doing;
mod edits;
mod printing;
mod saving;
mod shelving;
mod trial;

use std::path::PathBuf;

use narrows::presets::Change;
use narrows::scenario::{self, Document, Fault};

use super::actions::{Action, Edit};
use super::answer::Answer;
use super::files::{Dialogs, Purpose};
use super::history::History;
use super::keep::{Keep, Leftover};
use super::moment::{self, Moment};
use super::own_shelf::OwnShelf;
use super::pages::Printer;
use super::progress::{Progress, Wish};
use super::scholar::Scholar;
use super::settings::Settings;
use super::study::Study;
use super::view::{Selected, View, ViewState};
use super::worker::Worker;

use saving::Clash;
use trial::Trial;

/// The long draws that a view shows, the first one first.
fn wishes(view: View, kit: usize) -> Vec<Wish> {
    match view {
        View::WhatCounts => vec![Wish::Gains(kit), Wish::Jobs],
        View::JobSheet => vec![Wish::Jobs, Wish::BreakEven(kit)],
        _ => vec![Wish::Jobs],
    }
}

/// Everything the window works on.
pub struct Session {
    document: Document,
    saved: Document,
    file: Option<PathBuf>,
    is_example: bool,
    history: History,
    faults: Vec<Fault>,
    answer: Option<Answer>,
    before: Option<Answer>,
    /// What is looked at.
    pub view: ViewState,
    dialogs: Dialogs,
    worker: Option<Worker>,
    study: Option<Study>,
    moment: Option<Moment>,
    scholar: Option<Scholar>,
    /// What would lose changes that are not saved; done or dropped when the person has said so.
    held_back: Option<Action>,
    may_close: bool,
    /// The file's text as last read or written here.
    on_disk: Option<String>,
    /// The file holds something else than `on_disk`, or another file would be lost.
    clash: Option<Clash>,
    /// Brought back, so not saved even if it equals what was started from.
    recovered: bool,
    /// What stands while something is tried.
    trial: Option<Trial>,
    /// The change of a lesson that is tried, if the trial is a lesson's.
    in_lesson: Option<Change>,
    keep: Option<Keep>,
    leftovers: Vec<Leftover>,
    recent: Vec<PathBuf>,
    shelf: OwnShelf,
    settings: Settings,
    printer: Printer,
    /// A folder that has pages already, and the words for it.
    pages_there: Option<(PathBuf, String)>,
}

impl Session {
    /// A session on a document that is in no file. Without a worker, answers are sought at once.
    pub fn new(document: Document, worker: Option<Worker>) -> Self {
        let mut session = Self {
            saved: document.clone(),
            faults: Vec::new(),
            document,
            file: None,
            is_example: true,
            history: History::default(),
            answer: None,
            before: None,
            view: ViewState::default(),
            dialogs: Dialogs::default(),
            worker,
            study: None,
            moment: None,
            scholar: None,
            held_back: None,
            may_close: false,
            on_disk: None,
            clash: None,
            recovered: false,
            trial: None,
            in_lesson: None,
            keep: None,
            leftovers: Vec::new(),
            recent: Vec::new(),
            shelf: OwnShelf::default(),
            settings: Settings::default(),
            printer: Printer::default(),
            pages_there: None,
        };
        session.solve_now();
        session.view.units = session.units();
        session
    }

    /// The document.
    pub fn document(&self) -> &Document {
        &self.document
    }

    /// What is wrong in it.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// The newest answer; it may be for an earlier document, see [`Self::is_stale`].
    pub fn answer(&self) -> Option<&Answer> {
        self.answer.as_ref()
    }

    /// The answer before the last change.
    pub fn before(&self) -> Option<&Answer> {
        self.before.as_ref()
    }

    /// Lets another thread study the document, from now on.
    pub fn employ(&mut self, scholar: Scholar) {
        self.scholar = Some(scholar);
    }

    /// Studies the document at once.
    #[cfg(test)]
    pub fn study_now(&mut self, draws: Option<narrows::compare::DrawPlan>) {
        self.study = Some(super::study::study(self.document.clone(), draws, &|| false, &mut |_| {}));
    }

    /// Studies the document at once, minutes included, and draws what is wished for.
    #[cfg(test)]
    pub fn draw_now(&mut self, wishes: &[Wish], counts: super::draws::Counts) {
        let plan = narrows::compare::DrawPlan::new(counts.jobs, 1).ok();
        let mut study = super::study::study(self.document.clone(), plan, &|| false, &mut |_| {});
        let telling = super::draws::Telling { stop: &|| false, keep: &|| false, tell: &|_, _| {} };
        for wish in wishes {
            super::draws::draw(&mut study, *wish, counts, &telling);
        }
        self.study = Some(study);
    }

    /// How far the long draws are; none if no thread makes any.
    pub fn progress(&self) -> Option<&Progress> {
        self.scholar.as_ref().map(Scholar::progress)
    }

    /// What was worked out behind the operating point; it may be for an earlier document.
    pub fn study(&self) -> Option<&Study> {
        self.study.as_ref()
    }

    /// The study before what is tried.
    pub fn study_before(&self) -> Option<&Study> {
        self.trial.as_ref()?.study.as_ref()
    }

    /// Whether the study is for an earlier document.
    pub fn is_study_stale(&self) -> bool {
        self.study.as_ref().is_none_or(|s| s.document != self.document)
    }

    /// Whether card, readings and log were read in an earlier document.
    pub fn is_studying_reasons(&self) -> bool {
        self.study.as_ref().is_none_or(|s| s.reasons.is_none() || s.document != self.document)
    }

    /// Whether the answer is for an earlier document.
    pub fn is_stale(&self) -> bool {
        self.answer.as_ref().is_none_or(|a| a.document != self.document)
    }

    /// Whether the document differs from its file.
    pub fn is_unsaved(&self) -> bool {
        self.recovered || *self.committed() != self.saved
    }

    /// The document is one of the built-in examples.
    pub fn is_example(&self) -> bool {
        self.is_example
    }

    /// Its file.
    pub fn file(&self) -> Option<&PathBuf> {
        self.file.as_ref()
    }

    /// Whether undo and redo have somewhere to go.
    pub fn can_undo_redo(&self) -> (bool, bool) {
        (self.history.can_undo(), self.history.can_redo())
    }

    /// Takes in what came from other threads.
    pub fn poll(&mut self, ctx: &egui::Context) {
        if let Some(answer) = self.worker.as_ref().and_then(Worker::newest) {
            // An answer to what was tried and given up comes too late.
            if self.is_stale() {
                self.take(answer);
            }
        }
        self.poll_study();
        self.poll_pages();
        for picked in self.dialogs.answers() {
            match (picked.purpose, picked.path) {
                (Purpose::Log, Some(path)) => self.take_log(&path),
                (Purpose::Open, Some(path)) => self.guarded(Action::Open(path)),
                // The dialog has asked already whether another file may be lost.
                (Purpose::Save, Some(path)) if self.file.as_ref() != Some(&path) => self.write_to(path),
                (Purpose::Save, Some(path)) => self.save_to(path),
                (Purpose::Pages, Some(folder)) => self.write_pages(folder, false, ctx),
                // Cancelled, or this machine has no file dialog: a path can be typed.
                (_, None) => self.view.path_field = true,
            }
        }
    }

    /// The operating point at the moment that is looked at, if it is one of this document and kit.
    pub fn moment(&self) -> Option<&Moment> {
        let moment = self.moment.as_ref()?;
        let is_current = moment.kit == self.view.kit && moment.document == self.document;
        (is_current && self.view.clock_min == Some(moment.minutes)).then_some(moment)
    }

    fn look_at_moment(&mut self, minutes: f64) {
        self.view.clock_min = Some(minutes);
        let study = self.study.as_ref().filter(|s| s.document == self.document);
        let job = study.and_then(|s| s.jobs.as_ref()?.as_ref().ok()?.kits.get(self.view.kit));
        // At the start the stairs show it already.
        let job = job.filter(|_| minutes > 0.0);
        self.moment = job.and_then(|job| moment::at(&self.document, self.view.kit, job, minutes));
    }

    /// Takes in studies, and has the document studied if it is another than the last one; what is
    /// only tried is not.
    fn poll_study(&mut self) {
        let Some(scholar) = &mut self.scholar else { return };
        if self.trial.is_none() || self.view.projector.is_some() {
            scholar.ask(&self.document);
            scholar.wish(&wishes(self.view.view, self.view.kit));
        }
        if let Some(study) = scholar.newest() {
            self.study = Some(study);
        }
    }

    fn start(&mut self, document: Document, file: Option<PathBuf>) {
        self.saved = document.clone();
        self.document = document;
        self.is_example = file.is_none();
        (self.on_disk, self.clash, self.recovered) = (None, None, false);
        self.file = file;
        self.history.clear();
        (self.answer, self.before, self.study) = (None, None, None);
        self.view.look_again();
        self.view.kit = 0;
        self.view.selected = None;
        self.view.units = self.units();
        self.view.path_field = false;
        self.view.message = None;
        self.changed();
    }

    fn travel(&mut self, step: impl FnOnce(&mut History, &mut Document)) {
        self.remember_answer();
        step(&mut self.history, &mut self.document);
        self.changed();
    }

    fn edit(&mut self, edit: Edit) {
        let before = self.document.clone();
        let outcome = self.carry_out(edit);
        if let Err(error) = outcome {
            self.view.message = Some(error);
            self.document = before;
            return;
        }
        if self.document != before {
            self.history.push(before);
            self.remember_answer();
            self.changed();
        }
    }

    /// After any change of the document: view state that points nowhere is put right, and a new
    /// answer is sought.
    fn changed(&mut self) {
        self.take_in_hand(self.view.kit);
        self.seek_answer();
    }

    fn seek_answer(&mut self) {
        self.faults = scenario::check(&self.document);
        match &self.worker {
            Some(worker) => worker.ask(&self.document),
            None => self.solve_now(),
        }
    }

    fn take_in_hand(&mut self, kit: usize) {
        self.view.kit = kit.min(self.document.kits.len().saturating_sub(1));
        let parts = self.document.kits.get(self.view.kit).map_or(0, |k| k.parts.len());
        if matches!(self.view.selected, Some(Selected::Part(i)) if i >= parts) {
            self.view.selected = parts.checked_sub(1).map(Selected::Part);
        }
        let second = self.document.kits.get(self.view.kit).and_then(|k| k.second_port.as_ref());
        let second = second.map_or(0, |s| s.parts.len());
        if matches!(self.view.selected, Some(Selected::SecondPart(i)) if i >= second) {
            self.view.selected = second.checked_sub(1).map(Selected::SecondPart).or(Some(Selected::Source));
        }
    }

    /// The ghost is the last answer that was complete for its document.
    fn remember_answer(&mut self) {
        if let Some(answer) = &self.answer {
            self.before = Some(answer.clone());
        }
    }

    fn solve_now(&mut self) {
        self.faults = scenario::check(&self.document);
        let answer = super::answer::solve(self.document.clone());
        self.take(answer);
    }

    fn take(&mut self, answer: Answer) {
        self.answer = Some(answer);
        if self.view.selected.is_none() {
            self.view.selected = self.largest_loss();
        }
    }

    /// The part with the largest loss: where a change is worth most.
    fn largest_loss(&self) -> Option<Selected> {
        let parts = &self.answer.as_ref()?.kits.get(self.view.kit)?.point()?.parts;
        let largest = (0..parts.len()).max_by(|a, b| {
            let drop = |i: &usize| parts.get(*i).map_or(0.0, |p| p.drop().value);
            drop(a).total_cmp(&drop(b))
        });
        largest.map(Selected::Part)
    }
}
