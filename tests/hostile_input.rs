//! Whatever reaches a door: the corpus that fuzzing left, and a few inputs kept by name.
//!
//! `tests/fuzz` looks for more of them; DEVELOPERS.md says how.

#[path = "fuzz/checks/mod.rs"]
mod checks;

use narrows::presets::{built_in_scenario, scenarios};
use narrows::scenario::{SetError, get, read, set};
use std::fs;
use std::path::PathBuf;

/// Every kept input of one target.
fn corpus(target: &str) -> Vec<(String, Vec<u8>)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus").join(target);
    let mut inputs: Vec<_> = fs::read_dir(&folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .map(|path| (path.display().to_string(), fs::read(&path).unwrap()))
        .collect();
    inputs.sort();
    assert!(!inputs.is_empty(), "{} is empty", folder.display());
    inputs
}

fn replay(target: &str, check: impl Fn(&[u8])) {
    for (name, input) in corpus(target) {
        println!("{name}");
        check(&input);
    }
}

#[test]
fn documents() {
    replay("document", checks::document);
}

#[test]
fn presets() {
    replay("preset", checks::preset);
}

#[test]
fn quantities() {
    replay("quantity", checks::quantity);
}

#[test]
fn logs() {
    replay("log", checks::log);
}

#[test]
fn edits() {
    replay("set", checks::set);
}

#[test]
fn jobs() {
    replay("job", checks::job);
}

/// A few mutations of every scenario's edits; the same ones every time.
#[test]
fn mutated_edits() {
    for (number, preset) in scenarios().iter().enumerate() {
        let mut input = format!("{}\n", preset.id).into_bytes();
        for round in 0..6 {
            input = checks::mutate(&input, 100 * number as u32 + round);
            checks::set(&input);
        }
    }
    // The buffer of a fuzzer is cut at whole lines.
    let mut buffer = b"reference-kits\n".to_vec();
    buffer.resize(64, 0);
    let length = checks::mutate_in_place(&mut buffer, 15, 64, 7);
    assert!(length <= 64 && (length == 0 || buffer[length - 1] == b'\n'));
}

/// A path a hundred thousand steps deep grew a tree that nothing could take down again.
#[test]
fn a_path_deeper_than_any_field_is_refused() {
    let mut document = read(built_in_scenario("reference-kits").unwrap()).unwrap();
    let before = document.clone();
    let path = format!("job{}", ".a".repeat(100_000));
    assert!(matches!(set(&mut document, &path, "1"), Err(SetError::Path { .. })));
    assert!(matches!(get(&document, &path), Err(SetError::Path { .. })));
    assert_eq!(document, before);
}

/// Brackets a hundred thousand deep are refused by the reader, not by the stack.
#[test]
fn brackets_deeper_than_any_document_are_refused() {
    for bracket in ["(", "[", "{", "Some("] {
        let text = format!("(narrows: 1, title: \"deep\", kits: {}", bracket.repeat(100_000));
        assert!(read(&text).is_err(), "{bracket}");
    }
}
