//! A hose, dip tube or any length of bore.
//!
//! Steady, one-dimensional, adiabatic, homogeneous: total enthalpy is kept, so the static enthalpy
//! is `h = h0 − G² v²/2`. Momentum `ρ dp + G² d ln v + f G²/(2d) dz + ρ² g sinθ dz = 0` is
//! integrated over pressure, not length:
//!
//! `Δz = ∫ dN / (ρ φ + ρ² g sinθ)`, `N = ∫ρ dp − G² ln(v/v1)`
//!
//! over adaptive steps, in each of which N and the inverse drag are parabolas in the pressure. The
//! tube chokes where `dz/dp` turns to zero, which is found as the longest tube that the flow could
//! pass. No heat passes the wall, and no dynamic head is recovered at the outlet.

use uom::si::f64::Length;
use uom::si::length::meter;

use super::element::{Choke, ElementFlow, FlowInput, LEAST_ROOM, Outcome};
use super::error::FlowError;
use super::flashing::{Flashing, FluidExpansion};
use super::friction::{Bore, friction_gradient_pa_m};
use super::medium::{Medium, Point};
use super::nozzle;
use super::rising;
use crate::fluid::FluidError;
use crate::numerics::{RootError, Tolerance, find_root};

/// Standard gravity, m/s² (CGPM 1901).
pub(super) const GRAVITY_M_S2: f64 = 9.80665;

/// A length of round bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube {
    pub(super) bore: Bore,
    pub(super) length_m: f64,
    pub(super) rise_m: f64,
}

impl Tube {
    /// - `rise`: height of the outlet above the inlet, negative where it falls
    ///
    /// # Errors
    /// A bore outside 0.01–300 mm, a length outside 0–10 km, a rise steeper than the length, a
    /// roughness outside 0 to 0.1 of the bore.
    pub fn new(bore: Length, length: Length, roughness: Length, rise: Length) -> Result<Self, FlowError> {
        let (diameter_m, length_m) = (bore.get::<meter>(), length.get::<meter>());
        let (roughness_m, rise_m) = (roughness.get::<meter>(), rise.get::<meter>());
        if !(1e-5..=0.3).contains(&diameter_m) {
            return Err(FlowError::out_of_range("bore (mm)", diameter_m * 1e3, "0.01 to 300"));
        }
        if !(0.0..=1e4).contains(&length_m) {
            return Err(FlowError::out_of_range("length (m)", length_m, "0 to 10000"));
        }
        if !(0.0..=0.1 * diameter_m).contains(&roughness_m) {
            return Err(FlowError::out_of_range(
                "roughness (mm)",
                roughness_m * 1e3,
                "0 to a tenth of the bore",
            ));
        }
        if !(rise_m.abs() <= length_m) {
            return Err(FlowError::out_of_range("rise (m)", rise_m, "no more than the length, up or down"));
        }
        Ok(Self { bore: Bore { diameter_m, roughness_m }, length_m, rise_m })
    }

    /// Inside diameter.
    pub fn bore(&self) -> Length {
        Length::new::<meter>(self.bore.diameter_m)
    }

    /// Length of the bore.
    pub fn length(&self) -> Length {
        Length::new::<meter>(self.length_m)
    }

    pub(super) fn area_m2(&self) -> f64 {
        std::f64::consts::FRAC_PI_4 * self.bore.diameter_m * self.bore.diameter_m
    }

    pub(super) fn pass<M: Medium>(&self, input: &FlowInput<'_, M>) -> Result<Outcome, FlowError> {
        if self.length_m == 0.0 {
            return input.passes_to(input.inlet.pressure_pa, 0.0);
        }
        if self.needs_stepping(input) {
            return rising::pass(self, input)
                .or_else(|error| Ok(Outcome::Choked(self.mouth_choke(input)?.or(error)?)));
        }
        match march(self, input, self.length_m) {
            Ok(End::Reached(end)) => input.passes_to(end.pressure_pa, end.mass_kg),
            Ok(End::Longest(end)) if end.z_m > 0.0 => Ok(Outcome::Choked(self.choke_at(input, &end)?)),
            Ok(End::Longest(_)) => Ok(Outcome::Choked(self.mouth_choke(input)?)),
            Err(error) => Ok(Outcome::Choked(self.mouth_choke(input)?.or(error)?)),
        }
    }

    pub(super) fn room<M: Medium>(&self, input: &FlowInput<'_, M>) -> Result<Choke, FlowError> {
        if self.length_m == 0.0 {
            let flow = input.flow_to(input.inlet.pressure_pa, 0.0)?;
            return Ok(Choke { room: f64::INFINITY, flow });
        }
        if self.needs_stepping(input) {
            return rising::room(self, input).or_else(|error| self.mouth_choke(input)?.or(error));
        }
        match march(self, input, f64::INFINITY) {
            Ok(End::Reached(end) | End::Longest(end)) if end.z_m > 0.0 => self.choke_at(input, &end),
            Ok(_) => self.mouth_choke(input),
            Err(error) => self.mouth_choke(input)?.or(error),
        }
    }

    /// Pressure may rise along the way, or there is no flow to march. Where friction takes far more
    /// than the fall gives, it does so all the way: what boils is lighter and rubs harder.
    fn needs_stepping<M: Medium>(&self, input: &FlowInput<'_, M>) -> bool {
        if self.rise_m >= 0.0 {
            return self.rise_m > 0.0 && input.mass_flow_kg_s == 0.0;
        }
        let Point { pressure_pa, specific_volume_m3_kg, .. } = input.inlet;
        let start = station(self, input, pressure_pa, specific_volume_m3_kg);
        !start.is_ok_and(|start| start.drag >= LEAST_DRAG_RATIO * start.friction)
    }

    /// The flow is more than even the open mouth passes: its room in an ideal nozzle, less one, so
    /// that it stays below the room of flows that get into the tube at all.
    fn mouth_choke<M: Medium>(&self, input: &FlowInput<'_, M>) -> Result<Choke, FlowError> {
        let expansion = FluidExpansion::new(input.medium, input.inlet, Flashing::Equilibrium)?;
        let critical = nozzle::critical(&expansion)?;
        let flux = input.mass_flow_kg_s / self.area_m2();
        let flow = ElementFlow { choked: true, ..input.flow_to(critical.pressure_pa, 0.0)? };
        Ok(Choke { room: (critical.mass_flux_kg_m2s / flux).ln().max(LEAST_ROOM) - 1.0, flow })
    }

    fn choke_at<M: Medium>(&self, input: &FlowInput<'_, M>, end: &Mark) -> Result<Choke, FlowError> {
        // The length passed goes with the flow's inverse square, so half its logarithm is the room
        // in flow.
        let flow = ElementFlow { choked: true, ..input.flow_to(end.pressure_pa, end.mass_kg)? };
        Ok(Choke { room: 0.5 * (end.z_m / self.length_m).ln(), flow })
    }
}

/// A tube that falls is marched over pressure where its drag is at least this share of its friction.
const LEAST_DRAG_RATIO: f64 = 0.5;

/// Where the march stands.
#[derive(Debug, Clone, Copy)]
struct Mark {
    pressure_pa: f64,
    z_m: f64,
    mass_kg: f64,
}

enum End {
    /// The wanted length was reached.
    Reached(Mark),
    /// No more length can be passed: the bore chokes here, or the fluid's range ends.
    Longest(Mark),
}

/// The flow at one pressure inside the tube.
#[derive(Debug, Clone, Copy)]
pub(super) struct Station {
    pub pressure_pa: f64,
    pub volume_m3_kg: f64,
    /// Up to 0 nothing has boiled yet, from 1 on nothing is left to boil.
    pub quality: f64,
    /// `ρ φ`: density times frictional gradient.
    pub friction: f64,
    /// The same with the weight of what is lifted or falls, `ρ φ + ρ² g sinθ`.
    pub drag: f64,
}

/// Static state and drag at a pressure, from the total enthalpy.
pub(super) fn station<M: Medium>(
    tube: &Tube,
    input: &FlowInput<'_, M>,
    pressure_pa: f64,
    volume_guess: f64,
) -> Result<Station, FluidError> {
    let flux = input.mass_flow_kg_s / tube.area_m2();
    let isobar = input.medium.isobar(pressure_pa)?;
    let total = input.inlet.enthalpy_j_kg;
    let half = 0.5 * flux * flux;
    let at = |volume: f64| input.medium.by_enthalpy(&isobar, total - half * volume * volume);
    let mut volume = volume_guess;
    let mut point = at(volume)?;
    let mut last: Option<(f64, f64)> = None;
    for _ in 0..12 {
        let miss = point.specific_volume_m3_kg - volume;
        if miss.abs() <= 1e-9 * volume {
            break;
        }
        // Steffensen's slope from the last two guesses; a plain step the first time.
        let next = match last {
            Some((v, m)) if (miss - m).abs() > 1e-3 * (volume - v).abs() => {
                volume - miss * (volume - v) / (miss - m)
            }
            _ => point.specific_volume_m3_kg,
        };
        last = Some((volume, miss));
        volume = next.clamp(0.5 * volume, 2.0 * volume);
        point = at(volume)?;
    }
    let phases = input.medium.phases(&isobar, &point);
    let gradient =
        friction_gradient_pa_m(input.method.two_phase_friction, flux, tube.bore, point.vapor_ratio, &phases);
    let volume_m3_kg = point.specific_volume_m3_kg;
    let friction = gradient / volume_m3_kg;
    let lift = GRAVITY_M_S2 * (tube.rise_m / tube.length_m) / volume_m3_kg.powi(2);
    Ok(Station { pressure_pa, volume_m3_kg, quality: point.quality, friction, drag: friction + lift })
}

/// One step of the march: its length, an estimate of its error, and the slope at its far end.
struct Step {
    length_m: f64,
    error_m: f64,
    mass_kg: f64,
    end: Station,
    /// `ρ + G² d ln v/dp` at the far end; zero where the bore chokes.
    end_slope: f64,
    start_slope: f64,
}

/// One pressure step, with the middle station.
fn step<M: Medium>(
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

/// A step's error may be this share of the tube (the trapezium's, a bound of the parabolas').
const STEP_TOLERANCE: f64 = 2e-4;
/// A step across a kink is parted there if its error is more than this share of what is allowed.
const KINK_RATIO: f64 = 0.1;
const MAX_STEPS: usize = 400;
/// A slope of this share of the density counts as choked; the length is then right to its square.
const CHOKED_SLOPE: f64 = 1e-4;

/// Smaller steps than this share of the pressure are not taken.
const LEAST_STEP: f64 = 1e-7;

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

/// The pressure just beyond where the fluid begins to boil, to condense, or dries up between two stations:
/// volume and friction have a kink there, so steps meet at it. None where it does neither, or at once.
fn edge_pa<M: Medium>(
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
        Ok(root) => root.lower(),
        Err(RootError::NotBracketed { .. }) => return Ok(None),
        Err(RootError::Function(error)) => return Err(error.into()),
    };
    let apart = start.pressure_pa - edge_pa > 10.0 * least_pa && edge_pa - end.pressure_pa > 10.0 * least_pa;
    Ok(apart.then_some(edge_pa))
}

/// Marches down in pressure until `wanted_m` of tube is passed, or no more can be.
fn march<M: Medium>(tube: &Tube, input: &FlowInput<'_, M>, wanted_m: f64) -> Result<End, FlowError> {
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
