//! A brushless motor behind an electronic converter: constant power whatever the voltage, an
//! under-voltage trip, little inrush.
//!
//! Power factor is taken as constant; harmonics are neglected. Speed does not follow voltage or
//! frequency while the drive runs.

use uom::si::electric_potential::volt;
use uom::si::f64::ElectricPotential;

use super::error::{PowerError, checked};
use super::motor::{Assumption, Plate};
use super::phasor::Phasor;
use super::running::{CannotHold, Feed, MotorState};

/// Under-voltage trip over rated voltage when unknown; common practice, no source.
const USUAL_TRIP_RATIO: f64 = 0.80;
/// Starting current over rated current when unknown; common practice, no source.
const USUAL_INRUSH_RATIO: f64 = 1.5;
/// Share of the losses that does not go away with load; common practice, no source.
const STANDING_LOSS_RATIO: f64 = 0.3;

/// The drive, ready to run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Drive {
    rated_input_w: f64,
    rated_shaft_w: f64,
    power_factor_ratio: f64,
    trip_v: f64,
    starting_impedance: Phasor,
}

impl Drive {
    pub fn new(
        plate: &Plate,
        under_voltage_trip: Option<ElectricPotential>,
        inrush_ratio: Option<f64>,
        assumed: &mut Vec<Assumption>,
    ) -> Result<Self, PowerError> {
        let trip_v = match under_voltage_trip {
            Some(trip) => checked("under-voltage trip", trip.get::<volt>(), "V", 1.0, plate.voltage_v)?,
            None => {
                assumed.push(Assumption::UnderVoltageTrip(USUAL_TRIP_RATIO));
                USUAL_TRIP_RATIO * plate.voltage_v
            }
        };
        let inrush_ratio = match inrush_ratio {
            Some(ratio) => checked("drive inrush", ratio, "of rated current", 0.1, 20.0)?,
            None => {
                assumed.push(Assumption::Inrush(USUAL_INRUSH_RATIO));
                USUAL_INRUSH_RATIO
            }
        };
        Ok(Self {
            rated_input_w: plate.input_w(),
            rated_shaft_w: plate.shaft_power_w,
            power_factor_ratio: plate.power_factor_ratio,
            trip_v,
            starting_impedance: plate.rated_impedance() * (1.0 / inrush_ratio),
        })
    }

    pub fn trip_v(&self) -> f64 {
        self.trip_v
    }

    pub fn starting_impedance(&self) -> Phasor {
        self.starting_impedance
    }

    /// Steady running: the higher voltage of the two at which a feed delivers `S = P + jQ`,
    /// `|V|⁴ + (2 Re(S̄ Z) − |E|²) |V|² + |S|² |Z|² = 0` (the two-bus load flow).
    pub fn run(&self, feed: &Feed, load_torque_ratio: f64) -> Result<MotorState, CannotHold> {
        let input_w = self.input_w(load_torque_ratio);
        let load = Phasor::lagging(input_w / self.power_factor_ratio, self.power_factor_ratio);
        let along = load.re * feed.impedance.re + load.im * feed.impedance.im;
        let half = 0.5 * feed.voltage.squared() - along;
        let discriminant = half * half - load.squared() * feed.impedance.squared();
        if half <= 0.0 || discriminant < 0.0 {
            let most = 0.5 * feed.voltage.squared() / (along + load.magnitude() * feed.impedance.magnitude());
            return Err(CannotHold::VoltageCollapse { available_power_ratio: most });
        }
        let voltage_v = (half + discriminant.sqrt()).sqrt();
        if voltage_v < self.trip_v {
            return Err(CannotHold::UnderVoltageTrip { voltage_v, trip_v: self.trip_v });
        }
        // E = V + Z S̄/V̄ with V along the real axis, then turned to the feed's own angle.
        let current = load.conjugate() * (1.0 / voltage_v);
        let feed_voltage = Phasor::real(voltage_v) + current * feed.impedance;
        let turn = feed.voltage / feed_voltage;
        Ok(MotorState {
            current: current * turn,
            voltage: turn * voltage_v,
            speed_ratio: 1.0,
            slip_ratio: None,
        })
    }

    fn input_w(&self, load_torque_ratio: f64) -> f64 {
        let loss_w = self.rated_input_w - self.rated_shaft_w;
        let loss_part = STANDING_LOSS_RATIO + (1.0 - STANDING_LOSS_RATIO) * load_torque_ratio;
        self.rated_shaft_w * load_torque_ratio + loss_w * loss_part
    }
}
