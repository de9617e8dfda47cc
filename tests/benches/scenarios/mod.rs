//! Built-in documents cut down to the kits that a bench wants.
#![allow(dead_code)]

use narrows::presets::built_in_scenario;
use narrows::scenario::{Document, read};

pub fn document(id: &str) -> Document {
    read(built_in_scenario(id).expect("built in")).expect("reads")
}

/// The document with one of its kits.
pub fn kit_of(id: &str, kit: &str) -> Document {
    let mut document = document(id);
    document.kits.retain(|each| each.name == kit);
    assert_eq!(document.kits.len(), 1, "{id} has one kit {kit}");
    document
}

/// Kits A, B and C of the reference kits, and A once more as D.
pub fn four_kits() -> Document {
    let mut document = document("reference-kits");
    let mut again = document.kits[0].clone();
    again.name = "D".to_owned();
    document.kits.push(again);
    document
}

/// The first so many of the four kits.
pub fn first_kits(count: usize) -> Document {
    let mut document = four_kits();
    document.kits.truncate(count);
    document
}
