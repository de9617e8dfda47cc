//! A solved document for programs. Numbers in SI, pressures absolute; keys only ever added.

use serde_json::{Value, json};
use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::mass::kilogram;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

use super::error_words::job_error_text;
use super::note_words::notes_of;
use super::power_words::{element_name, start_words};
use super::solved::{SolvedKit, Unshown};
use super::table::choked_name;
use crate::advice::{Caution, DEFERENCE};
use crate::job::{OperatingPoint, PartPoint};
use crate::power::{Element, Grade, PowerPoint, Running, StartOutcome};
use crate::scenario::{Document, PartName};
use crate::units::{UnitSet, as_sentence};

/// The whole answer of `narrows solve --json`.
pub fn solved_json(document: &Document, solved: &[SolvedKit], units: UnitSet) -> Value {
    json!({
        "narrows": document.version,
        "title": document.title,
        "refrigerant": solved.first().map(|kit| kit.kit.setup.refrigerant.designation()),
        "kits": solved.iter().map(|kit| kit_json(kit, units)).collect::<Vec<_>>(),
        "deference": DEFERENCE,
    })
}

fn kit_json(solved: &SolvedKit, units: UnitSet) -> Value {
    let ambient = solved.kit.setup.ambient.pressure;
    let mut value = json!({ "name": solved.kit.name, "label": solved.kit.label });
    let object = match solved.shown_point() {
        Ok(point) => point_json(solved, point),
        Err(unshown) => {
            let because = match unshown {
                Unshown::Withheld(caution) => caution.text.clone(),
                Unshown::NoPoint(error) => job_error_text(error, units, ambient),
            };
            json!({
                "rate_kg_s": null, "machine_inlet_pa": null, "machine_discharge_pa": null,
                "system_pa": null, "choked": null, "choked_part": null, "parts": [],
                "no_answer": because,
            })
        }
    };
    let rest = json!({
        "supply": match &solved.answer.power {
            Ok(power) => supply_json(&solved.kit.cords, power),
            Err(error) => json!({ "no_answer": as_sentence(&error.to_string()) }),
        },
        "notes": notes_of(solved),
        "cautions": solved.cautions.iter().map(caution_json).collect::<Vec<_>>(),
    });
    for part in [object, rest] {
        if let (Value::Object(whole), Value::Object(part)) = (&mut value, part) {
            whole.extend(part);
        }
    }
    value
}

fn point_json(solved: &SolvedKit, point: &OperatingPoint) -> Value {
    let choked_part = choked_name(solved, point);
    let second = point.second.as_ref().map(|second| {
        json!({
            "rate_kg_s": second.mass_flow.get::<kilogram_per_second>(),
            "first_rate_kg_s": second.first_mass_flow.get::<kilogram_per_second>(),
            "joins_before": second.joins_before,
            "parts": parts_json(&solved.kit.second_parts, &second.parts),
        })
    });
    let machine = &point.machine;
    json!({
        "rate_kg_s": point.mass_flow.get::<kilogram_per_second>(),
        "machines": point.machines.count,
        "machine_inlet_pa": point.machine_inlet_pressure.get::<pascal>(),
        "machine_discharge_pa": machine.discharge_pressure.get::<pascal>(),
        "system_pa": point.system_pressure.get::<pascal>(),
        "cylinder_pa": point.cylinder_pressure.get::<pascal>(),
        "choked": choked_part.is_some() || point.parts.iter().any(|part| part.choked),
        "choked_part": choked_part,
        "parts": parts_json(&solved.kit.parts, &point.parts),
        "second_port": second,
        "discharge_parts": parts_json(&solved.kit.discharge_parts, &point.discharge_parts),
        "machine": {
            "suction_pa": machine.suction_pressure.get::<pascal>(),
            "condensing_k": machine.condensing_temperature.get::<kelvin>(),
            "discharge_k": machine.discharge_temperature.get::<kelvin>(),
            "volumetric_efficiency": machine.volumetric_efficiency.get::<ratio>(),
            "shaft_w": machine.shaft_power.get::<watt>(),
            "heat_rejected_w": machine.heat_rejected.get::<watt>(),
            "speed_ratio": machine.speed.get::<ratio>(),
            "cut_out_margin_pa": machine.cut_out_margin.map(|margin| margin.get::<pascal>()),
        },
    })
}

fn parts_json(names: &[PartName], parts: &[PartPoint]) -> Vec<Value> {
    let one = |(name, part): (&PartName, &PartPoint)| {
        json!({
            "name": name.name,
            "kind": name.kind.tag(),
            "inlet_pa": part.inlet_pressure.get::<pascal>(),
            "outlet_pa": part.outlet_pressure.get::<pascal>(),
            "quality_out": part.outlet_quality.get::<ratio>(),
            "choked": part.choked,
            "flash_onset": part.flash_onset,
            "trapped_kg": part.trapped_mass.get::<kilogram>(),
        })
    };
    names.iter().zip(parts).map(one).collect()
}

fn supply_json(cords: &[String], power: &PowerPoint) -> Value {
    let running = match &power.running {
        Running::Holds(running) => Some(running),
        Running::CannotHold(_) => None,
    };
    let start = &power.starting;
    let volts = |value: uom::si::f64::ElectricPotential| value.get::<volt>();
    json!({
        "panel_v": power.panel.map(volts),
        "receptacle_v": power.receptacle.map(volts),
        "running_v": running.map(|running| volts(running.voltage)),
        "running_a": running.map(|running| running.current.get::<ampere>()),
        "starting_v": volts(start.voltage),
        "starting_a": start.current.get::<ampere>(),
        "starting_voltage_ratio": start.voltage_ratio,
        "starting_torque_ratio": start.torque_ratio,
        "running": running.is_some(),
        "starts": matches!(start.outcome, StartOutcome::Starts),
        "running_words": match &power.running {
            Running::Holds(_) => "holds its load".to_owned(),
            Running::CannotHold(reason) => reason.to_string(),
        },
        "starting_words": start_words(&start.outcome),
        "speed_ratio": running.map(|running| running.speed_ratio),
        "power_factor": running.map(|running| running.power_factor_ratio),
        "elements": power.elements.iter().map(|element| element_json(cords, element)).collect::<Vec<_>>(),
    })
}

fn element_json(cords: &[String], element: &Element) -> Value {
    json!({
        "name": element_name(cords, element),
        "running_drop_v": element.running_drop.map(|drop| drop.get::<volt>()),
        "starting_drop_v": element.starting_drop.get::<volt>(),
        "heat_w": element.heat.map(|heat| heat.get::<watt>()),
    })
}

/// The word for a grade.
pub fn grade_word(grade: Grade) -> &'static str {
    match grade {
        Grade::Stop => "Stop",
        Grade::Warning => "Warning",
        Grade::Note => "Note",
    }
}

pub(super) fn caution_json(caution: &Caution) -> Value {
    json!({
        "id": caution.id,
        "grade": grade_word(caution.grade),
        "place": caution.place.tag(),
        "text": caution.text,
    })
}
