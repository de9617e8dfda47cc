//! Friction, critical flow, flashing hoses and short tubes.

use uom::si::f64::{Length, Ratio};
use uom::si::length::{meter, millimeter};
use uom::si::ratio::ratio;

use super::{Group, Within, words};
use crate::flow::{
    Element, Flashing, FluidExpansion, Line, Medium, Method, Path, PathPart, Point, Restriction, Tube,
    TwoPhaseFriction, critical, darcy_friction_factor,
};
use crate::fluid::Refrigerant;

const CHURCHILL: &str = "fluids 1.3.1, Churchill_1977";
const COLEBROOK: &str = "fluids 1.3.1, exact Colebrook (Clamond)";
const NOZZLE: &str = "CoolProp 8.0.0, maximum of ρ√(2(h0−h)) on the isentrope";
const HOSES: &str = "Independent 1200-step march on CoolProp 8.0.0 and fluids 1.3.1";
const SHORT_TUBES: &str =
    "Equilibrium nozzle on CoolProp 8.0.0; short tubes of Kim & O'Neal and Payne & O'Neal";

const EQUILIBRIUM: Method =
    Method { flashing: Flashing::Equilibrium, two_phase_friction: TwoPhaseFriction::Homogeneous };

pub(super) fn groups() -> Vec<Group> {
    vec![
        friction(CHURCHILL, Within::Share(1e-4), &CHURCHILL_FACTORS),
        friction(COLEBROOK, Within::Share(0.015), &COLEBROOK_FACTORS),
        nozzles(),
        hoses(),
        short_tubes(),
    ]
}

/// Reynolds number, relative roughness, Darcy factor.
const CHURCHILL_FACTORS: [(f64, f64, f64); 4] =
    [(1e5, 1e-4, 0.0184626), (1e4, 0.0, 0.0310021), (3000.0, 1e-3, 0.0436915), (1000.0, 0.0, 0.064)];
const COLEBROOK_FACTORS: [(f64, f64, f64); 4] =
    [(1e5, 1e-4, 0.0185139), (1e6, 1e-4, 0.0134414), (5e4, 2e-3, 0.0265056), (1e4, 1e-3, 0.0323818)];

fn friction(source: &'static str, within: Within, factors: &[(f64, f64, f64)]) -> Group {
    let mut group = Group::new(source);
    for &(re, roughness, factor) in factors {
        let got = darcy_friction_factor(re, roughness);
        group.case(format!("Darcy factor, Re {re:e}, ε/d {roughness}"), (factor, "", within), Ok(got));
    }
    group
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

/// Refrigerant, °C, quality, subcooling (K), mass flux (kg/m²s), critical over start pressure.
const NOZZLES: [(&str, f64, f64, f64, f64, f64); 10] = [
    ("R-134a", 25.0, 0.0, 0.0, 7656.7, 0.8542),
    ("R-134a", 25.0, 1.0, 0.0, 2844.4, 0.5962),
    ("R-134a", 25.0, 0.1, 0.0, 5793.2, 0.735),
    ("R-134a", 25.0, 0.0, 5.0, 15221.8, 0.8579),
    ("R-22", 25.0, 0.0, 0.0, 11212.5, 0.8217),
    ("R-22", 25.0, 1.0, 0.0, 4227.0, 0.588),
    ("R-32", 25.0, 0.0, 0.0, 14235.9, 0.7983),
    ("R-32", 25.0, 1.0, 0.0, 5556.0, 0.589),
    ("R-290", 25.0, 0.0, 0.0, 6637.0, 0.828),
    ("R-290", 25.0, 1.0, 0.0, 2716.8, 0.5947),
];

fn nozzles() -> Group {
    let mut group = Group::new(NOZZLE);
    for (name, celsius, quality, subcooling, flux, share) in NOZZLES {
        let choke = Refrigerant::load(name).map_err(words).and_then(|refrigerant| {
            let start = at_rest(&refrigerant, celsius, quality, subcooling)?;
            let expansion =
                FluidExpansion::new(&*refrigerant, start, Flashing::Equilibrium).map_err(words)?;
            Ok((critical(&expansion).map_err(words)?, start.pressure_pa))
        });
        let at = format!("{name} {celsius} °C, quality {quality}, subcooled {subcooling} K");
        let got = choke.clone().map(|(choke, _)| choke.mass_flux_kg_m2s);
        group.case(format!("{at}, largest mass flux"), (flux, "kg/m²s", Within::Share(0.01)), got);
        let got = choke.map(|(choke, start)| choke.pressure_pa / start);
        group.case(format!("{at}, critical pressure ratio"), (share, "", Within::Share(0.01)), got);
    }
    group
}

/// Largest flow and exit pressure of one element on a source.
fn choked(refrigerant: &Refrigerant, element: Element, start: Point) -> Result<(f64, f64), String> {
    let path = Path::series(vec![PathPart { elements: vec![element] }]);
    let line = Line::new(refrigerant, EQUILIBRIUM, &path, start, start).map_err(words)?;
    let largest = line.largest_flow(100.0).map_err(words)?.ok_or("it does not choke")?;
    Ok((largest.mass_flow_kg_s, largest.outlet_pressure_pa))
}

fn mm(value: f64) -> Length {
    Length::new::<millimeter>(value)
}

/// Refrigerant, bore (mm), kg/min, exit pressure (kPa) where known.
const FLASHING_HOSES: [(&str, f64, f64, Option<f64>); 4] = [
    ("R-134a", 4.8, 4.79, Some(346.2)),
    ("R-134a", 7.9, 15.55, None),
    ("R-22", 4.8, 6.86, Some(506.7)),
    ("R-22", 7.9, 22.41, None),
];

fn hoses() -> Group {
    let mut group = Group::new(HOSES);
    for (name, bore, flow, exit) in FLASHING_HOSES {
        let answer = Refrigerant::load(name).map_err(words).and_then(|refrigerant| {
            let start = at_rest(&refrigerant, 25.0, 0.0, 0.0)?;
            let hose = Tube::new(mm(bore), Length::new::<meter>(1.5), mm(0.01), mm(0.0)).map_err(words)?;
            choked(&refrigerant, Element::Tube(hose), start)
        });
        let what = format!("{name} saturated liquid 25 °C, hose {bore} mm × 1.5 m");
        let got = answer.clone().map(|(flow, _)| flow * 60.0);
        group.case(what.clone(), (flow, "kg/min", Within::Share(0.03)), got);
        if let Some(exit) = exit {
            let got = answer.map(|(_, pressure)| pressure / 1e3);
            group.case(format!("{what}, exit"), (exit, "kPa", Within::Share(0.05)), got);
        }
    }
    group
}

/// Refrigerant, saturation °C, subcooling K, bore mm, equilibrium kg/h.
const SHORT_TUBE_ROWS: [(&str, f64, f64, f64, f64); 10] = [
    ("R-22", 40.0, 5.6, 1.35, 111.9),
    ("R-22", 40.0, 11.1, 1.35, 154.8),
    ("R-22", 48.0, 8.3, 1.35, 143.6),
    ("R-22", 40.0, 8.3, 1.52, 171.2),
    ("R-22", 40.0, 8.3, 1.09, 88.1),
    ("R-134a", 40.0, 5.6, 1.35, 95.4),
    ("R-134a", 40.0, 11.1, 1.35, 131.7),
    ("R-134a", 48.0, 8.3, 1.35, 123.3),
    ("R-134a", 40.0, 8.3, 1.52, 145.8),
    ("R-134a", 40.0, 8.3, 1.09, 75.0),
];

fn short_tubes() -> Group {
    let mut group = Group::new(SHORT_TUBES);
    for (name, celsius, subcooling, bore, flow) in SHORT_TUBE_ROWS {
        let got = Refrigerant::load(name).map_err(words).and_then(|refrigerant| {
            let start = at_rest(&refrigerant, celsius, 0.0, subcooling)?;
            let one = Ratio::new::<ratio>(1.0);
            let hole = Restriction::from_hole(mm(bore), one, one).map_err(words)?;
            Ok(choked(&refrigerant, Element::Restriction(hole), start)?.0 * 3600.0)
        });
        let what = format!("{name} {celsius} °C, subcooled {subcooling} K, short tube {bore} mm");
        group.case(what, (flow, "kg/h", Within::Share(0.01)), got);
    }
    group
}
