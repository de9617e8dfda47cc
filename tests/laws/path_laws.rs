//! Parts taken away, narrowed, lengthened; the plateau; both curves; heat and work.

use narrows::flow::{Arrival, Line, Medium};
use narrows::job::meeting_curves;
use proptest::prelude::*;

use super::runner::{Came, law};
use super::world::{Condenses, World, two_ports, world};

/// What stands in the way of `tight` stands in the way of `open` too, and more.
fn not_more(tight: &World, open: &World, what: &str) -> Result<Came, TestCaseError> {
    match (tight.rate(), open.rate()) {
        (Ok(less), Ok(more)) => {
            prop_assert!(less <= more * (1.0 + tight.slack()), "{what}: {less} kg/s against {more} kg/s");
            Ok(Came::Held)
        }
        // The tighter path may starve the machine, the wider one flood its condenser.
        (Err(why), Ok(_)) if why.is_below_table() || why.draws_nothing() => Ok(Came::Held),
        (Ok(_), Err(why)) if why.is_too_much() => Ok(Came::Held),
        // A branch that falls may bring what stands in it above the table.
        (Ok(_), Err(why)) if why.is_above_table() => Ok(Came::InWords),
        (Err(less), Err(more)) => {
            prop_assert!(less.may_be() && more.may_be(), "{what}: {less:?} against {more:?}");
            Ok(Came::InWords)
        }
        (less, more) => Err(TestCaseError::fail(format!("{what}: {less:?} against {more:?}"))),
    }
}

#[test]
fn every_question_has_an_answer_or_a_reason() {
    law("answer or reason", 120, 0.5, prop_oneof![3 => world(), 1 => two_ports()], |world| {
        match world.point() {
            Ok(point) => {
                prop_assert!(point.mass_flow.value > 0.0 && point.mass_flow.value.is_finite());
                Ok(Came::Held)
            }
            Err(why) => {
                prop_assert!(why.may_be(), "{why:?}");
                Ok(Came::InWords)
            }
        }
    });
}

#[test]
fn removing_a_part_never_lowers_the_rate() {
    law("removing a part", 60, 0.5, (world(), 0..5_usize), |(world, index)| {
        // A falling hose drives the flow: it is no hindrance.
        let world = world.without_falls();
        let mut pieces = world.pieces.clone();
        pieces.remove(index % world.pieces.len());
        not_more(&world, &world.with(pieces), "without a part")
    });
}

#[test]
fn a_narrower_or_longer_part_never_raises_the_rate() {
    let change = (0..5_usize, prop_oneof![0.5..0.99_f64, 0.99..0.999_999], 1.000_1..4.0_f64);
    law("narrower or longer", 60, 0.5, (world(), change), |(world, (index, share, times))| {
        let index = index % world.pieces.len();
        let narrower = not_more(&world.changed(index, |piece| piece.scaled(share)), &world, "narrower")?;
        not_more(&world.changed(index, |piece| piece.longer(times)), &world, "longer")?;
        Ok(narrower)
    });
}

#[test]
fn two_ports_never_give_less_than_one_and_narrowing_either_never_more() {
    law("two ports", 20, 0.4, (two_ports(), 0.5..0.999_f64), |(world, share)| {
        let one = World { second: None, ..world.clone() };
        let came = not_more(&one, &world, "one port against two")?;
        let Some((own, joins)) = &world.second else { return Ok(came) };
        let narrow = own.iter().map(|piece| piece.scaled(share)).collect();
        not_more(&World { second: Some((narrow, *joins)), ..world.clone() }, &world, "second port narrower")?;
        not_more(&world.changed(0, |piece| piece.scaled(share)), &world, "first port narrower")
    });
}

#[test]
fn a_bigger_machine_never_draws_less() {
    let times = prop_oneof![1.05..5.0_f64, 1.000_01..1.05];
    law("bigger machine", 60, 0.5, (world(), times), |(world, times)| {
        let bigger = World { cfm: times * world.cfm, ..world.clone() };
        // Behind a choke a bigger machine pulls its inlet down, if need be below the table.
        if bigger.rate().is_err_and(|why| why.is_below_table()) {
            return Ok(Came::InWords);
        }
        not_more(&world, &bigger, "a bigger machine")
    });
}

/// The machine is brought to where its path just chokes; there the rate must neither jump nor turn.
#[test]
fn nothing_turns_where_the_path_begins_to_choke() {
    law("nearly choked", 8, 0.2, (world(), -6.0..-2.0_f64), |(world, log)| {
        let at = |cfm: f64| World { cfm, ..world.clone() };
        let chokes = |cfm: f64| at(cfm).point().is_ok_and(|point| point.choked_part.is_some());
        let (mut low, mut high) = (1e-3, 200.0);
        if chokes(low) || !chokes(high) {
            return Ok(Came::InWords);
        }
        for _ in 0..24 {
            let middle = f64::sqrt(low * high);
            if chokes(middle) { high = middle } else { low = middle }
        }
        let hair = 10_f64.powf(log);
        let sizes = [low * (1.0 - hair), low, high, high * (1.0 + hair)];
        for pair in sizes.windows(2) {
            not_more(&at(pair[0]), &at(pair[1]), "about the choke")?;
        }
        let (Ok(before), Ok(after)) = (at(low).rate(), at(high).rate()) else { return Ok(Came::InWords) };
        prop_assert!((after / before - 1.0).abs() < 1e-4, "{before} kg/s jumps to {after} kg/s");
        Ok(Came::Held)
    });
}

#[test]
fn flow_never_rises_with_the_inlets_pressure() {
    law("plateau", 24, 0.5, prop_oneof![3 => world(), 1 => two_ports()], |world| {
        let Ok(setup) = world.setup() else { return Ok(Came::InWords) };
        let Ok(curves) = meeting_curves(&setup, 24) else { return Ok(Came::InWords) };
        // A flow that loses next to nothing stands at one pressure: to rounding, or to what a sloped hose
        // settles to.
        let settled = if world.is_sloped() { 2e-6 } else { 1e-8 };
        for pair in curves.path.windows(2) {
            let ((low, more), (high, less)) = (pair[0], pair[1]);
            prop_assert!(
                high >= low * (1.0 - settled) && less.value <= more.value * (1.0 + world.slack()),
                "{more:?} at {low:?}, {less:?} at {high:?}"
            );
        }
        Ok(Came::Held)
    });
}

/// 0.1 % less flow arrives above what the inlet reads, 0.1 % more below; the machine draws the rate.
#[test]
fn the_answer_lies_on_both_curves() {
    law("both curves", 60, 0.5, world(), |world| {
        let point = match world.point() {
            Ok(point) => point,
            Err(why) => {
                prop_assert!(why.may_be(), "{why:?}");
                return Ok(Came::InWords);
            }
        };
        let setup = world.setup().map_err(|why| TestCaseError::fail(format!("{why:?}")))?;
        let refrigerant = &*setup.refrigerant;
        let start = world.source().map_err(|error| TestCaseError::fail(error.to_string()))?;
        let reads = point.machine_inlet_pressure.value;
        let inlet = Medium::point(refrigerant, reads, start.enthalpy_j_kg).unwrap();
        let compressor = &setup.machine.compressor;
        let suction = compressor.suction(refrigerant, inlet).unwrap();
        let drawn = compressor.mass_flow_kg_s(
            &suction,
            point.machine.discharge_pressure.value,
            point.machine.speed.value,
        );
        let rate = point.mass_flow.value;
        // Near its ultimate vacuum a machine's curve is so steep that pressure decides, not flow.
        let drawn_at = |share: f64| -> f64 {
            let inlet = Medium::point(refrigerant, share * reads, start.enthalpy_j_kg).unwrap();
            let suction = compressor.suction(refrigerant, inlet).unwrap();
            let discharge_pa = point.machine.discharge_pressure.value;
            compressor.mass_flow_kg_s(&suction, discharge_pa, point.machine.speed.value)
        };
        let on_curve =
            (drawn / rate - 1.0).abs() < 1e-3 || (drawn_at(0.999) <= rate && rate <= drawn_at(1.001));
        prop_assert!(on_curve, "the machine draws {drawn} kg/s of {rate} kg/s");
        let line = Line::new(refrigerant, setup.method, &setup.path, start, start).unwrap();
        let arrives = |flow: f64| match line.arrival(flow) {
            Ok(Arrival::Arrives(end)) => end.pressure_pa,
            _ => 0.0,
        };
        let (less, more) = (arrives(0.999 * rate), arrives(1.001 * rate));
        let slack_pa = world.slack() * reads;
        prop_assert!(less >= reads - slack_pa, "0.1 % less arrives at {less} Pa, the inlet reads {reads} Pa");
        prop_assert!(more <= reads + slack_pa, "0.1 % more arrives at {more} Pa, the inlet reads {reads} Pa");
        Ok(Came::Held)
    });
}

/// Each part begins at the pressure at which the one before it ends, the first at the port, and the
/// last ends where the machine's gauge reads: also behind a choke, and where a hose that falls gains
/// pressure.
#[test]
fn pressures_hang_together_from_port_to_machine() {
    law("pressures", 80, 0.5, world(), |world| {
        let Ok(point) = world.point() else { return Ok(Came::InWords) };
        let mut last = point.system_pressure.value;
        for (index, part) in point.parts.iter().enumerate() {
            let begins = part.inlet_pressure.value;
            prop_assert!(
                (begins / last - 1.0).abs() < 1e-6,
                "part {index} begins at {begins} Pa, not {last}"
            );
            last = part.outlet_pressure.value;
        }
        let reads = point.machine_inlet_pressure.value;
        // Behind a choke a tube's end follows its inlet many times over, and steps settle to 2e-6 of that.
        let slack = if world.is_sloped() { 2e-3 } else { 1e-5 };
        prop_assert!(
            (reads / last - 1.0).abs() < slack,
            "the inlet reads {reads} Pa, the last part ends at {last}"
        );
        Ok(Came::Held)
    });
}

/// What goes in as enthalpy and shaft work comes out as liquid and heat; the condenser's own law
/// holds where it is at work. Liquid's enthalpy by the tables, as at the port.
#[test]
fn heat_and_work_balance() {
    law("energy", 60, 0.5, world(), |world| {
        let Ok(point) = world.point() else { return Ok(Came::InWords) };
        let refrigerant = world.properties();
        let start = world.source().map_err(|error| TestCaseError::fail(error.to_string()))?;
        let machine = &point.machine;
        let condensing_k = machine.condensing_temperature.value;
        let liquid = refrigerant.saturation_at_bubble_temperature(condensing_k).unwrap();
        let rate = point.mass_flow.value;
        let carried_w = rate * (start.enthalpy_j_kg - liquid.liquid_enthalpy_j_kg);
        let (in_w, out_w) = (carried_w + machine.shaft_power.value, machine.heat_rejected.value);
        let scale_w = carried_w.abs() + machine.shaft_power.value;
        prop_assert!((in_w - out_w).abs() < 1e-6 * scale_w + 1e-9, "{in_w} W in, {out_w} W out");
        if let Condenses::Conductance { w_k } = world.condenses {
            let setup = world.setup().map_err(|why| TestCaseError::fail(format!("{why:?}")))?;
            let passed_w = w_k * (condensing_k - setup.ambient.temperature.value);
            // Nothing has to condense where even liquid at the air's temperature needs no cooling.
            prop_assert!(
                (passed_w - out_w).abs() < 1e-3 * scale_w
                    || (passed_w.abs() < 1e-3 * w_k && out_w <= 1e-6 * scale_w),
                "the condenser passes {passed_w} W, {out_w} W are rejected"
            );
        }
        Ok(Came::Held)
    });
}

/// A mixture with hardly any vapour in it is liquid, and the rate comes from one to the other
/// without a jump; the more vapour, the less mass.
/// At the table's lowest pressures vapour takes thousands of times the liquid's room, so that a share of 1e-7
/// changes the flow by up to 2e-4. Less than 1e-9 kg/s, 4 mg an hour, is no flow.
#[test]
fn the_rate_is_continuous_at_the_boiling_line() {
    law("boiling line", 40, 0.4, (world(), -12.0..-7.0_f64), |(world, log)| {
        let drawing = |draws| World { draws, ..world.clone() };
        let liquid = drawing(super::world::Draws::Liquid).rate();
        let nearly = drawing(super::world::Draws::Both { vapour_share: 10_f64.powf(log) }).rate();
        match (liquid, nearly) {
            (Ok(liquid), Ok(nearly)) => {
                prop_assert!((nearly - liquid).abs() < 1e-3 * liquid + 1e-9, "{liquid} kg/s, {nearly} kg/s");
                Ok(Came::Held)
            }
            (Err(liquid), Err(nearly)) => {
                prop_assert!(liquid.may_be() && nearly.may_be(), "{liquid:?}, {nearly:?}");
                Ok(Came::InWords)
            }
            (liquid, nearly) => Err(TestCaseError::fail(format!("{liquid:?}, {nearly:?}"))),
        }
    });
}
