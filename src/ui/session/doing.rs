//! The one place where actions are done, and where those wait that would lose changes.

use super::Session;
use crate::ui::actions::Action;
use crate::ui::files::{self, Purpose};
use crate::ui::history::History;
use crate::ui::style::Theme;

impl Session {
    /// Whether something waits for a word about changes that are not saved.
    pub fn is_holding_back(&self) -> bool {
        self.held_back.is_some()
    }

    /// Whether the window may close now.
    pub fn may_close(&self) -> bool {
        self.may_close || !self.is_unsaved()
    }

    /// Does what would lose changes, or holds it back if there are any.
    pub(super) fn guarded(&mut self, action: Action) {
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
            Action::CordPage(page) => self.view.cord_page = page,
            Action::MachineAt(hose_m) => self.view.machine_at_m = Some(hose_m),
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
}
