//! Bench: chain, pressure stairs on the same columns, voltage stairs.

use egui::{Key, Rangef, Rect, Response, Ui, UiBuilder, pos2, vec2};

use super::Desk;
use super::edit_field::worded_field_ui;
use super::feet::{Feet, Foot};
use super::foot::{clock_bar_ui, power_strip_ui};
use super::inspector::part_commands_ui;
use super::job_clock::clock_strip_ui;
use super::tries::{list_place, part_at, tries_of, tries_ui};
use super::under_wire::under_wire_ui;
use crate::ui::actions::{Action, Edit, PartList};
use crate::ui::diagram::chain::{Chain, chain_ui, second_height};
use crate::ui::diagram::columns::Columns;
use crate::ui::diagram::stairs::stairs_ui;
use crate::ui::diagram::volts::{VoltsPlace, volts_ui};
use crate::ui::present::scale::sentence;
use crate::ui::present::{Slot, chain, parts, stairs, volts};
use crate::ui::style::{Look, fonts};
use crate::ui::view::Selected;
use crate::ui::widgets::boxed_row::boxed_row_ui;

/// Everything on one page.
pub fn bench_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect();
    let m = desk.look.measures;
    let has_job = crate::ui::present::clock::job(desk.scene).is_ok();
    let feet = Feet::within(area.height(), stairs_need(desk), has_job, &m);
    let area = clock_foot_ui(ui, desk, area, feet.clock);
    let columns = Columns::fit(area.x_range(), desk.scene.slots.len(), &m);
    let split = (area.bottom() - feet.power.height).max(area.top());
    let upper = Rect::from_min_max(area.min, pos2(area.right(), split));
    let lift = chain_and_stairs_ui(ui, desk, upper, &columns);
    ui.painter().hline(area.x_range(), split, desk.look.hairline(desk.look.palette.edge));
    let lower = Rect::from_min_max(pos2(area.left(), split + 1.0), area.max);
    if feet.power.is_strip {
        power_strip_ui(ui, desk, lower);
    } else {
        power_ui(ui, desk, lower, &columns, lift.map(|l| l.bottom()));
    }
}

/// What the chain takes, and its stairs at the least; with the row of commands, so that taking a part
/// in hand moves nothing else.
pub(super) fn stairs_need(desk: &Desk) -> f32 {
    let chain = desk.look.measures.chain + second_height(&chain::chain(desk.scene), desk.look);
    chain + row_height(desk.look) + desk.look.measures.least_stairs
}

/// The row of commands under a part.
fn row_height(look: &Look) -> f32 {
    look.target() - 6.0
}

/// The job clock at the foot, where there is a job and room for it; returns what is left.
fn clock_foot_ui(ui: &mut Ui, desk: &mut Desk, area: Rect, foot: Foot) -> Rect {
    if foot.height == 0.0 || area.height() < 4.6 * foot.height {
        return area;
    }
    let split = area.bottom() - foot.height;
    let rect = Rect::from_min_max(pos2(area.left(), split + 1.0), area.max);
    if foot.is_strip {
        clock_bar_ui(ui, desk, rect);
    } else {
        let left = area.left() + desk.look.measures.left_margin;
        clock_strip_ui(ui, desk, rect, left);
    }
    ui.painter().hline(area.x_range(), split, desk.look.hairline(desk.look.palette.edge));
    Rect::from_min_max(area.min, pos2(area.right(), split))
}

/// The chain with its stairs under it, in one rectangle; returns where the machine's lift stands.
pub fn chain_and_stairs_ui(ui: &mut Ui, desk: &mut Desk, area: Rect, columns: &Columns) -> Option<Rect> {
    let model = chain::chain(desk.scene);
    let height = desk.look.measures.chain + second_height(&model, desk.look);
    let chain_area = Rect::from_min_size(area.min, vec2(area.width(), height.min(area.height())));
    let strip = if strip_place(desk, &model).is_some() { row_height(desk.look) } else { 0.0 };
    let below = pos2(area.left(), (chain_area.bottom() + strip).min(area.bottom()));
    let stairs_area = Rect::from_min_max(below, area.max);
    let responses = chain_ui(ui, chain_area, columns, &model, desk.look);
    for (slot, response) in responses.first.iter().enumerate() {
        if let Some(selected) = desk.scene.selected_at(slot) {
            link_events(ui, desk, selected, response, columns);
        }
    }
    for (slot, response) in &responses.second {
        if let Some(selected) = desk.scene.second_at(*slot) {
            link_events(ui, desk, selected, response, columns);
        }
    }
    let stairs = stairs::stairs(desk.scene);
    let lift = if stairs.runs.is_empty() {
        no_stairs_ui(ui, desk, stairs_area);
        None
    } else {
        let unfolded = desk.scene.session.view.unfolded;
        stairs_ui(ui, stairs_area, columns, &stairs, unfolded, desk.look)
    };
    let under = Rect::from_min_max(pos2(area.left(), chain_area.bottom()), area.max);
    commands_under_part_ui(ui, desk, &model, under, columns);
    lift
}

/// Clicks, drags and keys on one column of the chain.
fn link_events(ui: &Ui, desk: &mut Desk, selected: Selected, response: &Response, columns: &Columns) {
    if response.clicked() || (response.gained_focus() && desk.scene.session.view.selected != Some(selected)) {
        desk.want(Action::Select(Some(selected)));
    }
    part_keys(ui, desk, selected, response);
    let Some((list, at)) = list_place(desk, selected) else { return };
    if response.drag_stopped()
        && let Some(pointer) = response.interact_pointer_pos()
        && let Some(to) = dropped_on(desk, list, pointer.x, columns)
        && to != at
    {
        desk.edit(Edit::Move { list, from: at, to });
    }
}

/// Delete takes a focused part out, Ctrl with an arrow moves it to another place.
pub fn part_keys(ui: &Ui, desk: &mut Desk, selected: Selected, response: &Response) {
    let Some((list, at)) = list_place(desk, selected) else { return };
    if !response.has_focus() {
        return;
    }
    let (delete, earlier, later) = ui.input(|i| {
        let moved = |keys: [Key; 2]| i.modifiers.command && keys.into_iter().any(|key| i.key_pressed(key));
        (
            i.key_pressed(Key::Delete),
            moved([Key::ArrowLeft, Key::ArrowUp]),
            moved([Key::ArrowRight, Key::ArrowDown]),
        )
    });
    if delete {
        desk.edit(Edit::Remove { list, at });
    } else if earlier && at > 0 {
        desk.edit(Edit::Move { list, from: at, to: at - 1 });
    } else if later {
        desk.edit(Edit::Move { list, from: at, to: at + 1 });
    }
}

/// The place in a list whose column lies at this height.
fn dropped_on(desk: &Desk, list: PartList, x: f32, columns: &Columns) -> Option<usize> {
    let slot = (0..columns.count).find(|i| columns.span(*i).contains(x))?;
    match (list, desk.scene.slots.get(slot)?) {
        (PartList::Kit(kit), Slot::Part(places)) => places.get(kit).copied().flatten(),
        (PartList::Discharge, Slot::Discharge(at)) => Some(*at),
        (PartList::Second(_), _) => match desk.scene.second_at(slot)? {
            Selected::SecondPart(at) => Some(at),
            _ => None,
        },
        _ => None,
    }
}

/// The part in hand and its column.
fn strip_place(desk: &Desk, model: &Chain) -> Option<(PartList, usize, usize)> {
    let (list, at) = list_place(desk, desk.scene.session.view.selected?)?;
    let slot = model.selected.or(model.second.as_ref().and_then(|s| s.selected))?;
    Some((list, at, slot))
}

/// What can be done with the part in hand, right under it.
fn commands_under_part_ui(ui: &mut Ui, desk: &mut Desk, model: &Chain, below: Rect, columns: &Columns) {
    let Some((list, at, slot)) = strip_place(desk, model) else { return };
    let tries = tries_of(desk);
    let fields = sizes(desk, list, at).len() as f32 * 134.0 * desk.look.measures.body / 13.0;
    let tried = 80.0 + 56.0 * tries.len() as f32;
    let (scale, room) = (desk.look.measures.body / 13.0, below.width());
    let all = (400.0 + tried) * scale + fields;
    // Where there is no room for all, the commands stand beside the part's figures alone.
    let commands = all <= room;
    let width = if commands { all } else { (tried * scale + fields).min(room) };
    let left = columns.span(slot).min.min(columns.right() - width).max(below.left());
    let rect = Rect::from_min_size(pos2(left, below.top()), vec2(width, desk.look.target()));
    let count = match list {
        PartList::Kit(_) => desk.scene.kit().map_or(0, |k| k.parts.len()),
        PartList::Second(_) => desk.scene.second_port().map_or(0, |s| s.parts.len()),
        PartList::Discharge => desk.scene.document().discharge.len(),
    };
    boxed_row_ui(ui, "under part", rect, desk.look, |ui| {
        sizes_ui(ui, desk, list, at);
        if commands {
            part_commands_ui(ui, desk, list, at, count);
        }
        tries_ui(ui, desk, &tries);
    });
}

/// Bore and length of a part: name, path, text.
fn sizes(desk: &Desk, list: PartList, at: usize) -> Vec<(&'static str, String, String)> {
    let document = desk.scene.document();
    let part = part_at(desk, list, at);
    let path = match list {
        PartList::Kit(kit) => parts::kit_part_path(document, kit, at),
        PartList::Second(kit) => parts::second_part_path(document, kit, at),
        PartList::Discharge => format!("discharge.{at}"),
    };
    let bore = part.and_then(|p| p.bore()).map(|b| ("Bore", format!("{path}.bore"), b.as_typed().to_owned()));
    let length =
        part.and_then(|p| p.length()).map(|l| ("Length", format!("{path}.length"), l.as_typed().to_owned()));
    bore.into_iter().chain(length).collect()
}

fn sizes_ui(ui: &mut Ui, desk: &mut Desk, list: PartList, at: usize) {
    for (name, path, text) in sizes(desk, list, at) {
        let branch = if matches!(list, PartList::Second(_)) { "second port, " } else { "" };
        let label = format!("{name} of {branch}part {}", at + 1);
        let width = 74.0 * desk.look.measures.body / 13.0;
        worded_field_ui(ui, desk, (name, &label), &path, &text, width);
    }
}

/// In place of stairs: why there are none.
fn no_stairs_ui(ui: &mut Ui, desk: &Desk, area: Rect) {
    let answer = desk.scene.answer().and_then(|a| a.kits.get(desk.scene.hand()));
    let text = match answer.map(|a| a.point_or_why(desk.scene.units())) {
        Some(Err(why)) => sentence(&why.text),
        _ => desk.scene.waiting().to_owned(),
    };
    let inner = area.shrink2(vec2(60.0, desk.look.target() + 16.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("no stairs").max_rect(inner));
    let font = fonts::regular(desk.look.measures.strong);
    child.add(egui::Label::new(egui::RichText::new(text).font(font)).wrap());
}

/// The voltage stairs, with the motor in the machine's column.
pub fn power_ui(ui: &mut Ui, desk: &mut Desk, rect: Rect, columns: &Columns, riser: Option<f32>) {
    let machine = columns.span(desk.scene.machine_slot());
    power_in_ui(ui, desk, VoltsPlace { rect, left: columns.left, machine, riser });
}

/// The voltage stairs in a place of their own, with what can be done with the wire in hand at
/// their foot.
pub fn power_in_ui(ui: &mut Ui, desk: &mut Desk, place: VoltsPlace) {
    let place = under_wire_ui(ui, desk, place);
    let model = volts::volts(desk.scene);
    let responses = volts_ui(ui, place, &model, desk.look);
    for (i, response) in responses.iter().enumerate() {
        if response.clicked() {
            desk.want(Action::Select(volts::selected_at(&model.wires, i)));
        }
    }
}

/// The motor's column where there is no chain: at the right, as wide as is good to read.
pub fn motor_column(area: Rect, width: f32) -> Rangef {
    let right = area.right() - 300.0_f32.min(area.width() * 0.28);
    Rangef::new((right - width).max(area.left()), right)
}
