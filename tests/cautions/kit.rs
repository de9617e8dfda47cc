//! Refrigerant, machine, path and cylinder in use. Triggers are common practice of the trade; classes
//! by ASHRAE 34.

use super::{Case, Changes, raised};
use narrows::power::Grade::{Note, Stop, Warning};

/// R-134a's saturated vapour at 20 °C weighs 27.8 kg/m³ (its tables), 2.78 kg in 100 L.
const THIN_CHARGE: Changes = &[
    ("refrigerant", "R-134a"),
    ("source.temperature", "20 degC"),
    ("source.volume", "100 L"),
    ("source.charge", "1 kg"),
];

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
    raised(
        "port-against-method",
        Warning,
        "bakery-freezer",
        &[("source.port", "liquid"), ("machine.takes_liquid", "true"), ("job.method", "vapour")],
        "the time that of vapour",
    ),
    // R-410A condenses at 100 °F and 318 psig (CoolProp 8.0.0): over 300, within a tenth of 330.
    raised("cut-out-trips", Warning, "reference-kits", &[("machine.cut_out", "300 psig")], "Never bypass")
        .without_rate(),
    raised("cut-out-margin", Warning, "reference-kits", &[("machine.cut_out", "330 psig")], "within"),
    raised("no-filter-drier", Warning, "reference-kits", &[], "acid")
        .unless(&[("kits.A.parts.5", "FilterDrier(flow_coefficient: \"0.6 Kv\")")]),
    raised(
        "burnout",
        Warning,
        "reference-kits",
        &[("source.burnout", "yes"), ("kits.A.parts.5", "FilterDrier(flow_coefficient: \"0.6 Kv\")")],
        "Change the filter-drier after the job",
    ),
    raised("burnout", Warning, "reference-kits", &[("source.burnout", "yes")], "There is no filter-drier"),
    // R-410A at 120 °F stands at 419 psig, at 75 °F at 219 psig (CoolProp 8.0.0).
    raised(
        "part-too-weak",
        Stop,
        "reference-kits",
        &[("kits.A.parts.1.working_pressure", "400 psig"), ("ambient.temperature", "120 degF")],
        "Hose (part 2) is made for 400 psig (27.6 bar(g)) and can meet 419 psig",
    )
    .unless(&[("kits.A.parts.1.working_pressure", "430 psig"), ("ambient.temperature", "120 degF")])
    .without_rate(),
    raised(
        "part-too-weak",
        Stop,
        "reference-kits",
        &[("kits.A.parts.2.working_pressure", "210 psig")],
        "Gauge set (part 3)",
    )
    .unless(&[("kits.A.parts.2.working_pressure", "230 psig")])
    .without_rate(),
    // Before the cut-out trips, 550 psig; without one the machine condenses at 100 °F and 318 psig.
    raised(
        "part-too-weak",
        Stop,
        "reference-kits",
        &[("discharge.0", "Hose(bore: \"8 mm\", length: \"5 ft\", working_pressure: \"500 psig\")")],
        "can meet 550 psig (37.9 bar(g)), where the high-pressure cut-out",
    )
    .unless(&[("discharge.0", "Hose(bore: \"8 mm\", length: \"5 ft\", working_pressure: \"600 psig\")")])
    .without_rate(),
    raised(
        "part-too-weak",
        Stop,
        "reference-kits",
        &[
            ("machine.cut_out", "none"),
            ("discharge.0", "Hose(bore: \"8 mm\", length: \"5 ft\", working_pressure: \"300 psig\")"),
        ],
        "the line to the cylinder",
    )
    .unless(&[
        ("machine.cut_out", "none"),
        ("discharge.0", "Hose(bore: \"8 mm\", length: \"5 ft\", working_pressure: \"400 psig\")"),
    ])
    .without_rate(),
    // Push-pull presses on the system with all that the machine has.
    raised(
        "part-too-weak",
        Stop,
        "rink",
        &[("kits.A.parts.1.working_pressure", "500 psig")],
        "can meet 550 psig",
    )
    .unless(&[("kits.A.parts.1.working_pressure", "500 psig"), ("job.method", "vapour")])
    .without_rate(),
    // Carbon dioxide has no liquid above 87.8 °F and 1055 psig (critical point); it had 895 psig at 75 °F.
    raised(
        "part-too-weak",
        Stop,
        "reference-kits",
        &[
            ("refrigerant", "R-744"),
            ("machine.condenser.condensing_temperature", "80 degF"),
            ("ambient.temperature", "100 degF"),
            ("kits.A.parts.1.working_pressure", "900 psig"),
        ],
        "as warm as 100 °F",
    )
    .unless(&[
        ("refrigerant", "R-744"),
        ("machine.condenser.condensing_temperature", "80 degF"),
        ("kits.A.parts.1.working_pressure", "900 psig"),
    ])
    .without_rate(),
    // The bakery's machine condenses at 100 °F, whatever its air is.
    raised(
        "condenser-below-air",
        Warning,
        "bakery-freezer",
        &[("ambient.temperature", "130 degF")],
        "100 °F (38 °C) and its air is at 130 °F (54 °C)",
    )
    .unless(&[("ambient.temperature", "99 degF")]),
    raised(
        "charge-below-saturation",
        Warning,
        "bakery-freezer",
        THIN_CHARGE,
        "(2.78 kg) of saturated vapour",
    )
    .unless(&[
        ("refrigerant", "R-134a"),
        ("source.temperature", "20 degC"),
        ("source.volume", "100 L"),
        ("source.charge", "2.8 kg"),
    ]),
    raised("trapped-liquid", Warning, "reference-kits", &[("source.port", "liquid")], "bursts hoses"),
    raised("warm-cylinder", Warning, "reference-kits", &[("cylinder.temperature", "126 degF")], "125 °F")
        .unless(&[("cylinder.temperature", "124 degF")]),
    raised("cylinder-in-sun", Warning, "reference-kits", &[("cylinder.in_sun", "yes")], "shade"),
    raised(
        "cylinder-in-sun",
        Warning,
        "reference-kits",
        &[("cylinder.surroundings", "130 degF")],
        "surroundings above 125 °F",
    )
    .unless(&[("cylinder.surroundings", "120 degF")]),
    raised("cold-liquid", Note, "reference-kits", &[], "gloves").always(),
];
