//! Painting of the chain: focus box, passage, parts, marks, labels.

use egui::{FontId, Painter, Pos2, Rangef, Rect, Stroke, StrokeKind, pos2, vec2};

use super::{Chain, Link};
use crate::ui::diagram::columns::Columns;
use crate::ui::diagram::lines;
use crate::ui::style::measures::{COLUMN_NAMED, COLUMN_TWO_LINES};
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::{BOX, JOINT_HALF, JOINT_WALL, PaintSymbol as _, Tints, paint_mark};

pub fn paint(
    painter: &Painter,
    rect: Rect,
    columns: &Columns,
    chain: &Chain,
    hovered: Option<usize>,
    focused: Option<usize>,
    look: &Look,
) {
    let size = columns.symbol_size(&look.measures);
    let axis = axis_of(rect, look);
    for (i, link) in chain.links.iter().enumerate() {
        let span = columns.span(i);
        let area = Rect::from_x_y_ranges(span, rect.y_range()).shrink2(vec2(1.5, 1.5));
        if chain.selected == Some(i) {
            painter.rect_filled(area, 0.0, look.palette.field);
        }
        paint_link(painter, span, axis, size, link, chain.stale, look);
        // Under small symbols there is room for a line more.
        let top = axis + (look.measures.symbol * 0.5 + 5.0).min(size * 0.5 + 5.0);
        paint_labels(painter, span, top, link, look);
        if chain.selected == Some(i) && chain.tried {
            corner_ticks(painter, area, look);
        } else if chain.selected == Some(i) {
            let stroke = Stroke::new(look.measures.focus_line(), look.palette.ink);
            painter.rect_stroke(area, 0.0, stroke, StrokeKind::Inside);
        } else if hovered == Some(i) || focused == Some(i) {
            let width = if focused == Some(i) { 2.0 } else { 1.0 };
            let stroke = Stroke::new(width, look.palette.edge);
            painter.rect_stroke(area, 0.0, stroke, StrokeKind::Inside);
        }
    }
}

/// Only the corners of a box: tried, not made.
pub fn corner_ticks(painter: &Painter, area: Rect, look: &Look) {
    let stroke = Stroke::new(look.measures.focus_line(), look.palette.ink);
    let arm = 14.0 * look.measures.line;
    for (corner, x, y) in [
        (area.left_top(), arm, arm),
        (area.right_top(), -arm, arm),
        (area.left_bottom(), arm, -arm),
        (area.right_bottom(), -arm, -arm),
    ] {
        let points = vec![corner + vec2(x, 0.0), corner, corner + vec2(0.0, y)];
        painter.add(egui::Shape::line(points, stroke));
    }
}

/// Height of the flow axis.
pub fn axis_of(rect: Rect, look: &Look) -> f32 {
    rect.top() + (look.measures.symbol * 0.5 + 6.0).min(rect.height() * 0.45)
}

pub fn paint_link(
    painter: &Painter,
    span: Rangef,
    axis: f32,
    size: f32,
    link: &Link,
    stale: bool,
    look: &Look,
) {
    let mut tints = Tints::new(look.palette, link.fluid, stale);
    if link.covered {
        (tints.fluid, tints.liquid) = (tints.wall, tints.wall);
    }
    let side = Rect::from_center_size(pos2(span.center(), axis), vec2(size, size));
    let Some(symbol) = link.symbol else {
        let stroke = Stroke::new(2.0 * look.measures.line, look.palette.edge);
        let points = vec![pos2(span.min + 4.0, axis), pos2(span.max - 4.0, axis)];
        lines::polyline(painter, points, stroke, Some((&[6.0], &[4.0])));
        return;
    };
    if symbol.fills_column() {
        let whole = Rect::from_x_y_ranges(span, side.y_range());
        symbol.paint(painter, whole, size, tints);
    } else {
        let stubs = [
            (link.joined_left, Rangef::new(span.min, side.left() + 1.0)),
            (link.joined_right, Rangef::new(side.right() - 1.0, span.max)),
        ];
        for (_, x) in stubs.into_iter().filter(|(joined, _)| *joined) {
            stub(painter, x, axis, size, tints);
        }
        symbol.paint(painter, side, size, tints);
    }
    if let Some(mark) = link.mark {
        let at = Rect::from_center_size(side.right_top() + vec2(-4.0, 8.0), vec2(22.0, 22.0));
        paint_mark(mark, painter, at, look.palette);
    }
}

/// The pipe between two symbols.
fn stub(painter: &Painter, x: Rangef, axis: f32, size: f32, t: Tints) {
    let k = size / BOX;
    for (half, color) in [(JOINT_HALF + JOINT_WALL, t.wall), (JOINT_HALF, t.fluid)] {
        let y = Rangef::new(axis - half * k, axis + half * k);
        painter.rect_filled(Rect::from_x_y_ranges(x, y), 0.0, color);
    }
}

fn paint_labels(painter: &Painter, span: Rangef, top: f32, link: &Link, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let (bold, small) = (fonts::bold(m.small), fonts::regular(m.small));
    let room = span.span() - 4.0;
    if span.span() < COLUMN_NAMED {
        return;
    }
    if span.span() < COLUMN_TWO_LINES * 0.9 {
        return name_in_lines(painter, pos2(span.center(), top), &link.name, room, look);
    }
    let wide =
        |text: &str, font: &FontId| painter.layout_no_wrap(text.to_owned(), font.clone(), p.ink).size().x;
    let (first, rest) = split_name(&link.name, |text| wide(text, &bold) <= room);
    let name = fit(painter, first, bold.clone(), p.ink, room);
    let below = top + name.size().y;
    painter.galley(pos2(span.center() - name.size().x / 2.0, top), name, p.ink);
    let both = match (rest, link.detail.as_str()) {
        ("", detail) => detail.to_owned(),
        (rest, "") => rest.to_owned(),
        (rest, detail) => format!("{rest}, {detail}"),
    };
    // A whole name is worth more than half a size.
    let first_size = both.split_once(", ").map_or(both.as_str(), |(first, _)| first);
    let short = if rest.is_empty() { first_size } else { rest };
    let second = if wide(&both, &small) > room { short } else { both.as_str() };
    let second = fit(painter, second, small, p.ink2, room);
    painter.galley(pos2(span.center() - second.size().x / 2.0, below), second, p.ink2);
}

/// A name in as many lines as it needs, each broken at a gap or a hyphen.
fn name_in_lines(painter: &Painter, at: Pos2, name: &str, room: f32, look: &Look) {
    // One more than name and size take, since the symbols are small.
    const MOST: usize = 3;
    let (font, ink) = (fonts::bold(look.measures.small), look.palette.ink);
    let wide = |text: &str| painter.layout_no_wrap(text.to_owned(), font.clone(), ink).size().x;
    let (mut rest, mut y) = (name, at.y);
    for line in 1..=MOST {
        let (first, more) =
            if line < MOST { split_name(rest, |text| wide(text) <= room) } else { (rest, "") };
        let galley = fit(painter, first, font.clone(), ink, room);
        let height = galley.size().y;
        painter.galley(pos2(at.x - galley.size().x / 2.0, y), galley, ink);
        (rest, y) = (more, y + height);
        if rest.is_empty() {
            return;
        }
    }
}

/// A name in two pieces, the first as long as there is room for; what has no gap or hyphen stays whole.
fn split_name(name: &str, fits: impl Fn(&str) -> bool) -> (&str, &str) {
    if fits(name) {
        return (name, "");
    }
    let ends = name.char_indices().rev().filter_map(|(at, c)| match c {
        ' ' => Some(at),
        '-' => Some(at + 1),
        _ => None,
    });
    let mut pieces = ends.map(|end| name.split_at(end));
    let (first, rest) = pieces.find(|(first, _)| fits(first)).unwrap_or((name, ""));
    (first, rest.trim_start())
}

/// One line of text, cut with an ellipsis if there is no room.
pub fn fit(
    painter: &Painter,
    text: &str,
    font: egui::FontId,
    color: egui::Color32,
    room: f32,
) -> std::sync::Arc<egui::Galley> {
    let mut job = egui::text::LayoutJob::simple_singleline(text.to_owned(), font, color);
    job.wrap = egui::text::TextWrapping::truncate_at_width(room.max(1.0));
    painter.layout_job(job)
}

#[cfg(test)]
mod tests {
    use super::split_name;

    #[test]
    fn a_name_without_room_breaks_at_a_gap_or_a_hyphen() {
        for (room, expected) in [
            (16, ("Self-sealing end", "")),
            (12, ("Self-sealing", "end")),
            (11, ("Self-", "sealing end")),
            (4, ("Self-sealing end", "")),
        ] {
            assert_eq!(split_name("Self-sealing end", |text| text.len() <= room), expected, "{room}");
        }
    }
}
