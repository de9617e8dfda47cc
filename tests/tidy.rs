//! Rules of the house that a reader could break without noticing: layers, window-free library,
//! file headers, generic words.

use std::fs;
use std::path::{Path, PathBuf};

/// Rooms from left to right; a room imports only from its left. Rooms in one group do not know
/// each other.
const LAYERS: &[&[&str]] = &[
    &["units", "numerics"],
    &["fluid"],
    &["flow", "power"],
    &["machine"],
    &["job"],
    &["kit"],
    &["presets", "scenario"],
    &["compare"],
    &["advice"],
    &["report"],
];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files.extend(rust_files(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            files.push(path);
        }
    }
    files.sort();
    files
}

/// The code of a file: no comments, no unit tests at its foot.
fn code(path: &Path) -> String {
    let text = fs::read_to_string(path).unwrap();
    let code = text.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
    code.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n")
}

fn layer_of(room: &str) -> Option<usize> {
    LAYERS.iter().position(|group| group.contains(&room))
}

/// The rooms that a text names after `crate::`, also inside `use crate::{flow, kit}`.
fn rooms_named(code: &str) -> Vec<String> {
    let word = |text: &str| text.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect::<String>();
    let mut rooms = Vec::new();
    for (at, _) in code.match_indices("crate::") {
        let rest = &code[at + "crate::".len()..];
        match rest.strip_prefix('{') {
            Some(list) => {
                let inside = list.split(';').next().unwrap_or_default();
                rooms.extend(inside.split(',').map(|item| word(item.trim())));
            }
            None => rooms.push(word(rest)),
        }
    }
    rooms.retain(|room| layer_of(room).is_some());
    rooms
}

#[test]
fn rooms_import_only_from_their_left() {
    let mut faults = Vec::new();
    for room in LAYERS.iter().flat_map(|group| group.iter()) {
        let folder = root().join("src").join(room);
        if !folder.exists() {
            continue;
        }
        for file in rust_files(&folder) {
            for named in rooms_named(&code(&file)) {
                let left = layer_of(&named) < layer_of(room);
                if named != *room && !left {
                    faults.push(format!("{} imports {named}", file.display()));
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_room_of_the_library_has_its_layer() {
    let lib = fs::read_to_string(root().join("src/lib.rs")).unwrap();
    for line in lib.lines().filter_map(|line| line.strip_prefix("pub mod ")) {
        let room = line.trim_end_matches(';');
        assert!(layer_of(room).is_some(), "{room} is in no layer");
    }
}

/// Nothing but the window and the program names a window crate, a file, a clock or a thread.
#[test]
fn the_library_knows_no_window_file_clock_or_thread() {
    let forbidden = [
        "egui",
        "eframe",
        "rfd::",
        "std::fs",
        "std::env",
        "std::time",
        "std::thread",
        "std::net",
        "std::process",
        "println!",
        "eprintln!",
    ];
    let mut faults = Vec::new();
    for file in rust_files(&root().join("src")) {
        let inside = file.strip_prefix(root().join("src")).unwrap().to_path_buf();
        let program = ["main.rs", "ui", "terminal"].iter().any(|start| inside.starts_with(start));
        if program {
            continue;
        }
        let code = code(&file);
        faults.extend(
            forbidden
                .iter()
                .filter(|word| code.contains(**word))
                .map(|w| format!("{} names {w}", inside.display())),
        );
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_file_opens_with_what_it_is() {
    for folder in ["src", "tests"] {
        for file in rust_files(&root().join(folder)) {
            let text = fs::read_to_string(&file).unwrap();
            assert!(text.starts_with("//!"), "{} has no //! header", file.display());
        }
    }
}

#[test]
fn no_file_grows_without_end() {
    for file in rust_files(&root().join("src")) {
        let lines = fs::read_to_string(&file).unwrap().lines().count();
        assert!(lines <= 400, "{} has {lines} lines: look for its second subject", file.display());
    }
}

/// The top level holds what a newcomer expects and nothing else.
#[test]
fn the_top_level_is_as_agreed() {
    let expected = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE",
        "src",
        "tests",
        "presets",
        "assets",
        "target",
    ];
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        assert!(name.starts_with('.') || expected.contains(&name.as_str()), "{name} is not expected here");
    }
}
