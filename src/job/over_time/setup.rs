//! Everything a job over time depends on, beyond the one operating point of [`crate::job::Setup`].

use uom::si::f64::{
    HeatCapacity, Mass, Pressure, Ratio, ThermalConductance, ThermodynamicTemperature, Time, Volume,
};
use uom::si::heat_capacity::joule_per_kelvin;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::time::{day, minute};

use super::PhaseKind;
use crate::flow::{Path, PathPart};
use crate::job::{AtOnce, Connection, Port, Setup};

/// One kit's whole job.
///
/// `kit.source.temperature` is the system's temperature at the start; `kit.source.first` and
/// `second` are what the ports draw while the method draws liquid; `kit.cylinder` is not used,
/// each of `cylinders` has its own state.
#[derive(Debug, Clone)]
pub struct JobSetup {
    /// Refrigerant, path, machine, discharge path, air, supply and motor.
    pub kit: Setup,
    /// The system that is emptied.
    pub system: System,
    /// The cylinders in the order of use.
    pub cylinders: Vec<JobCylinder>,
    /// How the refrigerant is taken out.
    pub method: Recovery,
    /// Machines that work together.
    pub machines: Machines,
    /// When the job is done.
    pub target: Target,
    /// Minutes in which nothing flows.
    pub pauses: Pauses,
    /// Where the computation stops, and how exact it is.
    pub limits: RunLimits,
}

/// The system as a vessel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct System {
    /// All refrigerant in it at the start, what the oil holds included.
    pub charge: Mass,
    /// Inside volume.
    pub volume: Volume,
    /// How its contents behave.
    pub contents: Contents,
    /// Metal that follows the refrigerant's temperature.
    pub metal_heat_capacity: HeatCapacity,
    /// Heat from the ambient air for each kelvin: `UA (T_ambient − T)`.
    pub heat_gain: ThermalConductance,
    /// Share of the charge that stays as liquid below the liquid port.
    pub unreachable_ratio: Ratio,
    /// Refrigerant that oil holds back.
    pub dissolved: Dissolved,
}

/// What is assumed of a vessel's contents.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Contents {
    /// Liquid and vapour at one temperature and pressure; energy is balanced.
    Equilibrium,
    /// Liquid and vapour share the pressure and pass heat at their interface; energy is balanced
    /// for each.
    TwoZone {
        /// Heat between each zone and the interface for each kelvin.
        interphase: ThermalConductance,
    },
    /// All is held at the starting temperature.
    Isothermal,
}

/// Refrigerant in the oil: it comes out slowly as the pressure falls, and the gauge rises again
/// after the machine has stopped.
///
/// The oil holds in proportion to the pressure (Henry's law) and releases the excess at
/// `excess/release_time`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dissolved {
    /// Share of the charge that the oil holds at the start.
    pub share_ratio: Ratio,
    /// Time constant of the release.
    pub release_time: Time,
}

impl Dissolved {
    /// No oil. The time constant is common practice, no source.
    pub fn none() -> Self {
        Self { share_ratio: Ratio::new::<ratio>(0.0), release_time: Time::new::<minute>(20.0) }
    }
}

impl System {
    /// A bare vessel: equilibrium, no metal, no heat, everything within reach.
    pub fn bare(charge: Mass, volume: Volume) -> Self {
        Self {
            charge,
            volume,
            contents: Contents::Equilibrium,
            metal_heat_capacity: HeatCapacity::new::<joule_per_kelvin>(0.0),
            heat_gain: ThermalConductance::new::<watt_per_kelvin>(0.0),
            unreachable_ratio: Ratio::new::<ratio>(0.0),
            dissolved: Dissolved::none(),
        }
    }
}

/// A cylinder that is filled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JobCylinder {
    /// Inside volume (water capacity over the density of water).
    pub volume: Volume,
    /// Refrigerant in it at the start; an empty cylinder is taken as evacuated.
    pub contents: Mass,
    /// Net weight at which filling stops.
    pub stop_net: Mass,
    /// Temperature at the start.
    pub temperature: ThermodynamicTemperature,
    /// Partial pressure of air and other non-condensables at the start. They are squeezed as
    /// liquid fills the cylinder.
    pub non_condensables: Pressure,
    /// What its walls do.
    pub walls: CylinderWalls,
    /// Steel that follows the refrigerant's temperature.
    pub metal_heat_capacity: HeatCapacity,
}

/// How a cylinder meets its surroundings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CylinderWalls {
    /// Its contents stay at the starting temperature.
    Held,
    /// Heat passes by `UA (T_surroundings − T)`: shade, sun, a water bath.
    Exchange {
        /// Heat for each kelvin.
        conductance: ThermalConductance,
        /// Temperature of air, bath or sun-warmed metal.
        surroundings: ThermodynamicTemperature,
    },
}

/// How the refrigerant is taken out.
#[derive(Debug, Clone, PartialEq)]
pub enum Recovery {
    /// Every port draws vapour.
    VaporOnly,
    /// Ports draw as `kit.source` says (the first liquid, if both say vapour) until the
    /// change-over, then all draw vapour.
    LiquidThenVapor {
        /// Share of the reachable liquid that is left at the change-over.
        change_over_ratio: Ratio,
    },
    /// Liquid is pushed over by gas from the cylinder, then the hoses are changed and the rest
    /// follows by another method.
    PushPull(PushPull),
}

/// The line-up of push-pull.
#[derive(Debug, Clone, PartialEq)]
pub struct PushPull {
    /// From the system's liquid port to the cylinder's liquid port.
    pub liquid_line: Path,
    /// From the cylinder's vapour port to the machine.
    pub vapor_line: Vec<PathPart>,
    /// From the machine to the system's vapour port.
    pub gas_line: Vec<PathPart>,
    /// What comes after the hose change.
    pub finish: Finish,
}

/// The method that ends a push-pull job.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Finish {
    /// Vapour.
    VaporOnly,
    /// What liquid is still in reach, then vapour.
    LiquidThenVapor {
        /// As [`Recovery::LiquidThenVapor`].
        change_over_ratio: Ratio,
    },
}

/// Machines alike that work together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Machines {
    /// How many.
    pub count: u32,
    /// How they are connected.
    pub connection: Connection,
    /// When the second and later ones join.
    pub joins: Joins,
}

impl Machines {
    /// A single machine.
    pub const ONE: Self = Self { count: 1, connection: Connection::SamePort, joins: Joins::AtOnce };

    /// How many draw in a phase.
    pub fn in_phase(&self, kind: PhaseKind) -> u32 {
        let joined = match self.joins {
            Joins::AtOnce => true,
            Joins::WithVapor => matches!(kind, PhaseKind::Vapor | PhaseKind::Tail),
            Joins::InTail => kind == PhaseKind::Tail,
        };
        if joined { self.count } else { 1 }
    }

    /// Those of a phase.
    pub fn at_once(&self, kind: PhaseKind) -> AtOnce {
        AtOnce { count: self.in_phase(kind), connection: self.connection }
    }
}

/// When further machines join the first (staged work).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Joins {
    /// From the start.
    AtOnce,
    /// When vapour is drawn.
    WithVapor,
    /// When the last liquid is gone.
    InTail,
}

/// When the job is done.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Target {
    /// Absolute pressure that the system must reach.
    pub level: Pressure,
    /// How long to wait at the level before reading the gauge again; zero for no re-check.
    pub wait: Time,
    /// Re-checks at most.
    pub rechecks: u32,
    /// Rise after the wait that still counts as holding.
    pub allowed_rise: Pressure,
}

impl Target {
    /// The level alone, without re-check.
    pub fn level(level: Pressure) -> Self {
        Self {
            level,
            wait: Time::new::<minute>(0.0),
            rechecks: 0,
            allowed_rise: Pressure::new::<pascal>(0.0),
        }
    }
}

/// Minutes in which nothing flows. The defaults are common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pauses {
    /// Change of a cylinder.
    pub swap: Time,
    /// Change of hoses after push-pull.
    pub hose_change: Time,
    /// Between a cut-out's trip and the next start.
    pub restart: Time,
}

impl Default for Pauses {
    fn default() -> Self {
        Self {
            swap: Time::new::<minute>(8.0),
            hose_change: Time::new::<minute>(15.0),
            restart: Time::new::<minute>(10.0),
        }
    }
}

/// Where the computation stops, and how exact it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RunLimits {
    /// Longest job that is followed.
    pub time: Time,
    /// Trips of the cut-out before the job is given up.
    pub trips: u32,
    /// Relative error allowed in one step.
    pub tolerance: f64,
}

impl Default for RunLimits {
    fn default() -> Self {
        Self { time: Time::new::<day>(30.0), trips: 12, tolerance: 1e-5 }
    }
}

/// What a port draws, for both branches.
pub(crate) type Ports = (Port, Port);
