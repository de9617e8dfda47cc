//! Power paths against an oracle: a program of its own (`tests/oracle/power.py`) solved random
//! supplies, wirings and motors, written from the contract with the tables of the standards; here
//! the same are solved from the document.
//!
//! `cargo test --test oracle_power -- --nocapture` prints the worst deviations by motor.

mod oracle_support;

use narrows::job::solve;
use narrows::power::{ElementKind, Running};
use narrows::scenario::{read, resolve};
use oracle_support::{Deviations, Row, rows};
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::thermodynamic_temperature::degree_celsius;

/// The equations are the same and small; both solve them to more digits than this.
const WITHIN: f64 = 2e-5;

fn document(row: &Row) -> String {
    format!(
        r#"(narrows: 1, title: "oracle", refrigerant: "R-134a", source: (temperature: "20 degC"),
        ambient: (temperature: "{air} degC"),
        machine: (displacement: "0.4 cfm", clearance: "0.05", loss_factor: "0.95",
            condenser: (condensing_temperature: "35 degC"), motor: {motor}),
        cylinder: (temperature: "20 degC"), supply: {supply}, kits: [(name: "A", parts: [])])"#,
        air = row.text("air_c"),
        motor = row.text("motor"),
        supply = row.text("supply"),
    )
}

#[test]
fn power_paths() {
    let mut deviations = Deviations::default();
    let mut faults = Vec::new();
    let rows = rows("power.csv");
    assert!(rows.len() >= 40);
    for row in rows {
        let id = row.text("id");
        let document = read(&document(&row)).unwrap_or_else(|error| panic!("path {id}: {error}"));
        let setup =
            resolve(&document).unwrap_or_else(|faults| panic!("path {id}: {faults:?}")).swap_remove(0).setup;
        let power = solve(&setup).power.unwrap();
        let Running::Holds(running) = &power.running else {
            faults.push(format!("path {id}: cannot hold"));
            continue;
        };
        let is_wire = |kind: ElementKind| matches!(kind, ElementKind::Branch | ElementKind::Cord(_));
        let warmest = power
            .elements
            .iter()
            .filter(|element| is_wire(element.kind))
            .filter_map(|element| element.conductor_temperature)
            .map(|temperature| temperature.get::<degree_celsius>())
            .fold(f64::MIN, f64::max);
        let starting = &power.starting;
        deviations.count(row.text("motor_kind"), "powered");
        for (what, got, column) in [
            ("volts", running.voltage.get::<volt>(), "running_v"),
            ("amps", running.current.get::<ampere>(), "running_a"),
            ("receptacle", power.receptacle.unwrap().get::<volt>(), "plug_v"),
            ("speed", running.speed_ratio, "speed_ratio"),
            ("warmest", warmest + 273.15, "warmest_c"),
            ("start volts", starting.voltage.get::<volt>(), "starting_v"),
            ("start amps", starting.current.get::<ampere>(), "starting_a"),
        ] {
            let kelvin = if what == "warmest" { 273.15 } else { 0.0 };
            let share = got / (row.number(column).unwrap() + kelvin) - 1.0;
            deviations.add(row.text("motor_kind"), "powered", what, share);
            if !(share.abs() < WITHIN) {
                faults.push(format!(
                    "path {id} ({}): {what} {got}, expected {}",
                    row.text("motor_kind"),
                    row.text(column)
                ));
            }
        }
    }
    println!("{deviations}");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
