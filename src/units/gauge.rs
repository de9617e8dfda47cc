//! Gauge pressure: what a gauge shows, above or below the air around it.
//!
//! It becomes an absolute pressure only with the ambient pressure in hand.

use uom::si::f64::Pressure;
use uom::si::pressure::pascal;

/// Pressure above ambient; negative below it.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd)]
pub struct GaugePressure(Pressure);

impl GaugePressure {
    /// What a gauge in `ambient` air reads at this absolute pressure.
    pub fn from_absolute(absolute: Pressure, ambient: Pressure) -> Self {
        Self(absolute - ambient)
    }

    /// A reading in pascals above ambient.
    pub fn from_pa(above_ambient_pa: f64) -> Self {
        Self(Pressure::new::<pascal>(above_ambient_pa))
    }

    /// The absolute pressure. Negative if the reading lies below absolute vacuum.
    pub fn to_absolute(self, ambient: Pressure) -> Pressure {
        self.0 + ambient
    }

    /// Pascals above ambient.
    pub fn above_ambient_pa(self) -> f64 {
        self.0.get::<pascal>()
    }
}
