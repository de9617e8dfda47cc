//! What is in no model and differs from one line-up to the next.
//!
//! Coils and kinks, gaskets, oil in the hose, how far a valve is turned: two line-ups scatter about
//! their computed rates, which no input of a document holds. It is drawn as a factor on the rate (a
//! discrepancy term in the sense of Kennedy and O'Hagan 2001, *Bayesian calibration of computer
//! models*). It lies in the parts: `1 + Σ tᵢ/√n` over `n` parts, each `tᵢ` a triangle of its own, so
//! that every line-up scatters as much and two of them share what lies in the parts they share. A
//! kit and its copy scatter together; of two kits without a common part each goes its own way; a
//! kit with one part changed keeps the scatter of the others.

use super::assumed::LINE_UP;
use super::{Basis, Input};
use crate::compare::draws::DrawPlan;
use crate::compare::spread::Spread;
use crate::kit::{Content, FilterDrier, GaugeSet, Hole, Kit, Part, Tube, Valve};
use crate::scenario::Document;

/// The scatter of one kit's line-up.
pub(in crate::compare) struct LineUp {
    /// One a part; the same part twice has two.
    keys: Vec<String>,
    spread: Spread,
    basis: Basis,
}

impl Default for LineUp {
    /// Of nothing.
    fn default() -> Self {
        Self::of_parts(std::iter::empty())
    }
}

impl LineUp {
    /// Of a kit.
    pub fn of(kit: &Kit) -> Self {
        let second = kit.second_port.iter().flat_map(|second| &second.parts);
        Self::of_parts(kit.parts.iter().chain(second))
    }

    fn of_parts<'p>(parts: impl Iterator<Item = &'p Part>) -> Self {
        let (spread, basis) = LINE_UP.around(1.0);
        let mut plain: Vec<String> = Vec::new();
        let mut keys = Vec::new();
        for part in parts {
            let words = written(part);
            let before = plain.iter().filter(|one| **one == words).count();
            keys.push(format!("line-up {before} {words}"));
            plain.push(words);
        }
        Self { keys, spread, basis }
    }

    /// The factor on the rate in one draw.
    pub fn factor_ratio(&self, plan: &DrawPlan, index: u32) -> f64 {
        let terms = self.keys.iter().map(|key| self.spread.quantile(plan.uniform(key, index)) - 1.0);
        1.0 + terms.sum::<f64>() / (self.keys.len().max(1) as f64).sqrt()
    }

    /// What stands for all of it where inputs are listed.
    fn key(&self) -> String {
        self.keys.join(" ")
    }
}

/// What a part's draws are keyed by: all that is written of it but its name, which a copy may change, and
/// what it is made for, which moves no rate. Another text would be another draw, so each field is spelled
/// out as it always was; whoever adds one to a part decides here whether it moves the rate.
fn written(part: &Part) -> String {
    let fields = match part.content() {
        Content::Tube(Tube {
            name: _,
            from,
            bore,
            bore_band,
            length,
            roughness,
            rise,
            working_pressure: _,
        }) => format!(
            "Tube {{ name: None, from: {from:?}, bore: {bore:?}, bore_band: {bore_band:?}, length: {length:?}, \
             roughness: {roughness:?}, rise: {rise:?} }}"
        ),
        Content::Hole(Hole { name: _, from, bore, bore_band, discharge_coefficient, pressure_recovery }) => {
            format!(
                "Hole {{ name: None, from: {from:?}, bore: {bore:?}, bore_band: {bore_band:?}, \
                 discharge_coefficient: {discharge_coefficient:?}, pressure_recovery: {pressure_recovery:?} }}"
            )
        }
        Content::GaugeSet(GaugeSet {
            name: _,
            from,
            seats,
            bore,
            bore_band,
            discharge_coefficient,
            pressure_recovery,
            working_pressure: _,
        }) => format!(
            "GaugeSet {{ name: None, from: {from:?}, seats: {seats:?}, bore: {bore:?}, bore_band: {bore_band:?}, \
             discharge_coefficient: {discharge_coefficient:?}, pressure_recovery: {pressure_recovery:?} }}"
        ),
        Content::FilterDrier(drier) => format!("{:?}", FilterDrier { name: None, ..drier.clone() }),
        Content::Valve(valve) => format!("{:?}", Valve { name: None, ..valve.clone() }),
    };
    format!("{}({fields})", part.kind().tag())
}

/// The scatter of every kit, as inputs.
pub(super) fn inputs(document: &Document) -> Vec<Input> {
    let mut listed: Vec<Input> = Vec::new();
    for kit in &document.kits {
        let line_up = LineUp::of(kit);
        let (key, place) = (line_up.key(), format!("kits.{}", kit.name));
        match listed.iter_mut().find(|input| input.key == key) {
            Some(input) => input.places.push(place),
            None => listed.push(Input {
                key,
                name: format!("Line-up of kit {}", kit.name),
                places: vec![place],
                spread: line_up.spread,
                words: "93 to 107 % of the rate, likely 100 %".to_owned(),
                basis: line_up.basis,
            }),
        }
    }
    listed
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::ContentMut;
    use crate::presets::{Shelf, built_in_scenario};
    use crate::scenario::read;
    use crate::units::TypedPressure;

    fn kit(name: &str) -> Kit {
        let document = read(built_in_scenario("reference-kits").unwrap()).unwrap();
        document.kit(name).unwrap().clone()
    }

    /// Standard deviation of the factors' difference, or of one factor's own.
    fn scatter(one: &Kit, other: Option<&Kit>) -> f64 {
        let plan = DrawPlan::new(1024, 1).unwrap();
        let (one, other) = (LineUp::of(one), other.map(LineUp::of));
        let squares = (0..1024).map(|index| {
            let base = other.as_ref().map_or(1.0, |other| other.factor_ratio(&plan, index));
            (one.factor_ratio(&plan, index) - base).powi(2)
        });
        (squares.sum::<f64>() / 1024.0).sqrt()
    }

    /// A triangle of half-width 7 % has a standard deviation of 7 %/√6 = 2.858 %, whatever the
    /// number of parts; without a common part the difference of two has √2 of it, 4.041 %; with
    /// four parts of five in common, √(2/5) of it, 1.807 %.
    #[test]
    fn every_line_up_scatters_alike_and_shares_what_is_shared() {
        let near = |got: f64, expected: f64| assert!((got / expected - 1.0).abs() < 0.06, "{got} {expected}");
        let (a, b, c) = (kit("A"), kit("B"), kit("C"));
        for kit in [&a, &b, &c] {
            near(scatter(kit, None), 0.02858);
        }
        near(scatter(&b, Some(&c)), 0.04041);
        let mut changed = a.clone();
        changed.parts[0] = b.parts[0].clone();
        near(scatter(&a, Some(&changed)), 0.01807);
        assert_eq!(scatter(&a, Some(&a.clone())), 0.0);
        let mut rated = a.clone();
        let ContentMut::Tube(hose) = rated.parts[1].content_mut() else { panic!("a hose") };
        hose.working_pressure = TypedPressure::parse("800 psig").ok();
        assert_eq!(scatter(&a, Some(&rated)), 0.0, "what a hose is made for moves no rate");
    }

    /// The keys that bands were drawn by before parts said what they are made for.
    #[test]
    fn no_part_of_the_shelf_draws_otherwise_than_before() {
        let shelf = Shelf::built_in().unwrap();
        let parts: Vec<&Part> = shelf.ids().filter_map(|id| Some(&shelf.part(id)?.item)).collect();
        assert!(parts.len() > 20, "{}", parts.len());
        for part in parts {
            let mut plain = part.clone();
            plain.set_name(None);
            match plain.content_mut() {
                ContentMut::Tube(tube) => tube.working_pressure = None,
                ContentMut::GaugeSet(set) => set.working_pressure = None,
                ContentMut::Hole(_) | ContentMut::FilterDrier(_) | ContentMut::Valve(_) => {}
            }
            assert_eq!(written(part), format!("{plain:?}").replace(", working_pressure: None", ""));
        }
    }
}
