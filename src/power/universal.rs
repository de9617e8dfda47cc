//! A universal (series-wound, brushed) motor: `V = I (R + jX) + k ω I`, torque `k I²`.
//!
//! Unsaturated field. The load's torque is constant with speed, so the current hardly follows
//! the voltage while the speed does. Of the losses at the rated point, half are taken as heat in
//! windings and brushes and half as a constant loss torque (common practice, no source).
//! Source: the usual textbook circuit of the series motor.

use super::error::PowerError;
use super::motor::Plate;
use super::phasor::Phasor;
use super::running::{CannotHold, Feed, MotorState};

/// The fitted circuit, ohms at rated frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct UniversalCircuit {
    winding: Phasor,
    /// `k ω` at rated speed.
    rated_motional_ohm: f64,
    rated_current_a: f64,
    /// Loss torque over rated load torque.
    loss_torque_ratio: f64,
}

impl UniversalCircuit {
    /// Fits the circuit to the rated point.
    pub fn fit(plate: &Plate) -> Result<Self, PowerError> {
        if plate.locked_rotor_a <= 1.25 * plate.current_a {
            let limit_a = 1.25 * plate.current_a;
            return Err(PowerError::LockedRotorTooLow { got_a: plate.locked_rotor_a, limit_a });
        }
        let rated = plate.rated_impedance();
        let loss_w = plate.input_w() - plate.shaft_power_w;
        let converted_w = plate.shaft_power_w + 0.5 * loss_w;
        let rated_motional_ohm = converted_w / (plate.current_a * plate.current_a);
        Ok(Self {
            winding: Phasor::new(rated.re - rated_motional_ohm, rated.im),
            rated_motional_ohm,
            rated_current_a: plate.current_a,
            loss_torque_ratio: 0.5 * loss_w / plate.shaft_power_w,
        })
    }

    /// Steady running on a source, with a load torque as a ratio of rated torque.
    pub fn run(&self, feed: &Feed, load_torque_ratio: f64) -> Result<MotorState, CannotHold> {
        let torque_ratio =
            ((self.loss_torque_ratio + load_torque_ratio) / (self.loss_torque_ratio + 1.0)).max(1e-3);
        let current_a = self.rated_current_a * torque_ratio.sqrt();
        let winding = Phasor::new(self.winding.re, self.winding.im * feed.frequency_ratio);
        let passive = feed.impedance + winding;
        let total_ohm = feed.voltage.magnitude() / current_a;
        let in_phase = total_ohm * total_ohm - passive.im * passive.im;
        let motional_ohm = in_phase.max(0.0).sqrt() - passive.re;
        if motional_ohm <= 0.0 {
            let standstill_a = feed.voltage.magnitude() / passive.magnitude();
            let available_torque_ratio = (standstill_a / current_a).powi(2).min(1.0);
            return Err(CannotHold::PulledOut { available_torque_ratio });
        }
        let current = feed.voltage / (passive + Phasor::real(motional_ohm));
        Ok(MotorState {
            current,
            voltage: feed.voltage - current * feed.impedance,
            speed_ratio: motional_ohm / self.rated_motional_ohm,
            slip_ratio: None,
        })
    }
}
