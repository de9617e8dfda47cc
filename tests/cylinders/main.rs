//! Cylinders: what fits into one, the rules side by side, what stops a filling, schedules.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod contents;
mod limits;
mod schedule;
mod stops;

use narrows::fluid::Refrigerant;
use narrows::job::*;
use narrows::presets::built_in_rules;
use narrows::units::GaugePressure;
use narrows::units::factors::{POUND_KG, PSI_PA};
use std::sync::{Arc, LazyLock};
use uom::si::f64::*;
use uom::si::mass::kilogram;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

fn load(name: &str) -> Arc<Refrigerant> {
    Refrigerant::load(name).unwrap_or_else(|error| panic!("{error}"))
}

fn celsius(value: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<kelvin>(value + 273.15)
}

fn lb(value: f64) -> Mass {
    Mass::new::<kilogram>(value * POUND_KG)
}

fn in_lb(mass: Mass) -> f64 {
    mass.get::<kilogram>() / POUND_KG
}

fn share(value: f64) -> Ratio {
    Ratio::new::<ratio>(value)
}

fn psig(value: f64) -> GaugePressure {
    GaugePressure::from_pa(value * PSI_PA)
}

fn table() -> FillingTable {
    static TABLE: LazyLock<FillingTable> = LazyLock::new(|| {
        built_in_rules().unwrap().filling.table(&Default::default(), Pressure::new::<pascal>(101_325.0))
    });
    TABLE.clone()
}

fn day() -> RecoveryDay {
    RecoveryDay {
        date: Some(YearMonth::parse("2026-11").unwrap()),
        ambient_pressure: Pressure::new::<pascal>(101_325.0),
        siphon_allowance: Mass::default(),
    }
}

fn cylinder(water_capacity_lb: f64) -> StockCylinder {
    StockCylinder {
        tare: Some(lb(28.0)),
        test_date: Some(YearMonth::parse("2024-05").unwrap()),
        ..StockCylinder::empty("it", lb(water_capacity_lb), celsius(24.0))
    }
}

fn answer(refrigerant: &str, cylinder: &StockCylinder) -> CylinderAnswer {
    cylinder_answer(&load(refrigerant), cylinder, &table(), &day())
}

fn limit_lb(refrigerant: &str, cylinder: &StockCylinder, kind: FillRuleKind) -> f64 {
    let limits = fill_limits(&load(refrigerant), cylinder, &table());
    let limit = limits.rule(kind).unwrap().limit.clone();
    in_lb(limit.unwrap_or_else(|why| panic!("{refrigerant} {kind:?}: {why}")))
}

#[track_caller]
fn near(got: f64, expected: f64, tolerance: f64, what: &str) {
    assert!((got - expected).abs() <= tolerance, "{what}: got {got}, expected {expected} ± {tolerance}");
}

/// Liquid filling 80 % at 25 °C, vapour not counted: mean density in the cylinder.
fn four_fifths(refrigerant: &Refrigerant) -> MassDensity {
    let liquid = refrigerant.saturation_at_bubble_temperature(298.15).unwrap();
    MassDensity::new::<kilogram_per_cubic_meter>(0.8 * liquid.liquid_density_kg_m3)
}
