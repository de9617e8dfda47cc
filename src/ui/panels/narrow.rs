//! The window where there is little room (a small screen, or text twice as large): plates in a
//! row, the stairs on their side with one row a part, the thing in hand below.

use egui::{Align, Align2, Layout, Rangef, Rect, Response, Sense, Stroke, StrokeKind, Ui, pos2, vec2};

use super::Desk;
use super::bench::part_keys;
use super::explained::explained_plate_ui;
use super::foot::clock_bar_ui;
use super::inspector::inspector_ui;
use super::strip::cautions_in_full_ui;
use super::tries::{tries_of, tries_ui};
use crate::ui::actions::{Action, Edit};
use crate::ui::diagram::chain::SecondRow;
use crate::ui::diagram::stairs::{Run, Stair, Stairs};
use crate::ui::present::scale::PressureScale;
use crate::ui::present::{chain, clock, plates, stairs, volts};
use crate::ui::style::{Look, Theme, fonts};
use crate::ui::symbols::{PaintSymbol as _, Symbol, Tints};
use crate::ui::view::View;
use crate::ui::widgets::choice::menu_ui;
use crate::ui::widgets::word_button::command_ui;

/// Below this logical width the window is narrow.
pub const NARROW: f32 = 720.0;
/// Below this logical height too: pictures one above another have no room.
const LOW: f32 = 480.0;
/// Height of a row of the stairs on their side.
const ROW: f32 = 36.0;

/// Header of the narrow window: everything behind a few words.
pub fn narrow_header_ui(ui: &mut Ui, desk: &mut Desk) {
    ui.horizontal_centered(|ui| {
        let names: Vec<&str> = View::ALL.iter().map(|v| v.name()).collect();
        let open = desk.scene.session.view.view;
        if let Some(view) = menu_ui(ui, open.name(), &names, desk.look).and_then(|i| View::ALL.get(i)) {
            desk.want(Action::View(*view));
        }
        let title =
            egui::RichText::new(&desk.scene.document().title).font(fonts::bold(desk.look.measures.strong));
        ui.scope(|ui| {
            ui.set_max_width((ui.available_width() - 260.0).max(40.0));
            ui.add(egui::Label::new(title).truncate());
        });
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| few_commands_ui(ui, desk));
    });
}

/// Commands behind a few words, from right to left.
pub fn few_commands_ui(ui: &mut Ui, desk: &mut Desk) {
    more_ui(ui, desk);
    let (undo, _) = desk.scene.session.can_undo_redo();
    if command_ui(ui, "Undo", undo, desk.look).clicked() {
        desk.want(Action::Undo);
    }
    kit_menu_ui(ui, desk);
}

fn kit_menu_ui(ui: &mut Ui, desk: &mut Desk) {
    let names: Vec<String> = desk.scene.document().kits.iter().map(|k| format!("Kit {}", k.name)).collect();
    let words: Vec<&str> = names.iter().map(String::as_str).collect();
    let current = names.get(desk.scene.hand()).map_or("Kit", String::as_str);
    if let Some(kit) = menu_ui(ui, current, &words, desk.look) {
        desk.want(Action::Kit(kit));
    }
}

fn more_ui(ui: &mut Ui, desk: &mut Desk) {
    let theme: Theme = desk.scene.session.view.theme.next();
    let other = format!("{} colours", theme.name());
    let view = &desk.scene.session.view;
    let van = if view.van { "On a bench (V)" } else { "In a van: large, for the sun (V)" };
    let still = if view.still { "Full motion" } else { "Reduced motion" };
    let commands = [
        "Open…",
        "Save",
        "Save as…",
        "Type a path",
        "Redo",
        other.as_str(),
        "Units of answers",
        "Copy this kit",
        "About",
        "Search",
        "Projector",
        van,
        still,
        "Pages…",
    ];
    let action = match menu_ui(ui, "More", &commands, desk.look) {
        Some(0) => Action::OpenDialog,
        Some(1) => Action::Save,
        Some(2) => Action::SaveDialog,
        Some(3) => Action::PathField(true),
        Some(4) => Action::Redo,
        Some(5) => Action::Theme(theme),
        Some(6) => Action::UnitsBox(true),
        Some(7) => Action::Edit(Edit::CopyKit(desk.scene.hand())),
        Some(8) => Action::About(true),
        Some(9) => Action::Search(true),
        Some(10) => Action::Projector(true),
        Some(11) => Action::Van(!view.van),
        Some(12) => Action::Still(!view.still),
        Some(13) => Action::PagesDialog,
        _ => return,
    };
    desk.want(action);
}

/// Bench and line-up of the narrow window.
pub fn narrow_ui(ui: &mut Ui, desk: &mut Desk) {
    egui::ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
        ui.add_space(8.0);
        plates_row_ui(ui, desk);
        ui.horizontal_wrapped(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            let tries = tries_of(desk);
            tries_ui(ui, desk, &tries);
        });
        clock_row_ui(ui, desk);
        rows_ui(ui, desk);
        wires_ui(ui, desk);
        inspector_ui(ui, desk);
        ui.add_space(8.0);
        cautions_in_full_ui(ui, desk);
    });
}

fn plates_row_ui(ui: &mut Ui, desk: &Desk) {
    let plates = plates::plates(desk.scene);
    let room = ui.available_width();
    let columns = ((room / 150.0).floor() as usize).clamp(1, plates.len().max(1));
    for row in plates.chunks(columns) {
        ui.columns(row.len(), |columns| {
            for (ui, plate) in columns.iter_mut().zip(row) {
                explained_plate_ui(ui, desk, plate, desk.look.measures.plate * 0.84);
            }
        });
    }
}

/// The job clock, where there is a job.
fn clock_row_ui(ui: &mut Ui, desk: &mut Desk) {
    if clock::job(desk.scene).is_err() {
        return;
    }
    let height = (desk.look.target() + 8.0).max(44.0);
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
    clock_bar_ui(ui, desk, rect);
}

/// The pressure stairs on their side.
fn rows_ui(ui: &mut Ui, desk: &mut Desk) {
    let model = chain::chain(desk.scene);
    let stairs = stairs::stairs(desk.scene);
    let heading = format!("Pressure stairs, {} to {}. {}", stairs.start_text, stairs.inlet_text, stairs.note);
    ui.label(egui::RichText::new(heading).strong());
    for (slot, link) in model.links.iter().enumerate() {
        let Some(selected) = desk.scene.selected_at(slot) else { continue };
        let stair = stairs.runs.first().and_then(|r| r.stairs.get(slot));
        let response = row_frame_ui(ui, desk, &link.words, model.selected == Some(slot));
        if response.clicked() {
            desk.want(Action::Select(Some(selected)));
        }
        part_keys(ui, desk, selected, &response);
        let symbol = link.symbol.map(|s| (s, link.fluid));
        paint_row(ui, desk, response.rect, symbol, &link.name, &link.detail);
        if let (Some(stair), Some(run)) = (stair, stairs.runs.first()) {
            paint_bar(ui, desk, response.rect, stair, run);
        }
    }
    if let Some(row) = &model.second {
        second_rows_ui(ui, desk, row, &stairs);
    }
}

/// The second port's parts, on the same scale as the first one's.
fn second_rows_ui(ui: &mut Ui, desk: &mut Desk, row: &SecondRow, stairs: &Stairs) {
    let share = stairs.second.as_ref().map_or("", |(_, share)| share.as_str());
    ui.label(egui::RichText::new(format!("Second port. {share}")).strong());
    for (slot, link) in row.links.iter().enumerate() {
        let Some(link) = link else { continue };
        let response = row_frame_ui(ui, desk, &link.words, row.selected == Some(slot));
        if response.clicked() {
            desk.want(Action::Select(desk.scene.second_at(slot)));
        }
        paint_row(ui, desk, response.rect, link.symbol.map(|s| (s, link.fluid)), &link.name, &link.detail);
        let stair = stairs.second.as_ref().and_then(|(run, _)| run.stairs.get(slot));
        if let (Some(stair), Some(run)) = (stair, stairs.runs.first()) {
            paint_bar(ui, desk, response.rect, stair, run);
        }
    }
}

fn wires_ui(ui: &mut Ui, desk: &mut Desk) {
    let model = volts::volts(desk.scene);
    ui.label(egui::RichText::new("Voltage stairs").strong());
    for (i, wire) in model.wires.iter().enumerate() {
        let selected = volts::selected_at(&model.wires, i);
        let response = row_frame_ui(ui, desk, &wire.words, model.selected == Some(i));
        if response.clicked() {
            desk.want(Action::Select(selected));
        }
        let symbol = Some((wire.symbol, crate::ui::symbols::Fluid::Vapor));
        paint_row(ui, desk, response.rect, symbol, &wire.name, &wire.detail);
        let right = response.rect.right_center() - vec2(10.0, 0.0);
        let font = fonts::bold(desk.look.measures.body);
        ui.painter().text(right, Align2::RIGHT_CENTER, &wire.loss, font, desk.look.palette.fall_text);
    }
}

fn row_frame_ui(ui: &mut Ui, desk: &Desk, words: &str, chosen: bool) -> Response {
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width(), ROW.max(desk.look.target())), Sense::click());
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, chosen, words));
    let (m, p) = (&desk.look.measures, desk.look.palette);
    if chosen {
        let stroke = Stroke::new(m.focus_line(), p.ink);
        ui.painter().rect(rect, 0.0, p.field, stroke, StrokeKind::Inside);
    } else if response.hovered() || response.has_focus() {
        ui.painter().rect_stroke(rect, 0.0, desk.look.hairline(p.edge), StrokeKind::Inside);
    } else {
        ui.painter().hline(rect.x_range(), rect.bottom(), desk.look.hairline(p.rule));
    }
    response
}

fn paint_row(
    ui: &Ui,
    desk: &Desk,
    rect: Rect,
    symbol: Option<(Symbol, crate::ui::symbols::Fluid)>,
    name: &str,
    detail: &str,
) {
    let (m, p) = (&desk.look.measures, desk.look.palette);
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    if let Some((symbol, fluid)) = symbol {
        let side = ROW - 6.0;
        let square = Rect::from_min_size(rect.left_center() + vec2(8.0, -side / 2.0), vec2(side, side));
        let tints = Tints::new(p, fluid, desk.scene.session.is_stale());
        symbol.paint(&painter, square, side, tints);
    }
    let at = pos2(rect.left() + 48.0, rect.center().y);
    let drawn = painter.text(at, Align2::LEFT_CENTER, name, fonts::bold(m.body), p.ink);
    let at = pos2(drawn.right() + 8.0, rect.center().y);
    painter.text(at, Align2::LEFT_CENTER, detail, fonts::regular(m.body), p.ink2);
}

/// The loss as a bar: pressure falls to the right, all rows on one scale.
fn paint_bar(ui: &Ui, desk: &Desk, rect: Rect, stair: &Stair, run: &Run) {
    let ends = run.stairs.first().and_then(|s| s.levels.first()).copied();
    let inlet = run.stairs.get(desk.scene.machine_slot()).and_then(|s| s.levels.first()).copied();
    let (Some(top), Some(bottom)) = (ends, inlet) else { return };
    let (Some(&from), Some(&to)) = (stair.levels.first(), stair.levels.last()) else { return };
    if from > top + 1e-9 || to > from {
        return;
    }
    let x = Rangef::new(rect.left() + rect.width() * 0.46, rect.right() - 74.0);
    let at =
        |level: f64| x.min + x.span() * ((top - level) / (top - bottom).max(1e-9)).clamp(0.0, 1.0) as f32;
    let p = desk.look.palette;
    let bar = Rect::from_x_y_ranges(Rangef::new(at(from), at(to)), rect.y_range().shrink(8.0));
    ui.painter().rect_filled(bar, 0.0, p.fall_fill);
    for level in [from, to] {
        ui.painter().vline(at(level), rect.y_range().shrink(4.0), Stroke::new(2.0, p.level));
    }
    let loss = PressureScale::of(desk.scene.units()).loss(from - to);
    let text = if stair.choked { format!("CHOKED {loss}") } else { loss };
    if from - to > 0.0 {
        let right = rect.right_center() - vec2(10.0, 0.0);
        let font = fonts::bold(desk.look.measures.body);
        ui.painter().text(right, Align2::RIGHT_CENTER, text, font, p.fall_text);
    }
}

/// Whether there is little room; larger type needs more of it.
pub fn is_narrow(ui: &Ui, look: &Look) -> bool {
    let size = ui.ctx().content_rect().size() / (look.measures.body / 13.0).max(1.0);
    size.x < NARROW || size.y < LOW
}
