//! How full a cylinder stands as it warms: published liquid shares, liquid-full temperatures, vapour.

use super::*;

/// Refrigerant, SG at 25 °C, liquid share at 55 °C, °C liquid-full, psig at 55 °C; 80 % liquid at
/// 25 °C. CoolProp 8.0.0, direct calls (HEOS).
pub(super) const HYDROSTATIC: [(&str, f64, f64, f64, f64); 14] = [
    ("R-22", 1.194, 0.901, 72.5, 300.8),
    ("R-134a", 1.210, 0.895, 74.8, 201.6),
    ("R-410A", 1.062, 0.979, 57.0, 484.2),
    ("R-404A", 1.047, 0.972, 57.8, 360.3),
    ("R-507A", 1.051, 0.979, 56.9, 368.5),
    ("R-407C", 1.141, 0.925, 65.6, 345.2),
    ("R-32", 0.964, 0.951, 60.6, 495.8),
    ("R-125", 1.193, 1.007, 54.5, 397.1),
    ("R-1234yf", 1.095, 0.904, 71.4, 197.7),
    ("R-1234ze(E)", 1.167, 0.883, 80.4, 149.3),
    ("R-290", 0.494, 0.898, 73.5, 261.9),
    ("R-600a", 0.552, 0.864, 95.1, 97.4),
    ("R-12", 1.315, 0.881, 82.0, 183.0),
    ("R-123", 1.468, 0.846, 120.8, 21.1),
];

fn full_at_c(refrigerant: &Refrigerant, mean: MassDensity) -> f64 {
    match liquid_full_temperature(refrigerant, mean).unwrap() {
        LiquidFull::At(temperature) | LiquidFull::About(temperature) => temperature.get::<kelvin>() - 273.15,
        other => panic!("{}: {other:?}", refrigerant.designation()),
    }
}

#[test]
fn the_hydrostatic_table_is_reproduced() {
    for (name, gravity, hot_share, full_c, hot_psig) in HYDROSTATIC {
        let refrigerant = load(name);
        let got = specific_gravity(&refrigerant).unwrap().get::<ratio>();
        near(got, gravity, 0.005 * gravity, &format!("{name} SG"));
        let got = hot_fill_ratio(&refrigerant, share(0.8), celsius(25.0), celsius(55.0)).unwrap();
        near(got.get::<ratio>(), hot_share, 0.005 * hot_share, &format!("{name} liquid share at 55 °C"));
        near(full_at_c(&refrigerant, four_fifths(&refrigerant)), full_c, 0.5, &format!("{name} liquid-full"));
        let got_psig = (refrigerant.bubble_pressure_pa(328.15).unwrap() - 101_325.0) / PSI_PA;
        near(got_psig, hot_psig, 0.005 * hot_psig, &format!("{name} psig at 55 °C"));
    }
}

/// The same source, mixtures, which it trusts less.
#[test]
fn the_hydrostatic_table_of_newer_mixtures() {
    for (name, hot_share) in [
        ("R-454B", 0.951),
        ("R-454C", 0.924),
        ("R-454A", 0.936),
        ("R-455A", 0.932),
        ("R-452A", 0.959),
        ("R-448A", 0.935),
        ("R-449A", 0.935),
        ("R-513A", 0.903),
    ] {
        let got = hot_fill_ratio(&load(name), share(0.8), celsius(25.0), celsius(55.0)).unwrap();
        near(got.get::<ratio>(), hot_share, 0.005 * hot_share, name);
    }
}

/// R-410A to 80 % in a cylinder chilled to 0 °C: 88.4 % at 25 °C, liquid-full at 46 °C. CoolProp
/// 8.0.0.
#[test]
fn a_level_that_is_right_in_the_cold_is_too_high() {
    let refrigerant = load("R-410A");
    let at_25 = hot_fill_ratio(&refrigerant, share(0.8), celsius(0.0), celsius(25.0)).unwrap();
    near(at_25.get::<ratio>(), 0.8839, 0.005 * 0.8839, "share at 25 °C");
    let cold = refrigerant.saturation_at_bubble_temperature(273.15).unwrap().liquid_density_kg_m3;
    let mean = MassDensity::new::<kilogram_per_cubic_meter>(0.8 * cold);
    near(full_at_c(&refrigerant, mean), 46.0, 0.5, "liquid-full");
}

/// Mass in equals mass counted: `m/V = share · ρ_l + (1 − share) · ρ_v`, the definition.
#[test]
fn the_picture_of_a_warming_cylinder() {
    let refrigerant = load("R-22");
    let mean = four_fifths(&refrigerant);
    let points = fill_curve(&refrigerant, mean, (celsius(4.4), celsius(80.0)), 40);
    assert_eq!(points.len(), 40);
    let (mut last_share, mut last_pa) = (0.0, 0.0);
    for point in &points {
        let contents = point.contents.clone().unwrap();
        let share = contents.liquid().get::<ratio>();
        assert!(share > last_share || share == 1.0, "fuller as it warms");
        let temperature_k = point.temperature.get::<kelvin>();
        let Some(pressure) = contents.pressure() else {
            assert!(temperature_k > 273.15 + 72.0, "liquid-full before 72.5 °C");
            continue;
        };
        assert!(temperature_k < 273.15 + 73.0, "not liquid-full after 72.5 °C");
        let at = refrigerant.saturation_at_bubble_temperature(temperature_k).unwrap();
        let counted = share * at.liquid_density_kg_m3 + (1.0 - share) * at.vapor_density_kg_m3;
        near(counted, mean.get::<kilogram_per_cubic_meter>(), 1e-6, "mass");
        near(pressure.get::<pascal>(), at.pressure_pa, 1e-3 * at.pressure_pa, "pressure");
        assert!(pressure.get::<pascal>() > last_pa);
        (last_share, last_pa) = (share, pressure.get::<pascal>());
    }
}

/// A nearly empty cylinder holds vapour: by the ideal gas law, `p = ρ R T / M`, within the few per
/// cent that a real gas is off at one bar. R-22: 86.468 g/mol.
#[test]
fn a_little_in_a_cylinder_is_vapour() {
    let refrigerant = load("R-22");
    let gas = |mean_kg_m3: f64, temperature_c: f64| {
        let mean = MassDensity::new::<kilogram_per_cubic_meter>(mean_kg_m3);
        match contents_at(&refrigerant, mean, celsius(temperature_c)).unwrap() {
            Contents::Vapor { pressure } => pressure.get::<pascal>(),
            other => panic!("{other:?}"),
        }
    };
    for (mean_kg_m3, within) in [(0.001, 0.01), (0.1, 0.01), (3.0, 0.03)] {
        for temperature_c in [0.0, 25.0, 110.0] {
            let ideal_pa = mean_kg_m3 * 8.314_462_6 / 0.086_468 * (temperature_c + 273.15);
            near(gas(mean_kg_m3, temperature_c), ideal_pa, within * ideal_pa, "pressure");
        }
    }
    let nothing = contents_at(&refrigerant, MassDensity::default(), celsius(25.0)).unwrap();
    assert_eq!((nothing, nothing.pressure()), (Contents::Empty, None));
}

#[test]
fn what_is_no_number_is_refused_in_words() {
    let refrigerant = load("R-22");
    for bad in [f64::NAN, f64::INFINITY, -1.0] {
        let mean = MassDensity::new::<kilogram_per_cubic_meter>(bad);
        assert!(contents_at(&refrigerant, mean, celsius(25.0)).is_err());
        assert!(liquid_full_temperature(&refrigerant, mean).is_err());
        assert!(contents_at(&refrigerant, four_fifths(&refrigerant), celsius(bad - 1e9)).is_err());
        let got = answer("R-22", &cylinder(bad));
        assert!(!got.stops.is_empty() && got.remaining == Mass::default(), "{got:?}");
    }
}
