//! Words around numbers.

/// A lower-case clause, as error types print it, made a sentence: capital first, full stop last.
///
/// `"cannot hold" → "Cannot hold."`
pub fn as_sentence(clause: &str) -> String {
    let mut letters = clause.chars();
    let first: String = letters.next().map(char::to_uppercase).into_iter().flatten().collect();
    let end = if clause.ends_with(['.', '!', '?']) { "" } else { "." };
    format!("{first}{}{end}", letters.as_str())
}

#[cfg(test)]
mod tests {
    use super::as_sentence;

    #[test]
    fn a_clause_becomes_a_sentence() {
        assert_eq!(as_sentence("cannot hold"), "Cannot hold.");
        assert_eq!(as_sentence("Done."), "Done.");
        assert_eq!(as_sentence(""), ".");
    }
}
