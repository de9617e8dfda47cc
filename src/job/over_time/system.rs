//! The system that is emptied, as the integrator sees it: four numbers and their slopes.
//!
//! In equilibrium the numbers are mass and energy of all (and two zeros). With two zones they are
//! mass and enthalpy of the liquid, mass and energy of the vapour: the zones share the pressure,
//! and at their interface, which stands at saturation, heat `K (T − T_sat)` from each side boils
//! or condenses `ṁ = (q_liquid + q_vapor)/latent`.
//!
//! Zones are kept only while gas presses on the liquid (push-pull). While the pressure falls the
//! liquid boils through and through and stays in equilibrium. The work of pressing the liquid
//! itself (`V dp`) is neglected, as the tables do. Metal and heat gain belong to the liquid while
//! there is any.

use std::cell::Cell;

use super::filling::{Filling, find_filling};
use super::vessel::Vessel;
use crate::fluid::Refrigerant;
use crate::job::JobError;
use crate::numerics::Warm;

/// The system's four numbers.
pub(super) type SystemState = [f64; 4];

/// The system in one moment.
#[derive(Debug, Clone, Copy)]
pub(super) struct SystemView {
    pub pressure_pa: f64,
    pub mass_kg: f64,
    pub liquid_kg: f64,
    pub liquid_enthalpy_j_kg: f64,
    /// Of the liquid while there is any.
    pub temperature_k: f64,
    /// By enthalpy, of all the contents in equilibrium.
    pub quality: f64,
    zones: Option<Zones>,
}

#[derive(Debug, Clone, Copy)]
struct Zones {
    vapor: Filling,
    vapor_kg: f64,
    liquid_density_kg_m3: f64,
    liquid_k: f64,
}

/// What passes the system's walls.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Exchange {
    /// Leaves through the ports; liquid where there are zones.
    pub out_kg_s: f64,
    /// The enthalpy it takes along.
    pub out_w: f64,
    /// Gas that is pushed in.
    pub gas_kg_s: f64,
    /// The enthalpy it brings.
    pub gas_w: f64,
    /// Comes out of the oil.
    pub released_kg_s: f64,
    /// Heat through the walls.
    pub heat_w: f64,
}

/// The system's vessel and how its contents are taken.
#[derive(Debug)]
pub(super) struct SystemModel<'a> {
    pub vessel: Vessel<'a>,
    /// Heat between each zone and the interface for each kelvin, while there are two zones.
    pub interphase_w_k: Option<f64>,
    warm: Cell<Option<Warm>>,
}

/// An interface that settles within this is as good as equilibrium, and taken as that.
const FASTEST_S: f64 = 30.0;
/// Liquid hotter than saturation boils through its whole depth: the pressure follows this fast.
const BOILING_S: f64 = 10.0;
/// Pressure rises by about this share for each kelvin of saturation temperature.
const PRESSURE_RATIO_PER_K: f64 = 0.03;

impl<'a> SystemModel<'a> {
    pub fn new(vessel: Vessel<'a>) -> Self {
        Self { vessel, interphase_w_k: None, warm: Cell::new(None) }
    }

    fn refrigerant(&self) -> &'a Refrigerant {
        self.vessel.refrigerant
    }

    /// The numbers of a filling.
    pub fn state_of(&self, mass_kg: f64, filling: &Filling) -> SystemState {
        [mass_kg, self.vessel.energy_j(mass_kg, filling), 0.0, 0.0]
    }

    pub fn view(&self, state: &SystemState) -> Result<SystemView, JobError> {
        match self.interphase_w_k {
            None => self.view_one(state),
            Some(_) => self.view_two(state),
        }
    }

    fn view_one(&self, state: &SystemState) -> Result<SystemView, JobError> {
        let filling = self.vessel.filling(state[0], state[1])?;
        Ok(SystemView {
            pressure_pa: filling.pressure_pa,
            mass_kg: state[0],
            liquid_kg: state[0] * (1.0 - filling.vapor_ratio),
            liquid_enthalpy_j_kg: filling.saturation.liquid_enthalpy_j_kg,
            temperature_k: filling.temperature_k,
            quality: filling.quality,
            zones: None,
        })
    }

    fn view_two(&self, state: &SystemState) -> Result<SystemView, JobError> {
        let [liquid_kg, liquid_j, vapor_kg, vapor_j] = *state;
        if !(liquid_kg > 0.0 && vapor_kg > 0.0) {
            return Err(JobError::BelowTable { floor_pa: self.refrigerant().lowest_pressure_pa() });
        }
        let (enthalpy, liquid_k, density) = self.liquid(liquid_kg, liquid_j)?;
        let vapor_m3 = self.vessel.volume_m3 - liquid_kg / density;
        if !(vapor_m3 > 0.0) {
            let holds_kg = self.vessel.volume_m3 * density;
            return Err(JobError::DoesNotFit { mass_kg: liquid_kg, holds_kg, temperature_k: liquid_k });
        }
        let energy = vapor_j / vapor_kg;
        let mut warm = self.warm.get();
        let excess = |filling: &Filling| filling.energy_j_kg - energy;
        let vapor = find_filling(self.refrigerant(), vapor_m3 / vapor_kg, excess, 1e-3, &mut warm)?;
        self.warm.set(warm);
        Ok(SystemView {
            pressure_pa: vapor.pressure_pa,
            mass_kg: liquid_kg + vapor_kg,
            liquid_kg,
            liquid_enthalpy_j_kg: enthalpy,
            temperature_k: liquid_k,
            quality: vapor_kg / (liquid_kg + vapor_kg),
            zones: Some(Zones { vapor, vapor_kg, liquid_density_kg_m3: density, liquid_k }),
        })
    }

    /// Enthalpy, temperature and density of the liquid zone, its metal included: the temperature at
    /// which `m h(T) + C (T − T_start)` is what it holds.
    fn liquid(&self, liquid_kg: f64, liquid_j: f64) -> Result<(f64, f64, f64), JobError> {
        const HEAT_CAPACITY_J_KG_K: f64 = 1300.0;
        const ENOUGH_K: f64 = 1e-9;
        let refrigerant = self.refrigerant();
        let range = (refrigerant.lowest_temperature_k(), refrigerant.highest_saturation_temperature_k());
        let (start_k, metal_j_k) = (self.vessel.start_k, self.vessel.metal_j_k);
        let mut slope = liquid_kg * HEAT_CAPACITY_J_KG_K + metal_j_k;
        let mut temperature_k = start_k;
        let mut last: Option<(f64, f64)> = None;
        for _ in 0..40 {
            let at = refrigerant.saturation_at_bubble_temperature(temperature_k)?;
            let enthalpy = at.liquid_enthalpy_j_kg;
            let miss = liquid_j - liquid_kg * enthalpy - metal_j_k * (temperature_k - start_k);
            if let Some((before_k, before)) = last
                && (temperature_k - before_k).abs() > 1e-6
            {
                slope = ((before - miss) / (temperature_k - before_k)).max(0.2 * slope);
            }
            last = Some((temperature_k, miss));
            let next_k = (temperature_k + miss / slope).clamp(range.0, range.1);
            if (next_k - temperature_k).abs() < ENOUGH_K {
                return Ok((enthalpy, temperature_k, at.liquid_density_kg_m3));
            }
            temperature_k = next_k;
        }
        let at = refrigerant.saturation_at_bubble_temperature(temperature_k)?;
        Ok((at.liquid_enthalpy_j_kg, temperature_k, at.liquid_density_kg_m3))
    }

    /// Splits an equilibrium state into two zones, unless their interface settles at once.
    pub fn split(&mut self, state: &SystemState, interphase_w_k: f64) -> Result<SystemState, JobError> {
        let filling = self.vessel.filling(state[0], state[1])?;
        let at = &filling.saturation;
        let vapor_kg = state[0] * filling.vapor_ratio;
        if interphase_w_k * FASTEST_S > PRESSURE_RATIO_PER_K * at.latent_heat_j_kg() * vapor_kg {
            return Ok(*state);
        }
        let liquid_kg = state[0] - vapor_kg;
        let metal_j = self.vessel.metal_j_k * (at.bubble_temperature_k - self.vessel.start_k);
        let vapor_energy = at.vapor_enthalpy_j_kg - at.pressure_pa / at.vapor_density_kg_m3;
        self.interphase_w_k = Some(interphase_w_k);
        self.warm.set(None);
        Ok([liquid_kg, liquid_kg * at.liquid_enthalpy_j_kg + metal_j, vapor_kg, vapor_kg * vapor_energy])
    }

    /// Stirs two zones into one.
    pub fn merge(&mut self, state: &SystemState) -> Result<SystemState, JobError> {
        if self.interphase_w_k.is_none() {
            return Ok(*state);
        }
        let view = self.view_two(state)?;
        let liquid_m3 = view.zones.map_or(0.0, |zones| view.liquid_kg / zones.liquid_density_kg_m3);
        self.interphase_w_k = None;
        let energy_j = state[1] - view.pressure_pa * liquid_m3 + state[3];
        Ok([view.mass_kg, energy_j, 0.0, 0.0])
    }

    /// How fast the four numbers change.
    pub fn slopes(&self, view: &SystemView, exchange: &Exchange) -> SystemState {
        match (&view.zones, self.interphase_w_k) {
            (Some(zones), Some(interphase_w_k)) => self.slopes_two(view, zones, interphase_w_k, exchange),
            _ => {
                let released_w = exchange.released_kg_s * view.liquid_enthalpy_j_kg;
                let mass = exchange.gas_kg_s + exchange.released_kg_s - exchange.out_kg_s;
                let energy = exchange.gas_w + released_w + exchange.heat_w - exchange.out_w;
                [mass, energy, 0.0, 0.0]
            }
        }
    }

    fn slopes_two(
        &self,
        view: &SystemView,
        zones: &Zones,
        interphase_w_k: f64,
        exchange: &Exchange,
    ) -> SystemState {
        let at = &zones.vapor.saturation;
        let latent = at.latent_heat_j_kg();
        // The conductance at which the pressure relaxes in one second.
        let second_w_k = PRESSURE_RATIO_PER_K * latent * zones.vapor_kg;
        let liquid_excess_k = zones.liquid_k - at.bubble_temperature_k;
        let condensing_w_k = interphase_w_k.min(second_w_k / FASTEST_S);
        let liquid_w_k =
            if liquid_excess_k > 0.0 { condensing_w_k.max(second_w_k / BOILING_S) } else { condensing_w_k };
        let from_liquid_w = liquid_w_k * liquid_excess_k;
        let from_vapor_w = condensing_w_k * (zones.vapor.temperature_k - at.dew_temperature_k).max(0.0);
        // Droplets in the vapour zone fall within the same time as boiling takes.
        let rain = (1.0 - zones.vapor.vapor_ratio) * zones.vapor_kg / BOILING_S;
        let boils = (from_liquid_w + from_vapor_w) / latent;
        let to_vapor = boils - rain;
        let liquid = exchange.released_kg_s - exchange.out_kg_s - to_vapor;
        let liquid_w = exchange.released_kg_s * view.liquid_enthalpy_j_kg + exchange.heat_w
            - exchange.out_w
            - from_liquid_w
            - to_vapor * at.liquid_enthalpy_j_kg;
        // The liquid's volume gives way to the vapour, which does work on it.
        let warming = (liquid_w - liquid * view.liquid_enthalpy_j_kg) / view.liquid_kg;
        let swelling = self.swelling_m3_j(zones, view.liquid_enthalpy_j_kg);
        let liquid_m3_s = liquid / zones.liquid_density_kg_m3 + view.liquid_kg * swelling * warming;
        let vapor_w = exchange.gas_w - from_vapor_w + boils * at.vapor_enthalpy_j_kg
            - rain * at.liquid_enthalpy_j_kg
            + view.pressure_pa * liquid_m3_s;
        [liquid, liquid_w, exchange.gas_kg_s + to_vapor, vapor_w]
    }

    /// `dv/dh` of liquid, m³/J; its metal is left out, which only moves a little work.
    fn swelling_m3_j(&self, zones: &Zones, enthalpy_j_kg: f64) -> f64 {
        const ASIDE_K: f64 = 0.1;
        self.refrigerant().saturation_at_bubble_temperature(zones.liquid_k + ASIDE_K).map_or(0.0, |at| {
            let wider = 1.0 / at.liquid_density_kg_m3 - 1.0 / zones.liquid_density_kg_m3;
            wider / (at.liquid_enthalpy_j_kg - enthalpy_j_kg)
        })
    }
}
