//! Command search: every command by its words, found by typing a few letters of them.

use egui::{Align2, Area, Frame, Key, Margin, Order, Ui, vec2};

use narrows::presets::{Item, Thing};

use super::Desk;
use super::edit_field::want_focus;
use super::header::PORTS;
use super::inspector::cord_path;
use super::shelf::take;
use crate::ui::actions::{Action, Edit, PartList};
use crate::ui::present::found::matches;
use crate::ui::present::job_sheet::METHODS;
use crate::ui::present::shelf::take_word;
use crate::ui::present::{parts, volts};
use crate::ui::style::Theme;
use crate::ui::view::{CordPage, Counted, Selected, View};

/// Rows shown.
const ROWS: usize = 9;

/// One command: what it says and what it does.
struct Command {
    words: String,
    actions: Vec<Action>,
    /// A field to go to, by its path.
    field: Option<String>,
}

impl Command {
    fn new(words: impl Into<String>, action: Action) -> Self {
        Self { words: words.into(), actions: vec![action], field: None }
    }
}

/// The search, if it is open.
pub fn search_ui(ui: &mut Ui, desk: &mut Desk) {
    if !desk.scene.session.view.search {
        ui.data_mut(|d| d.remove::<(String, usize)>(searched()));
        return;
    }
    let frame = Frame::new()
        .fill(desk.look.palette.sheet)
        .stroke(egui::Stroke::new(desk.look.measures.focus_line(), desk.look.palette.ink))
        .inner_margin(Margin::same(10));
    Area::new(egui::Id::unique("command search"))
        .order(Order::Foreground)
        .anchor(Align2::CENTER_TOP, vec2(0.0, 60.0))
        .show(ui.ctx(), |ui| frame.show(ui, |ui| open_ui(ui, desk)));
}

/// Where the words are kept while the search is open: text, row.
fn searched() -> egui::Id {
    egui::Id::unique("searched words")
}

fn open_ui(ui: &mut Ui, desk: &mut Desk) {
    let width = 460.0_f32.min(ui.ctx().content_rect().width() - 40.0).max(60.0);
    ui.set_width(width);
    let id = searched();
    let (mut text, mut at) = ui.data(|d| d.get_temp::<(String, usize)>(id)).unwrap_or_default();
    let (up, down, enter, escape) = ui.input_mut(|i| {
        let none = egui::Modifiers::NONE;
        (
            i.consume_key(none, Key::ArrowUp),
            i.consume_key(none, Key::ArrowDown),
            i.consume_key(none, Key::Enter),
            i.consume_key(none, Key::Escape),
        )
    });
    let field = id.with("field");
    // Before it is shown: letters of this very frame are for it.
    ui.memory_mut(|m| m.request_focus(field));
    let edit = egui::TextEdit::singleline(&mut text)
        .id(field)
        .hint_text("Say what to do, as bore")
        .desired_width(width);
    let response = ui.add(edit.min_size(vec2(width, desk.look.target())).align(egui::Align2::LEFT_CENTER));
    response.widget_info(|| {
        let mut info = egui::WidgetInfo::text_edit(true, "", &text, "");
        info.label = Some("Command search".to_owned());
        info
    });
    if response.changed() {
        at = 0;
    }
    let found: Vec<Command> =
        commands(desk).into_iter().filter(|c| matches(&c.words, &text)).take(ROWS).collect();
    at = (at + usize::from(down)).saturating_sub(usize::from(up)).min(found.len().saturating_sub(1));
    let mut chosen = (enter && !found.is_empty()).then_some(at);
    for (i, command) in found.iter().enumerate() {
        let button = egui::Button::selectable(i == at, command.words.as_str())
            .min_size(vec2(width, desk.look.target()));
        if ui.add(button).clicked() {
            chosen = Some(i);
        }
    }
    if found.is_empty() {
        ui.label("Nothing by these words.");
    }
    if let Some(command) = chosen.and_then(|i| found.into_iter().nth(i)) {
        if let Some(path) = command.field {
            want_focus(ui.ctx(), &path);
        }
        desk.want(Action::Search(false));
        command.actions.into_iter().for_each(|a| desk.want(a));
    } else if escape {
        desk.want(Action::Search(false));
    } else {
        ui.data_mut(|d| d.insert_temp(id, (text, at)));
    }
}

fn commands(desk: &Desk) -> Vec<Command> {
    let mut all = part_commands(desk);
    all.extend(power_commands(desk));
    all.extend(job_commands());
    all.extend(View::ALL.map(|view| Command::new(format!("Show {}", view.name()), Action::View(view))));
    all.extend(page_commands());
    let document = desk.scene.document();
    for (i, kit) in document.kits.iter().enumerate() {
        all.push(Command::new(format!("Select kit {}", kit.name), Action::Kit(i)));
    }
    let view = &desk.scene.session.view;
    all.extend([
        Command::new("Undo", Action::Undo),
        Command::new("Redo", Action::Redo),
        Command::new("Open a file", Action::OpenDialog),
        Command::new("Save", Action::Save),
        Command::new("Save as", Action::SaveDialog),
        Command::new("Type a path", Action::PathField(true)),
        Command::new("Write pages to print", Action::PagesDialog),
        Command::new("Projector", Action::Projector(true)),
        Command::new("Projector in a second window", Action::Beside(true)),
        Command::new("In a van: large type and targets, for the sun", Action::Van(true)),
        Command::new("On a bench: usual type and targets", Action::Van(false)),
        Command::new("Reduced motion", Action::Still(true)),
        Command::new("Full motion", Action::Still(false)),
        Command::new("Draw all kits", Action::Overlay(true)),
        Command::new("Draw this kit alone", Action::Overlay(false)),
        Command::new("Copy this kit", Action::Edit(Edit::CopyKit(desk.scene.hand()))),
        Command::new("Fold or unfold the axis", Action::Unfold(!view.unfolded)),
        Command::new("Units of answers", Action::UnitsBox(true)),
        Command::new("About", Action::About(true)),
    ]);
    all.extend(
        Theme::ALL.map(|theme| Command::new(format!("{} colours", theme.name()), Action::Theme(theme))),
    );
    for (i, lesson) in narrows::presets::built_in_lessons().unwrap_or_default().into_iter().enumerate() {
        all.push(Command::new(format!("Lesson: {}", lesson.title), Action::Teach(i)));
    }
    for (title, example) in crate::ui::examples::all() {
        let start = Action::Start(Box::new(example.clone()));
        all.push(Command::new(format!("Start from the example {title}"), start));
    }
    let units = super::units::choices(desk.scene.units());
    all.extend(units.into_iter().map(|(words, units)| Command::new(words, Action::Units(units))));
    all.extend(shelf_commands(desk));
    all
}

/// What a view can show beside what it shows first.
fn page_commands() -> Vec<Command> {
    let page = |view: View, name: &str, action: Action| Command {
        words: format!("Show {}: {name}", view.name()),
        actions: vec![Action::View(view), action],
        field: None,
    };
    let cords = CordPage::ALL.map(|of| page(View::CordRun, of.name(), Action::CordPage(of)));
    let counts = Counted::ALL.map(|of| page(View::WhatCounts, of.name(), Action::Counts(of)));
    cords.into_iter().chain(counts).collect()
}

/// Everything the shelf offers, to take into the document.
fn shelf_commands(desk: &Desk) -> Vec<Command> {
    let kit = desk.scene.kit().map(|kit| kit.name.clone()).unwrap_or_default();
    let mut items = desk.shelf.things();
    items.retain(|item| !item.retired);
    items.sort_by_key(|item| item.file.is_none());
    let command = |item: &Item<Thing>| Command {
        words: format!("{}: {}", take_word(item.item.kind(), &kit), item.name),
        actions: take(item, desk),
        field: None,
    };
    items.iter().map(command).collect()
}

fn part_commands(desk: &Desk) -> Vec<Command> {
    let hand = desk.scene.hand();
    let mut all = Vec::new();
    let Some(kit) = desk.scene.kit() else { return all };
    for (at, part) in kit.parts.iter().enumerate() {
        let name = parts::name(part);
        let select = Action::Select(Some(Selected::Part(at)));
        let path = parts::kit_part_path(desk.scene.document(), hand, at);
        let sizes = [("Bore", "bore", part.bore()), ("Length", "length", part.length())];
        for (word, field, _) in sizes.into_iter().filter(|(_, _, size)| size.is_some()) {
            all.push(Command {
                words: format!("{word} of part {}, {name}", at + 1),
                actions: vec![Action::View(View::Bench), select.clone()],
                field: Some(format!("{path}.{field}")),
            });
        }
        all.push(Command::new(format!("Select part {}, {name}", at + 1), select));
        let out = Edit::Remove { list: PartList::Kit(hand), at };
        all.push(Command::new(format!("Take part {} out, {name}", at + 1), Action::Edit(out)));
    }
    all
}

/// What is recovered, from where, how.
fn job_commands() -> Vec<Command> {
    let set = |words: String, path: &str, text: &str| {
        let (path, text) = (path.to_owned(), text.to_owned());
        Command::new(words, Action::Edit(Edit::Set { path, text }))
    };
    let mut all: Vec<Command> = narrows::fluid::list()
        .map(|fluid| set(format!("Refrigerant {}", fluid.designation), "refrigerant", fluid.designation))
        .collect();
    all.extend(PORTS.map(|port| set(format!("Port: {port}"), "source.port", port)));
    all.extend(METHODS.map(|(_, words, text)| set(format!("Method: {words}"), "job.method", text)));
    all
}

fn power_commands(desk: &Desk) -> Vec<Command> {
    let select = |words: &str, thing| Command::new(words, Action::Select(Some(thing)));
    let mut all = vec![
        select("Select the system", Selected::Source),
        select("Select the machine", Selected::Machine),
        select("Select the motor", Selected::Motor),
        select("Select the cylinder", Selected::Cylinder),
        select("Select the panel", Selected::Supply),
    ];
    for i in 0..volts::cords(desk.scene).len() {
        all.push(select(&format!("Select cord {}", i + 1), Selected::Cord(i)));
        for (word, field) in [("Gauge", "gauge"), ("Length", "length")] {
            let select = Action::Select(Some(Selected::Cord(i)));
            all.push(Command {
                words: format!("{word} of cord {}", i + 1),
                actions: vec![Action::View(View::Bench), select],
                field: Some(format!("{}.{field}", cord_path(desk, i))),
            });
        }
    }
    all
}
