//! Each caution fires on its trigger and keeps silent without it.

mod documents;

use documents::{preset, with};
use narrows::advice::Caution;
use narrows::power::Grade;
use narrows::report::{SolvedKit, solve_document};

fn first_kit(scenario: &str, changes: &[(&str, &str)]) -> SolvedKit {
    solve_document(&with(preset(scenario), changes)).unwrap().remove(0)
}

fn find<'a>(kit: &'a SolvedKit, id: &str) -> Option<&'a Caution> {
    kit.cautions.iter().find(|caution| caution.id == id)
}

/// Scenario, the change that triggers, the caution, its grade, and whether the rate is withheld.
type Trigger = (&'static str, &'static [(&'static str, &'static str)], &'static str, Grade, bool);

const TRIGGERS: &[Trigger] = &[
    ("bakery-freezer", &[("refrigerant", "R-290")], "class-not-marked", Grade::Stop, true),
    ("bakery-freezer", &[("refrigerant", "R-123")], "low-pressure-refrigerant", Grade::Stop, true),
    (
        "reference-kits",
        &[("source.port", "liquid"), ("machine.takes_liquid", "false")],
        "liquid-refused",
        Grade::Stop,
        true,
    ),
    ("reference-kits", &[("machine.cut_out", "300 psig")], "cut-out-trips", Grade::Warning, true),
    ("reference-kits", &[("machine.cut_out", "330 psig")], "cut-out-margin", Grade::Warning, false),
    ("reference-kits", &[("source.port", "liquid")], "trapped-liquid", Grade::Warning, false),
    ("reference-kits", &[("cylinder.temperature", "126 degF")], "warm-cylinder", Grade::Warning, false),
    (
        "long-cord",
        &[("supply.cords.1", "(gauge: \"12 AWG\", length: \"25 ft\")")],
        "cords-in-series",
        Grade::Warning,
        false,
    ),
    ("long-cord", &[("supply.cords.0.lay", "coiled")], "cord-coiled", Grade::Warning, false),
    ("long-cord", &[("supply.branch.breaker", "10 A")], "breaker-exceeded", Grade::Stop, false),
];

#[test]
fn each_fires_on_its_trigger_and_not_without_it() {
    for &(scenario, changes, id, grade, withheld) in TRIGGERS {
        let calm = first_kit(scenario, &[]);
        assert!(find(&calm, id).is_none(), "{id} fires without its trigger");
        let kit = first_kit(scenario, changes);
        let caution = find(&kit, id).unwrap_or_else(|| panic!("{id} does not fire"));
        assert_eq!(caution.grade, grade, "{id}");
        assert_eq!(kit.shown_point().is_err(), withheld, "{id}");
        assert!(caution.text.ends_with('.') && caution.text.len() > 30, "{id}: {}", caution.text);
    }
}

#[test]
fn a_filter_drier_silences_its_warning() {
    assert!(find(&first_kit("reference-kits", &[]), "no-filter-drier").is_some());
    let fitted = [("kits.A.parts.5", "FilterDrier(flow_coefficient: \"0.6 Kv\")")];
    assert!(find(&first_kit("reference-kits", &fitted), "no-filter-drier").is_none());
}

#[test]
fn some_cautions_always_stand_and_stops_come_first() {
    for scenario in ["reference-kits", "long-cord", "market-generator"] {
        let kit = first_kit(scenario, &[]);
        assert!(find(&kit, "cold-liquid").is_some() && find(&kit, "ground-fault").is_some());
        assert!(kit.cautions.is_sorted_by(|a, b| a.grade >= b.grade), "{scenario}");
    }
    assert!(find(&first_kit("market-generator", &[]), "generator").is_some());
    assert!(find(&first_kit("reference-kits", &[]), "generator").is_none());
}

/// Two 16 A machines on one 30 A circuit trip it; one does not.
#[test]
fn several_machines_need_circuits_of_their_own() {
    use narrows::report::solve_jobs;
    let rules = narrows::presets::built_in_rules().unwrap();
    let graded = |machines: &str| {
        let document = with(preset("ice-rink-liquid"), &[("job.machines", machines)]);
        let jobs = solve_jobs(&document, &rules, &|| false).unwrap();
        let cautions = &jobs.kits[0].start.cautions;
        cautions.iter().find(|caution| caution.id == "several-machines").map(|caution| caution.grade)
    };
    assert_eq!(graded("1"), None);
    assert_eq!(graded("2"), Some(Grade::Stop));
}
