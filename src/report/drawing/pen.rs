//! A pen that draws in a box of 96 by 96 with the flow along y = 48, as plain shapes.

/// Side of the box that symbols are described in.
pub const BOX: f32 = 96.0;
/// The flow axis in that box.
pub const AXIS: f32 = 48.0;

/// What a shape stands for; screen and paper give it a colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// Solid.
    Wall,
    /// What shows through an opening.
    Sheet,
    /// A passage.
    Fluid,
    /// Liquid in a vessel.
    Liquid,
    /// The Stop octagon.
    Stop,
    /// The rim of the Warning triangle.
    Rim,
    /// The inside of the Warning triangle.
    Warning,
    /// The mark in the Warning triangle.
    WarningMark,
    /// A Note, a flash.
    Level,
}

/// One shape in box units.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A filled rectangle.
    Rect {
        /// Left, top, width, height.
        at: [f32; 4],
        /// Radius of its corners.
        round: f32,
        /// Its ink.
        ink: Ink,
    },
    /// A filled convex polygon.
    Convex {
        /// Its corners.
        points: Vec<(f32, f32)>,
        /// Its ink.
        ink: Ink,
    },
    /// A filled disc.
    Disc {
        /// Its middle.
        at: (f32, f32),
        /// Its radius.
        radius: f32,
        /// Its ink.
        ink: Ink,
    },
    /// A ring.
    Ring {
        /// Its middle.
        at: (f32, f32),
        /// Radius of the middle of its line.
        radius: f32,
        /// Width of its line.
        width: f32,
        /// Its ink.
        ink: Ink,
    },
    /// A line through points.
    Line {
        /// Its points.
        points: Vec<(f32, f32)>,
        /// Its width.
        width: f32,
        /// Its ink.
        ink: Ink,
    },
    /// A passage round the axis.
    Channel {
        /// Stations from left to right: x and half height.
        stations: Vec<(f32, f32)>,
        /// Its ink.
        ink: Ink,
    },
}

impl Shape {
    /// Its ink.
    pub fn ink(&self) -> Ink {
        match self {
            Self::Rect { ink, .. }
            | Self::Convex { ink, .. }
            | Self::Disc { ink, .. }
            | Self::Ring { ink, .. }
            | Self::Line { ink, .. }
            | Self::Channel { ink, .. } => *ink,
        }
    }
}

/// Collects shapes in box units.
#[derive(Debug)]
pub struct Pen {
    shapes: Vec<Shape>,
    is_small: bool,
    /// Width of the drawing in box units: 96, or more for a part that fills its column.
    pub width: f32,
}

impl Pen {
    /// A pen for a drawing this wide; `is_small` leaves out details that would only blur.
    pub fn new(width: f32, is_small: bool) -> Self {
        Self { shapes: Vec::new(), is_small, width }
    }

    /// What was drawn, from the back to the front.
    pub fn into_shapes(self) -> Vec<Shape> {
        self.shapes
    }

    pub(super) fn is_small(&self) -> bool {
        self.is_small
    }

    pub(super) fn rect(&mut self, x: f32, y: f32, w: f32, h: f32, ink: Ink) {
        self.round_rect(x, y, w, h, 0.0, ink);
    }

    pub(super) fn round_rect(&mut self, x: f32, y: f32, w: f32, h: f32, round: f32, ink: Ink) {
        self.shapes.push(Shape::Rect { at: [x, y, w, h], round, ink });
    }

    pub(super) fn convex(&mut self, points: &[(f32, f32)], ink: Ink) {
        self.shapes.push(Shape::Convex { points: points.to_vec(), ink });
    }

    pub(super) fn disc(&mut self, x: f32, y: f32, radius: f32, ink: Ink) {
        self.shapes.push(Shape::Disc { at: (x, y), radius, ink });
    }

    pub(super) fn ring(&mut self, x: f32, y: f32, radius: f32, width: f32, ink: Ink) {
        self.shapes.push(Shape::Ring { at: (x, y), radius, width, ink });
    }

    pub(super) fn line(&mut self, points: &[(f32, f32)], width: f32, ink: Ink) {
        self.shapes.push(Shape::Line { points: points.to_vec(), width, ink });
    }

    pub(super) fn channel(&mut self, stations: &[(f32, f32)], ink: Ink) {
        self.shapes.push(Shape::Channel { stations: stations.to_vec(), ink });
    }
}
