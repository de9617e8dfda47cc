//! The `narrows` program: a window without arguments, a terminal tool with them.

#![cfg_attr(not(test), warn(clippy::unwrap_used, clippy::expect_used, clippy::panic))]

mod terminal;
#[cfg(feature = "gui")]
mod ui;

use std::process::ExitCode;

use clap::Parser as _;

fn main() -> ExitCode {
    let arguments = terminal::Arguments::parse();
    match (arguments.command, arguments.file) {
        (Some(command), _) => terminal::run(command),
        (None, Some(file)) if !file.exists() => {
            eprintln!(
                "narrows: {:?} is no command and no file; expected a command (see narrows --help) or a scenario \
                 file to open in the window",
                file.display()
            );
            ExitCode::from(2)
        }
        (None, file) => open_window(file),
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
