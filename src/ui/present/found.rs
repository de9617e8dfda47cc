//! Finding by the beginnings of words.

/// Every typed word begins one of the command's words.
pub fn matches(words: &str, typed: &str) -> bool {
    let words = words.to_lowercase();
    let known: Vec<&str> = words.split(|c: char| !c.is_alphanumeric()).collect();
    let typed = typed.to_lowercase();
    let mut asked = typed.split(|c: char| !c.is_alphanumeric()).filter(|t| !t.is_empty());
    asked.all(|t| known.iter().any(|w| w.starts_with(t)))
}

#[cfg(test)]
mod tests {
    use super::matches;

    #[test]
    fn the_beginnings_of_words_find_a_command() {
        assert!(matches("Bore of part 1, Valve core", "bore val"));
        assert!(matches("Bore of part 1, Valve core", ""));
        assert!(matches("Refrigerant R-404A", "R-404a"));
        assert!(!matches("Refrigerant R-407C", "R-404a"));
        assert!(!matches("Bore of part 1, Valve core", "ore"));
        assert!(!matches("Undo", "undo twice"));
    }
}
