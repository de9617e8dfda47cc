//! The plates of the kit in hand: only what is computed.

use narrows::compare::Figure;
use narrows::job::OperatingPoint;
use narrows::kit::Port;
use narrows::power::{PowerPoint, Running, StartOutcome};

use uom::si::electric_potential::volt;
use uom::si::f64::ElectricPotential;

use super::scale::{number_and_unit, sentence};
use super::{Scene, compared, job_plates};
use crate::ui::answer::{Answer, KitAnswer};
use crate::ui::symbols::Mark;
use crate::ui::widgets::plate::{About, Plate};

/// Rate, machine inlet, volts running, volts starting.
pub fn plates(scene: &Scene) -> Vec<Plate> {
    let now = scene.answer().and_then(|a| a.kits.get(scene.hand()));
    let before = scene.before().and_then(|a| a.kits.get(scene.hand()));
    let mut plates = match now {
        None => vec![titled("Rate now")],
        Some(now) => {
            let mut plates = match now.point_or_why(scene.units()) {
                Ok(point) => {
                    let mut plates = vec![rate(scene, point, before.and_then(KitAnswer::point))];
                    // Five large numerals at most: the inlet gives way to the job's two.
                    match job_plates::job_plates(scene) {
                        Some(two) => plates.extend(two),
                        None => plates.push(inlet(scene, point, before.and_then(KitAnswer::point))),
                    }
                    plates
                }
                Err(why) => {
                    // The octagon is for what is withheld, not for what cannot be answered.
                    let mark = if why.withheld { Mark::Stop } else { Mark::Note };
                    vec![Plate { instead: Some((mark, sentence(&why.text))), ..titled("Rate now") }]
                }
            };
            if let Some(power) = now.power() {
                let before = before.and_then(KitAnswer::power);
                plates.push(banded(scene, Figure::RunningVoltage, running(power, before)));
                plates.push(banded(scene, Figure::StartingVoltage, starting(power, before)));
            }
            plates
        }
    };
    let stale = scene.session.is_stale();
    for plate in &mut plates {
        plate.stale = stale;
    }
    plates
}

/// One of the plates by itself, if it has an answer; `untried` as it was before what is tried.
pub fn one(scene: &Scene, about: About, untried: bool) -> Option<Plate> {
    let of = |all: Option<&'_ Answer>| all.and_then(|a| a.kits.get(scene.hand()).cloned());
    let (answer, before) = (of(scene.answer()), of(scene.before()));
    let back = untried && scene.session.tried().is_some();
    let (now, was) = if back { (before?, None) } else { (answer?, before) };
    let was = was.as_ref();
    let plate = match about {
        About::Rate => rate(scene, now.point()?, was.and_then(KitAnswer::point)),
        About::Inlet => inlet(scene, now.point()?, was.and_then(KitAnswer::point)),
        About::Running => running(now.power()?, was.and_then(KitAnswer::power)),
        About::Starting => starting(now.power()?, was.and_then(KitAnswer::power)),
        _ => return None,
    };
    Some(Plate { stale: scene.session.is_stale(), ..plate })
}

fn titled(title: &str) -> Plate {
    Plate { title: title.to_owned(), ..Plate::default() }
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
    let kit = || scene.kit().map(|k| format!("kit {}", k.name)).unwrap_or_default();
    let aside = compared::band_text(scene, scene.hand(), Figure::Rate).unwrap_or_else(kit);
    let text = scene.units().rate(point.mass_flow);
    let mut plate = plate(what, aside, &text, before.map(|b| scene.units().rate(b.mass_flow)));
    let machines = point.machines.count;
    if machines > 1 && plate.was.is_empty() {
        plate.was = format!("{machines} machines");
    }
    Plate { about: About::Rate, ..plate }
}

fn inlet(scene: &Scene, point: &OperatingPoint, before: Option<&OperatingPoint>) -> Plate {
    let aside = format!("system {}", scene.pressure_text(point.system_pressure));
    let text = scene.pressure_text(point.machine_inlet_pressure);
    let before = before.map(|b| scene.pressure_text(b.machine_inlet_pressure));
    Plate { about: About::Inlet, ..plate("Machine inlet", aside, &text, before) }
}

/// With its band beside what stands aside already.
fn banded(scene: &Scene, figure: Figure, plate: Plate) -> Plate {
    match compared::band_text(scene, scene.hand(), figure) {
        Some(band) => Plate { aside: format!("{}, {band}", plate.aside), ..plate },
        None => plate,
    }
}

/// Whole volts, as on a meter.
fn volts(v: ElectricPotential) -> String {
    format!("{:.0} V", v.get::<volt>())
}

fn percent(ratio: f64) -> String {
    format!("{:.0} %", 100.0 * ratio)
}

fn running(power: &PowerPoint, before: Option<&PowerPoint>) -> Plate {
    match &power.running {
        Running::Holds(now) => {
            let before = before.and_then(|b| b.running.point().map(|r| volts(r.voltage)));
            let aside = percent(now.voltage_ratio);
            let mut plate = plate("Volts running", aside, &volts(now.voltage), before);
            plate.about = About::Running;
            // NEMA MG 1: rated voltage ±10 %.
            if !(0.9..=1.1).contains(&now.voltage_ratio) {
                plate.mark = Some(Mark::Warning);
            }
            plate
        }
        Running::CannotHold(why) => {
            Plate { instead: Some((Mark::Stop, sentence(&why.to_string()))), ..titled("Volts running") }
        }
    }
}

fn starting(power: &PowerPoint, before: Option<&PowerPoint>) -> Plate {
    let start = &power.starting;
    let before = before.map(|b| volts(b.starting.voltage));
    let text = volts(start.voltage);
    let mut plate = plate("Volts starting", percent(start.voltage_ratio), &text, before);
    plate.about = About::Starting;
    plate.mark = match start.outcome {
        StartOutcome::Starts => None,
        StartOutcome::MayNotStart(_) => Some(Mark::Warning),
        StartOutcome::WillNotStart(_) => Some(Mark::Stop),
    };
    plate
}
