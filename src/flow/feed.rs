//! Where a chain's flow comes from: one vessel, or two branches that meet.
//!
//! Branches meet at one pressure; their enthalpies mix. The split is the one at which both arrive
//! at that pressure; a choked branch gives its plateau whatever the pressure.

use super::element::{Choke, ElementFlow};
use super::error::FlowError;
use super::join::Join;
use super::medium::{Medium, Point};

/// The start of a chain.
pub(super) enum Feed<'a, M: Medium> {
    /// A port of the system: refrigerant at rest.
    Port(Point),
    /// Two branches that meet.
    Joined(Box<Join<'a, M>>),
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
            Self::Joined(join) => match join.meeting(mass_flow_kg_s)? {
                Some(meeting) => Ok(Ok(join.mixed(medium, &meeting)?)),
                None => Ok(Err(too_much(join, mass_flow_kg_s))),
            },
        }
    }

    /// Total enthalpy of what arrives with this flow, the largest at most.
    pub fn enthalpy_j_kg(&self, medium: &M, mass_flow_kg_s: f64) -> Result<f64, FlowError> {
        match self {
            Self::Port(point) => Ok(point.enthalpy_j_kg),
            Self::Joined(join) => Ok(match join.meeting(mass_flow_kg_s)? {
                Some(meeting) => join.mixed(medium, &meeting)?.enthalpy_j_kg,
                None => join.mixed(medium, &join.fullest()?)?.enthalpy_j_kg,
            }),
        }
    }

    /// `ln(largest flow/flow)`.
    pub fn room(&self, mass_flow_kg_s: f64) -> Result<f64, FlowError> {
        match self {
            Self::Port(_) => Ok(f64::INFINITY),
            Self::Joined(join) => Ok((join.fullest()?.mass_flow_kg_s / mass_flow_kg_s).ln()),
        }
    }
}

/// Both branches choke, and still it is not enough.
fn too_much<M: Medium>(join: &Join<'_, M>, mass_flow_kg_s: f64) -> Choke {
    Choke {
        room: join.told_room(mass_flow_kg_s),
        flow: ElementFlow {
            inlet_pressure_pa: join.start_pa(),
            outlet_pressure_pa: join.told_pa(),
            inlet_quality: join.start_quality(),
            outlet_quality: join.start_quality(),
            trapped_mass_kg: 0.0,
            choked: true,
        },
    }
}
