//! The entries of the shelf as rows: drawing, name, sizes, the bore's band on one scale, origin.

use egui::{Align2, Painter, Rect, Response, Sense, Stroke, StrokeKind, Ui, pos2, vec2};
use narrows::presets::{Item, Thing};

use super::super::Desk;
use super::detail::detail_ui;
use super::want;
use crate::ui::diagram::chain::paint::fit;
use crate::ui::present::shelf::{self, Row};
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::{Fluid, PaintSymbol as _, Tints};
use crate::ui::view::ShelfLook;

/// The bores' common scale ends here.
const WIDEST_MM: f64 = 13.0;

/// The rows; the chosen one unfolds in place where there is no room beside the list.
pub fn list_ui(ui: &mut Ui, desk: &mut Desk, rows: &[Row], chosen: Option<&Item<Thing>>, unfold: bool) {
    ui.spacing_mut().item_spacing.y = 0.0;
    if rows.is_empty() {
        ui.label("Nothing by these words.");
    }
    for row in rows {
        let is_chosen = chosen.is_some_and(|item| item.id == row.item.id);
        if row_ui(ui, desk, row, is_chosen).clicked() {
            let look = desk.scene.session.view.shelf.clone();
            let id = (!(unfold && is_chosen)).then(|| row.item.id.clone());
            want(desk, ShelfLook { chosen: id, ..look });
        }
        if let Some(item) = chosen.filter(|_| unfold && is_chosen) {
            ui.scope(|ui| {
                ui.spacing_mut().item_spacing.y = 6.0;
                detail_ui(ui, desk, item);
                ui.add_space(8.0);
            });
        }
    }
}

fn row_ui(ui: &mut Ui, desk: &Desk, row: &Row, chosen: bool) -> Response {
    let m = &desk.look.measures;
    let height = (2.0 * m.body + 14.0).max(desk.look.target());
    let (rect, response) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::click());
    response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, chosen, &row.words));
    if ui.is_rect_visible(rect) {
        frame(ui.painter(), rect, chosen, &response, desk.look);
        paint(ui.painter(), rect, row, desk.look);
    }
    response
}

fn frame(painter: &Painter, rect: Rect, chosen: bool, response: &Response, look: &Look) {
    let p = look.palette;
    if chosen {
        let stroke = Stroke::new(look.measures.focus_line(), p.ink);
        painter.rect(rect, 0.0, p.field, stroke, StrokeKind::Inside);
    } else if response.hovered() || response.has_focus() {
        let width = if response.has_focus() { look.measures.focus_line() } else { 1.0 };
        painter.rect_stroke(rect, 0.0, Stroke::new(width, p.edge), StrokeKind::Inside);
    } else {
        painter.hline(rect.x_range(), rect.bottom(), look.hairline(p.rule));
    }
}

fn paint(painter: &Painter, rect: Rect, row: &Row, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let ink = if row.item.retired { p.ink3 } else { p.ink };
    let side = rect.height() - 6.0;
    let square = Rect::from_min_size(rect.left_center() + vec2(6.0, -side / 2.0), vec2(side, side));
    shelf::symbol(&row.item.item).paint(painter, square, side, Tints::new(p, Fluid::Vapor, row.item.retired));
    let right = rect.right() - 8.0;
    let origin_width = 5.2 * m.small;
    let bar_width = if rect.width() > 34.0 * m.body { 11.0 * m.body } else { 0.0 };
    let bar_right = right - origin_width - 8.0;
    let left = square.right() + 10.0;
    let room = bar_right - bar_width - 8.0 - left;
    let (above, below) = (rect.center().y - 1.0, rect.center().y + 1.0);
    let name = fit(painter, &row.item.name, fonts::bold(m.body), ink, room);
    painter.galley(pos2(left, above - name.size().y), name, ink);
    let band =
        if bar_width > 0.0 || row.band.is_empty() { String::new() } else { format!(" ({})", row.band) };
    let detail = fit(painter, &format!("{}{band}", row.detail), fonts::regular(m.body), p.ink2, room);
    painter.galley(pos2(left, below), detail, p.ink2);
    for (text, y, align) in [
        (row.item.origin.label(), above, Align2::RIGHT_BOTTOM),
        (shelf::whose(&row.item), below, Align2::RIGHT_TOP),
    ] {
        painter.text(pos2(right, y), align, text, fonts::regular(m.small), p.ink2);
    }
    if bar_width > 0.0 {
        let bar = Rect::from_x_y_ranges((bar_right - bar_width)..=bar_right, rect.y_range());
        band_bar(painter, bar, row, look);
    }
}

/// Low to high as a bar, likely as a tick, all bores on one scale; the words stand under it.
fn band_bar(painter: &Painter, rect: Rect, row: &Row, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    painter.text(
        pos2(rect.left(), rect.center().y + 1.0),
        Align2::LEFT_TOP,
        &row.band,
        fonts::regular(m.small),
        p.ink2,
    );
    let Some([low, likely, high]) = row.bores_mm else { return };
    let y = rect.center().y - 0.55 * m.body;
    let x = |mm: f64| rect.left() + rect.width() * (mm / WIDEST_MM).clamp(0.0, 1.0) as f32;
    painter.hline(rect.x_range(), y, look.hairline(p.rule));
    painter.hline(x(low)..=x(high), y, Stroke::new(5.0 * m.line, p.vapor));
    painter.hline(x(low)..=x(high), y + 2.5 * m.line, look.hairline(p.level));
    painter.vline(x(likely), (y - 0.4 * m.body)..=(y + 0.4 * m.body), Stroke::new(2.5 * m.line, p.level));
}
