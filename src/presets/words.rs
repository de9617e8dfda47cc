//! Words of the trade and what they mean here.

use crate::kit::dialect;
use serde::Deserialize;

use super::PresetError;

const FILE: (&str, &str) = ("words.ron", include_str!("../../presets/words.ron"));
/// The version of the file.
const SCHEMA: u32 = 1;

/// A word of the trade.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Word {
    /// The word.
    pub term: String,
    /// Others for the same, and what is explained beside it.
    pub also: Vec<String>,
    /// What it means.
    pub says: String,
}

impl Word {
    /// Whether term, other words or meaning have this text, in capitals or not.
    pub fn has(&self, text: &str) -> bool {
        let text = text.trim().to_lowercase();
        let within = |words: &str| words.to_lowercase().contains(&text);
        within(&self.term) || within(&self.says) || self.also.iter().any(|also| within(also))
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Words")]
struct Words {
    schema: u32,
    words: Vec<Word>,
}

/// All words, in the order of the alphabet.
///
/// # Errors
/// None as shipped; a test holds it.
pub fn built_in_words() -> Result<Vec<Word>, PresetError> {
    let read: Words = dialect().from_str(FILE.1).map_err(PresetError::unreadable_in(FILE.0))?;
    if read.schema != SCHEMA {
        return Err(PresetError::Schema { file: FILE.0.to_owned(), found: read.schema });
    }
    Ok(read.words)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stand_in_order_and_once() {
        let words = built_in_words().unwrap();
        let terms: Vec<String> = words.iter().map(|word| word.term.to_lowercase()).collect();
        let mut sorted = terms.clone();
        sorted.sort();
        sorted.dedup();
        assert_eq!(terms, sorted);
        assert!(words.iter().all(|word| word.says.ends_with('.')));
    }

    #[test]
    fn a_word_is_found_by_what_others_call_it() {
        let words = built_in_words().unwrap();
        for (asked, term) in
            [("MANIFOLD", "Gauge set"), (" glide", "Bubble and dew"), ("lra", "Locked-rotor amps")]
        {
            assert!(words.iter().any(|word| word.term == term && word.has(asked)), "{asked}");
        }
        assert!(!words.iter().any(|word| word.has("turnip")));
    }
}
