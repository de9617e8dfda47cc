//! The plates of the kit in hand: only what is computed.

use narrows::job::OperatingPoint;
use narrows::kit::Port;
use narrows::power::StartOutcome;

use super::Scene;
use super::scale::number_and_unit;
use crate::ui::symbols::Mark;
use crate::ui::widgets::plate::Plate;

/// Rate, machine inlet, volts running, volts starting.
pub fn plates(scene: &Scene) -> Vec<Plate> {
    let hand = scene.hand();
    let answer = scene.session.answer().and_then(|a| a.kits.get(hand)).map(|k| &k.point);
    let stale = scene.session.is_stale();
    let mut plates = match answer {
        Some(Ok(point)) => solved(scene, point),
        Some(Err(why)) => {
            let instead = Some((Mark::Stop, why.clone()));
            vec![Plate { title: "Rate now".to_owned(), instead, ..Plate::default() }]
        }
        None => vec![Plate { title: "Rate now".to_owned(), aside: "solving".to_owned(), ..Plate::default() }],
    };
    for plate in &mut plates {
        plate.stale = stale;
    }
    plates
}

fn solved(scene: &Scene, point: &OperatingPoint) -> Vec<Plate> {
    let before = scene.session.before().and_then(|b| b.kits.get(scene.hand())?.point.as_ref().ok());
    vec![
        rate(scene, point, before),
        inlet(scene, point, before),
        running(point, before),
        starting(point, before),
    ]
}

fn plate(title: &str, aside: String, text: &str, before: Option<String>) -> Plate {
    let (numeral, unit) = number_and_unit(text);
    let was = before.map(|b| number_and_unit(&b).0).filter(|b| *b != numeral);
    let changed = was.is_some();
    let was = was.map(|b| format!("was {b}")).unwrap_or_default();
    Plate { title: title.to_owned(), aside, numeral, unit, was, changed, ..Plate::default() }
}

fn rate(scene: &Scene, point: &OperatingPoint, before: Option<&OperatingPoint>) -> Plate {
    let port = scene.kit().and_then(|k| k.port).unwrap_or(scene.document().source.port);
    let what = match port {
        Port::Liquid => "Rate now, liquid",
        Port::Vapour => "Rate now, vapour",
        Port::Both => "Rate now, both",
    };
    let aside = scene.kit().map(|k| format!("kit {}", k.name)).unwrap_or_default();
    let text = scene.units().rate(point.mass_flow);
    plate(what, aside, &text, before.map(|b| scene.units().rate(b.mass_flow)))
}

fn inlet(scene: &Scene, point: &OperatingPoint, before: Option<&OperatingPoint>) -> Plate {
    let aside = format!("system {}", scene.pressure_text(point.system_pressure));
    let text = scene.pressure_text(point.machine_inlet_pressure);
    let before = before.map(|b| scene.pressure_text(b.machine_inlet_pressure));
    plate("Machine inlet", aside, &text, before)
}

fn percent(ratio: f64) -> String {
    format!("{:.0} % of nameplate", 100.0 * ratio)
}

fn running(point: &OperatingPoint, before: Option<&OperatingPoint>) -> Plate {
    let units = narrows::units::UnitSet::UsTrade;
    let title = "Volts running";
    match point.power.running.point() {
        Some(running) => {
            let before = before.and_then(|b| b.power.running.point().map(|r| units.voltage(r.voltage)));
            let aside = percent(running.voltage_ratio);
            let mut plate = plate(title, aside, &units.voltage(running.voltage), before);
            // NEMA MG 1: rated voltage ±10 %.
            if !(0.9..=1.1).contains(&running.voltage_ratio) {
                plate.mark = Some(Mark::Warning);
            }
            plate
        }
        None => {
            let why = match &point.power.running {
                narrows::power::Running::CannotHold(why) => why.to_string(),
                narrows::power::Running::Holds(_) => String::new(),
            };
            Plate { title: title.to_owned(), instead: Some((Mark::Stop, why)), ..Plate::default() }
        }
    }
}

fn starting(point: &OperatingPoint, before: Option<&OperatingPoint>) -> Plate {
    let units = narrows::units::UnitSet::UsTrade;
    let start = &point.power.starting;
    let before = before.map(|b| units.voltage(b.power.starting.voltage));
    let text = units.voltage(start.voltage);
    let mut plate = plate("Volts starting", percent(start.voltage_ratio), &text, before);
    plate.mark = match start.outcome {
        StartOutcome::Starts => None,
        StartOutcome::MayNotStart(_) => Some(Mark::Warning),
        StartOutcome::WillNotStart(_) => Some(Mark::Stop),
    };
    plate
}
