//! The parts people own, as they are written down.
//!
//! Everything here keeps what a person typed. `check` methods look at one thing at a time and
//! report every fault with the path of the field; what passes them is safe to hand to physics.
//! Neglects: nothing here computes a flow or a voltage.

mod cord;
mod cylinder;
mod defaults;
mod fault;
mod machine;
mod method;
mod motor;
mod part;
mod restriction;
mod set;
mod tube;

pub use cord::{Branch, Cord, Generator, Lay, Material, Supply};
pub use cylinder::Cylinder;
pub use defaults::{
    CORE_DISCHARGE_COEFFICIENT, DISCHARGE_COEFFICIENT, HOSE_ROUGHNESS_M, LOADED_DRIER_AREA_RATIO,
    PRESSURE_RECOVERY, STARTING_POWER_FACTOR, USED_DRIER_AREA_RATIO,
};
pub use fault::Fault;
pub(crate) use fault::Door;
pub use machine::{Condenser, Machine, PolytropicExponent, PowerLoad, SuitableClass};
pub use method::{Flashing, Method, Port, TwoPhaseFriction};
pub use motor::{Motor, MotorKind};
pub use part::{Part, PartKind};
pub use restriction::{DrierState, FilterDrier, GaugeSet, Hole, Valve};
pub use set::{Kit, SecondPort};
pub use tube::Tube;

use serde::{Deserialize, Serialize};

/// The lowest and highest value a thing may well have, around the likely one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Band<T> {
    /// Low end.
    pub low: T,
    /// High end.
    pub high: T,
}
