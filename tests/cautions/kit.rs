//! Refrigerant, machine, path and cylinder in use. Triggers are common practice of the trade; classes
//! by ASHRAE 34.

use super::{Case, raised};
use narrows::power::Grade::{Note, Stop, Warning};

pub const CASES: &[Case] = &[
    raised("class-not-marked", Stop, "bakery-freezer", &[("refrigerant", "R-290")], "A3").without_rate(),
    raised("low-pressure-refrigerant", Stop, "bakery-freezer", &[("refrigerant", "R-123")], "low-pressure")
        .without_rate(),
    raised(
        "liquid-refused",
        Stop,
        "reference-kits",
        &[("source.port", "liquid"), ("machine.takes_liquid", "false")],
        "not rated for liquid",
    )
    .without_rate(),
    // R-410A condenses at 100 °F and 318 psig (CoolProp 8.0.0): over 300, within a tenth of 330.
    raised("cut-out-trips", Warning, "reference-kits", &[("machine.cut_out", "300 psig")], "Never bypass")
        .without_rate(),
    raised("cut-out-margin", Warning, "reference-kits", &[("machine.cut_out", "330 psig")], "within"),
    raised("no-filter-drier", Warning, "reference-kits", &[], "acid")
        .unless(&[("kits.A.parts.5", "FilterDrier(flow_coefficient: \"0.6 Kv\")")]),
    raised("trapped-liquid", Warning, "reference-kits", &[("source.port", "liquid")], "bursts hoses"),
    raised("warm-cylinder", Warning, "reference-kits", &[("cylinder.temperature", "126 degF")], "125 °F")
        .unless(&[("cylinder.temperature", "124 degF")]),
    raised("cold-liquid", Note, "reference-kits", &[], "gloves").always(),
];
