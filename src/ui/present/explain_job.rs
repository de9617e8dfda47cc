//! Where the job's two numbers come from: time to level and stop weight.

use super::explain::Explanation;
use super::scale::pretty;
use super::{Scene, clock, cylinders, quantity};

fn pair(name: &str, value: String) -> (String, String) {
    (name.to_owned(), value)
}

/// The time to level.
pub fn level(scene: &Scene) -> Option<Explanation> {
    let solved = clock::solved(scene, scene.hand()).ok()?;
    let job = solved.shown().ok()?;
    let source = &scene.document().source;
    let typed = |text: Option<&str>| text.map_or("not given".to_owned(), pretty);
    let mut inputs = vec![
        pair("Charge", typed(source.charge.as_ref().map(|c| c.as_typed()))),
        pair("Volume", typed(source.volume.as_ref().map(|v| v.as_typed()))),
        pair("Heat from the air", typed(source.heat_gain.as_ref().map(|h| h.as_typed()))),
        pair("Level", scene.pressure_text(solved.setup.target.level)),
    ];
    for phase in &job.phases {
        let took = clock::minutes(phase.end - phase.start);
        inputs.push(pair(narrows::report::phase_name(phase.kind), scene.time_text(took)));
    }
    let band = clock::band(scene, scene.hand());
    Some(Explanation {
        formula:
            "Mass and energy of system and cylinder followed in time. At every moment the rate is where \
                  path and machine agree; swaps, hose changes and waits are added."
                .to_owned(),
        inputs,
        source: "The operating point along the way; vessels in equilibrium, or in two zones for push-pull. \
                 Pauses: common practice, no source."
            .to_owned(),
        band: match band {
            Some((low, high)) => {
                format!(
                    "{} to {}: with the low and with the high charge.",
                    scene.time_text(low),
                    scene.time_text(high)
                )
            }
            None => "No band: the charge has none.".to_owned(),
        },
    })
}

/// The stop weight.
pub fn stop(scene: &Scene) -> Option<Explanation> {
    let limits = cylinders::limits(scene).ok()?;
    let (stock, answer) = (limits.ask.stock.first()?, limits.answer.cylinders.first()?);
    let weight = |m| quantity::scale_text(scene.units(), m);
    let mut inputs = Vec::new();
    for rule in &answer.limits.rules {
        if let Ok(net) = &rule.limit {
            inputs.push(pair(&rule.name, weight(*net)));
        }
    }
    inputs.push(pair("Tare", stock.tare.map_or("not given".to_owned(), weight)));
    inputs.push(pair("Already in it", weight(stock.contents)));
    let (kind, _) = answer.lowest?;
    let source = answer.limits.rule(kind).map(|rule| rule.source.clone()).unwrap_or_default();
    Some(Explanation {
        formula: "Tare and the lowest of the rules' limits, less what may siphon over after push-pull."
            .to_owned(),
        inputs,
        source,
        band: "No band: a limit is a limit. If a marking says less, the marking wins.".to_owned(),
    })
}
