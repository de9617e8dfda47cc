//! Lines with a meaning: one dash for each kit, the ghost, reference lines, hatching, folds.

use egui::epaint::PathStroke;
use egui::{Color32, Painter, Pos2, Rangef, Rect, Shape, Stroke, pos2};

use crate::ui::style::{Look, Palette};

/// The dash pattern of a kit by its place (A, B, C, D): (lengths of dashes, lengths of gaps).
pub fn kit_dash(kit: usize) -> Option<(&'static [f32], &'static [f32])> {
    match kit {
        1 => Some((&[10.0], &[5.0])),
        2 => Some((&[2.5], &[4.0])),
        3 => Some((&[10.0, 2.5], &[4.0, 4.0])),
        _ => None,
    }
}

/// The colour of a kit's line.
pub fn kit_color(kit: usize, p: &Palette) -> Color32 {
    match kit {
        1 => p.ink,
        2 => p.kit_c,
        3 => p.kit_d,
        _ => p.level,
    }
}

/// A line through points, solid or dashed.
pub fn polyline(painter: &Painter, mut points: Vec<Pos2>, stroke: Stroke, dash: Option<(&[f32], &[f32])>) {
    // Where a point stands twice, the painter knows no direction and draws a wedge.
    points.dedup_by(|b, a| a.distance(*b) < 0.01);
    match dash {
        None => {
            painter.add(Shape::line(points, PathStroke::new(stroke.width, stroke.color)));
        }
        Some((dashes, gaps)) => {
            painter.extend(Shape::dashed_line_with_offset(&points, stroke, dashes, gaps, 0.0));
        }
    }
}

/// The line of the answer before.
pub fn ghost(painter: &Painter, points: Vec<Pos2>, look: &Look) {
    let stroke = Stroke::new(look.measures.ghost_line(), look.palette.ghost);
    polyline(painter, points, stroke, Some((&[6.0], &[4.0])));
}

/// A reference line: nameplate, 0 psig.
pub fn reference(painter: &Painter, x: Rangef, y: f32, look: &Look) {
    let stroke = Stroke::new(look.measures.reference_line(), look.palette.ghost);
    let points = vec![pos2(x.min, y), pos2(x.max, y)];
    polyline(painter, points, stroke, Some((&[10.0, 2.0], &[3.0, 3.0])));
}

/// Diagonal hatching of a convex outline.
pub fn hatch(painter: &Painter, outline: &[Pos2], color: Color32, pitch: f32) {
    let key = |p: Pos2| p.x + p.y;
    let low = outline.iter().map(|p| key(*p)).fold(f32::INFINITY, f32::min);
    let high = outline.iter().map(|p| key(*p)).fold(f32::NEG_INFINITY, f32::max);
    if !(high - low).is_finite() || high - low > 8000.0 {
        return;
    }
    let mut at = (low / pitch).ceil() * pitch;
    while at < high {
        let mut crossings: Vec<Pos2> = Vec::with_capacity(2);
        for (i, a) in outline.iter().enumerate() {
            let b = outline.get((i + 1) % outline.len()).unwrap_or(a);
            let (ka, kb) = (key(*a), key(*b));
            if (ka < at) != (kb < at) {
                crossings.push(*a + (*b - *a) * ((at - ka) / (kb - ka)));
            }
        }
        if let [a, b] = crossings.as_slice() {
            painter.line_segment([*a, *b], Stroke::new(1.0, color));
        }
        at += pitch;
    }
}

/// A folded stretch: two zigzag lines with the ground between, and what is hidden in words.
pub fn fold(painter: &Painter, x: Rangef, y: Rangef, text: &str, look: &Look) {
    const PITCH: f32 = 10.0;
    const AMPLITUDE: f32 = 3.0;
    let p = look.palette;
    let (top, bottom) = (y.min + AMPLITUDE + 1.0, y.max - AMPLITUDE - 1.0);
    painter.rect_filled(Rect::from_x_y_ranges(x, Rangef::new(top, bottom)), 0.0, p.ground);
    for edge in [top, bottom] {
        let mut points = Vec::new();
        let mut at = x.min;
        let mut up = false;
        while at <= x.max + 0.1 {
            points.push(pos2(at, edge + if up { -AMPLITUDE } else { AMPLITUDE }));
            up = !up;
            at += PITCH;
        }
        painter.add(Shape::line(points, PathStroke::new(1.2, p.edge)));
    }
    let font = crate::ui::style::fonts::regular(look.measures.small);
    let galley = painter.layout_no_wrap(text.to_owned(), font, p.ink2);
    let center = pos2(x.min + 24.0 + galley.size().x / 2.0, y.center());
    let rect = Rect::from_center_size(center, galley.size());
    painter.rect_filled(rect.expand2(egui::vec2(6.0, 1.0)), 0.0, p.ground);
    painter.galley(rect.min, galley, p.ink2);
}
