//! Prints nanoseconds per property look-up. The aim is 200 (release build): `cargo bench --bench lookup`.

use std::hint::black_box;
use std::time::Instant;

use narrows::fluid::{FluidError, Refrigerant};

const CALLS: usize = 1_000_000;

/// Nanoseconds per call of `f` on the numbers in turn; best of five rounds.
fn time(
    numbers: &[(f64, f64)],
    mut f: impl FnMut(f64, f64) -> Result<f64, FluidError>,
) -> Result<f64, FluidError> {
    let mut best = f64::INFINITY;
    for _ in 0..5 {
        let start = Instant::now();
        for i in 0..CALLS {
            let (a, b) = numbers[i % numbers.len()];
            black_box(f(black_box(a), black_box(b))?);
        }
        best = best.min(start.elapsed().as_secs_f64() * 1e9 / CALLS as f64);
    }
    Ok(best)
}

/// Pressures over the table with a quality each, spread by the golden ratio.
fn points(r: &Refrigerant, from: f64, to: f64) -> Vec<(f64, f64)> {
    let (low, high) = (1e5, 0.8 * r.highest_pressure_pa());
    let share = |i: usize, step: f64| (i as f64 * step).fract();
    (0..1000)
        .map(|i| (low * (high / low).powf(share(i, 0.618_034)), from + (to - from) * share(i, 0.754_878)))
        .collect()
}

fn line(name: &str, what: &str, nanoseconds: f64) {
    println!("{name:8} {what:44} {nanoseconds:7.1} ns");
}

fn phase(r: &Refrigerant, what: &str, from: f64, to: f64) -> Result<(), FluidError> {
    let name = r.designation();
    let (mut by_enthalpy, mut by_entropy) = (Vec::new(), Vec::new());
    for (p, quality) in points(r, from, to) {
        let s = r.saturation_at_pressure(p)?;
        let state = r.state_ph_at(&s, s.liquid_enthalpy_j_kg + quality * s.latent_heat_j_kg())?;
        by_enthalpy.push((p, state.enthalpy_j_kg));
        by_entropy.push((p, state.entropy_j_kg_k));
    }
    line(name, &format!("(p, h) {what}"), time(&by_enthalpy, |p, h| Ok(r.state_ph(p, h)?.density_kg_m3))?);
    line(name, &format!("(p, s) {what}"), time(&by_entropy, |p, s| Ok(r.state_ps(p, s)?.density_kg_m3))?);
    let at = r.saturation_at_pressure(4e5)?;
    let span = (at.liquid_enthalpy_j_kg, at.latent_heat_j_kg());
    let known: Vec<_> = points(r, from, to).iter().map(|(_, q)| (span.0 + q * span.1, 0.0)).collect();
    line(
        name,
        &format!("(p, h) {what}, saturation known"),
        time(&known, |h, _| Ok(r.state_ph_at(&at, h)?.density_kg_m3))?,
    );
    Ok(())
}

fn main() -> Result<(), FluidError> {
    for name in ["R-410A", "R-22", "R-407C"] {
        let start = Instant::now();
        let r = Refrigerant::load(name)?;
        println!("{name:8} {:44} {:7.0} µs", "load", start.elapsed().as_secs_f64() * 1e6);
        let all = points(&r, 0.0, 1.0);
        line(
            name,
            "saturation at p",
            time(&all, |p, _| Ok(r.saturation_at_pressure(p)?.vapor_density_kg_m3))?,
        );
        line(name, "bubble pressure at T", time(&all, |_, x| r.bubble_pressure_pa(250.0 + 70.0 * x))?);
        phase(&r, "liquid", -0.2, 0.0)?;
        phase(&r, "two-phase", 0.0, 1.0)?;
        phase(&r, "vapour", 1.0, 1.3)?;
    }
    Ok(())
}
