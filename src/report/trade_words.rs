//! Words of the trade, to be read in a terminal.

use serde_json::{Value, json};

use super::wrap::wrapped;
use crate::presets::Word;

/// Each word with what it means under it.
pub fn words_text(words: &[Word]) -> String {
    let entries: Vec<String> = words.iter().map(entry).collect();
    entries.join("\n\n") + "\n"
}

fn entry(word: &Word) -> String {
    let also =
        if word.also.is_empty() { String::new() } else { format!(" (also: {})", word.also.join(", ")) };
    format!("{}{also}\n{}", word.term, wrapped(&word.says, "  "))
}

/// The same for programs.
pub fn words_json(words: &[Word]) -> Value {
    words.iter().map(|w| json!({ "term": w.term, "also": w.also, "says": w.says })).collect()
}
