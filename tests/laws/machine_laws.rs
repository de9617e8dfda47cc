//! Several machines alike, on one path or each on its own.

use narrows::job::{AtOnce, Connection, OperatingPoint, Setup, solve};
use narrows::machine::Condenser;
use proptest::prelude::*;

use super::runner::{Came, law};
use super::world::{two_ports, world};

fn at_once(setup: &Setup, count: u32, connection: Connection) -> Option<OperatingPoint> {
    solve(&Setup { machines: AtOnce { count, connection }, ..setup.clone() }).point.ok()
}

/// One machine so many times as large; none beyond what formulas allow.
fn enlarged(setup: &Setup, count: u32) -> Option<OperatingPoint> {
    let times = f64::from(count);
    let mut large = setup.clone();
    let displacement = setup.machine.compressor.displacement() * times;
    large.machine.compressor = setup.machine.compressor.with_displacement(displacement).ok()?;
    if let Condenser::Conductance(conductance) = setup.machine.condenser {
        large.machine.condenser = Condenser::Conductance(conductance * times);
    }
    solve(&large).point.ok()
}

/// They draw as one machine that is as large as all, and each does its share of the work.
#[test]
fn machines_on_one_path_draw_as_one_larger() {
    let count = 2..7_u32;
    law("machines on one path", 60, 0.4, (prop_oneof![world(), two_ports()], count), |(world, count)| {
        let Ok(setup) = world.setup() else { return Ok(Came::InWords) };
        let together = at_once(&setup, count, Connection::SamePort);
        let (Some(all), Some(large)) = (together, enlarged(&setup, count)) else { return Ok(Came::InWords) };
        let ratio = all.mass_flow.value / large.mass_flow.value;
        prop_assert!((ratio - 1.0).abs() < world.slack(), "{ratio} times one {count} times as large");
        // Where it flows by itself there is no work at all.
        let (work, larger) =
            (f64::from(count) * all.machine.shaft_power.value, large.machine.shaft_power.value);
        prop_assert!((work - larger).abs() <= 1e-4 * larger, "{work} and {larger} W");
        Ok(Came::Held)
    });
}

/// On paths of their own rates add up; on one path there is never more than that, and never less than one
/// machine draws.
#[test]
fn one_path_gives_no_more_than_paths_of_their_own() {
    let count = 2..7_u32;
    law("machines on paths of their own", 60, 0.4, (world(), count), |(world, count)| {
        // A hose that falls brings more pressure with more flow condensed in it: it is no hindrance.
        let world = world.without_falls();
        let Ok(setup) = world.setup() else { return Ok(Came::InWords) };
        let rate = |connection| Some(at_once(&setup, count, connection)?.mass_flow.value);
        let one = at_once(&setup, 1, Connection::SamePort).map(|point| point.mass_flow.value);
        let (Some(one), Some(own)) = (one, rate(Connection::SeparatePorts)) else { return Ok(Came::InWords) };
        prop_assert!((own / (f64::from(count) * one) - 1.0).abs() < 1e-12, "{own} of {count} times {one}");
        let Some(shared) = rate(Connection::SamePort) else { return Ok(Came::InWords) };
        let more = 1.0 + world.slack();
        prop_assert!(
            one <= shared * more && shared <= own * more,
            "one {one}, shared {shared}, own {own} kg/s"
        );
        Ok(Came::Held)
    });
}
