//! A choice among a few words: a field that opens a list.

use egui::{Align2, Rangef, Response, Sense, Stroke, Ui, vec2};

use crate::ui::style::{Look, fonts};

/// Shows the current word; returns the place of another one if it is chosen.
pub fn choice_ui(
    ui: &mut Ui,
    label: &str,
    current: &str,
    options: &[String],
    width: f32,
    look: &Look,
) -> Option<usize> {
    let response = closed_ui(ui, label, current, width, look);
    let mut chosen = None;
    egui::Popup::menu(&response).width(width.max(160.0)).show(|ui| {
        egui::ScrollArea::vertical().max_height(360.0).show(ui, |ui| {
            for (i, option) in options.iter().enumerate() {
                let selected = option == current;
                let button = egui::Button::selectable(selected, option.as_str())
                    .min_size(vec2(width.max(150.0), look.target()));
                if ui.add(button).clicked() {
                    chosen = Some(i);
                    ui.close();
                }
            }
        });
    });
    chosen
}

fn closed_ui(ui: &mut Ui, label: &str, current: &str, width: f32, look: &Look) -> Response {
    let (p, m) = (look.palette, &look.measures);
    let (rect, response) = ui.allocate_exact_size(vec2(width, look.target()), Sense::click());
    response.widget_info(|| {
        let mut info = egui::WidgetInfo::labeled(egui::Role::ComboBox, true, label);
        info.current_text_value = Some(current.to_owned());
        info
    });
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    painter.rect_filled(rect, 0.0, p.field);
    let text = rect.left_center() + vec2(8.0, 0.0);
    painter.text(text, Align2::LEFT_CENTER, current, fonts::regular(m.body), p.ink);
    let tip = rect.right_center() + vec2(-9.0, 2.5);
    let arrow = vec![tip + vec2(-4.0, -5.0), tip + vec2(4.0, -5.0), tip];
    painter.add(egui::Shape::convex_polygon(arrow, p.ink, Stroke::NONE));
    if response.has_focus() || response.hovered() {
        let stroke = Stroke::new(if response.has_focus() { m.focus_line() } else { 1.0 }, p.ink);
        painter.rect_stroke(rect, 0.0, stroke, egui::StrokeKind::Inside);
    }
    painter.hline(Rangef::new(rect.left(), rect.right()), rect.bottom() - 1.0, Stroke::new(2.0, p.ink));
    response
}

/// A word that opens a list of commands; returns the place of the one chosen.
pub fn menu_ui(ui: &mut Ui, word: &str, commands: &[&str], look: &Look) -> Option<usize> {
    let response = super::word_button::command_ui(ui, &format!("{word} …"), true, look);
    let mut chosen = None;
    egui::Popup::menu(&response).show(|ui| {
        egui::ScrollArea::vertical().max_height(420.0).show(ui, |ui| {
            for (i, command) in commands.iter().enumerate() {
                if ui.add(egui::Button::new(*command).min_size(vec2(170.0, look.target()))).clicked() {
                    chosen = Some(i);
                    ui.close();
                }
            }
        });
    });
    chosen
}
