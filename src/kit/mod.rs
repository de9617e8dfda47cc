//! The parts people own, as they are written down.
//!
//! Everything here keeps what a person typed. `check` methods look at one thing at a time and
//! report every fault with the path of the field; what passes them is safe to hand to physics.
//! Neglects: nothing here computes a flow or a voltage.

mod cord;
mod cylinder;
mod date;
mod defaults;
mod dialect;
mod drier;
mod fault;
mod hole;
mod job_plan;
mod machine;
mod method;
mod motor;
mod part;
mod prices;
mod rating;
mod rules;
mod set;
mod shelved;
mod tube;
mod valve;

pub use cord::{Branch, Cord, Generator, Lay, Material, Stranding, Supply};
pub use cylinder::Cylinder;
pub use date::TypedDate;
pub use defaults::{
    BREAKER_A, CORE_DISCHARGE_COEFFICIENT, DISCHARGE_COEFFICIENT, HOSE_ROUGHNESS_M, LOADED_DRIER_AREA_RATIO,
    MECHANICAL_EFFICIENCY, PRESSURE_RECOVERY, USED_DRIER_AREA_RATIO, VAPOUR_SHARE,
};
pub(crate) use dialect::{dialect, is_false};
pub use drier::{DrierState, FilterDrier};
pub(crate) use fault::Door;
pub use fault::Fault;
pub use hole::{GaugeSet, Hole};
pub use job_plan::{JobPlan, MachineMade, MachinePorts, RecoveryMethod, Target, TargetLevel};
pub use machine::{Condenser, Machine, PolytropicExponent, PowerLoad, SuitableClass};
pub use method::{Flashing, Method, Port, TwoPhaseFriction};
pub use motor::{Motor, MotorKind, MotorStart};
pub use part::{Content, ContentMut, Part, PartKind};
pub(crate) use prices::check_price;
pub use prices::{ChangePrice, Price, PriceList};
pub use rating::{RatedRate, RatingCard, RatingConditions, TestMethod};
pub use rules::{
    ApplianceClass, FillingChoice, FillingDensity, FillingRules, FillingSources, LevelException, LevelRow,
    LevelRules, OtherTable, OwnRules, Rules, SmallAppliance,
};
pub use set::{Kit, SecondPort};
pub use shelved::{Shelved, shelf_id};
pub use tube::Tube;
pub use valve::Valve;

use crate::units::{Measure, Typed};
use serde::{Deserialize, Serialize};

/// The lowest and highest value a thing may well have, around the likely one.
///
/// A what-if may move the likely value out of its band; the band then belongs to another part, and
/// [`Band::around`] says so.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Band<T> {
    /// Low end.
    pub low: T,
    /// High end.
    pub high: T,
}

impl<Q: Measure> Band<Typed<Q>> {
    /// Low and high, if the likely value lies between them.
    pub fn around(&self, likely: &Typed<Q>) -> Option<(Q, Q)> {
        let holds = (self.low.si()..=self.high.si()).contains(&likely.si());
        holds.then(|| (self.low.value(), self.high.value()))
    }
}
