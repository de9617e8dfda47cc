//! The nearest word that is known, for sentences about one that is not.

/// The most similar of `known`, if it is similar enough to be what was meant.
pub(super) fn nearest<'a>(found: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    known
        .into_iter()
        .map(|word| (strsim::jaro_winkler(&found.to_lowercase(), &word.to_lowercase()), word))
        .filter(|(likeness, _)| *likeness > 0.75)
        .max_by(|(a, _), (b, _)| a.total_cmp(b))
        .map(|(_, word)| word)
}

/// `a, b or c`.
pub(super) fn sentence_list(words: &[impl AsRef<str>]) -> String {
    match words {
        [] => "nothing".to_owned(),
        [only] => only.as_ref().to_owned(),
        [first @ .., last] => {
            let first: Vec<&str> = first.iter().map(AsRef::as_ref).collect();
            format!("{} or {}", first.join(", "), last.as_ref())
        }
    }
}
