//! What can end a stretch of a job: each event as a distance that falls to zero.

use super::moment::Moment;

/// An event that is watched for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Event {
    /// The system reaches a pressure.
    Level { pa: f64 },
    /// Its liquid falls to a mass.
    LiquidDown { to_kg: f64 },
    /// The cylinder reaches its stop weight.
    Full { stop_kg: f64 },
    /// Liquid fills the cylinder.
    LiquidFull,
    /// The cut-out trips.
    CutOut { pa: f64 },
    /// The machine is at the end of its reach.
    Ultimate,
    /// Hardly anything flows.
    Stalled,
}

/// Near enough to the ultimate pressure: the rest would take for ever.
const REACH_RATIO: f64 = 0.005;
/// A day at this rate moves less than a hundredth of what is left: nothing flows.
const STALL_S: f64 = 86_400.0;
const STALL_RATIO: f64 = 0.01;
/// Vapour space below which a cylinder counts as full of liquid.
const LEAST_VAPOR_RATIO: f64 = 2e-3;

impl Event {
    /// Positive before it, zero as it happens. `cylinder_kg` is in the connected cylinder.
    pub fn distance(self, moment: &Moment, cylinder_kg: f64) -> f64 {
        let system = &moment.system;
        match self {
            Self::Level { pa } => (system.pressure_pa / pa).ln(),
            Self::LiquidDown { to_kg } => system.liquid_kg - to_kg,
            Self::Full { stop_kg } => stop_kg - cylinder_kg,
            Self::LiquidFull => {
                moment.cylinder.map_or(1.0, |view| view.filling.vapor_volume_ratio) - LEAST_VAPOR_RATIO
            }
            Self::CutOut { pa } => pa - moment.discharge_pa,
            Self::Ultimate if moment.ultimate_pa > 0.0 => {
                (system.pressure_pa / moment.ultimate_pa).ln() - REACH_RATIO
            }
            Self::Ultimate => 1.0,
            Self::Stalled => moment.liquid_kg_s * STALL_S - STALL_RATIO * system.mass_kg,
        }
    }
}
