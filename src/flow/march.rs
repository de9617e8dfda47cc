//! A tube marched down in pressure, by adaptive steps, to its end or to its choke.

use super::element::FlowInput;
use super::error::FlowError;
use super::kink::edge_pa;
use super::medium::Medium;
use super::station::{Station, station};
use super::step::{Step, step};
use super::tube::Tube;

/// Where the march stands.
#[derive(Debug, Clone, Copy)]
pub(super) struct Mark {
    pub pressure_pa: f64,
    pub z_m: f64,
    pub mass_kg: f64,
}

pub(super) enum End {
    /// The wanted length was reached.
    Reached(Mark),
    /// No more length can be passed: the bore chokes here, or the fluid's range ends.
    Longest(Mark),
}

/// A step's error may be this share of the tube (the trapezium's, a bound of the parabolas').
const STEP_TOLERANCE: f64 = 2e-4;
/// Smaller steps than this share of the pressure are not taken.
pub(super) const LEAST_STEP: f64 = 1e-7;
/// A step across a kink is parted there if its error is more than this share of what is allowed.
const KINK_RATIO: f64 = 0.1;
const MAX_STEPS: usize = 400;
/// A slope of this share of the density counts as choked; the length is then right to its square.
const CHOKED_SLOPE: f64 = 1e-4;

/// A dynamic pressure below this share of the pressure is far from choking.
const SLOW_RATIO: f64 = 0.2;

/// What is left is too little for a step. A rest that loses less than that has passed; so has a flow so
/// small, or a rest so short, that it hardly loses pressure, at constant density; anything else chokes here.
///
/// - `left_pa`: what the last step's slope says the rest loses
fn last_bit<M: Medium>(
    tube: &Tube,
    input: &FlowInput<'_, M>,
    here: &Station,
    mark: Mark,
    wanted_m: f64,
    left_pa: f64,
) -> End {
    let rest_m = wanted_m - mark.z_m;
    let has_passed = left_pa <= LEAST_STEP * here.pressure_pa;
    let loss_pa = if has_passed { left_pa } else { rest_m * here.drag * here.volume_m3_kg };
    let flux = input.mass_flow_kg_s / tube.area_m2();
    let dynamic_pa = 0.5 * flux * flux * here.volume_m3_kg;
    let is_slow = (0.0..SLOW_RATIO * here.pressure_pa).contains(&dynamic_pa);
    let hardly_loses = is_slow && loss_pa <= 10.0 * LEAST_STEP * here.pressure_pa;
    if !has_passed && !hardly_loses {
        return End::Longest(mark);
    }
    End::Reached(Mark {
        pressure_pa: here.pressure_pa - loss_pa,
        z_m: wanted_m,
        mass_kg: mark.mass_kg + rest_m * tube.area_m2() / here.volume_m3_kg,
    })
}

/// Marches down in pressure until `wanted_m` of tube is passed, or no more can be.
pub(super) fn march<M: Medium>(
    tube: &Tube,
    input: &FlowInput<'_, M>,
    wanted_m: f64,
) -> Result<End, FlowError> {
    let floor_pa = input.medium.lowest_pressure_pa() * 1.000_1;
    let mut here = station(tube, input, input.inlet.pressure_pa, input.inlet.specific_volume_m3_kg)?;
    let mut mark = Mark { pressure_pa: here.pressure_pa, z_m: 0.0, mass_kg: 0.0 };
    if here.drag == 0.0 || input.mass_flow_kg_s == 0.0 {
        mark.mass_kg = tube.area_m2() * tube.length_m / here.volume_m3_kg;
        return Ok(End::Reached(mark));
    }
    let reach_m = if wanted_m.is_finite() { wanted_m } else { tube.length_m };
    // Start with the drop that a constant density would need for what is left.
    let mut drop = (1.05 * reach_m * here.drag * here.volume_m3_kg).min(0.3 * here.pressure_pa);
    let mut left_pa = f64::INFINITY;
    for _ in 0..MAX_STEPS {
        drop = drop.min(0.5 * here.pressure_pa).min(here.pressure_pa - floor_pa);
        if drop <= LEAST_STEP * here.pressure_pa {
            return Ok(last_bit(tube, input, &here, mark, wanted_m, left_pa));
        }
        // Where the flow would have to be faster than its own energy allows, the bore chokes before.
        let Ok(mut taken) = step(tube, input, &here, here.pressure_pa - drop) else {
            drop *= 0.5;
            continue;
        };
        let mut planned = 0.0;
        if taken.error_m > KINK_RATIO * STEP_TOLERANCE * reach_m
            && let Some(edge_pa) = edge_pa(tube, input, &here, &taken.end)?
        {
            planned = drop;
            drop = here.pressure_pa - edge_pa;
            taken = step(tube, input, &here, edge_pa)?;
        }
        let slope_floor = -CHOKED_SLOPE / taken.end.volume_m3_kg;
        if taken.end_slope < slope_floor || !(taken.length_m > 0.0) {
            let share = taken.start_slope / (taken.start_slope - taken.end_slope);
            drop *= if share.is_finite() { share.clamp(0.1, 0.9) } else { 0.5 };
            continue;
        }
        if taken.error_m > STEP_TOLERANCE * reach_m && drop > 1e-4 * here.pressure_pa {
            drop *= (STEP_TOLERANCE * reach_m / taken.error_m).cbrt().clamp(0.2, 0.8);
            continue;
        }
        if mark.z_m + taken.length_m >= wanted_m {
            return land(tube, input, &here, mark, &taken, wanted_m);
        }
        mark.z_m += taken.length_m;
        mark.mass_kg += taken.mass_kg;
        mark.pressure_pa = taken.end.pressure_pa;
        here = taken.end;
        if taken.end_slope <= -slope_floor {
            return Ok(End::Longest(mark));
        }
        let grown = (STEP_TOLERANCE * reach_m / taken.error_m.max(1e-12)).cbrt().clamp(0.5, 3.0);
        left_pa = (wanted_m - mark.z_m) * here.drag / taken.end_slope;
        // A march to the choke takes the steps that a march to the end takes: both then say the same of a flow.
        let own_pa = (reach_m - mark.z_m) * here.drag / taken.end_slope;
        let limit_pa = if own_pa > LEAST_STEP * here.pressure_pa { own_pa } else { left_pa };
        drop = (drop * grown).max(planned).min(1.1 * limit_pa);
    }
    Ok(End::Longest(mark))
}

/// A correction of this share of the drop is right to its square without another look.
const SMALL_CORRECTION: f64 = 1e-5;

/// The pressure inside the last step at which exactly the wanted length is passed.
fn land<M: Medium>(
    tube: &Tube,
    input: &FlowInput<'_, M>,
    start: &Station,
    mark: Mark,
    last: &Step,
    wanted_m: f64,
) -> Result<End, FlowError> {
    let rest = wanted_m - mark.z_m;
    let full = start.pressure_pa - last.end.pressure_pa;
    let (mut low, mut high) = ((0.0, 0.0), (full, last.length_m));
    let mut mass = last.mass_kg * rest / last.length_m;
    let mut drop = full;
    let mut miss = last.length_m - rest;
    let mut slope = last.end_slope / last.end.drag;
    let mut guess = Some(bent(last, start, full, rest));
    for _ in 0..12 {
        if miss.abs() <= 1e-8 * wanted_m {
            break;
        }
        let correction = miss / slope;
        if guess.is_none() && correction.abs() <= SMALL_CORRECTION * drop {
            drop -= correction;
            break;
        }
        // Newton on z(Δp), kept inside the bracket.
        let mut next = guess.take().unwrap_or(drop - correction);
        if !(next > low.0 && next < high.0) {
            next = low.0 + (high.0 - low.0) * ((rest - low.1) / (high.1 - low.1)).clamp(0.05, 0.95);
        }
        drop = next;
        let trial = step(tube, input, start, start.pressure_pa - drop)?;
        miss = trial.length_m - rest;
        slope = (trial.end_slope / trial.end.drag).max(1e-300);
        mass = trial.mass_kg;
        if miss > 0.0 { high = (drop, trial.length_m) } else { low = (drop, trial.length_m) }
    }
    Ok(End::Reached(Mark {
        pressure_pa: start.pressure_pa - drop,
        z_m: wanted_m,
        mass_kg: mark.mass_kg + mass,
    }))
}

/// The drop over a part of a step's length, by the cubic through both ends with their slopes.
fn bent(step: &Step, start: &Station, full_pa: f64, rest_m: f64) -> f64 {
    let share = rest_m / step.length_m;
    let first = step.length_m * start.drag / step.start_slope / full_pa;
    let last = step.length_m * step.end.drag / step.end_slope / full_pa;
    full_pa * share * (first + share * ((3.0 - 2.0 * first - last) + share * (first + last - 2.0)))
}
