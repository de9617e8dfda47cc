//! To come.
use super::Desk;
pub fn site_log_ui(ui: &mut egui::Ui, desk: &mut Desk) {
    super::findings::nothing_ui(ui, desk, "Not there yet.");
}
