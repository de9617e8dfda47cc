//! The jobs over time of a document's kits, by the library's function.

use narrows::job::JobAnswer;
use narrows::scenario::Document;

/// One a kit; none where the library does not follow jobs.
pub fn jobs(_document: &Document) -> Option<Vec<Result<JobAnswer, String>>> {
    None
}
