//! Where to put the machine, for people: one row a place, today's marked.

use super::columns::columns;
use super::json::grade_word;
use super::placed::{PlacedKit, PlacedWay};
use super::placed_words::{length_text, place_lines, stretch_text};
use super::power_words::start_word;
use super::table::heading;
use super::wrap::wrapped;
use crate::advice::{Caution, DEFERENCE};
use crate::compare::{Headline, Placed, Stretch};
use crate::power::Running;
use crate::scenario::Document;
use crate::units::{UnitSet, with_capital};

/// The whole answer of `narrows place`.
pub fn placed_table(document: &Document, placed: &[PlacedKit], units: UnitSet) -> String {
    let kits: Vec<_> = placed.iter().map(|one| one.kit.clone()).collect();
    let mut lines = vec![heading(document, &kits, units)];
    for one in placed {
        let label = one.kit.kit.label.as_deref().map(|label| format!(": {label}")).unwrap_or_default();
        lines.extend([String::new(), format!("Where to put the machine, kit {}{label}", one.kit.kit.name)]);
        match &one.way {
            Ok(way) => lines.extend(way_lines(way, units)),
            Err(no_way) => lines.push(wrapped(&no_way.to_string(), "  ")),
        }
    }
    lines.extend([String::new(), wrapped(PLACE_LEGEND, ""), String::new(), wrapped(DEFERENCE, "")]);
    lines.join("\n") + "\n"
}

/// What is held, and what is not looked at.
pub const PLACE_LEGEND: &str = "Hose and cord together stay as long as they are; the discharge hose and the cylinder \
move with the machine. A hose or cord that is longer than the way loses what its own length says, also where it lies \
in loops.";

fn way_lines(way: &PlacedWay, units: UnitSet) -> Vec<String> {
    let stretch = |one: &Stretch| {
        let no_shorter = if one.shortest.si() > 0.0 {
            format!(", no shorter than {}", length_text(&one.shortest))
        } else {
            String::new()
        };
        format!("{} ({}), {} today{no_shorter}", one.name, one.path, length_text(&one.today))
    };
    let moved = &way.places.way;
    let mut lines = vec![wrapped(&stretch(&moved.hose), "  Hose           ")];
    lines.extend(moved.beside.as_ref().map(|one| wrapped(&stretch(one), "  Other port     ")));
    lines.push(wrapped(&stretch(&moved.cord), "  Cord           "));
    let said = place_lines(way, units).into_iter();
    lines.extend(said.map(|(word, line)| wrapped(&line, &format!("  {word:<15}"))));
    let mut rows = vec![
        ["  Hose", "Cord", "Rate", "Inlet", "Running", "", "Starting", "Motor", ""]
            .map(str::to_owned)
            .to_vec(),
    ];
    rows.extend((0..way.places.places.len()).filter_map(|at| row(way, at, units)));
    lines.extend(columns(&rows, &[12, 12]));
    lines.extend(caution_lines(way));
    lines
}

fn row(way: &PlacedWay, at: usize, units: UnitSet) -> Option<Vec<String>> {
    let placed = way.at(at)?;
    let Headline { rate, machine_inlet, .. } = way.figures(at).unwrap_or_default();
    let ambient = placed.solved.as_ref().ok().map(|kit| kit.kit.setup.ambient.pressure);
    let inlet = machine_inlet.zip(ambient).map_or(String::new(), |(inlet, air)| units.pressure(inlet, air));
    let mark = if at == way.places.today { "> " } else { "  " };
    let mut row = vec![
        format!("{mark}{}", length_text(&placed.hose)),
        placed.cord.as_ref().map_or("none".to_owned(), length_text),
        rate.map_or("no rate".to_owned(), |rate| units.rate(rate)),
        inlet,
    ];
    row.extend(motor_cells(placed, units));
    row.push(remark(way, at));
    Some(row)
}

/// Volts and amps running, volts starting, what the motor does.
fn motor_cells(placed: &Placed, units: UnitSet) -> [String; 4] {
    let Some(power) = placed.power() else { return Default::default() };
    let [volts, amps] = match &power.running {
        Running::Holds(run) => [units.voltage(run.voltage), units.current(run.current)],
        Running::CannotHold(_) => ["cannot hold".to_owned(), String::new()],
    };
    let starts = start_word(&power.starting.outcome).to_owned();
    [volts, amps, units.voltage(power.starting.voltage), starts]
}

/// What the place is.
fn remark(way: &PlacedWay, at: usize) -> String {
    let remarks = [
        (at == way.places.today, "today"),
        (way.fastest() == Some(at), "highest rate"),
        (way.advised() == Some(at), "advised"),
    ];
    let both = way.fastest() == way.advised();
    let said = remarks.into_iter().enumerate().filter(|(i, (is_so, _))| *is_so && !(both && *i == 2));
    said.map(|(_, (_, words))| words).collect::<Vec<_>>().join(", ")
}

/// Every caution of any place, with where it holds.
fn caution_lines(way: &PlacedWay) -> Vec<String> {
    placed_cautions(way)
        .into_iter()
        .map(|(place, caution)| {
            let place =
                if place == "everywhere" { String::new() } else { format!("{}: ", with_capital(&place)) };
            wrapped(&format!("{place}{}", caution.text), &format!("  {:<15}", grade_word(caution.grade)))
        })
        .collect()
}

/// Each caution once, by what it is about, the gravest first, with where it holds; its words are those of
/// the first place that has it.
fn placed_cautions(way: &PlacedWay) -> Vec<(String, &Caution)> {
    let mut seen: Vec<&Caution> = Vec::new();
    for caution in way.cautions.iter().flatten() {
        if seen.iter().all(|one| one.id != caution.id) {
            seen.push(caution);
        }
    }
    seen.sort_by_key(|caution| std::cmp::Reverse(caution.grade));
    seen.into_iter()
        .map(|caution| {
            let holds = |at: usize, _: &Placed| way.cautions_at(at).iter().any(|one| one.id == caution.id);
            (stretch_text(way, &holds), caution)
        })
        .collect()
}
