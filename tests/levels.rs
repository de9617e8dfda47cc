//! Evacuation levels: every row of the published table, its exceptions, and the document's fields
//! and cautions about cylinders, method and level.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test stops where it fails")]

use narrows::advice::{Caution, limit_cautions};
use narrows::fluid::{PressureClass, Refrigerant};
use narrows::job::*;
use narrows::power::Grade;
use narrows::presets::{built_in_rules, scenarios};
use narrows::scenario::{self, Document, resolve_limits};
use narrows::units::TypedPressure;
use narrows::units::factors::{POUND_KG, PSI_PA};
use std::sync::LazyLock;
use uom::si::f64::*;
use uom::si::mass::kilogram;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

fn lb(value: f64) -> Mass {
    Mass::new::<kilogram>(value * POUND_KG)
}

fn standard_air() -> Pressure {
    Pressure::new::<pascal>(101_325.0)
}

fn table() -> LevelTable {
    built_in_rules().unwrap().levels.table()
}

fn ask(charge_lb: f64, made: MachineMade) -> LevelAsk {
    LevelAsk {
        machine_made: Some(made),
        full_charge: Some((lb(charge_lb), lb(charge_lb))),
        ..LevelAsk::default()
    }
}

fn level(name: &str, ask: &LevelAsk) -> RequiredLevel {
    let refrigerant = Refrigerant::load(name).unwrap();
    required_level(&refrigerant, ask, &table(), standard_air(), None)
        .unwrap_or_else(|error| panic!("{error}"))
}

#[track_caller]
fn check(name: &str, charge_lb: f64, before_inhg: f64, since_inhg: f64, since_kpa: f64) {
    let before = level(name, &ask(charge_lb, MachineMade::Before));
    let since = level(name, &ask(charge_lb, MachineMade::Since));
    assert!((before.vacuum_inhg() - before_inhg).abs() < 1e-9, "{name} {charge_lb} lb before: {before:?}");
    assert!((since.vacuum_inhg() - since_inhg).abs() < 1e-9, "{name} {charge_lb} lb since: {since:?}");
    let kpa = since.absolute.get::<pascal>() / 1e3;
    assert!((kpa - since_kpa).abs() < 0.006, "{name} {charge_lb} lb: {kpa} kPa");
    assert_eq!(since.source, "40 CFR 82.156 Table 1");
    assert!(since.edition.contains("2016"), "the date is shown");
}

/// 40 CFR 82.156 Table 1, inHg below 29.9 inHg, machines made before and since 15 November 1993,
/// and kPa absolute for the newer ones: every row, by refrigerants of that class.
#[test]
fn every_row_of_the_published_table() {
    check("R-32", 10.0, 0.0, 0.0, 101.25);
    check("R-23", 500.0, 0.0, 0.0, 101.25);
    check("R-744", 500.0, 0.0, 0.0, 101.25);
    check("R-410A", 22.0, 0.0, 0.0, 101.25);
    check("R-22", 199.9, 0.0, 0.0, 101.25);
    check("R-22", 200.0, 4.0, 10.0, 67.39);
    check("R-22", 900.0, 4.0, 10.0, 67.39);
    check("R-404A", 320.0, 4.0, 10.0, 67.39);
    check("R-134a", 30.0, 4.0, 10.0, 67.39);
    check("R-12", 30.0, 4.0, 10.0, 67.39);
    check("R-134a", 480.0, 4.0, 15.0, 50.46);
}

/// 25 mm Hg absolute: 3.333 kPa, whatever the machine.
#[test]
fn low_pressure_appliances() {
    for (name, charge_lb) in [("R-123", 10.0), ("R-123", 900.0), ("R-11", 300.0)] {
        for made in [MachineMade::Before, MachineMade::Since] {
            let got = level(name, &ask(charge_lb, made));
            assert!((got.absolute.get::<pascal>() - 3333.06).abs() < 0.01, "{got:?}");
            assert_eq!((got.class, got.stated.as_str()), (PressureClass::Low, "25 mmHg abs"));
        }
    }
}

/// 40 CFR 82.152 with saturation pressures at 104 °F by CoolProp 8.0.0.
#[test]
fn classes_and_the_pressure_they_are_read_from() {
    for (name, psia, class) in [
        ("R-22", 222.4, PressureClass::High),
        ("R-134a", 147.4, PressureClass::Medium),
        ("R-410A", 351.8, PressureClass::High),
        ("R-404A", 265.4, PressureClass::High),
        ("R-407C", 253.7, PressureClass::High),
        ("R-507A", 271.1, PressureClass::High),
        ("R-32", 359.4, PressureClass::VeryHigh),
        ("R-1234yf", 147.7, PressureClass::Medium),
        ("R-290", 198.6, PressureClass::High),
        ("R-600a", 77.0, PressureClass::Medium),
        ("R-717", 225.5, PressureClass::High),
        ("R-123", 22.4, PressureClass::Low),
        ("R-11", 25.3, PressureClass::Low),
        ("R-12", 139.1, PressureClass::Medium),
        ("R-114", 49.1, PressureClass::Medium),
        ("R-1233zd(E)", 31.3, PressureClass::Low),
    ] {
        let got = level(name, &ask(30.0, MachineMade::Since));
        assert_eq!(got.class, class, "{name}");
        let got_psia = got.class_pressure.unwrap().get::<pascal>() / PSI_PA;
        assert!((got_psia - psia).abs() < 0.1, "{name}: {got_psia}");
    }
    assert_eq!(level("R-23", &ask(5.0, MachineMade::Since)).class_pressure, None, "critical below 104 °F");
}

/// R-410A lies 0.9 % below and R-32 1.2 % above the 355 psia between high and very high.
#[test]
fn near_the_edge_of_a_class_it_is_said() {
    let near = |name: &str| {
        level(name, &ask(30.0, MachineMade::Since)).notes.into_iter().find_map(|note| match note {
            LevelNote::NearEdge { edge_psia, other, .. } => Some((edge_psia, other)),
            _ => None,
        })
    };
    assert_eq!(near("R-410A"), Some((355.0, PressureClass::VeryHigh)));
    assert_eq!(near("R-32"), Some((355.0, PressureClass::High)));
    assert_eq!(near("R-22"), None);
}

/// 40 CFR 82.158 Table 2 differs for high-pressure refrigerants other than R-22 (10 and 15 inHg);
/// a summary page gives 10 inHg for R-134a at 200 lb and more.
#[test]
fn where_published_tables_differ_the_level_is_to_be_confirmed() {
    let others = |name: &str, charge_lb: f64, made: MachineMade| -> Vec<String> {
        level(name, &ask(charge_lb, made)).confirm.into_iter().map(|other| other.stated).collect()
    };
    assert_eq!(others("R-134a", 480.0, MachineMade::Since), ["10 inHg vac"]);
    assert_eq!(others("R-134a", 30.0, MachineMade::Since), [""; 0]);
    assert_eq!(others("R-410A", 22.0, MachineMade::Since), ["10 inHg vac"]);
    assert_eq!(others("R-410A", 300.0, MachineMade::Since), ["15 inHg vac"]);
    assert_eq!(others("R-410A", 22.0, MachineMade::Before), ["4 inHg vac"]);
    assert_eq!(others("R-410A", 300.0, MachineMade::Before), [""; 0]);
    assert_eq!(others("R-22", 22.0, MachineMade::Since), [""; 0]);
    assert_eq!(others("R-22", 900.0, MachineMade::Since), [""; 0]);
}

#[test]
fn what_is_not_known_takes_the_deeper_level_and_says_so() {
    let unknown = LevelAsk::default();
    let got = level("R-22", &unknown);
    assert_eq!(got.stated, "10 inHg vac");
    assert!(got.notes.contains(&LevelNote::ChargeUnknown), "{:?}", got.notes);
    assert!(got.notes.iter().any(|note| matches!(note, LevelNote::MachineDateAssumed { .. })));
    let across = LevelAsk { full_charge: Some((lb(180.0), lb(220.0))), ..ask(0.0, MachineMade::Since) };
    let got = level("R-22", &across);
    assert_eq!(got.stated, "10 inHg vac");
    assert!(got.notes.iter().any(|note| matches!(note, LevelNote::ChargeAcrossRows { .. })));
    // No doubt where it makes no difference.
    assert_eq!(level("R-32", &unknown).notes.len(), 1, "only that it is near the edge");
}

/// 40 CFR 82.156: leaks, evacuate to the lowest attainable, no more than 0 psig. Small appliances:
/// 90 % with a running compressor, 80 % without or with a machine made before the date, or 4 inHg.
#[test]
fn leaks_and_small_appliances() {
    let leaking = LevelAsk { leak: true, ..ask(900.0, MachineMade::Since) };
    let got = level("R-22", &leaking);
    assert_eq!((got.absolute, got.stated.as_str()), (standard_air(), "0 psig"));
    assert!(matches!(got.basis, LevelBasis::Leak(_)));

    let small = |charge_lb: f64, runs: CompressorRuns, made: MachineMade| {
        level("R-134a", &LevelAsk { small_appliance: Some(runs), ..ask(charge_lb, made) })
    };
    for (runs, made, share) in [
        (CompressorRuns::Yes, MachineMade::Since, 0.9),
        (CompressorRuns::No, MachineMade::Since, 0.8),
        (CompressorRuns::Yes, MachineMade::Before, 0.8),
    ] {
        let got = small(0.5, runs, made);
        assert!((got.vacuum_inhg() - 4.0).abs() < 1e-9);
        let LevelBasis::SmallAppliance { recover, .. } = got.basis else { panic!("{:?}", got.basis) };
        assert_eq!(recover.get::<ratio>(), share);
    }
    let too_much = small(6.0, CompressorRuns::Yes, MachineMade::Since);
    assert_eq!(too_much.stated, "10 inHg vac");
    assert!(too_much.notes.iter().any(|note| matches!(note, LevelNote::NoSmallAppliance { .. })));
    let perhaps = level("R-134a", &ask(4.0, MachineMade::Since));
    assert!(perhaps.notes.iter().any(|note| matches!(note, LevelNote::MaybeSmallAppliance { .. })));
}

#[test]
fn a_level_of_ones_own() {
    let given = |text: &str| {
        let ask =
            LevelAsk { given: Some(TypedPressure::parse(text).unwrap()), ..ask(900.0, MachineMade::Since) };
        required_level(&Refrigerant::load("R-22").unwrap(), &ask, &table(), standard_air(), None)
    };
    let is_shallow = |level: &RequiredLevel| {
        level.notes.iter().any(|note| matches!(note, LevelNote::ShallowerThanTable { .. }))
    };
    let same = given("10 inHg vac").unwrap();
    // 101 325 − 10 · 3386.389 Pa
    assert!((same.absolute.get::<pascal>() - 67_461.1).abs() < 0.1);
    assert!(same.basis == LevelBasis::Given && !is_shallow(&same), "{same:?}");
    assert!(is_shallow(&given("0 psig").unwrap()));
    assert!(!is_shallow(&given("15 inHg vac").unwrap()));
    assert!(matches!(given("31 inHg vac"), Err(LevelError::BelowVacuum { .. })));
}

/// 5000 ft: 84.307 kPa (ICAO standard atmosphere). 10 inHg below 29.9 inHg is 67.39 kPa absolute
/// there too; its gauge reads 16.92 kPa of vacuum, 5.0 inHg. 0 inHg lies above that air.
#[test]
fn levels_are_counted_as_the_rule_counts_them_at_any_height() {
    let air = Pressure::new::<pascal>(84_307.0);
    let at = |charge_lb: f64| {
        let ask = ask(charge_lb, MachineMade::Since);
        required_level(&Refrigerant::load("R-22").unwrap(), &ask, &table(), air, None).unwrap()
    };
    assert!((at(900.0).absolute.get::<pascal>() - 67_389.1).abs() < 0.5);
    assert!((at(900.0).gauge(air).above_ambient_pa() + 16_918.0).abs() < 5.0);
    assert!(at(22.0).gauge(air).above_ambient_pa() > 16_000.0);
}

#[test]
fn a_table_without_a_row_and_an_old_one_are_said() {
    let refrigerant = Refrigerant::load("R-22").unwrap();
    let mut poor = table();
    poor.rows.retain(|row| row.class != PressureClass::High);
    let error = required_level(&refrigerant, &ask(9.0, MachineMade::Since), &poor, standard_air(), None);
    let words = error.unwrap_err().to_string();
    assert!(words.contains("high-pressure") && words.contains("9 to 9 lb"), "{words}");
    let late = Some(YearMonth::parse("2031-01").unwrap());
    let got =
        required_level(&refrigerant, &ask(9.0, MachineMade::Since), &table(), standard_air(), late).unwrap();
    assert!(got.notes.iter().any(|note| matches!(note, LevelNote::ReviewDue { .. })));
}

// The document.

fn rink() -> Document {
    static RINK: LazyLock<Document> = LazyLock::new(build_rink);
    RINK.clone()
}

fn build_rink() -> Document {
    let preset = scenarios().iter().find(|preset| preset.id == "ice-rink-liquid").unwrap();
    let mut document = scenario::read(preset.text).unwrap();
    document.cylinder.contents = None;
    for (path, text) in [
        ("date", "2026-11"),
        ("charge_band", "10 %"),
        ("cylinder.test_date", "2024-05"),
        ("cylinder.service_pressure", "400 psig"),
        ("cylinders.0.temperature", "75 degF"),
        ("cylinders.0.name", "Waiting"),
        ("cylinders.0.water_capacity", "239 lb"),
        ("cylinders.0.tare", "150 lb"),
        ("cylinders.0.test_date", "2023-02"),
        ("cylinders.0.count", "5"),
        ("target.level", "rule"),
        ("target.machine_made", "since_1993"),
        ("target.wait", "20 min"),
        ("target.rechecks", "2"),
        ("job.method", "push_pull"),
        ("job.change_over", "5 %"),
        ("job.hose_change", "15 min"),
        ("job.swap", "8 min"),
        ("job.set_up", "30 min"),
        ("job.pack_up", "20 min"),
        ("job.deadline", "6 h"),
        ("job.machines", "2"),
        ("job.machine_ports", "separate"),
        ("source.metal_heat_capacity", "40 kJ/K"),
        ("source.heat_gain", "30 W/K"),
        ("source.isothermal", "true"),
        ("source.unreachable", "5 %"),
        ("source.dissolved", "1 %"),
    ] {
        scenario::set(&mut document, path, text).unwrap_or_else(|error| panic!("{error}"));
    }
    assert_eq!(scenario::check(&document), []);
    document
}

fn limits(document: &Document) -> (JobLimits, Vec<Caution>) {
    let ask =
        resolve_limits(document, &built_in_rules().unwrap()).unwrap_or_else(|faults| panic!("{faults:?}"));
    let limits = job_limits(&ask);
    let cautions = limit_cautions(&ask, &limits);
    (limits, cautions)
}

/// 900 lb ± 10 % of R-22 into cylinders of 239 lb WC: 191.2 lb each, 5 likely, 6 for 990 lb; 10 inHg.
#[test]
fn a_rink_from_document_to_answer() {
    let document = rink();
    let text = scenario::write(&document).unwrap();
    assert_eq!(scenario::read(&text).unwrap(), document, "{text}");
    assert!(text.contains("\"8 min\"") && text.contains("\"2024-05\"") && text.contains("since_1993"));
    let (limits, cautions) = limits(&document);
    assert_eq!(limits.cylinders.len(), 6);
    let schedule = limits.schedule.unwrap();
    assert_eq!((schedule.likely_count, schedule.high_count, schedule.more), (5, 6, None));
    assert_eq!(limits.level.unwrap().stated, "10 inHg vac");
    assert_eq!(limits.unsuited, []);
    let ids: Vec<&str> = cautions.iter().map(|caution| caution.id).collect();
    assert_eq!(
        ids,
        ["cylinders-just-enough", "push-pull", "not-dry", "heavy-cylinder", "residue-in-hoses"],
        "{cautions:?}"
    );
}

#[track_caller]
fn fires(changes: &[(&str, &str)], id: &str, grade: Grade, needle: &str) {
    let mut document = rink();
    assert!(limits(&document).1.iter().all(|caution| caution.id != id), "{id} fires without cause");
    for (path, text) in changes {
        scenario::set(&mut document, path, text).unwrap_or_else(|error| panic!("{error}"));
    }
    let (_, cautions) = limits(&document);
    let caution = cautions.iter().find(|caution| caution.id == id).unwrap_or_else(|| panic!("{cautions:?}"));
    assert_eq!(caution.grade, grade, "{id}");
    assert!(caution.text.contains(needle), "{}", caution.text);
    assert!(
        !caution.withholds && caution.text.ends_with('.') && !caution.text.starts_with(char::is_lowercase)
    );
}

#[test]
fn every_caution_fires_on_its_trigger_and_not_without() {
    use Grade::{Note, Stop, Warning};
    fires(
        &[("cylinder.contents", "200 lb"), ("cylinder.refrigerant", "r22")],
        "cylinder-over-limit",
        Stop,
        "8.8 lb",
    );
    fires(&[("cylinder.disposable", "yes")], "cylinder-disposable", Stop, "disposable");
    fires(&[("cylinders.Waiting.damaged", "yes")], "cylinder-damaged", Stop, "Waiting (1 of 5)");
    fires(&[("cylinders.Waiting.damaged", "yes")], "cylinder-damaged", Stop, "and so for 4 more");
    fires(&[("date", "2029-06")], "cylinder-out-of-date", Stop, "2024-05");
    fires(&[("cylinder.refrigerant", "R-404A")], "cylinder-other-refrigerant", Stop, "R-404A");
    fires(&[("cylinder.refrigerant", "unknown")], "cylinder-other-refrigerant", Stop, "unknown");
    fires(&[("cylinder.service_pressure", "100 psig")], "cylinder-too-weak", Stop, "100 psig");
    fires(&[("refrigerant", "R-23"), ("source.temperature", "-40 degC")], "cylinder-no-limit", Stop, "55 °C");
    fires(&[("job.scale_capacity", "250 lb")], "scale-too-small", Stop, "250.0 lb");
    fires(&[("cylinders.Waiting.count", "3")], "cylinders-too-few", Warning, "Bring 2 more");
    fires(
        &[("cylinder.disposable", "yes"), ("cylinders", "none")],
        "cylinders-too-few",
        Warning,
        "no usable cylinder for 990.0 lb",
    );
    fires(&[("cylinders.Waiting.temperature", "130 degF")], "waiting-cylinder-warm", Warning, "125 °F");
    fires(&[("source.liquid_port", "no")], "no-liquid-port", Warning, "no liquid connection");
    fires(&[("source.charge", "12 lb")], "method-unsuited", Note, "15 lb");
    fires(&[("source.reversing_valve", "yes")], "method-unsuited", Note, "reversing valve");
    fires(&[("source.accumulator", "yes")], "method-unsuited", Note, "accumulator");
    fires(&[("source.receiver_volume", "5 L")], "method-unsuited", Note, "receiver");
    fires(
        &[("target.leak", "yes"), ("target.level", "10 inHg vac")],
        "level-below-zero-with-leak",
        Warning,
        "air",
    );
    fires(&[("target.leak", "yes")], "level-condition", Note, "0 psig");
    fires(&[("refrigerant", "R-134a")], "level-to-confirm", Warning, "10 inHg vac");
    fires(&[("target.level", "29.95 inHg vac")], "level-unknown", Warning, "vacuum");
    fires(&[("target.machine_made", "none")], "level-note", Note, "1993");
    fires(
        &[("ambient.altitude", "5000 ft"), ("source.charge", "50 lb")],
        "level-above-air",
        Note,
        "29.9 inHg",
    );
    fires(&[("cylinder.tare", "none")], "cylinder-note", Note, "tare");
    fires(&[("cylinder.contents", "5 lb")], "cylinder-note", Note, "make sure");
}

/// Ten alike need no ten lines.
#[test]
fn cylinders_alike_share_a_line() {
    let mut document = rink();
    scenario::set(&mut document, "date", "2029-06").unwrap();
    let count = |document: &Document| {
        limits(document).1.iter().filter(|caution| caution.id == "cylinder-out-of-date").count()
    };
    assert_eq!(count(&document), 2, "the one in use, and five that wait");
    scenario::set(&mut document, "cylinders.0.count", "200").unwrap();
    assert_eq!(count(&document), 2);
}

#[test]
fn push_pull_is_warned_of_and_vapour_is_not() {
    let mut document = rink();
    let words = |document: &Document| {
        limits(document).1.into_iter().find(|caution| caution.id == "push-pull").unwrap().text
    };
    assert!(words(&document).contains("Nothing is kept free") && words(&document).contains("30 s"));
    scenario::set(&mut document, "job.siphon_allowance", "11 lb").unwrap();
    assert!(words(&document).contains("11.0 lb"));
    let gross = limits(&document).0.cylinders[0].stop_gross.unwrap();
    // 150 + 0.8 · 239 − 11
    assert!((gross.get::<kilogram>() / POUND_KG - 330.2).abs() < 1e-9);
    for method in ["vapour", "vapor", "liquid_then_vapour", "liquid then vapour"] {
        scenario::set(&mut document, "job.method", method).unwrap();
        assert!(limits(&document).1.iter().all(|caution| caution.id != "push-pull"), "{method}");
    }
}

#[test]
fn rules_of_ones_own_replace_the_built_in_ones() {
    let mut document = rink();
    let mut own = built_in_rules().unwrap();
    own.levels.title = "House rule".to_owned();
    for row in &mut own.levels.rows {
        row.since = TypedPressure::parse("20 inHg vac").unwrap();
    }
    document.rules = Some(narrows::kit::OwnRules { filling: None, levels: Some(own.levels) });
    let text = scenario::write(&document).unwrap();
    assert_eq!(scenario::read(&text).unwrap(), document, "the document carries them");
    let level = limits(&document).0.level.unwrap();
    assert_eq!((level.source.as_str(), level.stated.as_str()), ("House rule", "20 inHg vac"));
    scenario::set(&mut document, "filling.fill", "70 %").unwrap();
    let (limits, _) = limits(&document);
    let (kind, net) = limits.cylinders[0].lowest.unwrap();
    assert_eq!(kind, FillRuleKind::WaterCapacity);
    assert!((net.get::<kilogram>() / POUND_KG - 0.7 * 239.0).abs() < 1e-9);
}

#[track_caller]
fn faulty(path: &str, text: &str, needle: &str) {
    let mut document = rink();
    scenario::set(&mut document, path, text).unwrap_or_else(|error| panic!("{error}"));
    let faults = scenario::check(&document);
    assert!(
        faults.iter().any(|fault| fault.path == path && fault.message.contains(needle)),
        "{path} = {text}: {faults:?}"
    );
    assert_eq!(resolve_limits(&document, &built_in_rules().unwrap()).unwrap_err(), faults);
}

#[test]
fn bad_values_are_refused_with_path_and_expectation() {
    faulty("charge_band", "95 %", "0 to 90 %");
    faulty("cylinder.count", "2", "under cylinders");
    faulty("cylinders.0.count", "0", "1 to 200");
    faulty("cylinders.0.water_capacity", "0 lb", "0.1 kg");
    faulty("cylinder.marking_limit", "0 lb", "10 g");
    faulty("cylinder.service_pressure", "5 inHg vac", "vacuum");
    faulty("filling.fill", "100 %", "10 to 90 %");
    faulty("filling.hot_temperature", "20 degC", "40 to 100 degC");
    faulty("filling.retest_years", "0", "1 to 20");
    faulty("job.machines", "0", "1 to 20");
    faulty("job.change_over", "120 %", "0 to 1");
    faulty("job.swap", "-1 min", "0 s");
    faulty("target.level", "40 inHg vac", "absolute vacuum");
    faulty("target.rechecks", "99", "0 to 20");
    faulty("source.dissolved", "2", "0 to 1");
    let mut document = rink();
    for (path, text, needle) in [
        ("date", "yesterday", "2024-05"),
        ("cylinder.test_date", "2024-13", "1 to 12"),
        ("target.level", "10", "rule"),
        ("target.machine_made", "1992", "before_1993"),
        ("job.method", "siphon", "push_pull"),
        ("job.tea", "20 min", "set_up"),
    ] {
        let error = scenario::set(&mut document, path, text).unwrap_err().to_string();
        assert!(error.contains(needle), "{error}");
    }
    assert_eq!(document, rink());
}

/// Files from before these fields open, and their limits are worked out.
#[test]
fn older_documents_have_limits_too() {
    for preset in scenarios() {
        let document = scenario::read(preset.text).unwrap();
        let (limits, cautions) = limits(&document);
        assert!(limits.level.is_ok(), "{}", preset.id);
        assert!(cautions.iter().all(|caution| caution.grade != Grade::Stop), "{}: {cautions:?}", preset.id);
    }
}

/// A level that a person typed is not laid at the rule's door.
#[test]
fn a_typed_level_names_no_rule() {
    use narrows::presets::{built_in_rules, built_in_scenario};
    use narrows::scenario::{read, resolve_limits};
    let origin = |scenario: &str| {
        let document = read(built_in_scenario(scenario).unwrap()).unwrap();
        let ask = resolve_limits(&document, &built_in_rules().unwrap()).unwrap();
        job_limits(&ask).level.unwrap().origin()
    };
    assert!(origin("ice-rink-liquid").contains("40 CFR 82.156"));
    assert!(!origin("reference-tail").contains("CFR"));
}
