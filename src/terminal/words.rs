//! `narrows words`: what words of the trade mean.

use narrows::presets::built_in_words;
use narrows::report::{words_json, words_text};

use super::args::WordsArguments;
use super::document::pretty;

/// The words that the text stands in.
pub fn run(arguments: &WordsArguments) -> Result<String, Vec<String>> {
    let asked = arguments.text.join(" ");
    let mut words = built_in_words().map_err(|error| vec![error.to_string()])?;
    words.retain(|word| word.has(&asked));
    if words.is_empty() {
        return Err(vec![format!("{asked:?} stands in no word; expected one of `narrows words`")]);
    }
    if arguments.json { pretty(&words_json(&words)) } else { Ok(words_text(&words)) }
}
