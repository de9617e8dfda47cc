//! Rows of the oracle's tables, and the worst deviations from them.
#![allow(dead_code)]

use std::collections::BTreeMap;
use std::fmt;
use std::path::Path;

/// One row by its column names.
pub struct Row(BTreeMap<String, String>);

impl Row {
    /// The text of a column; empty where the table has none.
    pub fn text(&self, column: &str) -> &str {
        self.0.get(column).map_or("", String::as_str)
    }

    /// The number in a column, if there is one.
    pub fn number(&self, column: &str) -> Option<f64> {
        match self.text(column) {
            "" => None,
            text => Some(text.parse().unwrap_or_else(|_| panic!("{column}: {text}"))),
        }
    }
}

/// The rows of a table of the oracle.
pub fn rows(name: &str) -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/oracle").join(name);
    let reader = csv::Reader::from_path(path).unwrap();
    reader.into_deserialize().map(|row| Row(row.unwrap())).collect()
}

/// The worst deviations by refrigerant, phase and figure.
#[derive(Default)]
pub struct Deviations {
    worst: BTreeMap<(String, String), BTreeMap<&'static str, f64>>,
    counts: BTreeMap<(String, String), usize>,
}

impl Deviations {
    /// Counts a row.
    pub fn count(&mut self, name: &str, phase: &str) {
        *self.counts.entry((name.to_owned(), phase.to_owned())).or_default() += 1;
    }

    /// One figure of a row: got over expected, less one.
    pub fn add(&mut self, name: &str, phase: &str, what: &'static str, share: f64) {
        let worst =
            self.worst.entry((name.to_owned(), phase.to_owned())).or_default().entry(what).or_default();
        if share.is_nan() || share.abs() > worst.abs() {
            *worst = share;
        }
    }
}

impl fmt::Display for Deviations {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for ((name, phase), figures) in &self.worst {
            let count = self.counts.get(&(name.clone(), phase.clone())).unwrap_or(&0);
            write!(f, "{name:<10} {phase:<9} {count:>3}")?;
            for (what, share) in figures {
                write!(f, "  {what} {:+.3} %", 100.0 * share)?;
            }
            writeln!(f)?;
        }
        Ok(())
    }
}
