//! Edits of a built-in scenario by path and value, as `--set` makes them.
//!
//! An input is a text: the scenario's name, then one `PATH=VALUE` a line. The mutator makes new
//! ones of the fields that a document has, with values that pass a parser more often than bytes do.

use narrows::fluid;
use narrows::presets::{built_in_scenario, scenarios};
use narrows::scenario::{self, Document, get, set as set_field};
use serde_json::Value;

use super::budget::in_time;
use super::doors::comes_back;

/// A built-in scenario; the first one if there is none of this name.
pub fn scenario_document(name: &str) -> Document {
    let text = built_in_scenario(name.trim()).unwrap_or(scenarios()[0].text);
    scenario::read(text).expect("built-in scenarios read")
}

/// The scenario and its edits.
pub fn parse(text: &str) -> (Document, Vec<(&str, &str)>) {
    let mut lines = text.lines();
    let document = scenario_document(lines.next().unwrap_or_default());
    (document, lines.filter_map(|line| line.split_once('=')).collect())
}

/// The document after the edits that it took.
pub fn edited(text: &str) -> Document {
    let (mut document, edits) = parse(text);
    for (path, value) in edits {
        let _ = set_field(&mut document, path, value);
    }
    document
}

/// Edits one after another. One that is refused changes nothing; one that is taken can be written
/// and read back.
pub fn set(data: &[u8]) {
    let Ok(text) = str::from_utf8(data) else { return };
    in_time("setting fields", || {
        let (mut document, edits) = parse(text);
        for (path, value) in edits {
            let before = document.clone();
            match set_field(&mut document, path, value) {
                Ok(()) => {}
                Err(error) => {
                    assert!(!error.to_string().is_empty());
                    assert!(document == before, "{path}={value} was refused and changed something");
                }
            }
            let _ = get(&document, path);
        }
        comes_back(&document);
        let _ = scenario::check(&document);
    });
}

/// A mutated copy in libFuzzer's own buffer; how much of it is used.
pub fn mutate_in_place(data: &mut [u8], size: usize, max_size: usize, seed: u32) -> usize {
    let mutated = mutate(data.get(..size).unwrap_or_default(), seed);
    let room = max_size.min(data.len());
    // Whole lines only, so that what is left still means something.
    let mut length = mutated.len().min(room);
    while length < mutated.len() && length > 0 && mutated[length - 1] != b'\n' {
        length -= 1;
    }
    data[..length].copy_from_slice(&mutated[..length]);
    length
}

/// The most edits that are kept.
const MOST_EDITS: usize = 24;

/// One more edit, one less, another scenario, or another value.
pub fn mutate(data: &[u8], seed: u32) -> Vec<u8> {
    let mut dice = Dice(u64::from(seed) << 20 | 0x5bd1);
    let text = String::from_utf8_lossy(data);
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    if lines.is_empty() || dice.below(40) == 0 {
        let name = scenarios()[dice.below(scenarios().len())].id.to_owned();
        lines.splice(..lines.len().min(1), [name]);
    }
    for _ in 0..=dice.below(4) {
        if lines.len() > 1 && (dice.below(4) == 0 || lines.len() > MOST_EDITS) {
            lines.remove(1 + dice.below(lines.len() - 1));
            continue;
        }
        let document = edited(&lines.join("\n"));
        if let Some(edit) = edit(&document, &mut dice) {
            lines.push(edit);
        }
    }
    (lines.join("\n") + "\n").into_bytes()
}

/// Fields that scenarios leave out, each with a value to start from.
const LEFT_OUT: &[(&str, &str)] = &[
    ("source.vapour_share", "30 %"),
    ("source.metal_heat_capacity", "12 kJ/K"),
    ("source.heat_gain", "15 W/K"),
    ("source.isothermal", "true"),
    ("source.unreachable", "5 %"),
    ("source.dissolved", "4 %"),
    ("source.burnout", "true"),
    ("source.receiver_volume", "10 L"),
    ("source.volume", "0.6 ft3"),
    ("source.charge", "22 lb"),
    ("ambient.altitude", "5000 ft"),
    ("ambient.pressure", "80 kPa"),
    ("charge_band", "20 %"),
    ("cylinder.excess_pressure", "20 psi"),
    ("cylinder.contents", "5 lb"),
    ("cylinder.heat_exchange", "8 W/K"),
    ("cylinder.surroundings", "110 degF"),
    ("cylinder.in_sun", "true"),
    ("cylinder.water_capacity", "47.7 lb"),
    ("cylinder.marking_limit", "30 lb"),
    ("cylinders.0", "none"),
    ("cylinders.0.count", "4"),
    ("machine.inlet_throttle.bore", "3 mm"),
    ("machine.condenser.conductance", "60 W/K"),
    ("machine.condenser.condensing_temperature", "100 degF"),
    ("machine.condenser.conductance", "none"),
    ("machine.condenser.condensing_temperature", "none"),
    ("machine.cut_out", "550 psig"),
    ("machine.polytropic_exponent", "1.1"),
    ("machine.power_load", "duty"),
    ("machine.motor.kind", "universal"),
    ("machine.motor.locked_rotor_current", "60 A"),
    ("machine.motor.shaft_power", "1 hp"),
    ("supply.source_resistance", "50 mohm"),
    ("supply.source_reactance", "50 mohm"),
    ("supply.generator.continuous", "1600 VA"),
    ("supply.generator.surge", "2000 VA"),
    ("supply.branch.other_load", "4 A"),
    ("supply.branch.contact_resistance", "50 mohm"),
    ("job.method", "push_pull"),
    ("job.method", "liquid_then_vapour"),
    ("job.method", "vapour"),
    ("job.change_over", "5 %"),
    ("job.machines", "2"),
    ("target.level", "15 inHg vac"),
    ("target.wait", "10 min"),
    ("kits.0.port", "both"),
    ("kits.0.port", "liquid"),
    ("kits.0.parts.9", "Hose(bore: \"4.8 mm\", length: \"5 ft\")"),
    ("kits.0.parts.0", "FilterDrier(rated_capacity: \"5 tons\", state: loaded)"),
    ("kits.0.parts.1", "Valve(flow_coefficient: \"0.4 Cv\")"),
    ("kits.0.parts.0", "GaugeSet(seats: 2, bore: \"3.6 mm\")"),
    ("kits.0.parts.1.rise", "1 m"),
    ("kits.0.parts.1.roughness", "0.1 mm"),
    ("kits.0.parts.1.working_pressure", "800 psig"),
    ("kits.0.parts.0.pressure_recovery", "0.6"),
    ("discharge.0", "Hose(bore: \"4.8 mm\", length: \"5 ft\")"),
    ("kits.0.second_port.parts.0", "Hose(bore: \"4.8 mm\", length: \"5 ft\")"),
    ("kits.0.second_port.joins_before", "1"),
];

fn edit(document: &Document, dice: &mut Dice) -> Option<String> {
    if dice.below(3) == 0 {
        let (path, value) = LEFT_OUT[dice.below(LEFT_OUT.len())];
        let value = if dice.below(2) == 0 { value.to_owned() } else { other_value(value, dice) };
        return Some(format!("{path}={value}"));
    }
    let mut leaves = Vec::new();
    collect(&serde_json::to_value(document).ok()?, String::new(), &mut leaves);
    let (path, value) = leaves.get(dice.below(leaves.len()))?;
    if path == "refrigerant" || dice.below(30) == 0 {
        let name = fluid::list().nth(dice.below(fluid::list().len()))?.designation;
        return Some(format!("refrigerant={name}"));
    }
    Some(format!("{path}={}", other_value(value, dice)))
}

fn collect(node: &Value, path: String, leaves: &mut Vec<(String, String)>) {
    let below = |step: &str| if path.is_empty() { step.to_owned() } else { format!("{path}.{step}") };
    match node {
        Value::Object(fields) => fields.iter().for_each(|(name, value)| collect(value, below(name), leaves)),
        Value::Array(entries) => {
            entries.iter().enumerate().for_each(|(at, value)| collect(value, below(&at.to_string()), leaves));
        }
        Value::String(text) => leaves.push((path, text.clone())),
        other => leaves.push((path, other.to_string())),
    }
}

const WORDS: &[&str] = &[
    "none",
    "true",
    "false",
    "0",
    "1",
    "liquid",
    "vapour",
    "both",
    "push_pull",
    "liquid_then_vapour",
    "universal",
    "electronic",
    "induction",
    "duty",
    "nameplate",
    "delayed",
    "equilibrium",
    "homogeneous",
    "mueller_steinhagen_heck",
    "coiled",
    "aluminium",
    "loaded",
    "used",
    "rule",
    "from properties",
    "tail",
];

/// Another number in the same unit, near or far; another word.
fn other_value(value: &str, dice: &mut Dice) -> String {
    let unit_at = value.find(|c: char| !(c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | ',' | '/')));
    let (number, unit) = value.split_at(unit_at.unwrap_or(value.len()));
    let Ok(number) = number.parse::<f64>() else {
        return WORDS[dice.below(WORDS.len())].to_owned();
    };
    let spread = [0.02, 0.5, 2.0, 6.0][dice.below(4)];
    let changed = match dice.below(16) {
        0 => 0.0,
        1 => -number,
        2 => 1e-3,
        3 => 1.0,
        // A multiple of ten or so, and what is added where zero means nothing (degF).
        4..=8 => number + spread * 50.0 * (dice.share() - 0.5),
        _ => number * 10_f64.powf(spread * (dice.share() - 0.5)),
    };
    match dice.below(2) {
        0 => format!("{changed:.3}{unit}"),
        _ => format!("{changed:.6e}{unit}"),
    }
}

/// A small generator of chance: the same seed gives the same edits.
struct Dice(u64);

impl Dice {
    /// # Source
    /// SplitMix64, public domain; from memory.
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    fn below(&mut self, count: usize) -> usize {
        (self.next() % count.max(1) as u64) as usize
    }

    fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }
}
