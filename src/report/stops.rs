//! The Stops of a document where its answer is another one than a rate or a job: a diagnosis, a site log.

use serde_json::Value;

use super::json::caution_json;
use super::solved::solve_kit;
use super::table::caution_line;
use crate::advice::{Caution, limit_cautions};
use crate::job::job_limits;
use crate::kit::{Fault, Rules};
use crate::power::Grade;
use crate::scenario::{Document, KitSetup, resolve_limits};

/// Every Stop of this kit, then those of cylinders, method and level.
///
/// # Errors
/// Every fault of the document at once.
pub fn stops_of(document: &Document, kit: &KitSetup, built_in: &Rules) -> Result<Vec<Caution>, Vec<Fault>> {
    let ask = resolve_limits(document, built_in)?;
    let of_job = limit_cautions(&ask, &job_limits(&ask));
    let all = solve_kit(kit.clone()).cautions.into_iter().chain(of_job);
    Ok(all.filter(|caution| caution.grade == Grade::Stop).collect())
}

/// For people; empty if there is none.
pub fn stops_text(stops: &[Caution]) -> String {
    stops.iter().map(|stop| caution_line(stop) + "\n").collect()
}

/// For programs.
pub fn stops_json(stops: &[Caution]) -> Value {
    stops.iter().map(caution_json).collect()
}
