//! Painting of the branch of a second port: a lighter passage above the first one, from the
//! system to where the two meet.

use egui::{Align2, Painter, Pos2, Rect, Response, Stroke, StrokeKind, pos2, vec2};

use super::paint::{axis_of, fit, paint_link};
use super::{Chain, Link, SecondRow};
use crate::ui::diagram::columns::Columns;
use crate::ui::diagram::lines::polyline;
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::{BOX, JOINT_HALF, JOINT_WALL, PaintSymbol as _, Symbol, Tints};

pub fn paint(
    painter: &Painter,
    above: Rect,
    below: Rect,
    columns: &Columns,
    chain: &Chain,
    responses: &[(usize, Response)],
    look: &Look,
) {
    let Some(row) = &chain.second else { return };
    let text = look.measures.small * 1.5;
    let size = columns.symbol_size(&look.measures) * 0.6;
    let axis = above.top() + text + (above.height() - text) * 0.5;
    let tints = Tints::new(look.palette, row.fluid, chain.stale);
    pipes(painter, chain, row, columns, axis, size, axis_of(below, look), tints, look);
    for (i, link) in row.links.iter().enumerate().take(row.joins).skip(1) {
        let span = columns.span(i);
        let area = Rect::from_x_y_ranges(span, above.y_range()).shrink(1.5);
        if row.selected == Some(i) {
            painter.rect_filled(area, 0.0, look.palette.field);
        }
        let Some(link) = link else {
            let square = Rect::from_center_size(pos2(span.center(), axis), vec2(span.span(), size));
            Symbol::Pipe.paint(painter, square, size, tints);
            continue;
        };
        paint_link(painter, span, axis, size, link, chain.stale, look);
        let galley = label(painter, link, span.span() - 6.0, look);
        let place = Align2::CENTER_TOP.anchor_size(pos2(span.center(), above.top() + 3.0), galley.size());
        painter.galley(place.min, galley, look.palette.ink);
        let response = responses.iter().find(|(at, _)| *at == i).map(|(_, r)| r);
        let touched = response.is_some_and(|r| r.hovered() || r.has_focus());
        if row.selected == Some(i) {
            let stroke = Stroke::new(look.measures.focus_line(), look.palette.ink);
            painter.rect_stroke(area, 0.0, stroke, StrokeKind::Inside);
        } else if touched {
            painter.rect_stroke(area, 0.0, look.hairline(look.palette.edge), StrokeKind::Inside);
        }
    }
}

/// Name and size on one line; where both have no room the symbol is name enough.
fn label(painter: &Painter, link: &Link, room: f32, look: &Look) -> std::sync::Arc<egui::Galley> {
    let font = fonts::regular(look.measures.small);
    let words = format!("{}, {}", link.name, link.detail);
    let whole = painter.layout_no_wrap(words, font.clone(), look.palette.ink);
    if whole.size().x <= room { whole } else { fit(painter, &link.detail, font, look.palette.ink, room) }
}

/// From the system up and along, and down to the meeting: into a tee's own side if it is one.
#[expect(clippy::too_many_arguments, reason = "one caller, all of them plain measures")]
fn pipes(
    painter: &Painter,
    chain: &Chain,
    row: &SecondRow,
    columns: &Columns,
    axis: f32,
    size: f32,
    main_axis: f32,
    tints: Tints,
    look: &Look,
) {
    let main = columns.symbol_size(&look.measures);
    let port = columns.span(0).center() - 0.05 * main;
    let up = vec![pos2(port, main_axis - 0.36 * main), pos2(port, axis), pos2(columns.span(0).max, axis)];
    let end = columns.span(row.joins);
    let into_tee = chain.links.get(row.joins).is_some_and(|l| matches!(l.symbol, Some(Symbol::Tee { .. })));
    let (x, bottom) = if into_tee {
        (end.center(), main_axis - 0.4 * main)
    } else {
        (end.min, main_axis - JOINT_HALF * main / BOX * 0.5)
    };
    let down =
        vec![pos2(columns.span(row.joins.saturating_sub(1)).max, axis), pos2(x, axis), pos2(x, bottom)];
    for line in [up, down] {
        pipe(painter, line, size, tints);
    }
}

fn pipe(painter: &Painter, line: Vec<Pos2>, size: f32, t: Tints) {
    let k = size / BOX;
    for (half, color) in [(JOINT_HALF + JOINT_WALL, t.wall), (JOINT_HALF, t.fluid)] {
        polyline(painter, line.clone(), Stroke::new(2.0 * half * k, color), None);
    }
}
