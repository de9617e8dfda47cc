//! The picture of a lesson: covered, then piece by piece, then with the reason under it.

use egui::{Rangef, Rect, Ui, UiBuilder};
use narrows::presets::Picture;

use super::super::Desk;
use super::super::meeting_point::meeting_plot_ui;
use super::{Class, ask};
use crate::ui::diagram::chain::{Chain, chain_ui, second_height};
use crate::ui::diagram::chilling::chilling_ui;
use crate::ui::diagram::columns::Columns;
use crate::ui::diagram::rates::rates_ui;
use crate::ui::diagram::stairs::{Stair, Stairs, stairs_ui};
use crate::ui::diagram::volts::{Volts, VoltsPlace, volts_ui};
use crate::ui::motion;
use crate::ui::present::scale::sentence;
use crate::ui::present::{chain, lesson, stairs, volts};
use crate::ui::projector::Phase;
use crate::ui::style::{Look, fonts};

/// The picture, with what is said about it below.
pub fn picture_ui(ui: &mut Ui, desk: &mut Desk, class: &Class, area: Rect) {
    let m = &class.look.measures;
    let mut child = ui.new_child(UiBuilder::new().id_salt("class").max_rect(area));
    // Every piece is told every frame whether it is there, so that it grows when it comes.
    let grown = grown(&child, class);
    let above = match class.projector.why() {
        Some(why) => {
            let (above, below) = area.split_top_bottom_at_y(area.bottom() - m.body * 4.4);
            why_ui(&mut child, class, &why.says, below);
            above
        }
        None => area,
    };
    let asking = class.projector.phase == Phase::Ask;
    match class.projector.picture() {
        Picture::PressureStairs => stairs_picture_ui(&mut child, class, above, &grown),
        Picture::VoltageStairs => volts_picture_ui(&mut child, class, above, &grown),
        _ if asking => {
            let below = chain_picture_ui(&mut child, class, above, 0);
            ask::choices_ui(&mut child, class, below);
        }
        Picture::Rates => rates_ui(&mut child, above, &lesson::rates(class.scene, &grown), class.look),
        Picture::Chilling => chilling_picture_ui(&mut child, class, above, &grown),
        Picture::MeetingPoint => {
            let mut plot = child.new_child(UiBuilder::new().id_salt("meeting").max_rect(above));
            class.look.text_styles_of(plot.style_mut());
            let scene = class.scene;
            let mut inner = Desk { scene, look: class.look, shelf: desk.shelf, actions: Vec::new() };
            meeting_plot_ui(&mut plot, &mut inner);
        }
    }
}

/// How much of each piece is there.
fn grown(ui: &Ui, class: &Class) -> Vec<f32> {
    let shown = match class.projector.phase {
        Phase::Ask => 0,
        Phase::Show(shown) => shown,
        Phase::Why(_) => usize::MAX,
    };
    let id = ui.scope_id().with("piece");
    let pieces = class.scene.session.pieces();
    (0..pieces).map(|i| motion::growing(ui.ctx(), id.with(i), i < shown, class.look)).collect()
}

fn why_ui(ui: &mut Ui, class: &Class, says: &str, area: Rect) {
    let text = lesson::filled(class.scene, says);
    let mut child = ui.new_child(UiBuilder::new().id_salt("why").max_rect(area));
    let font = fonts::regular(class.look.measures.body * 1.15);
    let rich = egui::RichText::new(text).font(font).color(class.look.palette.ink);
    child.add(egui::Label::new(rich).wrap());
}

/// The chain up to the machine, with so many parts cut open; returns what is left below it.
fn chain_picture_ui(ui: &mut Ui, class: &Class, area: Rect, open: usize) -> Rect {
    let machine = class.scene.machine_slot();
    let columns = Columns::fit(area.x_range(), machine + 1, &class.look.measures);
    let model = chain_model(class, machine, open);
    let height = (class.look.measures.chain + second_height(&model, class.look)).min(area.height());
    let (above, below) = area.split_top_bottom_at_y(area.top() + height);
    chain_ui(ui, above, &columns, &model, class.look);
    below
}

fn stairs_picture_ui(ui: &mut Ui, class: &Class, area: Rect, grown: &[f32]) {
    let machine = class.scene.machine_slot();
    let columns = Columns::fit(area.x_range(), machine + 1, &class.look.measures);
    let open = grown.iter().filter(|g| **g > 0.0).count();
    let below = chain_picture_ui(ui, class, area, open);
    match class.projector.phase {
        Phase::Ask if class.projector.lesson.choices.is_empty() => {
            ask::parts_ui(ui, class, below, &columns);
        }
        Phase::Ask => ask::choices_ui(ui, class, below),
        phase => {
            let model = stairs_model(class, machine, grown);
            // A piece that is growing moves by itself already.
            let still = class.look.still || !matches!(phase, Phase::Why(_));
            stairs_ui(ui, below, &columns, &model, false, &Look { still, ..*class.look });
        }
    }
}

/// The chain up to the machine. What is not shown yet is covered and only named.
fn chain_model(class: &Class, machine: usize, open: usize) -> Chain {
    let mut model = chain::chain(class.scene);
    model.links.truncate(machine + 1);
    model.selected = None;
    let all = open >= machine.saturating_sub(1) || class.projector.picture() != Picture::PressureStairs;
    for (i, link) in model.links.iter_mut().enumerate() {
        link.detail.clear();
        link.name = short(&link.name);
        if i == 0 || i > open {
            link.words.clone_from(&link.name);
        }
        link.covered = i > open && i < machine && !all;
    }
    if let Some(row) = &mut model.second {
        row.selected = None;
        for link in row.links.iter_mut().flatten() {
            link.detail.clear();
            link.name = short(&link.name);
            if !all || open < machine.saturating_sub(1) {
                link.words = format!("second port, {}", link.name);
            }
            link.covered = !all;
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

/// The stairs with as much of each loss as has grown; the axis has room for all from the start.
fn stairs_model(class: &Class, machine: usize, grown: &[f32]) -> Stairs {
    let mut model = stairs::stairs(class.scene);
    let last = matches!(class.projector.phase, Phase::Why(_));
    model.runs.truncate(1);
    model.references = Vec::new();
    if !last {
        model.ghost = None;
    }
    if let Some((run, _)) = &mut model.ghost {
        run.stairs.truncate(machine);
    }
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
    let shown = grown.iter().filter(|g| **g > 0.0).count();
    if grown.iter().any(|g| *g < 1.0) {
        run.stairs.truncate(shown + 1);
        model.second = None;
        model.inlet_text.clear();
        if let (Some(stair), Some(part)) = (run.stairs.last_mut(), shown.checked_sub(1)) {
            grow(stair, grown.get(part).copied().unwrap_or(1.0));
        }
    }
    model
}

/// Only a share of a stair's losses; numbers and marks come when it is whole.
fn grow(stair: &mut Stair, share: f32) {
    let Some(&from) = stair.levels.first() else { return };
    if share >= 1.0 {
        return;
    }
    for level in &mut stair.levels {
        *level = from + f64::from(share) * (*level - from);
    }
    (stair.drops, stair.choked, stair.flash) = (Vec::new(), false, None);
}

fn volts_picture_ui(ui: &mut Ui, class: &Class, area: Rect, grown: &[f32]) {
    let asking = class.projector.phase == Phase::Ask;
    let model = volts_model(class, grown);
    let m = &class.look.measures;
    // Room for the volts beside the motor's dot; all the rest is for the wires.
    let motor = Rangef::new(area.right() - 4.6 * m.strong, area.right() - 1.6 * m.strong);
    let left = area.left() + m.left_margin;
    let place = |rect| VoltsPlace { rect, left, machine: motor, riser: None };
    if asking {
        let foot = m.small * 4.6;
        let (above, below) = area.split_top_bottom_at_y(area.bottom() - foot);
        ask::choices_ui(ui, class, above);
        volts_ui(ui, place(below), &model, class.look);
    } else {
        let look = Look { still: true, ..*class.look };
        volts_ui(ui, place(area), &model, &look);
    }
}

/// The voltage stairs: wires one by one while running, then all of them starting.
fn volts_model(class: &Class, grown: &[f32]) -> Volts {
    let mut model = volts::volts(class.scene);
    model.selected = None;
    model.verdicts.clear();
    let both = |wire: &crate::ui::diagram::volts::Wire| [wire.running, wire.starting];
    model.extent = model.wires.iter().flat_map(both).flatten().flat_map(|(a, b)| [a, b]).collect();
    let starts = grown.last().copied().unwrap_or_default();
    let wires = grown.len().saturating_sub(1);
    let mut piece = 0;
    let mut whole = class.projector.phase != Phase::Ask;
    for wire in &mut model.wires {
        let share = if wire.slope {
            let share = grown.get(piece).copied().unwrap_or_default();
            piece += 1;
            share
        } else {
            1.0
        };
        wire.running = wire.running.filter(|_| whole && share > 0.0).map(|pair| part_of(pair, share));
        wire.starting = wire.starting.filter(|_| starts > 0.0).map(|pair| part_of(pair, starts));
        whole &= share >= 1.0;
        if !whole {
            wire.words = format!("{}, {}", wire.name, wire.detail);
            wire.loss.clear();
            wire.loss_short.clear();
        } else if starts < 1.0 {
            // Starting is the last piece.
            let running = wire.running.filter(|(a, b)| a - b > 0.05);
            wire.loss = running.map(|(a, b)| format!("{:.1} V", a - b)).unwrap_or_default();
            wire.loss_short.clone_from(&wire.loss);
            wire.words = format!("{}, {}, {}", wire.name, wire.detail, wire.loss);
        }
    }
    if !whole || piece < wires {
        model.running = None;
        model.heat.clear();
    }
    if starts < 1.0 {
        model.starting = None;
    }
    model
}

fn part_of((from, to): (f64, f64), share: f32) -> (f64, f64) {
    (from, from + f64::from(share) * (to - from))
}

fn chilling_picture_ui(ui: &mut Ui, class: &Class, area: Rect, grown: &[f32]) {
    let marks = class.projector.lesson.mark_ratios();
    match lesson::chilling(class.scene, &marks, grown) {
        Some(model) => chilling_ui(ui, area, &model, class.look),
        None => {
            let font = fonts::regular(class.look.measures.body);
            let text = egui::RichText::new(class.scene.waiting()).font(font);
            let mut child = ui.new_child(UiBuilder::new().id_salt("waiting").max_rect(area));
            child.label(text);
        }
    }
}
