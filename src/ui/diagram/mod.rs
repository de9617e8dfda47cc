//! The drawings: the chain of parts, the pressure stairs under it, the voltage stairs.
//!
//! Each is `model → layout → paint`. A model is plain numbers and words, ready to be shown; no
//! drawing knows the document, the results or a unit.

pub mod bars;
pub mod chain;
pub mod chilling;
pub mod clock;
pub mod columns;
pub mod fill;
pub mod lines;
pub mod rates;
pub mod residuals;
pub mod stairs;
pub mod time;
pub mod timeline;
pub mod trade;
pub mod volts;

pub use narrows::report::drawing::{axis, ticks};
