//! Document, results and view, each with one owner; and the one place where actions are done.

use std::path::PathBuf;

use narrows::kit::{Branch, Cord, Cylinder, Machine, Part};
use narrows::scenario::{self, Document, Fault};
use narrows::units::UnitSet;

use super::actions::{Action, Edit, PartList};
use super::answer::Answer;
use super::files::{self, Dialogs, Purpose};
use super::history::History;
use super::keep::{Keep, Leftover};
use super::moment::{self, Moment};
use super::projector::Projector;
use super::second_port;
use super::study::{Scholar, Study};
use super::view::{Selected, ViewState};
use super::worker::Worker;

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
    keep: Option<Keep>,
    leftovers: Vec<Leftover>,
    recent: Vec<PathBuf>,
}

/// What comes back when a trial ends.
struct Trial {
    document: Document,
    answer: Option<Answer>,
    before: Option<Answer>,
    selected: Option<Selected>,
    edit: Edit,
}

/// A file that saving would take from someone else.
#[derive(Clone, Debug, PartialEq)]
pub struct Clash {
    /// The file.
    pub path: PathBuf,
    /// It is the document's own and was changed; else it is another one that is there already.
    pub own: bool,
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
            keep: None,
            leftovers: Vec::new(),
            recent: Vec::new(),
        };
        session.solve_now();
        session.view.units = units_of(&session.document);
        session
    }

    /// The document.
    pub fn document(&self) -> &Document {
        &self.document
    }

    /// The document without what is only tried.
    pub fn committed(&self) -> &Document {
        self.trial.as_ref().map_or(&self.document, |trial| &trial.document)
    }

    /// The change that is tried.
    pub fn tried(&self) -> Option<&Edit> {
        self.trial.as_ref().map(|trial| &trial.edit)
    }

    /// Tries a change; the answer that stands becomes the ghost.
    fn try_out(&mut self, edit: Edit) {
        self.end_trial();
        let trial = Trial {
            document: self.document.clone(),
            answer: self.answer.clone(),
            before: self.before.clone(),
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

    fn end_trial(&mut self) {
        if let Some(trial) = self.trial.take() {
            self.document = trial.document;
            self.answer = trial.answer;
            self.before = trial.before;
            self.view.selected = trial.selected;
            self.faults = scenario::check(&self.document);
            if self.is_stale() {
                self.seek_answer();
            }
        }
    }

    fn keep_trial(&mut self) {
        if let Some(trial) = self.trial.take() {
            self.history.push(trial.document);
            if let Edit::Remove { list, at } = trial.edit {
                self.view.selected = Some(selected_in(list, at));
            }
            self.take_in_hand(self.view.kit);
        }
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

    /// What was worked out behind the operating point; it may be for an earlier document.
    pub fn study(&self) -> Option<&Study> {
        self.study.as_ref()
    }

    /// Whether the study is for an earlier document.
    pub fn is_study_stale(&self) -> bool {
        self.study.as_ref().is_none_or(|s| s.document != self.document)
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
    pub fn poll(&mut self) {
        if let Some(answer) = self.worker.as_ref().and_then(Worker::newest) {
            // An answer to what was tried and given up comes too late.
            if self.is_stale() {
                self.take(answer);
            }
        }
        self.poll_study();
        for picked in self.dialogs.answers() {
            match (picked.purpose, picked.path) {
                (Purpose::Open, Some(path)) => self.guarded(Action::Open(path)),
                // The dialog has asked already whether another file may be lost.
                (Purpose::Save, Some(path)) if self.file.as_ref() != Some(&path) => self.write_to(path),
                (Purpose::Save, Some(path)) => self.save_to(path),
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
        if self.trial.is_none() {
            scholar.ask(&self.document);
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
            _ => {}
        }
    }

    /// Does one thing.
    pub fn apply(&mut self, action: Action, ctx: &egui::Context) {
        if self.trial.is_some() && !matches!(action, Action::KeepTrial | Action::Theme(_) | Action::Units(_))
        {
            self.end_trial();
        }
        match action {
            Action::Try(edit) => self.try_out(edit),
            Action::EndTrial => {}
            Action::KeepTrial => self.keep_trial(),
            Action::Start(_) | Action::Open(_) | Action::Close => self.guarded(action),
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
            Action::Save => match self.file.clone() {
                Some(path) => self.save_to(path),
                None => self.ask(Purpose::Save, ctx),
            },
            Action::SaveDialog => self.ask(Purpose::Save, ctx),
            Action::SaveTo(path) => self.save_to(path),
            Action::View(view) => self.view.view = view,
            Action::Kit(kit) => self.take_in_hand(kit),
            Action::Overlay(all) => self.view.alone = !all,
            Action::Unfold(unfolded) => self.view.unfolded = unfolded,
            Action::Select(selected) => self.view.selected = selected,
            Action::Units(units) => (self.view.units, self.view.pressure_units) = (units, None),
            Action::PressureUnits(units) => self.view.pressure_units = units,
            Action::Absolute(absolute) => self.view.absolute = absolute,
            Action::Search(open) => self.view.search = open,
            Action::Projector(on) => self.view.projector = on.then(Projector::default),
            Action::Lesson(step) => {
                let parts = self.document.kits.get(self.view.kit).map_or(0, |k| k.parts.len());
                if let Some(projector) = &mut self.view.projector {
                    projector.step(step, parts);
                }
            }
            Action::Theme(theme) => self.view.theme = theme,
            Action::PathField(shown) => self.view.path_field = shown,
            Action::About(shown) => self.view.about = shown,
            Action::Dismiss => self.view.message = None,
            Action::Clock(minutes) => self.look_at_moment(minutes),
            Action::Cylinder(at) => self.view.cylinder = at,
            Action::FillTemperature(kelvin) => self.view.fill_k = Some(kelvin),
            Action::Counts(counted) => self.view.counted = counted,
        }
    }

    fn ask(&mut self, purpose: Purpose, ctx: &egui::Context) {
        let name = format!("{}.{}", self.document.title, files::EXTENSION);
        if let Err(error) = self.dialogs.ask(purpose, &name, ctx) {
            self.view.message = Some(error);
        }
    }

    fn open(&mut self, path: PathBuf) {
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
    fn save_to(&mut self, path: PathBuf) {
        let own = self.file.as_ref() == Some(&path);
        let there = files::text(&path);
        if there.is_some() && (!own || there != self.on_disk) {
            self.clash = Some(Clash { path, own });
        } else {
            self.write_to(path);
        }
    }

    /// Looks whether another program has changed the file.
    pub fn look_at_disk(&mut self) {
        let Some(path) = &self.file else { return };
        let there = files::text(path);
        if there.is_some() && there != self.on_disk {
            self.clash = Some(Clash { path: path.clone(), own: true });
        }
    }

    /// Both stay; what is on the disk is known from now on.
    fn leave_both(&mut self) {
        if let Some(clash) = self.clash.take().filter(|c| c.own) {
            self.on_disk = files::text(&clash.path);
            self.recovered = true;
        }
    }

    /// Keeps copies and recent names in a folder from now on.
    pub fn keep_in(&mut self, folder: PathBuf) {
        let keep = Keep::new(folder);
        self.leftovers = keep.leftovers();
        self.recent = keep.recent();
        self.keep = Some(keep);
    }

    /// Writes the recovery copy if it is due; says when to come again.
    pub fn tend(&mut self, now: std::time::Instant) -> Option<std::time::Duration> {
        let unsaved = self.is_unsaved();
        let document = self.trial.as_ref().map_or(&self.document, |trial| &trial.document);
        let tended = self.keep.as_mut()?.tend(document, self.file.as_deref(), unsaved, now);
        if let Some(trouble) = tended.trouble {
            self.view.message = Some(super::present::scale::sentence(&trouble));
        }
        tended.again_in
    }

    /// The window closes as it should: no copy is needed.
    pub fn close(&mut self) {
        if let Some(keep) = &mut self.keep {
            keep.drop_copy();
        }
    }

    fn recover(&mut self) {
        let Some(left) = self.leftovers.pop() else { return };
        let on_disk = left.file.as_deref().and_then(files::text);
        self.start(left.document.clone(), left.file.clone());
        self.on_disk = on_disk;
        self.recovered = true;
        if let Some(keep) = &self.keep {
            keep.forget(&left);
        }
    }

    fn remember_file(&mut self, path: &std::path::Path) {
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

    fn write_to(&mut self, path: PathBuf) {
        match files::write(&path, &self.document) {
            Ok(text) => {
                self.remember_file(&path);
                self.on_disk = Some(text);
                self.recovered = false;
                self.saved = self.document.clone();
                self.file = Some(path);
                self.is_example = false;
                self.view.path_field = false;
            }
            Err(error) => self.view.message = Some(error),
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
        self.view.units = units_of(&self.document);
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

    fn carry_out(&mut self, edit: Edit) -> Result<(), String> {
        let document = &mut self.document;
        match edit {
            Edit::Set { path, text } => {
                scenario::set(document, &path, &text).map_err(|e| e.to_string())?;
            }
            Edit::Insert { list, at, part } => {
                let parts = parts_mut(document, list)?;
                let at = at.min(parts.len());
                parts.insert(at, *part);
                second_port::after_insert(document, list, at);
                self.view.selected = Some(selected_in(list, at));
            }
            Edit::Remove { list, at } => {
                let parts = parts_mut(document, list)?;
                let there = at < parts.len();
                if there {
                    parts.remove(at);
                }
                let left = parts.len();
                if there {
                    second_port::after_remove(document, list, at);
                }
                self.view.selected = (left > 0).then(|| selected_in(list, at.min(left - 1)));
            }
            Edit::Move { list, from, to } => {
                let parts = parts_mut(document, list)?;
                if from < parts.len() && to < parts.len() {
                    let part = parts.remove(from);
                    parts.insert(to, part);
                    second_port::after_move(document, list, from, to);
                    self.view.selected = Some(selected_in(list, to));
                }
            }
            Edit::Replace { list, at, part } => {
                if let Some(slot) = parts_mut(document, list)?.get_mut(at) {
                    *slot = *part;
                }
            }
            Edit::AddSecondPort(kit) => {
                if let Some(kit) = document.kits.get_mut(kit) {
                    second_port::add(kit);
                    self.view.selected = Some(Selected::SecondPart(0));
                }
            }
            Edit::RemoveSecondPort(kit) => {
                if let Some(kit) = document.kits.get_mut(kit) {
                    kit.second_port = None;
                    self.view.selected = Some(Selected::Source);
                }
            }
            Edit::CopyKit(kit) => {
                if let Some(mut copy) = document.kits.get(kit).cloned() {
                    copy.label = Some(format!("as {}", copy.name));
                    copy.name = document.free_kit_name();
                    document.kits.push(copy);
                    self.view.kit = document.kits.len() - 1;
                }
            }
            Edit::RemoveKit(kit) => {
                if kit < document.kits.len() && document.kits.len() > 1 {
                    document.kits.remove(kit);
                }
            }
            Edit::AddCord(cord) => self.cords_mut().push(*cord),
            Edit::RemoveCord(at) => {
                let cords = self.cords_mut();
                if at < cords.len() {
                    cords.remove(at);
                    self.view.selected = Some(Selected::Supply);
                }
            }
            Edit::SwapCord { at, cord } => {
                if let Some(slot) = self.cords_mut().get_mut(at) {
                    *slot = *cord;
                }
            }
            Edit::SwapBranch(branch) => {
                let old = document.supply.branch.as_ref();
                let other_load = old.and_then(|b| b.other_load.clone());
                document.supply.branch = Some(Branch { other_load, ..*branch });
            }
            Edit::SwapMachine(machine) => *self.machine_mut() = *machine,
            Edit::SwapMotor(motor) => self.machine_mut().motor = *motor,
            Edit::SwapCylinder(cylinder) => document.cylinder = *cylinder,
            Edit::AddCylinder => {
                let last = document.cylinders.last().unwrap_or(&document.cylinder);
                // A copy of the one in use stands for an empty one beside it.
                let another = Cylinder { contents: None, refrigerant: None, count: None, ..last.clone() };
                document.cylinders.push(another);
            }
            Edit::RemoveCylinder(at) => {
                if at > 0 && at <= document.cylinders.len() {
                    document.cylinders.remove(at - 1);
                    self.view.cylinder = self.view.cylinder.min(at - 1);
                }
            }
        }
        Ok(())
    }

    /// The cords that feed the kit in hand.
    fn cords_mut(&mut self) -> &mut Vec<Cord> {
        let own = self.document.kits.get_mut(self.view.kit).and_then(|k| k.cords.as_mut());
        own.unwrap_or(&mut self.document.supply.cords)
    }

    /// The machine that the kit in hand is on.
    fn machine_mut(&mut self) -> &mut Machine {
        let own = self.document.kits.get_mut(self.view.kit).and_then(|k| k.machine.as_mut());
        own.unwrap_or(&mut self.document.machine)
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

/// The units of answers that go with how a document was typed.
fn units_of(document: &Document) -> UnitSet {
    let unit = document.source.temperature.unit().to_lowercase();
    if unit.contains('f') { UnitSet::UsTrade } else { UnitSet::Si }
}

fn selected_in(list: PartList, at: usize) -> Selected {
    match list {
        PartList::Kit(_) => Selected::Part(at),
        PartList::Second(_) => Selected::SecondPart(at),
        PartList::Discharge => Selected::Discharge(at),
    }
}

fn parts_mut(document: &mut Document, list: PartList) -> Result<&mut Vec<Part>, String> {
    match list {
        PartList::Kit(kit) => match document.kits.get_mut(kit) {
            Some(kit) => Ok(&mut kit.parts),
            None => Err("that kit is not in the document any more".to_owned()),
        },
        PartList::Second(kit) => {
            let second = document.kits.get_mut(kit).and_then(|k| k.second_port.as_mut());
            second.map(|s| &mut s.parts).ok_or_else(|| "that kit has no second port any more".to_owned())
        }
        PartList::Discharge => Ok(&mut document.discharge),
    }
}
