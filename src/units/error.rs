//! What can be wrong with a quantity as typed.

/// A text that is no quantity of the kind asked for. Each sentence says what was expected.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum UnitError {
    /// No number in front.
    #[error("{text:?} does not start with a number; say {noun}, as {example}")]
    NoNumber {
        /// What was typed.
        text: String,
        /// The quantity expected, with its article.
        noun: &'static str,
        /// How it could be written.
        example: &'static str,
    },
    /// A number alone.
    #[error("{text:?} has no unit; say {noun}, as {example}")]
    NoUnit {
        /// What was typed.
        text: String,
        /// The quantity expected, with its article.
        noun: &'static str,
        /// How it could be written.
        example: &'static str,
    },
    /// A unit of something else, or of nothing.
    #[error("{text:?}: {unit:?} is no unit of {noun}; say {noun}, as {example} (units: {units})")]
    UnknownUnit {
        /// What was typed.
        text: String,
        /// The unit found.
        unit: String,
        /// The quantity expected, with its article.
        noun: &'static str,
        /// How it could be written.
        example: &'static str,
        /// The units that are understood.
        units: String,
    },
    /// Comma as decimal sign and as grouping cannot be told apart.
    #[error("{text:?} can be read in two ways; {}", readings(.text))]
    Separator {
        /// What was typed.
        text: String,
    },
    /// Infinite, or a fraction over zero.
    #[error("{text:?} is not a finite number; say {noun}, as {example}")]
    NotFinite {
        /// What was typed.
        text: String,
        /// The quantity expected, with its article.
        noun: &'static str,
        /// How it could be written.
        example: &'static str,
    },
    /// A pressure unit that does not say what it is measured from.
    #[error("{text:?} does not say what it is measured from; say {gauge} or {absolute}")]
    Reference {
        /// What was typed.
        text: String,
        /// The same as a gauge pressure.
        gauge: String,
        /// The same as an absolute pressure.
        absolute: String,
    },
    /// Colder than absolute zero, a negative absolute pressure, a negative vacuum.
    #[error("{text:?} is below {floor}; say {noun}, as {example}")]
    BelowZero {
        /// What was typed.
        text: String,
        /// The lowest there is.
        floor: &'static str,
        /// The quantity expected, with its article.
        noun: &'static str,
        /// How it could be written.
        example: &'static str,
    },
    /// No wire size of this kind.
    #[error("{text:?} is no wire size; say a gauge or a cross-section, as 16 AWG or 1.5 mm2")]
    Wire {
        /// What was typed.
        text: String,
    },
}

/// How a text with an unclear comma could be said.
fn readings(text: &str) -> String {
    if text.matches(',').count() == 1 && !text.contains('.') {
        format!("say {} or {}", text.replace(',', ""), text.replace(',', "."))
    } else {
        "write the number without a sign for thousands, as 1000 or 1.5".to_owned()
    }
}
