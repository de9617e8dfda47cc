//! Sweeps: order of points, fields that move together, what is refused, and the table.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

mod documents;

use documents::preset;
use narrows::compare::{Axis, CompareError, Figure, Sweep, sweep};
use narrows::report::{swept_csv, swept_json};
use narrows::scenario::{self, Document};
use narrows::units::UnitSet;

fn swept(document: &Document, axes: &[&str]) -> Result<Sweep, CompareError> {
    let axes: Vec<Axis> = axes.iter().map(|text| Axis::parse(text).unwrap()).collect();
    sweep(document, &axes, &|| false)
}

#[test]
fn a_longer_hose_never_recovers_faster() {
    let swept = swept(&preset("reference-kits"), &["kits.A.parts.1.length=5..100 ft:6"]).unwrap();
    let rates: Vec<f64> = swept
        .rows
        .iter()
        .map(|row| row.kits.as_ref().unwrap()[0].headline.si(Figure::Rate).unwrap())
        .collect();
    assert!(rates.windows(2).all(|pair| pair[1] < pair[0]), "{rates:?}");
    let other: Vec<f64> = swept
        .rows
        .iter()
        .map(|row| row.kits.as_ref().unwrap()[1].headline.si(Figure::Rate).unwrap())
        .collect();
    assert!(other.windows(2).all(|pair| pair[1] == pair[0]), "kit B has a hose of its own: {other:?}");
}

#[test]
fn of_two_axes_the_last_moves_fastest() {
    let swept = swept(
        &preset("reference-kits"),
        &["kits.A.parts.1.bore=4..8 mm:2", "kits.A.parts.1.length=5..25 ft:3"],
    )
    .unwrap();
    let at: Vec<&[f64]> = swept.rows.iter().map(|row| row.numbers.as_slice()).collect();
    assert_eq!(at, [[4.0, 5.0], [4.0, 15.0], [4.0, 25.0], [8.0, 5.0], [8.0, 15.0], [8.0, 25.0]]);
}

/// Where to put the machine: what the hose gains the cord loses.
#[test]
fn fields_can_move_together() {
    let axis = "kits.A.parts.1.length=5..95 ft & supply.cords.0.length=95..5 ft:3";
    let swept = swept(&preset("long-cord"), &[axis]).unwrap();
    let at: Vec<&[f64]> = swept.rows.iter().map(|row| row.numbers.as_slice()).collect();
    assert_eq!(at, [[5.0, 95.0], [50.0, 50.0], [95.0, 5.0]]);
    let figure = |row: usize, figure| swept.rows[row].kits.as_ref().unwrap()[0].headline.si(figure).unwrap();
    assert!(figure(2, Figure::Rate) < figure(0, Figure::Rate));
    assert!(figure(2, Figure::RunningVoltage) > figure(0, Figure::RunningVoltage));
}

#[test]
fn a_value_out_of_range_is_told_at_its_point() {
    let swept = swept(&preset("reference-kits"), &["kits.A.parts.0.bore=0..2 mm:2"]).unwrap();
    let fault = swept.rows[0].kits.as_ref().unwrap_err();
    assert!(fault.contains("kits.A.parts.0.bore") && fault.contains("0 mm"), "{fault}");
    assert!(swept.rows[1].kits.is_ok());
}

#[test]
fn what_cannot_be_swept_is_refused() {
    let document = preset("reference-kits");
    let refused = |axes: &[&str]| swept(&document, axes).unwrap_err().to_string();
    assert!(refused(&["kits.A.parts.0.bor=1..2 mm"]).contains("did you mean \"bore\""));
    assert!(refused(&["kits.A.parts.0.bore=1..2"]).contains("no unit"));
    assert!(refused(&["kits.A.parts.0.bore=1..2 degF"]).contains("degF"));
    assert!(refused(&["kits.A.parts.0.bore=1..2 mm:20000"]).contains("20000"));
    assert!(refused(&[]).contains("0 points"));
    let three = ["kits.A.parts.0.bore=1..2 mm:2"; 3];
    assert!(refused(&three).contains("one or two axes"));
    let huge = format!("kits.A.parts.0.bore=1..2 mm:{}", usize::MAX);
    assert!(refused(&[&huge, &huge]).contains("points to sweep"));
}

#[test]
fn stopping_keeps_what_was_solved() {
    let axes = [Axis::parse("kits.A.parts.1.length=5..25 ft:3").unwrap()];
    let swept = sweep(&preset("reference-kits"), &axes, &|| true).unwrap();
    assert!(swept.stopped && swept.rows.is_empty());
}

/// The table has the point, the kit and its figures; it agrees with the solver's own answer.
#[test]
fn the_table_holds_a_line_for_each_point_and_kit() {
    let document = preset("reference-kits");
    let swept = swept(&document, &["kits.A.parts.1.length=5..25 ft:2"]).unwrap();
    let text = swept_csv(&swept, UnitSet::US_TRADE).unwrap();
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let header = reader.headers().unwrap().clone();
    let column = |name: &str| header.iter().position(|one| one == name).unwrap_or_else(|| panic!("{name}"));
    let rows: Vec<csv::StringRecord> = reader.records().collect::<Result<_, _>>().unwrap();
    assert_eq!(rows.len(), 2 * 3);
    assert_eq!(&rows[3][column("kits.A.parts.1.length (ft)")], "25");
    assert_eq!(&rows[3][column("kit")], "A");
    let rate: f64 = rows[0][column("rate_kg_s")].parse().unwrap();
    let setups = scenario::resolve(&document).unwrap();
    let point = narrows::job::solve(&setups[0].setup).point.unwrap();
    assert_eq!(rate, point.mass_flow.value);
    // 1 lb = 0.45359237 kg, exactly.
    let lb_min: f64 = rows[0][column("rate_lb_min")].parse().unwrap();
    assert!((lb_min - rate * 60.0 / 0.453_592_37).abs() < 1e-12);
}

/// A Stop withholds rates here too: this machine is not marked for the refrigerant.
#[test]
fn a_stop_withholds_the_rates_of_a_sweep() {
    let mut document = preset("reference-kits");
    scenario::set(&mut document, "machine.suitable_for", "A2L").unwrap();
    let swept = swept(&document, &["kits.A.parts.1.length=5..25 ft:2"]).unwrap();
    let value = swept_json(&document, &swept, UnitSet::SI);
    let kit = &value["points"][0]["kits"][0];
    assert!(kit["rate_kg_s"].is_null() && kit["machine_inlet_pa"].is_null());
    assert!(kit["running_v"].is_f64());
    assert!(kit["no_answer"].as_str().unwrap().contains("not marked"));
}
