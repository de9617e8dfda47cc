//! The solved operating point of one kit.

use uom::si::f64::{Mass, MassRate, Power, Pressure, Ratio, ThermodynamicTemperature};

use super::note::Note;
use super::setup::AtOnce;

/// Where the path's curve meets the machine's. Pressures absolute.
#[derive(Debug, Clone, PartialEq)]
pub struct OperatingPoint {
    /// Recovery rate, of all machines at once.
    pub mass_flow: MassRate,
    /// The machines; pressures are those of each path and of each machine.
    pub machines: AtOnce,
    /// Pressure at the system's port.
    pub system_pressure: Pressure,
    /// Pressure at the machine's inlet, where its gauge reads.
    pub machine_inlet_pressure: Pressure,
    /// The path's parts in order; with a second port, the first branch's and the shared ones.
    pub parts: Vec<PartPoint>,
    /// The second port's branch.
    pub second: Option<SecondPort>,
    /// Index into `parts` of the first part that limits the flow.
    pub choked_part: Option<usize>,
    /// The machine's own inlet throttle is choked.
    pub throttle_choked: bool,
    /// The machine.
    pub machine: MachinePoint,
    /// Parts from the machine to the cylinder, in order.
    pub discharge_parts: Vec<PartPoint>,
    /// Pressure in the cylinder.
    pub cylinder_pressure: Pressure,
    /// What a person should know.
    pub notes: Vec<Note>,
}

/// One part of a path.
#[derive(Debug, Clone, PartialEq)]
pub struct PartPoint {
    /// Pressure at its mouth.
    pub inlet_pressure: Pressure,
    /// Pressure after it.
    pub outlet_pressure: Pressure,
    /// Pressures between its elements, as between a gauge set's seats; without the ends.
    pub between: Vec<Pressure>,
    /// Quality at its mouth, unclamped.
    pub inlet_quality: Ratio,
    /// Quality after it, unclamped.
    pub outlet_quality: Ratio,
    /// Liquid begins to boil here.
    pub flash_onset: bool,
    /// It limits the flow.
    pub choked: bool,
    /// Refrigerant inside it.
    pub trapped_mass: Mass,
}

impl OperatingPoint {
    /// What each machine draws.
    pub fn of_each(&self) -> MassRate {
        self.mass_flow / f64::from(self.machines.count.max(1))
    }
}

impl PartPoint {
    /// Pressure lost in the part.
    pub fn drop(&self) -> Pressure {
        self.inlet_pressure - self.outlet_pressure
    }
}

/// The second port's branch and its share.
#[derive(Debug, Clone, PartialEq)]
pub struct SecondPort {
    /// Its parts in order.
    pub parts: Vec<PartPoint>,
    /// How many of the first branch's parts come before the meeting.
    pub joins_before: usize,
    /// Flow of the first branch, on all paths.
    pub first_mass_flow: MassRate,
    /// Flow of this branch, on all paths.
    pub mass_flow: MassRate,
}

/// The machine at the point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MachinePoint {
    /// Pressure in the suction chamber, after the inlet throttle.
    pub suction_pressure: Pressure,
    /// Discharge pressure.
    pub discharge_pressure: Pressure,
    /// Condensing temperature.
    pub condensing_temperature: ThermodynamicTemperature,
    /// Temperature of the compressed gas.
    pub discharge_temperature: ThermodynamicTemperature,
    /// Volumetric efficiency.
    pub volumetric_efficiency: Ratio,
    /// Power at the shaft for this duty.
    pub shaft_power: Power,
    /// Heat rejected by the condenser.
    pub heat_rejected: Power,
    /// Speed over rated speed.
    pub speed: Ratio,
    /// Cut-out less discharge pressure; none without a cut-out.
    pub cut_out_margin: Option<Pressure>,
}
