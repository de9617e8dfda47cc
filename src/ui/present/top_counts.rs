//! What counts most in the kit in hand, for the strip: the real changes that bring most rate.

use narrows::compare::{Figure, Verdict};
use narrows::report::Ranked;
use narrows::units::Measure;
use uom::si::f64::MassRate;

use super::scale::sentence;
use super::{Scene, counts, quantity};

/// How many are shown.
const SHOWN: usize = 3;

/// One change.
#[derive(Debug, Clone, PartialEq)]
pub struct TopChange {
    /// The thing that is changed.
    pub name: String,
    /// What is done to it.
    pub words: String,
    /// The rate it brings, in words.
    pub text: String,
    /// The same over the largest shown.
    pub ratio: f32,
    /// Low and high over the largest shown, once drawn.
    pub band: Option<(f32, f32)>,
    /// The band holds zero.
    pub is_unsure: bool,
}

/// The heading's unit and the changes; nothing while none is known or none helps.
pub fn top_changes(scene: &Scene) -> Option<(String, Vec<TopChange>)> {
    let ranked = counts::ranked(scene).ok().filter(|ranked| !ranked.is_withheld())?;
    let mut gains: Vec<(usize, f64)> = ranked
        .counts
        .rows
        .iter()
        .enumerate()
        .filter_map(|(at, row)| {
            let gain = ranked.counts.gain(&row.better.as_ref()?.headline).rate_kg_s?;
            (gain > 0.0).then_some((at, gain))
        })
        .collect();
    gains.sort_by(|a, b| b.1.total_cmp(&a.1));
    gains.truncate(SHOWN);
    let largest = gains.first()?.1;
    let worth_naming = gains.into_iter().filter(|(_, gain)| *gain > 1e-3 * largest);
    let changes = worth_naming.filter_map(|(at, gain)| change(scene, ranked, at, gain, largest)).collect();
    Some((format!("gain in {}", quantity::rate(scene.units()).name), changes))
}

fn change(scene: &Scene, ranked: &Ranked, at: usize, gain: f64, largest: f64) -> Option<TopChange> {
    let row = ranked.counts.rows.get(at)?;
    let drawn = ranked.drawn(&row.id, Figure::Rate, true);
    let share = |si: f64| (si / largest) as f32;
    let is_twin = ranked.counts.rows.iter().filter(|other| other.name == row.name).count() > 1;
    Some(TopChange {
        // Two hoses are told apart by their sizes.
        name: if is_twin { row.words.clone() } else { row.name.clone() },
        words: sentence(&row.better.as_ref()?.words),
        text: format!("+{}", bare(scene, gain)),
        ratio: share(gain),
        band: drawn.and_then(|d| d.band(Figure::Rate)).map(|band| (share(band.low), share(band.high))),
        is_unsure: drawn.is_some_and(|d| d.verdict(Figure::Rate) == Verdict::TooClose),
    })
}

/// A rate without its unit: the heading has it.
fn bare(scene: &Scene, rate_kg_s: f64) -> String {
    let text = scene.units().rate(MassRate::from_si(rate_kg_s));
    text.split(' ').next().unwrap_or_default().to_owned()
}
