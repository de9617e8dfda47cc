//! A piston compressor: what it draws in, and the work it takes.
//!
//! `ṁ = η_v ρ V̇` with `η_v = λ (1 + c − c r^(1/n))`, `r = p_d/p_s`. The clearance's gas expands
//! before anything is drawn in; `λ` holds leakage, heating and valve losses in one figure. Valve
//! dynamics and heat through the walls are neglected.

use uom::si::f64::{Ratio, VolumeRate};
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

use super::error::MachineError;
use crate::flow::{Medium, Point};
use crate::fluid::FluidError;

/// The exponent `n` of `p vⁿ = constant` in the cylinder.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Exponent {
    /// As given.
    Given(f64),
    /// The vapour's own isentropic exponent between suction and discharge.
    FromProperties,
}

/// A compressor by its swept volume a second and its losses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compressor {
    displacement_m3_s: f64,
    clearance_ratio: f64,
    loss_factor: f64,
    exponent: Exponent,
    mechanical_efficiency: f64,
}

/// What the compressor draws from, and against which pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Suction {
    /// State at rest in the suction chamber.
    pub point: Point,
    /// The exponent there.
    pub exponent: f64,
}

impl Compressor {
    /// - `displacement`: swept volume a second at rated speed
    /// - `clearance`: clearance volume over swept volume
    /// - `loss_factor`: `λ`, volumetric losses besides the clearance
    /// - `mechanical_efficiency`: compression work over shaft work
    ///
    /// # Errors
    /// Displacement outside 1e-7–1 m³/s, clearance outside 0–0.5, loss factor outside 0.05–1,
    /// exponent outside 1.01–2, efficiency outside 0.1–1.
    pub fn new(
        displacement: VolumeRate,
        clearance: Ratio,
        loss_factor: Ratio,
        exponent: Exponent,
        mechanical_efficiency: Ratio,
    ) -> Result<Self, MachineError> {
        let checked = |quantity, got: f64, range: std::ops::RangeInclusive<f64>, expected| {
            if range.contains(&got) {
                Ok(got)
            } else {
                Err(MachineError::out_of_range(quantity, got, expected))
            }
        };
        if let Exponent::Given(n) = exponent {
            checked("polytropic exponent", n, 1.01..=2.0, "1.01 to 2")?;
        }
        Ok(Self {
            displacement_m3_s: checked(
                "displacement (m³/s)",
                displacement.get::<cubic_meter_per_second>(),
                1e-7..=1.0,
                "1e-7 to 1 (0.0002 to 2100 cfm)",
            )?,
            clearance_ratio: checked("clearance", clearance.get::<ratio>(), 0.0..=0.5, "0 to 50 %")?,
            loss_factor: checked("loss factor", loss_factor.get::<ratio>(), 0.05..=1.0, "0.05 to 1")?,
            exponent,
            mechanical_efficiency: checked(
                "mechanical efficiency",
                mechanical_efficiency.get::<ratio>(),
                0.1..=1.0,
                "0.1 to 1",
            )?,
        })
    }

    /// Prepares a suction state: fixes the exponent.
    ///
    /// The vapour's exponent is `ln(p2/p1)/ln(v1/v2)` along the isentrope from saturated vapour at
    /// the suction pressure to twice that pressure, or to as much as the table reaches.
    ///
    /// # Errors
    /// The refrigerant's range was left.
    pub fn suction<M: Medium>(&self, medium: &M, point: Point) -> Result<Suction, FluidError> {
        let exponent = match self.exponent {
            Exponent::Given(n) => n,
            Exponent::FromProperties => isentropic_exponent(medium, &point)?,
        };
        Ok(Suction { point, exponent })
    }

    /// Volumetric efficiency `η_v = λ (1 + c − c r^(1/n))`, not below zero.
    ///
    /// # Source
    /// Closed form of an ideal clearance volume; any compressor textbook.
    /// # Example
    /// λ 0.95, c 5 %, n 1.1, r 2: 0.95 · (1.05 − 0.05 · 1.8778) = 0.9083.
    pub fn volumetric_efficiency(&self, suction: &Suction, discharge_pa: f64) -> f64 {
        let pressure_ratio = discharge_pa / suction.point.pressure_pa;
        let clearance = self.clearance_ratio;
        let swept = 1.0 + clearance - clearance * pressure_ratio.powf(1.0 / suction.exponent);
        (self.loss_factor * swept).max(0.0)
    }

    /// Mass drawn a second at a share of rated speed.
    pub fn mass_flow_kg_s(&self, suction: &Suction, discharge_pa: f64, speed_ratio: f64) -> f64 {
        self.volumetric_efficiency(suction, discharge_pa) * self.displacement_m3_s * speed_ratio
            / suction.point.specific_volume_m3_kg
    }

    /// Shaft work per mass: `n/(n−1) p_s v_s (r^((n−1)/n) − 1)/η_m`, not below zero.
    ///
    /// # Source
    /// Polytropic compression of a gas; for wet suction it is an estimate.
    pub fn shaft_work_j_kg(&self, suction: &Suction, discharge_pa: f64) -> f64 {
        let n = suction.exponent;
        let pressure_ratio = discharge_pa / suction.point.pressure_pa;
        let flow_work = suction.point.pressure_pa * suction.point.specific_volume_m3_kg;
        let work = n / (n - 1.0) * flow_work * (pressure_ratio.powf((n - 1.0) / n) - 1.0);
        work.max(0.0) / self.mechanical_efficiency
    }

    /// The suction pressure at which nothing more is drawn: `r = ((1 + c)/c)^n`.
    ///
    /// Zero without clearance.
    pub fn ultimate_suction_pa(&self, exponent: f64, discharge_pa: f64) -> f64 {
        if self.clearance_ratio == 0.0 {
            return 0.0;
        }
        discharge_pa / ((1.0 + self.clearance_ratio) / self.clearance_ratio).powf(exponent)
    }

    /// The same compressor with another displacement: a bigger one, or a worn one.
    ///
    /// # Errors
    /// Displacement outside 1e-7–1 m³/s.
    pub fn with_displacement(self, displacement: VolumeRate) -> Result<Self, MachineError> {
        Self::new(
            displacement,
            Ratio::new::<ratio>(self.clearance_ratio),
            Ratio::new::<ratio>(self.loss_factor),
            self.exponent,
            Ratio::new::<ratio>(self.mechanical_efficiency),
        )
    }

    /// Swept volume a second at rated speed.
    pub fn displacement(&self) -> VolumeRate {
        VolumeRate::new::<cubic_meter_per_second>(self.displacement_m3_s)
    }
}

fn isentropic_exponent<M: Medium>(medium: &M, point: &Point) -> Result<f64, FluidError> {
    // Wet suction compresses its vapour: start from saturated vapour at that pressure.
    let start = if point.quality < 1.0 { saturated_vapor(medium, point)? } else { *point };
    let mut share = 2.0;
    loop {
        let end_pa = share * start.pressure_pa;
        let end = medium.isobar(end_pa).and_then(|isobar| medium.by_entropy(&isobar, start.entropy_j_kg_k));
        match end {
            Ok(end) => {
                let log = (start.specific_volume_m3_kg / end.specific_volume_m3_kg).ln();
                return Ok((share.ln() / log).clamp(1.01, 2.0));
            }
            Err(error) if share < 1.02 => return Err(error),
            Err(_) => share = 1.0 + 0.5 * (share - 1.0),
        }
    }
}

/// Saturated vapour at a wet point's pressure: quality is straight in enthalpy.
fn saturated_vapor<M: Medium>(medium: &M, point: &Point) -> Result<Point, FluidError> {
    let isobar = medium.isobar(point.pressure_pa)?;
    let nudged = medium.by_enthalpy(&isobar, point.enthalpy_j_kg + 1e4)?;
    let latent = 1e4 / (nudged.quality - point.quality);
    medium.by_enthalpy(&isobar, point.enthalpy_j_kg + (1.0 - point.quality) * latent)
}
