//! Recovery cylinders: how much each may take, how full it becomes when warm, in which order they
//! are filled, and which may not be filled at all.
//!
//! Neglected: the cylinder's own stretch, dissolved oil and air in the liquid, and the little that
//! liquid under more than its saturation pressure shrinks.

mod date;
mod filling;
mod finding;
mod hydrostatic;
mod room;
mod schedule;
mod stock;

pub use date::{DateError, YearMonth};
pub use filling::{
    FillLimits, FillRule, FillRuleKind, FillingDensity, FillingSources, FillingTable, NoLimit, fill_limits,
    net_by_specific_gravity,
};
pub use finding::{FillNote, FillStop};
pub use hydrostatic::{
    Contents, FillPoint, LiquidFull, contents_at, fill_curve, hot_fill_ratio, inside_volume,
    liquid_full_temperature, specific_gravity,
};
pub use room::{CylinderAnswer, RecoveryDay, SIPHON_TIME_S, cylinder_answer, siphon_allowance};
pub use schedule::{CylinderFill, CylinderSchedule, MoreCylinders, cylinder_schedule};
pub use stock::{CylinderPlace, Holds, StockCylinder};
