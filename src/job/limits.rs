//! What a job may and must do: how much goes into which cylinder, how far the system is evacuated,
//! and whether its method suits it.
//!
//! Nothing here depends on the kit: every kit of a document shares these answers.

use std::sync::Arc;

use uom::si::f64::{Mass, MassDensity, ThermodynamicTemperature};
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::kelvin;

use super::cylinders::{
    CylinderAnswer, CylinderSchedule, FillingTable, RecoveryDay, StockCylinder, cylinder_answer,
    cylinder_schedule,
};
use super::level::{LevelAsk, LevelError, LevelTable, RequiredLevel, required_level};
use super::suitability::{RecoveryMethod, SystemTraits, Unsuited, unsuited};
use crate::fluid::Refrigerant;

/// A charge with its band.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChargeBand {
    /// Low end.
    pub low: Mass,
    /// Likely.
    pub likely: Mass,
    /// High end.
    pub high: Mass,
}

/// Everything the limits depend on.
#[derive(Debug, Clone)]
pub struct LimitsAsk {
    /// What is recovered.
    pub refrigerant: Arc<Refrigerant>,
    /// The cylinder in use first, then the others in order.
    pub stock: Vec<StockCylinder>,
    /// The filling rules.
    pub filling: FillingTable,
    /// The levels.
    pub levels: LevelTable,
    /// Which level is asked for.
    pub level: LevelAsk,
    /// Date, air and siphoning allowance.
    pub day: RecoveryDay,
    /// The charge.
    pub charge: Option<ChargeBand>,
    /// How it is recovered.
    pub method: RecoveryMethod,
    /// What the system is like.
    pub system: SystemTraits,
    /// Temperature of the liquid in the system.
    pub source_temperature: ThermodynamicTemperature,
    /// The most that the scale can weigh.
    pub scale_capacity: Option<Mass>,
}

/// The limits of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct JobLimits {
    /// Each cylinder of the stock, in order.
    pub cylinders: Vec<CylinderAnswer>,
    /// Which of them are filled, where the charge is known.
    pub schedule: Option<CylinderSchedule>,
    /// How far to evacuate.
    pub level: Result<RequiredLevel, LevelError>,
    /// Reasons to think again about the method.
    pub unsuited: Vec<Unsuited>,
}

/// Works out the limits.
pub fn job_limits(ask: &LimitsAsk) -> JobLimits {
    let cylinders: Vec<CylinderAnswer> = ask
        .stock
        .iter()
        .map(|cylinder| cylinder_answer(&ask.refrigerant, cylinder, &ask.filling, &ask.day))
        .collect();
    JobLimits {
        schedule: ask.charge.map(|charge| cylinder_schedule(&cylinders, charge.likely, charge.high)),
        level: required_level(
            &ask.refrigerant,
            &ask.level,
            &ask.levels,
            ask.day.ambient_pressure,
            ask.day.date,
        ),
        unsuited: unsuited(ask.method, &ask.system, liquid_density(ask)),
        cylinders,
    }
}

/// The liquid's density in the system; zero, as if there were none, above the critical point.
fn liquid_density(ask: &LimitsAsk) -> MassDensity {
    let liquid = ask.refrigerant.saturation_at_bubble_temperature(ask.source_temperature.get::<kelvin>());
    MassDensity::new::<kilogram_per_cubic_meter>(liquid.map_or(0.0, |liquid| liquid.liquid_density_kg_m3))
}
