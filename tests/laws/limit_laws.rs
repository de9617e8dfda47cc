//! What a path becomes at its limits: no bore to speak of, no length, alike branches, parts exchanged.

use narrows::flow::{Element, PathPart, Tube};
use narrows::job::solve;
use proptest::prelude::*;
use uom::si::f64::Length;
use uom::si::length::millimeter;

use super::runner::{Came, law};
use super::world::{Piece, World, two_ports, world};

fn close(what: &str, a: f64, b: f64, ratio: f64) -> Result<(), TestCaseError> {
    prop_assert!((a / b - 1.0).abs() <= ratio, "{what}: {a} kg/s and {b} kg/s");
    Ok(())
}

/// 190 mm of bore and a millimetre of length: as if nothing were there. A small machine, for the
/// velocity head that is left boils some of the liquid: `½ ρ w²` of 1 Pa for 0.6 kg/s of R-22 at
/// −30 °C makes vapour of 1e-6 of it, of two hundred times its volume.
#[test]
fn a_boundless_bore_is_no_part() {
    law("boundless bore", 40, 0.4, world(), |world| {
        let vast = |piece| match piece {
            Piece::Hole { coefficient, recovery, .. } => {
                Piece::Hole { bore_mm: 190.0, coefficient, recovery }
            }
            Piece::Hose { .. } => Piece::Hose { bore_mm: 190.0, length_m: 1e-3, rise_ratio: 0.0 },
            Piece::Gauges { seats, .. } => Piece::Gauges { seats, bore_mm: 190.0 },
            Piece::Valve { .. } => Piece::Valve { kv: 900.0 },
            Piece::Drier { .. } => Piece::Drier { kv: 900.0, area_left: 1.0 },
        };
        let world = World { cfm: world.cfm.min(0.3), warmth: world.warmth.max(0.65), ..world };
        let open = world.with(Vec::new());
        let wide = world.with(world.pieces.iter().copied().map(vast).collect());
        match (open.rate(), wide.rate()) {
            (Ok(open), Ok(wide)) => {
                close("boundless", wide, open, 3e-3)?;
                Ok(Came::Held)
            }
            (Err(open), Err(wide)) => {
                prop_assert!(open.may_be() && wide.may_be(), "{open:?} {wide:?}");
                Ok(Came::InWords)
            }
            (open, wide) => Err(TestCaseError::fail(format!("{open:?} {wide:?}"))),
        }
    });
}

/// Without length a tube is not there, whatever its bore, wherever it stands.
#[test]
fn a_tube_without_length_is_no_tube() {
    law("no length", 60, 0.4, (world(), 1.0..20.0_f64, 0..5_usize), |(world, bore_mm, index)| {
        let (Ok(mut setup), Ok(rate)) = (world.setup(), world.rate()) else { return Ok(Came::InWords) };
        let mm = Length::new::<millimeter>;
        let nothing = Tube::new(mm(bore_mm), mm(0.0), mm(0.01), mm(0.0)).unwrap();
        let index = index % (world.pieces.len() + 1);
        setup.path.parts.insert(index, PathPart { elements: vec![Element::Tube(nothing)] });
        let with_nothing = solve(&setup).point.map_err(|error| TestCaseError::fail(error.to_string()))?;
        close("no length", with_nothing.mass_flow.value, rate, 1e-6)?;
        Ok(Came::Held)
    });
}

#[test]
fn alike_branches_share_alike_and_which_is_first_does_not_matter() {
    law("branches", 24, 0.4, two_ports(), |world| {
        let Some((own, joins)) = world.second.clone() else { return Ok(Came::InWords) };
        let (first, shared) = world.pieces.split_at(joins);
        let alike = World { second: Some((first.to_vec(), joins)), ..world.clone() };
        let exchanged = World {
            pieces: [&own[..], shared].concat(),
            second: Some((first.to_vec(), own.len())),
            ..world.clone()
        };
        let (Ok(alike), Ok(one), Ok(other)) = (alike.point(), world.point(), exchanged.point()) else {
            return Ok(Came::InWords);
        };
        let split = |point: &narrows::job::OperatingPoint| {
            point.second.as_ref().map(|s| (s.first_mass_flow.value, s.mass_flow.value)).unwrap()
        };
        let (a, b) = split(&alike);
        close("alike", a, b, 1e-6)?;
        close("sum", a + b, alike.mass_flow.value, 1e-6)?;
        close("exchanged", one.mass_flow.value, other.mass_flow.value, 1e-6)?;
        let ((a, b), (c, d)) = (split(&one), split(&other));
        let whole = one.mass_flow.value;
        prop_assert!((a - d).abs() + (b - c).abs() < 1e-5 * whole, "{a} and {b}, then {c} and {d}");
        Ok(Came::Held)
    });
}

/// A hose cut in two is the same hose; the friction's steps settle to 0.2 %. Parts alike in a row
/// may change places.
#[test]
fn a_cut_hose_is_the_same_hose_and_twins_may_change_places() {
    law("cut hose", 40, 0.3, (world(), 0.05..0.95_f64), |(world, share)| {
        let twins = World { pieces: [&world.pieces[..], &world.pieces[..1]].concat(), ..world.clone() };
        let mut swapped = twins.clone();
        let last = swapped.pieces.len() - 1;
        swapped.pieces.swap(0, last);
        prop_assert_eq!(twins.rate(), swapped.rate());
        let is_hose = |piece: &Piece| matches!(piece, Piece::Hose { .. });
        let Some(index) = world.pieces.iter().position(is_hose) else { return Ok(Came::InWords) };
        let Piece::Hose { bore_mm, length_m, rise_ratio } = world.pieces[index] else {
            return Ok(Came::InWords);
        };
        let length = |share: f64| Piece::Hose { bore_mm, length_m: share * length_m, rise_ratio };
        let mut pieces = world.pieces.clone();
        pieces[index] = length(share);
        pieces.insert(index + 1, length(1.0 - share));
        let (Ok(whole), Ok(cut)) = (world.rate(), world.with(pieces).rate()) else {
            return Ok(Came::InWords);
        };
        close("cut", cut, whole, 2e-3)?;
        Ok(Came::Held)
    });
}
