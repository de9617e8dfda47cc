//! Marks that say something about a part or an answer: by shape first, then by colour.

use std::f32::consts::PI;

use super::pen::{BOX, Ink, Pen, Shape};
use crate::power::Grade;

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

impl From<Grade> for Mark {
    fn from(grade: Grade) -> Self {
        match grade {
            Grade::Stop => Self::Stop,
            Grade::Warning => Self::Warning,
            Grade::Note => Self::Note,
        }
    }
}

impl Mark {
    /// Its shapes in a box of 96, from the back to the front.
    pub fn shapes(self) -> Vec<Shape> {
        let mut pen = Pen::new(BOX, false);
        match self {
            Self::Stop => {
                let corners: Vec<(f32, f32)> = (0..8)
                    .map(|i| {
                        let angle = PI / 8.0 + PI / 4.0 * i as f32;
                        (48.0 + 42.0 * angle.cos(), 48.0 + 42.0 * angle.sin())
                    })
                    .collect();
                pen.convex(&corners, Ink::Stop);
                pen.rect(24.0, 42.0, 48.0, 12.0, Ink::Sheet);
            }
            Self::Warning => {
                pen.convex(&[(48.0, 6.0), (93.0, 86.0), (3.0, 86.0)], Ink::Rim);
                pen.convex(&[(48.0, 18.0), (83.0, 80.0), (13.0, 80.0)], Ink::Warning);
                pen.rect(44.0, 38.0, 8.0, 24.0, Ink::WarningMark);
                pen.rect(44.0, 67.0, 8.0, 8.0, Ink::WarningMark);
            }
            Self::Note => {
                pen.ring(48.0, 48.0, 38.0, 8.0, Ink::Level);
                pen.rect(44.0, 42.0, 8.0, 30.0, Ink::Level);
                pen.rect(44.0, 26.0, 8.0, 9.0, Ink::Level);
            }
            Self::Flash => {
                let wave: Vec<(f32, f32)> = (0..45)
                    .map(|i| {
                        let i = i as f32;
                        (4.0 + 2.0 * i, 58.0 - 14.0 * (i * 2.0 / 88.0 * 5.0 * PI).sin())
                    })
                    .collect();
                pen.line(&wave, 7.0, Ink::Level);
                for (x, y, r) in [(26.0, 26.0, 7.0), (48.0, 16.0, 5.0), (68.0, 26.0, 8.0)] {
                    pen.ring(x, y, r, 4.0, Ink::Level);
                }
            }
        }
        pen.into_shapes()
    }
}
