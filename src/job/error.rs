//! Why there is no operating point, in words.

use crate::flow::FlowError;
use crate::fluid::FluidError;
use crate::machine::MachineError;
use crate::power::{CannotHold, PowerError};

/// No steady point, and why.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum JobError {
    /// The machine draws nothing even at the system's own pressure.
    #[error(
        "no steady point: the machine draws nothing from {system_pa:.0} Pa against {discharge_pa:.0} Pa \
         (absolute); against that discharge it reaches {ultimate_pa:.0} Pa at best"
    )]
    DrawsNothing {
        /// Pressure of the system.
        system_pa: f64,
        /// Discharge pressure.
        discharge_pa: f64,
        /// The lowest suction pressure of the machine against that.
        ultimate_pa: f64,
    },
    /// The high-pressure cut-out would stop the machine.
    #[error(
        "no steady point: the discharge needs {discharge_pa:.0} Pa (absolute) and the cut-out stops \
         the machine at {cut_out_pa:.0} Pa"
    )]
    CutOut {
        /// Discharge pressure that the flow needs.
        discharge_pa: f64,
        /// The cut-out's setting.
        cut_out_pa: f64,
    },
    /// Liquid would enter a machine that is not made for it.
    #[error("this machine is not rated for liquid, and the port draws liquid")]
    LiquidRefused,
    /// The motor cannot hold its load on this supply.
    #[error("no steady point: the motor cannot hold its load on this supply ({0})")]
    MotorCannotHold(CannotHold),
    /// The discharge path cannot pass the flow into the cylinder.
    #[error(
        "the discharge path cannot pass {mass_flow_kg_s:.4} kg/s into the cylinder below \
         {limit_pa:.0} Pa, the end of the property table"
    )]
    DischargeBlocked {
        /// The flow.
        mass_flow_kg_s: f64,
        /// The highest pressure tried.
        limit_pa: f64,
    },
    /// Pressures were sought below the property table.
    #[error(
        "no steady point: the machine would draw the inlet below {floor_pa:.0} Pa (absolute), the \
         lowest pressure of the property table"
    )]
    BelowTable {
        /// The table's floor.
        floor_pa: f64,
    },
    /// A figure of the job makes no sense.
    #[error("{quantity} is {got}; expected {expected}")]
    OutOfRange {
        /// The thing, with its unit.
        quantity: &'static str,
        /// Its value in that unit.
        got: f64,
        /// What would be right.
        expected: &'static str,
    },
    /// There is no cylinder to fill.
    #[error("there is no cylinder that may be filled")]
    NoCylinder,
    /// More refrigerant than the vessel holds as liquid.
    #[error(
        "{mass_kg:.3} kg do not fit: at {temperature_k:.1} K the vessel is full of liquid at {holds_kg:.3} kg; \
         expected a smaller charge or a larger volume"
    )]
    DoesNotFit {
        /// The charge.
        mass_kg: f64,
        /// What the vessel holds.
        holds_kg: f64,
        /// Temperature of the liquid.
        temperature_k: f64,
    },
    /// A vessel's pressure rises beyond the property table.
    #[error("a vessel's pressure rises above {ceiling_pa:.0} Pa (absolute), the end of the property table")]
    VesselAboveTable {
        /// The table's ceiling.
        ceiling_pa: f64,
    },
    /// The integration came to a halt.
    #[error("the job cannot be followed beyond {time_s:.1} s: the step in time shrank to nothing")]
    CannotFollow {
        /// Time reached.
        time_s: f64,
    },
    /// The refrigerant has no such state.
    #[error(transparent)]
    Fluid(#[from] FluidError),
    /// The path has no answer.
    #[error(transparent)]
    Flow(#[from] FlowError),
    /// The machine has no answer.
    #[error(transparent)]
    Machine(#[from] MachineError),
    /// The supply or the motor is contradictory.
    #[error(transparent)]
    Power(#[from] PowerError),
}
