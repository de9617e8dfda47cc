//! The power path. The roof job: a 115 V, 12 A motor with 60 A of locked rotor at the end of 100 ft of
//! 16 AWG on 15 A; it reads about 106 V and 13 A (common practice, no source).

use super::{Case, Changes, raised};
use narrows::power::Grade::{Note, Stop, Warning};

const ROOF: &str = "long-cord";

/// 12 AWG and 50 ft on 20 A, 124 V at the panel: the motor gets its 115 V and more.
const GOOD_CORD: Changes = &[
    ("supply.voltage", "124 V"),
    ("supply.branch.gauge", "12 AWG"),
    ("supply.branch.breaker", "20 A"),
    ("supply.cords.0.gauge", "12 AWG"),
    ("supply.cords.0.length", "50 ft"),
];

/// A third of what 60 A at 115 V ask for.
const WEAK_GENERATOR: Changes =
    &[("supply.branch", "none"), ("supply.generator", "(continuous: \"1800 VA\", surge: \"2200 VA\")")];

pub const CASES: &[Case] = &[
    raised(
        "cords-in-series",
        Warning,
        ROOF,
        &[("supply.cords.1", "(gauge: \"12 AWG\", length: \"25 ft\")")],
        "one cord",
    ),
    raised("cord-coiled", Warning, ROOF, &[("supply.cords.0.lay", "coiled")], "roll it out"),
    raised("generator", Note, "market-generator", &[], "outdoors")
        .unless(&[("supply.generator", "none"), ("supply.branch", "(gauge: \"12 AWG\", length: \"30 ft\")")]),
    raised("ground-fault", Note, ROOF, &[], "grounding pin").always(),
    // NEMA MG 1: the nameplate's 115 V less 10 % is 103.5 V, plus 10 % is 126.5 V.
    raised("under-voltage", Warning, ROOF, &[("supply.voltage", "112 V")], "115 V less 10 %"),
    raised("over-voltage", Warning, ROOF, &[("supply.voltage", "145 V")], "115 V plus 10 %"),
    raised("over-voltage", Stop, ROOF, &[("supply.voltage", "175 V")], "115 V plus 10 %"),
    // Full volts at 50/60 of the frequency: six fifths of the motor's own volts per hertz.
    raised("over-fluxed", Warning, ROOF, &[("supply.frequency", "50 Hz")], "83 % of its frequency"),
    // Overload devices of motors without a service factor trip at 115 % (NEC 430.32, from memory).
    raised("motor-overload", Note, ROOF, &[], "nameplate says 12.0 A").unless(GOOD_CORD),
    raised("motor-overload", Warning, ROOF, &[("supply.voltage", "108 V")], "nameplate says 12.0 A")
        .unless(GOOD_CORD),
    // Trade charts: 10 A on 100 ft of 16 AWG, 15 A on 50 ft of 12 AWG.
    raised("cord-over-marking", Warning, ROOF, &[], "10 A").unless(GOOD_CORD),
    raised("cord-over-marking", Stop, ROOF, &[("supply.cords.0.marked_current", "8 A")], "marked for 8 A")
        .unless(&[("supply.cords.0.marked_current", "16 A")]),
    // NEC 400.5(A): 16 AWG carries 13 A at 30 °C, √(25/30) of it, 11.9 A, at the roof's 35 °C; 12 AWG 25 A.
    raised("cord-over-ampacity", Warning, ROOF, &[], "11.9 A its conductors may carry").unless(GOOD_CORD),
    // NEC 210.19(A)(1): 80 % of 15 A is 12 A, of 20 A is 16 A.
    raised("breaker-continuous", Warning, ROOF, &[], "80 % of the 15 A breaker").unless(GOOD_CORD),
    raised("breaker-exceeded", Stop, ROOF, &[("supply.branch.breaker", "10 A")], "it will trip"),
    // Breakers trip at once from 5 to 10 times their rating; volts keep 60 A of locked rotor under 75 A.
    raised("breaker-at-start", Note, ROOF, &[("supply.branch.breaker", "8 A")], "it may trip"),
    raised("breaker-at-start", Warning, ROOF, &[("supply.branch.breaker", "4 A")], "it may trip"),
    // NEC 240.4(D): 14 AWG on 15 A.
    raised("breaker-over-wire", Warning, ROOF, &[("supply.branch.breaker", "20 A")], "15 A its branch"),
    // 300 ft of 18 AWG are 3.9 Ω there and back (NEC chapter 9, table 8): at most 120²/(4 · 3.9) = 920 W,
    // and the drive asks for 0.98 · 115 V · 10 A = 1,130 W.
    raised(
        "cannot-hold",
        Stop,
        "reference-kits",
        &[("supply.cords.0.gauge", "18 AWG"), ("supply.cords.0.length", "300 ft")],
        "Cannot hold",
    )
    .without_rate(),
    // Of 2.5 times its torque the motor needs 0.8 · 1.5 to be worth a try: 0.48, at √0.48 · 115 V = 80 V. Locked
    // it is 115 V/60 A at 0.65, 1.25 + 1.46j Ω; with 1.5 Ω of wire 120 V leave 74 V, on 100 ft 84 V.
    raised("will-not-start", Stop, ROOF, &[("supply.cords.0.length", "140 ft")], "Will not start"),
    // The cord's 1.1 Ω are more than the wall's 0.25 Ω (NEC chapter 9, table 8).
    raised("will-not-start", Stop, ROOF, &[("supply.cords.0.length", "140 ft")], "thicker cord"),
    // 300 ft of 14 AWG are 1.5 Ω there and back, the cord 0.8 Ω; on them it cannot run either.
    raised("will-not-start", Stop, ROOF, &[("supply.branch.length", "300 ft")], "nearer to the panel")
        .without_rate(),
    // Contacts of 1 Ω against the cord's 0.8 Ω.
    raised(
        "will-not-start",
        Stop,
        ROOF,
        &[("supply.branch.contact_resistance", "1 ohm")],
        "receptacle's contacts",
    ),
    // Locked, 60 A at 115 V are 6,900 VA: this generator is made for a third of that.
    raised(
        "will-not-start",
        Stop,
        ROOF,
        WEAK_GENERATOR,
        "a larger generator, or a machine that asks for less to",
    ),
    raised("will-not-start", Stop, ROOF, &[("supply.source_resistance", "0.9 ohm")], "a larger supply"),
    raised("may-not-start", Warning, ROOF, &[], "May not start").unless(GOOD_CORD),
    // A 10 A drive at 120 V asks for 1,200 VA running, 1.5 · 10 A · 115 V = 1,725 VA at start.
    raised(
        "generator-continuous",
        Stop,
        "market-generator",
        &[("supply.generator.continuous", "1000 VA")],
        "continuous 1000 VA",
    ),
    raised(
        "generator-surge",
        Warning,
        "market-generator",
        &[("supply.generator.continuous", "1500 VA"), ("supply.generator.surge", "1600 VA")],
        "1725 VA at start",
    ),
    // 12 · 2 = 24 A on 15 A; the rink's machine alone keeps silent.
    raised("several-machines", Stop, ROOF, &[("job.machines", "2")], "it will trip"),
];
