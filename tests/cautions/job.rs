//! Cylinders, method and level of a rink: 900 lb ± 10 % of R-22 by push-pull into cylinders of 239 lb of
//! water. Triggers are common practice of the trade; levels by 40 CFR 82.156.

use super::{Case, raised};
use narrows::power::Grade::{Note, Stop, Warning};

pub const CASES: &[Case] = &[
    // 200 lb in 0.8 · 239 lb.
    raised(
        "cylinder-over-limit",
        Stop,
        "rink",
        &[("cylinder.contents", "200 lb"), ("cylinder.refrigerant", "r22")],
        "8.8 lb",
    ),
    raised("cylinder-disposable", Stop, "rink", &[("cylinder.disposable", "yes")], "disposable"),
    raised("cylinder-damaged", Stop, "rink", &[("cylinders.Waiting.damaged", "yes")], "Waiting (1 of 5)"),
    raised("cylinder-damaged", Stop, "rink", &[("cylinders.Waiting.damaged", "yes")], "and so for 4 more"),
    raised("cylinder-out-of-date", Stop, "rink", &[("date", "2029-06")], "2024-05"),
    raised("cylinder-other-refrigerant", Stop, "rink", &[("cylinder.refrigerant", "R-404A")], "R-404A"),
    raised("cylinder-other-refrigerant", Stop, "rink", &[("cylinder.refrigerant", "unknown")], "unknown"),
    raised("cylinder-too-weak", Stop, "rink", &[("cylinder.service_pressure", "100 psig")], "100 psig"),
    // R-23 has no liquid above 26 °C: none at 55 °C, and none in the condenser.
    raised(
        "cylinder-no-limit",
        Stop,
        "rink",
        &[("refrigerant", "R-23"), ("source.temperature", "-40 degC"), ("cylinder.temperature", "0 degC")],
        "55 °C",
    )
    .without_rate(),
    raised("scale-too-small", Stop, "rink", &[("job.scale_capacity", "250 lb")], "250.0 lb"),
    raised("cylinders-too-few", Warning, "rink", &[("cylinders.Waiting.count", "3")], "Bring 2 more"),
    raised(
        "cylinders-too-few",
        Warning,
        "rink",
        &[("cylinder.disposable", "yes"), ("cylinders", "none")],
        "no usable cylinder for 990.0 lb",
    ),
    // 5 · 0.8 · 239 lb = 956 lb for 900 ± 90 lb; ± 45 lb fit.
    raised("cylinders-just-enough", Warning, "rink", &[], "with 56.0 lb").unless(&[("charge_band", "5 %")]),
    raised(
        "waiting-cylinder-warm",
        Warning,
        "rink",
        &[("cylinders.Waiting.temperature", "130 degF")],
        "125 °F",
    ),
    raised(
        "waiting-cylinder-in-sun",
        Warning,
        "rink",
        &[("cylinders.Waiting.in_sun", "yes")],
        "in the sun: it warms, and its pressure climbs. Put it into shade",
    )
    .unless(&[("cylinder.in_sun", "yes")]),
    raised("push-pull", Warning, "rink", &[], "siphoning").unless(&[("job.method", "vapour")]),
    raised("no-liquid-port", Warning, "rink", &[("source.liquid_port", "no")], "no liquid connection"),
    raised("method-unsuited", Note, "rink", &[("source.charge", "12 lb")], "15 lb"),
    raised("method-unsuited", Note, "rink", &[("source.reversing_valve", "yes")], "reversing valve"),
    raised("method-unsuited", Note, "rink", &[("source.accumulator", "yes")], "accumulator"),
    raised("method-unsuited", Note, "rink", &[("source.receiver_volume", "5 L")], "receiver"),
    raised(
        "level-below-zero-with-leak",
        Warning,
        "rink",
        &[("target.leak", "yes"), ("target.level", "10 inHg vac")],
        "air",
    ),
    raised("level-condition", Note, "rink", &[("target.leak", "yes")], "0 psig"),
    raised("level-to-confirm", Warning, "rink", &[("refrigerant", "R-134a")], "10 inHg vac"),
    raised("level-unknown", Warning, "rink", &[("target.level", "29.95 inHg vac")], "vacuum"),
    raised("level-note", Note, "rink", &[("target.machine_made", "none")], "1993"),
    raised(
        "level-above-air",
        Note,
        "rink",
        &[("ambient.altitude", "5000 ft"), ("source.charge", "50 lb")],
        "29.9 inHg",
    ),
    raised("cylinder-note", Note, "rink", &[("cylinder.tare", "none")], "tare"),
    raised("cylinder-note", Note, "rink", &[("cylinder.contents", "5 lb")], "make sure"),
    raised("not-dry", Note, "rink", &[], "vacuum pump").always(),
    // 150 + 0.8 · 239 lb against 20 + 0.8 · 20 lb.
    raised("heavy-cylinder", Note, "rink", &[], "50 lb").unless(&[
        ("cylinders", "none"),
        ("cylinder.tare", "20 lb"),
        ("cylinder.water_capacity", "20 lb"),
    ]),
    raised("hot-surfaces", Note, "rink", &[], "edge").always(),
    raised(
        "hot-surfaces",
        Note,
        "rink",
        &[("cylinders", "none"), ("cylinder.tare", "20 lb"), ("cylinder.water_capacity", "20 lb")],
        "lifted by two",
    )
    .always(),
    raised("residue-in-hoses", Note, "rink", &[], "Do not release").always(),
];
