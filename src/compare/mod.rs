//! Reasons: kits side by side, what counts in a kit, bands, sweeps.
//!
//! Everything here changes a document or a setup, solves it again and compares headline figures;
//! no physics of its own. What is compared is the operating point; the minutes of a whole job have
//! their place in [`Headline`] and are empty until something fills them there.

mod align;
mod aspect;
mod bands;
mod better;
mod choice;
mod differs;
mod draws;
mod error;
mod headline;
mod ideal;
mod prices;
mod side_by_side;
mod spread;
mod sweep;
mod uncertain;
mod vary;
mod what_counts;

pub use align::{Pair, align, same_job};
pub use aspect::Group;
pub use bands::{Band, Bands, Difference, KitBands, Verdict, bands};
pub use better::Change;
pub use better::thicker;
pub use choice::{MOST_KITS, chosen, kept};
pub use differs::{Differing, FieldDifference, PartDifference, differing};
pub use draws::{DEFAULT_DRAWS, DrawPlan};
pub use error::CompareError;
pub use headline::{Figure, Headline};
pub use prices::Prices;
pub use side_by_side::{Column, SideBySide, side_by_side};
pub use spread::Spread;
pub use sweep::{MOST_CELLS, Sweep, SweptKit, SweptRow, sweep};
pub use uncertain::{Basis, Input, inputs};
pub use vary::{Axis, DEFAULT_STEPS};
pub use what_counts::{BestPair, Better, Gain, Row, WhatCounts, what_counts};
