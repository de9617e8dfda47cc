//! The `narrows` program: a window without arguments, a terminal tool with them.

#![cfg_attr(not(test), warn(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

mod terminal;
#[cfg(feature = "gui")]
mod ui;

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::Parser as _;
use narrows::presets::scenarios;

fn main() -> ExitCode {
    let arguments = terminal::Arguments::parse();
    match (arguments.command, arguments.file) {
        (Some(command), _) => terminal::run(command),
        (None, Some(start)) if !start.exists() && !is_built_in(&start) => {
            let built_in: Vec<&str> = scenarios().iter().map(|preset| preset.id).collect();
            eprintln!(
                "narrows: {:?} is no command and no file; expected a command (see narrows --help), or to open in \
                 the window a scenario file or a built-in scenario: {}",
                start.display(),
                built_in.join(", ")
            );
            ExitCode::from(2)
        }
        (None, start) => open_window(start),
    }
}

fn is_built_in(start: &Path) -> bool {
    scenarios().iter().any(|preset| Path::new(preset.id) == start)
}

#[cfg(feature = "gui")]
fn open_window(start: Option<PathBuf>) -> ExitCode {
    match ui::run(start) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("narrows: {error}");
            ExitCode::FAILURE
        }
    }
}

#[cfg(not(feature = "gui"))]
fn open_window(_start: Option<PathBuf>) -> ExitCode {
    eprintln!("This build of narrows has no window; try: narrows solve reference-kits");
    ExitCode::FAILURE
}
