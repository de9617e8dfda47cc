//! Which kits of a document are compared.

use super::error::CompareError;
use crate::scenario::Document;

/// How many kits stand side by side.
pub const MOST_KITS: usize = 4;

/// The document with only the named kits, in the order named; with all its kits if none is named.
///
/// # Errors
/// A name that no kit has; more than [`MOST_KITS`].
pub fn chosen(document: &Document, names: &[String]) -> Result<Document, CompareError> {
    let kept = kept(document, names)?;
    if kept.kits.len() > MOST_KITS {
        return Err(CompareError::TooManyKits { count: kept.kits.len(), most: MOST_KITS });
    }
    Ok(kept)
}

/// The same for any number of kits.
///
/// # Errors
/// A name that no kit has.
pub fn kept(document: &Document, names: &[String]) -> Result<Document, CompareError> {
    if names.is_empty() {
        return Ok(document.clone());
    }
    let kits = names.iter().map(|name| named(document, name).cloned()).collect::<Result<_, _>>()?;
    Ok(Document { kits, ..document.clone() })
}

/// The document with one kit only.
pub(super) fn alone(document: &Document, name: &str) -> Result<Document, CompareError> {
    let kit = named(document, name)?.clone();
    Ok(Document { kits: vec![kit], ..document.clone() })
}

fn named<'d>(document: &'d Document, name: &str) -> Result<&'d crate::kit::Kit, CompareError> {
    let exact = document.kit(name);
    let loose = || document.kits.iter().find(|kit| kit.name.eq_ignore_ascii_case(name));
    exact.or_else(loose).ok_or_else(|| CompareError::UnknownKit {
        name: name.to_owned(),
        known: document.kits.iter().map(|kit| kit.name.as_str()).collect::<Vec<_>>().join(", "),
    })
}
