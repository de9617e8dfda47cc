//! One state of the world: what is wrong with power, cylinder and flow, and how likely that is.

use super::cause::Cause;
use super::flow_case::FlowEvidence;
use super::side::{SideEvidence, SideReading};

/// One state of power, cylinder and flow together.
#[derive(Debug, Clone, Copy)]
pub(super) struct State {
    pub flow: FlowEvidence,
    pub power: SideEvidence,
    pub cylinder: SideEvidence,
    /// Probability once all are known.
    pub weight: f64,
}

impl State {
    /// What is wrong in this state; [`Cause::Nothing`] if nothing is.
    pub fn causes(&self) -> Vec<Cause> {
        let flow = Some(self.flow.cause).filter(|cause| *cause != Cause::Nothing);
        let wrong: Vec<Cause> = [self.power.cause, self.cylinder.cause, flow].into_iter().flatten().collect();
        if wrong.is_empty() { vec![Cause::Nothing] } else { wrong }
    }

    /// Volts of the power's state, cylinder of the cylinder's.
    pub fn side(&self) -> SideReading {
        SideReading {
            cylinder_pa: self.cylinder.reading.cylinder_pa,
            cylinder_k: self.cylinder.reading.cylinder_k,
            cylinder_slope_pa_k: self.cylinder.reading.cylinder_slope_pa_k,
            ..self.power.reading
        }
    }
}
