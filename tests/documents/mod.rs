//! Built-in documents, with changes typed over them.
#![allow(dead_code, clippy::unwrap_used, clippy::panic, reason = "each test file uses its own part of this")]

use std::borrow::Borrow;
use std::sync::LazyLock;

use narrows::presets::built_in_scenario;
use narrows::scenario::{self, Document};

/// The built-in scenario of this id.
pub fn preset(id: &str) -> Document {
    scenario::read(built_in_scenario(id).unwrap()).unwrap()
}

/// A copy with these fields set, one after the other: path and text.
pub fn with(document: impl Borrow<Document>, edits: &[(&str, &str)]) -> Document {
    let mut document = document.borrow().clone();
    for (path, text) in edits {
        scenario::set(&mut document, path, text).unwrap_or_else(|error| panic!("{error}"));
    }
    document
}

/// The rink with a stock of cylinders, a target by the rules and push-pull: 900 lb ± 10 % of R-22.
pub fn rink() -> Document {
    static RINK: LazyLock<Document> = LazyLock::new(build_rink);
    RINK.clone()
}

fn build_rink() -> Document {
    let mut document = preset("ice-rink-liquid");
    document.cylinder.contents = None;
    for (path, text) in [
        ("date", "2026-11"),
        ("charge_band", "10 %"),
        ("cylinder.test_date", "2024-05"),
        ("cylinder.service_pressure", "400 psig"),
        ("kits.A.parts.1.working_pressure", "55 bar g"),
        ("cylinders.0.temperature", "75 degF"),
        ("cylinders.0.name", "Waiting"),
        ("cylinders.0.water_capacity", "239 lb"),
        ("cylinders.0.tare", "150 lb"),
        ("cylinders.0.in_sun", "false"),
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
        ("source.burnout", "true"),
        ("source.dissolved", "1 %"),
    ] {
        scenario::set(&mut document, path, text).unwrap_or_else(|error| panic!("{error}"));
    }
    assert_eq!(scenario::check(&document), []);
    document
}
