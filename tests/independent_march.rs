//! Kits against an independent march: another program, written from the equations alone (Python,
//! direct calls to CoolProp 8.0.0 at every step, plain trapezium steps, bisection for the plateau),
//! none of whose code or tables is ours.
//!
//! Pure fluids and R-404A and R-507A (pseudo-pure) by single calls; R-407C and R-454B as mixtures
//! with equilibrium at nine qualities. Viscosity: CoolProp where it has a correlation of its own,
//! thermo 0.6.1 for the others. All equilibrium flashing, roughness 0.01 mm, clearance 5 %, loss
//! factor 0.95, exponent 1.1, vapour or liquid saturated at the source.

mod documents;

use documents::preset;
use narrows::report::solve_document;
use narrows::scenario::{Document, set};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::kilopascal;

const HOMOGENEOUS: &str = "homogeneous";
const SEPARATE: &str = "mueller_steinhagen_heck";
const VAPOUR: &str = "vapour";
const LIQUID: &str = "liquid";

/// What the march was asked and what it said.
struct March {
    refrigerant: &'static str,
    /// Source temperature (°F) and port.
    source: (f64, &'static str),
    kit: &'static str,
    cfm: f64,
    friction: &'static str,
    /// First hose's bore (mm) and length (ft), core's bore (mm) and F_L, where not the kit's own.
    shape: Option<(f64, f64, f64, f64)>,
    /// Rate (kg/s), machine inlet (kPa absolute), choked.
    expected: (f64, f64, bool),
}

const fn march(
    refrigerant: &'static str,
    source: (f64, &'static str),
    (kit, cfm): (&'static str, f64),
    friction: &'static str,
    expected: (f64, f64, bool),
) -> March {
    March { refrigerant, source, kit, cfm, friction, shape: None, expected }
}

const fn shaped(
    refrigerant: &'static str,
    port: &'static str,
    cfm: f64,
    friction: &'static str,
    shape: (f64, f64, f64, f64),
    expected: (f64, f64, bool),
) -> March {
    March { refrigerant, source: (75.0, port), kit: "A", cfm, friction, shape: Some(shape), expected }
}

const MARCHES: [March; 22] = [
    march("R-22", (75.0, VAPOUR), ("A", 0.42), HOMOGENEOUS, (0.00656203, 860.75, false)),
    march("R-22", (90.0, VAPOUR), ("B", 6.0), HOMOGENEOUS, (0.034681, 372.78, true)),
    march("R-134a", (45.0, LIQUID), ("B", 0.42), HOMOGENEOUS, (0.0407781, 292.36, false)),
    march("R-134a", (45.0, LIQUID), ("B", 0.2), SEPARATE, (0.0339919, 329.85, false)),
    march("R-407C", (75.0, LIQUID), ("A", 6.0), HOMOGENEOUS, (0.0307789, 148.01, true)),
    march("R-407C", (75.0, LIQUID), ("A", 0.2), SEPARATE, (0.0298642, 864.33, false)),
    march("R-404A", (105.0, VAPOUR), ("A", 1.6), HOMOGENEOUS, (0.0205262, 658.01, true)),
    march("R-32", (105.0, VAPOUR), ("C", 6.0), HOMOGENEOUS, (0.112613, 1521.53, false)),
    march("R-290", (20.0, VAPOUR), ("A", 3.0), HOMOGENEOUS, (0.00283046, 145.46, false)),
    march("R-290", (75.0, LIQUID), ("A", 6.0), HOMOGENEOUS, (0.0173217, 142.30, true)),
    march("R-600a", (105.0, LIQUID), ("A", 0.2), SEPARATE, (0.011163, 425.23, false)),
    march("R-454B", (75.0, LIQUID), ("B", 0.2), HOMOGENEOUS, (0.0633304, 1437.06, false)),
    march("R-454B", (75.0, VAPOUR), ("C", 6.0), HOMOGENEOUS, (0.0707306, 884.26, false)),
    march("R-1234yf", (45.0, LIQUID), ("B", 1.6), SEPARATE, (0.0394168, 191.96, true)),
    march("R-507A", (75.0, VAPOUR), ("B", 6.0), HOMOGENEOUS, (0.0374206, 357.61, true)),
    march("R-23", (40.0, LIQUID), ("C", 1.6), HOMOGENEOUS, (0.313435, 2054.64, false)),
    march("R-744", (60.0, VAPOUR), ("B", 6.0), HOMOGENEOUS, (0.119904, 1735.07, true)),
    shaped("R-22", VAPOUR, 1.6, HOMOGENEOUS, (12.0, 200.0, 6.0, 0.6), (0.014718, 545.06, false)),
    shaped("R-22", LIQUID, 0.42, HOMOGENEOUS, (4.8, 200.0, 2.2, 0.9), (0.0187179, 441.67, false)),
    shaped("R-134a", LIQUID, 1.6, HOMOGENEOUS, (4.8, 200.0, 2.2, 0.6), (0.0135263, 136.38, true)),
    shaped("R-22", VAPOUR, 0.42, HOMOGENEOUS, (3.0, 0.5, 0.5, 0.9), (0.000563946, 128.55, true)),
    shaped("R-32", LIQUID, 6.0, SEPARATE, (12.0, 200.0, 6.0, 0.6), (0.0534517, 273.69, true)),
];

fn reference_kits() -> Document {
    let mut document = preset("reference-kits");
    set(&mut document, "machine.cut_out", "none").unwrap();
    document
}

/// Rate within 0.3 %, inlet within 0.3 %, and the same verdict on choking.
#[track_caller]
fn check(document: &Document, kit: &str, expected: (f64, f64, bool), what: &str) {
    let solved = solve_document(document).unwrap();
    let solved = solved.iter().find(|solved| solved.kit.name == kit).unwrap();
    let point = solved.answer.point.as_ref().unwrap();
    let rate = point.mass_flow.get::<kilogram_per_second>();
    let inlet = point.machine_inlet_pressure.get::<kilopascal>();
    assert!((rate / expected.0 - 1.0).abs() < 3e-3, "{what}: {rate} kg/s, expected {}", expected.0);
    assert!((inlet / expected.1 - 1.0).abs() < 3e-3, "{what}: {inlet} kPa, expected {}", expected.1);
    assert_eq!(point.choked_part.is_some(), expected.2, "{what}: choked");
}

#[test]
fn kits_in_series() {
    for case in &MARCHES {
        let mut document = reference_kits();
        let mut change = |path: &str, value: String| set(&mut document, path, &value).unwrap();
        let (fahrenheit, port) = case.source;
        // have no liquid at 100 °F.
        let is_cold = matches!(case.refrigerant, "R-23" | "R-744");
        let (condensing, cylinder) = if is_cold { (60, 50) } else { (100, 75) };
        change("refrigerant", case.refrigerant.to_owned());
        change("source.temperature", format!("{fahrenheit} degF"));
        change("source.port", port.to_owned());
        change("machine.displacement", format!("{} cfm", case.cfm));
        change("machine.condenser.condensing_temperature", format!("{condensing} degF"));
        change("cylinder.temperature", format!("{cylinder} degF"));
        change("method.two_phase_friction", case.friction.to_owned());
        if let Some((bore, length, core, recovery)) = case.shape {
            change("kits.A.parts.0.bore", format!("{core} mm"));
            change("kits.A.parts.0.pressure_recovery", recovery.to_string());
            change("kits.A.parts.1.bore", format!("{bore} mm"));
            change("kits.A.parts.1.length", format!("{length} ft"));
        }
        let what = format!("{} {fahrenheit} °F {port} kit {} {} cfm", case.refrigerant, case.kit, case.cfm);
        check(&document, case.kit, case.expected, &what);
    }
}

/// R-134a vapour at 75 °F: one port, and two equal ports that meet at a tee.
#[test]
fn one_port_and_two() {
    let two_ports = preset("hospital-two-ports");
    let mut document = reference_kits();
    document.kits = two_ports.kits;
    set(&mut document, "refrigerant", "R-134a").unwrap();
    for (cfm, one, two, inlet_kpa) in
        [(1.6, 0.0189365, 0.0199875, 594.190), (6.0, 0.0336478, 0.0416719, 359.923)]
    {
        set(&mut document, "machine.displacement", &format!("{cfm} cfm")).unwrap();
        let solved = solve_document(&document).unwrap();
        let rate = solved[0].answer.point.as_ref().unwrap().mass_flow.get::<kilogram_per_second>();
        assert!((rate / one - 1.0).abs() < 1e-3, "one port, {cfm} cfm: {rate} kg/s, expected {one}");
        check(&document, "B", (two, inlet_kpa, false), "two ports");
        let split = solved[1].answer.point.as_ref().unwrap().second.clone().unwrap();
        let second = split.mass_flow.get::<kilogram_per_second>();
        assert!((second / (0.5 * two) - 1.0).abs() < 1e-3, "half of {two} through each port: {second}");
    }
}
