//! The line that says how far the long draws are, and ends them.

use egui::Ui;

use super::Desk;
use super::findings::small_ui;
use crate::ui::actions::Action;
use crate::ui::widgets::word_button::command_ui;

/// Says what is drawn, how far it is, and offers to end it; nothing if all is there.
pub fn progress_ui(ui: &mut Ui, desk: &mut Desk) {
    let session = desk.scene.session;
    let Some(progress) = session.progress() else { return };
    let drawing = session.study().and_then(|study| study.drawing).filter(|_| !session.is_study_stale());
    ui.horizontal(|ui| match (drawing, progress.now()) {
        _ if progress.is_cancelled() => {
            small_ui(ui, desk.look, "The long draws were ended.");
            if command_ui(ui, "Draw again", true, desk.look).clicked() {
                desk.want(Action::CancelDraws(false));
            }
        }
        (Some(wish), Some((made, of))) => {
            small_ui(ui, desk.look, &format!("{}: {made} of {of} draws", wish.name()));
            if command_ui(ui, "Cancel", true, desk.look).clicked() {
                desk.want(Action::CancelDraws(true));
            }
        }
        _ => {}
    });
}
