//! The pressure stairs of the kit in hand, with the other kits and the answer before.

use narrows::job::{OperatingPoint, PartPoint};
use narrows::kit::Part;
use narrows::scenario::Document;
use narrows::units::Measure;
use uom::si::f64::Pressure;
use uom::si::ratio::ratio;

use super::scale::PressureScale;
use super::{Scene, Slot};
use crate::ui::actions::{Edit, PartList};
use crate::ui::diagram::stairs::{Run, Shape, Stair, Stairs};
use crate::ui::moment::Seen;

/// A loss below this share of the whole is not printed beside its step.
const PRINTED_RATIO: f64 = 0.03;
/// A fall into the cylinder below this share of the pressure is not drawn as one.
const SEEN_RATIO: f64 = 0.005;

impl Scene<'_> {
    /// A pressure in the units of answers.
    pub fn pressure_text(&self, pressure: Pressure) -> String {
        self.units().pressure(pressure, self.ambient())
    }

    /// The air around.
    pub fn ambient_pressure(&self) -> Pressure {
        self.ambient()
    }

    fn ambient(&self) -> Pressure {
        self.solved_document().unwrap_or(self.document()).ambient.absolute_pressure()
    }
}

/// The model of the stairs; without any answer it is empty.
pub fn stairs(scene: &Scene) -> Stairs {
    let scale = PressureScale::of(scene.units());
    let hand = scene.hand();
    let mut runs = Vec::new();
    let others = (0..scene.document().kits.len()).filter(|k| *k != hand && !scene.session.view.alone);
    for kit in std::iter::once(hand).chain(others) {
        runs.extend(scene.point(kit).and_then(|point| run(scene, kit, point, scale)));
    }
    if runs.first().is_some_and(|r| r.kit != hand) {
        runs.clear();
    }
    if let Some(run) = runs.first_mut().filter(|_| !scene.session.is_study_stale()) {
        add_bands(scene, run, scale);
    }
    let ambient = scale.on(scene.ambient());
    let zero = format!("0 {}, the air outside", scale.gauge);
    let mut stairs = Stairs {
        ghost: moment(scene, scale).or_else(|| ghost(scene, scale)),
        references: vec![(ambient, zero)],
        ambient,
        absolute_unit: scale.absolute.to_owned(),
        gauge_unit: scale.gauge.to_owned(),
        difference_unit: scale.difference.to_owned(),
        stale: scene.session.is_stale(),
        runs,
        ..Stairs::default()
    };
    stairs.second = super::second::run(scene, scale);
    if let Some(point) = scene.point(hand) {
        say(scene, point, scale, &mut stairs);
    }
    stairs
}

/// What the drawn pressures along the path of the kit in hand range over.
fn add_bands(scene: &Scene, run: &mut Run, scale: PressureScale) {
    let Some(Ok(compared)) = scene.study().and_then(|study| study.compared.as_ref()) else { return };
    if compared.is_withheld(run.kit) {
        return;
    }
    let Some(kit) = compared.bands.as_ref().and_then(|bands| bands.kits.get(run.kit)) else { return };
    let level = |at: usize| {
        let band = kit.joints().get(at)?;
        Some((scale.on(Pressure::from_si(band.low)), scale.on(Pressure::from_si(band.high))))
    };
    let mut before = level(0);
    for (stair, slot) in run.stairs.iter_mut().zip(&scene.slots) {
        let after = match slot {
            Slot::Source => before,
            Slot::Part(places) => match places.get(run.kit).copied().flatten() {
                Some(place) => level(place + 1),
                None => before,
            },
            _ => return,
        };
        stair.band = before.zip(after).map(|(a, b)| [a, b]);
        before = after;
    }
}

fn say(scene: &Scene, point: &OperatingPoint, scale: PressureScale, stairs: &mut Stairs) {
    let discharge = point.machine.discharge_pressure;
    stairs.start_text = scene.pressure_text(point.system_pressure);
    stairs.inlet_text = scene.pressure_text(point.machine_inlet_pressure);
    stairs.end_text = scene.pressure_text(point.cylinder_pressure);
    let leaves = point.discharge_parts.last().map_or(discharge, |p| p.outlet_pressure);
    let fall = scale.on(leaves - point.cylinder_pressure);
    if fall > SEEN_RATIO * scale.on(leaves) {
        let loss = format!("{} {}", scale.loss(fall), scale.difference);
        stairs.fall_text = format!("falls {loss}\ninto cooler\ncylinder");
    }
    let lift = scale.on(discharge - point.machine_inlet_pressure);
    stairs.lift_text = if lift >= 0.0 {
        format!("machine lifts {} {}", scale.loss(lift), scale.difference)
    } else {
        "flows by itself".to_owned()
    };
    stairs.note = if point.throttle_choked {
        "The machine's own inlet is choked.".to_owned()
    } else if point.choked_part.is_none() {
        "No part is choked.".to_owned()
    } else {
        String::new()
    };
}

fn run(scene: &Scene, kit: usize, point: &OperatingPoint, scale: PressureScale) -> Option<Run> {
    // A result for another line-up of parts cannot be drawn in these columns.
    let solved = scene.solved_document()?;
    let own = solved.kits.get(kit)?;
    if own.parts.len() != point.parts.len() || own.name != scene.document().kits.get(kit)?.name {
        return None;
    }
    let place = |_: usize, slot: &Slot| match slot {
        Slot::Part(places) => places.get(kit).copied().flatten(),
        _ => None,
    };
    run_of(scene, solved, kit, point, scale, place)
}

/// The stairs of an answer, in the columns that `place` gives its parts.
fn run_of(
    scene: &Scene,
    document: &Document,
    kit: usize,
    point: &OperatingPoint,
    scale: PressureScale,
    place: impl Fn(usize, &Slot) -> Option<usize>,
) -> Option<Run> {
    let solved = document.kits.get(kit)?;
    let whole = scale.on(point.system_pressure - point.machine_inlet_pressure).max(1e-9);
    let mut at = scale.on(point.system_pressure);
    let mut stairs = Vec::with_capacity(scene.slots.len());
    for (i, slot) in scene.slots.iter().enumerate() {
        let stair = match slot {
            Slot::Source => Stair::level(at),
            Slot::Part(_) => match place(i, slot) {
                Some(place) => {
                    let is_tube = solved.parts.get(place).is_some_and(|p| p.tube().is_some());
                    part_stair(point.parts.get(place)?, is_tube, whole, scale)
                }
                None => Stair::level(at),
            },
            Slot::Machine => Stair {
                shape: Shape::Lift,
                levels: vec![
                    scale.on(point.machine_inlet_pressure),
                    scale.on(point.machine.discharge_pressure),
                ],
                ..Stair::level(at)
            },
            Slot::Discharge(i) => {
                let part = document.discharge.get(*i);
                match point.discharge_parts.get(*i) {
                    Some(solved) => part_stair(solved, part.is_some_and(is_tube), whole, scale),
                    None => Stair::level(at),
                }
            }
            Slot::Cylinder => cylinder_stair(at, scale.on(point.cylinder_pressure)),
        };
        at = stair.levels.last().copied().unwrap_or(at);
        stairs.push(stair);
    }
    let letter = solved.name.clone();
    Some(Run { kit, letter, stairs })
}

/// Liquid leaves the condenser at its saturation pressure; what the cylinder is below that, it falls.
fn cylinder_stair(arrives: f64, cylinder: f64) -> Stair {
    if arrives - cylinder > SEEN_RATIO * arrives {
        Stair { shape: Shape::Fall, levels: vec![arrives, cylinder], ..Stair::level(arrives) }
    } else {
        Stair::level(cylinder)
    }
}

fn is_tube(part: &Part) -> bool {
    part.tube().is_some()
}

/// One part's stair.
pub fn part_stair(part: &PartPoint, is_tube: bool, whole: f64, scale: PressureScale) -> Stair {
    let mut levels = vec![scale.on(part.inlet_pressure)];
    levels.extend(part.between.iter().map(|p| scale.on(*p)));
    levels.push(scale.on(part.outlet_pressure));
    let text = |loss: f64| {
        if loss >= PRINTED_RATIO * whole { scale.loss(loss) } else { String::new() }
    };
    let losses = levels.windows(2).map(|w| match *w {
        [a, b] => a - b,
        _ => 0.0,
    });
    let flash = part.flash_onset.then(|| {
        let percent = 100.0 * part.outlet_quality.get::<ratio>().clamp(0.0, 1.0);
        if percent < 1.0 {
            "liquid begins to flash, under 1 % vapour after it".to_owned()
        } else {
            format!("liquid begins to flash, {percent:.0} % vapour after it")
        }
    });
    Stair {
        shape: if is_tube { Shape::Slope } else { Shape::Steps },
        drops: losses.map(text).collect(),
        levels,
        choked: part.choked,
        flash,
        band: None,
    }
}

/// The moment of the job that is looked at.
fn moment(scene: &Scene, scale: PressureScale) -> Option<(Run, String)> {
    let moment = scene.moment()?;
    let hand = scene.hand();
    let place = |_: usize, slot: &Slot| match slot {
        Slot::Part(places) => places.get(hand).copied().flatten(),
        _ => None,
    };
    let at = scene.time_text(moment.minutes);
    match &moment.seen {
        Seen::Point(point) => {
            let run = run_of(scene, &moment.document, hand, point, scale, place)?;
            Some((run, format!("at {at}: {}", scene.units().rate(point.mass_flow))))
        }
        Seen::Rest { system, cylinder } => {
            let run = at_rest(scene, scale.on(*system), scale.on(*cylinder));
            Some((run, format!("at {at}: nothing flows, {}", scene.pressure_text(*system))))
        }
        Seen::PushPull { system, cylinder, rate } => {
            let run = at_rest(scene, scale.on(*system), scale.on(*cylinder));
            let rate = scene.units().rate(*rate);
            let pressures = format!("{} to {}", scene.pressure_text(*system), scene.pressure_text(*cylinder));
            Some((run, format!("at {at}: {rate} of liquid past the machine, {pressures}")))
        }
    }
}

/// Two levels: the system's up to the machine, the cylinder's behind it.
fn at_rest(scene: &Scene, system: f64, cylinder: f64) -> Run {
    let machine = scene.machine_slot();
    let level = |i: usize| Stair::level(if i < machine { system } else { cylinder });
    let lift = Stair { shape: Shape::Lift, levels: vec![system, cylinder], ..Stair::level(system) };
    let stairs = (0..scene.slots.len()).map(|i| if i == machine { lift.clone() } else { level(i) });
    Run { kit: scene.hand(), letter: String::new(), stairs: stairs.collect() }
}

/// The answer before the last change, if the line-up is still the same.
fn ghost(scene: &Scene, scale: PressureScale) -> Option<(Run, String)> {
    let before = scene.before()?;
    let hand = scene.hand();
    let document = &before.document;
    let count = document.kits.get(hand)?.parts.len();
    let point = before.kits.get(hand)?.point()?;
    if scene.point(hand).is_some_and(|now| now == point) {
        return None;
    }
    let from_kit = matches!(scene.session.tried(), Some(Edit::Remove { list: PartList::Kit(_), .. }));
    let gone = scene.gone.as_ref().filter(|_| from_kit);
    let out = gone.map(|gone| gone.at);
    if count != scene.kit()?.parts.len() + usize::from(out.is_some()) {
        return None;
    }
    // A part tried out moves those behind it one place up; the ghost's stand where they stood.
    let place = |i: usize, slot: &Slot| match slot {
        _ if gone.is_some_and(|gone| gone.slot == i) => out,
        Slot::Part(places) => {
            let now = places.get(hand).copied().flatten();
            now.map(|at| if out.is_some_and(|out| at >= out) { at + 1 } else { at })
        }
        _ => None,
    };
    let run = run_of(scene, document, hand, point, scale, place)?;
    Some((run, format!("before: {}", scene.units().rate(point.mass_flow))))
}
