//! The cylinder that is being filled: its refrigerant in equilibrium, its walls, its air.
//!
//! Air obeys the gas law in the vapour's volume, so it is squeezed as liquid rises. Its pressure
//! adds to the refrigerant's as back pressure; it does not leave with what is drawn off.

use uom::si::f64::ThermodynamicTemperature;
use uom::si::heat_capacity::joule_per_kelvin;
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;
use uom::si::thermal_conductance::watt_per_kelvin;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume::cubic_meter;

use super::filling::Filling;
use super::setup::{CylinderWalls, JobCylinder};
use super::vessel::Vessel;
use crate::fluid::Refrigerant;
use crate::job::JobError;

/// A connected cylinder.
#[derive(Debug)]
pub(super) struct Receiving<'a> {
    vessel: Vessel<'a>,
    pub stop_kg: f64,
    /// Contents when it was connected; at least the vapour that an evacuated one holds.
    pub start_kg: f64,
    pub start_j: f64,
    walls: CylinderWalls,
    /// `p V/T` of the air in it.
    air_j_k: f64,
}

/// The cylinder in one moment.
#[derive(Debug, Clone, Copy)]
pub(super) struct CylinderView {
    pub filling: Filling,
    /// With its air.
    pub pressure_pa: f64,
}

impl<'a> Receiving<'a> {
    pub fn new(refrigerant: &'a Refrigerant, cylinder: &JobCylinder) -> Result<Self, JobError> {
        let start_k = cylinder.temperature.get::<kelvin>();
        let mut vessel = Vessel::new(refrigerant, cylinder.volume.get::<cubic_meter>(), start_k);
        vessel.metal_j_k = cylinder.metal_heat_capacity.get::<joule_per_kelvin>();
        vessel.is_held = cylinder.walls == CylinderWalls::Held;
        let start_kg = cylinder.contents.get::<kilogram>().max(vessel.evacuated_kg()?);
        let filling = vessel.start(start_kg)?;
        let gas_m3 = vessel.volume_m3 * filling.vapor_volume_ratio;
        let air_j_k = cylinder.non_condensables.get::<pascal>() * gas_m3 / start_k;
        let start_j = vessel.energy_j(start_kg, &filling);
        let stop_kg = cylinder.stop_net.get::<kilogram>();
        Ok(Self { vessel, stop_kg, start_kg, start_j, walls: cylinder.walls, air_j_k })
    }

    pub fn view(&self, mass_kg: f64, energy_j: f64) -> Result<CylinderView, JobError> {
        let filling = match self.vessel.filling(mass_kg, energy_j) {
            // The first cold drops in an evacuated cylinder flash to below the table: as a back
            // pressure that is as good as nothing, and its walls and what follows warm it.
            Err(JobError::BelowTable { .. }) => self.vessel.at_floor(mass_kg)?,
            other => other?,
        };
        let gas_m3 = self.vessel.volume_m3 * filling.vapor_volume_ratio.max(1e-4);
        let air_pa = self.air_j_k * filling.temperature_k / gas_m3;
        Ok(CylinderView { filling, pressure_pa: filling.pressure_pa + air_pa })
    }

    /// Its contents are held at one temperature: their energy does not matter.
    pub fn is_held(&self) -> bool {
        self.vessel.is_held
    }

    /// Heat that comes in through its walls.
    pub fn heat_w(&self, view: &CylinderView) -> f64 {
        match self.walls {
            CylinderWalls::Held => 0.0,
            CylinderWalls::Exchange { conductance, surroundings } => {
                conductance.get::<watt_per_kelvin>() * (kelvins(surroundings) - view.filling.temperature_k)
            }
        }
    }
}

fn kelvins(temperature: ThermodynamicTemperature) -> f64 {
    temperature.get::<kelvin>()
}
