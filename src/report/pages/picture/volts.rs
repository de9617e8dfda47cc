//! The voltage stairs from the panel to the motor, running and starting.

use uom::si::electric_potential::volt;
use uom::si::f64::ElectricPotential;

use super::{Anchor, Dash, Item, LETTER, Picture, Tone, WIDTH, text_width};
use crate::power::{Element, LEAST_VOLTAGE_RATIO, PowerPoint};
use crate::report::drawing::axis::{Axis, Fixed};
use crate::report::drawing::ticks::short;
use crate::report::power_words::{element_losses, element_name};
use crate::report::solved::SolvedKit;
use crate::units::{UnitSet, as_sentence};

const LEFT: f32 = 48.0;
const RIGHT: f32 = WIDTH - 128.0;
const TOP: f32 = 14.0;
const BOTTOM: f32 = 170.0;

/// The drawing; none where the power path has no answer.
pub(in crate::report::pages) fn volts(solved: &SolvedKit, units: UnitSet) -> Option<Picture> {
    let power = solved.answer.power.as_ref().ok()?;
    let name = format!("Volts from the panel to the motor, kit {}", solved.kit.name);
    let mut picture = Picture::new(name, BOTTOM + 70.0);
    let rated = solved.kit.setup.motor.rated_voltage().get::<volt>();
    let running = track(power, |element| element.running_outlet);
    let starting = track(power, |element| Some(element.starting_outlet));
    let references =
        [(rated, format!("nameplate {rated:.0} V")), (LEAST_VOLTAGE_RATIO * rated, "−10 %".to_owned())];
    let mut levels: Vec<f64> = [&running, &starting].into_iter().flatten().copied().collect();
    levels.extend(references.iter().map(|(level, _)| *level));
    let losses: Vec<(f64, f64)> = [&running, &starting]
        .into_iter()
        .flat_map(|track| track.windows(2))
        .filter_map(|pair| Some((*pair.first()?, *pair.get(1)?)))
        .collect();
    let axis = Axis::new(&levels, &losses, TOP..=BOTTOM, true, Fixed::LOW);
    let columns = Columns { count: power.elements.len() };
    grid(&mut picture, columns, &axis);
    for (level, _) in &references {
        let y = axis.y(*level);
        picture.line(&[(LEFT, y), (RIGHT, y)], Tone::Ink, 1.0, Dash::Reference);
    }
    hatches(&mut picture, columns, &axis, &running);
    for (levels, dash) in [(&starting, Dash::Long), (&running, Dash::Solid)] {
        draw(&mut picture, columns, &axis, levels, dash);
    }
    let mut said: Vec<(f32, String, bool)> =
        references.into_iter().map(|(level, words)| (axis.y(level), words, false)).collect();
    if let Some(point) = power.running.point() {
        said.push((
            axis.y(point.voltage.get::<volt>()),
            format!("{} running", units.voltage(point.voltage)),
            true,
        ));
    }
    let start = power.starting.voltage;
    said.push((axis.y(start.get::<volt>()), format!("{} starting", units.voltage(start)), true));
    right_side(&mut picture, said);
    feet(&mut picture, columns, power, &solved.kit.cords, units);
    Some(picture)
}

#[derive(Debug, Clone, Copy)]
struct Columns {
    count: usize,
}

impl Columns {
    fn x(self, at: usize) -> f32 {
        LEFT + (RIGHT - LEFT) * at as f32 / self.count.max(1) as f32
    }
}

/// Volts from the source on; as far as they are known.
fn track(power: &PowerPoint, leaves: impl Fn(&Element) -> Option<ElectricPotential>) -> Vec<f64> {
    let levels = power.elements.iter().map_while(leaves);
    let track: Vec<f64> =
        std::iter::once(power.open_circuit).chain(levels).map(|volts| volts.get::<volt>()).collect();
    if track.len() > power.elements.len() { track } else { Vec::new() }
}

fn grid(picture: &mut Picture, columns: Columns, axis: &Axis) {
    for at in 1..=columns.count {
        picture.line(&[(columns.x(at), TOP), (columns.x(at), BOTTOM)], Tone::Rule, 0.6, Dash::Solid);
    }
    for tick in axis.ticks(0.0, 24.0) {
        let y = axis.y(tick);
        picture.line(&[(LEFT, y), (RIGHT, y)], Tone::Rule, 0.6, Dash::Solid);
        picture.text((LEFT - 5.0, y + 4.5), short(tick), Anchor::End);
    }
    picture.text((4.0, TOP - 2.0), "V", Anchor::Start);
    for (fold, y) in axis.folds() {
        let words = format!("{:.0} V folded away", fold.to - fold.from);
        picture.fold((LEFT, RIGHT), (y.upper, y.lower), &words);
    }
    picture.line(&[(LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM)], Tone::Ink, 1.0, Dash::Solid);
}

fn hatches(picture: &mut Picture, columns: Columns, axis: &Axis, levels: &[f64]) {
    for (at, pair) in levels.windows(2).enumerate() {
        let [from, to] = *pair else { continue };
        let (high, low) = (axis.y(from), axis.y(to));
        if low - high > 1.0 {
            picture.hatch(&[(columns.x(at), high), (columns.x(at + 1), low), (columns.x(at), low)]);
        }
    }
}

fn draw(picture: &mut Picture, columns: Columns, axis: &Axis, levels: &[f64], dash: Dash) {
    let points: Vec<(f32, f32)> =
        levels.iter().enumerate().map(|(at, level)| (columns.x(at), axis.y(*level))).collect();
    if points.is_empty() {
        return;
    }
    let width = if dash == Dash::Solid { 3.2 } else { 2.4 };
    picture.line(&points, Tone::Level, width, dash);
    if let Some(at) = points.last() {
        picture.items.push(Item::Ring { at: *at, filled: dash == Dash::Solid });
    }
}

/// Words at the right end, apart from each other.
fn right_side(picture: &mut Picture, mut said: Vec<(f32, String, bool)>) {
    said.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut free = TOP - 4.0;
    for (y, words, bold) in said {
        let at = (y + 4.5).max(free + LETTER + 1.5);
        free = at;
        picture.tinted((RIGHT + 9.0, at), words, Anchor::Start, Tone::Ink, bold);
    }
}

/// What each column is, and what it takes.
fn feet(picture: &mut Picture, columns: Columns, power: &PowerPoint, cords: &[String], units: UnitSet) {
    for (at, element) in power.elements.iter().enumerate() {
        let (left, wide) = (columns.x(at) + 3.0, columns.x(at + 1) - columns.x(at));
        let name = as_sentence(&element_name(cords, element));
        let mut lines = in_lines(name.trim_end_matches('.'), wide - 6.0);
        lines.truncate(2);
        for (row, words) in lines.into_iter().enumerate() {
            picture.text((left, BOTTOM + 17.0 + 15.0 * row as f32), words, Anchor::Start);
        }
        let [running, starting] = element_losses(element, units);
        if starting != "0.00 V" {
            picture.tinted((left, BOTTOM + 47.0), format!("−{running}"), Anchor::Start, Tone::Fall, true);
            picture.tinted(
                (left, BOTTOM + 62.0),
                format!("start −{starting}"),
                Anchor::Start,
                Tone::Fall,
                false,
            );
        }
    }
}

/// Words in lines no wider than this.
fn in_lines(words: &str, wide: f32) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        match lines.last_mut() {
            Some(line) if text_width(line) + text_width(word) + text_width(" ") <= wide => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
