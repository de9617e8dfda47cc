//! The program run as a person or another program runs it.
#![allow(dead_code)]

use std::process::{Command, Output};

use serde_json::Value;

/// Runs it to its end.
pub fn narrows(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_narrows")).args(arguments).output().unwrap()
}

/// Its answer for people.
#[track_caller]
pub fn text(arguments: &[&str]) -> String {
    let output = narrows(arguments);
    assert!(output.status.success(), "{}", words(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// Its answer for programs.
#[track_caller]
pub fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&text(arguments)).unwrap()
}

pub fn words(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

/// The command was refused with exit code 2 and no answer, and its sentence holds all of `said`.
#[track_caller]
pub fn refused(output: &Output, said: &[&str]) {
    let error = words(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{error}");
    assert!(!error.contains("panicked"), "{error}");
    assert!(output.stdout.is_empty(), "an answer beside the fault: {}", words(&output.stdout));
    for word in said {
        assert!(error.contains(word), "{word:?} is not said in: {error}");
    }
}
