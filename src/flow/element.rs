//! One element of a path, a tube or a restriction, and what a flow does in it.

use super::error::FlowError;
use super::flashing::Flashing;
use super::friction::TwoPhaseFriction;
use super::medium::{Medium, Point};
use super::restriction::Restriction;
use super::tube::Tube;
use crate::fluid::FluidError;

/// The flow models a document chooses.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Method {
    /// Flashing in short restrictions.
    pub flashing: Flashing,
    /// Friction where liquid and vapour flow together.
    pub two_phase_friction: TwoPhaseFriction,
}

/// A tube or a restriction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Element {
    /// A length of bore.
    Tube(Tube),
    /// A short hole.
    Restriction(Restriction),
}

/// What a flow is and does in one element. Pressures absolute.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ElementFlow {
    /// Pressure at the mouth.
    pub inlet_pressure_pa: f64,
    /// Pressure after it.
    pub outlet_pressure_pa: f64,
    /// Quality at the mouth, unclamped.
    pub inlet_quality: f64,
    /// Quality after it, at the same total enthalpy, unclamped.
    pub outlet_quality: f64,
    /// Refrigerant inside it.
    pub trapped_mass_kg: f64,
    /// The flow is the largest that passes here.
    pub choked: bool,
}

/// A flow that arrives at an element.
pub(super) struct FlowInput<'a, M: Medium> {
    pub medium: &'a M,
    pub method: Method,
    pub mass_flow_kg_s: f64,
    /// State at rest; its enthalpy is the total enthalpy that the whole path keeps.
    pub inlet: Point,
}

/// How far a flow is from the largest one, and the flow as it chokes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Choke {
    /// Positive where more would pass, negative where it is too much, zero at the largest flow.
    pub room: f64,
    /// The element at its largest flow.
    pub flow: ElementFlow,
}

/// Room where nothing passes at all, at the floor of the table: its logarithm has no end.
pub(super) const LEAST_ROOM: f64 = -60.0;

impl Choke {
    /// This choke where the flow is clearly too much; otherwise the failure had another reason.
    pub fn or(self, error: FlowError) -> Result<Self, FlowError> {
        if self.room < -0.5 { Ok(self) } else { Err(error) }
    }
}

/// Passed, or too much.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Outcome {
    /// It passes, and comes to rest in this state.
    Passes {
        flow: ElementFlow,
        outlet: Point,
    },
    Choked(Choke),
}

impl<M: Medium> FlowInput<'_, M> {
    /// The element passes the flow and leaves it at this pressure.
    pub fn passes_to(&self, outlet_pa: f64, trapped_mass_kg: f64) -> Result<Outcome, FlowError> {
        let outlet = self.medium.point(outlet_pa, self.inlet.enthalpy_j_kg)?;
        Ok(Outcome::Passes { flow: self.record(&outlet, trapped_mass_kg), outlet })
    }

    /// The element's flow record when its outlet stands at this pressure.
    pub fn flow_to(&self, outlet_pa: f64, trapped_mass_kg: f64) -> Result<ElementFlow, FluidError> {
        let outlet = self.medium.point(outlet_pa, self.inlet.enthalpy_j_kg)?;
        Ok(self.record(&outlet, trapped_mass_kg))
    }

    fn record(&self, outlet: &Point, trapped_mass_kg: f64) -> ElementFlow {
        ElementFlow {
            inlet_pressure_pa: self.inlet.pressure_pa,
            outlet_pressure_pa: outlet.pressure_pa,
            inlet_quality: self.inlet.quality,
            outlet_quality: outlet.quality,
            trapped_mass_kg,
            choked: false,
        }
    }
}

impl Element {
    pub(super) fn pass<M: Medium>(&self, input: &FlowInput<'_, M>) -> Result<Outcome, FlowError> {
        match self {
            Self::Tube(tube) => tube.pass(input),
            Self::Restriction(restriction) => restriction.pass(input),
        }
    }

    /// How far this flow is from the largest that passes from this inlet.
    pub(super) fn room<M: Medium>(&self, input: &FlowInput<'_, M>) -> Result<Choke, FlowError> {
        match self {
            Self::Tube(tube) => tube.room(input),
            Self::Restriction(restriction) => restriction.room(input),
        }
    }
}
