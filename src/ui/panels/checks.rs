//! Checks: known answers from outside the project, and what comes out here, a topic at a time.

use egui::{Ui, UiBuilder, vec2};
use narrows::report::published::Case;

use super::Desk;
use super::findings::{nothing_ui, small_ui, title_ui};
use crate::ui::actions::Action;
use crate::ui::present::checks::{Source, Topic, checks};
use crate::ui::style::{Look, fonts};
use crate::ui::widgets::word_button::tab_ui;

/// The view.
pub fn checks_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("checks").max_rect(area));
    let checks = match checks(desk.scene) {
        Ok(checks) => checks,
        Err(why) => return nothing_ui(&mut child, desk, &why),
    };
    title_ui(
        &mut child,
        desk.look,
        "Known answers from outside, and what Narrows makes of the same questions",
    );
    small_ui(&mut child, desk.look, &format!("{}.", checks.totals));
    let chosen = desk.scene.session.view.check_topic.min(checks.topics.len().saturating_sub(1));
    topics_ui(&mut child, desk, &checks.topics, chosen);
    egui::ScrollArea::both().auto_shrink([false, false]).show(&mut child, |ui| {
        for source in checks.topics.get(chosen).iter().flat_map(|topic| &topic.sources) {
            source_ui(ui, desk.look, source);
        }
    });
}

fn topics_ui(ui: &mut Ui, desk: &mut Desk, topics: &[Topic], chosen: usize) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(0.0, 0.0);
        for (at, topic) in topics.iter().enumerate() {
            if tab_ui(ui, &topic.label(), at == chosen, desk.look.target(), desk.look).clicked() {
                desk.want(Action::CheckTopic(at));
            }
        }
    });
}

fn source_ui(ui: &mut Ui, look: &Look, source: &Source) {
    let m = &look.measures;
    ui.add_space(8.0);
    ui.add(egui::Label::new(egui::RichText::new(&source.heading).font(fonts::bold(m.body))).wrap());
    egui::Grid::new(&source.heading).striped(true).spacing(vec2(16.0, 3.0)).show(ui, |ui| {
        for word in ["", "Question", "Expected", "Got", "May differ by"] {
            let font = fonts::bold(m.small);
            ui.label(egui::RichText::new(word).font(font).color(look.palette.ink2));
        }
        ui.end_row();
        for case in &source.cases {
            case_ui(ui, look, case);
            ui.end_row();
        }
    });
}

fn case_ui(ui: &mut Ui, look: &Look, case: &Case) {
    let m = &look.measures;
    let (word, font) = match case.holds() {
        true => ("holds", fonts::regular(m.body)),
        false => ("FAILS", fonts::bold(m.body)),
    };
    ui.label(egui::RichText::new(word).font(font));
    ui.label(look.sentence(&case.what));
    for text in [case.expected_text(), case.got_text()] {
        ui.label(look.sentence(&format!("{text} {}", case.unit)));
    }
    ui.label(look.sentence(&case.within_text()));
}
