//! The voltage stairs of the kit in hand.

use narrows::kit::Supply;
use narrows::power::{Element, ElementKind, Grade, LEAST_VOLTAGE_RATIO, PowerPoint};
use narrows::units::WireSize;
use uom::si::electric_potential::volt;
use uom::si::f64::ElectricPotential;
use uom::si::power::watt;

use super::Scene;
use super::scale::{pretty, sentence};
use crate::ui::diagram::volts::{Volts, Wire};
use crate::ui::symbols::{Mark, Symbol};
use crate::ui::view::Selected;

/// The model of the stairs; without an answer only the parts are named.
pub fn volts(scene: &Scene) -> Volts {
    let document = scene.document();
    let point = scene.power(scene.hand());
    let machine = scene.kit().and_then(|k| k.machine.as_ref()).unwrap_or(&document.machine);
    let mut volts = Volts { stale: scene.session.is_stale(), ..Volts::default() };
    let supply = &document.supply;
    let count = cords(scene).len();
    let mut kinds = vec![ElementKind::Supply, ElementKind::Branch, ElementKind::Receptacle];
    kinds.extend((0..count).map(ElementKind::Cord));
    let (mut running, mut starting) = match point {
        Some(p) => (Some(p.open_circuit), Some(p.open_circuit)),
        None => (None, None),
    };
    for kind in kinds {
        if kind == ElementKind::Branch && supply.branch.is_none() {
            continue;
        }
        let element = point.and_then(|p| p.elements.iter().find(|e| e.kind == kind));
        volts.wires.push(wire(scene, kind, supply, element, (running, starting)));
        if let Some(element) = element {
            running = element.running_outlet;
            starting = Some(element.starting_outlet);
        }
    }
    volts.selected = selected(scene, &volts.wires);
    let rated = machine.motor.rated_voltage.si();
    volts.references = vec![
        (rated, format!("nameplate {rated:.0}")),
        (LEAST_VOLTAGE_RATIO * rated, "\u{2212}10 %".to_owned()),
    ];
    volts.motor_detail = format!("{}, {}", machine.motor.rated_voltage, machine.motor.rated_current);
    volts.motor_words = format!("Motor, {}", volts.motor_detail);
    if let Some(point) = point {
        say(point, &mut volts);
    }
    volts.tried = scene.session.tried().is_some();
    volts.ghost = ghost(scene, point);
    volts
}

/// The volts at the motor before the last change, if they were others.
fn ghost(scene: &Scene, now: Option<&PowerPoint>) -> Option<(f64, f64)> {
    let at_motor = |power: &PowerPoint| {
        Some((power.running.point()?.voltage.get::<volt>(), power.starting.voltage.get::<volt>()))
    };
    let before = at_motor(scene.session.before()?.kits.get(scene.hand())?.power()?)?;
    let now = at_motor(now?)?;
    let differs = |a: f64, b: f64| (a - b).abs() > 0.05;
    (differs(before.0, now.0) || differs(before.1, now.1)).then_some(before)
}

/// The cords of the kit in hand.
pub fn cords<'a>(scene: &Scene<'a>) -> &'a [narrows::kit::Cord] {
    let document = scene.document();
    scene.kit().map_or(&document.supply.cords, |kit| document.cords_of(kit))
}

fn say(point: &PowerPoint, volts: &mut Volts) {
    let words = |v: ElectricPotential| format!("{:.0} V", v.get::<volt>());
    volts.running = point.running.point().map(|p| (p.voltage.get::<volt>(), words(p.voltage)));
    let start = point.starting.voltage;
    volts.starting = Some((start.get::<volt>(), words(start)));
    let heat: f64 = point
        .elements
        .iter()
        .filter(|e| matches!(e.kind, ElementKind::Cord(_)))
        .filter_map(|e| e.heat.map(|h| h.get::<watt>()))
        .sum();
    if heat >= 0.5 {
        volts.heat = format!("{heat:.0} W of heat");
    }
    volts.verdicts = point
        .verdicts
        .iter()
        .map(|v| {
            let (mark, word) = graded(v.grade);
            (mark, word.to_owned(), format!("{}.", sentence(&v.finding.to_string())))
        })
        .collect();
}

/// Mark and word of a grade.
pub fn graded(grade: Grade) -> (Mark, &'static str) {
    (Mark::from(grade), narrows::report::grade_word(grade))
}

fn wire(
    scene: &Scene,
    kind: ElementKind,
    supply: &Supply,
    element: Option<&Element>,
    entering: (Option<ElectricPotential>, Option<ElectricPotential>),
) -> Wire {
    let (symbol, name, detail) = labels(scene, kind, supply);
    let v = |p: ElectricPotential| p.get::<volt>();
    let running = element.and_then(|e| Some((v(entering.0?), v(e.running_outlet?))));
    let starting = element.and_then(|e| Some((v(entering.1?), v(e.starting_outlet))));
    let loss = element.map(|element| loss_text(scene, element)).unwrap_or_default();
    let words = format!("{name}, {detail}{}{loss}", if loss.is_empty() { "" } else { ", loses " });
    let lost = |pair: Option<(f64, f64)>| pair.is_some_and(|(a, b)| a - b > 0.05);
    let slope = lost(running) || lost(starting);
    let loss_short = loss.replace(" V, start ", ", ");
    Wire { symbol, name, detail, loss, loss_short, running, starting, slope, words }
}

fn loss_text(scene: &Scene, element: &Element) -> String {
    let start = element.starting_drop.get::<volt>();
    let running = element.running_drop.map(|d| d.get::<volt>());
    if start < 0.05 && running.is_none_or(|r| r < 0.05) {
        return String::new();
    }
    let tenths = |volts: f64| scene.units().decimals(volts, 1);
    match running {
        Some(running) => format!("{} V, start {} V", tenths(running), tenths(start)),
        None => format!("start {} V", tenths(start)),
    }
}

fn labels(scene: &Scene, kind: ElementKind, supply: &Supply) -> (Symbol, String, String) {
    let voltage = supply.voltage.as_typed();
    match kind {
        ElementKind::Supply => match &supply.generator {
            Some(generator) => {
                (Symbol::Generator, "Generator".to_owned(), format!("{voltage}, {}", generator.continuous))
            }
            None => {
                let breaker = supply.branch.as_ref().and_then(|b| b.breaker.as_ref());
                let breaker = breaker.map(|b| format!(", {b}")).unwrap_or_default();
                (Symbol::Panel, "Panel".to_owned(), format!("{voltage}{breaker}"))
            }
        },
        ElementKind::Branch => {
            let branch = supply.branch.as_ref();
            let detail = branch.map(|b| pretty(&format!("{}, {}", b.gauge, b.length)));
            (Symbol::Branch, "Branch circuit".to_owned(), detail.unwrap_or_default())
        }
        ElementKind::Receptacle => (Symbol::Receptacle, "Receptacle".to_owned(), String::new()),
        ElementKind::Cord(i) => {
            let cord = cords(scene).get(i);
            let detail = cord.map(|c| pretty(&format!("{}, {}", c.gauge, c.length)));
            let symbol = cord.map_or(Symbol::Cord { area_mm2: 1.3 }, cord_symbol);
            (symbol, "Extension cord".to_owned(), detail.unwrap_or_default())
        }
    }
}

/// The drawing of a cord.
pub fn cord_symbol(cord: &narrows::kit::Cord) -> Symbol {
    match cord.lay {
        narrows::kit::Lay::Coiled => Symbol::Reel,
        narrows::kit::Lay::Straight => Symbol::Cord { area_mm2: area_mm2(cord.gauge.size()) },
    }
}

/// Cross-section for the drawing's line width only; AWG by ASTM B258: `d = 0.127 mm · 92^((36 − n)/39)`.
fn area_mm2(size: WireSize) -> f32 {
    match size {
        WireSize::SquareMillimetres(area) => area as f32,
        WireSize::Awg(n) => {
            let d_mm = 0.127 * 92f32.powf((36.0 - n as f32) / 39.0);
            std::f32::consts::FRAC_PI_4 * d_mm * d_mm
        }
    }
}

/// What the wires stand for, in their order.
pub fn selected_at(wires: &[Wire], i: usize) -> Option<Selected> {
    let Some(wire) = wires.get(i) else { return Some(Selected::Motor) };
    match wire.symbol {
        Symbol::Panel | Symbol::Generator => Some(Selected::Supply),
        Symbol::Branch => Some(Selected::Branch),
        Symbol::Cord { .. } | Symbol::Reel => {
            let before = wires.iter().take(i);
            let cords = before.filter(|w| matches!(w.symbol, Symbol::Cord { .. } | Symbol::Reel));
            Some(Selected::Cord(cords.count()))
        }
        _ => Some(Selected::Supply),
    }
}

fn selected(scene: &Scene, wires: &[Wire]) -> Option<usize> {
    let wanted = scene.session.view.selected?;
    (0..=wires.len())
        .filter(|i| wires.get(*i).is_none_or(|w| w.symbol != Symbol::Receptacle))
        .find(|i| selected_at(wires, *i) == Some(wanted))
}
