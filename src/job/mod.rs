//! The operating point (path, machine, cylinder and motor solved together) and the job over time.

mod balance;
mod cylinders;
mod discharge;
mod error;
mod level;
mod limits;
mod meeting;
mod note;
pub mod over_time;
mod point;
mod push;
mod setup;
mod solve;
mod strength;
mod suitability;
mod thin_charge;

pub use cylinders::{
    Contents, CylinderAnswer, CylinderFill, CylinderPlace, CylinderSchedule, DateError, FillLimits, FillNote,
    FillPoint, FillRule, FillRuleKind, FillStop, FillingDensity, FillingSources, FillingTable, Holds,
    LiquidFull, MoreCylinders, NoLimit, RecoveryDay, SIPHON_TIME_S, StockCylinder, YearMonth, contents_at,
    cylinder_answer, cylinder_schedule, fill_curve, fill_limits, hot_fill_ratio, inside_volume,
    liquid_full_temperature, net_by_specific_gravity, siphon_allowance, specific_gravity,
};
pub use error::JobError;
pub use level::{
    CompressorRuns, Disagreement, LevelAsk, LevelBasis, LevelError, LevelException, LevelNote, LevelRow,
    LevelTable, MachineMade, OtherTable, RequiredLevel, SmallAppliance, required_level,
};
pub use limits::{ChargeBand, JobLimits, LimitsAsk, job_limits};
pub use meeting::{MeetingCurves, meeting_curves};
pub use note::Note;
pub use point::{MachinePoint, OperatingPoint, PartPoint, SecondPort};
pub use setup::{Ambient, AtOnce, Connection, Cylinder, LoadBasis, Port, Setup, Source};
pub(crate) use solve::speed_by_volts;
pub use solve::{KitAnswer, solve};
pub use strength::{Side, highest_pressure, hottest_temperature};
pub use suitability::{PUSH_PULL_FROM_KG, RecoveryMethod, SystemTraits, Unsuited, unsuited};
pub use thin_charge::{ThinCharge, thin_charge};
