//! `narrows check`: the published cases, each with its source, what is expected and what came out.

use std::process::ExitCode;

use narrows::report::published::{Case, all_cases};

use super::args::CheckArguments;

/// Prints every case; success only if all hold.
pub fn run(arguments: &CheckArguments) -> ExitCode {
    let cases = all_cases();
    let failed = cases.iter().filter(|case| !case.holds()).count();
    let text = if arguments.json { json(&cases) } else { table(&cases, failed) };
    let printed = super::print(&text);
    if failed > 0 { ExitCode::FAILURE } else { printed }
}

fn json(cases: &[Case]) -> String {
    let rows: Vec<_> = cases.iter().map(Case::json).collect();
    serde_json::Value::from(rows).to_string() + "\n"
}

fn table(cases: &[Case], failed: usize) -> String {
    let mut lines = Vec::new();
    let mut source = "";
    for case in cases {
        if case.source != source {
            source = case.source;
            lines.push(format!("\n{source}"));
        }
        lines.push(case.row());
    }
    lines.push(format!("\n{} cases, {failed} failed", cases.len()));
    lines.join("\n") + "\n"
}
