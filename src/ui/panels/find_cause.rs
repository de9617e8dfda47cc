//! Find the cause: what was read, the likely causes, what to check next.

use egui::{Ui, UiBuilder, vec2};

use super::Desk;
use super::edit_field::{Empty, empty_field_ui};
use super::findings::{finding_ui, nothing_ui, small_ui, title_ui};
use crate::ui::actions::Edit;
use crate::ui::diagram::bars::bars_ui;
use crate::ui::present::cause;
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::Mark;
use crate::ui::widgets::choice::choice_ui;
use crate::ui::widgets::plate::plate_ui;

/// The view.
pub fn find_cause_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("find the cause").max_rect(area));
    egui::ScrollArea::vertical().auto_shrink([false, false]).show(&mut child, |ui| {
        let width = ui.available_width();
        if width > 840.0 {
            ui.horizontal_top(|ui| {
                ui.vertical(|ui| {
                    ui.set_width((width * 0.5).min(34.0 * desk.look.measures.strong));
                    readings_ui(ui, desk);
                });
                ui.add_space(12.0);
                ui.vertical(|ui| answer_ui(ui, desk));
            });
        } else {
            readings_ui(ui, desk);
            ui.add_space(8.0);
            answer_ui(ui, desk);
        }
    });
}

fn readings_ui(ui: &mut Ui, desk: &mut Desk) {
    title_ui(ui, desk.look, "Read on the job, all at one moment");
    small_ui(ui, desk.look, "Leave empty what nobody read.");
    ui.add_space(4.0);
    let readings = desk.scene.document().readings.as_ref();
    let found = cause::found(desk.scene).ok();
    let width = 8.0 * desk.look.measures.body;
    egui::Grid::new("readings")
        .striped(true)
        .min_row_height(desk.look.target())
        .spacing(vec2(10.0, 2.0))
        .show(ui, |ui| {
            for word in ["Reading", "Read", "Nothing wrong", "Likeliest cause"] {
                head_ui(ui, desk.look, word);
            }
            ui.end_row();
            for field in cause::fields(readings, desk.scene.units()) {
                cell_ui(ui, desk.look, &format!("{}, {}", field.label, field.unit));
                let empty = Empty { hint: "not read", unit: field.unit };
                ui.vertical(|ui| {
                    ui.set_max_width(width + 26.0);
                    let label = format!("{} read", field.label);
                    empty_field_ui(ui, desk, &label, field.path, &field.typed, empty, width);
                });
                if let Some((setup, found)) = found {
                    for text in cause::beside(desk.scene, setup, found, field.kind) {
                        cell_ui(ui, desk.look, &text);
                    }
                }
                ui.end_row();
            }
        });
    ui.add_space(4.0);
    choices_ui(ui, desk);
    ui.add_space(8.0);
    tolerances_ui(ui, desk);
}

fn head_ui(ui: &mut Ui, look: &Look, word: &str) {
    let rich = egui::RichText::new(word).font(fonts::bold(look.measures.small));
    ui.label(rich.color(look.palette.ink2));
}

/// Small text on one line, however narrow the column.
fn cell_ui(ui: &mut Ui, look: &Look, text: &str) {
    let rich = egui::RichText::new(text).font(fonts::regular(look.measures.small));
    ui.add(egui::Label::new(rich.color(look.palette.ink2)).extend());
}

fn choices_ui(ui: &mut Ui, desk: &mut Desk) {
    let readings = desk.scene.document().readings.as_ref();
    let kit = cause::kit(desk.scene);
    ui.horizontal_wrapped(|ui| {
        ui.label("Cold or frost begins at");
        let spots = cause::cold_spots(kit);
        let words: Vec<String> = spots.iter().map(|(word, _)| word.clone()).collect();
        let now = cause::cold_now(readings, &spots);
        let chosen = choice_ui(ui, "Cold begins at", &now, &words, 200.0, desk.look);
        if let Some((_, value)) = chosen.and_then(|i| spots.get(i)) {
            desk.edit(Edit::Set { path: "readings.cold_part".to_owned(), text: value.clone() });
        }
    });
    let names: Vec<String> = desk.scene.document().kits.iter().map(|k| k.name.clone()).collect();
    if names.len() > 1 {
        ui.horizontal_wrapped(|ui| {
            ui.label("With kit");
            let now = kit.map_or("", |k| k.name.as_str());
            let chosen = choice_ui(ui, "Kit of the readings", now, &names, 96.0, desk.look);
            if let Some(name) = chosen.and_then(|i| names.get(i)) {
                desk.edit(Edit::Set { path: "readings.kit".to_owned(), text: name.clone() });
            }
        });
    }
}

fn tolerances_ui(ui: &mut Ui, desk: &mut Desk) {
    title_ui(ui, desk.look, "What a reading may be off by");
    small_ui(
        ui,
        desk.look,
        "Two times in three the truth lies within it. The usual is common practice, no source.",
    );
    let readings = desk.scene.document().readings.as_ref();
    let fields = cause::tolerances(readings, desk.scene.units());
    egui::Grid::new("tolerances").spacing(vec2(12.0, 2.0)).show(ui, |ui| {
        for (i, (word, path, typed, usual)) in fields.iter().enumerate() {
            cell_ui(ui, desk.look, word);
            let label = format!("Tolerance of {}", word.to_lowercase());
            let hint = desk.scene.units().sentence(&format!("usual {usual}"));
            let empty = Empty { hint: &hint, unit: usual.split_once(' ').map_or("", |(_, unit)| unit) };
            empty_field_ui(ui, desk, &label, path, typed, empty, 118.0);
            if i % 2 == 1 {
                ui.end_row();
            }
        }
    });
}

fn answer_ui(ui: &mut Ui, desk: &mut Desk) {
    for (mark, word, stop) in cause::stops(desk.scene) {
        finding_ui(ui, desk.look, mark, word, &stop);
    }
    let (readings, found) = match cause::found(desk.scene) {
        Ok(found) => found,
        Err(why) => return nothing_ui(ui, desk, &why),
    };
    let look = desk.look;
    plate_ui(ui, &cause::plate(desk.scene, found), look.measures.plate, look);
    ui.add_space(4.0);
    let (verdict, next) = cause::verdict(desk.scene, readings, found);
    if found.cannot_tell.is_none() {
        let rich = egui::RichText::new(verdict).font(fonts::regular(look.measures.strong));
        ui.add(egui::Label::new(rich).wrap());
    }
    if let Some(next) = next {
        finding_ui(ui, look, Mark::Note, "Next check", &next);
    }
    ui.add_space(8.0);
    title_ui(ui, look, "How likely each cause is");
    bars_ui(ui, &cause::bars(desk.scene, found), look);
    small_ui(ui, look, &cause::groups(found));
    ui.add_space(8.0);
    title_ui(ui, look, "Because");
    for (name, group, because) in cause::because(desk.scene, readings, found) {
        because_ui(ui, look, &name, group, &because);
    }
    ui.add_space(6.0);
    for note in cause::notes(desk.scene, readings, found) {
        small_ui(ui, look, &note);
    }
    small_ui(ui, look, narrows::advice::DEFERENCE);
}

fn because_ui(ui: &mut Ui, look: &Look, name: &str, group: &str, because: &str) {
    let (m, p) = (&look.measures, look.palette);
    let mut text = egui::text::LayoutJob::default();
    let format = |font, color| egui::TextFormat { font_id: font, color, ..Default::default() };
    text.append(name, 0.0, format(fonts::bold(m.body), p.ink));
    text.append(&format!(" ({group}). "), 0.0, format(fonts::regular(m.body), p.ink2));
    text.append(because, 0.0, format(fonts::regular(m.body), p.ink));
    ui.add(egui::Label::new(text).wrap());
    ui.add_space(2.0);
}
