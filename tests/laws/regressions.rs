//! What random cases once found, each by its name.

use narrows::flow::{Arrival, Line, Medium};
use narrows::job::{Port, meeting_curves};
use narrows::scenario::set;

use super::world::{Condenses, Draws, Piece, World};

fn plain(refrigerant: &'static str, draws: Draws, pieces: Vec<Piece>) -> World {
    World {
        refrigerant,
        warmth: 0.75,
        draws,
        pieces,
        second: None,
        cfm: 1.0,
        clearance: 0.05,
        exponent: None,
        condenses: Condenses::At { warmth: 0.85 },
        air: 0.75,
        delayed: false,
        separate: false,
    }
}

/// As far as a random case is made simple: the coolest air and condenser, no clearance.
fn simplest(refrigerant: &'static str, draws: Draws, pieces: Vec<Piece>) -> World {
    let condenses = Condenses::At { warmth: 0.75 };
    World { clearance: 0.0, condenses, air: 0.68, ..plain(refrigerant, draws, pieces) }
}

fn falling(rise_ratio: f64) -> Piece {
    Piece::Hose { bore_mm: 12.0, length_m: 1.0, rise_ratio }
}

/// A document may say −70 °C of the air; the power room refused it below −40 °C.
#[test]
fn air_that_the_door_lets_in_has_an_answer() {
    for air in ["-70 degC", "76 degC"] {
        let world = plain("R-22", Draws::Vapour, vec![falling(0.0)]);
        let mut document = world.document();
        set(&mut document, "ambient.temperature", air).unwrap();
        let kits = narrows::scenario::resolve(&document).unwrap();
        let answer = narrows::job::solve(&kits[0].setup);
        assert!(answer.power.is_ok(), "{air}: {:?}", answer.power);
    }
}

/// The curve began at the port's pressure, below where liquid that runs down arrives.
#[test]
fn a_falling_hoses_curve_begins_above_its_port() {
    let world = plain("R-22", Draws::Liquid, vec![falling(-0.5)]);
    let setup = world.setup().unwrap();
    assert_eq!(setup.source.first, Port::Liquid);
    let curve = meeting_curves(&setup, 24).unwrap().path;
    let (rest, flow) = *curve.last().unwrap();
    let source_pa = world.source().unwrap().pressure_pa;
    // ρ g h of liquid R-22 near 277 K: about 1270 · 9.80665 · 0.5 = 6.2 kPa.
    let head_pa = rest.value - source_pa;
    assert!(flow.value == 0.0 && (head_pa / 6.2e3 - 1.0).abs() < 0.03, "{head_pa} Pa");
}

/// Branches that fall met above the port's pressure, where their flows were taken as none.
#[test]
fn two_falling_branches_share_the_flow() {
    let mut world = plain("R-22", Draws::Liquid, vec![falling(-0.25)]);
    world.second = Some((vec![falling(-0.25)], 1));
    let point = world.point().unwrap();
    let second = point.second.as_ref().unwrap();
    let (a, b, whole) = (second.first_mass_flow.value, second.mass_flow.value, point.mass_flow.value);
    assert!(a > 0.0 && (a / b - 1.0).abs() < 1e-6 && ((a + b) / whole - 1.0).abs() < 1e-9, "{a} {b} {whole}");
}

/// A source two per cent above the table's floor: the slope of a delayed expansion, and a throat's
/// first step, were sought below it.
#[test]
fn a_source_just_above_the_tables_floor_has_an_answer_or_a_named_reason() {
    for (refrigerant, delayed) in [("R-600a", true), ("R-744", true), ("R-744", false)] {
        let hole = Piece::Hole { bore_mm: 1.0, coefficient: 0.4, recovery: 1.0 };
        for draws in [Draws::Liquid, Draws::Vapour] {
            let world = World { warmth: 0.35, delayed, ..plain(refrigerant, draws, vec![hole, hole]) };
            if let Err(why) = world.point() {
                assert!(why.may_be(), "{refrigerant}: {why:?}");
            }
        }
    }
}

/// Which branch is called the first is nothing to the flow, also where one falls off to its choke: the
/// pressure of the meeting was taken from the first one, whose own hardly follows from its flow there.
#[test]
fn branches_may_be_exchanged_where_one_falls() {
    let hose = [
        Piece::Hole { bore_mm: 4.100457508131609, coefficient: 0.4, recovery: 1.0 },
        Piece::Hose { bore_mm: 1.5, length_m: 9.14759973941281, rise_ratio: -0.189411392550418 },
    ];
    let hole = [Piece::Hole { bore_mm: 1.0, coefficient: 0.7666917687892784, recovery: 1.0 }];
    let world = |first: &[Piece], second: &[Piece]| World {
        warmth: 0.6634780316325566,
        second: Some((second.to_vec(), first.len())),
        cfm: 0.034551582236881886,
        delayed: true,
        separate: true,
        ..simplest("R-507A", Draws::Liquid, first.to_vec())
    };
    same_rate(&world(&hose, &hole), &world(&hole, &hose));
}

/// What boils a little and falls condenses again; near its own sound a step to there ends beyond a kink that
/// secants do not find, and at every other flow the hose seemed to choke.
#[test]
fn branches_may_be_exchanged_where_what_boils_falls_near_its_sound() {
    let wide = Piece::Hole { bore_mm: 8.391294203452158, coefficient: 0.4141356486033369, recovery: 1.0 };
    let narrow = Piece::Hole { bore_mm: 1.6115795229502832, coefficient: 0.6204531904078978, recovery: 1.0 };
    let hoses = [
        Piece::Hose {
            bore_mm: 2.802339148667052,
            length_m: 0.07673415522908686,
            rise_ratio: -0.46682861020675137,
        },
        Piece::Hose { bore_mm: 12.882537712659309, length_m: 1.0, rise_ratio: 0.0 },
        Piece::Hose { bore_mm: 9.210293332066717, length_m: 1.0, rise_ratio: 0.0 },
    ];
    let world = |first: Piece, second: Piece| World {
        warmth: 0.5858810137938216,
        second: Some((vec![second], 1)),
        ..simplest("R-410A", Draws::Liquid, [&[first][..], &hoses].concat())
    };
    same_rate(&world(wide, narrow), &world(narrow, wide));
}

#[track_caller]
fn same_rate(one: &World, other: &World) {
    let (one, other) = (one.rate().unwrap(), other.rate().unwrap());
    assert!((one / other - 1.0).abs() < 1e-6, "{one} and {other} kg/s");
}

/// Vapour just below the top of the table gains pressure as it falls, beyond the table. That was taken for a
/// choke, and two branches met at its pressure, 380 kPa, instead of 4 MPa.
#[test]
fn a_fall_beyond_the_tables_top_is_said_so() {
    let hose = Piece::Hose { bore_mm: 1.5, length_m: 7.85, rise_ratio: -0.436 };
    let mut world = World { warmth: 0.998_866, ..plain("R-22", Draws::Vapour, vec![hose]) };
    world.second = Some((vec![Piece::Gauges { seats: 1, bore_mm: 4.04 }], 1));
    let error = meeting_curves(&world.setup().unwrap(), 24).unwrap_err();
    assert!(error.to_string().contains("the table ends below the critical point"), "{error}");
}

/// Means of the drag over a step were off where it changes much within it: by 1 % of the rate where a tall
/// riser's liquid boils, by 0.04 % at a choke.
#[test]
fn a_tall_riser_cut_in_ten_is_the_same_riser() {
    let hose = |share: f64| Piece::Hose { bore_mm: 1.5, length_m: share * 39.0857, rise_ratio: 0.241_214 };
    let rate = |pieces| {
        let world = plain("R-1336mzz(Z)", Draws::Liquid, pieces);
        let world = World { warmth: 0.632_108, cfm: 0.0243, clearance: 0.0913, air: 0.771, ..world };
        World { condenses: Condenses::At { warmth: 0.75 }, ..world }.rate().unwrap()
    };
    let (one, ten) = (rate(vec![hose(1.0)]), rate(vec![hose(0.1); 10]));
    assert!((one / ten - 1.0).abs() < 2e-4, "{one} {ten}");
}

/// A level hose behind one that falls, and a trial flow so large that its liquid would have to boil away at
/// once: there is no such state, and that is a choke, not the end of the table.
#[test]
fn what_would_boil_away_at_once_chokes() {
    let hoses = vec![
        Piece::Hose { bore_mm: 2.858_066_568_144_443, length_m: 1.0, rise_ratio: -0.279_096_524_100_161_56 },
        Piece::Hose { bore_mm: 1.5, length_m: 1.0, rise_ratio: 0.0 },
    ];
    let world = World { warmth: 0.509_146_664_241_002_4, ..simplest("R-22", Draws::Liquid, hoses) };
    let rate = world.rate();
    assert!(
        rate.as_ref().is_ok_and(|rate| *rate > 0.0) || rate.as_ref().is_err_and(|why| why.may_be()),
        "{rate:?}"
    );
}

/// Two branches of which the second's hose chokes: what its choke tells from far away was taken for a bound,
/// and nothing was left for it.
#[test]
fn a_branch_is_not_bounded_by_what_its_hose_tells() {
    let hoses = vec![
        Piece::Hose { bore_mm: 12.167_275_099_659_639, length_m: 1.0, rise_ratio: 0.0 },
        Piece::Hose {
            bore_mm: 1.803_147_224_348_724_4,
            length_m: 0.059_555_123_797_088_355,
            rise_ratio: 0.0,
        },
    ];
    let world = World {
        warmth: 0.840_381_291_014_412_3,
        cfm: 7.949_821_875_779_106,
        ..simplest("R-407C", Draws::Vapour, hoses)
    };
    let hole = Piece::Hole { bore_mm: 0.840_975_169_974_668_7, coefficient: 0.4, recovery: 1.0 };
    let both = World { second: Some((vec![hole], 2)), ..world.clone() };
    assert!(both.rate().unwrap() > world.rate().unwrap());
}

/// A flow whose last step but a hair ends at the hose's end was taken for one that chokes there.
#[test]
fn a_hair_of_hose_that_is_left_has_passed() {
    let pieces = vec![
        Piece::Hose { bore_mm: 3.403_922_935_730_585_6, length_m: 1.423_821_005_973_513_2, rise_ratio: 0.0 },
        Piece::Gauges { seats: 3, bore_mm: 5.198_497_412_116_618 },
    ];
    let world = World { warmth: 0.708_722_521_373_294_7, ..plain("R-410A", Draws::Vapour, pieces) };
    let (setup, source) = (world.setup().unwrap(), world.source().unwrap());
    let line = Line::new(&*setup.refrigerant, setup.method, &setup.path, source, source).unwrap();
    for k in 0..=40 {
        let flow = 4.046_552_44e-3 * (1.0 + 1e-8 * f64::from(k - 20));
        assert!(matches!(line.arrival(flow), Ok(Arrival::Arrives(_))), "{flow} kg/s");
    }
}

/// To find how much too little flow is for a choke, a falling hose was lengthened until its liquid stood above
/// the table.
#[test]
fn a_falling_hose_need_not_choke_however_long() {
    let hose =
        Piece::Hose { bore_mm: 3.647_673_949_712_642, length_m: 21.798, rise_ratio: -0.218_323_541_912_687 };
    let world = World {
        warmth: 0.597_675_871_992_577_8,
        cfm: 6.156_573_792_497_732,
        condenses: Condenses::Conductance { w_k: 20.0 },
        air: 0.68,
        ..plain("R-404A", Draws::Liquid, vec![hose])
    };
    let narrow = world.changed(0, |piece| piece.scaled(0.5));
    assert!(narrow.rate().unwrap() < world.rate().unwrap());
}

/// Where liquid first boils at the end of a hose that falls, 1e-5 more flow arrives at half the pressure. The
/// search ended beyond that step, with a machine that draws half a per cent less than the rate.
#[test]
fn an_inlet_settles_on_a_step() {
    let hose = Piece::Hose {
        bore_mm: 5.733_090_804_226_992,
        length_m: 55.406_215_904_372_44,
        rise_ratio: -0.255_342_443_580_439_56,
    };
    let world = World {
        warmth: 0.751_923_984_269_842_4,
        cfm: 1.257_908_116_142_853_4,
        separate: true,
        ..simplest("R-1234yf", Draws::Liquid, vec![hose])
    };
    let (setup, point) = (world.setup().unwrap(), world.point().unwrap());
    let (refrigerant, compressor) = (&*setup.refrigerant, &setup.machine.compressor);
    let enthalpy = world.source().unwrap().enthalpy_j_kg;
    let inlet = Medium::point(refrigerant, point.machine_inlet_pressure.value, enthalpy).unwrap();
    let suction = compressor.suction(refrigerant, inlet).unwrap();
    let drawn = compressor.mass_flow_kg_s(&suction, point.machine.discharge_pressure.value, 1.0);
    assert!((drawn / point.mass_flow.value - 1.0).abs() < 1e-5, "{drawn} of {:?}", point.mass_flow);
}

/// Liquid that loses 7 mPa of 50 kPa: taken from a difference of enthalpies, the loss came with rounding of a few
/// parts in a million. `Δp = (3600 ṁ/Kv)² /(1000 ρ) bar` (IEC 60534-2-1), so Δp/ṁ² is one number; what boils
/// in 1e-7 of the pressure makes 1e-4 of it.
#[test]
fn a_loss_next_to_nothing_goes_with_the_square_of_the_flow() {
    let kv = 2.763;
    let world = World {
        warmth: 0.606_148_573_929_922_4,
        ..simplest("R-134a", Draws::Liquid, vec![Piece::Valve { kv }])
    };
    let (setup, source) = (world.setup().unwrap(), world.source().unwrap());
    let line = Line::new(&*setup.refrigerant, setup.method, &setup.path, source, source).unwrap();
    let constant = |flow: f64| match line.arrival(flow).unwrap() {
        Arrival::Arrives(point) => (source.pressure_pa - point.pressure_pa) / flow.powi(2),
        Arrival::TooMuch(_) => panic!("{flow} kg/s is too much"),
    };
    let printed = (3600.0 / kv).powi(2) * 1e2 * source.specific_volume_m3_kg;
    for k in 0..=40 {
        let got = constant(2.4e-4 * (1.0 + 1e-5 * f64::from(k)));
        assert!((got / printed - 1.0).abs() < 1e-4, "{got} and {printed}");
        assert!((got / constant(2.4e-4) - 1.0).abs() < 1e-7, "{got}");
    }
}
