//! One step along a tube's length: the pressure at its end, which may be higher.
//!
//! It solves `p1 − p2 − G² (v2 − v1) − (φ + ρ g sinθ)·ℓ = 0` with the mean of both ends.

use super::element::FlowInput;
use super::medium::Medium;
use super::station::{GRAVITY_M_S2, Station, station};
use super::tube::Tube;
use crate::fluid::FluidError;
use crate::numerics::{RootError, Tolerance, find_root};

/// The outlet of a tube that is stepped has settled when it moves by no more than this share.
pub(super) const SETTLED: f64 = 2e-6;

/// What drives the flow on from one station to another, `p1 - p2 - G² (v2 - v1)`.
fn drive_pa<M: Medium>(tube: &Tube, input: &FlowInput<'_, M>, from: &Station, to: &Station) -> f64 {
    let flux = input.mass_flow_kg_s / tube.area_m2();
    from.pressure_pa - to.pressure_pa - flux * flux * (to.volume_m3_kg - from.volume_m3_kg)
}

/// What a length holds between two stations.
pub(super) fn held_kg(tube: &Tube, from: &Station, to: &Station, length_m: f64) -> f64 {
    0.5 * (1.0 / from.volume_m3_kg + 1.0 / to.volume_m3_kg) * tube.area_m2() * length_m
}

/// Loss per length, Pa/m: `φ + ρ g sinθ`.
pub(super) fn gradient(tube: &Tube, at: &Station) -> f64 {
    at.friction * at.volume_m3_kg + GRAVITY_M_S2 * tube.rise_m / (tube.length_m * at.volume_m3_kg)
}

fn mean_gradient(tube: &Tube, from: &Station, to: &Station) -> f64 {
    0.5 * (gradient(tube, from) + gradient(tube, to))
}

/// One step, `None` where the bore chokes or the range ends: by secants, and where a kink lies in their way
/// within the bracket that they left.
pub(super) fn advance<M: Medium>(
    tube: &Tube,
    input: &FlowInput<'_, M>,
    start: &Station,
    length_m: f64,
) -> Result<Option<Station>, FluidError> {
    let floor_pa = input.medium.lowest_pressure_pa();
    let end_at = |end_pa: f64| station(tube, input, end_pa, start.volume_m3_kg);
    let miss_of =
        |end: &Station| drive_pa(tube, input, start, end) - mean_gradient(tube, start, end) * length_m;
    let mut end_pa = start.pressure_pa - gradient(tube, start) * length_m;
    // A fall adds less than twice the weight of what stands at the start, and what it slows down.
    let weight_pa = (-GRAVITY_M_S2 * tube.rise_m / tube.length_m * length_m / start.volume_m3_kg).max(0.0);
    let flux = input.mass_flow_kg_s / tube.area_m2();
    let highest_pa = start.pressure_pa + 2.0 * weight_pa + flux * flux * start.volume_m3_kg;
    let enough_pa = STEP_RESIDUAL * start.pressure_pa;
    let mut last: Option<(f64, f64)> = None;
    let (mut too_low, mut too_high) = (None, None);
    for turn in 0..30 {
        if !(end_pa > floor_pa) {
            return Ok(None);
        }
        let end = match end_at(end_pa) {
            Ok(end) => end,
            // The weight of what falls brings it above the fluid's range.
            Err(error) if end_pa > start.pressure_pa => return Err(error),
            // No such state: the flow would have to be faster than its own energy allows.
            Err(_) => return Ok(None),
        };
        let miss = miss_of(&end);
        if miss.abs() <= enough_pa {
            return Ok(Some(end));
        }
        let side = if miss > 0.0 { &mut too_low } else { &mut too_high };
        *side = Some((end_pa, miss));
        if turn >= SECANTS
            && let (Some(low), Some(high)) = (too_low, too_high)
            && low.0 < high.0
        {
            return within(low, high, enough_pa, end_at, miss_of);
        }
        let slope = match last {
            Some((p, m)) if p != end_pa => (miss - m) / (end_pa - p),
            _ => -1.0,
        };
        if !(slope < -1e-6) {
            return Ok(None);
        }
        last = Some((end_pa, miss));
        end_pa = (end_pa - miss / slope).min(highest_pa);
    }
    Ok(None)
}

/// A step's momentum is kept to this share of the pressure.
const STEP_RESIDUAL: f64 = 1e-9;
/// So many secants find a smooth step's end.
const SECANTS: usize = 8;

/// The end of a step between one pressure that is too low and one that is too high.
fn within(
    low: (f64, f64),
    high: (f64, f64),
    enough_pa: f64,
    end_at: impl Fn(f64) -> Result<Station, FluidError>,
    miss_of: impl Fn(&Station) -> f64,
) -> Result<Option<Station>, FluidError> {
    let tolerance = Tolerance { absolute: 0.0, relative: 1e-14, residual: enough_pa };
    match find_root(|end_pa| end_at(end_pa).map(|end| miss_of(&end)), low, high, tolerance) {
        Ok(root) => end_at(root.x).map(Some),
        Err(RootError::NotBracketed { .. }) => Ok(None),
        Err(RootError::Function(error)) => Err(error),
    }
}
