//! `narrows pages`: folders, files that are there already, words for what cannot be written.

mod terminal_support;

use std::path::PathBuf;
use std::process::Output;

use terminal_support::{narrows, refused};

fn pages(arguments: &[&str]) -> Output {
    let mut all = vec!["pages"];
    all.extend(arguments);
    narrows(&all)
}

fn folder(name: &str) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    // It may be there from an earlier run.
    let _ = std::fs::remove_dir_all(&folder);
    folder
}

#[test]
fn pages_and_curves_are_written_and_not_overwritten_unasked() {
    let folder = folder("pages");
    let out = folder.to_str().unwrap();
    let output = pages(&["long-cord", "--out", out, "--draws", "0"]);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    let mut names: Vec<String> = std::fs::read_dir(&folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    assert_eq!(
        names,
        ["comparison.html", "crew.html", "curves.csv", "customer.html", "handout.html", "key.html"]
    );
    let curves = std::fs::read_to_string(folder.join("curves.csv")).unwrap();
    let printed = narrows(&["job", "long-cord", "--csv"]);
    assert_eq!(curves.as_bytes(), printed.stdout, "the curves differ from those of the job");

    std::fs::write(folder.join("crew.html"), "mine").unwrap();
    std::fs::remove_file(folder.join("key.html")).unwrap();
    refused(&pages(&["long-cord", "--out", out, "--draws", "0"]), &["crew.html", "already", "--force"]);
    assert_eq!(std::fs::read_to_string(folder.join("crew.html")).unwrap(), "mine");
    assert!(!folder.join("key.html").exists(), "some were written all the same");

    let output = pages(&["long-cord", "--out", out, "--draws", "0", "--force", "--json"]);
    assert_eq!(output.status.code(), Some(0));
    let said: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(said["files"].as_array().unwrap().len(), 6);
    assert!(std::fs::read_to_string(folder.join("crew.html")).unwrap().contains("Crew page"));
}

#[test]
fn what_cannot_be_written_is_said() {
    let folder = folder("pages-refused");
    std::fs::create_dir(&folder).unwrap();
    let file = folder.join("note.txt");
    std::fs::write(&file, "mine").unwrap();
    let file = file.to_str().unwrap();
    refused(&pages(&["long-cord", "--out", file, "--draws", "0"]), &[file, "no folder"]);
    let inside = format!("{file}/pages");
    refused(&pages(&["long-cord", "--out", &inside, "--draws", "0"]), &[&inside, "there is no such folder"]);
    refused(&pages(&["long-cord"]), &["--out"]);
    let out = folder.join("x");
    let out = out.to_str().unwrap();
    refused(&pages(&["long-cord", "--out", out, "--kit", "Z"]), &["--kit", "\"Z\"", "expected one of A"]);
    refused(&pages(&["long-cord", "--out", out, "--set", "refrigerant=R-999"]), &["refrigerant", "R-999"]);
    assert!(!folder.join("x").exists(), "a folder was made for nothing");
}
