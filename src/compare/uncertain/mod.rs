//! The uncertain inputs of a document: which they are, how far each may lie, what is drawn.
//!
//! One walk over the document serves both listing and drawing. Neglected: lengths of hoses and
//! cords, sizes of wire and a motor's rated figures, which people read off or measure; the choice
//! of flow model, which is in the method; and what only a whole job depends on (charge, volume).

mod assumed;
mod line_up;
mod machine;
mod part;
mod slot;
mod supply;
mod walk;

use std::collections::BTreeMap;

use super::draws::DrawPlan;
use super::spread::Spread;
use crate::scenario::Document;
pub(super) use line_up::LineUp;
use walk::walk;

/// Where an input's low and high come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// The document's own band.
    Document,
    /// None is given, or the likely value has left it: this is assumed instead.
    Assumed(&'static str),
}

/// One uncertain input.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// Inputs of one key share their draws.
    pub key: String,
    /// For people: "Valve core, bore".
    pub name: String,
    /// Where it stands in the document, once for each kit that has it.
    pub places: Vec<String>,
    /// Its low, likely and high value in SI units.
    pub spread: Spread,
    /// The same in the unit that was typed.
    pub words: String,
    /// Where low and high come from.
    pub basis: Basis,
}

/// Every uncertain input of a document, in the document's order. What several kits share stands
/// once.
pub fn inputs(document: &Document) -> Vec<Input> {
    let mut listed: Vec<Input> = Vec::new();
    let mut at: BTreeMap<String, usize> = BTreeMap::new();
    walk(&mut document.clone(), &mut |found| {
        let known = at.get(&found.key).and_then(|index| listed.get_mut(*index));
        match known {
            Some(input) if input.spread == found.spread => input.places.push(found.place()),
            _ => {
                let words = words_of(&found.spread, found.slot);
                at.insert(found.key.clone(), listed.len());
                listed.push(Input {
                    name: found.name(),
                    places: vec![found.place()],
                    key: found.key,
                    spread: found.spread,
                    words,
                    basis: found.basis,
                });
            }
        }
    });
    listed.extend(line_up::inputs(document));
    listed
}

/// The document with every uncertain input at its value of draw `index`.
pub(super) fn drawn(document: &Document, plan: &DrawPlan, index: u32) -> Document {
    let mut drawn = document.clone();
    walk(&mut drawn, &mut |found| {
        found.slot.put(found.spread.quantile(plan.uniform(&found.key, index)));
    });
    drawn
}

fn words_of(spread: &Spread, slot: &dyn slot::Slot) -> String {
    format!(
        "{} to {}, likely {}",
        slot.text_of(spread.low()),
        slot.text_of(spread.high()),
        slot.text_of(spread.likely())
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::presets::scenarios;
    use crate::scenario::{read, resolve};

    /// With every input at its low end, and with every input at its high end, each scenario is
    /// still a document that resolves.
    #[test]
    fn every_end_can_be_drawn() {
        for preset in scenarios() {
            let document = read(preset.text).unwrap();
            for end in [Spread::low, Spread::high] {
                let mut placed = document.clone();
                walk(&mut placed, &mut |found| found.slot.put(end(&found.spread)));
                assert_ne!(placed, document);
                let resolved = resolve(&placed);
                assert!(resolved.is_ok(), "{}: {:?}", preset.id, resolved.err());
            }
        }
    }
}
