//! A field whose every letter is looked for at once.

use egui::{Align2, RichText, TextEdit, Ui, WidgetInfo, vec2};

use crate::ui::style::Look;

/// The text to look for, if it was changed. The hint stands in the box while it is empty.
pub fn find_field_ui(ui: &mut Ui, label: &str, hint: &str, text: &str, look: &Look) -> Option<String> {
    let mut typed = text.to_owned();
    let width = 150.0 * look.measures.body / 13.0;
    let edit = TextEdit::singleline(&mut typed)
        .hint_text(RichText::new(hint).color(look.palette.ink3))
        .desired_width(width)
        .min_size(vec2(width, look.target()))
        .align(Align2::LEFT_CENTER);
    let response = ui.add(edit);
    response.widget_info(|| {
        let mut info = WidgetInfo::text_edit(true, "", &typed, "");
        info.label = Some(label.to_owned());
        info
    });
    response.changed().then_some(typed)
}
