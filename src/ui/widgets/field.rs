//! A field that can be typed in: text with its unit, used only when it is finished.
//!
//! Half typed text changes nothing. Enter or leaving the field offers it; Escape brings back what
//! was. What is refused stays in the field with a cross, and what is expected stands beside it.

use egui::{Id, Key, Rangef, Rect, Response, Stroke, StrokeKind, Ui, UiBuilder, pos2, vec2};

use super::step;
use crate::ui::style::{Look, fonts};

/// What a person is typing and why it was refused, kept in egui's memory while it differs from
/// the document.
#[derive(Clone, Debug, Default, PartialEq)]
struct Draft {
    text: String,
    refused: Option<String>,
}

impl Draft {
    fn of(text: String) -> Self {
        Self { text, refused: None }
    }
}

/// How a field looks.
#[derive(Clone, Copy, Debug)]
pub struct Field<'a> {
    /// Accessible name, also the label if one is shown.
    pub label: &'a str,
    /// The value in the document, as typed.
    pub value: &'a str,
    /// A fault of this value found elsewhere; said beside the field.
    pub fault: Option<&'a str>,
    /// Width of the box.
    pub width: f32,
    /// Whether the label is written before the box.
    pub labelled: bool,
    /// A short word written before the box instead of the label.
    pub word: Option<&'a str>,
    /// Stands in the box while it is empty.
    pub hint: &'a str,
}

impl<'a> Field<'a> {
    /// A field with its label in front.
    pub fn new(label: &'a str, value: &'a str) -> Self {
        Self { label, value, fault: None, width: 96.0, labelled: true, word: None, hint: "" }
    }

    /// Another width.
    pub fn width(mut self, width: f32) -> Self {
        self.width = width;
        self
    }

    /// A fault to say beside the field.
    pub fn fault(mut self, fault: Option<&'a str>) -> Self {
        self.fault = fault;
        self
    }

    /// Only the box; the label is for those who do not see it.
    pub fn bare(mut self) -> Self {
        self.labelled = false;
        self
    }

    /// Says what an empty box means or takes.
    pub fn hint(mut self, hint: &'a str) -> Self {
        self.hint = hint;
        self
    }

    /// Only the box, with a short word before it.
    pub fn word(mut self, word: &'a str) -> Self {
        self.word = Some(word);
        self.bare()
    }

    /// Shows the field. Returns the new text once it is finished and `accept` takes it; what
    /// `accept` refuses is said beside the field.
    pub fn show(
        self,
        ui: &mut Ui,
        id: Id,
        look: &Look,
        accept: impl FnOnce(&str) -> Result<(), String>,
    ) -> Option<String> {
        let mut draft: Option<Draft> = ui.data(|d| d.get_temp(id));
        let mut finished = None;
        ui.horizontal(|ui| {
            let label = self.label_ui(ui, look);
            let dragged = label.as_ref().and_then(|label| step::by_dragging(ui, label, self.value));
            if let Some(text) = dragged {
                draft = Some(Draft::of(text));
            }
            let text = draft.as_ref().map_or(self.value, |d| d.text.as_str());
            if let Some(text) = step::by_keys(ui, id, text) {
                draft = Some(Draft::of(text));
            }
            let response = self.edit_ui(ui, id, &mut draft, look);
            if let Some(label) = label.as_ref().filter(|_| self.labelled) {
                response.clone().labelled_by(label.id);
            }
            let dropped = label.is_some_and(|label| label.drag_stopped());
            finished = finish(ui, &response, dropped, &mut draft, self.value, accept);
        });
        let reason = draft.as_ref().and_then(|d| d.refused.as_deref()).or(self.fault);
        if let Some(reason) = reason {
            let text = egui::RichText::new(reason).font(fonts::regular(look.measures.small));
            ui.add(egui::Label::new(text.color(look.palette.ink)).wrap());
        }
        ui.data_mut(|d| match draft {
            Some(draft) => {
                d.insert_temp(id, draft);
            }
            None => d.remove::<Draft>(id),
        });
        finished
    }

    /// The label can be dragged; Tab passes it, for it shows no focus.
    fn label_ui(&self, ui: &mut Ui, look: &Look) -> Option<Response> {
        if let Some(word) = self.word {
            let font = fonts::regular(look.measures.small);
            let text = egui::RichText::new(word).font(font).color(look.palette.ink2);
            return Some(ui.add(egui::Label::new(text).selectable(false).sense(egui::Sense::DRAG)));
        }
        self.labelled.then(|| label_ui(ui, self.label, look))
    }

    fn edit_ui(&self, ui: &mut Ui, id: Id, draft: &mut Option<Draft>, look: &Look) -> Response {
        let mut text = draft.as_ref().map_or_else(|| self.value.to_owned(), |d| d.text.clone());
        let width = if self.labelled { self.width.min(ui.available_width().max(30.0)) } else { self.width };
        let (rect, _) = ui.allocate_exact_size(vec2(width, look.target()), egui::Sense::hover());
        let refused = self.fault.is_some() || draft.as_ref().is_some_and(|d| d.refused.is_some());
        ui.painter().rect_filled(rect, 0.0, look.palette.field);
        let mut inner = rect.shrink2(vec2(8.0, 0.0));
        if refused {
            inner.max.x -= 18.0;
        }
        let mut child = ui.new_child(UiBuilder::new().max_rect(inner));
        let edit = egui::TextEdit::singleline(&mut text)
            .id(id)
            .frame(egui::Frame::NONE)
            .font(fonts::regular(look.measures.body))
            .text_color(look.palette.ink)
            .hint_text(egui::RichText::new(self.hint).color(look.palette.ink3))
            .margin(egui::Margin::ZERO)
            .align(egui::Align2::LEFT_CENTER)
            .min_size(inner.size())
            .desired_width(inner.width());
        let response = child.add_sized(inner.size(), edit);
        if !self.labelled {
            let (label, value) = (self.label.to_owned(), text.clone());
            response.widget_info(|| {
                let mut info = egui::WidgetInfo::text_edit(true, "", &value, "");
                info.label = Some(label.clone());
                info
            });
        }
        if response.changed() {
            *draft = Some(Draft::of(text));
        }
        let typing = draft.as_ref().is_some_and(|d| d.refused.is_none() && d.text != self.value);
        paint_outline(ui, rect, typing, refused, response.has_focus(), look);
        response
    }
}

/// A label in a column of its own, before a field.
pub fn label_ui(ui: &mut Ui, text: &str, look: &Look) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(104.0, look.target()), egui::Sense::DRAG);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, text));
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    let font = fonts::regular(look.measures.body);
    painter.text(rect.left_center(), egui::Align2::LEFT_CENTER, text, font, look.palette.ink2);
    response
}

/// Enter, leaving or letting go of the label offers the draft, Escape drops it.
fn finish(
    ui: &Ui,
    response: &Response,
    dropped: bool,
    draft: &mut Option<Draft>,
    value: &str,
    accept: impl FnOnce(&str) -> Result<(), String>,
) -> Option<String> {
    let escape = ui.input(|i| i.key_pressed(Key::Escape));
    if response.lost_focus() && escape {
        *draft = None;
        return None;
    }
    if !response.lost_focus() && !dropped {
        return None;
    }
    let pending = draft.take()?;
    let text = pending.text.trim().to_owned();
    if text == value {
        return None;
    }
    match accept(&text) {
        Ok(()) => Some(text),
        Err(expected) => {
            *draft = Some(Draft { text: pending.text, refused: Some(expected) });
            None
        }
    }
}

/// At rest an underline; typing, a dashed box; refused, a box and a cross.
fn paint_outline(ui: &Ui, rect: Rect, typing: bool, refused: bool, focused: bool, look: &Look) {
    let (p, m) = (look.palette, &look.measures);
    let painter = ui.painter();
    if refused {
        painter.rect_stroke(rect, 0.0, Stroke::new(2.0, p.ink), StrokeKind::Inside);
        let center = pos2(rect.right() - 14.0, rect.center().y);
        let arm = 5.0;
        for sign in [-1.0, 1.0] {
            let ends = [center - vec2(arm, sign * arm), center + vec2(arm, sign * arm)];
            painter.line_segment(ends, Stroke::new(2.5, p.ink));
        }
    } else if typing {
        let corners =
            [rect.left_top(), rect.right_top(), rect.right_bottom(), rect.left_bottom(), rect.left_top()];
        let dashes = egui::Shape::dashed_line(&corners, Stroke::new(1.8, p.ink), 5.0, 3.0);
        painter.extend(dashes);
    } else if focused {
        painter.rect_stroke(rect, 0.0, Stroke::new(m.focus_line(), p.ink), StrokeKind::Inside);
    } else {
        let y = rect.bottom() - 1.0;
        painter.hline(Rangef::new(rect.left(), rect.right()), y, Stroke::new(2.0, p.ink));
    }
}

#[cfg(test)]
mod tests {
    use egui_kittest::Harness;
    use egui_kittest::kittest::Queryable as _;

    use super::*;
    use crate::ui::style::Theme;

    /// Takes whole numbers of feet.
    fn accept(text: &str) -> Result<(), String> {
        match text.strip_suffix(" ft").map(str::parse::<u32>) {
            Some(Ok(_)) => Ok(()),
            _ => Err("say a length, as 25 ft".to_owned()),
        }
    }

    struct State {
        value: String,
        commits: usize,
    }

    fn harness() -> Harness<'static, State> {
        let state = State { value: "5 ft".to_owned(), commits: 0 };
        let mut installed = false;
        Harness::new_ui_state(
            move |ui, state: &mut State| {
                if !installed {
                    fonts::install(ui.ctx());
                    installed = true;
                    return;
                }
                let look = Look::new(Theme::Light, 800.0, 600.0);
                let id = Id::unique("length");
                let field = Field::new("Length", &state.value);
                if let Some(text) = field.show(ui, id, &look, accept) {
                    state.value = text;
                    state.commits += 1;
                }
                let _ = ui.button("elsewhere");
            },
            state,
        )
    }

    fn type_over(harness: &mut Harness<'static, State>, text: &str) {
        harness.get_by_label("Length").focus();
        harness.run();
        harness.key_press_modifiers(egui::Modifiers::COMMAND, Key::A);
        harness.run();
        harness.get_by_label("Length").type_text(text);
        harness.run();
    }

    #[test]
    fn half_typed_text_changes_nothing_and_enter_keeps_it() {
        let mut h = harness();
        h.run();
        type_over(&mut h, "25 ft");
        assert_eq!((h.state().value.as_str(), h.state().commits), ("5 ft", 0));
        h.key_press(Key::Enter);
        h.run();
        assert_eq!((h.state().value.as_str(), h.state().commits), ("25 ft", 1));
    }

    #[test]
    fn escape_brings_back_what_was() {
        let mut h = harness();
        h.run();
        type_over(&mut h, "25 ft");
        h.key_press(Key::Escape);
        h.run();
        assert_eq!((h.state().value.as_str(), h.state().commits), ("5 ft", 0));
        assert_eq!(h.get_by_label("Length").value().as_deref(), Some("5 ft"));
    }

    #[test]
    fn what_is_refused_stays_and_says_what_is_expected() {
        let mut h = harness();
        h.run();
        type_over(&mut h, "25 fx");
        h.key_press(Key::Enter);
        h.run();
        assert_eq!((h.state().value.as_str(), h.state().commits), ("5 ft", 0));
        assert_eq!(h.get_by_label("Length").value().as_deref(), Some("25 fx"));
        h.get_by_label("say a length, as 25 ft");
    }

    #[test]
    fn arrows_step_the_last_written_place() {
        let mut h = harness();
        h.run();
        h.get_by_label("Length").focus();
        h.run();
        h.key_press(Key::ArrowUp);
        h.key_press_modifiers(egui::Modifiers::SHIFT, Key::ArrowUp);
        h.run();
        assert_eq!(h.get_by_label("Length").value().as_deref(), Some("16 ft"));
        assert_eq!(h.state().value, "5 ft", "a step is not used before Enter");
        h.key_press(Key::ArrowDown);
        h.run();
        h.key_press(Key::Enter);
        h.run();
        assert_eq!((h.state().value.as_str(), h.state().commits), ("15 ft", 1));
    }

    #[test]
    fn dragging_the_label_steps_and_letting_go_keeps() {
        let mut h = harness();
        h.run();
        // The label stands before the box.
        let from = h.get_by_label("Length").rect().left_center() - vec2(60.0, 0.0);
        h.hover_at(from);
        h.run();
        h.drag_at(from);
        h.run();
        h.hover_at(from + vec2(8.0 + 4.0 * step::PX, 0.0));
        h.run();
        assert_eq!(h.state().value, "5 ft");
        h.drop_at(from + vec2(8.0 + 4.0 * step::PX, 0.0));
        h.run();
        assert!(h.state().commits == 1 && h.state().value != "5 ft", "{}", h.state().value);
    }

    #[test]
    fn leaving_the_field_keeps_the_text() {
        let mut h = harness();
        h.run();
        type_over(&mut h, "30 ft");
        h.key_press(Key::Tab);
        h.run();
        assert_eq!((h.state().value.as_str(), h.state().commits), ("30 ft", 1));
    }
}
