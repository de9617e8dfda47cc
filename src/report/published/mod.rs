//! The published cases: known answers from outside the project, and what this program says.
//!
//! A person can run them (`narrows check`), and the tests do. Expected values are copied from the
//! source that each case names; none is this program's own output.

mod electrical;
mod flow;
mod fluid;
mod kits;

use serde_json::{Value, json};

/// How far an answer may be from the expected value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Within {
    /// A share of the expected value.
    Share(f64),
    /// An amount in the case's unit.
    Amount(f64),
    /// Anywhere from the expected value up to this one.
    UpTo(f64),
}

/// One known answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// The question.
    pub what: String,
    /// Where the expected value comes from.
    pub source: &'static str,
    /// The expected value, in `unit`.
    pub expected: f64,
    /// What this program says, or why it says nothing.
    pub got: Result<f64, String>,
    /// The unit of both.
    pub unit: &'static str,
    /// How far they may differ.
    pub within: Within,
}

impl Case {
    /// Whether the answer is near enough.
    pub fn holds(&self) -> bool {
        let Ok(got) = self.got else { return false };
        match self.within {
            Within::Share(share) => (got - self.expected).abs() <= share * self.expected.abs(),
            Within::Amount(amount) => (got - self.expected).abs() <= amount,
            Within::UpTo(high) => (self.expected..=high).contains(&got),
        }
    }

    /// One line of the printed list.
    pub fn row(&self) -> String {
        let verdict = if self.holds() { "ok  " } else { "FAIL" };
        let got = match &self.got {
            Ok(got) => number(*got),
            Err(why) => format!("no answer ({why})"),
        };
        let expected = match self.within {
            Within::UpTo(high) => format!("{} to {}", number(self.expected), number(high)),
            _ => number(self.expected),
        };
        let within = match self.within {
            Within::Share(share) => format!("±{} %", number(100.0 * share)),
            Within::Amount(amount) => format!("±{} {}", number(amount), self.unit),
            Within::UpTo(_) => "range".to_owned(),
        };
        format!(
            "  {verdict}  {:<58} expected {expected:>14} {:<8} got {got:>10}  {within}",
            self.what, self.unit
        )
    }

    /// The same for programs.
    pub fn json(&self) -> Value {
        let (kind, tolerance) = match self.within {
            Within::Share(share) => ("share", share),
            Within::Amount(amount) => ("amount", amount),
            Within::UpTo(high) => ("up_to", high),
        };
        json!({
            "what": self.what, "source": self.source, "unit": self.unit, "expected": self.expected,
            "got": self.got.as_ref().ok(), "no_answer": self.got.as_ref().err(),
            "tolerance": { kind: tolerance }, "ok": self.holds(),
        })
    }
}

/// Up to five figures, without trailing noise.
fn number(value: f64) -> String {
    let size = value.abs();
    if size != 0.0 && !(1e-4..1e6).contains(&size) {
        return format!("{value:.3e}");
    }
    let places = if size >= 1000.0 {
        0
    } else if size >= 100.0 {
        1
    } else if size >= 1.0 {
        3
    } else {
        5
    };
    let text = format!("{value:.places$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Cases of one source share it: `(question, expected, answer, unit, tolerance)`.
struct Group {
    source: &'static str,
    cases: Vec<Case>,
}

impl Group {
    fn new(source: &'static str) -> Self {
        Self { source, cases: Vec::new() }
    }

    fn case(
        &mut self,
        what: impl Into<String>,
        (expected, unit, within): (f64, &'static str, Within),
        got: Result<f64, String>,
    ) {
        let source = self.source;
        self.cases.push(Case { what: what.into(), source, expected, got, unit, within });
    }
}

/// Runs every case.
pub fn all_cases() -> Vec<Case> {
    let groups = [fluid::groups(), flow::groups(), kits::groups(), electrical::groups()];
    groups.into_iter().flatten().flat_map(|group| group.cases).collect()
}

/// An error's words.
fn words(error: impl std::fmt::Display) -> String {
    error.to_string()
}
