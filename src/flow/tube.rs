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

use super::critical::critical;
use super::element::{Choke, ElementFlow, FlowInput, LEAST_ROOM, Outcome};
use super::error::FlowError;
use super::flashing::{Flashing, FluidExpansion};
use super::friction::Bore;
use super::march::{End, Mark, march};
use super::medium::{Medium, Point};
use super::rising;
use super::station::station;

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

    /// Pressure rises along the way, or hardly changes, or there is no flow to march. Where friction takes
    /// more than the fall gives, it does so all the way: what boils is lighter and rubs harder.
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
        let critical = critical(&expansion)?;
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

/// A tube that falls is marched over pressure where its drag is at least this share of its friction: below,
/// the pressure hardly changes until the flow has left that balance.
const LEAST_DRAG_RATIO: f64 = 1e-3;
