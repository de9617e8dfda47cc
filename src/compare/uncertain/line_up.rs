//! What is in no model and differs from one line-up to the next.
//!
//! Coils and kinks, gaskets, oil in the hose, how far a valve is turned, how a scale is read: two
//! line-ups scatter about their computed rates independently of each other, which no input of a
//! document holds. It is drawn as a factor on the rate (a discrepancy term in the sense of Kennedy
//! and O'Hagan 2001, *Bayesian calibration of computer models*). The same parts in the same order
//! are the same line-up, so a kit and its copy share it.

use super::assumed::LINE_UP;
use super::{Basis, Input};
use crate::compare::spread::Spread;
use crate::kit::Kit;
use crate::scenario::Document;

/// The scatter of one kit's line-up.
pub(in crate::compare) struct LineUp {
    key: String,
    spread: Spread,
    basis: Basis,
}

impl Default for LineUp {
    /// Of nothing.
    fn default() -> Self {
        let (spread, basis) = LINE_UP.around(1.0);
        Self { key: String::new(), spread, basis }
    }
}

impl LineUp {
    /// Of a kit.
    pub fn of(kit: &Kit) -> Self {
        let (spread, basis) = LINE_UP.around(1.0);
        // What is written, without the names that a copy may change.
        let parts = |parts: &[crate::kit::Part]| {
            let plain = parts.iter().cloned().map(|mut part| {
                part.set_name(None);
                part
            });
            format!("{:?}", plain.collect::<Vec<_>>())
        };
        let second =
            kit.second_port.as_ref().map(|second| (parts(&second.parts), second.port, second.joins_before));
        Self { key: format!("line-up {} {second:?} {:?}", parts(&kit.parts), kit.port), spread, basis }
    }

    /// The factor on the rate for a number of 0 to 1.
    pub fn factor_ratio(&self, u: f64) -> f64 {
        self.spread.quantile(u)
    }

    /// What its draws are keyed by.
    pub fn key(&self) -> &str {
        &self.key
    }
}

/// The scatter of every kit, as inputs.
pub(super) fn inputs(document: &Document) -> Vec<Input> {
    let mut listed: Vec<Input> = Vec::new();
    for kit in &document.kits {
        let LineUp { key, spread, basis } = LineUp::of(kit);
        let place = format!("kits.{}", kit.name);
        match listed.iter_mut().find(|input| input.key == key) {
            Some(input) => input.places.push(place),
            None => listed.push(Input {
                key,
                name: format!("Line-up of kit {}", kit.name),
                places: vec![place],
                spread,
                words: "93 to 107 % of the rate, likely 100 %".to_owned(),
                basis,
            }),
        }
    }
    listed
}
