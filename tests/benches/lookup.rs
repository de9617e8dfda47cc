//! Time of one property look-up; at most 200 ns. `cargo bench --no-default-features --bench lookup`.

use std::fmt;

use divan::{Bencher, black_box};
use narrows::fluid::Refrigerant;

fn main() {
    divan::main();
}

/// A refrigerant and the qualities its states are spread over.
#[derive(Clone, Copy)]
struct Case {
    refrigerant: &'static str,
    phase: &'static str,
    qualities: (f64, f64),
}

impl fmt::Display for Case {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}, {}", self.refrigerant, self.phase)
    }
}

const REFRIGERANTS: [&str; 3] = ["R-22", "R-410A", "R-407C"];
const PHASES: [(&str, (f64, f64)); 3] =
    [("liquid", (-0.2, 0.0)), ("two phases", (0.0, 1.0)), ("vapour", (1.0, 1.3))];

fn cases() -> impl Iterator<Item = Case> {
    REFRIGERANTS.into_iter().flat_map(|refrigerant| {
        PHASES.into_iter().map(move |(phase, qualities)| Case { refrigerant, phase, qualities })
    })
}

const POINTS: usize = 1000;

/// Pressures over the table with a quality each, spread by the golden ratio.
fn spread(r: &Refrigerant, (from, to): (f64, f64)) -> Vec<(f64, f64)> {
    let (low, high) = (1e5, 0.8 * r.highest_pressure_pa());
    let share = |i: usize, step: f64| (i as f64 * step).fract();
    (0..POINTS)
        .map(|i| (low * (high / low).powf(share(i, 0.618_034)), from + (to - from) * share(i, 0.754_878)))
        .collect()
}

/// Times a look-up on the numbers in turn.
fn look_up(bencher: Bencher, numbers: Vec<(f64, f64)>, look_up: impl Fn(f64, f64) -> bool + Sync) {
    let mut turn = numbers.iter().cycle();
    bencher.with_inputs(|| *turn.next().expect("numbers")).bench_local_values(|(a, b)| look_up(a, b));
}

#[divan::bench(args = REFRIGERANTS)]
fn saturation_at_pressure(bencher: Bencher, name: &str) {
    let r = Refrigerant::load(name).expect("a refrigerant");
    look_up(bencher, spread(&r, (0.0, 1.0)), |p, _| black_box(r.saturation_at_pressure(p)).is_ok());
}

#[divan::bench(args = REFRIGERANTS)]
fn bubble_pressure(bencher: Bencher, name: &str) {
    let r = Refrigerant::load(name).expect("a refrigerant");
    look_up(bencher, spread(&r, (250.0, 320.0)), |_, k| black_box(r.bubble_pressure_pa(k)).is_ok());
}

#[divan::bench(args = cases())]
fn pressure_and_enthalpy(bencher: Bencher, case: &Case) {
    let r = Refrigerant::load(case.refrigerant).expect("a refrigerant");
    let numbers = spread(&r, case.qualities).into_iter().map(|(p, quality)| {
        let s = r.saturation_at_pressure(p).expect("in range");
        (p, s.liquid_enthalpy_j_kg + quality * s.latent_heat_j_kg())
    });
    look_up(bencher, numbers.collect(), |p, h| black_box(r.state_ph(p, h)).is_ok());
}

#[divan::bench(args = cases())]
fn pressure_and_entropy(bencher: Bencher, case: &Case) {
    let r = Refrigerant::load(case.refrigerant).expect("a refrigerant");
    let numbers = spread(&r, case.qualities).into_iter().map(|(p, quality)| {
        let s = r.saturation_at_pressure(p).expect("in range");
        let h = s.liquid_enthalpy_j_kg + quality * s.latent_heat_j_kg();
        (p, r.state_ph_at(&s, h).expect("in range").entropy_j_kg_k)
    });
    look_up(bencher, numbers.collect(), |p, s| black_box(r.state_ps(p, s)).is_ok());
}

/// Everything at one pressure shares its saturation.
#[divan::bench(args = cases())]
fn enthalpy_on_a_known_isobar(bencher: Bencher, case: &Case) {
    let r = Refrigerant::load(case.refrigerant).expect("a refrigerant");
    let at = r.saturation_at_pressure(4e5).expect("in range");
    let enthalpy = |quality: f64| at.liquid_enthalpy_j_kg + quality * at.latent_heat_j_kg();
    let numbers = spread(&r, case.qualities).into_iter().map(|(_, quality)| (enthalpy(quality), 0.0));
    look_up(bencher, numbers.collect(), |h, _| black_box(r.state_ph_at(&at, h)).is_ok());
}
