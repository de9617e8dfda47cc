//! Everything one operating point depends on.

use std::sync::Arc;

use uom::si::f64::{Pressure, Ratio, ThermodynamicTemperature};

use crate::flow::{Method, Path, PathPart};
use crate::fluid::Refrigerant;
use crate::machine::RecoveryMachine;
use crate::power::{Motor, PowerPath};

/// One kit on its source, machine, cylinder and supply.
#[derive(Debug, Clone)]
pub struct Setup {
    /// What is recovered.
    pub refrigerant: Arc<Refrigerant>,
    /// The system it comes from.
    pub source: Source,
    /// From the system to the machine.
    pub path: Path,
    /// The machine.
    pub machine: RecoveryMachine,
    /// From the machine to the cylinder.
    pub discharge: Vec<PathPart>,
    /// The cylinder.
    pub cylinder: Cylinder,
    /// The air around.
    pub ambient: Ambient,
    /// The flow models.
    pub method: Method,
    /// From the source of power to the machine.
    pub power: PowerPath,
    /// The machine's motor.
    pub motor: Motor,
    /// What loads the motor.
    pub load: LoadBasis,
    /// Machines like it that work at once.
    pub machines: AtOnce,
}

/// Machines alike that work at once, and how they meet the system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AtOnce {
    /// How many.
    pub count: u32,
    /// How they meet the system.
    pub connection: Connection,
}

impl AtOnce {
    /// A single machine.
    pub const ONE: Self = Self { count: 1, connection: Connection::SamePort };

    /// How many draw through the one path.
    pub fn on_one_path(&self) -> u32 {
        match self.connection {
            Connection::SamePort => self.count.max(1),
            Connection::SeparatePorts => 1,
        }
    }

    /// How many paths there are, each as the kit's.
    pub fn paths(&self) -> u32 {
        self.count.max(1) / self.on_one_path()
    }
}

/// How machines meet the system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Connection {
    /// All draw through the one kit.
    SamePort,
    /// Each has a port and a kit of its own.
    SeparatePorts,
}

/// The system that is emptied.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Source {
    /// Temperature of the refrigerant in it.
    pub temperature: ThermodynamicTemperature,
    /// The port of the first branch.
    pub first: Port,
    /// The port of the second branch, where the path has one.
    pub second: Port,
}

/// What a port draws.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Port {
    /// Saturated liquid at the bubble pressure.
    Liquid,
    /// Saturated vapour at the dew pressure.
    Vapor,
    /// Both at once through one connection.
    Mixed {
        /// Mass fraction of vapour.
        vapor_ratio: Ratio,
    },
}

/// The cylinder that is filled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cylinder {
    /// Temperature of what is in it.
    pub temperature: ThermodynamicTemperature,
    /// Pressure of air and other non-condensables in it.
    pub non_condensables: Pressure,
}

/// The air around machine and gauges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ambient {
    /// Temperature.
    pub temperature: ThermodynamicTemperature,
    /// Absolute pressure.
    pub pressure: Pressure,
}

/// What the motor is loaded with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LoadBasis {
    /// Its nameplate's load: the planning case, since discharge pressure rises through a job.
    #[default]
    Nameplate,
    /// The shaft power that the compressor takes at this very point.
    Duty,
}
