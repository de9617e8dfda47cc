//! Source, wiring and motor solved together, running and starting.
//!
//! The motor on its Thevenin feed has a closed form; what is iterated is only the conductor
//! temperature. Starting from conductors without current, current and temperature can only rise
//! from step to step, so the sequence ends at the first steady point or shows that none exists.
//! Starting is one phasor division with the rotor locked.

use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::f64::{ElectricCurrent, ElectricPotential, Power, ThermodynamicTemperature};
use uom::si::power::watt;
use uom::si::thermodynamic_temperature::degree_celsius;

use super::elements::{Part, elements};
use super::error::{PowerError, checked};
use super::motor::Motor;
use super::network::{Impedances, Joints, Moment, Network};
use super::path::PowerPath;
use super::phasor::Phasor;
use super::point::{PowerPoint, Running, RunningPoint, StartOutcome, StartReason, StartingPoint};
use super::running::{CannotHold, Feed, MotorState};
use super::verdict::judge;

/// What the compressor asks of the shaft. Its torque is taken as constant with speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Load {
    /// Rated torque: the planning case.
    Nameplate,
    /// The torque that this power is at **rated speed**. A compressor whose power is known at
    /// another speed asks `power / speed_ratio` here.
    ShaftPower(Power),
}

/// Load torque of a compressor that starts with discharge and inlet equalised, over rated
/// torque. Common practice, no source.
pub const EQUALISED_START_TORQUE_RATIO: f64 = 0.5;

/// Load torque of a piston compressor that starts against pressure, over rated torque: the peak
/// of the first stroke. Common practice, no source.
pub const LOADED_START_TORQUE_RATIO: f64 = 1.5;

/// How warm the conductors are when the motor starts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StartFrom {
    /// At ambient, but for what other loads warm: the first start of a job.
    Cold,
    /// As warm as steady running made them: a restart.
    Warm,
}

/// Circumstances of a solve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    ambient_c: f64,
    start_load_torque_ratio: f64,
    start_from: StartFrom,
}

impl Conditions {
    /// An ambient temperature; a cold start against pressure.
    ///
    /// # Errors
    /// Ambient outside −75 to 80 °C: all that a document may say lies within.
    pub fn new(ambient: ThermodynamicTemperature) -> Result<Self, PowerError> {
        Ok(Self {
            ambient_c: checked("ambient temperature", ambient.get::<degree_celsius>(), "degC", -75.0, 80.0)?,
            start_load_torque_ratio: LOADED_START_TORQUE_RATIO,
            start_from: StartFrom::Cold,
        })
    }

    /// The same with the load torque at standstill over rated torque, which the pressure
    /// difference across the compressor sets.
    ///
    /// # Errors
    /// A ratio outside 0 to 5.
    pub fn with_start_load(self, torque_ratio: f64) -> Result<Self, PowerError> {
        let ratio = checked("load torque at start", torque_ratio, "of rated torque", 0.0, 5.0)?;
        Ok(Self { start_load_torque_ratio: ratio, ..self })
    }

    /// The same with the conductors cold or warm at the start.
    pub fn with_start_from(self, start_from: StartFrom) -> Self {
        Self { start_from, ..self }
    }
}

/// Solves source, wiring and motor together.
///
/// # Errors
/// Only a load outside 0 to 100 times the rated shaft power. A motor that cannot hold its load is
/// an answer: [`Running::CannotHold`].
pub fn solve(
    path: &PowerPath,
    motor: &Motor,
    load: Load,
    conditions: &Conditions,
) -> Result<PowerPoint, PowerError> {
    let load_torque_ratio = load_torque_ratio(motor, load)?;
    let network = Network::new(path, conditions.ambient_c);
    let mut impedances = network.blank();
    let running = settle(path, motor, load_torque_ratio, &network, &mut impedances);
    let warm = running
        .as_ref()
        .ok()
        .map(|(state, joints)| (joints.branch_current.magnitude(), state.current.magnitude()));
    let running_impedances = impedances.clone();

    let (branch_a, cord_a) = match (conditions.start_from, warm) {
        (StartFrom::Warm, Some(currents)) => currents,
        _ => (path.branch.other_load_a, 0.0),
    };
    network.warm(Moment::Starting, branch_a, cord_a, &mut impedances);
    let feed = network.feed(&impedances, motor.plate.frequency_hz);
    let (start_current, start_voltage) = start_phasors(motor, &feed);
    let start_joints = network.joints(&impedances, start_voltage, start_current);
    let starting = starting_point(motor, conditions, &feed, start_current, start_voltage, &start_joints);

    let elements = elements(
        path,
        running.as_ref().ok().map(|(state, joints)| Part {
            impedances: &running_impedances,
            joints,
            motor_current: state.current,
        }),
        &Part { impedances: &impedances, joints: &start_joints, motor_current: start_current },
    );
    let (running, panel, receptacle) = match running {
        Ok((state, joints)) => (
            Running::Holds(running_point(motor, load_torque_ratio, &state, &joints)),
            Some(volts(joints.panel)),
            Some(volts(joints.receptacle)),
        ),
        Err(reason) => (Running::CannotHold(reason), None, None),
    };
    let mut point = PowerPoint {
        open_circuit: path.supply.open_circuit(),
        panel,
        receptacle,
        elements,
        running,
        starting,
        verdicts: Vec::new(),
        notes: Vec::new(),
    };
    judge(path, motor, conditions.ambient_c, &mut point);
    Ok(point)
}

fn load_torque_ratio(motor: &Motor, load: Load) -> Result<f64, PowerError> {
    match load {
        Load::Nameplate => Ok(1.0),
        Load::ShaftPower(power) => {
            let rated_w = motor.plate.shaft_power_w;
            let load_w = checked("shaft power of the load", power.get::<watt>(), "W", 0.0, 100.0 * rated_w)?;
            Ok(load_w / rated_w)
        }
    }
}

/// Iterates conductor temperature and current from below until they agree.
fn settle(
    path: &PowerPath,
    motor: &Motor,
    load_torque_ratio: f64,
    network: &Network<'_>,
    impedances: &mut Impedances,
) -> Result<(MotorState, Joints), CannotHold> {
    const MOST_STEPS: u32 = 500;
    let (mut branch_a, mut cord_a) = (path.branch.other_load_a, 0.0);
    for _ in 0..MOST_STEPS {
        network.warm(Moment::Running, branch_a, cord_a, impedances);
        let feed = network.feed(impedances, motor.plate.frequency_hz);
        let state = motor.run(&feed, load_torque_ratio)?;
        let new_cord_a = state.current.magnitude();
        let settled = (new_cord_a - cord_a).abs() <= 1e-9 * new_cord_a;
        cord_a = new_cord_a;
        let joints = network.joints(impedances, state.voltage, state.current);
        branch_a = joints.branch_current.magnitude();
        if settled {
            return Ok((state, joints));
        }
    }
    Err(CannotHold::Unsettled)
}

fn running_point(motor: &Motor, load_torque_ratio: f64, state: &MotorState, joints: &Joints) -> RunningPoint {
    let apparent = state.voltage * state.current.conjugate();
    let shaft_w = motor.plate.shaft_power_w * load_torque_ratio * state.speed_ratio;
    RunningPoint {
        voltage: volts(state.voltage),
        current: amps(state.current),
        branch_current: amps(joints.branch_current),
        power_factor_ratio: apparent.cosine(),
        input_power: Power::new::<watt>(apparent.re),
        shaft_power: Power::new::<watt>(shaft_w),
        voltage_ratio: state.voltage.magnitude() / motor.plate.voltage_v,
        current_ratio: state.current.magnitude() / motor.plate.current_a,
        speed_ratio: state.speed_ratio,
        slip_ratio: state.slip_ratio,
    }
}

/// Current into the starting motor and voltage across it.
fn start_phasors(motor: &Motor, feed: &Feed) -> (Phasor, Phasor) {
    let impedance = motor.starting_impedance(feed.frequency_ratio);
    let current = feed.voltage / (feed.impedance + impedance);
    (current, current * impedance)
}

fn starting_point(
    motor: &Motor,
    conditions: &Conditions,
    feed: &Feed,
    current: Phasor,
    voltage: Phasor,
    joints: &Joints,
) -> StartingPoint {
    let voltage_v = voltage.magnitude();
    // Torque goes with rotor current squared over synchronous speed; at rated frequency that is
    // the square of the voltage.
    let torque_ratio = match motor.drive() {
        Some(drive) if voltage_v >= drive.trip_v() => 1.0,
        Some(_) => 0.0,
        None => (current.magnitude() / motor.plate.locked_rotor_a).powi(2) / feed.frequency_ratio,
    };
    let available_torque_ratio = torque_ratio * motor.plate.locked_rotor_torque_ratio;
    let load_torque_ratio = conditions.start_load_torque_ratio;
    let reason = match motor.drive() {
        Some(drive) if voltage_v < drive.trip_v() => {
            StartReason::UnderVoltageTrip { voltage_v, trip_v: drive.trip_v() }
        }
        _ => StartReason::Torque { available_torque_ratio, load_torque_ratio },
    };
    StartingPoint {
        voltage: volts(voltage),
        current: amps(current),
        panel: volts(joints.panel),
        receptacle: volts(joints.receptacle),
        branch_current: amps(joints.branch_current),
        voltage_ratio: voltage_v / motor.plate.voltage_v,
        torque_ratio,
        available_torque_ratio,
        load_torque_ratio,
        outcome: outcome(reason),
    }
}

/// A start is sure with 20 % more torque than the load's peak and hopeless with 20 % less;
/// between them the spread of motors and loads decides (common practice, no source).
fn outcome(reason: StartReason) -> StartOutcome {
    match reason {
        StartReason::UnderVoltageTrip { .. } => StartOutcome::WillNotStart(reason),
        StartReason::Torque { available_torque_ratio, load_torque_ratio } => {
            if available_torque_ratio >= 1.2 * load_torque_ratio {
                StartOutcome::Starts
            } else if available_torque_ratio >= 0.8 * load_torque_ratio {
                StartOutcome::MayNotStart(reason)
            } else {
                StartOutcome::WillNotStart(reason)
            }
        }
    }
}

fn volts(phasor: Phasor) -> ElectricPotential {
    ElectricPotential::new::<volt>(phasor.magnitude())
}

fn amps(phasor: Phasor) -> ElectricCurrent {
    ElectricCurrent::new::<ampere>(phasor.magnitude())
}
