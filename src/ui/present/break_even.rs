//! The charge above which push-pull repays its hose change: in words, and as two lines.

use narrows::compare::BreakEvenBand;
use narrows::job::over_time::{BreakEven, RunLimits};
use narrows::report::{break_even_text, charges_tried};
use narrows::units::Measure;
use uom::si::f64::Mass;

use super::{Scene, clock, quantity};

/// What is shown of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shown {
    /// The answer.
    pub sentence: String,
    /// How certain it is.
    pub certainty: String,
    /// Charge and minutes of liquid then vapour, of push-pull.
    pub lines: [Vec<[f64; 2]>; 2],
    /// Low and high of the charge.
    pub band: Option<(f64, f64)>,
    /// Unit of charges.
    pub unit: &'static str,
}

/// The break-even of the kit in hand, or why there is none.
pub fn shown(scene: &Scene) -> Result<Shown, String> {
    clock::jobs(scene)?;
    if scene.document().source.charge.is_none() {
        return Err("No charge is given, so there is no liquid to push.".to_owned());
    }
    let found = scene.study().and_then(|study| study.break_evens.iter().find(|one| one.kit == scene.hand()));
    let found = found.ok_or_else(|| "Not looked for yet.".to_owned())?;
    let unit = quantity::mass(scene.units());
    let mut shown = Shown {
        sentence: break_even_text(&found.found, scene.units(), scene.ambient_pressure()),
        unit: unit.name,
        ..Shown::default()
    };
    if let Ok(answer) = &found.found {
        let (charge, minutes) = (|mass: Mass| mass.si() * unit.per_si, clock::minutes);
        let longest = RunLimits::default().time;
        // A method that does not get there has no time to draw.
        let line = |time: fn(&narrows::job::over_time::Compared) -> uom::si::f64::Time| {
            let tried = charges_tried(answer).iter().filter(|one| time(one) < longest);
            tried.map(|one| [charge(one.charge), minutes(time(one))]).collect::<Vec<_>>()
        };
        shown.lines = [line(|one| one.first), line(|one| one.second)];
    }
    if let Some(band) = &found.band {
        shown.certainty = certainty(scene, band, matches!(found.found, Ok(BreakEven::At { .. })));
        shown.band = band.charge.map(|charge| (charge.low * unit.per_si, charge.high * unit.per_si));
    }
    Ok(shown)
}

fn certainty(scene: &Scene, band: &BreakEvenBand, is_at: bool) -> String {
    let mass = |kg: f64| scene.units().mass(Mass::from_si(kg));
    let mut said = Vec::new();
    if let Some(charge) = band.charge.filter(|_| is_at) {
        said.push(format!(
            "10 to 90 % of {} draws: {} to {}.",
            band.draws,
            mass(charge.low),
            mass(charge.high)
        ));
    }
    for (count, what) in [(band.never, "no faster at any charge"), (band.always, "faster at every charge")] {
        if count > 0 {
            said.push(format!("In {count} of {} draws push-pull is {what}.", band.draws));
        }
    }
    said.join(" ")
}
