//! The triggers. Common practice of the trade unless a source is named.

use uom::si::f64::ThermodynamicTemperature;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::{degree_celsius, degree_fahrenheit};

use super::caution::{CYLINDER_LIMIT_F, Facts, Place, Rule};
use super::thin_charge::too_little;
use super::warm_place::warm_place;
use crate::fluid::PressureClass;
use crate::job::{JobError, Port};
use crate::kit::PartKind;
use crate::machine::Condenser;
use crate::power::{Grade, Source};
use crate::units::{as_sentence, both_scales};

/// A cut-out margin of less than this share of the cut-out's gauge pressure is small.
const CUT_OUT_MARGIN_RATIO: f64 = 0.1;

pub(super) const RULES: &[Rule] = &[
    Rule {
        id: "class-not-marked",
        grade: Grade::Stop,
        place: Place::Machine,
        withholds: true,
        fires: |facts| {
            let refrigerant = &facts.kit.setup.refrigerant;
            let class = refrigerant.safety_class();
            if facts.kit.suitable_for.contains(&class) {
                return None;
            }
            let reason = match (class.is_flammable(), class.is_toxic()) {
                (true, true) => "it burns and is toxic",
                (true, false) => "its vapour can ignite",
                (false, true) => "it is toxic",
                (false, false) => "its class is not on the machine",
            };
            Some(format!(
                "{} is class {class} and the machine is not marked for it: {reason}. Use machine, hoses and \
                 cylinder marked for {class}, with ventilation, ignition control and earthing as their \
                 instructions say.",
                refrigerant.designation()
            ))
        },
    },
    Rule {
        id: "low-pressure-refrigerant",
        grade: Grade::Stop,
        place: Place::Machine,
        withholds: true,
        fires: |facts| {
            let refrigerant = &facts.kit.setup.refrigerant;
            (refrigerant.pressure_class() == PressureClass::Low && !facts.kit.takes_low_pressure).then(|| {
                format!(
                    "{} is a low-pressure refrigerant and the machine is not marked for those. Use \
                     low-pressure equipment.",
                    refrigerant.designation()
                )
            })
        },
    },
    Rule {
        id: "liquid-refused",
        grade: Grade::Stop,
        place: Place::Method,
        withholds: true,
        fires: |facts| {
            matches!(facts.answer.point, Err(JobError::LiquidRefused)).then(|| {
                "The port draws liquid and the machine is not rated for liquid: it can wreck the compressor. \
                 Draw vapour, or use a machine rated for liquid."
                    .to_owned()
            })
        },
    },
    Rule {
        id: "port-against-method",
        grade: Grade::Warning,
        place: Place::Method,
        withholds: false,
        fires: |facts| {
            let liquid = !matches!(facts.kit.setup.source.first, Port::Vapor);
            (liquid && facts.kit.job_of_vapour).then(|| {
                "The port draws liquid, the job draws vapour only: the rate is that of liquid, the time that of \
                 vapour. Plan the job as liquid, then vapour, or draw vapour."
                    .to_owned()
            })
        },
    },
    Rule {
        id: "cut-out-trips",
        grade: Grade::Warning,
        place: Place::Machine,
        withholds: false,
        fires: |facts| {
            matches!(facts.answer.point, Err(JobError::CutOut { .. })).then(|| {
                "The high-pressure cut-out stops the machine at this duty. Never bypass it; cool cylinder and \
                 condenser first."
                    .to_owned()
            })
        },
    },
    Rule {
        id: "cut-out-margin",
        grade: Grade::Warning,
        place: Place::Machine,
        withholds: false,
        fires: |facts| {
            let point = facts.answer.point.as_ref().ok()?;
            let ambient_pa = facts.kit.setup.ambient.pressure.get::<pascal>();
            let margin_pa = point.machine.cut_out_margin?.get::<pascal>();
            let setting_pa = margin_pa + point.machine.discharge_pressure.get::<pascal>() - ambient_pa;
            let share = margin_pa / setting_pa;
            (share < CUT_OUT_MARGIN_RATIO).then(|| {
                format!(
                    "Discharge is within {:.0} % of the high-pressure cut-out. A warmer cylinder or condenser \
                     will trip it.",
                    (100.0 * share).ceil()
                )
            })
        },
    },
    Rule {
        id: "condenser-below-air",
        grade: Grade::Warning,
        place: Place::Machine,
        withholds: false,
        fires: condenser_below_air,
    },
    Rule {
        id: "charge-below-saturation",
        grade: Grade::Warning,
        place: Place::Method,
        withholds: false,
        fires: too_little,
    },
    Rule {
        id: "no-filter-drier",
        grade: Grade::Warning,
        place: Place::LineUp,
        withholds: false,
        fires: |facts| {
            // After a burnout the rule below says it, with more reason.
            (!has_drier(facts) && !facts.kit.burnout).then(|| {
                "No filter-drier in the path: acid and debris can damage the machine. Fit one at its inlet."
                    .to_owned()
            })
        },
    },
    Rule {
        id: "burnout",
        grade: Grade::Warning,
        place: Place::LineUp,
        withholds: false,
        fires: |facts| facts.kit.burnout.then(|| burnout(has_drier(facts))),
    },
    Rule {
        id: "trapped-liquid",
        grade: Grade::Warning,
        place: Place::LineUp,
        withholds: false,
        fires: |facts| {
            let source = facts.kit.setup.source;
            (!matches!(source.first, Port::Vapor) || !matches!(source.second, Port::Vapor)).then(|| {
                "Liquid shut between two closed valves bursts hoses as it warms. Leave a way open to the \
                 cylinder."
                    .to_owned()
            })
        },
    },
    Rule {
        id: "warm-cylinder",
        grade: Grade::Warning,
        place: Place::Cylinder,
        withholds: false,
        fires: |facts| {
            let fahrenheit = facts.kit.setup.cylinder.temperature.get::<degree_fahrenheit>();
            (fahrenheit > CYLINDER_LIMIT_F).then(|| {
                "The cylinder is above 125 °F (52 °C). Cool it with shade or water; never heat one with a \
                 flame, and keep below the limit on its label."
                    .to_owned()
            })
        },
    },
    Rule {
        id: "cylinder-in-sun",
        grade: Grade::Warning,
        place: Place::Cylinder,
        withholds: false,
        fires: |facts| warm_place("The cylinder", facts.kit.cylinder_place).map(|words| as_sentence(&words)),
    },
    Rule {
        id: "cords-in-series",
        grade: Grade::Warning,
        place: Place::CordRun,
        withholds: false,
        fires: |facts| {
            (facts.kit.setup.power.cords.len() > 1).then(|| {
                "Cords in series: each joint can heat, and instructions often forbid it. Use one cord of the \
                 right length and gauge."
                    .to_owned()
            })
        },
    },
    Rule {
        id: "generator",
        grade: Grade::Note,
        place: Place::CordRun,
        withholds: false,
        fires: |facts| {
            matches!(facts.kit.setup.power.supply.source(), Source::Generator(_)).then(|| {
                "Run the generator outdoors, away from openings; earth it as its manual says.".to_owned()
            })
        },
    },
    Rule {
        id: "ground-fault",
        grade: Grade::Note,
        place: Place::CordRun,
        withholds: false,
        fires: |_| {
            Some(
                "If a ground-fault device trips, find the fault. Never defeat its protection or the grounding pin."
                    .to_owned(),
            )
        },
    },
    Rule {
        id: "cold-liquid",
        grade: Grade::Note,
        place: Place::FirstUse,
        withholds: false,
        fires: |_| {
            Some(
                "Refrigerant frostbites and displaces air: gloves, goggles, ventilation, no flames or smoking. \
                 Fill cylinders by weight, never past their limit."
                    .to_owned(),
            )
        },
    },
];

/// A condensing temperature that was given and that the air does not allow.
fn condenser_below_air(facts: &Facts<'_>) -> Option<String> {
    let setup = &facts.kit.setup;
    let Condenser::FixedTemperature(condenses) = setup.machine.condenser else { return None };
    let air = setup.ambient.temperature;
    (condenses < air).then(|| {
        let said = |temperature: ThermodynamicTemperature| both_scales(temperature.get::<degree_celsius>());
        format!(
            "The condenser is said to condense at {} and its air is at {}: air cannot cool it below its own \
             temperature. Say a condensing temperature above the air's, or the condenser's conductance.",
            said(condenses),
            said(air)
        )
    })
}

fn has_drier(facts: &Facts<'_>) -> bool {
    facts.kit.parts.iter().any(|part| part.kind == PartKind::FilterDrier)
}

fn burnout(has_drier: bool) -> String {
    let drier = if has_drier {
        "Change the filter-drier after the job"
    } else {
        "There is no filter-drier in the path: fit one at the machine's inlet, change it after the job"
    };
    format!(
        "A burned-out system gives acid and debris with its refrigerant, and they damage the machine. {drier}, and \
         keep this refrigerant apart, in a cylinder of its own, for reclaim."
    )
}
