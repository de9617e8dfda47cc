//! The terminal twin: reads a scenario file, calls the library, prints.
//!
//! Answers go to standard output. Errors go to standard error and name field, value and
//! expectation; the exit code is then 2. A check that fails exits with 1.

mod args;
mod check;
mod compare;
mod diagnose;
pub mod disk;
mod document;
mod job;
pub mod pages;
mod place;
mod rank;
mod rating;
mod solve;
mod sweep;
mod words;

pub use args::{Arguments, Command};

use std::process::ExitCode;

/// Runs one command.
pub fn run(command: Command) -> ExitCode {
    let done = match command {
        Command::Solve(arguments) => solve::run(&arguments),
        Command::Job(arguments) => job::run(&arguments),
        Command::Compare(arguments) => compare::run(&arguments),
        Command::Rank(arguments) => rank::run(&arguments),
        Command::Sweep(arguments) => sweep::run(&arguments),
        Command::Place(arguments) => place::run(&arguments),
        Command::Rating(arguments) => rating::run(&arguments),
        Command::Diagnose(arguments) => diagnose::run(&arguments),
        Command::Pages(arguments) => pages::run(&arguments),
        Command::Check(arguments) => return check::run(&arguments),
        Command::Words(arguments) => words::run(&arguments),
    };
    match done {
        Ok(text) => print(&text),
        Err(lines) => {
            for line in lines {
                eprintln!("{line}");
            }
            ExitCode::from(2)
        }
    }
}

/// Prints an answer. A reader that has gone away is no error of ours.
fn print(text: &str) -> ExitCode {
    use std::io::Write as _;
    match std::io::stdout().write_all(text.as_bytes()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("cannot write the answer: {error}");
            ExitCode::FAILURE
        }
    }
}
