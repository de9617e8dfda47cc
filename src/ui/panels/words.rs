//! Words: what words of the trade mean here, to be looked through.

use egui::{Ui, UiBuilder, vec2};
use narrows::presets::{Word, built_in_words};

use super::Desk;
use super::findings::{nothing_ui, small_ui};
use crate::ui::actions::Action;
use crate::ui::style::{Look, fonts};
use crate::ui::widgets::find::find_field_ui;

/// Widest line that is good to read, in letters.
const LINE: f32 = 48.0;

/// The view.
pub fn words_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("words").max_rect(area));
    let words = match built_in_words() {
        Ok(words) => words,
        Err(error) => return nothing_ui(&mut child, desk, &error.to_string()),
    };
    let asked = desk.scene.session.view.word.clone();
    if let Some(text) = find_field_ui(&mut child, "Find a word", "Find a word", &asked, desk.look) {
        desk.want(Action::FindWord(text));
    }
    let found: Vec<&Word> = words.iter().filter(|word| word.has(&asked)).collect();
    if found.is_empty() {
        return nothing_ui(&mut child, desk, "No word here has that in it.");
    }
    child.add_space(6.0);
    egui::ScrollArea::vertical().auto_shrink([false, false]).show(&mut child, |ui| {
        // What a word means stands close under it.
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.spacing_mut().interact_size.y = desk.look.measures.strong;
        for word in found {
            word_ui(ui, word, desk.look);
        }
    });
}

fn word_ui(ui: &mut Ui, word: &Word, look: &Look) {
    let m = &look.measures;
    ui.set_max_width(ui.available_width().min(LINE * m.strong));
    ui.horizontal_wrapped(|ui| {
        ui.label(egui::RichText::new(&word.term).font(fonts::bold(m.strong)));
        if !word.also.is_empty() {
            small_ui(ui, look, &word.also.join(", "));
        }
    });
    ui.add(egui::Label::new(egui::RichText::new(&word.says).font(fonts::regular(m.body))).wrap());
    ui.add_space(14.0);
}
