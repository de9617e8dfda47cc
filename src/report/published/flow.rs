//! Questions about friction, critical flow, flashing hoses and short tubes.

use serde::Deserialize;
use uom::si::area::square_meter;
use uom::si::f64::{Length, Ratio};
use uom::si::length::{meter, millimeter};
use uom::si::ratio::ratio;

use super::question::Ask;
use super::words;
use crate::flow::{
    Bore, Element, Flashing, FluidExpansion, LargestFlow, Line, Medium, Method, Path, PathPart, Phases,
    Point, Restriction, Tube, TwoPhaseFriction, critical, darcy_friction_factor, friction_gradient_pa_m,
};
use crate::fluid::Refrigerant;

/// All published flows are in equilibrium.
pub(super) const EQUILIBRIUM: Method =
    Method { flashing: Flashing::Equilibrium, two_phase_friction: TwoPhaseFriction::Homogeneous };

pub(super) fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

pub(super) fn share(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}

/// The flow's area of a round bore, m².
pub(super) fn area_m2(bore_mm: f64) -> f64 {
    std::f64::consts::FRAC_PI_4 * (1e-3 * bore_mm).powi(2)
}

/// A tube that is hydraulically smooth.
pub(super) fn smooth_tube(bore_mm: f64, length_m: f64, rise_m: f64) -> Result<Element, String> {
    let m = Length::new::<meter>;
    Tube::new(mm(bore_mm), m(length_m), m(0.0), m(rise_m)).map(Element::Tube).map_err(words)
}

/// The largest flow through one element.
pub(super) fn largest<M: Medium>(medium: &M, element: Element, start: Point) -> Result<LargestFlow, String> {
    let path = Path::series(vec![PathPart { elements: vec![element] }]);
    let line = Line::new(medium, EQUILIBRIUM, &path, start, start).map_err(words)?;
    line.largest_flow(1e4).map_err(words)?.ok_or_else(|| "it does not choke".to_owned())
}

/// A friction factor after Darcy.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DarcyFactor {
    reynolds: f64,
    roughness: f64,
}

impl Ask for DarcyFactor {
    fn what(&self) -> String {
        format!("Darcy factor, Re {:e}, ε/d {}", self.reynolds, self.roughness)
    }

    fn unit(&self) -> &'static str {
        ""
    }

    fn answer(&self) -> Result<f64, String> {
        Ok(darcy_friction_factor(self.reynolds, self.roughness))
    }
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Model {
    Homogeneous,
    MuellerSteinhagenHeck,
}

/// What a fluid of given phases loses in a tube, everything constant along it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TwoPhaseDrop {
    model: Model,
    kg_s: f64,
    vapour_share: f64,
    density: (f64, f64),
    viscosity: (f64, f64),
    bore_mm: f64,
    length_m: f64,
    roughness_mm: f64,
}

impl Ask for TwoPhaseDrop {
    fn what(&self) -> String {
        let model = match self.model {
            _ if self.vapour_share == 1.0 => "vapour",
            Model::Homogeneous => "homogeneous",
            Model::MuellerSteinhagenHeck => "Müller-Steinhagen & Heck",
        };
        format!("{model}, {} kg/s, vapour {}, {} mm", self.kg_s, self.vapour_share, self.bore_mm)
    }

    fn unit(&self) -> &'static str {
        "Pa"
    }

    fn answer(&self) -> Result<f64, String> {
        let model = match self.model {
            Model::Homogeneous => TwoPhaseFriction::Homogeneous,
            Model::MuellerSteinhagenHeck => TwoPhaseFriction::MullerSteinhagenHeck,
        };
        let phases = Phases {
            liquid_density_kg_m3: self.density.0,
            vapor_density_kg_m3: self.density.1,
            liquid_viscosity_pa_s: self.viscosity.0,
            vapor_viscosity_pa_s: self.viscosity.1,
        };
        let bore = Bore { diameter_m: 1e-3 * self.bore_mm, roughness_m: 1e-3 * self.roughness_mm };
        let flux = self.kg_s / area_m2(self.bore_mm);
        Ok(self.length_m * friction_gradient_pa_m(model, flux, bore, self.vapour_share, &phases))
    }
}

/// Velocity heads in a bore that a valve of this Kv takes: `K = (A_bore F_L/A_throat)²`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LossCoefficient {
    kv: f64,
    bore_mm: f64,
}

impl Ask for LossCoefficient {
    fn what(&self) -> String {
        format!("velocity heads of Kv {} in {} mm", self.kv, self.bore_mm)
    }

    fn unit(&self) -> &'static str {
        "K"
    }

    fn answer(&self) -> Result<f64, String> {
        let valve = Restriction::from_kv(self.kv, share(1.0)).map_err(words)?;
        Ok((area_m2(self.bore_mm) / valve.effective_area().get::<square_meter>()).powi(2))
    }
}

/// The state at rest: saturated at a temperature, or liquid subcooled from there.
fn at_rest(
    refrigerant: &Refrigerant,
    celsius: f64,
    quality: f64,
    subcooling_k: f64,
) -> Result<Point, String> {
    let kelvin = celsius + 273.15;
    let state = || {
        let saturation = refrigerant.saturation_at_bubble_temperature(kelvin)?;
        let colder = refrigerant.saturation_at_bubble_temperature(kelvin - subcooling_k)?;
        let enthalpy = colder.liquid_enthalpy_j_kg + quality * saturation.latent_heat_j_kg();
        refrigerant.point(saturation.pressure_pa, enthalpy)
    };
    state().map_err(words)
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum AtThroat {
    MassFlux,
    PressureRatio,
}

/// The throat of an ideal nozzle in equilibrium.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CriticalFlow {
    refrigerant: String,
    celsius: f64,
    quality: f64,
    subcooling_k: f64,
    figure: AtThroat,
}

impl Ask for CriticalFlow {
    fn what(&self) -> String {
        let figure = match self.figure {
            AtThroat::MassFlux => "largest mass flux",
            AtThroat::PressureRatio => "critical pressure ratio",
        };
        let Self { refrigerant, celsius, quality, subcooling_k, .. } = self;
        format!("{refrigerant} {celsius} °C, quality {quality}, subcooled {subcooling_k} K, {figure}")
    }

    fn unit(&self) -> &'static str {
        match self.figure {
            AtThroat::MassFlux => "kg/m²s",
            AtThroat::PressureRatio => "",
        }
    }

    fn answer(&self) -> Result<f64, String> {
        let refrigerant = Refrigerant::load(&self.refrigerant).map_err(words)?;
        let start = at_rest(&refrigerant, self.celsius, self.quality, self.subcooling_k)?;
        let expansion = FluidExpansion::new(&*refrigerant, start, Flashing::Equilibrium).map_err(words)?;
        let choke = critical(&expansion).map_err(words)?;
        Ok(match self.figure {
            AtThroat::MassFlux => choke.mass_flux_kg_m2s,
            AtThroat::PressureRatio => choke.pressure_pa / start.pressure_pa,
        })
    }
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum AtExit {
    Flow,
    Pressure,
}

/// Saturated liquid that flashes in a hose until it chokes at the exit.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FlashingHose {
    refrigerant: String,
    celsius: f64,
    bore_mm: f64,
    length_m: f64,
    figure: AtExit,
}

impl Ask for FlashingHose {
    fn what(&self) -> String {
        let figure = match self.figure {
            AtExit::Flow => "largest flow",
            AtExit::Pressure => "exit",
        };
        let Self { refrigerant, celsius, bore_mm, length_m, .. } = self;
        format!("{refrigerant} saturated liquid {celsius} °C, hose {bore_mm} mm × {length_m} m, {figure}")
    }

    fn unit(&self) -> &'static str {
        match self.figure {
            AtExit::Flow => "kg/min",
            AtExit::Pressure => "kPa",
        }
    }

    fn answer(&self) -> Result<f64, String> {
        let refrigerant = Refrigerant::load(&self.refrigerant).map_err(words)?;
        let start = at_rest(&refrigerant, self.celsius, 0.0, 0.0)?;
        let length = Length::new::<meter>(self.length_m);
        let hose = Tube::new(mm(self.bore_mm), length, mm(0.01), mm(0.0)).map_err(words)?;
        let choked = largest(&*refrigerant, Element::Tube(hose), start)?;
        Ok(match self.figure {
            AtExit::Flow => choked.mass_flow_kg_s * 60.0,
            AtExit::Pressure => choked.outlet_pressure_pa / 1e3,
        })
    }
}

/// Subcooled liquid through a short tube, by the equilibrium nozzle.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ShortTube {
    refrigerant: String,
    celsius: f64,
    subcooling_k: f64,
    bore_mm: f64,
}

impl Ask for ShortTube {
    fn what(&self) -> String {
        let Self { refrigerant, celsius, subcooling_k, bore_mm } = self;
        format!("{refrigerant} {celsius} °C, subcooled {subcooling_k} K, short tube {bore_mm} mm")
    }

    fn unit(&self) -> &'static str {
        "kg/h"
    }

    fn answer(&self) -> Result<f64, String> {
        let refrigerant = Refrigerant::load(&self.refrigerant).map_err(words)?;
        let start = at_rest(&refrigerant, self.celsius, 0.0, self.subcooling_k)?;
        let hole = Restriction::from_hole(mm(self.bore_mm), share(1.0), share(1.0)).map_err(words)?;
        Ok(largest(&*refrigerant, Element::Restriction(hole), start)?.mass_flow_kg_s * 3600.0)
    }
}
