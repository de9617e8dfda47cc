//! Boiling refrigerant in falling tubes, near the balance of friction and weight, against the oracle
//! (`tests/oracle/falls.py`: Runge-Kutta of the momentum flux along the length, CoolProp 8.0.0): pressure may
//! rise, stay or fall there, and each way is integrated by other means here.
//!
//! `cargo test --test oracle_falls -- --nocapture` prints the worst deviations.

mod oracle_support;

use narrows::flow::{
    Arrival, Element, Flashing, Line, Medium, Method, Path, PathPart, Tube, TwoPhaseFriction,
};
use narrows::fluid::Refrigerant;
use oracle_support::{Deviations, Row, rows};
use uom::si::f64::Length;
use uom::si::length::{meter, millimeter};

/// Of the pressure at the end, as a share of it.
const ALLOWED: f64 = 3e-4;

/// The pressure at the end of a row's tube.
fn end_pa(row: &Row) -> Result<f64, String> {
    let number = |name: &str| row.number(name).ok_or_else(|| format!("no {name}"));
    let refrigerant = Refrigerant::load(row.text("refrigerant")).map_err(|error| error.to_string())?;
    let start_pa = 1e3 * number("start_kpa")?;
    let state = refrigerant.saturation_at_pressure(start_pa).map_err(|error| error.to_string())?;
    let latent = state.vapor_enthalpy_j_kg - state.liquid_enthalpy_j_kg;
    let enthalpy = state.liquid_enthalpy_j_kg + number("quality")? * latent;
    let start = Medium::point(&*refrigerant, start_pa, enthalpy).map_err(|error| error.to_string())?;
    let (mm, m) = (Length::new::<millimeter>, Length::new::<meter>);
    let (bore, roughness) = (mm(number("bore_mm")?), mm(number("roughness_mm")?));
    let tube = Tube::new(bore, m(number("length_m")?), roughness, m(number("rise_m")?))
        .map_err(|error| error.to_string())?;
    let path = Path::series(vec![PathPart { elements: vec![Element::Tube(tube)] }]);
    let two_phase_friction = match row.text("friction") {
        "homogeneous" => TwoPhaseFriction::Homogeneous,
        _ => TwoPhaseFriction::MullerSteinhagenHeck,
    };
    let method = Method { flashing: Flashing::Equilibrium, two_phase_friction };
    let line = Line::new(&*refrigerant, method, &path, start, start).map_err(|error| error.to_string())?;
    match line.arrival(number("flow_kg_s")?).map_err(|error| error.to_string())? {
        Arrival::Arrives(end) => Ok(end.pressure_pa),
        Arrival::TooMuch(too_much) => Err(format!("does not pass: {too_much:?}")),
    }
}

#[test]
fn falls() {
    let rows = rows("falls.csv");
    let rises = |row: &&Row| row.number("end_kpa") > row.number("start_kpa");
    let rising = rows.iter().filter(rises).count();
    assert!(rows.len() >= 200 && rising >= 50 && rows.len() - rising >= 50, "{rising} of {}", rows.len());
    let (mut deviations, mut faults) = (Deviations::default(), Vec::new());
    for row in &rows {
        let way = if rises(&row) { "rises" } else { "falls" };
        let name = row.text("refrigerant");
        let expected_pa = 1e3 * row.number("end_kpa").unwrap();
        deviations.count(name, way);
        match end_pa(row) {
            Ok(got_pa) => {
                let share = got_pa / expected_pa - 1.0;
                deviations.add(name, way, "end", share);
                if !(share.abs() <= ALLOWED) {
                    faults.push(format!("fall {}: {got_pa} Pa, expected {expected_pa}", row.text("id")));
                }
            }
            Err(why) => faults.push(format!("fall {}: {why}", row.text("id"))),
        }
    }
    println!("{} falls, pressure rises in {rising}\n{deviations}", rows.len());
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
