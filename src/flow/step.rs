//! One step of a march over pressure: how much of a tube it passes.

use super::element::FlowInput;
use super::medium::Medium;
use super::station::{Station, station};
use super::tube::Tube;
use crate::fluid::FluidError;

/// One step of the march: its length, an estimate of its error, and the slope at its far end.
pub(super) struct Step {
    pub length_m: f64,
    pub error_m: f64,
    pub mass_kg: f64,
    pub end: Station,
    /// `ρ + G² d ln v/dp` at the far end; zero where the bore chokes.
    pub end_slope: f64,
    pub start_slope: f64,
}

/// One pressure step, with the middle station.
pub(super) fn step<M: Medium>(
    tube: &Tube,
    input: &FlowInput<'_, M>,
    start: &Station,
    end_pa: f64,
) -> Result<Step, FluidError> {
    let flux = input.mass_flow_kg_s / tube.area_m2();
    let drop = start.pressure_pa - end_pa;
    let middle_pa = start.pressure_pa - 0.5 * drop;
    let middle_guess = start.volume_m3_kg * start.pressure_pa / middle_pa;
    let middle = station(tube, input, middle_pa, middle_guess.min(1.5 * start.volume_m3_kg))?;
    let end_guess = middle.volume_m3_kg * middle.volume_m3_kg / start.volume_m3_kg;
    let end = station(tube, input, end_pa, end_guess)?;
    let density = [1.0 / start.volume_m3_kg, 1.0 / middle.volume_m3_kg, 1.0 / end.volume_m3_kg];
    let mean = |a: f64, b: f64, c: f64| (a + 4.0 * b + c) / 6.0;
    let mean_density = mean(density[0], density[1], density[2]);
    let log = [start.volume_m3_kg.ln(), middle.volume_m3_kg.ln(), end.volume_m3_kg.ln()];
    // What drives the flow on, up to the middle and in all: `∫ρ dp − G² ln(v/v1)`.
    let first_half = drop * (5.0 * density[0] + 8.0 * density[1] - density[2]) / 24.0;
    let half = first_half - flux * flux * (log[1] - log[0]);
    let acceleration = flux * flux * (log[2] - log[0]);
    let whole = mean_density * drop - acceleration;
    let inverse = [start, &middle, &end].map(|station| 1.0 / station.drag);
    let length_m = length_for(half, whole, inverse);
    // How far trapezia with the middle station lie from parabolas, an upper bound of the parabolas' own
    // error. Density and drag do not make up for each other.
    let bend = |[a, b, c]: [f64; 3]| (a - 2.0 * b + c).abs() / 12.0;
    let error_m = bend(density) * drop * inverse[1] + bend(inverse) * whole.abs();
    let slope = |a: f64, b: f64, c: f64| (3.0 * a - 4.0 * b + c) / drop;
    Ok(Step {
        length_m,
        error_m,
        mass_kg: mean_density * tube.area_m2() * length_m,
        end_slope: density[2] - flux * flux * slope(log[2], log[1], log[0]),
        start_slope: density[0] + flux * flux * slope(log[0], log[1], log[2]),
        end,
    })
}

/// `∫ dN/drag` of a step, from what drives the flow on up to its middle and in all, and from the drag's
/// inverse at start, middle and end: both are parabolas in the pressure.
fn length_for(half: f64, whole: f64, inverse: [f64; 3]) -> f64 {
    let [f0, f1, f2] = inverse;
    let (a, b) = (4.0 * half - whole, 2.0 * whole - 4.0 * half);
    let (c, d) = (4.0 * f1 - 3.0 * f0 - f2, 2.0 * (f0 - 2.0 * f1 + f2));
    a * f0 + 0.5 * a * c + b * f0 + (a * d + 2.0 * b * c) / 3.0 + 0.5 * b * d
}
