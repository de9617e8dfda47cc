//! The built-in scenarios the window can start from.

use narrows::scenario::{self, Document};

/// The example the window opens on.
///
/// # Errors
/// The built-in file does not read.
pub fn first() -> Result<Document, String> {
    scenario::read(include_str!("../../presets/scenarios/reference-kits.ron")).map_err(|e| e.to_string())
}
