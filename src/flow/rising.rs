//! A tube that falls, or that holds refrigerant at rest: the same momentum as in `tube`, stepped
//! along its length.
//!
//! Pressure may rise along the way (liquid running down), so it cannot serve as the marching
//! variable. Each length step solves
//! `p1 − p2 − G² (v2 − v1) − (φ + ρ g sinθ)·ℓ = 0` with the mean of both ends, and steps meet where
//! boiling or condensing begins or ends; the step count is doubled until what the last two runs say of
//! infinitely short steps settles to 2e-6 of the pressure.

use super::element::{Choke, ElementFlow, FlowInput, Outcome};
use super::error::FlowError;
use super::kink::edge_pa;
use super::medium::Medium;
use super::station::{GRAVITY_M_S2, Station, station};
use super::step::step;
use super::tube::Tube;
use crate::fluid::FluidError;
use crate::numerics::{RootError, Tolerance, find_root};

/// What a run along the length came to.
struct Run {
    outlet_pa: f64,
    mass_kg: f64,
    /// Length passed before the bore choked; the whole where it did not.
    passed_m: f64,
    /// The shortest step it took.
    step_m: f64,
}

impl Run {
    /// What this run and a coarser one say of infinitely short steps: the error of the mean of both ends
    /// goes with the square of the step (Richardson's extrapolation).
    fn limit_pa(&self, coarser: &Self) -> f64 {
        let ratio = (coarser.step_m / self.step_m).powi(2);
        if ratio <= 1.0 {
            return self.outlet_pa;
        }
        self.outlet_pa + (self.outlet_pa - coarser.outlet_pa) / (ratio - 1.0)
    }
}

/// Passes a flow, or says by how much it is too much.
pub(super) fn pass<M: Medium>(tube: &Tube, input: &FlowInput<'_, M>) -> Result<Outcome, FlowError> {
    let run = settled_run(tube, input)?;
    if run.passed_m >= tube.length_m {
        return input.passes_to(run.outlet_pa, run.mass_kg);
    }
    Ok(Outcome::Choked(choke(tube, input, &run)?))
}

/// How far the flow is from the largest one: the tube's own length against the level tube's longest.
pub(super) fn room<M: Medium>(tube: &Tube, input: &FlowInput<'_, M>) -> Result<Choke, FlowError> {
    let run = settled_run(tube, input)?;
    if run.passed_m < tube.length_m {
        return choke(tube, input, &run);
    }
    // Not choked: stretch the same slope until it is, up to a thousandfold.
    let mut longer = *tube;
    for _ in 0..10 {
        longer.length_m *= 2.0;
        longer.rise_m *= 2.0;
        // One that would fall beyond the fluid's range does not choke before.
        let Ok(run) = settled_run(&longer, input) else { break };
        if run.passed_m < longer.length_m {
            return choke(tube, input, &run);
        }
    }
    Ok(Choke { room: 0.5 * 1000f64.ln(), flow: input.flow_to(run.outlet_pa, run.mass_kg)? })
}

fn choke<M: Medium>(tube: &Tube, input: &FlowInput<'_, M>, run: &Run) -> Result<Choke, FlowError> {
    let flow = ElementFlow { choked: true, ..input.flow_to(run.outlet_pa, run.mass_kg)? };
    Ok(Choke { room: 0.5 * (run.passed_m.max(1e-9) / tube.length_m).ln(), flow })
}

/// Steps of the first run, and of the last one if it does not settle before.
const FEWEST_STEPS: usize = 8;
const MOST_STEPS: usize = 1024;
/// The outlet has settled when it moves by no more than this share.
const SETTLED: f64 = 2e-6;
/// Two runs further apart than this share may agree with a third by chance.
const NEAR: f64 = 4e-5;

fn settled_run<M: Medium>(tube: &Tube, input: &FlowInput<'_, M>) -> Result<Run, FlowError> {
    if let Some(run) = liquid_run(tube, input)? {
        return Ok(run);
    }
    let mut steps = FEWEST_STEPS;
    let mut run = run_along(tube, input, steps)?;
    let mut limit_pa = run.outlet_pa;
    while steps < MOST_STEPS {
        // Twice what the last run came down to, which may be more than it began with.
        let taken = (tube.length_m / run.step_m).ceil() as usize;
        steps = (2 * taken.max(steps)).min(MOST_STEPS);
        let finer = run_along(tube, input, steps)?;
        let last_pa = std::mem::replace(&mut limit_pa, finer.limit_pa(&run));
        let is_near = (finer.outlet_pa - run.outlet_pa).abs() <= NEAR * finer.outlet_pa;
        let is_settled = is_near && (limit_pa - last_pa).abs() <= SETTLED * finer.outlet_pa;
        run = finer;
        if is_settled && run.passed_m >= tube.length_m {
            return Ok(Run { outlet_pa: limit_pa, ..run });
        }
    }
    Ok(run)
}

/// The whole length in one step where it holds nothing but liquid, whose friction and weight hardly
/// change on the way: what they change by bounds the step's error, to half of what a run settles to.
fn liquid_run<M: Medium>(tube: &Tube, input: &FlowInput<'_, M>) -> Result<Option<Run>, FlowError> {
    let start = station(tube, input, input.inlet.pressure_pa, input.inlet.specific_volume_m3_kg)?;
    if start.quality > 0.0 {
        return Ok(None);
    }
    let Some(end) = advance(tube, input, &start, tube.length_m)? else { return Ok(None) };
    let change_pa = (gradient(tube, &end) - gradient(tube, &start)).abs() * tube.length_m;
    if end.quality > 0.0 || change_pa > SETTLED * end.pressure_pa {
        return Ok(None);
    }
    Ok(Some(Run {
        outlet_pa: end.pressure_pa,
        mass_kg: held_kg(tube, &start, &end, tube.length_m),
        passed_m: tube.length_m,
        step_m: tube.length_m,
    }))
}

/// The choke's place is found to this share of the length.
const SHORTEST_STEP_RATIO: f64 = 1e-5;

fn run_along<M: Medium>(tube: &Tube, input: &FlowInput<'_, M>, steps: usize) -> Result<Run, FlowError> {
    let mut step_m = tube.length_m / steps as f64;
    let mut here = station(tube, input, input.inlet.pressure_pa, input.inlet.specific_volume_m3_kg)?;
    let (mut mass_kg, mut passed_m) = (0.0, 0.0);
    while tube.length_m - passed_m > SHORTEST_STEP_RATIO * tube.length_m {
        let this_m = step_m.min(tube.length_m - passed_m);
        match advance(tube, input, &here, this_m)? {
            Some(next) => {
                let stretch = to_edge(tube, input, &here, &next, this_m)?.unwrap_or_else(|| Stretch {
                    end: next,
                    length_m: this_m,
                    mass_kg: held_kg(tube, &here, &next, this_m),
                });
                mass_kg += stretch.mass_kg;
                passed_m += stretch.length_m;
                here = stretch.end;
            }
            // Close to the choke steps shorten, so that its place is found.
            None if step_m > SHORTEST_STEP_RATIO * tube.length_m => step_m *= 0.5,
            None => return Ok(Run { outlet_pa: here.pressure_pa, mass_kg, passed_m, step_m }),
        }
    }
    Ok(Run { outlet_pa: here.pressure_pa, mass_kg, passed_m: tube.length_m, step_m })
}

/// The part of a step up to where it begins to boil, to condense, or dries up; what lies before that by
/// halves of the pressure's way, where the edge is farther than the step is long.
fn to_edge<M: Medium>(
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
struct Stretch {
    end: Station,
    length_m: f64,
    mass_kg: f64,
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

/// What drives the flow on from one station to another, `p1 - p2 - G² (v2 - v1)`.
fn drive_pa<M: Medium>(tube: &Tube, input: &FlowInput<'_, M>, from: &Station, to: &Station) -> f64 {
    let flux = input.mass_flow_kg_s / tube.area_m2();
    from.pressure_pa - to.pressure_pa - flux * flux * (to.volume_m3_kg - from.volume_m3_kg)
}

/// What a length holds between two stations.
fn held_kg(tube: &Tube, from: &Station, to: &Station, length_m: f64) -> f64 {
    0.5 * (1.0 / from.volume_m3_kg + 1.0 / to.volume_m3_kg) * tube.area_m2() * length_m
}

/// Loss per length, Pa/m: `φ + ρ g sinθ`.
fn gradient(tube: &Tube, at: &Station) -> f64 {
    at.friction * at.volume_m3_kg + GRAVITY_M_S2 * tube.rise_m / (tube.length_m * at.volume_m3_kg)
}

fn mean_gradient(tube: &Tube, from: &Station, to: &Station) -> f64 {
    0.5 * (gradient(tube, from) + gradient(tube, to))
}

/// One step, `None` where the bore chokes or the range ends: by secants, and where a kink lies in their way
/// within the bracket that they left.
fn advance<M: Medium>(
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
