//! The projector view: one picture, two numbers, one question, large enough for the last row.
//!
//! While the question stands, nothing that is asked is computed into anything that is drawn or
//! named here, and the ordinary window beside it holds no answer at all (`Scene::new`): nothing
//! can leak by pointer, screen reader or another view.

mod ask;
mod beside;
mod picture;

use egui::{Align, Align2, Frame, Key, Layout, Margin, Rect, Ui, UiBuilder, pos2, vec2};
use narrows::presets::Number;

pub use beside::{beside_ui, presenter_ui};

use super::Desk;
use crate::ui::actions::Action;
use crate::ui::present::{Scene, lesson, plates};
use crate::ui::projector::{Phase, Projector, Step};
use crate::ui::style::{Look, Measures, fonts};
use crate::ui::widgets::plate::{About, Plate, plate_ui};
use crate::ui::widgets::word_button::command_ui;

/// Steps for a hand each.
const HANDS: [Key; 9] =
    [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8, Key::Num9];

/// What the presenter's keys want.
pub fn keys(ui: &Ui) -> Vec<Action> {
    let keys = [
        (Key::Space, Action::Lesson(Step::Next)),
        (Key::PageDown, Action::Lesson(Step::Next)),
        (Key::Backspace, Action::Lesson(Step::Back)),
        (Key::PageUp, Action::Lesson(Step::Back)),
        (Key::B, Action::Lesson(Step::Blank)),
        (Key::R, Action::Lesson(Step::Reset)),
        (Key::G, Action::Absolute(false)),
        (Key::A, Action::Absolute(true)),
        (Key::Escape, Action::Projector(false)),
    ];
    let votes = HANDS.into_iter().enumerate().map(|(i, key)| (key, Action::Lesson(Step::Vote(i))));
    let mut wanted = Vec::new();
    ui.input_mut(|input| {
        for (key, action) in keys.into_iter().chain(votes) {
            // A quick hand presses twice within a frame; both count.
            let times = input.count_and_consume_key(egui::Modifiers::NONE, key);
            wanted.extend(std::iter::repeat_n(action, times));
        }
    });
    wanted
}

/// What a drawing of the class gets.
struct Class<'a> {
    scene: &'a Scene<'a>,
    projector: &'a Projector,
    look: &'a Look,
}

/// The view; it fills what it is given.
pub fn projector_ui(ui: &mut Ui, desk: &mut Desk) {
    let session = desk.scene.session;
    let Some(projector) = &session.view.projector else { return };
    let look = large(desk.look, ui.max_rect());
    if projector.blank {
        egui::CentralPanel::default().frame(Frame::new().fill(egui::Color32::BLACK)).show(ui, |_| {});
        return;
    }
    let scene = Scene::of_class(session);
    let class = Class { scene: &scene, projector, look: &look };
    let margin = (look.measures.small * 0.8).min(100.0) as i8;
    let frame = Frame::new().fill(look.palette.sheet).inner_margin(Margin::same(margin));
    egui::CentralPanel::default().frame(frame).show(ui, |ui| {
        let area = ui.max_rect();
        let head = head_ui(ui, area, &class);
        let foot = look.measures.body * 1.7;
        let side = (area.width() * 0.2).max(1.0);
        let body = Rect::from_min_max(area.min + vec2(0.0, head), area.max - vec2(0.0, foot));
        let (picture, numbers) = body.split_left_right_at_x(body.right() - side);
        picture::picture_ui(ui, desk, &class, picture);
        numbers_ui(ui, &class, numbers);
        let foot = Rect::from_min_max(pos2(area.left(), body.bottom()), area.max);
        foot_ui(ui, desk, &class, foot);
    });
}

/// Measures for the last row: of the height, numerals 12 %, losses 5 %, labels 3.3 %.
fn large(look: &Look, window: Rect) -> Look {
    let h = window.height().min(window.width() * 0.6).max(60.0);
    let line = h / 1080.0 * 1.8;
    let measures = Measures {
        small: h * 0.0315,
        body: h * 0.033,
        strong: h * 0.05,
        title: h * 0.058,
        numeral: h * 0.12,
        header: 0.0,
        views: 0.0,
        strip: 0.0,
        chain: h * 0.23,
        least_stairs: 0.0,
        power: 0.0,
        clock: 0.0,
        strips: false,
        target: look.measures.target,
        plate: h * 0.3,
        left_margin: h * 0.075,
        right_margin: h * 0.075,
        symbol: h * 0.14,
        line,
    };
    Look { measures, ..*look }
}

/// The question, and how far the lesson is; returns its height.
fn head_ui(ui: &Ui, area: Rect, class: &Class) -> f32 {
    let (m, p) = (&class.look.measures, class.look.palette);
    let question = &class.projector.lesson.question;
    let phase = class.projector.phase.word();
    let painter = ui.painter();
    let word = painter.text(area.right_top(), Align2::RIGHT_TOP, phase, fonts::bold(m.small), p.ink2);
    let room = (word.left() - area.left() - m.small).max(1.0);
    let galley = painter.layout(question.clone(), fonts::bold(m.title), p.ink, room);
    let rect = Rect::from_min_size(area.min, galley.size());
    let height = galley.size().y;
    painter.galley(area.min, galley, p.ink);
    let response = ui.interact(rect, ui.scope_id().with("question"), egui::Sense::hover());
    let words = format!("{phase}: {question}");
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &words));
    height + m.small * 0.3
}

/// The numbers that stand: while it is asked, only what is given.
fn numbers_ui(ui: &mut Ui, class: &Class, area: Rect) {
    let m = &class.look.measures;
    let area = area.shrink2(vec2(m.small * 0.5, 0.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("numbers").max_rect(area));
    child.spacing_mut().item_spacing.y = m.small;
    // The unit stands back, so that the numeral has the room.
    let look = Look { measures: Measures { strong: m.small, ..*m }, ..*class.look };
    let lesson = &class.projector.lesson;
    let covered = class.projector.is_covered(class.scene.session.pieces());
    for &number in lesson.numbers.iter().take(2) {
        let about = match number {
            Number::Rate => About::Rate,
            Number::Inlet => About::Inlet,
            Number::VoltsRunning => About::Running,
            Number::VoltsStarting => About::Starting,
        };
        let plate = if !covered {
            plates::one(class.scene, about, false)
        } else if lesson.given.contains(&number) {
            plates::one(class.scene, about, true).map(|plate| Plate { was: String::new(), ..plate })
        } else {
            None
        };
        let title = lesson::number_name(number).to_owned();
        let plate = plate.unwrap_or(Plate { numeral: "?".to_owned(), ..Plate::default() });
        let bare = Plate { title, aside: String::new(), about: About::Nothing, mark: None, ..plate };
        plate_ui(&mut child, &bare, look.measures.plate, &look);
    }
}

/// How the class has voted, and the commands.
fn foot_ui(ui: &mut Ui, desk: &mut Desk, class: &Class, area: Rect) {
    if class.projector.phase != Phase::Ask {
        let votes = class.projector.votes.iter().enumerate().filter(|(_, votes)| **votes > 0);
        let said: Vec<String> = votes.map(|(i, votes)| format!("{}: {votes}", i + 1)).collect();
        if !said.is_empty() {
            let (m, p) = (&class.look.measures, class.look.palette);
            let text = format!("Hands  {}", said.join("   "));
            ui.painter().text(area.left_center(), Align2::LEFT_CENTER, text, fonts::regular(m.small), p.ink2);
        }
    }
    let mut child = ui.new_child(UiBuilder::new().id_salt("foot").max_rect(area));
    child.with_layout(Layout::right_to_left(Align::Center), |ui| {
        for (word, action) in [
            ("Leave", Action::Projector(false)),
            ("Next", Action::Lesson(Step::Next)),
            ("Back", Action::Lesson(Step::Back)),
        ] {
            if command_ui(ui, word, true, desk.look).clicked() {
                desk.want(action);
            }
        }
    });
}
