//! Questions whose fluid has a closed form: an ideal gas, and a liquid that boils at one pressure.
//! Handbook examples of compressible pipes, relief valves, orifices and control valves.

use serde::Deserialize;

use super::flow::{EQUILIBRIUM, area_m2, largest, mm, share, smooth_tube};
use super::question::Ask;
use super::words;
use crate::flow::{
    Arrival, Element, Line, Medium, Path, PathPart, Phases, Point, Restriction, darcy_friction_factor,
};
use crate::fluid::FluidError;

/// `p v = R T`, constant heat capacity and viscosity.
struct IdealGas {
    gas_constant: f64,
    k: f64,
    viscosity_pa_s: f64,
}

impl IdealGas {
    fn heat_capacity(&self) -> f64 {
        self.k / (self.k - 1.0) * self.gas_constant
    }

    fn at(&self, pressure_pa: f64, kelvin: f64) -> Point {
        Point {
            pressure_pa,
            specific_volume_m3_kg: self.gas_constant * kelvin / pressure_pa,
            enthalpy_j_kg: self.heat_capacity() * kelvin,
            entropy_j_kg_k: self.heat_capacity() * kelvin.ln() - self.gas_constant * pressure_pa.ln(),
            quality: 2.0,
            vapor_ratio: 1.0,
            ln_viscosity: self.viscosity_pa_s.ln(),
        }
    }
}

impl Medium for IdealGas {
    type Isobar = f64;

    fn isobar(&self, pressure_pa: f64) -> Result<f64, FluidError> {
        Ok(pressure_pa)
    }

    fn by_enthalpy(&self, pressure_pa: &f64, enthalpy_j_kg: f64) -> Result<Point, FluidError> {
        Ok(self.at(*pressure_pa, enthalpy_j_kg / self.heat_capacity()))
    }

    fn by_entropy(&self, pressure_pa: &f64, entropy: f64) -> Result<Point, FluidError> {
        let log = (entropy + self.gas_constant * pressure_pa.ln()) / self.heat_capacity();
        Ok(self.at(*pressure_pa, log.exp()))
    }

    fn phases(&self, _: &f64, point: &Point) -> Phases {
        Phases {
            liquid_density_kg_m3: 0.0,
            vapor_density_kg_m3: 1.0 / point.specific_volume_m3_kg,
            liquid_viscosity_pa_s: 0.0,
            vapor_viscosity_pa_s: self.viscosity_pa_s,
        }
    }

    fn lowest_pressure_pa(&self) -> f64 {
        1.0
    }
}

/// A liquid of constant density down to one pressure, where it boils so hard that it chokes.
struct BoilingLiquid {
    density_kg_m3: f64,
    boiling_pa: f64,
    viscosity_pa_s: f64,
}

impl BoilingLiquid {
    /// How much faster than an ideal gas the boiling liquid grows.
    const GROWTH: f64 = 1e4;

    /// `∫ v dp` from nothing up to a pressure, less a constant.
    fn flow_work(&self, pressure_pa: f64) -> f64 {
        let boiling = pressure_pa.min(self.boiling_pa);
        let vapor = self.boiling_pa * (boiling / self.boiling_pa).ln() - (boiling - self.boiling_pa);
        (pressure_pa + Self::GROWTH * vapor) / self.density_kg_m3
    }

    /// Entropy counts the enthalpy that a change of pressure does not explain, at 300 K.
    fn at(&self, pressure_pa: f64, enthalpy_j_kg: f64) -> Point {
        let boils = pressure_pa < self.boiling_pa;
        let grown = 1.0 + Self::GROWTH * (self.boiling_pa / pressure_pa - 1.0).max(0.0);
        Point {
            pressure_pa,
            specific_volume_m3_kg: grown / self.density_kg_m3,
            enthalpy_j_kg,
            entropy_j_kg_k: (enthalpy_j_kg - self.flow_work(pressure_pa)) / 300.0,
            quality: if boils { 0.5 } else { -0.5 },
            vapor_ratio: if boils { 0.5 } else { 0.0 },
            ln_viscosity: self.viscosity_pa_s.ln(),
        }
    }
}

impl Medium for BoilingLiquid {
    type Isobar = f64;

    fn isobar(&self, pressure_pa: f64) -> Result<f64, FluidError> {
        Ok(pressure_pa)
    }

    fn by_enthalpy(&self, pressure_pa: &f64, enthalpy_j_kg: f64) -> Result<Point, FluidError> {
        Ok(self.at(*pressure_pa, enthalpy_j_kg))
    }

    fn by_entropy(&self, pressure_pa: &f64, entropy: f64) -> Result<Point, FluidError> {
        Ok(self.at(*pressure_pa, 300.0 * entropy + self.flow_work(*pressure_pa)))
    }

    fn phases(&self, _: &f64, point: &Point) -> Phases {
        Phases {
            liquid_density_kg_m3: self.density_kg_m3,
            vapor_density_kg_m3: 1.0 / point.specific_volume_m3_kg,
            liquid_viscosity_pa_s: self.viscosity_pa_s,
            vapor_viscosity_pa_s: self.viscosity_pa_s,
        }
    }

    fn lowest_pressure_pa(&self) -> f64 {
        1.0
    }
}

/// Pressure at the end of one element.
fn end_pa<M: Medium>(medium: &M, element: Element, start: Point, kg_s: f64) -> Result<f64, String> {
    let path = Path::series(vec![PathPart { elements: vec![element] }]);
    let line = Line::new(medium, EQUILIBRIUM, &path, start, start).map_err(words)?;
    match line.arrival(kg_s).map_err(words)? {
        Arrival::Arrives(end) => Ok(end.pressure_pa),
        Arrival::TooMuch(_) => Err("it chokes".to_owned()),
    }
}

/// Reynolds number at which a smooth tube has this Darcy factor, by Churchill's turbulent branch:
/// `f = 8/(2.457 · 0.9 · ln(Re/7))²`.
fn smooth_reynolds(factor: f64) -> f64 {
    7.0 * ((8.0 / factor).sqrt() / (2.457 * 0.9)).exp()
}

/// The mass flux at which an ideal gas chokes at the end of a tube, over the flux that this Mach
/// number is at the mouth: 1 where the tube is as long as `friction_length` = f L/d says.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GasTubeChoke {
    k: f64,
    mach: f64,
    friction_length: f64,
}

impl Ask for GasTubeChoke {
    fn what(&self) -> String {
        format!("ideal gas k {}, Mach {} at the mouth, f L/d {}", self.k, self.mach, self.friction_length)
    }

    fn unit(&self) -> &'static str {
        ""
    }

    fn answer(&self) -> Result<f64, String> {
        let gas = IdealGas { gas_constant: 287.0, k: self.k, viscosity_pa_s: 18e-6 };
        let (pressure, kelvin, bore_mm) = (5e5, 300.0, 6.0);
        let speed = self.mach * (self.k * gas.gas_constant * kelvin).sqrt();
        let flux = pressure / (gas.gas_constant * kelvin) * speed;
        let total_k = kelvin * (1.0 + 0.5 * (self.k - 1.0) * self.mach * self.mach);
        let factor = darcy_friction_factor(flux * 1e-3 * bore_mm / gas.viscosity_pa_s, 0.0);
        let tube = smooth_tube(bore_mm, self.friction_length * 1e-3 * bore_mm / factor, 0.0)?;
        let flow = largest(&gas, tube, gas.at(pressure, total_k))?.mass_flow_kg_s;
        Ok(flow / area_m2(bore_mm) / flux)
    }
}

/// The outlet of a smooth tube that a gas passes almost without cooling (k just above 1).
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GasTubeEnd {
    density: f64,
    start_kpa: f64,
    darcy_factor: f64,
    bore_mm: f64,
    length_m: f64,
    /// The flow; the largest where left out.
    kg_s: Option<f64>,
}

impl Ask for GasTubeEnd {
    fn what(&self) -> String {
        let flow = self.kg_s.map_or("choked".to_owned(), |kg_s| format!("{kg_s} kg/s"));
        let Self { start_kpa, darcy_factor, bore_mm, length_m, .. } = self;
        format!("isothermal pipe {bore_mm} mm × {length_m} m, f {darcy_factor}, {start_kpa} kPa, {flow}")
    }

    fn unit(&self) -> &'static str {
        "kPa"
    }

    fn answer(&self) -> Result<f64, String> {
        let (start_pa, kelvin) = (1e3 * self.start_kpa, 300.0);
        let gas_constant = start_pa / self.density / kelvin;
        let tube = smooth_tube(self.bore_mm, self.length_m, 0.0)?;
        // The viscosity that gives the factor at this flow.
        let gas = |flux: f64| IdealGas {
            gas_constant,
            k: 1.000_01,
            viscosity_pa_s: flux * 1e-3 * self.bore_mm / smooth_reynolds(self.darcy_factor),
        };
        if let Some(kg_s) = self.kg_s {
            let gas = gas(kg_s / area_m2(self.bore_mm));
            return end_pa(&gas, tube, gas.at(start_pa, kelvin), kg_s).map(|end| end / 1e3);
        }
        // Choked: the flow decides the viscosity and the viscosity the flow; a few rounds settle.
        let mut flux = 0.4 * start_pa / (gas_constant * kelvin).sqrt();
        let mut end = 0.0;
        for _ in 0..8 {
            let gas = gas(flux);
            let choked = largest(&gas, tube, gas.at(start_pa, kelvin))?;
            flux = choked.mass_flow_kg_s / area_m2(self.bore_mm);
            end = choked.outlet_pressure_pa;
        }
        Ok(end / 1e3)
    }
}

/// The outlet of a hole that an ideal gas passes.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GasHole {
    molar_mass: f64,
    compressibility: f64,
    k: f64,
    kelvin: f64,
    start_kpa: f64,
    effective_mm2: f64,
    /// The flow; the largest where left out.
    kg_h: Option<f64>,
}

impl Ask for GasHole {
    fn what(&self) -> String {
        let flow = self.kg_h.map_or("choked".to_owned(), |kg_h| format!("{kg_h} kg/h"));
        format!("gas k {} from {} kPa through {} mm², {flow}", self.k, self.start_kpa, self.effective_mm2)
    }

    fn unit(&self) -> &'static str {
        "kPa"
    }

    fn answer(&self) -> Result<f64, String> {
        let gas_constant = self.compressibility * 8.314_462_618 / self.molar_mass;
        let gas = IdealGas { gas_constant, k: self.k, viscosity_pa_s: 15e-6 };
        let bore = mm((self.effective_mm2 / std::f64::consts::FRAC_PI_4).sqrt());
        let hole = Element::Restriction(Restriction::from_hole(bore, share(1.0), share(1.0)).map_err(words)?);
        let start = gas.at(1e3 * self.start_kpa, self.kelvin);
        let end = match self.kg_h {
            Some(kg_h) => end_pa(&gas, hole, start, kg_h / 3600.0)?,
            None => largest(&gas, hole, start)?.outlet_pressure_pa,
        };
        Ok(end / 1e3)
    }
}

/// The element a liquid passes.
#[derive(Debug, Clone, Copy, Deserialize)]
enum Passed {
    /// Kv and F_L.
    Kv(f64, f64),
    /// Cv and F_L.
    Cv(f64, f64),
    /// Bore (mm) and discharge coefficient.
    Hole(f64, f64),
    /// Bore (mm), length (m) and rise (m) of a smooth tube.
    Tube(f64, f64, f64),
}

/// What a liquid of constant density loses.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LiquidDrop {
    density: f64,
    viscosity: f64,
    kg_s: f64,
    through: Passed,
}

impl Ask for LiquidDrop {
    fn what(&self) -> String {
        let through = match self.through {
            Passed::Kv(kv, recovery) => format!("Kv {kv}, F_L {recovery}"),
            Passed::Cv(cv, recovery) => format!("Cv {cv}, F_L {recovery}"),
            Passed::Hole(bore, coefficient) => format!("a hole of {bore} mm, C {coefficient:.4}"),
            Passed::Tube(bore, length, rise) => format!("{bore} mm × {length} m, rise {rise} m"),
        };
        format!("{:.5} kg/s of {} kg/m³ through {through}", self.kg_s, self.density)
    }

    fn unit(&self) -> &'static str {
        "Pa"
    }

    fn answer(&self) -> Result<f64, String> {
        let restriction = |made: Result<Restriction, _>| made.map(Element::Restriction).map_err(words);
        let element = match self.through {
            Passed::Kv(kv, recovery) => restriction(Restriction::from_kv(kv, share(recovery)))?,
            Passed::Cv(cv, recovery) => restriction(Restriction::from_cv(cv, share(recovery)))?,
            Passed::Hole(bore, coefficient) => {
                restriction(Restriction::from_hole(mm(bore), share(coefficient), share(1.0)))?
            }
            Passed::Tube(bore, length, rise) => smooth_tube(bore, length, rise)?,
        };
        let liquid =
            BoilingLiquid { density_kg_m3: self.density, boiling_pa: 2000.0, viscosity_pa_s: self.viscosity };
        Ok(1e6 - end_pa(&liquid, element, liquid.at(1e6, 3e5), self.kg_s)?)
    }
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum AtChoke {
    Outlet,
    Flow,
}

/// Where a control valve with recovery and a throat of 10 mm begins to choke on liquid whose throat
/// may fall to `F_F p_sat`, `F_F = 0.96 − 0.28 √(p_sat/p_c)` (IEC 60534-2-1).
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ValveChoke {
    start_kpa: f64,
    saturation_pa: f64,
    critical_pa: f64,
    recovery: f64,
    figure: AtChoke,
}

impl Ask for ValveChoke {
    fn what(&self) -> String {
        let figure = match self.figure {
            AtChoke::Outlet => "an outlet of",
            AtChoke::Flow => "a flow of",
        };
        format!("valve F_L {} from {} kPa chokes at {figure}", self.recovery, self.start_kpa)
    }

    fn unit(&self) -> &'static str {
        match self.figure {
            AtChoke::Outlet => "kPa",
            AtChoke::Flow => "kg/s",
        }
    }

    fn answer(&self) -> Result<f64, String> {
        let factor = 0.96 - 0.28 * (self.saturation_pa / self.critical_pa).sqrt();
        let boiling_pa = factor * self.saturation_pa;
        let liquid = BoilingLiquid { density_kg_m3: 965.4, boiling_pa, viscosity_pa_s: 3e-4 };
        let valve = Restriction::from_hole(mm(10.0), share(1.0), share(self.recovery)).map_err(words)?;
        let start = liquid.at(1e3 * self.start_kpa, 3e5);
        let choked = largest(&liquid, Element::Restriction(valve), start)?;
        Ok(match self.figure {
            AtChoke::Outlet => choked.outlet_pressure_pa / 1e3,
            AtChoke::Flow => choked.mass_flow_kg_s,
        })
    }
}
