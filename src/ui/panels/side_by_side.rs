//! Side by side: a column a kit, only what differs, figures, and the bars of their differences.

use std::sync::Arc;

use narrows::compare::Figure;
use narrows::report::Compared;

use egui::{Align2, Galley, Painter, Rect, Sense, Stroke, StrokeKind, Ui, UiBuilder, pos2, vec2};

use super::Desk;
use super::findings::{nothing_ui, small_ui, title_ui};
use super::prices::kit_prices_ui;
use super::progress::progress_ui;
use super::what_counts::minutes_or_rate_ui;
use crate::ui::actions::Action;
use crate::ui::diagram::bars::bars_ui;
use crate::ui::diagram::chain::paint::fit;
use crate::ui::diagram::lines;
use crate::ui::present::compared::{self, Cell, Row, Shown};
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::{Fluid, PaintSymbol as _, Tints, paint_kit_mark};

/// Narrowest column that is good to read; below, the view scrolls sideways.
const COLUMN: f32 = 170.0;

/// The view.
pub fn side_by_side_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let mut child = ui.new_child(UiBuilder::new().id_salt("side by side").max_rect(area));
    egui::ScrollArea::both().auto_shrink([false, false]).show(&mut child, |ui| {
        let compared = match compared::compared(desk.scene) {
            Ok(compared) => compared,
            Err(why) => return nothing_ui(ui, desk, &why),
        };
        let m = desk.look.measures;
        let count = compared.kits.len().max(1);
        let names = (m.body * 8.5).min(area.width() * 0.2);
        let column = ((area.width() - names - 16.0) / count as f32).max(COLUMN);
        let table = Table { names, column };
        ui.set_min_width(names + column * count as f32);
        ui.spacing_mut().item_spacing.y = 0.0;
        ui.horizontal_wrapped(|ui| {
            ui.label(egui::RichText::new("The same for all").font(fonts::bold(m.small)));
            for text in compared::shared(desk.scene) {
                ui.label(egui::RichText::new(text).font(fonts::regular(m.small)));
                ui.add_space(10.0);
            }
        });
        ui.add_space(4.0);
        heads_ui(ui, desk, &table);
        let rows = compared::rows(desk.scene, compared);
        if rows.is_empty() && count > 1 {
            small_ui(ui, desk.look, "The kits do not differ.");
        }
        for row in &rows {
            row_ui(ui, desk, row, &table);
        }
        ui.add_space(6.0);
        for (name, values) in compared::figures(desk.scene, compared) {
            figures_ui(ui, desk, name, &values, &table);
        }
        if count < 2 {
            ui.add_space(8.0);
            small_ui(ui, desk.look, "One kit only. Copy it in the header (Kits …) to compare.");
            return;
        }
        ui.add_space(10.0);
        differences_ui(ui, desk, compared);
        ui.add_space(10.0);
        kit_prices_ui(ui, desk);
    });
}

/// Bars of every two kits' difference, and how well they are known.
fn differences_ui(ui: &mut Ui, desk: &mut Desk, compared: &Compared) {
    let figure = compared::figure(desk.scene, compared);
    ui.horizontal_wrapped(|ui| {
        let in_minutes = figure == Figure::Minutes;
        let what = if in_minutes { "Difference in time to level" } else { "Difference in rate" };
        title_ui(ui, desk.look, what);
        if compared::has_minutes(compared) {
            minutes_or_rate_ui(ui, desk);
        }
        progress_ui(ui, desk);
    });
    let words = match compared.bands_of(figure) {
        Some(bands) => format!(
            "Bar: likely. Hatch: 10 to 90 % of {} draws, with everything the kits share cancelled.",
            bands.draws
        ),
        None => "Bar: likely. Not drawn yet how certain that is.".to_owned(),
    };
    small_ui(ui, desk.look, &words);
    ui.add_space(4.0);
    bars_ui(ui, &compared::differences(desk.scene, compared), desk.look);
    for sentence in compared::prices_of_minutes(compared) {
        ui.add(egui::Label::new(sentence).wrap());
    }
}

/// Widths of the first and the other columns.
struct Table {
    names: f32,
    column: f32,
}

impl Table {
    fn cell(&self, row: Rect, at: usize) -> Rect {
        let left = row.left() + self.names + self.column * at as f32;
        Rect::from_min_max(pos2(left, row.top()), pos2(left + self.column - 10.0, row.bottom()))
    }
}

fn heads_ui(ui: &mut Ui, desk: &mut Desk, table: &Table) {
    let (m, p) = (desk.look.measures, desk.look.palette);
    let height = m.strong * 2.6;
    let (rect, _) = ui.allocate_exact_size(vec2(ui.available_width().max(1.0), height), Sense::hover());
    for (i, kit) in desk.scene.document().kits.iter().enumerate() {
        let cell = table.cell(rect, i);
        let response = ui.interact(cell, ui.scope_id().with(("column", i)), Sense::click());
        let label = kit.label.clone().unwrap_or_default();
        let chosen = i == desk.scene.hand();
        let words = format!("Column of kit {}, {label}", kit.name);
        response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, chosen, &words));
        if response.clicked() {
            desk.actions.push(Action::Kit(i));
        }
        let painter = ui.painter().with_clip_rect(cell.intersect(ui.clip_rect()));
        painter.rect_filled(cell, 0.0, p.plate);
        if response.has_focus() || response.hovered() {
            painter.rect_stroke(cell, 0.0, desk.look.hairline(p.edge), StrokeKind::Inside);
        }
        let color = lines::kit_color(i, p);
        painter.hline(cell.x_range(), cell.bottom() - 1.0, Stroke::new(2.0 * m.line, color));
        let y = cell.center().y;
        paint_kit_mark(&painter, pos2(cell.left() + 18.0, y), 8.0, i, p);
        let at = pos2(cell.left() + 34.0, y);
        let name = painter.text(at, Align2::LEFT_CENTER, &kit.name, fonts::bold(m.title), p.ink);
        let sample = cell.right() - 12.0;
        let room = sample - 56.0 - name.right() - 14.0;
        let line = vec![pos2(sample - 46.0, y), pos2(sample, y)];
        lines::polyline(&painter, line, Stroke::new(m.level_line(), color), lines::kit_dash(i));
        if room > 20.0 {
            let galley = head_words(&painter, &label, room, desk.look);
            painter.galley(pos2(name.right() + 12.0, y - galley.size().y / 2.0), galley, p.ink);
        }
    }
}

/// What a kit is: in one line, or smaller in two.
fn head_words(painter: &Painter, label: &str, room: f32, look: &Look) -> Arc<Galley> {
    let (m, p) = (&look.measures, look.palette);
    let whole = painter.layout_no_wrap(label.to_owned(), fonts::regular(m.body), p.ink);
    if whole.size().x <= room {
        return whole;
    }
    let font = fonts::regular(m.small);
    let mut job = egui::text::LayoutJob::simple(label.to_owned(), font, p.ink, room);
    job.wrap.max_rows = 2;
    painter.layout_job(job)
}

fn row_ui(ui: &mut Ui, desk: &Desk, row: &Row, table: &Table) {
    let (m, p) = (desk.look.measures, desk.look.palette);
    let height = m.body * 3.3;
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width().max(1.0), height), Sense::hover());
    let words = row_words(desk, row);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &words));
    if !ui.is_rect_visible(rect) {
        return;
    }
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    let name = painter.layout(row.name.clone(), fonts::regular(m.body), p.ink2, table.names - 8.0);
    painter.galley(pos2(rect.left(), rect.center().y - name.size().y / 2.0), name, p.ink2);
    for (i, cell) in row.cells.iter().enumerate() {
        cell_ui(&painter, desk, table.cell(rect, i), cell, i > 0);
    }
    painter.hline(rect.x_range(), rect.bottom(), desk.look.hairline(p.rule));
}

fn row_words(desk: &Desk, row: &Row) -> String {
    let kits = desk.scene.document().kits.iter().map(|k| k.name.as_str());
    let cells = kits.zip(&row.cells).map(|(kit, cell)| match cell {
        Cell::Same => format!("{kit} as the first"),
        Cell::Out => format!("{kit} out"),
        Cell::Part(_, name, detail) => format!("{kit} {name} {detail}"),
        Cell::Words(words) => format!("{kit} {words}"),
    });
    format!("{}: {}", row.name, cells.collect::<Vec<_>>().join(", "))
}

fn cell_ui(painter: &egui::Painter, desk: &Desk, rect: Rect, cell: &Cell, strong: bool) {
    let (m, p) = (desk.look.measures, desk.look.palette);
    let side = (rect.height() - 6.0).min(48.0 * m.line);
    let square = Rect::from_min_size(pos2(rect.left() + 8.0, rect.center().y - side / 2.0), vec2(side, side));
    let font = if strong { fonts::bold(m.body) } else { fonts::regular(m.body) };
    let right = pos2(square.right() + 10.0, rect.center().y);
    match cell {
        Cell::Same => {}
        Cell::Out => {
            let y = rect.center().y;
            let line = vec![pos2(square.left(), y), pos2(square.right(), y)];
            let dash: (&[f32], &[f32]) = (&[5.0], &[4.0]);
            lines::polyline(painter, line, Stroke::new(2.0, p.ghost), Some(dash));
            painter.text(right, Align2::LEFT_CENTER, "out", font, p.ink);
        }
        Cell::Part(symbol, name, detail) => {
            symbol.paint(painter, square, side, Tints::new(p, Fluid::Vapor, false));
            let room = rect.right() - right.x;
            let name = fit(painter, name, font, p.ink, room);
            let detail = fit(painter, detail, fonts::regular(m.small), p.ink2, room);
            let top = rect.center().y - (name.size().y + detail.size().y) / 2.0;
            let below = top + name.size().y;
            painter.galley(pos2(right.x, top), name, p.ink);
            painter.galley(pos2(right.x, below), detail, p.ink2);
        }
        Cell::Words(words) => {
            let galley = fit(painter, words, font, p.ink, rect.width() - 12.0);
            painter.galley(pos2(rect.left() + 8.0, rect.center().y - galley.size().y / 2.0), galley, p.ink);
        }
    }
}

fn figures_ui(ui: &mut Ui, desk: &Desk, name: &str, values: &[Shown], table: &Table) {
    let (m, p) = (desk.look.measures, desk.look.palette);
    let height = m.numeral * 1.15;
    let (rect, response) =
        ui.allocate_exact_size(vec2(ui.available_width().max(1.0), height), Sense::hover());
    let kits = desk.scene.document().kits.iter().map(|k| k.name.as_str());
    let said: Vec<String> = kits
        .zip(values)
        .map(|(kit, v)| format!("{kit} {} {} {} {}", v.numeral, v.unit, v.band, v.instead).trim().to_owned())
        .collect();
    let words = format!("{name}: {}", said.join(", "));
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Label, true, &words));
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    let center = rect.center().y;
    painter.text(pos2(rect.left(), center), Align2::LEFT_CENTER, name, fonts::regular(m.body), p.ink2);
    let color = if desk.scene.session.is_stale() { p.edge } else { p.ink };
    for (i, value) in values.iter().enumerate() {
        let cell = table.cell(rect, i);
        let painter = painter.with_clip_rect(cell.intersect(painter.clip_rect()));
        if !value.instead.is_empty() {
            let galley =
                painter.layout(value.instead.clone(), fonts::bold(m.small), p.ink, cell.width() - 16.0);
            painter.galley(pos2(cell.left() + 8.0, center - galley.size().y / 2.0), galley, p.ink);
            continue;
        }
        let at = pos2(cell.left() + 8.0, center);
        let numeral =
            painter.text(at, Align2::LEFT_CENTER, &value.numeral, fonts::bold(m.numeral * 0.8), color);
        let base = numeral.bottom() - m.numeral * 0.13;
        let unit = pos2(numeral.right() + 8.0, base);
        let unit = painter.text(unit, Align2::LEFT_BOTTOM, &value.unit, fonts::regular(m.strong), p.ink2);
        let band = painter.layout_no_wrap(value.band.clone(), fonts::regular(m.body), p.ink2);
        let left = cell.right() - 10.0 - band.size().x;
        if left > unit.right() + 6.0 {
            painter.galley(pos2(left, base - band.size().y), band, p.ink2);
        }
    }
}
