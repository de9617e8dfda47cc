//! Where a step across the edge of boiling is parted.

use super::element::FlowInput;
use super::error::FlowError;
use super::march::LEAST_STEP;
use super::medium::Medium;
use super::station::{Station, station};
use super::tube::Tube;
use crate::fluid::FluidError;
use crate::numerics::{RootError, Tolerance, find_root};

/// The pressure just beyond where the fluid begins to boil, to condense, or dries up between two stations,
/// whether it falls or rises: volume and friction have a kink there, so steps meet at it. None where it does
/// neither, or at once.
pub(super) fn edge_pa<M: Medium>(
    tube: &Tube,
    input: &FlowInput<'_, M>,
    start: &Station,
    end: &Station,
) -> Result<Option<f64>, FlowError> {
    let crossed = |line: f64| (start.quality > line) != (end.quality > line);
    let first = if start.quality > 0.5 { [1.0, 0.0] } else { [0.0, 1.0] };
    let Some(line) = first.into_iter().find(|line| crossed(*line)) else { return Ok(None) };
    let beyond = |at: &Station| at.quality - line;
    let ends = ((start.pressure_pa, beyond(start)), (end.pressure_pa, beyond(end)));
    let at = |pressure_pa: f64| -> Result<f64, FluidError> {
        Ok(beyond(&station(tube, input, pressure_pa, start.volume_m3_kg)?))
    };
    let least_pa = LEAST_STEP * start.pressure_pa;
    let tolerance = Tolerance { absolute: 10.0 * least_pa, relative: 0.0, residual: 0.0 };
    let edge_pa = match find_root(at, ends.0, ends.1, tolerance) {
        Ok(root) if start.pressure_pa < end.pressure_pa => root.upper(),
        Ok(root) => root.lower(),
        Err(RootError::NotBracketed { .. }) => return Ok(None),
        Err(RootError::Function(error)) => return Err(error.into()),
    };
    let apart = [start, end].iter().all(|station| (station.pressure_pa - edge_pa).abs() > 10.0 * least_pa);
    Ok(apart.then_some(edge_pa))
}
