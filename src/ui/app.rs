//! The application: takes in news, draws the panels, does what they want. Nothing else.

use egui::{Frame, Key, KeyboardShortcut, Margin, Modifiers, Panel, Ui};
use narrows::presets::Shelf;

use super::actions::Action;
use super::panels::{
    Desk, bench, checks, cord_run, cylinders, find_cause, header, job_clock, job_sheet, line_up,
    meeting_point, narrow, notices, projector, read_rating, search, shelf, side_by_side, site_log, strip,
    units, what_counts, words,
};
use super::present::Scene;
use super::session::Session;
use super::style::{Look, Theme};
use super::view::View;

/// The window's application.
pub struct App {
    session: Session,
    applied: Option<(Theme, bool, [u32; 2])>,
    title: String,
}

impl App {
    /// An application on a session.
    pub fn new(mut session: Session, shelf: Shelf) -> Self {
        session.set_built_in_shelf(shelf);
        Self { session, applied: None, title: String::new() }
    }

    /// The session.
    #[cfg(test)]
    pub fn session(&self) -> &Session {
        &self.session
    }

    /// The session, to be changed.
    #[cfg(test)]
    pub fn session_mut(&mut self) -> &mut Session {
        &mut self.session
    }

    /// Studies the document at once.
    #[cfg(test)]
    pub fn study_now(&mut self) {
        self.session.study_now(None);
    }

    /// Does one thing, as a panel would have it done.
    #[cfg(test)]
    pub fn apply(&mut self, action: Action, ctx: &egui::Context) {
        self.session.apply(action, ctx);
    }

    /// One frame.
    pub fn show(&mut self, ui: &mut Ui) {
        keep_zoom(ui.ctx());
        let look = self.look(ui);
        // Before anything is drawn, so that what is typed right after a shortcut meets what it opened.
        let wanted = shortcuts(ui, &self.session);
        self.apply_all(wanted, ui);
        let scene = Scene::new(&self.session);
        let shelf = self.session.shelf().all();
        let mut desk = Desk { scene: &scene, look: &look, shelf, actions: Vec::new() };
        panels_ui(ui, &mut desk);
        let wanted = desk.actions;
        self.apply_all(wanted, ui);
    }

    fn apply_all(&mut self, actions: Vec<Action>, ui: &Ui) {
        for action in actions {
            self.session.apply(action, ui.ctx());
            ui.ctx().request_repaint();
        }
    }

    fn look(&mut self, ui: &Ui) -> Look {
        let size = ui.ctx().content_rect().size();
        let view = &self.session.view;
        let look = Look::new(view.theme, size.x, size.y).in_van(size.x, size.y, view.van);
        let look = Look { still: view.still, decimal_comma: view.units.decimal_comma, ..look };
        let key = (view.theme, view.van, [size.x as u32, size.y as u32]);
        if self.applied.is_none() {
            // The builder's wish for a maximized window is lost with some window managers.
            ui.ctx().send_viewport_cmd(egui::ViewportCommand::Maximized(true));
        }
        if self.applied != Some(key) {
            look.apply(ui.ctx());
            self.applied = Some(key);
        }
        look
    }
}

impl eframe::App for App {
    fn logic(&mut self, ctx: &egui::Context, _frame: &mut eframe::Frame) {
        self.take_in(ctx);
    }

    fn on_exit(&mut self, _gl: Option<&eframe::glow::Context>) {
        self.session.close();
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.show(ui);
    }

    fn clear_color(&self, visuals: &egui::Visuals) -> [f32; 4] {
        visuals.panel_fill.to_normalized_gamma_f32()
    }

    fn persist_egui_memory(&self) -> bool {
        // Half-typed fields and open menus belong to this run.
        false
    }
}

impl App {
    /// Takes in what came from outside: answers, files, the wish to close.
    pub fn take_in(&mut self, ctx: &egui::Context) {
        self.session.poll(ctx);
        let focus = ctx.input(|i| i.events.contains(&egui::Event::WindowFocused(true)));
        if focus {
            self.session.look_at_disk();
        }
        if let Some(wait) = self.session.tend(std::time::Instant::now()) {
            ctx.request_repaint_after(wait);
        }
        let dropped = ctx.input(|i| {
            i.raw
                .dropped_files
                .iter()
                .find_map(|f| Some(f.path().to_owned()).filter(|p| !p.as_os_str().is_empty()))
        });
        if let Some(path) = dropped {
            self.session.apply(Action::Open(path), ctx);
        }
        if ctx.input(|i| i.viewport().close_requested()) && !self.session.may_close() {
            ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
            self.session.apply(Action::Close, ctx);
        }
        let mark = if self.session.is_unsaved() { "• " } else { "" };
        let title = format!("{mark}{} · Narrows", self.session.document().title);
        // A command asks for another frame; only send it when it changes something.
        if self.title != title {
            ctx.send_viewport_cmd(egui::ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }
}

/// The window's own zoom keys (Ctrl + and −) go from 100 to 250 %.
fn keep_zoom(ctx: &egui::Context) {
    let zoom = ctx.zoom_factor();
    let kept = zoom.clamp(1.0, 2.5);
    if kept != zoom {
        ctx.set_zoom_factor(kept);
    }
}

fn shortcuts(ui: &Ui, session: &Session) -> Vec<Action> {
    let (undo, redo) = session.can_undo_redo();
    let typing = ui.ctx().text_edit_focused();
    let mut actions = Vec::new();
    if let Some(class) = &session.view.projector {
        if !class.beside {
            return projector::keys(ui);
        }
        // Beside the class's window the keys belong to what has the focus, if something has.
        if ui.memory(|m| m.focused().is_none()) {
            actions = projector::keys(ui);
            actions.retain(|action| !matches!(action, Action::Projector(_)));
        }
    }
    ui.input_mut(|input| {
        let mut on = |modifiers, key, action: Action| {
            if input.consume_shortcut(&KeyboardShortcut::new(modifiers, key)) {
                actions.push(action);
            }
        };
        on(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::S, Action::SaveDialog);
        on(Modifiers::COMMAND, Key::S, Action::Save);
        on(Modifiers::COMMAND, Key::O, Action::OpenDialog);
        on(Modifiers::COMMAND, Key::K, Action::Search(!session.view.search));
        if typing {
            return;
        }
        if redo {
            on(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::Z, Action::Redo);
            on(Modifiers::COMMAND, Key::Y, Action::Redo);
        }
        if undo {
            on(Modifiers::COMMAND, Key::Z, Action::Undo);
        }
        on(Modifiers::NONE, Key::Z, Action::Unfold(!session.view.unfolded));
        on(Modifiers::NONE, Key::V, Action::Van(!session.view.van));
    });
    actions
}

/// The window where there is little room.
fn narrow_panels_ui(ui: &mut Ui, desk: &mut Desk) {
    let (m, p) = (desk.look.measures, desk.look.palette);
    let frame = |fill| Frame::new().fill(fill).inner_margin(Margin::symmetric(10, 0));
    Panel::top("header").exact_size(m.header).frame(frame(p.ground)).show(ui, |ui| {
        narrow::narrow_header_ui(ui, desk);
    });
    notices_ui(ui, desk);
    egui::CentralPanel::default().frame(frame(p.sheet)).show(ui, |ui| match desk.scene.session.view.view {
        View::Bench | View::LineUp => narrow::narrow_ui(ui, desk),
        view => view_ui(ui, desk, view),
    });
}

/// The views that are the same in every window.
fn view_ui(ui: &mut Ui, desk: &mut Desk, view: View) {
    match view {
        View::Bench => bench::bench_ui(ui, desk),
        View::LineUp => line_up::line_up_ui(ui, desk),
        View::CordRun => cord_run::cord_run_ui(ui, desk),
        View::MeetingPoint => meeting_point::meeting_point_ui(ui, desk),
        View::JobClock => job_clock::job_clock_ui(ui, desk),
        View::SideBySide => side_by_side::side_by_side_ui(ui, desk),
        View::WhatCounts => what_counts::what_counts_ui(ui, desk),
        View::Cylinders => cylinders::cylinders_ui(ui, desk),
        View::JobSheet => job_sheet::job_sheet_ui(ui, desk),
        View::ReadRating => read_rating::read_rating_ui(ui, desk),
        View::FindCause => find_cause::find_cause_ui(ui, desk),
        View::SiteLog => site_log::site_log_ui(ui, desk),
        View::Shelf => shelf::shelf_ui(ui, desk),
        View::Checks => checks::checks_ui(ui, desk),
        View::Words => words::words_ui(ui, desk),
    }
}

fn panels_ui(ui: &mut Ui, desk: &mut Desk) {
    match &desk.scene.session.view.projector {
        Some(class) if class.beside => projector::beside_ui(ui, desk),
        Some(_) => return projector::projector_ui(ui, desk),
        None => {}
    }
    search::search_ui(ui, desk);
    if narrow::is_narrow(ui, desk.look) {
        return narrow_panels_ui(ui, desk);
    }
    let (m, p) = (desk.look.measures, desk.look.palette);
    let bar = |fill, x: i8| Frame::new().fill(fill).inner_margin(Margin::symmetric(x, 0));
    Panel::top("header").exact_size(m.header).frame(bar(p.ground, 12)).show(ui, |ui| {
        header::header_ui(ui, desk);
    });
    Panel::top("views").exact_size(m.views).frame(bar(p.sheet, 6)).show(ui, |ui| {
        header::views_ui(ui, desk);
    });
    notices_ui(ui, desk);
    let frame = Frame::new().fill(p.ground).inner_margin(Margin::symmetric(10, 8));
    let width = m.strip.min(ui.available_width() * 0.5);
    Panel::right("strip").exact_size(width).resizable(false).frame(frame).show(ui, |ui| {
        strip::strip_ui(ui, desk);
    });
    egui::CentralPanel::default().frame(Frame::new().fill(p.sheet)).show(ui, |ui| {
        view_ui(ui, desk, desk.scene.session.view.view);
    });
}

fn notices_ui(ui: &mut Ui, desk: &mut Desk) {
    let frame = Frame::new().fill(desk.look.palette.plate).inner_margin(Margin::symmetric(12, 6));
    let view = &desk.scene.session.view;
    if view.projector.is_some() {
        Panel::top("presenter").frame(frame).show(ui, |ui| projector::presenter_ui(ui, desk));
    }
    if let Some(message) = view.message.clone() {
        Panel::top("message").frame(frame).show(ui, |ui| notices::message_ui(ui, desk, &message));
    }
    if desk.scene.session.leftover().is_some() {
        Panel::top("leftover").frame(frame).show(ui, |ui| notices::leftover_ui(ui, desk));
    }
    if desk.scene.session.clash().is_some() {
        Panel::top("clash").frame(frame).show(ui, |ui| notices::clash_ui(ui, desk));
    }
    if desk.scene.session.pages_there().is_some() {
        Panel::top("pages there").frame(frame).show(ui, |ui| notices::pages_there_ui(ui, desk));
    }
    if desk.scene.session.is_holding_back() {
        Panel::top("not saved").frame(frame).show(ui, |ui| notices::not_saved_ui(ui, desk));
    }
    if view.path_field {
        Panel::top("path").frame(frame).show(ui, |ui| notices::path_field_ui(ui, desk));
    }
    if view.units_box {
        Panel::top("units").frame(frame).show(ui, |ui| units::units_ui(ui, desk));
    }
    if view.about {
        Panel::top("about").frame(frame).show(ui, |ui| notices::about_ui(ui, desk));
    }
}
