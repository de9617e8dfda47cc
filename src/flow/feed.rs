//! Where a chain's flow comes from: one vessel, or two branches that meet.
//!
//! Branches meet at one pressure; their enthalpies mix. The split is the one at which both arrive
//! at that pressure; a choked branch gives its plateau whatever the pressure.

use super::chain::{Chain, LargestFlow, March};
use super::element::{Choke, ElementFlow};
use super::error::FlowError;
use super::medium::{Medium, Point};
use crate::numerics::{RootError, Tolerance, find_root};

/// The start of a chain.
pub(super) enum Feed<'a, M: Medium> {
    /// A port of the system: refrigerant at rest.
    Port(Point),
    /// Two branches that meet.
    Joined(Box<Join<'a, M>>),
}

/// Two branches with their plateaus, and the pressure at each one's end while nothing flows.
pub(super) struct Join<'a, M: Medium> {
    branches: [Chain<'a, M>; 2],
    largest: [LargestFlow; 2],
    rest_pa: [f64; 2],
}

impl<M: Medium> Feed<'_, M> {
    /// The highest pressure there is: that of the port.
    pub fn pressure_pa(&self) -> f64 {
        match self {
            Self::Port(point) => point.pressure_pa,
            Self::Joined(join) => join.start_pa(),
        }
    }

    /// The state that arrives with this flow, or the choke where it is too much.
    pub fn at(&self, medium: &M, mass_flow_kg_s: f64) -> Result<Result<Point, Choke>, FlowError> {
        match self {
            Self::Port(point) => Ok(Ok(*point)),
            Self::Joined(join) => join.at(medium, mass_flow_kg_s),
        }
    }

    /// `ln(largest flow/flow)`.
    pub fn room(&self, mass_flow_kg_s: f64) -> f64 {
        match self {
            Self::Port(_) => f64::INFINITY,
            Self::Joined(join) => (join.most_kg_s() / mass_flow_kg_s).ln(),
        }
    }
}

impl<'a, M: Medium> Join<'a, M> {
    /// Joins two branches; each needs at least one element.
    ///
    /// # Errors
    /// The refrigerant's range was left.
    pub fn new(branches: [Chain<'a, M>; 2]) -> Result<Self, FlowError> {
        let largest = [plateau(&branches[0])?, plateau(&branches[1])?];
        let rest_pa = [branches[0].rest_pressure_pa()?, branches[1].rest_pressure_pa()?];
        Ok(Self { branches, largest, rest_pa })
    }

    fn start_pa(&self) -> f64 {
        self.branches[0].feed.pressure_pa().max(self.branches[1].feed.pressure_pa())
    }

    fn most_kg_s(&self) -> f64 {
        self.largest[0].mass_flow_kg_s + self.largest[1].mass_flow_kg_s
    }

    /// Flow of each branch when they meet at this pressure.
    pub fn split_at(&self, pressure_pa: f64) -> Result<[f64; 2], FlowError> {
        let flow = |i: usize| self.branches[i].flow_at(pressure_pa, self.rest_pa[i], &self.largest[i]);
        Ok([flow(0)?, flow(1)?])
    }

    /// The branches, for their profiles.
    pub fn branches(&self) -> impl Iterator<Item = (&Chain<'a, M>, &LargestFlow)> {
        self.branches.iter().zip(&self.largest)
    }

    /// A branch that falls may meet the other above the pressure of its port.
    fn highest_meeting_pa(&self) -> f64 {
        self.rest_pa[0].max(self.rest_pa[1])
    }

    fn lowest_meeting_pa(&self) -> f64 {
        self.largest[0].outlet_pressure_pa.min(self.largest[1].outlet_pressure_pa)
    }

    fn at(&self, medium: &M, mass_flow_kg_s: f64) -> Result<Result<Point, Choke>, FlowError> {
        let lowest = self.lowest_meeting_pa();
        if mass_flow_kg_s > self.most_kg_s() {
            let meeting = self.mixed(medium, lowest)?;
            return Ok(Err(Choke {
                room: (self.most_kg_s() / mass_flow_kg_s).ln(),
                flow: ElementFlow {
                    inlet_pressure_pa: self.start_pa(),
                    outlet_pressure_pa: lowest,
                    inlet_quality: meeting.quality,
                    outlet_quality: meeting.quality,
                    trapped_mass_kg: 0.0,
                    choked: true,
                },
            }));
        }
        let excess = |p: f64| self.split_at(p).map(|[a, b]| a + b - mass_flow_kg_s);
        let ends =
            ((self.highest_meeting_pa(), -mass_flow_kg_s), (lowest, self.most_kg_s() - mass_flow_kg_s));
        let tolerance = Tolerance { absolute: 0.0, relative: 1e-9, residual: 1e-8 * mass_flow_kg_s };
        let pressure_pa = match find_root(excess, ends.0, ends.1, tolerance) {
            Ok(root) => root.x,
            Err(RootError::NotBracketed { .. }) => lowest,
            Err(RootError::Function(error)) => return Err(error),
        };
        Ok(Ok(self.mixed(medium, pressure_pa)?))
    }

    /// The mixture where the branches meet at this pressure.
    pub fn mixed(&self, medium: &M, pressure_pa: f64) -> Result<Point, FlowError> {
        let [a, b] = self.split_at(pressure_pa)?;
        let enthalpy = |i: usize| match &self.branches[i].feed {
            Feed::Port(point) => point.enthalpy_j_kg,
            Feed::Joined(_) => 0.0,
        };
        let share = if a + b > 0.0 { a / (a + b) } else { 0.5 };
        Ok(medium.point(pressure_pa, share * enthalpy(0) + (1.0 - share) * enthalpy(1))?)
    }
}

/// A branch's plateau: doubled from a small flow until it is too much.
fn plateau<M: Medium>(chain: &Chain<'_, M>) -> Result<LargestFlow, FlowError> {
    let mut up_to = 1e-3;
    for _ in 0..50 {
        if let Some(largest) = chain.largest_flow(up_to)? {
            return Ok(largest);
        }
        up_to *= 4.0;
    }
    // No flow is too much for a branch that falls; none is little enough for one that lifts too high.
    match chain.march(1e-9)? {
        March::Stuck { .. } => Err(FlowError::NothingPasses { floor_pa: chain.medium.lowest_pressure_pa() }),
        March::Through { .. } => {
            let expected = "a branch that limits the flow";
            Err(FlowError::out_of_range("largest flow of a branch (kg/s)", up_to, expected))
        }
    }
}
