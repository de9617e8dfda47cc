//! The projector view: one picture, two numbers, one question, large enough for the last row.
//!
//! While the question stands, no loss is computed into anything that is drawn or named: nothing
//! can leak by pointer or screen reader.

use egui::{Align, Align2, Frame, Key, Layout, Margin, Rect, Stroke, StrokeKind, Ui, UiBuilder, pos2, vec2};
use narrows::job::PartPoint;
use narrows::kit::Part;

use super::Desk;
use crate::ui::actions::Action;
use crate::ui::diagram::chain::{Chain, chain_ui, second_height};
use crate::ui::diagram::columns::Columns;
use crate::ui::diagram::stairs::{Stair, Stairs, stairs_ui};
use crate::ui::present::scale::sentence;
use crate::ui::present::{Scene, Slot, chain, parts, plates, stairs};
use crate::ui::projector::{Phase, Projector, Step};
use crate::ui::style::{Look, Measures, fonts};
use crate::ui::widgets::plate::{About, Plate, plate_ui};
use crate::ui::widgets::word_button::command_ui;

const QUESTION: &str = "Which part costs the most?";

/// What the presenter's keys want.
pub fn keys(ui: &Ui) -> Vec<Action> {
    let votes =
        [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8, Key::Num9];
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
    let votes = votes.into_iter().enumerate().map(|(i, key)| (key, Action::Lesson(Step::Vote(i))));
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

/// The view; it fills the window.
pub fn projector_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(projector) = &desk.scene.session.view.projector else { return };
    let look = large(desk.look, ui.ctx().content_rect());
    if projector.blank {
        egui::CentralPanel::default().frame(Frame::new().fill(egui::Color32::BLACK)).show(ui, |_| {});
        return;
    }
    let margin = (look.measures.small * 0.8).min(100.0) as i8;
    let frame = Frame::new().fill(look.palette.sheet).inner_margin(Margin::same(margin));
    egui::CentralPanel::default().frame(frame).show(ui, |ui| {
        let area = ui.max_rect();
        let head = look.measures.title * 1.5;
        let foot = look.measures.body * 1.7;
        let side = (area.width() * 0.2).max(1.0);
        let body = Rect::from_min_max(area.min + vec2(0.0, head), area.max - vec2(0.0, foot));
        head_ui(ui, area, projector.phase, &look);
        let (picture, numbers) = body.split_left_right_at_x(body.right() - side);
        picture_ui(ui, desk, projector, picture, &look);
        numbers_ui(ui, desk, numbers, &look);
        foot_ui(ui, desk, Rect::from_min_max(pos2(area.left(), body.bottom()), area.max), &look);
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
        title: h * 0.06,
        numeral: h * 0.12,
        header: 0.0,
        views: 0.0,
        strip: 0.0,
        chain: h * 0.23,
        power: 0.0,
        plate: h * 0.3,
        left_margin: h * 0.075,
        right_margin: h * 0.075,
        symbol: h * 0.14,
        line,
    };
    Look { measures, ..*look }
}

fn head_ui(ui: &Ui, area: Rect, phase: Phase, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let painter = ui.painter();
    painter.text(area.min, Align2::LEFT_TOP, QUESTION, fonts::bold(m.title), p.ink);
    painter.text(area.right_top(), Align2::RIGHT_TOP, phase.word(), fonts::bold(m.small), p.ink2);
    let response = ui.interact(
        Rect::from_min_size(area.min, vec2(1.0, 1.0)),
        ui.scope_id().with("question"),
        egui::Sense::hover(),
    );
    let words = format!("{}: {QUESTION}", phase.word());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &words));
}

fn picture_ui(ui: &mut Ui, desk: &mut Desk, projector: &Projector, area: Rect, look: &Look) {
    let scene = Scene::alone(desk.scene.session);
    let machine = scene.machine_slot();
    let columns = Columns::fit(area.x_range(), machine + 1, &look.measures);
    let model = chain_model(&scene, machine, projector.phase);
    let height = (look.measures.chain + second_height(&model, look)).min(area.height());
    let (above, below) = area.split_top_bottom_at_y(area.top() + height);
    let mut child = ui.new_child(UiBuilder::new().id_salt("class").max_rect(area));
    chain_ui(&mut child, above, &columns, &model, look);
    match projector.phase {
        Phase::Ask => votes_ui(&mut child, &scene, projector, below, &columns, look),
        Phase::Show(shown) => {
            let model = stairs_model(&scene, machine, shown);
            stairs_ui(&mut child, below, &columns, &model, false, look);
        }
        Phase::Why => {
            let why = below.height() * 0.2;
            let (stairs, words) = below.split_top_bottom_at_y(below.bottom() - why);
            let model = stairs_model(&scene, machine, usize::MAX);
            stairs_ui(&mut child, stairs, &columns, &model, false, look);
            why_ui(&mut child, &scene, words, look);
        }
    }
}

/// The chain up to the machine. Asking, its parts are covered and only named.
fn chain_model(scene: &Scene, machine: usize, phase: Phase) -> Chain {
    let mut model = chain::chain(scene);
    model.links.truncate(machine + 1);
    model.selected = None;
    for (i, link) in model.links.iter_mut().enumerate() {
        link.detail.clear();
        link.name = short(&link.name);
        if phase == Phase::Ask && i > 0 && i < machine {
            link.covered = true;
            link.words.clone_from(&link.name);
        }
    }
    if let Some(row) = &mut model.second {
        row.selected = None;
        for link in row.links.iter_mut().flatten() {
            link.detail.clear();
            link.name = short(&link.name);
            if phase == Phase::Ask {
                link.covered = true;
                link.words = format!("second port, {}", link.name);
            }
        }
    }
    model
}

/// A long name by its last word: "End" for a self-sealing end.
fn short(name: &str) -> String {
    match name.rsplit_once(' ') {
        Some((_, last)) if name.chars().count() > 12 => sentence(last),
        _ => name.to_owned(),
    }
}

/// The stairs with the losses of the first parts; the axis has room for all from the start.
fn stairs_model(scene: &Scene, machine: usize, shown: usize) -> Stairs {
    let mut model = stairs::stairs(scene);
    model.runs.truncate(1);
    (model.ghost, model.references) = (None, Vec::new());
    (model.lift_text, model.end_text, model.note) = (String::new(), String::new(), String::new());
    let Some(run) = model.runs.first_mut() else { return model };
    let all = |stair: &Stair| Some((*stair.levels.first()?, *stair.levels.last()?));
    run.stairs.truncate(machine + 1);
    let inlet = run.stairs.last().and_then(|s| s.levels.first()).copied();
    model.extent = run.stairs.iter().take(machine).filter_map(all).collect();
    // Only of the parts: the machine's lift is another lesson.
    if let (Some(last), Some(inlet)) = (run.stairs.last_mut(), inlet) {
        *last = Stair::level(inlet);
    }
    if shown < machine.saturating_sub(1) {
        run.stairs.truncate(shown + 1);
        model.second = None;
        model.inlet_text.clear();
    }
    model
}

fn votes_ui(ui: &mut Ui, scene: &Scene, projector: &Projector, area: Rect, columns: &Columns, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let machine = scene.machine_slot();
    let x = egui::Rangef::new(columns.span(1).min, columns.span(machine).min);
    let rect = Rect::from_x_y_ranges(x, area.y_range().shrink(m.small * 0.3));
    let painter = ui.painter();
    painter.rect(rect, 0.0, p.ground, Stroke::new(2.0 * m.line, p.ink), StrokeKind::Inside);
    let most = projector.votes.iter().copied().max().unwrap_or_default().max(1);
    let radius = m.strong * 0.75;
    let base = rect.bottom() - m.small * 0.6;
    let room = (base - rect.top() - 2.0 * radius - m.small * 3.0).max(0.0);
    for (i, slot) in scene.slots.iter().enumerate().take(machine).skip(1) {
        let Slot::Part(places) = slot else { continue };
        let Some(at) = places.get(scene.hand()).copied().flatten().filter(|at| *at < projector.votes.len())
        else {
            continue;
        };
        let center = pos2(columns.span(i).center(), rect.top() + radius + m.small * 0.5);
        painter.circle(center, radius, p.sheet, Stroke::new(2.0 * m.line, p.ink));
        painter.text(center, Align2::CENTER_CENTER, (at + 1).to_string(), fonts::bold(m.strong), p.ink);
        let votes = projector.votes.get(at).copied().unwrap_or_default();
        let words = format!("Part {}: {votes} votes", at + 1);
        let hit = Rect::from_x_y_ranges(columns.span(i), rect.y_range());
        let response = ui.interact(hit, ui.scope_id().with(("votes", i)), egui::Sense::hover());
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &words));
        if votes > 0 {
            let top = base - room * votes as f32 / most as f32;
            let half = columns.width * 0.25;
            let bar = Rect::from_min_max(pos2(center.x - half, top), pos2(center.x + half, base));
            painter.rect_filled(bar, 0.0, p.ink2);
            let at = pos2(center.x, top - 2.0);
            painter.text(at, Align2::CENTER_BOTTOM, votes.to_string(), fonts::bold(m.strong), p.ink);
        }
    }
}

fn why_ui(ui: &mut Ui, scene: &Scene, area: Rect, look: &Look) {
    let text = why(scene).unwrap_or_else(|| "There is no answer to explain.".to_owned());
    let mut child = ui.new_child(UiBuilder::new().id_salt("why").max_rect(area));
    let rich = egui::RichText::new(text).font(fonts::regular(look.measures.body)).color(look.palette.ink);
    child.add(egui::Label::new(rich).wrap());
}

/// The part that costs the most, its share, and what its loss grows with.
fn why(scene: &Scene) -> Option<String> {
    let point = scene.point(scene.hand())?;
    let kit = scene.solved_document()?.kits.get(scene.hand())?;
    let pairs = kit.parts.iter().zip(&point.parts);
    let (part, solved) = pairs.max_by(|a, b| a.1.drop().value.total_cmp(&b.1.drop().value))?;
    let whole = (point.system_pressure - point.machine_inlet_pressure).value.max(1e-9);
    let share = 100.0 * solved.drop().value / whole;
    let units = scene.units();
    let lost = units.pressure_loss(solved.drop());
    let name = parts::name(part);
    Some(format!(
        "{name}: {lost} of {}, {share:.0} %. {}",
        units.pressure_loss(point.system_pressure - point.machine_inlet_pressure),
        reason(part, solved)
    ))
}

fn reason(part: &Part, solved: &PartPoint) -> &'static str {
    if solved.choked {
        "It is choked: pulling harder does nothing. Only a wider hole helps."
    } else if part.tube().is_some() {
        // Darcy at one flow and friction factor: loss goes with 1/d⁵.
        "At one flow a hose loses with its length, and about with the fifth power of a narrower bore."
    } else {
        // Bernoulli through a hole at one flow: loss goes with 1/area², so with 1/d⁴.
        "At one flow a hole half as wide loses sixteen times as much."
    }
}

fn numbers_ui(ui: &mut Ui, desk: &Desk, area: Rect, look: &Look) {
    let area = area.shrink2(vec2(look.measures.small * 0.5, 0.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("numbers").max_rect(area));
    child.spacing_mut().item_spacing.y = look.measures.small;
    // The unit stands back, so that the numeral has the room.
    let measures = Measures { strong: look.measures.small, ..look.measures };
    let look = &Look { measures, ..*look };
    for plate in plates::plates(desk.scene).into_iter().take(2) {
        let bare =
            Plate { aside: String::new(), was: String::new(), about: About::Nothing, mark: None, ..plate };
        plate_ui(&mut child, &bare, look.measures.plate, look);
    }
}

fn foot_ui(ui: &mut Ui, desk: &mut Desk, area: Rect, look: &Look) {
    let mut child = ui.new_child(UiBuilder::new().id_salt("foot").max_rect(area));
    child.with_layout(Layout::right_to_left(Align::Center), |ui| {
        for (word, action) in [
            ("Leave", Action::Projector(false)),
            ("Next", Action::Lesson(Step::Next)),
            ("Back", Action::Lesson(Step::Back)),
        ] {
            if command_ui(ui, word, true, look).clicked() {
                desk.want(action);
            }
        }
    });
}
