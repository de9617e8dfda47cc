//! A solved document for people: one block a kit, plain text.

use super::error_words::job_error_text;
use super::json::{element_name, grade_word, start_words};
use super::note_words::notes_of;
use super::solved::{SolvedKit, Unshown};
use crate::advice::DEFERENCE;
use crate::job::{OperatingPoint, PartPoint};
use crate::power::{PowerPoint, Running};
use crate::scenario::{Document, PartName};
use crate::units::UnitSet;

/// Text is wrapped at this width.
const WIDTH: usize = 92;

/// The whole answer of `narrows solve`.
pub fn solved_table(document: &Document, solved: &[SolvedKit], units: UnitSet) -> String {
    let mut lines = vec![heading(document, solved, units), String::new()];
    for kit in solved {
        lines.extend(kit_lines(kit, units));
        lines.push(String::new());
    }
    lines.push(wrapped(DEFERENCE, ""));
    lines.join("\n") + "\n"
}

fn heading(document: &Document, solved: &[SolvedKit], units: UnitSet) -> String {
    let Some(first) = solved.first() else { return document.title.clone() };
    let setup = &first.kit.setup;
    let refrigerant = &setup.refrigerant;
    format!(
        "{}\n{} (class {}), source {}, cylinder {}, air {}",
        document.title,
        refrigerant.designation(),
        refrigerant.safety_class(),
        units.temperature(setup.source.temperature),
        units.temperature(setup.cylinder.temperature),
        units.temperature(setup.ambient.temperature),
    )
}

fn kit_lines(solved: &SolvedKit, units: UnitSet) -> Vec<String> {
    let ambient = solved.kit.setup.ambient.pressure;
    let label = solved.kit.label.as_deref().map(|label| format!(", {label}")).unwrap_or_default();
    let mut lines = vec![format!("Kit {}{label}", solved.kit.name)];
    match solved.shown_point() {
        Ok(point) => lines.extend(point_lines(solved, point, units)),
        Err(Unshown::Withheld(_)) => lines.push("  Rate        withheld, see Stop below".to_owned()),
        Err(Unshown::NoPoint(error)) => {
            lines.push(wrapped(&job_error_text(error, units, ambient), "  Rate        "));
        }
    }
    match &solved.answer.power {
        Ok(power) => lines.extend(power_lines(&solved.kit.cords, power, units)),
        Err(error) => lines.push(wrapped(&error.to_string(), "  Volts       ")),
    }
    for caution in &solved.cautions {
        lines.push(wrapped(&caution.text, &format!("  {:<12}", grade_word(caution.grade))));
    }
    for note in notes_of(solved) {
        lines.push(wrapped(&note, "  Beside      "));
    }
    lines
}

fn point_lines(solved: &SolvedKit, point: &OperatingPoint, units: UnitSet) -> Vec<String> {
    let ambient = solved.kit.setup.ambient.pressure;
    let pressure = |value| units.pressure(value, ambient);
    let mut lines = vec![
        format!("  Rate        {}", units.rate(point.mass_flow)),
        format!(
            "  Pressures   system {}, machine inlet {}, discharge {}, cylinder {}",
            pressure(point.system_pressure),
            pressure(point.machine_inlet_pressure),
            pressure(point.machine.discharge_pressure),
            pressure(point.cylinder_pressure),
        ),
        format!(
            "  Machine     fills {} of its stroke, takes {} at the shaft, condenses at {}{}",
            units.share(point.machine.volumetric_efficiency.value),
            units.power(point.machine.shaft_power),
            units.temperature(point.machine.condensing_temperature),
            match point.machine.cut_out_margin {
                Some(margin) => format!(", {} below its cut-out", units.pressure_loss(margin)),
                None => String::new(),
            },
        ),
        choke_line(solved, point),
    ];
    lines.extend(part_rows(&solved.kit.parts, &point.parts, &pressure, units));
    if let Some(second) = &point.second {
        lines.push(format!(
            "  Second port passes {}, the first {}; they meet before part {}",
            units.rate(second.mass_flow),
            units.rate(second.first_mass_flow),
            second.joins_before + 1,
        ));
        lines.extend(part_rows(&solved.kit.second_parts, &second.parts, &pressure, units));
    }
    if !point.discharge_parts.is_empty() {
        lines.push("  Discharge".to_owned());
        lines.extend(part_rows(&solved.kit.discharge_parts, &point.discharge_parts, &pressure, units));
    }
    lines
}

fn choke_line(solved: &SolvedKit, point: &OperatingPoint) -> String {
    let name = match point.choked_part {
        Some(index) => solved.kit.parts.get(index).map(|part| part.name.as_str()),
        None => point.throttle_choked.then_some("Machine inlet"),
    };
    match name {
        Some(name) => format!("  CHOKED      {name}: pulling harder does nothing"),
        None => "  Choking     no part is choked".to_owned(),
    }
}

fn part_rows(
    names: &[PartName],
    parts: &[PartPoint],
    pressure: &impl Fn(uom::si::f64::Pressure) -> String,
    units: UnitSet,
) -> Vec<String> {
    let row = |(name, part): (&PartName, &PartPoint)| {
        let mark = match (part.choked, part.flash_onset) {
            (true, true) => "  CHOKED, flashes",
            (true, false) => "  CHOKED",
            (false, true) => "  flashes here",
            (false, false) => "",
        };
        format!(
            "    {:<26}{:>14} to {:<14}{:>11}{mark}",
            name.name,
            pressure(part.inlet_pressure),
            pressure(part.outlet_pressure),
            units.pressure_loss(part.drop()),
        )
    };
    names.iter().zip(parts).map(row).collect()
}

fn power_lines(cords: &[String], power: &PowerPoint, units: UnitSet) -> Vec<String> {
    let start = &power.starting;
    let running = match &power.running {
        Running::Holds(point) => format!(
            "  Running     {} at the motor ({}), {}",
            units.voltage(point.voltage),
            units.share(point.voltage_ratio),
            units.current(point.current),
        ),
        Running::CannotHold(reason) => wrapped(&reason.to_string(), "  Running     "),
    };
    let starting = format!(
        "{} at the motor ({}), {}, torque {} of that at nameplate volts; {}",
        units.voltage(start.voltage),
        units.share(start.voltage_ratio),
        units.current(start.current),
        units.share(start.torque_ratio),
        start_words(&start.outcome),
    );
    let mut lines = vec![running, wrapped(&starting, "  Starting    ")];
    for element in &power.elements {
        lines.push(format!(
            "    {:<26}loses {:>8} running, {:>8} starting",
            element_name(cords, element),
            element.running_drop.map_or("none".to_owned(), |drop| units.voltage(drop)),
            units.voltage(element.starting_drop),
        ));
    }
    lines
}

/// Wraps words behind a lead; further lines stand under the first word.
fn wrapped(text: &str, lead: &str) -> String {
    let indent = lead.chars().count();
    let mut out = lead.to_owned();
    let mut column = indent;
    for word in text.split_whitespace() {
        let width = word.chars().count();
        if column > indent && column + 1 + width > WIDTH {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            column = indent;
        } else if column > indent {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += width;
    }
    out
}
