//! The wiring as a network of phasor impedances, and its Thevenin equivalent at the motor.
//!
//! Series: source, branch circuit, receptacle contact, cords. Other loads hang on the receptacle
//! as one resistance (their amps at the open-circuit voltage), so the network stays linear.

use super::ampacity::Installation;
use super::path::PowerPath;
use super::phasor::Phasor;
use super::running::Feed;
use super::warming::{HIGHEST_CONDUCTOR_C, Lay, Warming};

/// The parts of a path that do not change with current, prepared once for a solve.
pub(crate) struct Network<'a> {
    path: &'a PowerPath,
    branch: Warming,
    cords: Vec<Warming>,
    other_load_ohm: Option<f64>,
    frequency_hz: f64,
}

/// The impedances of a path at given conductor temperatures.
#[derive(Debug, Clone)]
pub(crate) struct Impedances {
    pub source: Phasor,
    pub branch: Phasor,
    pub contact: Phasor,
    pub cords: Vec<Phasor>,
    pub branch_c: f64,
    pub cords_c: Vec<f64>,
}

/// The phasors along a path once the motor's current is known.
pub(crate) struct Joints {
    pub panel: Phasor,
    pub branch_end: Phasor,
    pub receptacle: Phasor,
    pub cord_ends: Vec<Phasor>,
    pub branch_current: Phasor,
}

/// Which source impedance counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Moment {
    Running,
    Starting,
}

impl<'a> Network<'a> {
    pub fn new(path: &'a PowerPath, ambient_c: f64) -> Self {
        let supply_v = path.supply.open_circuit_v();
        let other_a = path.branch.other_load_a;
        Self {
            path,
            branch: Warming::new(&path.branch.conductor, Installation::Building, Lay::Straight, ambient_c),
            cords: path
                .cords
                .iter()
                .map(|cord| Warming::new(&cord.conductor, Installation::Cord, cord.lay, ambient_c))
                .collect(),
            other_load_ohm: (other_a > 0.0).then(|| supply_v / other_a),
            frequency_hz: path.supply.frequency_hz(),
        }
    }

    /// An empty set of impedances to fill again and again.
    pub fn blank(&self) -> Impedances {
        Impedances {
            source: Phasor::ZERO,
            branch: Phasor::ZERO,
            contact: Phasor::ZERO,
            cords: vec![Phasor::ZERO; self.cords.len()],
            branch_c: 0.0,
            cords_c: vec![0.0; self.cords.len()],
        }
    }

    /// Fills in the impedances for conductors warmed by these currents.
    pub fn warm(&self, moment: Moment, branch_a: f64, cord_a: f64, out: &mut Impedances) {
        let branch = &self.path.branch;
        out.source = match moment {
            Moment::Running => self.path.supply.running_impedance(),
            Moment::Starting => self.path.supply.starting_impedance(),
        };
        out.branch_c = self.branch.temperature_c(branch_a);
        let reactance_ohm_m = branch.conductor.reactance_ohm_m(self.frequency_hz);
        out.branch = Phasor::new(self.branch.resistance_ohm_m(out.branch_c), reactance_ohm_m)
            * (2.0 * branch.length_m);
        out.contact = Phasor::real(branch.contact_ohm);
        let slots = out.cords.iter_mut().zip(out.cords_c.iter_mut());
        for ((cord, warming), (impedance, temperature_c)) in
            self.path.cords.iter().zip(&self.cords).zip(slots)
        {
            *temperature_c = warming.temperature_c(cord_a);
            let resistance_ohm_m = warming.resistance_ohm_m(*temperature_c);
            let reactance_ohm_m = cord.conductor.reactance_ohm_m(self.frequency_hz);
            *impedance = Phasor::new(resistance_ohm_m, reactance_ohm_m) * (2.0 * cord.length_m)
                + Phasor::real(cord.contact_ohm);
        }
    }

    /// The Thevenin equivalent at the motor's terminals.
    pub fn feed(&self, z: &Impedances, rated_frequency_hz: f64) -> Feed {
        let open_circuit = Phasor::real(self.path.supply.open_circuit_v());
        let upstream = z.source + z.branch;
        let downstream = z.cords.iter().fold(z.contact, |sum, cord| sum + *cord);
        let (voltage, upstream) = match self.other_load_ohm {
            None => (open_circuit, upstream),
            Some(load_ohm) => {
                let share = Phasor::real(load_ohm) / (upstream + Phasor::real(load_ohm));
                (open_circuit * share, upstream * share)
            }
        };
        Feed {
            voltage,
            impedance: upstream + downstream,
            frequency_ratio: self.frequency_hz / rated_frequency_hz,
        }
    }

    /// Voltages at every joint, walked back from the motor.
    pub fn joints(&self, z: &Impedances, motor_voltage: Phasor, motor_current: Phasor) -> Joints {
        let mut cord_ends = vec![motor_voltage; z.cords.len()];
        let mut voltage = motor_voltage;
        for (end, impedance) in cord_ends.iter_mut().zip(&z.cords).rev() {
            *end = voltage;
            voltage = voltage + motor_current * *impedance;
        }
        let receptacle = voltage;
        let branch_end = receptacle + motor_current * z.contact;
        let branch_current = motor_current + self.other_current(branch_end);
        let panel = branch_end + branch_current * z.branch;
        Joints { panel, branch_end, receptacle, cord_ends, branch_current }
    }

    /// Current of the other loads at a voltage on the receptacle.
    pub fn other_current(&self, voltage: Phasor) -> Phasor {
        self.other_load_ohm.map_or(Phasor::ZERO, |load_ohm| voltage * (1.0 / load_ohm))
    }
}

/// True when a conductor's temperature was capped.
pub(crate) fn is_capped(temperature_c: f64) -> bool {
    temperature_c >= HIGHEST_CONDUCTOR_C
}
