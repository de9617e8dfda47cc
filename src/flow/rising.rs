//! A tube that falls, or that holds refrigerant at rest: the same momentum as in `tube`, stepped
//! along its length.
//!
//! Pressure may rise along the way (liquid running down), so it cannot serve as the marching
//! variable. It is stepped along its length (`length_step`), and steps meet where boiling or condensing
//! begins or ends (`stretch`); the step count is doubled until what the last two runs say of infinitely
//! short steps settles to 2e-6 of the pressure.

use super::element::{Choke, ElementFlow, FlowInput, Outcome};
use super::error::FlowError;
use super::length_step::{SETTLED, advance, gradient, held_kg};
use super::medium::Medium;
use super::station::station;
use super::stretch::{Stretch, to_edge};
use super::tube::Tube;

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
    let full_m = tube.length_m / steps as f64;
    let (mut next_m, mut step_m) = (full_m, full_m);
    let mut here = station(tube, input, input.inlet.pressure_pa, input.inlet.specific_volume_m3_kg)?;
    let (mut mass_kg, mut passed_m) = (0.0, 0.0);
    while tube.length_m - passed_m > SHORTEST_STEP_RATIO * tube.length_m {
        let this_m = next_m.min(tube.length_m - passed_m);
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
                next_m = full_m.min(2.0 * next_m);
            }
            // Close to the choke steps shorten, so that its place is found; past a narrow spot they lengthen.
            None if next_m > SHORTEST_STEP_RATIO * tube.length_m => {
                next_m *= 0.5;
                step_m = step_m.min(next_m);
            }
            None => return Ok(Run { outlet_pa: here.pressure_pa, mass_kg, passed_m, step_m }),
        }
    }
    Ok(Run { outlet_pa: here.pressure_pa, mass_kg, passed_m: tube.length_m, step_m })
}
