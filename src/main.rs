//! The `narrows` program: a window without arguments, a terminal tool with them.

#![cfg_attr(not(test), warn(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

mod terminal;
#[cfg(feature = "gui")]
mod ui;

use std::process::ExitCode;

use clap::Parser as _;

fn main() -> ExitCode {
    let arguments = terminal::Arguments::parse();
    match arguments.command {
        Some(command) => terminal::run(command),
        None => open_window(arguments.file),
    }
}

#[cfg(feature = "gui")]
fn open_window(file: Option<std::path::PathBuf>) -> ExitCode {
    match ui::run(file) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("narrows: {error}");
            ExitCode::FAILURE
        }
    }
}

#[cfg(not(feature = "gui"))]
fn open_window(_file: Option<std::path::PathBuf>) -> ExitCode {
    eprintln!("This build of narrows has no window; try: narrows solve reference-kits");
    ExitCode::FAILURE
}
