//! The solved power path: voltages at the joints, what each element takes, running, starting.

use std::fmt;

use uom::si::f64::{ElectricCurrent, ElectricPotential, Power, ThermodynamicTemperature};

use super::finding::{Note, Verdict};
use super::running::CannotHold;

/// A solved power path.
#[derive(Debug, Clone, PartialEq)]
pub struct PowerPoint {
    /// Voltage of the source with nothing drawn.
    pub open_circuit: ElectricPotential,
    /// Voltage at the panel while running; none when the motor cannot hold.
    pub panel: Option<ElectricPotential>,
    /// Voltage at the receptacle while running; none when the motor cannot hold.
    pub receptacle: Option<ElectricPotential>,
    /// Source, branch circuit, receptacle, then the cords in order. Their drops add up to the
    /// open-circuit voltage less the motor's.
    pub elements: Vec<Element>,
    /// Steady running.
    pub running: Running,
    /// The moment of starting.
    pub starting: StartingPoint,
    /// What is wrong, worst first.
    pub verdicts: Vec<Verdict>,
    /// What was assumed or should be known beside the numbers.
    pub notes: Vec<Note>,
}

/// Steady running, or why there is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Running {
    /// A steady point exists.
    Holds(RunningPoint),
    /// None exists.
    CannotHold(CannotHold),
}

impl Running {
    /// The steady point, if one exists.
    pub fn point(&self) -> Option<&RunningPoint> {
        match self {
            Self::Holds(point) => Some(point),
            Self::CannotHold(_) => None,
        }
    }
}

/// A motor running steadily.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunningPoint {
    /// Voltage at the motor.
    pub voltage: ElectricPotential,
    /// Current of the motor.
    pub current: ElectricCurrent,
    /// Current of the branch circuit, other loads included.
    pub branch_current: ElectricCurrent,
    /// Power factor at the motor.
    pub power_factor_ratio: f64,
    /// Electrical power into the motor.
    pub input_power: Power,
    /// Power at the shaft at the actual speed.
    pub shaft_power: Power,
    /// Voltage over rated voltage.
    pub voltage_ratio: f64,
    /// Current over rated current.
    pub current_ratio: f64,
    /// Speed over rated speed; scales the compressor's displacement.
    pub speed_ratio: f64,
    /// Slip of an induction motor.
    pub slip_ratio: Option<f64>,
}

/// The motor at the moment of starting, rotor still locked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StartingPoint {
    /// Voltage at the motor.
    pub voltage: ElectricPotential,
    /// Current of the motor.
    pub current: ElectricCurrent,
    /// Voltage at the panel.
    pub panel: ElectricPotential,
    /// Voltage at the receptacle.
    pub receptacle: ElectricPotential,
    /// Current of the branch circuit, other loads included.
    pub branch_current: ElectricCurrent,
    /// Voltage over rated voltage.
    pub voltage_ratio: f64,
    /// Torque over the locked-rotor torque at rated voltage, `(V/V_rated)²`.
    pub torque_ratio: f64,
    /// Torque over rated torque.
    pub available_torque_ratio: f64,
    /// Torque that the load asks at standstill, over rated torque.
    pub load_torque_ratio: f64,
    /// Whether it starts.
    pub outcome: StartOutcome,
}

/// Whether a motor starts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StartOutcome {
    /// It starts.
    Starts,
    /// It may stall, trip or hum.
    MayNotStart(StartReason),
    /// It will not turn.
    WillNotStart(StartReason),
}

/// What decides a start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StartReason {
    /// Torque at hand against torque needed, both over rated torque.
    Torque {
        /// At the voltage that is left.
        available_torque_ratio: f64,
        /// Of the load at standstill.
        load_torque_ratio: f64,
    },
    /// An electronic drive sees too little voltage.
    UnderVoltageTrip {
        /// Voltage at the drive.
        voltage_v: f64,
        /// Voltage at which it switches off.
        trip_v: f64,
    },
}

impl fmt::Display for StartReason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Torque { available_torque_ratio, load_torque_ratio } => write!(
                f,
                "starting torque is {available_torque_ratio:.2} of rated, the load asks {load_torque_ratio:.2}"
            ),
            Self::UnderVoltageTrip { voltage_v, trip_v } => {
                write!(f, "the drive sees {voltage_v:.0} V at start and needs {trip_v:.0} V")
            }
        }
    }
}

/// One element of the chain and what it takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Element {
    /// Which element.
    pub kind: ElementKind,
    /// Volts lost while running; none when the motor cannot hold.
    pub running_drop: Option<ElectricPotential>,
    /// Voltage after it while running.
    pub running_outlet: Option<ElectricPotential>,
    /// Heat made in it while running.
    pub heat: Option<Power>,
    /// Temperature of its conductors while running.
    pub conductor_temperature: Option<ThermodynamicTemperature>,
    /// Volts lost while starting.
    pub starting_drop: ElectricPotential,
    /// Voltage after it while starting.
    pub starting_outlet: ElectricPotential,
}

/// Elements of the chain in order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ElementKind {
    /// Service or generator.
    Supply,
    /// Branch circuit in the wall.
    Branch,
    /// Receptacle contacts.
    Receptacle,
    /// A cord by its position, the receptacle's is 0.
    Cord(usize),
}

impl fmt::Display for ElementKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Supply => f.write_str("supply"),
            Self::Branch => f.write_str("branch circuit"),
            Self::Receptacle => f.write_str("receptacle"),
            Self::Cord(index) => write!(f, "cord {}", index + 1),
        }
    }
}
