//! Puts the shapes of a box of 96 by 96 on the screen, at any size.

use egui::epaint::{Mesh, PathShape, PathStroke, Vertex};
use egui::{Color32, CornerRadius, Painter, Pos2, Rect, Stroke, pos2, vec2};
use narrows::report::drawing::{AXIS, BOX, Shape};

/// Draws in box units; `scale` is pixels per box unit.
pub struct Pen<'a> {
    painter: &'a Painter,
    origin: Pos2,
    scale: f32,
    /// Width of the drawing in box units: 96, or more for a part that fills its column.
    pub width: f32,
}

impl<'a> Pen<'a> {
    /// A pen whose box has this height on screen, centred on the rectangle's height; the width is
    /// the rectangle's.
    pub fn new(painter: &'a Painter, rect: Rect, size: f32) -> Self {
        let scale = (size / BOX).max(1e-3);
        let origin = pos2(rect.left(), rect.center().y - AXIS * scale);
        Self { painter, origin, scale, width: rect.width() / scale }
    }

    /// Whether details would only blur.
    pub fn is_small(&self) -> bool {
        self.scale < 40.0 / BOX
    }

    /// Draws one shape.
    pub fn shape(&self, shape: &Shape, color: Color32) {
        match shape {
            Shape::Rect { at: [x, y, w, h], round, .. } => self.round_rect(*x, *y, *w, *h, *round, color),
            Shape::Convex { points, .. } => self.convex(points, color),
            Shape::Disc { at, radius, .. } => self.disc(at.0, at.1, *radius, color),
            Shape::Ring { at, radius, width, .. } => self.ring(at.0, at.1, *radius, *width, color),
            Shape::Line { points, width, .. } => self.line(points, *width, color),
            Shape::Channel { stations, .. } => self.channel(stations, color),
        }
    }

    fn at(&self, x: f32, y: f32) -> Pos2 {
        pos2(self.origin.x + x * self.scale, self.origin.y + y * self.scale)
    }

    fn width_px(&self, w: f32) -> f32 {
        (w * self.scale).max(1.2)
    }

    /// A filled rectangle with rounded corners.
    fn round_rect(&self, x: f32, y: f32, w: f32, h: f32, r: f32, fill: Color32) {
        let rect = Rect::from_min_size(self.at(x, y), vec2(w, h) * self.scale);
        self.painter.rect_filled(rect, radius(r * self.scale), fill);
    }

    /// A filled convex polygon.
    fn convex(&self, points: &[(f32, f32)], fill: Color32) {
        let points = points.iter().map(|&(x, y)| self.at(x, y)).collect();
        self.painter.add(PathShape::convex_polygon(points, fill, Stroke::NONE));
    }

    /// A filled disc.
    fn disc(&self, x: f32, y: f32, r: f32, fill: Color32) {
        self.painter.circle_filled(self.at(x, y), r * self.scale, fill);
    }

    /// A ring.
    fn ring(&self, x: f32, y: f32, r: f32, width: f32, color: Color32) {
        let stroke = Stroke::new(self.width_px(width), color);
        self.painter.circle_stroke(self.at(x, y), r * self.scale, stroke);
    }

    /// A line through points.
    fn line(&self, points: &[(f32, f32)], width: f32, color: Color32) {
        let points = points.iter().map(|&(x, y)| self.at(x, y)).collect();
        let stroke = PathStroke::new(self.width_px(width), color);
        self.painter.add(egui::Shape::line(points, stroke));
    }

    /// A passage round the axis, given as (x, half height) from left to right.
    ///
    /// Drawn as a mesh, so that neighbouring stretches leave no seam.
    fn channel(&self, stations: &[(f32, f32)], fill: Color32) {
        let mut mesh = Mesh::default();
        for (i, &(x, half)) in stations.iter().enumerate() {
            for y in [AXIS - half, AXIS + half] {
                let pos = self.at(x, y);
                mesh.vertices.push(Vertex { pos, uv: egui::epaint::WHITE_UV, color: fill });
            }
            if i > 0 {
                let k = 2 * i as u32;
                mesh.add_triangle(k - 2, k - 1, k);
                mesh.add_triangle(k - 1, k, k + 1);
            }
        }
        self.painter.add(egui::Shape::mesh(mesh));
        for pair in stations.windows(2) {
            if let [(x0, h0), (x1, h1)] = *pair
                && (h0 - h1).abs() > 0.01
            {
                for side in [-1.0, 1.0] {
                    let line = [self.at(x0, AXIS + side * h0), self.at(x1, AXIS + side * h1)];
                    self.painter.line_segment(line, Stroke::new(1.0, fill));
                }
            }
        }
    }
}

/// A corner radius in whole pixels, as egui keeps it.
fn radius(px: f32) -> CornerRadius {
    CornerRadius::same(px.round().clamp(0.0, 255.0) as u8)
}
