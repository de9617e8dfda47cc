//! Refrigerant properties.

use super::{Group, Within, words};
use crate::fluid::Refrigerant;

const COOLPROP: &str = "CoolProp 8.0.0, direct calls (HEOS)";
const CLASSES: &str = "40 CFR 82.152 with CoolProp 8.0.0: saturation pressure at 104 °F";

pub(super) fn groups() -> Vec<Group> {
    vec![saturation(), pressure_at_104_f()]
}

/// Refrigerant, °C, bubble and dew pressure (kPa), liquid and vapour density (kg/m³).
const SATURATION: [(&str, f64, f64, f64, f64, f64); 4] = [
    ("R-22", -40.0, 105.231, 105.231, 1406.81, 4.87298),
    ("R-22", -15.0, 296.197, 296.197, 1330.78, 12.9009),
    ("R-22", 25.0, 1043.92, 1043.92, f64::NAN, f64::NAN),
    ("R-134a", 25.0, 665.38, 665.38, 1206.712, 32.35),
];

fn saturation() -> Group {
    let mut group = Group::new(COOLPROP);
    for (name, celsius, bubble_kpa, dew_kpa, liquid, vapor) in SATURATION {
        let kelvin = celsius + 273.15;
        let refrigerant = Refrigerant::load(name).map_err(words);
        let ask = |f: &dyn Fn(&Refrigerant) -> Result<f64, crate::fluid::FluidError>| {
            refrigerant.as_ref().map_err(Clone::clone).and_then(|r| f(r).map_err(words))
        };
        let at = format!("{name} at {celsius} °C");
        let pressure = Within::Share(5e-4);
        group.case(
            format!("{at}, bubble pressure"),
            (bubble_kpa, "kPa", pressure),
            ask(&|r| Ok(r.bubble_pressure_pa(kelvin)? / 1e3)),
        );
        group.case(
            format!("{at}, dew pressure"),
            (dew_kpa, "kPa", pressure),
            ask(&|r| Ok(r.dew_pressure_pa(kelvin)? / 1e3)),
        );
        if liquid.is_nan() {
            continue;
        }
        group.case(
            format!("{at}, liquid density"),
            (liquid, "kg/m³", Within::Share(5e-4)),
            ask(&|r| Ok(r.saturation_at_bubble_temperature(kelvin)?.liquid_density_kg_m3)),
        );
        group.case(
            format!("{at}, vapour density"),
            (vapor, "kg/m³", Within::Share(2e-3)),
            ask(&|r| Ok(r.saturation_at_dew_temperature(kelvin)?.vapor_density_kg_m3)),
        );
    }
    group
}

/// psia at 104 °F.
const AT_104_F: [(&str, f64); 12] = [
    ("R-22", 222.4),
    ("R-134a", 147.4),
    ("R-410A", 351.8),
    ("R-32", 359.4),
    ("R-404A", 265.4),
    ("R-407C", 253.7),
    ("R-507A", 271.1),
    ("R-1234yf", 147.7),
    ("R-600a", 77.0),
    ("R-290", 198.6),
    ("R-717", 225.5),
    ("R-123", 22.4),
];

fn pressure_at_104_f() -> Group {
    let mut group = Group::new(CLASSES);
    for (name, psia) in AT_104_F {
        let got = Refrigerant::load(name)
            .and_then(|refrigerant| refrigerant.bubble_pressure_pa(313.15))
            .map(|pascal| pascal / 6894.757293168)
            .map_err(words);
        group.case(format!("{name}, bubble pressure at 104 °F"), (psia, "psia", Within::Amount(0.1)), got);
    }
    group
}
