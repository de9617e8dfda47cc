//! Built-in documents, with changes typed over them.
#![allow(dead_code, clippy::unwrap_used, clippy::panic, reason = "each test file uses its own part of this")]

use std::borrow::Borrow;

use narrows::presets::built_in_scenario;
use narrows::scenario::{self, Document};

/// The built-in scenario of this id.
pub fn preset(id: &str) -> Document {
    scenario::read(built_in_scenario(id).unwrap()).unwrap()
}

/// A copy with these fields set, one after the other: path and text.
pub fn with(document: impl Borrow<Document>, edits: &[(&str, &str)]) -> Document {
    let mut document = document.borrow().clone();
    for (path, text) in edits {
        scenario::set(&mut document, path, text).unwrap_or_else(|error| panic!("{error}"));
    }
    document
}
