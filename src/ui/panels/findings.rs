//! Small pieces that several views share: a title, a finding, the reason why there is nothing.

use egui::{Sense, Ui, vec2};

use super::Desk;
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::{Mark, paint_mark};

/// A title over a part of a view.
pub fn title_ui(ui: &mut Ui, look: &Look, text: &str) {
    ui.label(egui::RichText::new(text).font(fonts::bold(look.measures.strong)));
}

/// A small line.
pub fn small_ui(ui: &mut Ui, look: &Look, text: &str) {
    let rich = egui::RichText::new(look.sentence(text)).font(fonts::regular(look.measures.small));
    ui.add(egui::Label::new(rich.color(look.palette.ink2)).wrap());
}

/// A mark, its word and a sentence.
pub fn finding_ui(ui: &mut Ui, look: &Look, mark: Mark, word: &str, sentence: &str) {
    let m = &look.measures;
    ui.horizontal_top(|ui| {
        let side = m.strong * 1.3;
        let (rect, _) = ui.allocate_exact_size(vec2(side, side), Sense::hover());
        paint_mark(mark, ui.painter(), rect, look.palette);
        led_ui(ui, look, &format!("{word}."), sentence);
    });
}

/// A word or two that lead, and what they lead to.
pub fn led_ui(ui: &mut Ui, look: &Look, lead: &str, sentence: &str) {
    let m = &look.measures;
    let mut text = egui::text::LayoutJob::default();
    let format = |font| egui::TextFormat { font_id: font, color: look.palette.ink, ..Default::default() };
    text.append(&format!("{lead} "), 0.0, format(fonts::bold(m.body)));
    text.append(&look.sentence(sentence), 0.0, format(fonts::regular(m.body)));
    ui.add(egui::Label::new(text).wrap());
}

/// In place of a picture: why there is none.
pub fn nothing_ui(ui: &mut Ui, desk: &Desk, why: &str) {
    ui.add_space(12.0);
    let rich = egui::RichText::new(why).font(fonts::regular(desk.look.measures.strong));
    ui.add(egui::Label::new(rich).wrap());
}
