//! A step along a tube's length that meets a kink: up to the kink it is integrated over pressure instead.

use super::element::FlowInput;
use super::error::FlowError;
use super::kink::edge_pa;
use super::length_step::{SETTLED, gradient};
use super::medium::Medium;
use super::station::Station;
use super::step::step;
use super::tube::Tube;

/// The part of a step up to where it begins to boil, to condense, or dries up; what lies before that by
/// halves of the pressure's way, where the edge is farther than the step is long.
pub(super) fn to_edge<M: Medium>(
    tube: &Tube,
    input: &FlowInput<'_, M>,
    start: &Station,
    end: &Station,
    longest_m: f64,
) -> Result<Option<Stretch>, FlowError> {
    let Some(edge_pa) = edge_pa(tube, input, start, end)? else { return Ok(None) };
    let allowed_m = SETTLED * start.pressure_pa / gradient(tube, end).abs();
    let mut way_pa = edge_pa - start.pressure_pa;
    for _ in 0..EDGE_HALVINGS {
        let stretch = between(tube, input, start, start.pressure_pa + way_pa, allowed_m)?;
        if stretch.length_m > 0.0 && stretch.length_m < longest_m {
            return Ok(Some(stretch));
        }
        way_pa *= 0.5;
    }
    Ok(None)
}

const EDGE_HALVINGS: usize = 20;

/// A stretch of tube between two pressures.
pub(super) struct Stretch {
    pub end: Station,
    pub length_m: f64,
    pub mass_kg: f64,
}

/// What a tube passes between two pressures, in as many equal steps of pressure as its error asks for.
fn between<M: Medium>(
    tube: &Tube,
    input: &FlowInput<'_, M>,
    start: &Station,
    end_pa: f64,
    allowed_m: f64,
) -> Result<Stretch, FlowError> {
    let mut pieces = 1;
    loop {
        let mut stretch = Stretch { end: *start, length_m: 0.0, mass_kg: 0.0 };
        let mut error_m = 0.0;
        for piece in 1..=pieces {
            let share = f64::from(piece) / f64::from(pieces);
            let to_pa = start.pressure_pa + share * (end_pa - start.pressure_pa);
            let taken = step(tube, input, &stretch.end, to_pa)?;
            error_m += taken.error_m.abs();
            stretch.length_m += taken.length_m;
            stretch.mass_kg += taken.mass_kg;
            stretch.end = taken.end;
        }
        if error_m <= allowed_m || pieces >= MOST_PIECES {
            return Ok(stretch);
        }
        pieces *= 2;
    }
}

const MOST_PIECES: u32 = 64;
