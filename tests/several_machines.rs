//! Several machines alike at one operating point, on one path or each on its own.

mod support;

use narrows::flow::Restriction;
use narrows::job::over_time::follow;
use narrows::job::{AtOnce, Connection, OperatingPoint, Port, Setup, solve};
use narrows::machine::Condenser;
use narrows::presets::{built_in_rules, scenarios};
use narrows::scenario::{self, resolve_jobs};
use support::{Kit, setup};
use uom::si::f64::{Length, Pressure, Ratio, ThermalConductance};
use uom::si::length::millimeter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermal_conductance::watt_per_kelvin;

fn together(mut setup: Setup, count: u32, connection: Connection) -> OperatingPoint {
    setup.machines = AtOnce { count, connection };
    solve(&setup).point.expect("an operating point")
}

fn same(a: f64, b: f64, what: &str) {
    assert!((a / b - 1.0).abs() < 1e-6, "{what}: {a} and {b}");
}

/// Each on a port and a path of its own: the same pressures everywhere, and so many times the rate.
#[test]
fn on_ports_of_their_own_rates_add_up() {
    let kit = setup("R-410A", Kit::A, 0.42, Port::Vapor);
    let one = together(kit.clone(), 1, Connection::SeparatePorts);
    let three = together(kit, 3, Connection::SeparatePorts);
    same(three.mass_flow.value, 3.0 * one.mass_flow.value, "rate");
    same(three.of_each().value, one.mass_flow.value, "rate of each");
    assert_eq!(three.parts, one.parts);
    assert_eq!(three.machine, one.machine);
}

/// Through one path two machines draw as one of twice the displacement, open inlet and condenser, and
/// each does half of its work.
#[test]
fn on_one_path_they_are_one_larger_machine() {
    let hole = |times: f64| {
        let hole = Restriction::from_hole(
            Length::new::<millimeter>(2.5),
            Ratio::new::<ratio>(0.8),
            Ratio::new::<ratio>(1.0),
        );
        hole.and_then(|hole| hole.with_open_ratio(Ratio::new::<ratio>(times))).expect("a hole")
    };
    let with = |cfm: f64, times: f64| {
        let mut kit = setup("R-410A", Kit::A, cfm, Port::Vapor);
        kit.machine.inlet_throttle = Some(hole(times));
        let conductance = ThermalConductance::new::<watt_per_kelvin>(120.0 * times);
        kit.machine.condenser = Condenser::Conductance(conductance);
        kit
    };
    let two = together(with(0.42, 1.0), 2, Connection::SamePort);
    let one = together(with(0.84, 2.0), 1, Connection::SamePort);
    same(two.mass_flow.value, one.mass_flow.value, "rate");
    same(two.machine_inlet_pressure.value, one.machine_inlet_pressure.value, "machine inlet");
    same(two.machine.discharge_pressure.value, one.machine.discharge_pressure.value, "discharge");
    same(2.0 * two.machine.shaft_power.value, one.machine.shaft_power.value, "power at the shaft");
}

/// A second machine on the same port wins less than one on a port of its own, and never costs rate; where the
/// path is choked it wins nothing.
#[test]
fn one_path_gives_less_than_two() {
    let rate = |kit: &Setup, count, connection| together(kit.clone(), count, connection).mass_flow.value;
    for (kit, cfm) in [(Kit::A, 0.42), (Kit::C, 0.42), (Kit::A, 1.6), (Kit::C, 1.6)] {
        let kit = setup("R-410A", kit, cfm, Port::Vapor);
        let one = rate(&kit, 1, Connection::SamePort);
        let (shared, own) = (rate(&kit, 2, Connection::SamePort), rate(&kit, 2, Connection::SeparatePorts));
        assert!(one <= shared * (1.0 + 1e-6) && shared < own, "{cfm} cfm: {one}, {shared}, {own} kg/s");
    }
    let choked = setup("R-410A", Kit::A, 4.0, Port::Vapor);
    let (one, two) = (rate(&choked, 1, Connection::SamePort), rate(&choked, 2, Connection::SamePort));
    same(two, one, "choked");
}

/// Two computations of one flow: the operating point, and the job's first moment. The path's table is good to
/// 1 %, and a cylinder that is still empty leaves the condenser alone.
#[test]
fn the_rate_now_is_the_rate_the_job_begins_with() {
    let text = scenarios().iter().find(|one| one.id == "own-or-rent").expect("built in").text;
    for ports in ["separate", "same"] {
        let mut document = scenario::read(text).expect("it reads");
        scenario::set(&mut document, "kits.A.machine_ports", ports).expect("it applies");
        let rules = built_in_rules().expect("they read");
        let planned = resolve_jobs(&document, &rules).expect("it resolves");
        let kit = &planned.kits[0];
        let now = solve(&kit.kit.setup).point.expect("an operating point");
        assert_eq!(now.machines.count, 2);
        let job = follow(&kit.setup).expect("a job");
        let first = job.trace.rate_kg_s[0];
        let off = now.mass_flow.value / first - 1.0;
        assert!(off.abs() < 0.02, "{ports}: now {} kg/s, the job begins with {first}", now.mass_flow.value);
        assert!(now.machine_inlet_pressure > Pressure::new::<pascal>(0.0));
    }
}
