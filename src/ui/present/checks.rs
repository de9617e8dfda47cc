//! The published cases, sorted for reading: topics, and under each the sources with their cases.

use std::sync::OnceLock;

use narrows::report::published::{Case, all_cases, totals};

use super::Scene;

/// Cases of one source.
pub struct Source {
    /// Where the expected values come from, and the mark of that.
    pub heading: String,
    /// The cases.
    pub cases: Vec<Case>,
}

/// What the cases are about.
pub struct Topic {
    /// In a word or two.
    pub name: String,
    /// Where its values come from.
    pub sources: Vec<Source>,
}

impl Topic {
    /// Its name with how many of its cases hold.
    pub fn label(&self) -> String {
        let cases = || self.sources.iter().flat_map(|source| &source.cases);
        let (all, hold) = (cases().count(), cases().filter(|case| case.holds()).count());
        if hold == all { format!("{} {all}", self.name) } else { format!("{} {hold} of {all}", self.name) }
    }
}

/// Everything there is to see.
pub struct Checks {
    /// How many cases there are, and how many fail.
    pub totals: String,
    /// The topics, in the order of the file.
    pub topics: Vec<Topic>,
}

/// The cases, solved when they are first looked at. The reference kits of lessons are among them,
/// so there are none while a class is asked.
///
/// # Errors
/// Why there are none.
pub fn checks(scene: &Scene) -> Result<&'static Checks, String> {
    static CHECKS: OnceLock<Result<Checks, String>> = OnceLock::new();
    if scene.covered {
        return Err(scene.waiting().to_owned());
    }
    let checks = CHECKS.get_or_init(|| all_cases().map(sorted).map_err(|error| error.to_string()));
    checks.as_ref().map_err(Clone::clone)
}

fn sorted(cases: Vec<Case>) -> Checks {
    let totals = totals(&cases);
    let mut topics: Vec<Topic> = Vec::new();
    for case in cases {
        let topic = place(
            &mut topics,
            |t| t.name == case.topic,
            || Topic { name: case.topic.clone(), sources: Vec::new() },
        );
        let heading = format!("{} [{}]", case.source, case.mark.label());
        let source = place(
            &mut topic.sources,
            |s| s.heading == heading,
            || Source { heading: heading.clone(), cases: Vec::new() },
        );
        source.cases.push(case);
    }
    Checks { totals, topics }
}

/// The item of a list that is meant; a new one at its end if there is none yet.
fn place<T>(list: &mut Vec<T>, is_it: impl Fn(&T) -> bool, new: impl FnOnce() -> T) -> &mut T {
    let at = list.iter().position(is_it).unwrap_or_else(|| {
        list.push(new());
        list.len() - 1
    });
    &mut list[at]
}
