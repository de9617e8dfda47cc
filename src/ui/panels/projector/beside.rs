//! The class in a window of its own, for a projector as a second screen, and the presenter's bar
//! in the ordinary window.

use egui::{Align, Layout, Ui, ViewportBuilder, ViewportCommand, ViewportId};

use super::super::Desk;
use crate::ui::actions::Action;
use crate::ui::present::lesson;
use crate::ui::projector::{Phase, Step};
use crate::ui::style::fonts;
use crate::ui::widgets::word_button::command_ui;

/// The second window. It is drawn with the ordinary one, from the same session, so it shows an
/// edit in the same frame.
pub fn beside_ui(ui: &mut Ui, desk: &mut Desk) {
    let builder = ViewportBuilder::default()
        .with_title("Narrows, for the class")
        .with_app_id("narrows")
        .with_inner_size([1280.0, 720.0])
        .with_min_inner_size([320.0, 180.0]);
    let id = ViewportId::from_hash_of("class");
    let wanted = ui.ctx().show_viewport_immediate(id, builder, |ui, _| {
        super::projector_ui(ui, desk);
        let mut wanted = super::keys(ui);
        let (close, full, turn) = ui.input_mut(|i| {
            let turn = i.count_and_consume_key(egui::Modifiers::NONE, egui::Key::F) % 2 == 1;
            (i.viewport().close_requested(), i.viewport().fullscreen, turn)
        });
        if turn {
            let full = full.unwrap_or_default();
            ui.ctx().send_viewport_cmd(ViewportCommand::Fullscreen(!full));
        }
        if close {
            wanted.push(Action::Projector(false));
        }
        wanted
    });
    wanted.into_iter().for_each(|action| desk.want(action));
}

/// What the presenter needs while the class looks elsewhere: where the lesson is, what comes next.
pub fn presenter_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(projector) = &desk.scene.session.view.projector else { return };
    let m = desk.look.measures;
    ui.horizontal_wrapped(|ui| {
        let phase = match projector.phase {
            Phase::Ask => "Ask".to_owned(),
            Phase::Show(shown) => format!("Show {shown} of {}", desk.scene.session.pieces()),
            Phase::Why(said) => format!("Why {said} of {}", projector.lesson.why.len()),
        };
        ui.label(egui::RichText::new(format!("Class: {phase}")).font(fonts::bold(m.body)));
        let says = match projector.why() {
            Some(why) => lesson::filled(desk.scene, &why.says),
            None => projector.lesson.question.clone(),
        };
        let rich = egui::RichText::new(says).font(fonts::regular(m.small));
        ui.add(egui::Label::new(rich.color(desk.look.palette.ink2)).wrap());
    });
    ui.horizontal(|ui| {
        let blank = if projector.blank { "Picture (B)" } else { "Blank (B)" };
        for (word, step) in [
            ("Next (Space)", Step::Next),
            ("Back (Backspace)", Step::Back),
            (blank, Step::Blank),
            ("Reset (R)", Step::Reset),
        ] {
            if command_ui(ui, word, true, desk.look).clicked() {
                desk.want(Action::Lesson(step));
            }
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if command_ui(ui, "End the class", true, desk.look).clicked() {
                desk.want(Action::Projector(false));
            }
            if command_ui(ui, "Into this window", true, desk.look).clicked() {
                desk.want(Action::Beside(false));
            }
            let text = if desk.scene.session.is_covered() {
                "Answers are covered here too. F in the class's window: full screen."
            } else {
                "Edit here; the class sees it at once. F in its window: full screen."
            };
            let rich = egui::RichText::new(text).font(fonts::regular(m.small));
            ui.add(egui::Label::new(rich.color(desk.look.palette.ink2)).truncate());
        });
    });
}
