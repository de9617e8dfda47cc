//! What pushes condensed liquid through the discharge path into the cylinder.

mod support;

use narrows::flow::{Arrival, Line, Medium, Path};
use narrows::job::{Port, solve};
use narrows::machine::Condenser;
use support::{Kit, hole, hose, setup};
use uom::si::f64::ThermodynamicTemperature;
use uom::si::thermodynamic_temperature::{degree_fahrenheit, kelvin};

/// Liquid condensed at 80 °F boils in a narrow hose to a cylinder at 32 °F. The discharge pressure is the
/// lowest that brings it there: at the pressure found it arrives with the cylinder's or more, and a
/// ten-thousandth lower it does not, or it is the condensing pressure. Its parts end where it arrives.
#[test]
fn a_discharge_hose_is_pushed_just_enough() {
    let mut pushed = 0;
    for (refrigerant, bore_mm) in
        [("R-22", 3.0), ("R-22", 2.0), ("R-410A", 2.0), ("R-407C", 2.5), ("R-134a", 3.0)]
    {
        for cfm in [0.05, 0.1, 0.3, 0.6, 1.0] {
            let mut setup = setup(refrigerant, Kit::C, cfm, Port::Vapor);
            setup.discharge = vec![hose(bore_mm, 10.0), hole(bore_mm, 0.8)];
            setup.cylinder.temperature = ThermodynamicTemperature::new::<degree_fahrenheit>(32.0);
            let condensing = ThermodynamicTemperature::new::<degree_fahrenheit>(80.0);
            setup.machine.condenser = Condenser::FixedTemperature(condensing);
            let point = solve(&setup).point.unwrap();
            let r = &*setup.refrigerant;
            let condensed = r.saturation_at_bubble_temperature(condensing.get::<kelvin>()).unwrap();
            let path = Path::series(setup.discharge.clone());
            let ends_pa = |pressure_pa: f64| {
                let start = r.point(pressure_pa, condensed.liquid_enthalpy_j_kg).unwrap();
                let line = Line::new(r, setup.method, &path, start, start).unwrap();
                match line.arrival(point.mass_flow.value).unwrap() {
                    Arrival::Arrives(end) => Some(end.pressure_pa),
                    Arrival::TooMuch(_) => None,
                }
            };
            let cylinder_pa = point.cylinder_pressure.value * (1.0 - 1e-6);
            let arrives = |pressure_pa: f64| ends_pa(pressure_pa).is_some_and(|end_pa| end_pa >= cylinder_pa);
            let discharge_pa = point.machine.discharge_pressure.value;
            assert!(arrives(discharge_pa), "{refrigerant} {cfm}: {discharge_pa}");
            let last_pa = point.discharge_parts.last().unwrap().outlet_pressure.value;
            let end_pa = ends_pa(discharge_pa).unwrap();
            assert!(
                (last_pa / end_pa - 1.0).abs() < 1e-12,
                "parts end at {last_pa}, the flow at {end_pa} Pa"
            );
            if discharge_pa > condensed.pressure_pa * (1.0 + 1e-6) {
                pushed += 1;
                assert!(!arrives(discharge_pa * (1.0 - 1e-4)), "{refrigerant} {cfm}: {discharge_pa}");
            }
        }
    }
    assert!(pushed >= 5, "only {pushed} of 25 needed more than the condensing pressure");
}
