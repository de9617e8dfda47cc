//! Read the rating: the card as printed, the machine that would be given it, what is left open.

use egui::{Ui, UiBuilder, vec2};
use narrows::advice::rating::RatingReading;
use narrows::kit::{RatingCard, RatingConditions};

use super::Desk;
use super::edit_field::{Empty, empty_field_ui};
use super::findings::{nothing_ui, small_ui, title_ui};
use crate::ui::actions::Edit;
use crate::ui::diagram::bars::bars_ui;
use crate::ui::present::card::{self, AS_CARD, RatingRow, UNKNOWN};
use crate::ui::style::fonts;
use crate::ui::widgets::choice::choice_ui;
use crate::ui::widgets::plate::plate_ui;
use crate::ui::widgets::word_button::command_ui;

/// The view.
pub fn read_rating_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("read the rating").max_rect(area));
    egui::ScrollArea::vertical().auto_shrink([false, false]).show(&mut child, |ui| {
        match &desk.scene.document().rating_card {
            Some(card) => {
                card_ui(ui, desk, card, &FIRST);
                ui.add_space(8.0);
                other_card_ui(ui, desk, card);
                ui.add_space(8.0);
                reading_ui(ui, desk);
            }
            None => no_card_ui(ui, desk),
        }
    });
}

fn no_card_ui(ui: &mut Ui, desk: &mut Desk) {
    nothing_ui(
        ui,
        desk,
        "No rating card here. A card's printed rates say which machine would be given them, and what they leave \
         open: an average over a falling pressure is not the rate at the start.",
    );
    ui.add_space(6.0);
    if command_ui(ui, "Add a rating card", true, desk.look).clicked() {
        desk.edit(Edit::SwapCard(card::invented().map(Box::new)));
    }
    small_ui(ui, desk.look, "It begins with an invented vapour rate; put your own in.");
}

/// Which of two cards: where it stands, what fields are called by, its title.
struct Which {
    path: &'static str,
    name: &'static str,
    title: &'static str,
}

const FIRST: Which = Which { path: "rating_card", name: "the card", title: "The card as printed" };
const OTHER: Which =
    Which { path: "rating_card.against", name: "the other card", title: "The card it is compared with" };

/// A second card's fields, or the offer to add one.
fn other_card_ui(ui: &mut Ui, desk: &mut Desk, card: &RatingCard) {
    match &card.against {
        Some(other) => card_ui(ui, desk, other, &OTHER),
        None => {
            if command_ui(ui, "Compare with another card", true, desk.look).clicked() {
                let against = card::invented().map(Box::new);
                desk.edit(Edit::SwapCard(Some(Box::new(RatingCard { against, ..card.clone() }))));
            }
        }
    }
}

fn card_ui(ui: &mut Ui, desk: &mut Desk, card: &RatingCard, which: &Which) {
    let Which { path, name: of, title } = which;
    title_ui(ui, desk.look, &format!("{title}: {}", card.name.as_deref().unwrap_or("no name")));
    let name = card.name.as_deref().unwrap_or_default();
    ui.horizontal_wrapped(|ui| {
        small_ui(ui, desk.look, "Name");
        let empty = Empty { hint: "no name", unit: "" };
        empty_field_ui(ui, desk, &format!("Name of {of}"), &format!("{path}.name"), name, empty, 240.0);
        if command_ui(ui, &format!("Remove {of}"), true, desk.look).clicked() {
            desk.edit(removed(desk, which));
        }
    });
    egui::ScrollArea::horizontal().id_salt(path).auto_shrink([false, true]).show(ui, |ui| {
        egui::Grid::new(path).striped(true).min_row_height(desk.look.target()).spacing(vec2(10.0, 2.0)).show(
            ui,
            |ui| {
                for word in
                    ["Rating", "Printed", "Refrigerant", "Test method", "Certified", "Source", "Ambient", ""]
                {
                    let rich = egui::RichText::new(word).font(fonts::bold(desk.look.measures.small));
                    ui.label(rich.color(desk.look.palette.ink2));
                }
                ui.end_row();
                ui.label("The card");
                ui.label("");
                conditions_ui(ui, desk, of, &format!("{path}.conditions"), &card.conditions, UNKNOWN);
                ui.end_row();
                for row in card::rows(card) {
                    rating_ui(ui, desk, &row, which);
                    ui.end_row();
                }
            },
        );
    });
    ui.horizontal_wrapped(|ui| {
        for (label, field, typed, unit) in card::others(card) {
            ui.label(label);
            let empty = Empty { hint: UNKNOWN, unit };
            empty_field_ui(
                ui,
                desk,
                &format!("{label} of {of}"),
                &format!("{path}.{field}"),
                &typed,
                empty,
                96.0,
            );
            ui.add_space(8.0);
        }
    });
}

/// The card without this one: none at all, or without its other one.
fn removed(desk: &Desk, which: &Which) -> Edit {
    let first = desk.scene.document().rating_card.clone().filter(|_| which.path != FIRST.path);
    Edit::SwapCard(first.map(|card| Box::new(RatingCard { against: None, ..card })))
}

fn rating_ui(ui: &mut Ui, desk: &mut Desk, row: &RatingRow, which: &Which) {
    ui.label(row.name);
    let typed = row.rated.map(|rated| rated.rate.as_typed().to_owned()).unwrap_or_default();
    let path = format!("{}.{}", which.path, row.field);
    let unit = crate::ui::present::quantity::rate(desk.scene.units()).name;
    // The first card's fields are called as they stand.
    let of = if which.path == FIRST.path { String::new() } else { format!(" on {}", which.name) };
    let label = format!("{} as printed{of}", row.name);
    let empty = Empty { hint: "not printed", unit };
    ui.vertical(|ui| {
        ui.set_max_width(130.0);
        empty_field_ui(ui, desk, &label, &format!("{path}.rate"), &typed, empty, 100.0);
    });
    let Some(rated) = row.rated else { return };
    let own = rated.conditions.clone().unwrap_or_default();
    conditions_ui(
        ui,
        desk,
        &format!("{}{of}", row.name.to_lowercase()),
        &format!("{path}.conditions"),
        &own,
        AS_CARD,
    );
    if command_ui(ui, &format!("Remove {}{of}", row.name.to_lowercase()), row.may_go, desk.look).clicked() {
        desk.edit(Edit::Set { path, text: "none".to_owned() });
    }
}

/// Conditions in the columns of the card; `unsaid` stands where nothing is said.
fn conditions_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    of: &str,
    path: &str,
    conditions: &RatingConditions,
    unsaid: &str,
) {
    for choice in card::choices(conditions) {
        let mut words = vec![unsaid.to_owned()];
        words.extend(choice.options.iter().map(|(word, _)| word.clone()));
        let now = choice.now.as_deref().unwrap_or(unsaid);
        let label = format!("{} of {of}", choice.label);
        if let Some(i) = choice_ui(ui, &label, now, &words, 116.0, desk.look) {
            let value = i.checked_sub(1).and_then(|i| choice.options.get(i)).map_or("none", |(_, v)| v);
            desk.edit(Edit::Set { path: format!("{path}.{}", choice.field), text: value.to_owned() });
        }
    }
    for (field, label, typed, hint) in card::temperatures(conditions, unsaid) {
        let (_, unit) = crate::ui::present::quantity::temperature(desk.scene.units(), 300.0);
        let empty = Empty { hint, unit };
        let label = format!("{label} of {of}");
        ui.vertical(|ui| {
            ui.set_max_width(110.0);
            empty_field_ui(ui, desk, &label, &format!("{path}.{field}"), &typed, empty, 88.0);
        });
    }
}

fn reading_ui(ui: &mut Ui, desk: &mut Desk) {
    let (_, reading) = match card::read(desk.scene) {
        Ok(both) => both,
        Err(why) => return nothing_ui(ui, desk, &why),
    };
    plates_ui(ui, desk, reading);
    if let Some(words) = card::widenings(reading) {
        small_ui(ui, desk.look, &words);
    }
    ui.add_space(8.0);
    let width = ui.available_width();
    if width > 840.0 {
        ui.horizontal_top(|ui| {
            ui.vertical(|ui| {
                ui.set_width(width * 0.5 - 8.0);
                ratings_ui(ui, desk, reading);
            });
            ui.add_space(8.0);
            ui.vertical(|ui| ceilings_ui(ui, desk, reading));
        });
    } else {
        ratings_ui(ui, desk, reading);
        ceilings_ui(ui, desk, reading);
    }
}

fn plates_ui(ui: &mut Ui, desk: &Desk, reading: &RatingReading) {
    let plates = card::plates(desk.scene, reading);
    let (look, height) = (desk.look, desk.look.measures.plate);
    let wide = ui.available_width() > 240.0 * plates.len() as f32;
    if !wide {
        for plate in &plates {
            plate_ui(ui, plate, height, look);
        }
        return;
    }
    ui.columns(plates.len().max(1), |columns| {
        for (ui, plate) in columns.iter_mut().zip(&plates) {
            plate_ui(ui, plate, height, look);
        }
    });
}

fn ratings_ui(ui: &mut Ui, desk: &Desk, reading: &RatingReading) {
    title_ui(ui, desk.look, "The fitted machine in the same tests, in per cent of what is printed");
    bars_ui(ui, &card::against_model(desk.scene, reading), desk.look);
    if let Some(restated) = &reading.restated {
        ui.add_space(8.0);
        let (heading, rows) = card::restated(desk.scene, restated);
        title_ui(ui, desk.look, &heading);
        egui::Grid::new("restated").striped(true).spacing(vec2(16.0, 3.0)).show(ui, |ui| {
            for (what, rate) in rows {
                ui.label(what);
                ui.label(egui::RichText::new(rate).font(fonts::bold(desk.look.measures.body)));
                ui.end_row();
            }
        });
    }
    ui.add_space(8.0);
    title_ui(ui, desk.look, "To know");
    for note in card::notes(desk.scene, reading) {
        ui.add(egui::Label::new(note).wrap());
        ui.add_space(3.0);
    }
    small_ui(ui, desk.look, narrows::advice::DEFERENCE);
}

fn ceilings_ui(ui: &mut Ui, desk: &Desk, reading: &RatingReading) {
    title_ui(ui, desk.look, "Four ceilings, each rate in per cent of what they allow");
    bars_ui(ui, &card::ceilings(desk.scene, reading), desk.look);
    small_ui(ui, desk.look, "Above 100 % a rate needs evidence; it is not called wrong.");
}
