//! Quantities: numbers kept as a person typed them, gauge pressure, and how values are written.
//!
//! A [`Typed`] quantity holds its text and its finite value. Physics takes the value; files and
//! fields keep the text.

mod display;
mod error;
pub mod factors;
pub mod gauge;
mod measure;
mod number;
mod pressure;
mod typed;
mod unit_set;
mod wire;
mod words;

pub use display::three_figures;
pub use error::UnitError;
pub use gauge::GaugePressure;
pub use measure::{ApparentPower, CoolingCapacity, FlowCoefficient, Measure, PressureDifference, Unit};
pub use pressure::{Reference, TypedPressure};
pub use typed::Typed;
pub(crate) use typed::text_or_number;
pub use unit_set::{BoreUnit, LengthUnit, MassUnit, PressureUnit, RateUnit, TemperatureUnit, UnitSet};
pub use wire::{TypedWire, WireSize};
pub use words::{as_sentence, with_capital};
pub(crate) use words::{bare_word, both_scales};
