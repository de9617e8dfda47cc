//! Kits against an oracle: a program of its own (`tests/oracle/`, Python), written from the physics
//! contract and sharing no code or table with this one, solved a random set of kits; here the same
//! kits are solved from the document.
//!
//! `cargo test --test oracle -- --nocapture` prints the worst deviations by refrigerant and phase.
//! Both ask CoolProp 8.0.0 for properties, the oracle directly, this program through its tables. No
//! kit needs an explanation: all are within the tolerances below.

mod oracle_support;

use narrows::flow::{Arrival, Flashing, Line, Method, Path, Point, TwoPhaseFriction};
use narrows::fluid::Refrigerant;
use narrows::report::solve_document;
use narrows::scenario::{read, resolve};
use oracle_support::{Deviations, Row, rows};
use std::collections::BTreeSet;
use uom::si::f64::Pressure;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::kilopascal;

/// Refrigerants whose viscosity is of the same correlations: only tables and integration differ.
const SAME: f64 = 1e-3;
/// Blends whose viscosity is a mixing rule: the oracle takes another one (Wilke for the vapour,
/// no scale factor for the liquid), as far from ours as the rules are uncertain.
const RULED_BLEND: f64 = 3e-3;

fn allowed(refrigerant: &str) -> f64 {
    match refrigerant {
        "R-513A" | "R-454B" | "R-455A" => RULED_BLEND,
        _ => SAME,
    }
}

/// The document of one row.
fn document(row: &Row) -> String {
    let optional = |name: &str, key: &str, unit: &str| {
        row.number(name).map_or(String::new(), |value| format!("{key}: \"{value}{unit}\","))
    };
    let throttle = row.number("throttle_mm").map_or(String::new(), |mm| {
        format!("inlet_throttle: (bore: \"{mm} mm\", discharge_coefficient: \"0.8\"),")
    });
    let condenser = optional("condensing_c", "condensing_temperature", " degC")
        + &optional("conductance_w_k", "conductance", " W/K");
    let second = if row.text("second").is_empty() {
        String::new()
    } else {
        format!("second_port: (parts: {}, joins_before: {}),", row.text("second"), row.text("joins_before"))
    };
    let discharge = match row.text("discharge") {
        "" => "[]",
        parts => parts,
    };
    format!(
        r#"(narrows: 1, title: "oracle", refrigerant: "{refrigerant}",
        source: (temperature: "{source} degC", port: {port}, vapour_share: "{share}"),
        ambient: (temperature: "{air} degC"),
        machine: (displacement: "{cfm} cfm", clearance: "{clearance}", loss_factor: "{loss}",
            polytropic_exponent: "{exponent}", mechanical_efficiency: "0.8", {throttle}
            condenser: ({condenser}), takes_liquid: true,
            motor: (kind: electronic, rated_voltage: "115 V", rated_current: "10 A")),
        cylinder: (temperature: "{cylinder} degC", excess_pressure: "{excess} kPa"),
        discharge: {discharge},
        method: (flashing: {flashing}, two_phase_friction: {friction}),
        supply: (voltage: "115 V"),
        kits: [(name: "A", parts: {parts}, {second})])"#,
        refrigerant = row.text("refrigerant"),
        source = row.text("source_c"),
        port = row.text("port"),
        share = row.text("vapour_share"),
        air = row.text("air_c"),
        cfm = row.text("displacement_cfm"),
        clearance = row.text("clearance"),
        loss = row.text("loss_factor"),
        exponent = row.text("exponent"),
        cylinder = row.text("cylinder_c"),
        excess = row.text("excess_kpa"),
        flashing = row.text("flashing"),
        friction = row.text("friction"),
        parts = row.text("parts"),
    )
}

fn kpa(pressure: Pressure) -> f64 {
    pressure.get::<kilopascal>()
}

/// One kit: every figure against the oracle's, then the place of the choke.
fn compare(row: &Row, deviations: &mut Deviations) -> Result<(), String> {
    let name = row.text("refrigerant");
    let document = read(&document(row)).map_err(|error| error.to_string())?;
    let solved = solve_document(&document).map_err(|faults| format!("{faults:?}"))?;
    let point = solved[0].answer.point.as_ref().map_err(ToString::to_string)?;
    let mut figures = vec![
        ("rate", point.mass_flow.get::<kilogram_per_second>(), row.number("rate_kg_s").unwrap()),
        ("inlet", kpa(point.machine_inlet_pressure), row.number("inlet_kpa").unwrap()),
        ("discharge", kpa(point.machine.discharge_pressure), row.number("discharge_kpa").unwrap()),
    ];
    if let (Some(expected), Some(second)) = (row.number("first_kg_s"), &point.second) {
        figures.push(("split", second.first_mass_flow.get::<kilogram_per_second>(), expected));
    }
    let after: Vec<f64> =
        row.text("after_kpa").split_whitespace().map(|text| text.parse().unwrap()).collect();
    // With two ports the oracle lists the parts behind the meeting.
    let listed = &point.parts[point.parts.len() - after.len()..];
    figures.extend(listed.iter().zip(&after).map(|(part, kpa_)| ("parts", kpa(part.outlet_pressure), *kpa_)));
    deviations.count(name, row.text("port"));
    let mut far = Vec::new();
    for (what, got, expected) in figures {
        let share = got / expected - 1.0;
        deviations.add(name, row.text("port"), what, share);
        if !(share.abs() <= allowed(name)) {
            far.push(format!("{what} {got}, expected {expected}"));
        }
    }
    let choked = match (point.choked_part, point.throttle_choked) {
        (Some(part), _) => part.to_string(),
        (None, true) => point.parts.len().to_string(),
        (None, false) => String::new(),
    };
    let is_told = row.text("kind") != "ports" && row.text("near") == "0";
    if is_told && choked != row.text("choked_part") {
        far.push(format!("choked at {choked:?}, expected {:?}", row.text("choked_part")));
    }
    if far.is_empty() { Ok(()) } else { Err(far.join("; ")) }
}

#[test]
fn kits() {
    let rows = rows("kits.csv");
    let count = |has: &dyn Fn(&Row) -> bool| rows.iter().filter(|row| has(row)).count();
    assert!(rows.len() >= 200);
    assert!(rows.iter().map(|row| row.text("refrigerant")).collect::<BTreeSet<_>>().len() >= 12);
    let choked = count(&|row| !row.text("choked_part").is_empty());
    let twice = count(&|row| row.text("chokes").contains(' '));
    assert!(choked >= 50 && twice >= 10 && rows.len() - choked >= 50, "{choked} choked, {twice} twice");
    let mut deviations = Deviations::default();
    let mut faults = Vec::new();
    for row in &rows {
        if let Err(why) = compare(row, &mut deviations) {
            let (id, kind, name) = (row.text("id"), row.text("kind"), row.text("refrigerant"));
            faults.push(format!("kit {id} ({name}, {kind}): {why}"));
        }
    }
    println!("{} kits, {choked} choked, {twice} at two places\n{deviations}", rows.len());
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// Our liquid's density does not grow with pressure: up to 1 % low at these pressures.
const PRESSED: f64 = 1e-2;

/// Liquid pressed above its saturation, as push-pull presses it, through parts to an end pressure.
#[test]
fn pressed_liquid() {
    let mut deviations = Deviations::default();
    let mut faults = Vec::new();
    for row in rows("lines.csv") {
        let name = row.text("refrigerant");
        let refrigerant = Refrigerant::load(name).unwrap();
        let kelvin = row.number("source_c").unwrap() + 273.15;
        let colder = refrigerant.saturation_at_bubble_temperature(kelvin).unwrap();
        let start_pa = row.number("start_kpa").unwrap() * 1e3;
        let start: Point =
            narrows::flow::Medium::point(&*refrigerant, start_pa, colder.liquid_enthalpy_j_kg).unwrap();
        let two_phase_friction = match row.text("friction") {
            "homogeneous" => TwoPhaseFriction::Homogeneous,
            _ => TwoPhaseFriction::MullerSteinhagenHeck,
        };
        let method = Method { flashing: Flashing::Equilibrium, two_phase_friction };
        let path = path_of(name, row.text("parts"));
        let line = Line::new(&*refrigerant, method, &path, start, start).unwrap();
        let got = flow_to(&line, row.number("end_kpa").unwrap() * 1e3);
        let share = got / row.number("rate_kg_s").unwrap() - 1.0;
        deviations.count(name, "pressed");
        deviations.add(name, "pressed", "rate", share);
        if !(share.abs() <= PRESSED) {
            faults.push(format!("line {}: {share:.4} off, {got} kg/s", row.text("id")));
        }
    }
    println!("{deviations}");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// The path of a list of parts, through a document.
fn path_of(refrigerant: &str, parts: &str) -> Path {
    let text = format!(
        r#"(narrows: 1, title: "line", refrigerant: "{refrigerant}", source: (temperature: "0 degC"),
        ambient: (temperature: "20 degC"), machine: (displacement: "1 cfm", clearance: "0.05", loss_factor: "0.9",
        condenser: (condensing_temperature: "10 degC"), motor: (kind: electronic, rated_voltage: "115 V",
        rated_current: "10 A")), cylinder: (temperature: "0 degC"), supply: (voltage: "115 V"),
        kits: [(name: "A", parts: {parts})])"#
    );
    resolve(&read(&text).unwrap()).unwrap().swap_remove(0).setup.path
}

/// The flow that ends at this pressure, by halving: only "does it arrive, and where" is asked.
fn flow_to(line: &Line<'_, Refrigerant>, end_pa: f64) -> f64 {
    let (mut low, mut high) = (0.0, 10.0);
    while high - low > 1e-7 * high {
        let middle = 0.5 * (low + high);
        match line.arrival(middle).unwrap() {
            Arrival::Arrives(point) if point.pressure_pa > end_pa => low = middle,
            _ => high = middle,
        }
    }
    low
}
