//! Each caution is raised where it must be and keeps silent where it must not.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

#[path = "../documents/mod.rs"]
mod documents;
mod job;
mod kit;
mod power;

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use documents::{preset, rink, with};
use narrows::advice::{Caution, limit_cautions};
use narrows::job::job_limits;
use narrows::power::Grade;
use narrows::presets::built_in_rules;
use narrows::report::{SolvedKit, notes_of, solve_document, solve_jobs};
use narrows::scenario::{Document, resolve_limits};

/// Fields set over a document: path and text.
type Changes = &'static [(&'static str, &'static str)];

/// A caution, the document in which it is raised, and a like one in which it is not.
struct Case {
    id: &'static str,
    grade: Grade,
    /// A built-in scenario, or "rink".
    from: &'static str,
    /// What silences it; none for a caution that always stands.
    without: Option<Changes>,
    with: Changes,
    /// A part of its words.
    says: &'static str,
    /// It, or what it warns of, leaves the kit without a rate.
    is_rate_gone: bool,
}

/// A caution that a built-in scenario does not raise and these changes do.
const fn raised(
    id: &'static str,
    grade: Grade,
    from: &'static str,
    with: Changes,
    says: &'static str,
) -> Case {
    Case { id, grade, from, without: Some(&[]), with, says, is_rate_gone: false }
}

impl Case {
    /// The changes that silence it.
    const fn unless(self, changes: Changes) -> Self {
        Self { without: Some(changes), ..self }
    }

    const fn always(self) -> Self {
        Self { without: None, ..self }
    }

    const fn without_rate(self) -> Self {
        Self { is_rate_gone: true, ..self }
    }

    fn document(&self, changes: Changes) -> Document {
        let document = if self.from == "rink" { rink() } else { preset(self.from) };
        with(document, changes)
    }
}

fn cases() -> impl Iterator<Item = &'static Case> {
    [kit::CASES, power::CASES, job::CASES].into_iter().flatten()
}

fn first_kit(document: &Document) -> SolvedKit {
    solve_document(document).unwrap_or_else(|faults| panic!("{faults:?}")).remove(0)
}

/// What is said of a document's first kit and of its job.
fn all_of(document: &Document) -> (SolvedKit, Vec<Caution>) {
    let kit = first_kit(document);
    let ask = resolve_limits(document, &built_in_rules().unwrap()).unwrap();
    let mut cautions = kit.cautions.clone();
    cautions.extend(limit_cautions(&ask, &job_limits(&ask)));
    (kit, cautions)
}

#[test]
fn each_is_raised_by_its_trigger_and_silent_without_it() {
    let known = ids_in_the_sources();
    for case in cases() {
        let id = case.id;
        if let Some(changes) = case.without {
            let (_, calm) = all_of(&case.document(changes));
            assert!(
                calm.iter().all(|caution| caution.id != id),
                "{id} is raised without its trigger: {calm:?}"
            );
        }
        let (kit, cautions) = all_of(&case.document(case.with));
        let says = |caution: &&Caution| caution.id == id && caution.text.contains(case.says);
        let caution =
            cautions.iter().find(says).unwrap_or_else(|| panic!("{id} is not raised: {cautions:?}"));
        assert_eq!(caution.grade, case.grade, "{id}: {}", caution.text);
        assert!(caution.text.ends_with('.') && caution.text.len() > 30, "{id}: {}", caution.text);
        assert!(!caution.text.starts_with(char::is_lowercase), "{id}: {}", caution.text);
        assert_eq!(kit.shown_point().is_err(), case.is_rate_gone, "{id}");
        assert!(!caution.withholds || case.is_rate_gone, "{id}");
        assert!(
            cautions.iter().all(|caution| known.contains(caution.id)),
            "an id is in no source: {cautions:?}"
        );
    }
}

/// A caution that no case raises could be dead without anyone seeing it.
#[test]
fn no_caution_is_without_a_case() {
    let raised: BTreeSet<String> = cases().map(|case| case.id.to_owned()).collect();
    assert_eq!(raised, ids_in_the_sources(), "left: raised by a case; right: in src/advice");
}

/// Every `id: "…"` of a rule, and every id that a finding is given.
fn ids_in_the_sources() -> BTreeSet<String> {
    let mut files = Vec::new();
    collect(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/advice"), &mut files);
    files.iter().flat_map(|file| ids_in(&fs::read_to_string(file).unwrap())).collect()
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() { collect(&path, files) } else { files.push(path) }
    }
}

fn ids_in(code: &str) -> Vec<String> {
    let of_line = |line: &str| {
        let line = line.trim();
        let is_finding = line.starts_with("Finding::");
        let (_, after) =
            line.split_once("id: \"").or_else(|| line.split_once("=> \"").filter(|_| is_finding))?;
        let (id, _) = after.split_once('"')?;
        // The advice of a finding is a sentence.
        id.chars().all(|letter| letter.is_ascii_lowercase() || letter == '-').then(|| id.to_owned())
    };
    code.lines().filter_map(of_line).collect()
}

/// What a caution says is not said again beneath "Also".
#[test]
fn no_note_repeats_a_caution() {
    for case in cases() {
        let kit = first_kit(&case.document(case.with));
        let notes = notes_of(&kit);
        let twice = kit.cautions.iter().find(|caution| notes.contains(&caution.text));
        assert_eq!(twice, None, "{}: {notes:?}", case.id);
    }
}

#[test]
fn stops_come_first() {
    for scenario in ["reference-kits", "long-cord", "market-generator"] {
        let kit = first_kit(&preset(scenario));
        assert!(kit.cautions.is_sorted_by(|a, b| a.grade >= b.grade), "{scenario}");
    }
}

fn about_machines(cautions: &[Caution]) -> Vec<&Caution> {
    cautions.iter().filter(|caution| caution.id == "several-machines").collect()
}

/// Two 16 A machines on one 30 A circuit trip it; one does not. Said once of the whole job, too.
#[test]
fn several_machines_need_circuits_of_their_own() {
    let rules = built_in_rules().unwrap();
    let graded = |machines: &str| {
        let document = with(preset("ice-rink-liquid"), &[("job.machines", machines)]);
        let jobs = solve_jobs(&document, &rules, &|| false).unwrap();
        let of_job: Vec<&Caution> = about_machines(&jobs.kits[0].start.cautions);
        let of_kit = first_kit(&document).cautions;
        assert_eq!(of_job, about_machines(&of_kit));
        assert!(of_job.len() < 2, "{of_job:?}");
        of_job.first().map(|caution| caution.grade)
    };
    assert_eq!(graded("1"), None);
    assert_eq!(graded("2"), Some(Grade::Stop));
}
