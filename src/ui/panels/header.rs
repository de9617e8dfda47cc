//! Header and row of views: what the job is, which kit is in hand, commands.

use egui::{Align, Layout, Sense, Stroke, StrokeKind, Ui, pos2, vec2};
use narrows::kit::Port;

use super::Desk;
use super::edit_field::bare_field_ui;
use super::narrow::few_commands_ui;
use crate::ui::actions::{Action, Edit};
use crate::ui::style::{Theme, fonts};
use crate::ui::symbols::paint_kit_mark;
use crate::ui::view::View;
use crate::ui::widgets::choice::{choice_ui, menu_ui};
use crate::ui::widgets::word_button::{command_ui, tab_ui};

/// What comes out of the system's port.
pub const PORTS: [&str; 3] = ["vapour", "liquid", "both"];

/// What kits and commands need; with less they hide behind a few words.
const FULL: f32 = 620.0;

/// The header.
pub fn header_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.horizontal_centered(|ui| {
        title_ui(ui, desk);
        source_ui(ui, desk);
        if ui.available_width() < FULL {
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| few_commands_ui(ui, desk));
            return;
        }
        kits_ui(ui, desk);
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| commands_ui(ui, desk));
    });
}

fn title_ui(ui: &mut Ui, desk: &Desk) {
    let mut text = desk.scene.document().title.clone();
    if desk.scene.session.is_unsaved() {
        text.push_str(" •");
    }
    let all = ui.available_width();
    let room = (all - beside_title(desk, all)).max(0.17 * all).clamp(90.0, 420.0);
    let rich = egui::RichText::new(&text).font(fonts::bold(desk.look.measures.title));
    let label = egui::Label::new(rich).truncate().halign(Align::LEFT);
    ui.scope(|ui| {
        ui.set_max_width(room);
        let response = ui.add(label);
        let place = desk.scene.document().place.clone().unwrap_or_default();
        let saved = if desk.scene.session.is_unsaved() { "Not saved" } else { "Saved" };
        response.on_hover_text(format!("{text}\n{place}\n{saved}"));
    });
    ui.add_space(6.0);
}

/// What fields, kits and commands take of the header's width, a little more rather than less.
fn beside_title(desk: &Desk, width: f32) -> f32 {
    let scale = desk.look.measures.body / 13.0;
    let fields = 280.0 * scale;
    let tab = |name: &str| 40.0 + 10.0 * name.chars().count() as f32;
    let kits: f32 = desk.scene.document().kits.iter().map(|kit| tab(&kit.name)).sum();
    let all = (810.0 + kits) * scale;
    // Where kits and commands hide behind a few words, those.
    if 0.83 * width - fields < FULL { fields + 280.0 * scale } else { all }
}

fn source_ui(ui: &mut Ui, desk: &mut Desk) {
    let document = desk.scene.document();
    let scale = desk.look.measures.body / 13.0;
    let names: Vec<String> = narrows::fluid::list().map(|l| l.designation.to_owned()).collect();
    let current = document.refrigerant.as_str();
    if let Some(name) =
        choice_ui(ui, "Refrigerant", current, &names, 92.0 * scale, desk.look).and_then(|i| names.get(i))
    {
        desk.edit(Edit::Set { path: "refrigerant".to_owned(), text: name.clone() });
    }
    let ports = PORTS.map(str::to_owned);
    let port = match document.source.port {
        Port::Vapour => "vapour",
        Port::Liquid => "liquid",
        Port::Both => "both",
    };
    if let Some(port) =
        choice_ui(ui, "Port", port, &ports, 82.0 * scale, desk.look).and_then(|i| ports.get(i))
    {
        desk.edit(Edit::Set { path: "source.port".to_owned(), text: port.clone() });
    }
    let temperature = document.source.temperature.as_typed();
    bare_field_ui(ui, desk, "System temperature", "source.temperature", temperature, 66.0 * scale);
    ui.add_space(6.0);
}

fn kits_ui(ui: &mut Ui, desk: &mut Desk) {
    let hand = desk.scene.hand();
    for (i, kit) in desk.scene.document().kits.iter().enumerate() {
        let label = kit.label.clone().unwrap_or_default();
        if kit_tab_ui(ui, desk, i, &kit.name, i == hand).on_hover_text(label).clicked() {
            desk.want(Action::Kit(i));
        }
    }
    let many = desk.scene.document().kits.len() > 1;
    let commands: &[&str] = if many {
        &["Copy this kit", "Remove this kit", "Draw all kits", "Draw this kit alone"]
    } else {
        &["Copy this kit"]
    };
    match menu_ui(ui, "Kits", commands, desk.look) {
        Some(0) => desk.edit(Edit::CopyKit(hand)),
        Some(1) => desk.edit(Edit::RemoveKit(hand)),
        Some(2) => desk.want(Action::Overlay(true)),
        Some(3) => desk.want(Action::Overlay(false)),
        _ => {}
    }
}

fn kit_tab_ui(ui: &mut Ui, desk: &Desk, kit: usize, name: &str, open: bool) -> egui::Response {
    let (m, p) = (&desk.look.measures, desk.look.palette);
    let galley = ui.painter().layout_no_wrap(name.to_owned(), fonts::bold(m.strong), p.ink);
    let size = vec2((galley.size().x + 30.0).max(desk.look.target()), desk.look.target());
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    let words = format!("Kit {name}");
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, open, &words));
    if open {
        ui.painter().rect_filled(rect, 0.0, p.sheet);
        ui.painter().rect_stroke(rect, 0.0, Stroke::new(2.0, p.ink), StrokeKind::Inside);
    } else if response.hovered() || response.has_focus() {
        ui.painter().rect_stroke(rect, 0.0, Stroke::new(1.0, p.edge), StrokeKind::Inside);
    }
    paint_kit_mark(ui.painter(), pos2(rect.left() + 13.0, rect.center().y), 5.5, kit, p);
    let at = pos2(rect.left() + 23.0, rect.center().y - galley.size().y / 2.0);
    ui.painter().galley(at, galley, p.ink);
    response
}

fn commands_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.spacing_mut().item_spacing.x = 2.0;
    let view = &desk.scene.session.view;
    if command_ui(ui, "About", true, desk.look).clicked() {
        desk.want(Action::About(!view.about));
    }
    class_menu_ui(ui, desk);
    look_menu_ui(ui, desk);
    let units = super::units::short_words(view.units);
    if command_ui(ui, &units, true, desk.look).on_hover_text("Units of answers").clicked() {
        desk.want(Action::UnitsBox(!view.units_box));
    }
    if command_ui(ui, "Search", true, desk.look).on_hover_text("Ctrl+K").clicked() {
        desk.want(Action::Search(true));
    }
    let (undo, redo) = desk.scene.session.can_undo_redo();
    if command_ui(ui, "Redo", redo, desk.look).clicked() {
        desk.want(Action::Redo);
    }
    if command_ui(ui, "Undo", undo, desk.look).clicked() {
        desk.want(Action::Undo);
    }
    let recent = desk.scene.session.recent();
    let names: Vec<String> = recent.iter().map(|p| file_name(p)).collect();
    let mut commands = vec!["Open…", "Save", "Save as…", "Type a path", "Pages…"];
    commands.extend(names.iter().map(String::as_str));
    match menu_ui(ui, "File", &commands, desk.look) {
        Some(i) if i > 4 => {
            if let Some(path) = recent.get(i - 5) {
                desk.want(Action::Open(path.clone()));
            }
        }
        Some(0) => desk.want(Action::OpenDialog),
        Some(1) => desk.want(Action::Save),
        Some(2) => desk.want(Action::SaveDialog),
        Some(3) => desk.want(Action::PathField(true)),
        Some(4) => desk.want(Action::PagesDialog),
        _ => {}
    }
}

/// What a class can be shown: the question about the job in hand, and the lessons.
pub fn class_menu_ui(ui: &mut Ui, desk: &mut Desk) {
    let lessons = narrows::presets::built_in_lessons().unwrap_or_default();
    let titles: Vec<String> = lessons.into_iter().map(|l| format!("Lesson: {}", l.title)).collect();
    let mut commands = vec!["Projector, this window", "Projector, a second window"];
    commands.extend(titles.iter().map(String::as_str));
    match menu_ui(ui, "Class", &commands, desk.look) {
        Some(0) => desk.want(Action::Projector(true)),
        Some(1) => desk.want(Action::Beside(true)),
        Some(i) => desk.want(Action::Teach(i - 2)),
        None => {}
    }
}

/// Colours, sizes and motion.
fn look_menu_ui(ui: &mut Ui, desk: &mut Desk) {
    let view = &desk.scene.session.view;
    let van = if view.van { "On a bench (V)" } else { "In a van: large, for the sun (V)" };
    let still = if view.still { "Full motion" } else { "Reduced motion" };
    let mut commands: Vec<String> = Theme::ALL.map(|theme| format!("{} colours", theme.name())).into();
    commands.extend([van.to_owned(), still.to_owned()]);
    let words: Vec<&str> = commands.iter().map(String::as_str).collect();
    match menu_ui(ui, view.theme.name(), &words, desk.look) {
        Some(3) => desk.want(Action::Van(!view.van)),
        Some(4) => desk.want(Action::Still(!view.still)),
        Some(i) => desk.want(Action::Theme(Theme::ALL.get(i).copied().unwrap_or_default())),
        None => {}
    }
}

/// A recent file by its name and folder.
fn file_name(path: &std::path::Path) -> String {
    let name = path.file_stem().unwrap_or_default().to_string_lossy();
    let folder = path.parent().and_then(|p| p.file_name()).unwrap_or_default().to_string_lossy();
    format!("{name} ({folder})")
}

/// The row of views, with what to start from at its end.
pub fn views_ui(ui: &mut Ui, desk: &mut Desk) {
    let height = ui.available_height();
    let open = desk.scene.session.view.view;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 0.0;
        let shown = tabs_that_fit(ui, desk);
        let (tabs, folded) = View::ALL.split_at(shown);
        for view in tabs {
            if tab_ui(ui, view.name(), *view == open, height, desk.look).clicked() {
                desk.want(Action::View(*view));
            }
        }
        if !folded.is_empty() {
            let names: Vec<&str> = folded.iter().map(|v| v.name()).collect();
            let word = if folded.contains(&open) { open.name() } else { "More views" };
            if let Some(view) = menu_ui(ui, word, &names, desk.look).and_then(|i| folded.get(i)) {
                desk.want(Action::View(*view));
            }
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.add_space(8.0);
            start_from_ui(ui, desk);
        });
    });
}

/// How many tabs leave room for the examples; the others go behind a word.
fn tabs_that_fit(ui: &Ui, desk: &Desk) -> usize {
    let m = &desk.look.measures;
    let width = |text: &str| {
        let galley = ui.painter().layout_no_wrap(text.to_owned(), fonts::bold(m.body), desk.look.palette.ink);
        galley.size().x + 16.0
    };
    let examples = width("Start from an example …") + 24.0;
    let room = ui.available_width() - examples;
    let all: f32 = View::ALL.iter().map(|v| width(v.name())).sum();
    if all <= room {
        return View::ALL.len();
    }
    let mut left = room - width("Meeting point …") - 12.0;
    View::ALL
        .iter()
        .take_while(|view| {
            left -= width(view.name());
            left >= 0.0
        })
        .count()
}

fn start_from_ui(ui: &mut Ui, desk: &mut Desk) {
    let examples = crate::ui::examples::all();
    let titles: Vec<&str> = examples.iter().map(|(title, _)| title.as_str()).collect();
    if let Some(i) = menu_ui(ui, "Start from an example", &titles, desk.look)
        && let Some((_, document)) = examples.get(i)
    {
        desk.want(Action::Start(Box::new(document.clone())));
    }
    if desk.scene.session.is_example() && ui.available_width() > 14.0 * desk.look.measures.body {
        let text = egui::RichText::new("Example. Change anything.");
        ui.label(text.font(fonts::regular(desk.look.measures.small)).color(desk.look.palette.ink2));
    }
}
