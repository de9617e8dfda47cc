//! Words around numbers.

/// A lower-case clause, as error types print it, made a sentence: capital first, full stop last.
///
/// `"cannot hold" → "Cannot hold."`
pub fn as_sentence(clause: &str) -> String {
    let end = if clause.ends_with(['.', '!', '?']) { "" } else { "." };
    with_capital(clause) + end
}

/// The first letter as a capital.
pub fn with_capital(text: &str) -> String {
    let mut letters = text.chars();
    let first: String = letters.next().map(char::to_uppercase).into_iter().flatten().collect();
    first + letters.as_str()
}

/// A temperature for readers of either scale: `65 → "149 °F (65 °C)"`.
pub(crate) fn both_scales(celsius: f64) -> String {
    format!("{:.0} °F ({celsius:.0} °C)", 1.8 * celsius + 32.0).replace('-', "−")
}

/// A word without the marks around it; a bracket that belongs to it stays: `"(bar(g))," → "bar(g)"`.
pub(crate) fn bare_word(word: &str) -> &str {
    let is_mark = |letter: char| "(),.;:×*=+−-".contains(letter);
    let rest = word.trim_start_matches(is_mark);
    let inner = rest.trim_end_matches(is_mark);
    let is_open = inner.contains('(') && !inner.contains(')') && rest[inner.len()..].starts_with(')');
    if is_open { &rest[..=inner.len()] } else { inner }
}

#[cfg(test)]
mod tests {
    use super::{as_sentence, bare_word, both_scales};

    #[test]
    fn a_temperature_is_said_in_both_scales() {
        assert_eq!(both_scales(55.0), "131 °F (55 °C)");
        assert_eq!(both_scales(-40.0), "−40 °F (−40 °C)");
    }

    #[test]
    fn a_bracket_of_its_own_stays_with_a_word() {
        let words =
            ["bar(g)", "bar(g).", "(bar(g)),", "(120", "12.9,", "−3.5", "()", ")(", "a(b)(", "", "²)"];
        let bare = ["bar(g)", "bar(g)", "bar(g)", "120", "12.9", "3.5", "", "", "a(b)", "", "²"];
        assert_eq!(words.map(bare_word), bare);
    }

    #[test]
    fn a_clause_becomes_a_sentence() {
        assert_eq!(as_sentence("cannot hold"), "Cannot hold.");
        assert_eq!(as_sentence("Done."), "Done.");
        assert_eq!(as_sentence(""), ".");
    }
}
