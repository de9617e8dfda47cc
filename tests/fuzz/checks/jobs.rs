//! Edited scenarios, solved, followed and written out.

use narrows::advice::diagnose::{diagnose, fit_log};
use narrows::job::over_time::JobAnswer;
use narrows::presets::built_in_rules;
use narrows::report::{
    jobs_csv, jobs_json, jobs_table, solve_document, solve_jobs, solved_json, solved_table,
};
use narrows::scenario::{Document, log_of, readings_of};
use narrows::units::UnitSet;
use uom::si::mass::kilogram;

use super::budget::in_time;
use super::edits::edited;

/// Solves what a document asks for. Every answer is a number or a sentence.
pub fn job(data: &[u8]) {
    let Ok(text) = str::from_utf8(data) else { return };
    let document = edited(text);
    in_time("solving the operating points", || points(&document));
    in_time("following the jobs", || jobs(&document));
    in_time("finding the cause", || causes(&document));
}

fn points(document: &Document) {
    let Ok(kits) = solve_document(document) else { return };
    for kit in &kits {
        if let Ok(point) = &kit.answer.point {
            assert!(
                point.mass_flow.value.is_finite() && point.mass_flow.value >= 0.0,
                "{:?}",
                point.mass_flow
            );
            assert!(point.machine_inlet_pressure.value > 0.0, "{:?}", point.machine_inlet_pressure);
            let system_pa = point.system_pressure.value;
            for part in &point.parts {
                let (inlet, outlet) = (part.inlet_pressure.value, part.outlet_pressure.value);
                assert!(
                    inlet.is_finite() && outlet.is_finite() && outlet > 0.0,
                    "{inlet} {outlet} {system_pa}"
                );
            }
        }
    }
    let _ = solved_table(document, &kits, UnitSet::US_TRADE);
    let _ = solved_json(document, &kits, UnitSet::SI);
}

fn jobs(document: &Document) {
    let rules = built_in_rules().expect("the built-in rules read");
    let Ok(jobs) = solve_jobs(document, &rules, &|| false) else { return };
    for job in &jobs.kits {
        if let Ok(answer) = &job.answer {
            keeps_mass(answer, job.setup.system.charge.get::<kilogram>());
        }
    }
    let _ = jobs_table(document, &jobs, UnitSet::US_TRADE);
    let _ = jobs_csv(&jobs);
    let _ = jobs_json(document, &jobs, UnitSet::SI);
}

fn keeps_mass(answer: &JobAnswer, charge_kg: f64) {
    let whole = (answer.recovered + answer.remaining).get::<kilogram>();
    assert!((whole / charge_kg - 1.0).abs() < 1e-6, "{whole} kg of {charge_kg} kg");
    assert!(answer.total.value.is_finite() && answer.total.value >= 0.0);
    let trace = &answer.trace;
    assert!(trace.time_s.windows(2).all(|pair| pair[0] <= pair[1]), "time runs backwards");
    assert!(trace.rate_kg_s.iter().chain(&trace.system_pa).all(|value| value.is_finite()));
}

fn causes(document: &Document) {
    if let Ok(setup) = readings_of(document) {
        let _ = diagnose(&setup);
    }
    if let Ok(setup) = log_of(document) {
        let _ = fit_log(&setup);
    }
}
