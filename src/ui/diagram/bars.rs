//! Bars from a common zero, one a row, with their bands: differences, gains, limits.
//!
//! A bar is solid up to its value; its band is hatched across the end. A bar whose band holds zero
//! is hollow and carries words instead of a number.

use std::sync::Arc;

use egui::{
    Align2, Color32, Galley, Painter, Rangef, Rect, Response, Sense, Stroke, StrokeKind, Ui, pos2, vec2,
};

use super::lines;
use super::ticks::{Scale, short};
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::{Mark, paint_kit_mark, paint_mark};

/// One row.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bar {
    /// The kit whose colour it has, with its letter.
    pub kit: Option<(usize, String)>,
    /// The kit it is compared with.
    pub against: Option<(usize, String)>,
    /// What it is.
    pub label: String,
    /// More about it, in small.
    pub detail: String,
    /// Its length; none if there is none.
    pub value: Option<f64>,
    /// Low and high.
    pub band: Option<(f64, f64)>,
    /// At the right: the number, or why there is none.
    pub text: String,
    /// A mark before the text.
    pub mark: Option<Mark>,
    /// It is the one that matters.
    pub strong: bool,
    /// Its sign is not certain.
    pub hollow: bool,
    /// It is looked at.
    pub selected: bool,
}

/// All rows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bars {
    /// In order.
    pub rows: Vec<Bar>,
    /// Unit of the axis.
    pub unit: String,
    /// Words at the axis' lower and upper end.
    pub ends: (String, String),
    /// An earlier answer.
    pub stale: bool,
}

impl Bar {
    /// All of it in words.
    pub fn words(&self) -> String {
        let kits = match (&self.kit, &self.against) {
            (Some((_, kit)), Some((_, other))) => format!("{kit} against {other} "),
            _ => String::new(),
        };
        let parts = [self.label.as_str(), self.detail.as_str(), self.text.as_str()];
        let said: Vec<&str> = parts.into_iter().filter(|p| !p.is_empty()).collect();
        format!("{kits}{}", said.join(", "))
    }
}

/// Places of the columns of a row.
struct Place {
    label: Rangef,
    text: Rangef,
    scale: Scale,
}

/// Draws the rows and the axis under them; returns a response a row.
pub fn bars_ui(ui: &mut Ui, bars: &Bars, look: &Look) -> Vec<Response> {
    let m = &look.measures;
    let width = ui.available_width().max(1.0);
    let left = ui.cursor().left();
    let place = place(bars, Rangef::new(left, left + width), look);
    let heights: Vec<f32> =
        bars.rows.iter().map(|row| height(ui.painter(), bars, row, &place, look)).collect();
    let mut responses = Vec::with_capacity(bars.rows.len());
    let top = ui.cursor().top();
    ui.spacing_mut().item_spacing.y = 0.0;
    let grid = Rect::from_min_size(pos2(left, top), vec2(width, heights.iter().sum()));
    paint_grid(ui.painter(), grid.y_range(), &place, look);
    for (row, height) in bars.rows.iter().zip(heights) {
        let (rect, response) = ui.allocate_exact_size(vec2(width, height), Sense::click());
        let words = row.words();
        response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, row.selected, &words));
        if ui.is_rect_visible(rect) {
            paint_row(ui.painter(), rect, row, &place, bars.stale, look);
            if row.selected {
                ui.painter().rect_stroke(
                    rect,
                    0.0,
                    Stroke::new(m.focus_line(), look.palette.ink),
                    StrokeKind::Inside,
                );
            } else if response.hovered() || response.has_focus() {
                ui.painter().rect_stroke(rect, 0.0, look.hairline(look.palette.edge), StrokeKind::Inside);
            }
        }
        responses.push(response);
    }
    let (axis, _) = ui.allocate_exact_size(vec2(width, m.small * 2.0), Sense::hover());
    paint_axis(ui.painter(), axis, bars, &place, look);
    responses
}

/// A row is as high as its words need.
fn height(painter: &Painter, bars: &Bars, row: &Bar, place: &Place, look: &Look) -> f32 {
    let m = &look.measures;
    let has_detail = bars.rows.iter().any(|r| !r.detail.is_empty());
    let least = if has_detail { m.body * 3.1 } else { m.body * 2.3 }.max(look.target());
    let (label, detail) = label_words(painter, row, place, look);
    let detail = if row.detail.is_empty() { 0.0 } else { detail.size().y };
    let said = label.size().y + detail;
    least.max(said + 6.0).max(text_words(painter, row, place, look).size().y + 6.0)
}

fn place(bars: &Bars, x: Rangef, look: &Look) -> Place {
    let m = &look.measures;
    let kits = bars.rows.iter().any(|r| r.against.is_some());
    let label = if kits { m.body * 13.0 } else { (m.body * 26.0).min(x.span() * 0.38) };
    let text = (m.body * if kits { 25.0 } else { 16.0 }).min(x.span() * 0.32);
    let middle = Rangef::new(x.min + label + 8.0, (x.max - text - 12.0).max(x.min + label + 9.0));
    let values = bars.rows.iter().flat_map(|r| {
        let band = r.band.into_iter().flat_map(|b| [b.0, b.1]);
        r.value.into_iter().chain(band)
    });
    let (low, high) =
        values.filter(|v| v.is_finite()).fold((0.0, 0.0), |(l, h): (f64, f64), v| (l.min(v), h.max(v)));
    let span = (high - low).max(1e-9);
    let low = if low < 0.0 { low - 0.04 * span } else { 0.0 };
    let high = if high > 0.0 || low == 0.0 { high + 0.04 * span } else { 0.08 * span };
    Place {
        label: Rangef::new(x.min, x.min + label),
        text: Rangef::new(middle.max + 12.0, x.max),
        scale: Scale::across((low, high), middle),
    }
}

fn paint_grid(painter: &Painter, y: Rangef, place: &Place, look: &Look) {
    for tick in place.scale.ticks(look.measures.body * 4.6) {
        painter.vline(place.scale.at(tick), y, look.hairline(look.palette.rule));
    }
}

fn paint_axis(painter: &Painter, rect: Rect, bars: &Bars, place: &Place, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let font = fonts::regular(m.small);
    for tick in place.scale.ticks(m.body * 4.6) {
        let unit = if tick == 0.0 { format!(" {}", bars.unit) } else { String::new() };
        let sign = if tick > 0.0 && place.scale.values.0 < 0.0 { "+" } else { "" };
        let text = format!("{sign}{}{unit}", look.decimal(short(tick)));
        painter.text(
            pos2(place.scale.at(tick), rect.top() + 3.0),
            Align2::CENTER_TOP,
            text,
            font.clone(),
            p.ink2,
        );
    }
    let bold = fonts::bold(m.small);
    let (low, high) = (place.scale.pixels.0 - 26.0, place.scale.pixels.1 + 26.0);
    if place.scale.values.0 < 0.0 {
        painter.text(pos2(low, rect.top() + 3.0), Align2::RIGHT_TOP, &bars.ends.0, bold.clone(), p.ink2);
    }
    painter.text(pos2(high, rect.top() + 3.0), Align2::LEFT_TOP, &bars.ends.1, bold, p.ink2);
}

fn paint_row(painter: &Painter, rect: Rect, row: &Bar, place: &Place, stale: bool, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    paint_label(painter, rect, row, place, look);
    let zero = place.scale.at(0.0);
    painter.vline(zero, rect.y_range(), Stroke::new(2.0 * m.line, p.ink));
    let color = match &row.kit {
        _ if stale => p.edge,
        Some((kit, _)) => lines::kit_color(*kit, p),
        None => p.level,
    };
    let y = Rangef::new(rect.center().y - m.body * 0.55, rect.center().y + m.body * 0.55);
    if let Some(value) = row.value {
        paint_bar(painter, (zero, place.scale.at(value)), y, row.hollow, color, look);
    }
    if let Some((low, high)) = row.band {
        let band =
            Rect::from_x_y_ranges(Rangef::new(place.scale.at(low), place.scale.at(high)), y.expand(2.0));
        let corners = [band.left_top(), band.right_top(), band.right_bottom(), band.left_bottom()];
        lines::hatch(painter, &corners, if row.hollow { p.ink2 } else { p.ghost }, 6.0);
        painter.rect_stroke(band, 0.0, look.hairline(p.ink2), StrokeKind::Inside);
    }
    if let (Some(value), true) = (row.value, row.band.is_some()) {
        painter.vline(place.scale.at(value), y.expand(4.0), Stroke::new(3.0 * m.line, p.ink));
    }
    paint_text(painter, rect, row, place, look);
}

fn paint_bar(
    painter: &Painter,
    (zero, end): (f32, f32),
    y: Rangef,
    hollow: bool,
    color: Color32,
    look: &Look,
) {
    let bar = Rect::from_x_y_ranges(Rangef::new(zero.min(end), zero.max(end)), y);
    if hollow {
        painter.rect(bar, 0.0, look.palette.field, Stroke::new(1.5, color), StrokeKind::Inside);
    } else {
        painter.rect_filled(bar, 0.0, color);
    }
}

fn paint_label(painter: &Painter, rect: Rect, row: &Bar, place: &Place, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let center = rect.center().y;
    let painter = painter
        .with_clip_rect(painter.clip_rect().intersect(Rect::from_x_y_ranges(place.label, rect.y_range())));
    if let (Some((kit, letter)), Some((other, other_letter))) = (&row.kit, &row.against) {
        let mut x = place.label.min + 12.0;
        for (at, name, word) in [(*kit, letter, "against"), (*other, other_letter, "")] {
            paint_kit_mark(&painter, pos2(x, center), 7.0, at, p);
            let name =
                painter.text(pos2(x + 12.0, center), Align2::LEFT_CENTER, name, fonts::bold(m.strong), p.ink);
            let at = pos2(name.right() + 8.0, center);
            x = painter.text(at, Align2::LEFT_CENTER, word, fonts::regular(m.small), p.ink2).right() + 18.0;
        }
        return;
    }
    let left = label_left(row, place);
    if let Some((kit, _)) = &row.kit {
        paint_kit_mark(&painter, pos2(left - 13.0, center), 6.0, *kit, p);
    }
    let (label, detail) = label_words(&painter, row, place, look);
    let label_height = label.size().y;
    if row.detail.is_empty() {
        painter.galley(pos2(left, center - label_height / 2.0), label, p.ink);
    } else {
        let top = center - (label_height + detail.size().y) / 2.0;
        painter.galley(pos2(left, top), label, p.ink);
        painter.galley(pos2(left, top + label_height), detail, p.ink2);
    }
}

fn label_left(row: &Bar, place: &Place) -> f32 {
    place.label.min + if row.kit.is_some() { 26.0 } else { 6.0 }
}

/// Label and detail, in as many lines as they need.
fn label_words(painter: &Painter, row: &Bar, place: &Place, look: &Look) -> (Arc<Galley>, Arc<Galley>) {
    let (m, p) = (&look.measures, look.palette);
    let font = if row.strong { fonts::bold(m.body) } else { fonts::regular(m.body) };
    let room = (place.label.max - label_left(row, place)).max(20.0);
    let detail = painter.layout(row.detail.clone(), fonts::regular(m.small), p.ink2, room);
    (painter.layout(row.label.clone(), font, p.ink, room), detail)
}

/// The words at the right.
fn text_words(painter: &Painter, row: &Bar, place: &Place, look: &Look) -> Arc<Galley> {
    let m = &look.measures;
    let font = if row.strong || row.hollow { fonts::bold(m.body) } else { fonts::regular(m.body) };
    let mark = if row.mark.is_some() { mark_side(look) + 6.0 } else { 0.0 };
    let room = (place.text.max - place.text.min - mark).max(20.0);
    painter.layout(row.text.clone(), font, look.palette.ink, room)
}

fn mark_side(look: &Look) -> f32 {
    look.measures.body * 1.4
}

fn paint_text(painter: &Painter, rect: Rect, row: &Bar, place: &Place, look: &Look) {
    let p = look.palette;
    let mut left = place.text.min;
    if let Some(mark) = row.mark {
        let side = mark_side(look);
        let square = Rect::from_min_size(pos2(left, rect.center().y - side / 2.0), vec2(side, side));
        paint_mark(mark, painter, square, p);
        left += side + 6.0;
    }
    let galley = text_words(painter, row, place, look);
    let at = pos2(left, rect.center().y - galley.size().y / 2.0);
    if row.hollow {
        let frame = Rect::from_min_size(at, galley.size()).expand2(vec2(6.0, 4.0));
        let corners = [
            frame.left_top(),
            frame.right_top(),
            frame.right_bottom(),
            frame.left_bottom(),
            frame.left_top(),
        ];
        painter.extend(egui::Shape::dashed_line(&corners, Stroke::new(1.5, p.ink), 4.0, 3.0));
    }
    painter.galley(at, galley, p.ink);
}
