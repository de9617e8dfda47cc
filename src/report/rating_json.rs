//! A card that was read, for programs. SI units; keys only ever added.

use serde_json::{Value, json};
use uom::si::area::square_meter;
use uom::si::f64::MassRate;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume_rate::cubic_meter_per_second;

use super::rating_words::rating_notes;
use crate::advice::DEFERENCE;
use crate::advice::rating::{RatingReading, Restated};
use crate::machine::rating::{Ceiling, Fit, RatingError, Reproduced};
use crate::scenario::Document;
use crate::units::{UnitSet, as_sentence};

/// The whole answer of `narrows rating --json`.
pub fn rating_json(document: &Document, reading: &RatingReading, units: UnitSet) -> Value {
    json!({
        "narrows": document.version,
        "title": document.title,
        "card": reading.name,
        "fit": match &reading.fit {
            Ok(fit) => fit_json(reading, fit),
            Err(error) => json!({ "no_answer": as_sentence(&error.to_string()) }),
        },
        "ceilings": reading.ceilings.iter().map(ceiling_json).collect::<Vec<_>>(),
        "ratios": reading.hints.iter().map(|hint| json!({
            "of": hint.of.tag(), "to": hint.to.tag(), "ratio": hint.ratio,
            "usual_low": hint.usual_low, "usual_high": hint.usual_high, "usual": hint.is_usual(),
        })).collect::<Vec<_>>(),
        "push_pull": reading.push_pull.map(|one| json!({
            "rated_kg_s": one.rated.map(kg_s), "model_kg_s": kg_s(one.likely), "most_kg_s": kg_s(one.most),
        })),
        "final_vacuum": reading.final_vacuum.map(|one| json!({
            "rated_pa": one.rated.map(|p| p.get::<pascal>()), "model_pa": one.reached.get::<pascal>(),
        })),
        "restated": reading.restated.as_ref().map(restated_json),
        "unknown": reading.unknown.iter().map(|unknown| json!({
            "rating": unknown.of.tag(), "what": unknown.what,
        })).collect::<Vec<_>>(),
        "compared": reading.comparisons.iter().map(|one| json!({
            "rating": one.kind.tag(), "rated_kg_s": kg_s(one.rated), "other_kg_s": kg_s(one.other),
            "ratio": one.ratio, "because": one.because,
        })).collect::<Vec<_>>(),
        "notes": rating_notes(reading, units),
        "deference": DEFERENCE,
    })
}

fn kg_s(rate: MassRate) -> f64 {
    rate.get::<kilogram_per_second>()
}

fn fit_json(reading: &RatingReading, fit: &Fit) -> Value {
    json!({
        "displacement_m3_s": fit.displacement.get::<cubic_meter_per_second>(),
        "displacement_band_m3_s": reading.band.as_ref().map(|band| json!({
            "low": band.low.get::<cubic_meter_per_second>(),
            "high": band.high.get::<cubic_meter_per_second>(),
            "widened_by": band.widenings.iter().map(|one| json!({
                "what": one.what, "low_ratio": one.low_ratio, "high_ratio": one.high_ratio,
            })).collect::<Vec<_>>(),
        })),
        "displacement_from": fit.displacement_from.map(|kind| kind.tag()),
        "inlet_throttle_m2": fit.inlet_throttle.map(|area| area.get::<square_meter>()),
        "inlet_throttle_fitted": fit.throttle_is_fitted,
        "inlet_throttle_for_liquid_only": fit.conflict.is_some(),
        "starting_rate_kg_s": reading.starting_rate.map(kg_s),
        "reproduces": fit.reproduces.iter().map(reproduced_json).collect::<Vec<_>>(),
        "predicts": fit.predicts.iter().map(reproduced_json).collect::<Vec<_>>(),
    })
}

fn reproduced_json(one: &Reproduced) -> Value {
    json!({ "rating": one.kind.tag(), "rated_kg_s": kg_s(one.rated), "model_kg_s": one.model.map(kg_s) })
}

fn ceiling_json(ceiling: &Ceiling) -> Value {
    json!({
        "kind": ceiling.kind.tag(),
        "rating": ceiling.over.tag(),
        "rated_kg_s": kg_s(ceiling.rated),
        "ceiling_kg_s": ceiling.most.map(kg_s),
        "share_ratio": ceiling.share_ratio(),
        "needs_evidence": ceiling.needs_evidence(),
    })
}

fn restated_json(restated: &Restated) -> Value {
    let rate = |rate: &Result<MassRate, RatingError>| rate.as_ref().ok().copied().map(kg_s);
    json!({
        "refrigerant": restated.refrigerant,
        "source_k": restated.source.get::<kelvin>(),
        "vapour_kg_s": rate(&restated.vapour),
        "vapour_start_kg_s": rate(&restated.vapour_start),
        "liquid_kg_s": rate(&restated.liquid),
        "kits": restated.kits.iter().map(|kit| json!({
            "name": kit.name,
            "rate_kg_s": kit.rate.as_ref().ok().copied().map(kg_s),
            "no_answer": kit.rate.as_ref().err().map(|error| as_sentence(&error.to_string())),
        })).collect::<Vec<_>>(),
    })
}
