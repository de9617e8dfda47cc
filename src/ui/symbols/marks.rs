//! Marks that say something about a part or an answer: by shape first, then by colour.

use std::f32::consts::PI;

use egui::{Color32, Painter, Pos2, Rect, Stroke, StrokeKind, vec2};

use super::pen::Pen;
use crate::ui::style::Palette;

/// A mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Octagon: the answer is withheld.
    Stop,
    /// Triangle: the answer is shown, the banner stays.
    Warning,
    /// Circle with an i.
    Note,
    /// Wave with bubbles: liquid begins to flash here.
    Flash,
}

/// Draws a mark into a square.
pub fn paint_mark(mark: Mark, painter: &Painter, rect: Rect, p: &Palette) {
    let pen = Pen::new(painter, rect, rect.height());
    match mark {
        Mark::Stop => {
            let corners: Vec<(f32, f32)> = (0..8)
                .map(|i| {
                    let angle = PI / 8.0 + PI / 4.0 * i as f32;
                    (48.0 + 42.0 * angle.cos(), 48.0 + 42.0 * angle.sin())
                })
                .collect();
            pen.convex(&corners, p.stop);
            pen.rect(24.0, 42.0, 48.0, 12.0, p.sheet);
        }
        Mark::Warning => {
            pen.convex(&[(48.0, 6.0), (93.0, 86.0), (3.0, 86.0)], p.ink);
            pen.convex(&[(48.0, 18.0), (83.0, 80.0), (13.0, 80.0)], p.warning_fill);
            pen.rect(44.0, 38.0, 8.0, 24.0, p.warning_ink);
            pen.rect(44.0, 67.0, 8.0, 8.0, p.warning_ink);
        }
        Mark::Note => {
            pen.ring(48.0, 48.0, 38.0, 8.0, p.level);
            pen.rect(44.0, 42.0, 8.0, 30.0, p.level);
            pen.rect(44.0, 26.0, 8.0, 9.0, p.level);
        }
        Mark::Flash => {
            let wave: Vec<(f32, f32)> = (0..45)
                .map(|i| {
                    let i = i as f32;
                    (4.0 + 2.0 * i, 58.0 - 14.0 * (i * 2.0 / 88.0 * 5.0 * PI).sin())
                })
                .collect();
            pen.line(&wave, 7.0, p.level);
            for (x, y, r) in [(26.0, 26.0, 7.0), (48.0, 16.0, 5.0), (68.0, 26.0, 8.0)] {
                pen.ring(x, y, r, 4.0, p.level);
            }
        }
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
