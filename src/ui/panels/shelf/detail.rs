//! One entry of the shelf: its drawing, its figures with low, likely and high, what can be done
//! with it. What is built in is read; what is one's own is typed over.

use egui::{Ui, vec2};
use narrows::presets::{Item, Origin, Thing};

use super::super::Desk;
use super::super::edit_field::{finished, refusal_words};
use crate::ui::actions::{Action, Edit, NewOnShelf, PartList};
use crate::ui::present::figures::{self, Figure, high_path, low_path};
use crate::ui::present::scale::pretty;
use crate::ui::present::shelf::{self, NAME, NOTE, ORIGIN, Refused};
use crate::ui::style::fonts;
use crate::ui::symbols::{Fluid, PaintSymbol as _, Tints};
use crate::ui::view::{Selected, View};
use crate::ui::widgets::choice::choice_ui;
use crate::ui::widgets::field::{Field, label_ui};
use crate::ui::widgets::word_button::command_ui;

/// The entry in hand.
pub fn detail_ui(ui: &mut Ui, desk: &mut Desk, item: &Item<Thing>) {
    head_ui(ui, desk, item);
    drawing_ui(ui, desk, item);
    commands_ui(ui, desk, item);
    figures_ui(ui, desk, item);
}

fn is_own(item: &Item<Thing>) -> bool {
    item.file.is_some()
}

fn head_ui(ui: &mut Ui, desk: &mut Desk, item: &Item<Thing>) {
    let m = &desk.look.measures;
    ui.add(egui::Label::new(egui::RichText::new(&item.name).font(fonts::bold(m.strong))).wrap());
    let whose = match &item.file {
        Some(file) => format!("Your own, in {file}"),
        None => "Built in: copy it to change the copy".to_owned(),
    };
    let kind = item.item.kind().label();
    let text = format!("{kind}, {}. {whose}.", item.origin.label());
    ui.add(egui::Label::new(egui::RichText::new(text).color(desk.look.palette.ink2)).wrap());
    if !is_own(item) {
        if let Some(note) = &item.note {
            ui.add(egui::Label::new(note).wrap());
        }
        return;
    }
    let width = (ui.available_width() - 120.0).clamp(96.0, 300.0);
    own_field_ui(ui, desk, item, Field::new("Name", &item.name).width(width), NAME);
    let note = item.note.clone().unwrap_or_default();
    own_field_ui(ui, desk, item, Field::new("Note", &note).width(width), NOTE);
    let words = Origin::ALL.map(|origin| origin.label().to_owned());
    ui.horizontal(|ui| {
        label_ui(ui, "Origin", desk.look);
        let chosen = choice_ui(ui, "Origin", item.origin.label(), &words, 110.0, desk.look);
        if let Some(word) = chosen.and_then(|at| words.get(at)) {
            change(desk, item, ORIGIN, word);
        }
    });
}

/// The thing cut along its bore, larger than in the list.
fn drawing_ui(ui: &mut Ui, desk: &Desk, item: &Item<Thing>) {
    let side = desk.look.measures.symbol;
    let (rect, _) = ui.allocate_exact_size(vec2(1.8 * side, side), egui::Sense::hover());
    let symbol = shelf::symbol(&item.item);
    let square = egui::Rect::from_center_size(rect.center(), vec2(side, side));
    let place = if symbol.fills_column() { rect } else { square };
    symbol.paint(ui.painter(), place, side, Tints::new(desk.look.palette, Fluid::Vapor, item.retired));
}

fn commands_ui(ui: &mut Ui, desk: &mut Desk, item: &Item<Thing>) {
    let kit = desk.scene.kit().map(|kit| kit.name.clone()).unwrap_or_default();
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 2.0;
        let word = shelf::take_word(item.item.kind(), &kit);
        if command_ui(ui, &word, !item.retired, desk.look).clicked() {
            take(item, desk).into_iter().for_each(|action| desk.want(action));
        }
        let copy = if is_own(item) { "Copy" } else { "Copy to my shelf" };
        if command_ui(ui, copy, true, desk.look).clicked() {
            let new = NewOnShelf {
                name: format!("{}, mine", item.name.trim_end_matches(", mine")),
                origin: item.origin,
                note: item.note.clone(),
                thing: item.item.clone(),
            };
            desk.want(Action::Shelve(Box::new(new)));
        }
        if is_own(item) {
            let word = if item.retired { "Bring back" } else { "Retire" };
            let says = "A retired thing is not offered any more. Documents that have a copy keep it.";
            if command_ui(ui, word, true, desk.look).on_hover_text(says).clicked() {
                let retired = Item { retired: !item.retired, ..item.clone() };
                desk.want(Action::ChangeShelf(Box::new(retired)));
            }
        }
    });
}

/// What takes a thing into the document, and the view that shows it there.
pub fn take(item: &Item<Thing>, desk: &Desk) -> Vec<Action> {
    let (edit, view) = match item.taken() {
        Thing::Part(part) => {
            let count = desk.scene.kit().map_or(0, |kit| kit.parts.len());
            let at = match desk.scene.session.view.selected {
                Some(Selected::Part(at)) => (at + 1).min(count),
                Some(Selected::Source) => 0,
                _ => count,
            };
            let list = PartList::Kit(desk.scene.hand());
            (Edit::Insert { list, at, part: Box::new(part) }, View::LineUp)
        }
        Thing::Machine(machine) => (Edit::SwapMachine(Box::new(machine)), View::Bench),
        Thing::Motor(motor) => (Edit::SwapMotor(Box::new(motor)), View::CordRun),
        Thing::Cylinder(cylinder) => (Edit::SwapCylinder(Box::new(cylinder)), View::Cylinders),
        Thing::Cord(cord) => (Edit::AddCord(Box::new(cord)), View::CordRun),
        Thing::Wiring(branch) => (Edit::SwapBranch(Box::new(branch)), View::CordRun),
    };
    vec![Action::Edit(edit), Action::View(view)]
}

fn figures_ui(ui: &mut Ui, desk: &mut Desk, item: &Item<Thing>) {
    let all = figures::of_thing(&item.item);
    let width = ((ui.available_width() - 104.0 - 3.0 * 8.0) / 3.0).clamp(60.0, 110.0);
    heads_ui(ui, desk, width);
    for figure in &all {
        if is_own(item) {
            own_figure_ui(ui, desk, item, figure, width);
        } else if !figure.value.is_empty() {
            figure_ui(ui, desk, figure, width);
        }
    }
}

fn heads_ui(ui: &mut Ui, desk: &Desk, width: f32) {
    ui.horizontal(|ui| {
        label_ui(ui, "", desk.look);
        for word in ["Low", "Likely", "High"] {
            cell_ui(
                ui,
                word,
                vec2(width, desk.look.target()),
                fonts::bold(desk.look.measures.small),
                desk.look.palette.ink2,
            );
        }
    });
}

fn cell_ui(ui: &mut Ui, text: &str, size: egui::Vec2, font: egui::FontId, color: egui::Color32) {
    let (rect, response) = ui.allocate_exact_size(size, egui::Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, text));
    let galley = crate::ui::diagram::chain::paint::fit(ui.painter(), text, font, color, size.x);
    let at = egui::pos2(rect.left() + 8.0, rect.center().y - galley.size().y / 2.0);
    ui.painter().galley(at, galley, color);
}

/// A figure to read.
fn figure_ui(ui: &mut Ui, desk: &Desk, figure: &Figure, width: f32) {
    let (m, p) = (&desk.look.measures, desk.look.palette);
    ui.horizontal(|ui| {
        label_ui(ui, figure.label, desk.look);
        let (low, high) = figure.band.as_ref().map_or(("", ""), |(low, high)| (low, high));
        let value = pretty(&figure.value).replace('_', "-");
        for (text, color) in [(pretty(low), p.ink2), (value, p.ink), (pretty(high), p.ink2)] {
            cell_ui(ui, &text, vec2(width, desk.look.target()), fonts::regular(m.body), color);
        }
    });
}

/// A figure to type over, and the ends of its band.
fn own_figure_ui(ui: &mut Ui, desk: &mut Desk, item: &Item<Thing>, figure: &Figure, width: f32) {
    ui.horizontal_wrapped(|ui| {
        label_ui(ui, figure.label, desk.look);
        let (low, high) = figure.band.clone().unwrap_or_default();
        let end_ui = |ui: &mut Ui, desk: &mut Desk, word: &str, value: &str, path: &str| {
            let (label, value) = (format!("{} on the shelf, {word}", figure.label), pretty(value));
            own_field_ui(ui, desk, item, Field::new(&label, &value).width(width).hint(word).bare(), path);
        };
        if figure.bandable {
            end_ui(ui, desk, "low", &low, &low_path(figure.path));
        } else {
            ui.allocate_exact_size(vec2(width, desk.look.target()), egui::Sense::hover());
        }
        if figure.words.is_empty() {
            let (label, value) = (format!("{} on the shelf", figure.label), pretty(&figure.value));
            own_field_ui(ui, desk, item, Field::new(&label, &value).width(width).bare(), figure.path);
        } else {
            own_words_ui(ui, desk, item, figure, width);
        }
        if figure.bandable {
            end_ui(ui, desk, "high", &high, &high_path(figure.path));
        }
    });
}

fn own_words_ui(ui: &mut Ui, desk: &mut Desk, item: &Item<Thing>, figure: &Figure, width: f32) {
    let words: Vec<String> = figure.words.iter().map(|word| word.replace('_', "-")).collect();
    let current = figure.value.replace('_', "-");
    let label = format!("{} on the shelf", figure.label);
    let chosen = choice_ui(ui, &label, &current, &words, width.max(96.0), desk.look);
    if let Some(word) = chosen.and_then(|at| figure.words.get(at)) {
        change(desk, item, figure.path, word);
    }
}

fn own_field_ui(ui: &mut Ui, desk: &mut Desk, item: &Item<Thing>, field: Field, path: &str) {
    let old = if field.value.is_empty() { unit_beside(item, path) } else { field.value.to_owned() };
    let try_set = |text: &str| {
        shelf::changed(item, path, text).map(drop).map_err(|refused| match refused {
            Refused::Set(error) => refusal_words(error),
            Refused::Words(words) => words,
        })
    };
    let id = egui::Id::unique(("shelf field", &item.id, path));
    if let Some(text) = field.show(ui, id, desk.look, |text| finished(&old, text, try_set).map(drop))
        && let Ok(text) = finished(&old, &text, try_set)
    {
        change(desk, item, path, &text);
    }
}

/// An end of a band that is not there yet takes the likely value's unit.
fn unit_beside(item: &Item<Thing>, path: &str) -> String {
    let likely = path.split("_band.").next().unwrap_or_default();
    let all = figures::of_thing(&item.item);
    all.into_iter().find(|figure| figure.path == likely).map(|figure| figure.value).unwrap_or_default()
}

fn change(desk: &mut Desk, item: &Item<Thing>, path: &str, text: &str) {
    if let Ok(changed) = shelf::changed(item, path, text) {
        desk.want(Action::ChangeShelf(Box::new(changed)));
    }
}
