//! Gauge and absolute: what is typed above the air around stands for that pressure and no other.

use narrows::units::TypedPressure;
use proptest::prelude::*;
use uom::si::f64::Pressure;
use uom::si::pressure::pascal;

use super::runner::{Came, law};
use super::world::world;

/// 1 psi by its definition, 0.45359237 · 9.80665/0.0254² Pa; 1 inHg of 3386.388640341 Pa
/// (13 595.1 kg/m³).
const PSI_PA: f64 = 6_894.757_293_168_361;
const INCH_PA: f64 = 3_386.388_640_341;

#[test]
fn gauge_and_absolute_are_the_air_apart() {
    law("gauge and absolute", 400, 1.0, (0.0..600.0_f64, 3e4..1.2e5_f64), |(psi, ambient_pa)| {
        let at = |text: String| -> f64 {
            TypedPressure::parse(&text).unwrap().absolute(Pressure::new::<pascal>(ambient_pa)).get::<pascal>()
        };
        let gauge = at(format!("{psi} psig"));
        let absolute = at(format!("{psi} psia"));
        prop_assert!((gauge - absolute - ambient_pa).abs() < 1e-9 * gauge, "{gauge} Pa, {absolute} Pa");
        prop_assert!((absolute - psi * PSI_PA).abs() <= 1e-12 * absolute, "{absolute} Pa");
        let inches = psi / 600.0 * ambient_pa / INCH_PA;
        let vacuum = at(format!("{inches} inHg vac"));
        prop_assert!((vacuum + inches * INCH_PA - ambient_pa).abs() < 1e-6 * ambient_pa, "{vacuum} Pa");
        Ok(Came::Held)
    });
}

/// Nothing inside hangs on the air's pressure but what was typed against it: the same cut-out as
/// gauge and as absolute gives the same answer, and so does another air where none is typed.
#[test]
fn the_airs_pressure_moves_nothing_but_gauges() {
    law("other air", 40, 0.4, (world(), 4e4..1.1e5_f64), |(world, ambient_pa)| {
        let Ok(here) = world.setup() else { return Ok(Came::InWords) };
        let mut there = here.clone();
        there.ambient.pressure = Pressure::new::<pascal>(ambient_pa);
        let (a, b) = (narrows::job::solve(&here), narrows::job::solve(&there));
        prop_assert_eq!(&a.point, &b.point);
        let Ok(point) = a.point else { return Ok(Came::InWords) };
        // A cut-out a psi above and a psi below what the discharge needs, typed both ways.
        let needed_pa = point.machine.discharge_pressure.value;
        for (offset_pa, runs) in [(PSI_PA, true), (-PSI_PA, false)] {
            let wanted_pa = needed_pa + offset_pa;
            if !(2.1e5..1.9e7).contains(&wanted_pa) {
                continue;
            }
            let absolute = format!("{} psia", wanted_pa / PSI_PA);
            let gauge = format!("{} psig", (wanted_pa - ambient_pa) / PSI_PA);
            for text in [absolute, gauge] {
                let mut document = world.document();
                let ambient = format!("{ambient_pa} Pa");
                narrows::scenario::set(&mut document, "ambient.pressure", &ambient).unwrap();
                narrows::scenario::set(&mut document, "machine.cut_out", &text).unwrap();
                let kits = narrows::scenario::resolve(&document)
                    .map_err(|faults| TestCaseError::fail(format!("{faults:?}")))?;
                let solved = narrows::job::solve(&kits[0].setup).point;
                prop_assert_eq!(solved.is_ok(), runs, "{} with {} Pa needed", text, needed_pa);
            }
        }
        Ok(Came::Held)
    });
}
