//! Reasons: kits side by side, what counts in a kit, bands, sweeps.
//!
//! Everything here changes a document or a setup, solves it again and compares headline figures;
//! no physics of its own. Operating points are quick, whole jobs are not: what follows jobs is asked
//! for apart and can be stopped or driven step by step.

mod align;
mod aspect;
mod bands;
mod better;
mod break_even;
mod choice;
mod count_minutes;
mod differs;
mod drawing;
mod draws;
mod error;
mod gain;
mod gain_bands;
mod headline;
mod hoses;
mod ideal;
mod place;
mod prices;
mod side_by_side;
mod spread;
mod sweep;
mod to_start;
mod uncertain;
mod vary;
mod way;
mod what_counts;
mod whole_job;

pub use align::{Pair, align, same_job};
pub use aspect::Group;
pub use bands::{Band, Bands, Difference, KitBands, Verdict};
pub use better::{Change, thicker};
pub use break_even::{BreakEvenBand, BreakEvenDrawing, methods_break_even};
pub use choice::{MOST_KITS, chosen, kept};
pub use count_minutes::count_minutes;
pub use differs::{Differing, FieldDifference, PartDifference, differing};
pub use drawing::{Depth, Drawing, bands};
pub use draws::{DEFAULT_DRAWS, DEFAULT_JOB_DRAWS, DrawPlan};
pub use error::CompareError;
pub use gain::Gain;
pub use gain_bands::{GainBands, GainDrawing, RowBands};
pub use headline::{Figure, Headline};
pub use place::{Placed, Places, Trouble, places, rate_difference};
pub use prices::Prices;
pub use side_by_side::{Column, SideBySide, side_by_side};
pub use spread::Spread;
pub use sweep::{MOST_CELLS, Sweep, SweptKit, SweptRow, sweep};
pub use to_start::{StartingChange, ToStart};
pub use uncertain::{Basis, Input, inputs};
pub use vary::{Axis, DEFAULT_STEPS};
pub use way::{DEFAULT_PLACES, NoWay, PlaceAsk, Stretch, Way};
pub use what_counts::{BestPair, Better, Row, WhatCounts, what_counts};
pub use whole_job::{JobFigures, WholeJob, whole_jobs};
