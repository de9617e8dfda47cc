//! A solved document for people: one block a kit, plain text.

use super::columns::columns;
use super::error_words::job_error_text;
use super::json::grade_word;
use super::note_words::notes_of;
use super::power_words::{element_losses, element_name, running_words, start_word, starting_words};
use super::solved::{SolvedKit, Unshown};
use super::wrap::wrapped;
use crate::advice::{Caution, DEFERENCE};
use crate::job::{AtOnce, Connection, OperatingPoint, PartPoint};
use crate::power::{PowerPoint, Running};
use crate::scenario::{Document, PartName};
use crate::units::{UnitSet, as_sentence};

/// The whole answer of `narrows solve`: all kits in a line each, then each in full, then what
/// holds for all of them once.
pub fn solved_table(document: &Document, solved: &[SolvedKit], units: UnitSet) -> String {
    let shared = Shared::of(solved);
    let mut lines = vec![heading(document, solved, units), String::new()];
    lines.extend(summary(solved, units));
    for kit in solved {
        lines.push(String::new());
        lines.extend(kit_lines(kit, &shared, units));
    }
    let for_all = shared.lines(solved, units);
    if !for_all.is_empty() {
        lines.extend([String::new(), "All kits".to_owned()]);
        lines.extend(for_all);
    }
    lines.extend([String::new(), wrapped(DEFERENCE, "")]);
    lines.join("\n") + "\n"
}

/// What holds for every kit of more than one.
struct Shared {
    power: bool,
    cautions: Vec<Caution>,
    notes: Vec<String>,
}

impl Shared {
    fn of(solved: &[SolvedKit]) -> Self {
        let [first, others @ ..] = solved else {
            return Self { power: false, cautions: Vec::new(), notes: Vec::new() };
        };
        if others.is_empty() {
            return Self { power: false, cautions: Vec::new(), notes: Vec::new() };
        }
        let others_notes: Vec<Vec<String>> = others.iter().map(notes_of).collect();
        Self {
            power: others.iter().all(|kit| kit.answer.power == first.answer.power),
            cautions: in_all(&first.cautions, others.iter().map(|kit| kit.cautions.as_slice())),
            notes: in_all(&notes_of(first), others_notes.iter().map(Vec::as_slice)),
        }
    }

    fn lines(&self, solved: &[SolvedKit], units: UnitSet) -> Vec<String> {
        let power = solved.first().filter(|_| self.power).map(|kit| power_block(kit, units));
        let mut lines = power.unwrap_or_default();
        lines.extend(self.cautions.iter().map(caution_line));
        lines.extend(self.notes.iter().map(|note| wrapped(note, ALSO)));
        lines
    }
}

/// The items of one list that every other list has too.
pub(super) fn in_all<'a, T: PartialEq + Clone + 'a>(
    first: &[T],
    others: impl Iterator<Item = &'a [T]> + Clone,
) -> Vec<T> {
    first.iter().filter(|item| others.clone().all(|other| other.contains(item))).cloned().collect()
}

/// Leads a note.
pub(super) const ALSO: &str = "  Also        ";

pub(super) fn caution_line(caution: &Caution) -> String {
    wrapped(&caution.text, &format!("  {:<12}", grade_word(caution.grade)))
}

/// One line a kit: rate, inlet, volts.
fn summary(solved: &[SolvedKit], units: UnitSet) -> Vec<String> {
    let head = ["Kit", "Rate", "Machine inlet", "Volts running", "Volts starting", "Limited by"];
    let mut rows = vec![head.map(str::to_owned).to_vec()];
    for kit in solved {
        let ambient = kit.kit.setup.ambient.pressure;
        let (rate, inlet, limit) = match kit.shown_point() {
            Ok(point) => (
                units.rate(point.mass_flow),
                units.pressure(point.machine_inlet_pressure, ambient),
                choked_name(kit, point).map_or("", |name| name).to_owned(),
            ),
            Err(Unshown::Withheld(_)) => ("withheld".to_owned(), "-".to_owned(), "see Stop".to_owned()),
            Err(Unshown::NoPoint(_)) => ("none".to_owned(), "-".to_owned(), "see below".to_owned()),
        };
        let (running, starting) = summary_volts(kit, units);
        rows.push(vec![kit.kit.name.clone(), rate, inlet, running, starting, limit]);
    }
    columns(&rows, &[5, 16, 16, 17, 26])
}

fn summary_volts(kit: &SolvedKit, units: UnitSet) -> (String, String) {
    let Ok(power) = &kit.answer.power else { return ("-".to_owned(), "-".to_owned()) };
    let running = match &power.running {
        Running::Holds(point) => {
            format!("{}, {}", units.voltage(point.voltage), units.current(point.current))
        }
        Running::CannotHold(_) => "cannot hold".to_owned(),
    };
    let word = start_word(&power.starting.outcome);
    (running, format!("{}, {word}", units.voltage(power.starting.voltage)))
}

pub(super) fn heading(document: &Document, solved: &[SolvedKit], units: UnitSet) -> String {
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

fn kit_lines(solved: &SolvedKit, shared: &Shared, units: UnitSet) -> Vec<String> {
    let ambient = solved.kit.setup.ambient.pressure;
    let label = solved.kit.label.as_deref().map(|label| format!(": {label}")).unwrap_or_default();
    let mut lines = vec![format!("Kit {}{label}", solved.kit.name)];
    match solved.shown_point() {
        Ok(point) => lines.extend(point_lines(solved, point, units)),
        Err(Unshown::Withheld(_)) => lines.push("  Rate        withheld, see Stop".to_owned()),
        Err(Unshown::NoPoint(error)) => {
            lines.push(wrapped(&job_error_text(error, units, ambient), "  Rate        "));
        }
    }
    if !shared.power {
        lines.extend(power_block(solved, units));
    }
    let own = solved.cautions.iter().filter(|caution| !shared.cautions.contains(caution));
    lines.extend(own.map(caution_line));
    let own = notes_of(solved).into_iter().filter(|note| !shared.notes.contains(note));
    lines.extend(own.map(|note| wrapped(&note, ALSO)));
    lines
}

fn power_block(solved: &SolvedKit, units: UnitSet) -> Vec<String> {
    match &solved.answer.power {
        Ok(power) => power_lines(&solved.kit.cords, power, units),
        Err(error) => vec![wrapped(&as_sentence(&error.to_string()), "  Volts       ")],
    }
}

/// How several machines share the rate; none for a single one.
pub fn machines_text(point: &OperatingPoint, units: UnitSet) -> Option<String> {
    let AtOnce { count, connection } = point.machines;
    let way = match connection {
        Connection::SamePort => "on one path",
        Connection::SeparatePorts => "on ports and paths of their own",
    };
    (count > 1).then(|| format!("{count} machines {way}, {} each", units.rate(point.of_each())))
}

fn point_lines(solved: &SolvedKit, point: &OperatingPoint, units: UnitSet) -> Vec<String> {
    let ambient = solved.kit.setup.ambient.pressure;
    let pressure = |value| units.pressure(value, ambient);
    let machines = machines_text(point, units).map(|text| format!("; {text}")).unwrap_or_default();
    let mut lines = vec![
        format!("  Rate        {}{machines}", units.rate(point.mass_flow)),
        format!(
            "  Pressures   system {}, machine inlet {}, discharge {}, cylinder {}",
            pressure(point.system_pressure),
            pressure(point.machine_inlet_pressure),
            pressure(point.machine.discharge_pressure),
            pressure(point.cylinder_pressure),
        ),
        wrapped(
            &format!(
                "fills {} of its stroke, takes {} at the shaft, condenses at {}{}",
                units.share(point.machine.volumetric_efficiency.value),
                units.power(point.machine.shaft_power),
                units.temperature(point.machine.condensing_temperature),
                match point.machine.cut_out_margin {
                    Some(margin) => format!(", {} below its cut-out", units.pressure_loss(margin)),
                    None => String::new(),
                }
            ),
            "  Machine     ",
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

/// The part that limits the flow, if one chokes.
pub(super) fn choked_name<'a>(solved: &'a SolvedKit, point: &OperatingPoint) -> Option<&'a str> {
    match point.choked_part {
        Some(index) => solved.kit.parts.get(index).map(|part| part.name.as_str()),
        None => point.throttle_choked.then_some("Machine inlet"),
    }
}

fn choke_line(solved: &SolvedKit, point: &OperatingPoint) -> String {
    match choked_name(solved, point) {
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
        let mark = part_mark(part);
        let gap = if mark.is_empty() { "" } else { "  " };
        format!(
            "    {:<26}{:>14} to {:<14}{:>11}{gap}{mark}",
            name.name,
            pressure(part.inlet_pressure),
            pressure(part.outlet_pressure),
            units.pressure_loss(part.drop()),
        )
    };
    names.iter().zip(parts).map(row).collect()
}

/// What is special about the flow in a part.
pub(super) fn part_mark(part: &PartPoint) -> &'static str {
    match (part.choked, part.flash_onset) {
        (true, true) => "CHOKED, flashes",
        (true, false) => "CHOKED",
        (false, true) => "flashes here",
        (false, false) => "",
    }
}

fn power_lines(cords: &[String], power: &PowerPoint, units: UnitSet) -> Vec<String> {
    let mut lines = vec![
        wrapped(&running_words(&power.running, units), "  Running     "),
        wrapped(&starting_words(&power.starting, units), "  Starting    "),
    ];
    for element in &power.elements {
        let [running, starting] = element_losses(element, units);
        lines.push(format!(
            "    {:<26}loses {running:>8} running, {starting:>8} starting",
            element_name(cords, element),
        ));
    }
    lines
}
