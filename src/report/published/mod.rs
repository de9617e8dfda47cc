//! The published cases: known answers from outside the project, and what this program says.
//!
//! One data file (`assets/published_cases.ron`) holds every question, its expected value, the
//! source and its mark. A person can run them (`narrows check`), and the tests do. Expected values
//! are copied from the source that each group names; none is this program's own output.

mod cylinders;
mod electrical;
mod file;
mod flow;
mod fluid;
mod gas;
mod kits;
mod question;

use serde_json::{Value, json};

pub use file::{CasesError, Mark, Within};

/// One known answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// What it is about, as friction or cylinders.
    pub topic: String,
    /// The question.
    pub what: String,
    /// Where the expected value comes from.
    pub source: String,
    /// What kind of source that is.
    pub mark: Mark,
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

    /// The heading of the cases that share topic, source and mark.
    pub fn heading(&self) -> String {
        format!("{}: {} [{}]", self.topic, self.source, self.mark.label())
    }

    /// What is expected, without its unit.
    pub fn expected_text(&self) -> String {
        match self.within {
            Within::UpTo(high) => format!("{} to {}", number(self.expected), number(high)),
            _ => number(self.expected),
        }
    }

    /// What came out, without its unit.
    pub fn got_text(&self) -> String {
        match &self.got {
            Ok(got) => number(*got),
            Err(why) => format!("no answer ({why})"),
        }
    }

    /// How far the two may differ.
    pub fn within_text(&self) -> String {
        match self.within {
            Within::Share(share) => format!("±{} %", number(100.0 * share)),
            Within::Amount(amount) => format!("±{} {}", number(amount), self.unit),
            Within::UpTo(_) => "range".to_owned(),
        }
    }

    /// One line of the printed list.
    pub fn row(&self) -> String {
        let verdict = if self.holds() { "ok  " } else { "FAIL" };
        let (expected, got, within) = (self.expected_text(), self.got_text(), self.within_text());
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
            "topic": self.topic, "what": self.what, "source": self.source, "mark": self.mark.tag(),
            "unit": self.unit, "expected": self.expected,
            "got": self.got.as_ref().ok(), "no_answer": self.got.as_ref().err(),
            "tolerance": { kind: tolerance }, "ok": self.holds(),
        })
    }
}

/// The last line: how many cases of which mark, and how many fail.
pub fn totals(cases: &[Case]) -> String {
    let marks: Vec<String> = Mark::ALL
        .into_iter()
        .map(|mark| format!("{} {}", cases.iter().filter(|case| case.mark == mark).count(), mark.label()))
        .collect();
    let failed = cases.iter().filter(|case| !case.holds()).count();
    format!("{} cases ({}), {failed} failed", cases.len(), marks.join(", "))
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

/// Runs every case.
///
/// # Errors
/// None as shipped; a test holds it.
pub fn all_cases() -> Result<Vec<Case>, CasesError> {
    let groups = file::built_in()?;
    Ok(groups.into_iter().flat_map(file::Group::run).collect())
}

/// An error's words.
fn words(error: impl std::fmt::Display) -> String {
    error.to_string()
}
