//! What must hold for every refrigerant, whatever the numbers.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use narrows::fluid::{self, FluidError, Phase, Refrigerant, Saturation, State};
use proptest::prelude::*;
use std::sync::Arc;

fn every() -> Vec<Arc<Refrigerant>> {
    fluid::list().map(|l| Refrigerant::load(l.designation).unwrap()).collect()
}

/// Pressures over the whole range, ends included, none of them chosen to be nodes.
fn pressures(r: &Refrigerant) -> Vec<f64> {
    let (low, high) = (r.lowest_pressure_pa(), r.highest_pressure_pa());
    let mut all: Vec<f64> = (1..13).map(|i| low * (high / low).powf(i as f64 / 13.0)).collect();
    all.extend([low, high]);
    all
}

/// States at one pressure from cold liquid to hot vapour, close about bubble and dew.
fn isobar(r: &Refrigerant, s: &Saturation) -> Vec<State> {
    let (hl, hv) = (s.liquid_enthalpy_j_kg, s.vapor_enthalpy_j_kg);
    let latent = hv - hl;
    let qualities = (-60..=0)
        .map(|i| f64::from(i) * 0.01)
        .chain([-1e-6, 1e-6, 1e-3])
        .chain((1..=100).map(|i| f64::from(i) * 0.01));
    let hot = (1..200).map(|i| 1.0 + f64::from(i) * 0.01).chain([1.0 - 1e-6, 1.0 + 1e-6]);
    let mut enthalpies: Vec<f64> = qualities.chain(hot).map(|q| hl + q * latent).collect();
    enthalpies.sort_by(f64::total_cmp);
    let states: Vec<State> = enthalpies.iter().filter_map(|h| r.state_ph_at(s, *h).ok()).collect();
    assert!(
        states.len() > 120,
        "{} has only {} states at {} Pa",
        r.designation(),
        states.len(),
        s.pressure_pa
    );
    states
}

fn for_every_isobar(mut check: impl FnMut(&Refrigerant, &Saturation, &[State])) {
    for r in every() {
        for pressure_pa in pressures(&r) {
            let s = r.saturation_at_pressure(pressure_pa).unwrap();
            check(&r, &s, &isobar(&r, &s));
        }
    }
}

#[test]
fn every_refrigerant_loads() {
    let all = every();
    assert_eq!(all.len(), 54);
    assert_eq!(all.iter().filter(|r| r.is_estimated()).count(), 5);
    assert!(all.iter().all(|r| r.is_estimated() == r.estimate_reason().is_some()));
    assert!(all.iter().all(|r| r.highest_pressure_pa() < r.critical_pressure_pa() && !r.source().is_empty()));
}

#[test]
fn at_one_pressure_entropy_and_temperature_rise_with_enthalpy_and_density_falls() {
    for_every_isobar(|r, s, states| {
        for pair in states.windows(2) {
            let what = || format!("{} at {} Pa: {pair:?}", r.designation(), s.pressure_pa);
            assert!(pair[1].entropy_j_kg_k > pair[0].entropy_j_kg_k, "entropy, {}", what());
            assert!(pair[1].density_kg_m3 < pair[0].density_kg_m3, "density, {}", what());
            // R-507A, R-508B, R-502 and R-500 are azeotropes or nearly: a hundredth of a kelvin may fall.
            assert!(pair[1].temperature_k > pair[0].temperature_k - 0.02, "temperature, {}", what());
        }
    });
}

/// `dh = T ds` along an isobar, summed over a step by the trapezoid rule.
#[test]
fn enthalpy_is_the_integral_of_temperature_over_entropy() {
    for_every_isobar(|r, s, states| {
        for pair in states
            .windows(2)
            .filter(|p| p[0].phase() == p[1].phase() && p[0].phase() != Phase::SubcooledLiquid)
        {
            let dh = pair[1].enthalpy_j_kg - pair[0].enthalpy_j_kg;
            let tds = 0.5
                * (pair[0].temperature_k + pair[1].temperature_k)
                * (pair[1].entropy_j_kg_k - pair[0].entropy_j_kg_k);
            let off = (tds - dh).abs();
            assert!(
                off < 0.001 * dh + 0.01,
                "{} at {} Pa: {off} of {dh} J/kg, {pair:?}",
                r.designation(),
                s.pressure_pa
            );
        }
    });
}

#[test]
fn entropy_leads_back_to_enthalpy() {
    for_every_isobar(|r, s, states| {
        for state in states {
            let back = r.state_ps_at(s, state.entropy_j_kg_k).unwrap();
            let off = (back.enthalpy_j_kg - state.enthalpy_j_kg).abs();
            assert!(off < 0.01, "{} at {} Pa: {off} J/kg from {state:?}", r.designation(), s.pressure_pa);
            assert!((back.density_kg_m3 / state.density_kg_m3 - 1.0).abs() < 1e-4);
        }
    });
}

#[test]
fn nothing_jumps_at_the_bubble_and_dew_lines() {
    for_every_isobar(|r, s, _| {
        for (h, density, temperature_k, entropy) in [
            (s.liquid_enthalpy_j_kg, s.liquid_density_kg_m3, s.bubble_temperature_k, s.liquid_entropy_j_kg_k),
            (s.vapor_enthalpy_j_kg, s.vapor_density_kg_m3, s.dew_temperature_k, s.vapor_entropy_j_kg_k),
        ] {
            for nudge_j_kg in [-1e-6, 0.0, 1e-6] {
                let Ok(state) = r.state_ph_at(s, h + nudge_j_kg) else {
                    assert!(
                        s.pressure_pa <= r.lowest_pressure_pa(),
                        "only the coldest liquid has no colder one"
                    );
                    continue;
                };
                let what = format!("{} at {} Pa: {state:?}", r.designation(), s.pressure_pa);
                assert!((state.density_kg_m3 / density - 1.0).abs() < 1e-6, "{what}");
                assert!((state.temperature_k - temperature_k).abs() < 1e-6, "{what}");
                assert!((state.entropy_j_kg_k - entropy).abs() < 1e-6, "{what}");
            }
        }
    });
}

#[test]
fn pressure_and_temperature_lead_back_to_the_state() {
    for_every_isobar(|r, s, states| {
        for state in states
            .iter()
            .filter(|st| st.phase() != Phase::TwoPhase && (st.quality < -1e-3 || st.quality > 1.001))
        {
            let back = r.state_pt(s.pressure_pa, state.temperature_k).unwrap();
            assert!(
                (back.enthalpy_j_kg - state.enthalpy_j_kg).abs() < 0.01,
                "{}: {state:?} {back:?}",
                r.designation()
            );
        }
        let inside = 0.5 * (s.bubble_temperature_k + s.dew_temperature_k);
        assert!(
            matches!(r.state_pt(s.pressure_pa, inside), Err(FluidError::TwoPhase { .. })),
            "{}",
            r.designation()
        );
    });
}

/// Liquid pressed above saturation and let down again at constant entropy: `dh = v dp`, Bernoulli.
#[test]
fn an_isentrope_through_liquid_is_bernoulli() {
    for r in every() {
        let warm = r.lowest_temperature_k()
            + 0.6 * (r.highest_saturation_temperature_k() - r.lowest_temperature_k());
        let own = r.bubble_pressure_pa(warm).unwrap();
        let (high, low) = (own + 4e5, own + 1e5);
        let Ok(before) = r.state_pt(high, warm) else {
            continue;
        };
        let after = r.state_ps(low, before.entropy_j_kg_k).unwrap();
        assert_eq!((before.phase(), after.phase()), (Phase::SubcooledLiquid, Phase::SubcooledLiquid));
        let expected = 3e5 / before.density_kg_m3;
        let got = before.enthalpy_j_kg - after.enthalpy_j_kg;
        assert!((got / expected - 1.0).abs() < 0.01, "{}: {got} J/kg, Bernoulli {expected}", r.designation());
    }
}

/// Gibbs: `dh = T ds + v dp` along the bubble and the dew line, over steps of 2 % in pressure. Entropy that
/// was read by itself put liquid's `v dp` near vacuum at half to three times what it is.
#[test]
fn each_saturation_line_keeps_gibbs_relation() {
    let bubble = |s: &Saturation| {
        [s.bubble_temperature_k, s.liquid_enthalpy_j_kg, s.liquid_entropy_j_kg_k, s.liquid_density_kg_m3]
    };
    let dew = |s: &Saturation| {
        [s.dew_temperature_k, s.vapor_enthalpy_j_kg, s.vapor_entropy_j_kg_k, s.vapor_density_kg_m3]
    };
    for r in every() {
        let (low, high) = (r.lowest_pressure_pa(), r.highest_pressure_pa());
        let steps = ((high / low).ln() / 0.02) as i32;
        let at = |i: i32| r.saturation_at_pressure(low * (0.02 * f64::from(i)).exp()).unwrap();
        for i in 0..steps {
            let (from, to) = (at(i), at(i + 1));
            let misses = [gibbs_miss(&from, &to, bubble), gibbs_miss(&from, &to, dew)];
            let name = r.designation();
            assert!(misses[0] < 5e-3 && misses[1] < 2e-3, "{name} at {} Pa: {misses:?}", from.pressure_pa);
        }
    }
}

/// What `dh - T ds` of a line lacks of its `v dp`, as a share of it.
///
/// - `line`: temperature, enthalpy, entropy and density
fn gibbs_miss(from: &Saturation, to: &Saturation, line: impl Fn(&Saturation) -> [f64; 4]) -> f64 {
    let ([t0, h0, s0, d0], [t1, h1, s1, d1]) = (line(from), line(to));
    let flow_work = 0.5 * (1.0 / d0 + 1.0 / d1) * (to.pressure_pa - from.pressure_pa);
    ((h1 - h0 - 0.5 * (t0 + t1) * (s1 - s0)) / flow_work - 1.0).abs()
}

/// Liquid and vapour of a pure refrigerant have one Gibbs energy: `h_fg = T s_fg`. A table that was 33 J/kg
/// off let liquid lose 36 Pa to no speed at all.
#[test]
fn phases_of_a_pure_refrigerant_are_in_equilibrium() {
    for r in every().iter().filter(|r| r.composition() == "pure") {
        for pressure_pa in pressures(r) {
            let s = r.saturation_at_pressure(pressure_pa).unwrap();
            let heat = s.bubble_temperature_k * (s.vapor_entropy_j_kg_k - s.liquid_entropy_j_kg_k);
            let off = heat - s.latent_heat_j_kg();
            assert!(off.abs() < 2.0, "{} at {pressure_pa} Pa: {off} J/kg", r.designation());
        }
    }
}

#[test]
fn saturation_pressure_and_temperature_are_inverse() {
    for_every_isobar(|r, s, _| {
        for back in [r.bubble_pressure_pa(s.bubble_temperature_k), r.dew_pressure_pa(s.dew_temperature_k)] {
            // At the very ends a rounding may fall outside; there the error says so.
            if let Ok(back) = back {
                assert!(
                    (back / s.pressure_pa - 1.0).abs() < 1e-9,
                    "{}: {back} {}",
                    r.designation(),
                    s.pressure_pa
                );
            } else {
                assert!(s.pressure_pa == r.lowest_pressure_pa() || s.pressure_pa == r.highest_pressure_pa());
            }
        }
    });
}

#[test]
fn the_phase_is_told_by_bubble_and_dew_enthalpy() {
    for_every_isobar(|r, s, states| {
        for state in states {
            // Within a microjoule of the line either name will do.
            let expected = if state.enthalpy_j_kg < s.liquid_enthalpy_j_kg - 1e-6 {
                Phase::SubcooledLiquid
            } else if state.enthalpy_j_kg > s.vapor_enthalpy_j_kg + 1e-6 {
                Phase::SuperheatedVapor
            } else {
                Phase::TwoPhase
            };
            assert_eq!(state.phase(), expected, "{} at {} Pa: {state:?}", r.designation(), s.pressure_pa);
        }
    });
}

#[test]
fn viscosity_belongs_to_one_phase_and_is_a_fluids() {
    for_every_isobar(|r, _, states| {
        for state in states {
            match (state.phase(), state.viscosity_pa_s()) {
                (Phase::TwoPhase, None) => {}
                (Phase::SubcooledLiquid, Some(mu)) => {
                    assert!((2e-5..2e-2).contains(&mu), "{}: {mu}", r.designation())
                }
                (Phase::SuperheatedVapor, Some(mu)) => {
                    assert!((4e-6..4e-5).contains(&mu), "{}: {mu}", r.designation())
                }
                other => panic!("{}: {other:?}", r.designation()),
            }
        }
    });
}

#[test]
fn the_vapour_share_runs_from_none_to_all() {
    for_every_isobar(|r, s, states| {
        for pair in states.windows(2) {
            let (a, b) = (pair[0].vapor_mass_fraction(), pair[1].vapor_mass_fraction());
            assert!(
                b >= a && (0.0..=1.0).contains(&b),
                "{} at {} Pa: {pair:?}",
                r.designation(),
                s.pressure_pa
            );
        }
    });
}

#[test]
fn outside_the_range_is_an_error_that_names_it() {
    for r in every() {
        let (low, high) = (r.lowest_pressure_pa(), r.highest_pressure_pa());
        assert!(matches!(
            r.saturation_at_pressure(high * 1.0001),
            Err(FluidError::AboveRange { quantity: "pressure", .. })
        ));
        assert!(matches!(
            r.saturation_at_pressure(low * 0.9999),
            Err(FluidError::BelowRange { quantity: "pressure", .. })
        ));
        for bad in [0.0, -1e5, f64::NEG_INFINITY] {
            assert!(matches!(r.saturation_at_pressure(bad), Err(FluidError::BelowRange { .. })));
        }
        assert!(matches!(r.saturation_at_pressure(f64::INFINITY), Err(FluidError::AboveRange { .. })));
        assert!(matches!(
            r.bubble_pressure_pa(r.critical_temperature_k() + 1.0),
            Err(FluidError::AboveRange { .. })
        ));
        assert!(matches!(r.dew_pressure_pa(90.0), Err(FluidError::BelowRange { .. })));
        let middle = (low * high).sqrt();
        for question in [Refrigerant::state_ph, Refrigerant::state_ps, Refrigerant::state_pt] {
            assert!(matches!(question(&r, middle, 1e9), Err(FluidError::AboveRange { .. })));
            assert!(matches!(question(&r, middle, -1e9), Err(FluidError::BelowRange { .. })));
            assert!(matches!(
                question(&r, f64::NAN, 300.0),
                Err(FluidError::NotANumber { quantity: "pressure", .. })
            ));
            assert!(matches!(question(&r, middle, f64::NAN), Err(FluidError::NotANumber { .. })));
            assert!(
                question(&r, middle, f64::INFINITY).is_err()
                    && question(&r, middle, f64::NEG_INFINITY).is_err()
            );
        }
        for temperature_k in [f64::NAN, f64::INFINITY, -1.0] {
            assert!(
                r.bubble_pressure_pa(temperature_k).is_err() && r.dew_pressure_pa(temperature_k).is_err()
            );
        }
    }
}

#[test]
fn errors_are_whole_sentences() {
    let r = Refrigerant::load("R-744").unwrap();
    let said = r.bubble_pressure_pa(310.0).unwrap_err().to_string();
    assert!(said.contains("R-744") && said.contains("36.9 °C") && said.contains("critical"), "{said}");
    let said = r.saturation_at_pressure(4e5).unwrap_err().to_string();
    assert!(said.contains("triple point"), "{said}");
    let said = Refrigerant::load("R-410X").unwrap_err().to_string();
    assert_eq!(said, "unknown refrigerant \"R-410X\"; did you mean R-410A?");
}

proptest! {
    /// Any bit pattern, NaN and infinities included, and numbers near the range: an answer that is
    /// finite or an error, never a panic.
    #[test]
    fn no_number_panics_and_no_answer_is_not_a_number(
        index in 0..fluid::list().len(),
        wild_p in any::<f64>(), wild_x in any::<f64>(),
        share in 0.0f64..1.0, tame_x in -1e5f64..8e5, wild in any::<bool>(),
    ) {
        let listing = fluid::list().nth(index).unwrap();
        let r = Refrigerant::load(listing.designation).unwrap();
        let (low, high) = (r.lowest_pressure_pa(), r.highest_pressure_pa());
        let p = if wild { wild_p } else { low * (high / low).powf(share) };
        for x in [wild_x, tame_x, tame_x / 300.0] {
            for question in [Refrigerant::state_ph, Refrigerant::state_ps, Refrigerant::state_pt] {
                if let Ok(state) = question(&r, p, x) {
                    let numbers = [state.pressure_pa, state.temperature_k, state.density_kg_m3, state.enthalpy_j_kg,
                        state.entropy_j_kg_k, state.quality, state.vapor_mass_fraction()];
                    prop_assert!(numbers.iter().all(|n| n.is_finite()), "{}: {state:?}", listing.designation);
                    prop_assert!(state.density_kg_m3 > 0.0 && state.temperature_k > 0.0);
                    prop_assert!(state.viscosity_pa_s().is_none_or(|mu| mu > 0.0));
                }
            }
            for answer in [r.bubble_pressure_pa(x), r.dew_pressure_pa(x)] {
                prop_assert!(answer.is_err() || answer.is_ok_and(|p| p > 0.0));
            }
        }
    }

    /// A name is any text.
    #[test]
    fn no_name_panics(name in ".*") {
        if let Err(error) = Refrigerant::load(&name) {
            prop_assert!(error.to_string().contains("did you mean"));
        }
    }
}
