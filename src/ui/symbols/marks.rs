//! Marks on the screen, and the marks of the kits.

use egui::{Color32, Painter, Pos2, Rect, Stroke, StrokeKind, vec2};
use narrows::report::drawing::{Ink, Mark};

use super::pen::Pen;
use crate::ui::style::Palette;

/// Draws a mark into a square.
pub fn paint_mark(mark: Mark, painter: &Painter, rect: Rect, p: &Palette) {
    let pen = Pen::new(painter, rect, rect.height());
    for shape in mark.shapes() {
        let color = match shape.ink() {
            Ink::Stop => p.stop,
            Ink::Rim => p.ink,
            Ink::Warning => p.warning_fill,
            Ink::WarningMark => p.warning_ink,
            Ink::Sheet => p.sheet,
            _ => p.level,
        };
        pen.shape(&shape, color);
    }
}

/// The shape that goes with a kit's letter: A disc, B square, C triangle, D diamond; later kits
/// take a disc again and rely on their letter.
pub fn paint_kit_mark(painter: &Painter, center: Pos2, r: f32, kit: usize, p: &Palette) {
    let stroke = |color: Color32| Stroke::new(2.0, color);
    match kit {
        1 => {
            let rect = Rect::from_center_size(center, vec2(2.0 * r, 2.0 * r));
            painter.rect_stroke(rect, 0.0, stroke(p.ink), StrokeKind::Inside);
        }
        2 => {
            let points =
                [(0.0, -1.15), (1.15, 0.95), (-1.15, 0.95)].map(|(x, y)| center + vec2(x * r, y * r));
            painter.add(egui::Shape::closed_line(points.to_vec(), stroke(p.kit_c)));
        }
        3 => {
            let points = [(0.0, -1.25), (1.25, 0.0), (0.0, 1.25), (-1.25, 0.0)]
                .map(|(x, y)| center + vec2(x * r, y * r));
            painter.add(egui::Shape::convex_polygon(points.to_vec(), p.kit_d, Stroke::NONE));
        }
        _ => {
            painter.circle_filled(center, r, p.level);
        }
    }
}
