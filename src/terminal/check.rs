//! `narrows check`: the published cases, each with its source, what is expected and what came out.

use std::process::ExitCode;

use narrows::report::published::{Case, all_cases, totals};

use super::args::CheckArguments;

/// Prints every case; success only if all hold.
pub fn run(arguments: &CheckArguments) -> ExitCode {
    let cases = match all_cases() {
        Ok(cases) => cases,
        Err(error) => {
            eprintln!("{error}");
            return ExitCode::FAILURE;
        }
    };
    let text = if arguments.json { json(&cases) } else { table(&cases) };
    let printed = super::print(&text);
    if cases.iter().all(Case::holds) { printed } else { ExitCode::FAILURE }
}

fn json(cases: &[Case]) -> String {
    let rows: Vec<_> = cases.iter().map(Case::json).collect();
    serde_json::Value::from(rows).to_string() + "\n"
}

fn table(cases: &[Case]) -> String {
    let mut lines = Vec::new();
    let mut heading = String::new();
    for case in cases {
        if case.heading() != heading {
            heading = case.heading();
            lines.push(format!("\n{heading}"));
        }
        lines.push(case.row());
    }
    lines.push(format!("\n{}", totals(cases)));
    lines.join("\n") + "\n"
}
