//! The built-in scenarios the window can start from.

use std::path::Path;
use std::sync::OnceLock;

use narrows::presets;
use narrows::scenario::{self, Document};

/// Every built-in scenario that reads, with its title.
pub fn all() -> &'static [(String, Document)] {
    static READ: OnceLock<Vec<(String, Document)>> = OnceLock::new();
    READ.get_or_init(|| {
        let read = presets::scenarios().iter().filter_map(|s| scenario::read(s.text).ok());
        read.map(|document| (document.title.clone(), document)).collect()
    })
}

/// The built-in scenario with this name, if there is one and it reads.
pub fn named(name: &Path) -> Option<Document> {
    scenario::read(presets::built_in_scenario(name.to_str()?)?).ok()
}

/// The example the window opens on: a whole small job with its cord run.
///
/// # Errors
/// None of the built-in files reads.
pub fn first() -> Result<Document, String> {
    let named = |id: &str| presets::scenarios().iter().find(|s| s.id == id);
    let first = named("long-cord").or_else(|| named("reference-kits")).or(presets::scenarios().first());
    let first = first.ok_or_else(|| "there is no built-in example".to_owned())?;
    scenario::read(first.text).map_err(|error| error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_a_built_in_scenario_or_nothing() {
        let read = |name: &str| named(Path::new(name)).map(|document| document.title);
        assert_eq!(read("bakery-freezer").as_deref(), Some("Walk-in freezer"));
        assert_eq!(read("bakery-freezer.ron"), None);
        assert_eq!(read(""), None);
    }
}
