//! A row of words in a box that ends where its last word ends.

use egui::{Rect, Shape, Stroke, StrokeKind, Ui, UiBuilder, epaint::RectShape, pos2, vec2};

use crate::ui::style::Look;

/// Shows the row within this place; how wide it becomes is known only when it is laid out, so its
/// ground is put behind it afterwards, and its frame over it, whole also where a field touches it.
pub fn boxed_row_ui(ui: &mut Ui, id: &str, place: Rect, look: &Look, words: impl FnOnce(&mut Ui)) {
    let behind = ui.painter().add(Shape::Noop);
    let inner = place.shrink2(vec2(PAD, 0.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt(id).max_rect(inner));
    let right = child.horizontal_centered(|ui| {
        words(ui);
        ui.min_rect().right()
    });
    let rect = Rect::from_min_max(place.min, pos2(right.inner, place.bottom()));
    let stroke = Stroke::new(1.5, look.palette.ink);
    ui.painter().set(behind, RectShape::filled(rect, 0.0, look.palette.field));
    ui.painter().rect_stroke(rect, 0.0, stroke, StrokeKind::Inside);
}

const PAD: f32 = 4.0;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ui::style::{Look, Theme};
    use crate::ui::widgets::word_button::command_ui;

    #[test]
    fn the_box_ends_where_the_last_word_ends() {
        let look = Look::new(Theme::Light, 1366.0, 768.0);
        let place = Rect::from_min_size(pos2(20.0, 20.0), vec2(700.0, look.target()));
        let mut last = Rect::NOTHING;
        let ctx = egui::Context::default();
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            boxed_row_ui(ui, "row", place, &look, |ui| {
                command_ui(ui, "Take out", true, &look);
                last = command_ui(ui, "Later", true, &look).rect;
            });
        });
        // Nothing is painted, so the typeface's picture goes nowhere.
        output.textures_delta.clear();
        let boxes = output.shapes.iter().filter_map(|s| match &s.shape {
            Shape::Rect(shape) if shape.stroke.width == 1.5 => Some(shape.rect),
            _ => None,
        });
        let rects: Vec<Rect> = boxes.collect();
        assert_eq!(rects.len(), 1);
        assert_eq!((rects[0].left(), rects[0].right()), (20.0, last.right()));
        assert!(last.right() < 300.0, "{last:?}");
    }
}
