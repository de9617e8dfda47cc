//! A single-phase induction motor as one equivalent circuit, fitted to its nameplate.
//!
//! ```text
//!   o──R1──jXσ──┬────────┐
//!               jXm     R2/s
//!   o───────────┴────────┘
//! ```
//! All leakage stands on the stator side; electrically this is the same as any division of it
//! (the T circuit has one parameter too many). Rated point and locked-rotor point fix the four:
//!
//! - `Xσ` is the locked-rotor reactance (the rotor's share of the shunt, below 3 %, is neglected);
//! - `R1 = R2`: stator and rotor copper losses equal at the rated point, the customary division;
//!   the locked rotor's further resistance is its start winding and the skin effect in its bars,
//!   which the running circuit does not have. Where the locked rotor shows less than `2 R2`,
//!   `R1` is what it leaves beside `R2`;
//! - `R2/s` and `Xm` follow from the rated impedance, in closed form.
//!
//! What the air gap passes beyond rated shaft power is a loss torque, constant with speed (core,
//! friction and backward field together). Saturation is neglected; torque of the load is taken
//! as constant with speed, which a positive-displacement compressor's nearly is. With a Thevenin
//! source the steady slip solves a quadratic, so no iteration can fail: either a stable slip
//! exists or the pull-out torque is below the load.
//!
//! Source: the usual textbook circuit of the induction machine (the forward field of a balanced
//! two-winding motor); the closed forms are derived here.

use super::error::PowerError;
use super::motor::Plate;
use super::phasor::Phasor;
use super::running::{CannotHold, Feed, MotorState};

/// The fitted circuit, ohms at the rated frequency.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct InductionCircuit {
    stator_ohm: f64,
    leakage_ohm: f64,
    magnetizing_ohm: f64,
    rotor_ohm: f64,
    /// Air-gap power at the rated point and frequency: rated torque plus loss torque, in
    /// synchronous watts.
    rated_air_gap_w: f64,
    /// The part of it that the load takes at rated torque.
    rated_load_w: f64,
    rated_slip_ratio: f64,
}

impl InductionCircuit {
    /// Fits the circuit to rated and locked-rotor points.
    ///
    /// The rated point must be the stable one of the two that the circuit has at that torque.
    pub fn fit(plate: &Plate) -> Result<Self, PowerError> {
        let circuit = Self::fit_unproven(plate)?;
        if circuit.rests_at_rated_point(plate) {
            return Ok(circuit);
        }
        // Pull-out torque grows with locked-rotor current: find the current that would do.
        let mut stronger = *plate;
        for _ in 0..100 {
            stronger.locked_rotor_a *= 1.02;
            if Self::fit_unproven(&stronger).is_ok_and(|c| c.rests_at_rated_point(&stronger)) {
                break;
            }
        }
        Err(locked_rotor_too_low(plate, stronger.locked_rotor_a))
    }

    fn fit_unproven(plate: &Plate) -> Result<Self, PowerError> {
        let slip = rated_slip_ratio(plate)?;
        let rated = plate.rated_impedance();
        let locked = plate.locked_impedance();
        if locked.magnitude() >= 0.8 * rated.magnitude() {
            return Err(locked_rotor_too_low(plate, 1.25 * plate.current_a));
        }
        let leakage_ohm = locked.im;
        let shunt_reactance = rated.im - leakage_ohm;
        if shunt_reactance <= 0.0 {
            return Err(power_factor_too_high(plate, leakage_ohm, rated.magnitude()));
        }
        let shunt_resistance = shunt_resistance_ohm(slip, rated.re, locked.re, shunt_reactance)
            .ok_or(PowerError::SlipTooLarge { got_rpm: plate.speed_rpm, slip_ratio: slip })?;
        // A resistor y beside a reactor Xm looks like a + jb: y = (a² + b²)/a, Xm = (a² + b²)/b.
        let squares = shunt_resistance * shunt_resistance + shunt_reactance * shunt_reactance;
        let rated_air_gap_w = plate.current_a * plate.current_a * shunt_resistance;
        let limit_w = rated_air_gap_w * (1.0 - slip);
        if plate.shaft_power_w > limit_w {
            return Err(PowerError::ShaftPowerTooHigh { got_w: plate.shaft_power_w, limit_w });
        }
        Ok(Self {
            stator_ohm: rated.re - shunt_resistance,
            leakage_ohm,
            magnetizing_ohm: squares / shunt_reactance,
            rotor_ohm: slip * squares / shunt_resistance,
            rated_air_gap_w,
            rated_load_w: plate.shaft_power_w / (1.0 - slip),
            rated_slip_ratio: slip,
        })
    }

    /// Steady running on a source, with a load torque as a ratio of rated torque.
    pub fn run(&self, feed: &Feed, load_torque_ratio: f64) -> Result<MotorState, CannotHold> {
        let f = feed.frequency_ratio;
        let magnetizing = Phasor::new(0.0, self.magnetizing_ohm * f);
        let series = feed.impedance + Phasor::new(self.stator_ohm, self.leakage_ohm * f);
        let loop_impedance = series + magnetizing;
        let rotor_source = feed.voltage * magnetizing / loop_impedance;
        let rotor_impedance = series * magnetizing / loop_impedance;
        // Torque is air-gap power over synchronous speed, and that goes with frequency.
        let air_gap_w = f * self.required_w(load_torque_ratio);
        // P = |V|² y / |Z + y|²  ⇒  y² + (2 Re Z − |V|²/P) y + |Z|² = 0; the larger y is stable.
        let half = 0.5 * rotor_source.squared() / air_gap_w - rotor_impedance.re;
        let discriminant = half * half - rotor_impedance.squared();
        if half <= 0.0 || discriminant < 0.0 {
            let pull_out_w =
                0.5 * rotor_source.squared() / (rotor_impedance.re + rotor_impedance.magnitude());
            return Err(CannotHold::PulledOut { available_torque_ratio: pull_out_w / air_gap_w });
        }
        let y = half + discriminant.sqrt();
        let slip_ratio = self.rotor_ohm / y;
        if slip_ratio >= 1.0 {
            // Torque still rises towards standstill and is not enough there.
            let standstill = (rotor_impedance + Phasor::real(self.rotor_ohm)).squared();
            let standstill_w = rotor_source.squared() * self.rotor_ohm / standstill;
            return Err(CannotHold::PulledOut { available_torque_ratio: standstill_w / air_gap_w });
        }
        let rotor_current = rotor_source / (rotor_impedance + Phasor::real(y));
        let current = rotor_current + rotor_current * y / magnetizing;
        Ok(MotorState {
            current,
            voltage: feed.voltage - current * feed.impedance,
            speed_ratio: f * (1.0 - slip_ratio) / (1.0 - self.rated_slip_ratio),
            slip_ratio: Some(slip_ratio),
        })
    }

    /// Air-gap power for a load at the rated frequency, never quite zero.
    fn required_w(&self, load_torque_ratio: f64) -> f64 {
        let loss_w = self.rated_air_gap_w - self.rated_load_w;
        (loss_w + load_torque_ratio * self.rated_load_w).max(1e-6 * self.rated_air_gap_w)
    }

    fn rests_at_rated_point(&self, plate: &Plate) -> bool {
        let feed =
            Feed { voltage: Phasor::real(plate.voltage_v), impedance: Phasor::ZERO, frequency_ratio: 1.0 };
        self.run(&feed, 1.0)
            .is_ok_and(|state| (state.current.magnitude() - plate.current_a).abs() <= 1e-6 * plate.current_a)
    }
}

/// Slip below the nearest synchronous speed above the rated speed, for 2 to 12 poles.
fn rated_slip_ratio(plate: &Plate) -> Result<f64, PowerError> {
    let synchronous_rpm = |pole_pairs: u8| 60.0 * plate.frequency_hz / f64::from(pole_pairs);
    let above = (1..=6u8)
        .rev()
        .map(synchronous_rpm)
        .find(|rpm| *rpm > plate.speed_rpm)
        .unwrap_or_else(|| synchronous_rpm(1));
    let slip = 1.0 - plate.speed_rpm / above;
    if (0.005..=0.2).contains(&slip) {
        Ok(slip)
    } else {
        Err(PowerError::NoSuchSpeed { got_rpm: plate.speed_rpm, synchronous_rpm: above })
    }
}

/// Resistance of the rotor and magnetizing shunt at the rated point: the positive root of
/// `(1 + s) a² − R a + s b² = 0` with `R1 = R2`, or of `(1 − s) a² − (R − R_locked) a − s b² = 0`
/// with `R1 = R_locked − R2`. None when no positive stator resistance is left.
fn shunt_resistance_ohm(slip: f64, rated_ohm: f64, locked_ohm: f64, b: f64) -> Option<f64> {
    let rotor_ohm = |a: f64| slip * (a * a + b * b) / a;
    let discriminant = rated_ohm * rated_ohm - 4.0 * (1.0 + slip) * slip * b * b;
    if discriminant >= 0.0 {
        let a = (rated_ohm + discriminant.sqrt()) / (2.0 * (1.0 + slip));
        if 2.0 * rotor_ohm(a) <= locked_ohm {
            return Some(a);
        }
    }
    let difference = rated_ohm - locked_ohm;
    let root = (difference * difference + 4.0 * (1.0 - slip) * slip * b * b).sqrt();
    let a = (difference + root) / (2.0 * (1.0 - slip));
    (a > 0.0 && rotor_ohm(a) < locked_ohm && a < rated_ohm).then_some(a)
}

fn locked_rotor_too_low(plate: &Plate, limit_a: f64) -> PowerError {
    PowerError::LockedRotorTooLow { got_a: plate.locked_rotor_a, limit_a }
}

fn power_factor_too_high(plate: &Plate, leakage_ohm: f64, rated_ohm: f64) -> PowerError {
    let sine = (leakage_ohm / rated_ohm).min(1.0);
    PowerError::PowerFactorTooHigh {
        got_ratio: plate.power_factor_ratio,
        limit_ratio: (1.0 - sine * sine).sqrt(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plate() -> Plate {
        Plate {
            voltage_v: 115.0,
            current_a: 12.0,
            frequency_hz: 60.0,
            power_factor_ratio: 0.9,
            shaft_power_w: 800.0,
            speed_rpm: 1725.0,
            locked_rotor_a: 60.0,
            locked_rotor_power_factor_ratio: 0.65,
            locked_rotor_torque_ratio: 2.5,
        }
    }

    /// Impedance of the circuit at a slip, straight from the drawing above.
    fn impedance(circuit: &InductionCircuit, slip: f64) -> Phasor {
        let rotor = Phasor::real(circuit.rotor_ohm / slip);
        let magnetizing = Phasor::new(0.0, circuit.magnetizing_ohm);
        Phasor::new(circuit.stator_ohm, circuit.leakage_ohm) + rotor * magnetizing / (rotor + magnetizing)
    }

    /// By hand: 115/12 Ω at 0.9 = 8.625 + j4.177; leakage 115/60 × √(1 − 0.65²) = 1.4565.
    /// Shunt reactance 2.7208; (1 + s) a² − 8.625 a + s 2.7208² = 0 with s = 1/24 gives
    /// a = 8.2438; squares 75.363: Xm = 27.699, R2 = 0.38091, R1 = 0.3812.
    #[test]
    fn fit_by_hand() {
        let circuit = InductionCircuit::fit(&plate()).unwrap();
        for (got, expected) in [
            (circuit.leakage_ohm, 1.4565),
            (circuit.magnetizing_ohm, 27.70),
            (circuit.rotor_ohm, 0.3809),
            (circuit.stator_ohm, 0.3812),
        ] {
            assert!((got - expected).abs() < 1e-3 * expected, "{got} against {expected}");
        }
    }

    #[test]
    fn the_closed_form_satisfies_the_circuit_and_the_torque() {
        let circuit = InductionCircuit::fit(&plate()).unwrap();
        for (volts, load) in [(115.0, 1.0), (103.5, 1.0), (126.0, 0.3), (95.0, 1.2), (115.0, 0.0)] {
            let wiring = Phasor::new(0.7, 0.05);
            let feed = Feed { voltage: Phasor::real(volts), impedance: wiring, frequency_ratio: 1.0 };
            let state = circuit.run(&feed, load).unwrap();
            let slip = state.slip_ratio.unwrap();
            let current = feed.voltage / (wiring + impedance(&circuit, slip));
            assert!((state.current - current).magnitude() < 1e-9 * current.magnitude());
            // Air-gap power is what the terminals take less the stator's heat.
            let input_w = (state.voltage * state.current.conjugate()).re;
            let air_gap_w = input_w - state.current.squared() * circuit.stator_ohm;
            assert!((air_gap_w - circuit.required_w(load)).abs() < 1e-6 * input_w);
        }
    }

    #[test]
    fn pull_out_is_the_edge_of_what_runs() {
        let circuit = InductionCircuit::fit(&plate()).unwrap();
        let feed = Feed { voltage: Phasor::real(100.0), impedance: Phasor::real(2.0), frequency_ratio: 1.0 };
        let Err(CannotHold::PulledOut { available_torque_ratio }) = circuit.run(&feed, 3.0) else {
            panic!("three times rated torque behind 2 ohm at 100 V");
        };
        let loss = circuit.rated_air_gap_w / circuit.rated_load_w - 1.0;
        let edge = (3.0 + loss) * available_torque_ratio - loss;
        assert!(circuit.run(&feed, edge * 0.999).is_ok());
        assert!(circuit.run(&feed, edge * 1.001).is_err());
    }
}
