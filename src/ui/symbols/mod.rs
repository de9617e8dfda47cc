//! Symbols and marks on the screen: the shapes of `narrows::report::drawing` in the theme's colours.

mod marks;
mod pen;

use egui::{Color32, Painter, Rect};

use super::style::Palette;
pub use marks::{paint_kit_mark, paint_mark};
use narrows::report::drawing::Ink;
pub use narrows::report::drawing::{BOX, JOINT_HALF, JOINT_WALL, Mark, Symbol};
use pen::Pen;

/// What is in a passage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Fluid {
    /// Vapour only.
    #[default]
    Vapor,
    /// Liquid only.
    Liquid,
    /// Liquid with vapour in it.
    Mixed,
}

/// Colours of one drawing of a symbol.
#[derive(Clone, Copy, Debug)]
pub struct Tints {
    /// Solid.
    pub wall: Color32,
    /// What shows through an opening.
    pub sheet: Color32,
    /// Passage.
    pub fluid: Color32,
    /// Liquid in a vessel.
    pub liquid: Color32,
}

impl Tints {
    /// The usual colours; `stale` draws the walls in the edge colour while a new answer is sought.
    pub fn new(palette: &Palette, fluid: Fluid, stale: bool) -> Self {
        let fluid = match fluid {
            Fluid::Vapor => palette.vapor,
            Fluid::Liquid => palette.liquid,
            Fluid::Mixed => palette.vapor.lerp_to_gamma(palette.liquid, 0.5),
        };
        let wall = if stale { palette.edge } else { palette.wall };
        Self { wall, sheet: palette.sheet, fluid, liquid: palette.liquid }
    }

    fn of(&self, ink: Ink) -> Color32 {
        match ink {
            Ink::Sheet => self.sheet,
            Ink::Fluid => self.fluid,
            Ink::Liquid => self.liquid,
            _ => self.wall,
        }
    }
}

/// Draws a symbol into a rectangle; `size` is the side of the box of 96.
pub trait PaintSymbol {
    /// Draws it.
    fn paint(self, painter: &Painter, rect: Rect, size: f32, t: Tints);
}

impl PaintSymbol for Symbol {
    fn paint(self, painter: &Painter, rect: Rect, size: f32, t: Tints) {
        let pen = Pen::new(painter, rect, size);
        for shape in self.shapes(pen.width, pen.is_small()) {
            pen.shape(&shape, t.of(shape.ink()));
        }
    }
}
