//! Document, results and view, each with one owner; and the one place where actions are done.

mod choosing;
mod class;
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
use super::files::{self, Dialogs, Purpose};
use super::history::History;
use super::keep::{Keep, Leftover};
use super::moment::{self, Moment};
use super::own_shelf::OwnShelf;
use super::pages::Printer;
use super::progress::{Progress, Wish};
use super::scholar::Scholar;
use super::settings::Settings;
use super::study::Study;
use super::style::Theme;
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

    /// Whether something waits for a word about changes that are not saved.
    pub fn is_holding_back(&self) -> bool {
        self.held_back.is_some()
    }

    /// Whether the window may close now.
    pub fn may_close(&self) -> bool {
        self.may_close || !self.is_unsaved()
    }

    /// Does what would lose changes, or holds it back if there are any.
    fn guarded(&mut self, action: Action) {
        if self.is_unsaved() {
            self.held_back = Some(action);
        } else {
            self.replace(action);
        }
    }

    fn replace(&mut self, action: Action) {
        match action {
            Action::Start(document) => self.start(*document, None),
            Action::Open(path) => self.open(path),
            Action::Close => self.may_close = true,
            Action::Teach(lesson) => self.teach(lesson),
            _ => {}
        }
    }

    /// Does one thing.
    pub fn apply(&mut self, action: Action, ctx: &egui::Context) {
        if self.trial.is_some() && !self.goes_with_trial(&action) {
            self.end_trial();
            self.in_lesson = None;
        }
        self.carry(action, ctx);
        self.follow_lesson();
    }

    fn carry(&mut self, action: Action, ctx: &egui::Context) {
        match action {
            Action::Try(edit) => self.try_out(edit),
            Action::EndTrial => {}
            Action::KeepTrial => self.keep_trial(),
            Action::Open(path) if files::is_table(&path) => self.take_log(&path),
            Action::Start(_) | Action::Open(_) | Action::Teach(_) | Action::Close => self.guarded(action),
            Action::KeepChanges => self.held_back = None,
            Action::SaveOver => {
                if let Some(clash) = self.clash.take() {
                    self.write_to(clash.path);
                }
            }
            Action::OpenTheirs => {
                if let Some(clash) = self.clash.take() {
                    self.open(clash.path);
                }
            }
            Action::LeaveBoth => self.leave_both(),
            Action::Recover => self.recover(),
            Action::DropRecovery => {
                if let (Some(keep), Some(left)) = (&self.keep, self.leftovers.pop()) {
                    keep.forget(&left);
                }
            }
            Action::DropChanges => {
                if let Some(action) = self.held_back.take() {
                    self.replace(action);
                }
                if self.may_close {
                    ctx.send_viewport_cmd(egui::ViewportCommand::Close);
                }
            }
            Action::Edit(edit) => self.edit(edit),
            Action::Undo => self.travel(History::undo),
            Action::Redo => self.travel(History::redo),
            Action::OpenDialog => self.ask(Purpose::Open, ctx),
            Action::LogDialog => self.ask(Purpose::Log, ctx),
            Action::Save => match self.file.clone() {
                Some(path) => self.save_to(path),
                None => self.ask(Purpose::Save, ctx),
            },
            Action::SaveDialog => self.ask(Purpose::Save, ctx),
            Action::SaveTo(path) => self.save_to(path),
            Action::PagesDialog => self.ask(Purpose::Pages, ctx),
            Action::PagesTo(folder) => self.write_pages(folder, false, ctx),
            Action::PagesOver => {
                if let Some((folder, _)) = self.pages_there.take() {
                    self.write_pages(folder, true, ctx);
                }
            }
            Action::LeavePages => self.pages_there = None,
            Action::View(view) => self.view.view = view,
            Action::Kit(kit) => self.take_in_hand(kit),
            Action::Overlay(all) => self.view.alone = !all,
            Action::Unfold(unfolded) => self.view.unfolded = unfolded,
            Action::Select(selected) => self.view.selected = selected,
            Action::Units(units) => self.choose_units(Some(units)),
            Action::UnitsAsTyped => self.choose_units(None),
            Action::Absolute(absolute) => self.view.units.absolute = absolute,
            Action::UnitsBox(shown) => self.view.units_box = shown,
            Action::Search(open) => self.view.search = open,
            Action::Projector(on) => self.project(on),
            Action::Beside(beside) => self.project_beside(beside),
            Action::Lesson(step) => self.step(step),
            Action::Theme(theme) => self.choose(|settings| settings.theme = theme),
            Action::Van(van) => self.choose(|settings| {
                (settings.van, settings.theme) = (van, if van { Theme::Sun } else { Theme::Light });
            }),
            Action::Still(still) => self.choose(|settings| settings.still = still),
            Action::PathField(shown) => self.view.path_field = shown,
            Action::About(shown) => self.view.about = shown,
            Action::Dismiss => self.view.message = None,
            Action::Clock(minutes) => self.look_at_moment(minutes),
            Action::Cylinder(at) => self.view.cylinder = at,
            Action::FillTemperature(kelvin) => self.view.fill_k = Some(kelvin),
            Action::Counts(counted) => self.view.counted = counted,
            Action::CountInRate(in_rate) => self.view.in_rate = in_rate,
            Action::CancelDraws(cancelled) => {
                if let Some(scholar) = &mut self.scholar {
                    scholar.cancel(cancelled);
                }
            }
            Action::ShelfLook(look) => self.view.shelf = *look,
            Action::CheckTopic(at) => self.view.check_topic = at,
            Action::FindWord(text) => self.view.word = text,
            Action::Shelve(new) => self.shelve(*new),
            Action::ChangeShelf(item) => self.change_shelf(&item),
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
