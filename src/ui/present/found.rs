//! Finding by the beginnings of words.

/// Every typed word begins one of the command's words.
pub fn matches(words: &str, typed: &str) -> bool {
    let words = words.to_lowercase();
    let known: Vec<&str> = words.split(|c: char| !c.is_alphanumeric()).collect();
    typed.to_lowercase().split_whitespace().all(|t| known.iter().any(|w| w.starts_with(t)))
}

#[cfg(test)]
mod tests {
    use super::matches;

    #[test]
    fn the_beginnings_of_words_find_a_command() {
        assert!(matches("Bore of part 1, Valve core", "bore val"));
        assert!(matches("Bore of part 1, Valve core", ""));
        assert!(!matches("Bore of part 1, Valve core", "ore"));
        assert!(!matches("Undo", "undo twice"));
    }
}
