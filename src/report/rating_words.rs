//! A card that was read, in words and as a table.

use uom::si::area::square_millimeter;
use uom::si::f64::{MassRate, Pressure, VolumeRate};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::volume_rate::{cubic_foot_per_minute, liter_per_minute};

use super::wrap::wrapped;
use crate::advice::DEFERENCE;
use crate::advice::rating::{RatingReading, Restated};
use crate::machine::rating::{Ceiling, CeilingKind, Fit, Reproduced, TestKind};
use crate::scenario::Document;
use crate::units::factors::STANDARD_ATMOSPHERE_PA;
use crate::units::{LengthUnit, UnitSet, as_sentence};

/// What should be known beside the numbers, one sentence each.
pub fn rating_notes(reading: &RatingReading, units: UnitSet) -> Vec<String> {
    let mut notes = Vec::new();
    if let Ok(fit) = &reading.fit {
        notes.extend(fit_notes(reading, fit, units));
    }
    notes.extend(
        reading.ceilings.iter().filter(|one| one.needs_evidence()).filter_map(|one| above(one, units)),
    );
    for hint in reading.hints.iter().filter(|hint| !hint.is_usual()) {
        notes.push(format!(
            "The {} rate is {} times the {} rate; {} to {} times is usual. That is a hint, not a law; it needs \
             evidence.",
            hint.of.label(),
            units.number(hint.ratio),
            hint.to.label(),
            units.number(hint.usual_low),
            units.number(hint.usual_high),
        ));
    }
    notes.extend(push_pull_note(reading, units));
    notes.extend(vacuum_note(reading, units));
    notes.extend(unknown_notes(reading));
    for one in &reading.comparisons {
        notes.push(match one.ratio {
            Some(ratio) => format!(
                "{}: {} against {} on the other card, {} times.",
                as_title(one.kind),
                units.rate(one.rated),
                units.rate(one.other),
                units.number(ratio),
            ),
            None => {
                format!("{}: the two cards are not compared; {}.", as_title(one.kind), one.because.join(", "))
            }
        });
    }
    notes
}

fn as_title(kind: TestKind) -> String {
    as_sentence(kind.label()).trim_end_matches('.').to_owned()
}

fn fit_notes(reading: &RatingReading, fit: &Fit, units: UnitSet) -> Vec<String> {
    let mut notes = Vec::new();
    let anchor = fit.reproduces.iter().find(|one| Some(one.kind) == fit.displacement_from);
    if let (Some(anchor), Some(start)) = (anchor, reading.starting_rate)
        && start > anchor.rated * 1.02
    {
        notes.push(format!(
            "The {} rate of {} is an average over a falling pressure: such a machine starts at about {} and slows \
             as the pressure falls.",
            anchor.kind.label(),
            units.rate(anchor.rated),
            units.rate(start),
        ));
    }
    if fit.displacement_from.is_none() {
        notes.push("No vapour rate fixes the displacement; the document's own is taken.".to_owned());
    }
    if let Some(conflict) = &fit.conflict {
        notes.push(format!(
            "One fixed inlet does not give both rates: the {} mm² hole that gives the liquid rate would not let the \
             vapour rate through. Read as an inlet opened for vapour and turned down for liquid; that needs \
             evidence.",
            units.number(conflict.liquid_area.get::<square_millimeter>()),
        ));
    }
    for one in &fit.predicts {
        notes.push(match one.model {
            Some(model) => format!(
                "{}: printed {}, the fitted machine would be rated {}.",
                as_title(one.kind),
                units.rate(one.rated),
                units.rate(model),
            ),
            None => format!("{}: the fitted machine would not finish that test.", as_title(one.kind)),
        });
    }
    notes
}

fn above(ceiling: &Ceiling, units: UnitSet) -> Option<String> {
    Some(format!(
        "The {} rate of {} lies above what the {} allows, {}: it needs evidence.",
        ceiling.over.label(),
        units.rate(ceiling.rated),
        ceiling.kind.label(),
        units.rate(ceiling.most?),
    ))
}

fn push_pull_note(reading: &RatingReading, units: UnitSet) -> Option<String> {
    let one = reading.push_pull?;
    let rated = one.rated?;
    let verdict = if rated > one.most {
        "The printed rate lies above both: it needs evidence."
    } else if rated > one.likely {
        "The printed rate asks for a cylinder hardly colder than the source."
    } else {
        "The printed rate lies below both; a liquid line may limit it too."
    };
    Some(format!(
        "Push-pull: printed {}. By its displacement the machine makes room for {} with the cylinder 5 K colder than \
         the source, {} with both equally warm. {verdict}",
        units.rate(rated),
        units.rate(one.likely),
        units.rate(one.most),
    ))
}

fn vacuum_note(reading: &RatingReading, units: UnitSet) -> Option<String> {
    let one = reading.final_vacuum?;
    let rated = one.rated?;
    let ambient = Pressure::new::<pascal>(STANDARD_ATMOSPHERE_PA);
    let verdict = if rated < one.reached {
        "The printed vacuum is deeper: it needs evidence, or a smaller clearance."
    } else {
        "The printed vacuum is within that."
    };
    Some(format!(
        "Final vacuum: printed {}; with its clearance the machine reaches {} at best. {verdict}",
        units.pressure(rated, ambient),
        units.pressure(one.reached, ambient),
    ))
}

fn unknown_notes(reading: &RatingReading) -> Vec<String> {
    let mut kinds: Vec<TestKind> = reading.unknown.iter().map(|unknown| unknown.of).collect();
    kinds.dedup();
    kinds
        .into_iter()
        .map(|kind| {
            let what: Vec<&str> = reading
                .unknown
                .iter()
                .filter(|unknown| unknown.of == kind)
                .map(|unknown| unknown.what)
                .collect();
            format!("{}: not said on the card: {}. That widens the band.", as_title(kind), what.join(", "))
        })
        .collect()
}

/// The whole answer of `narrows rating`.
pub fn rating_table(document: &Document, reading: &RatingReading, units: UnitSet) -> String {
    let mut lines = vec![
        format!("{} - {}", document.title, reading.name.as_deref().unwrap_or("rating card")),
        String::new(),
    ];
    match &reading.fit {
        Err(error) => lines.push(as_sentence(&error.to_string())),
        Ok(fit) => lines.extend(fit_lines(reading, fit, units)),
    }
    if !reading.ceilings.is_empty() {
        lines.push(String::new());
        lines.push(format!(
            "{:<26}{:<16}{:<14}{:<14}{}",
            "Ceilings over", "set by", "printed", "at most", "share"
        ));
        lines.extend(reading.ceilings.iter().map(|one| ceiling_line(one, units)));
    }
    if let Some(restated) = &reading.restated {
        lines.push(String::new());
        lines.extend(restated_lines(restated, units));
    }
    let notes = rating_notes(reading, units);
    if !notes.is_empty() {
        lines.push(String::new());
        lines.extend(notes.iter().map(|note| wrapped(note, "")));
    }
    lines.extend([String::new(), wrapped(DEFERENCE, "")]);
    lines.join("\n") + "\n"
}

/// A displacement in the reader's units.
pub fn displacement_text(rate: VolumeRate, units: UnitSet) -> String {
    match units.length {
        LengthUnit::Foot => format!("{} cfm", units.number(rate.get::<cubic_foot_per_minute>())),
        LengthUnit::Metre => format!("{} L/min", units.number(rate.get::<liter_per_minute>())),
    }
}

fn fit_lines(reading: &RatingReading, fit: &Fit, units: UnitSet) -> Vec<String> {
    let mut lines = vec![format!("Displacement    {}", displacement_text(fit.displacement, units))];
    if let Some(band) = &reading.band {
        lines.push(format!(
            "  likely from   {} to {}",
            displacement_text(band.low, units),
            displacement_text(band.high, units)
        ));
        for one in &band.widenings {
            let per_cent = |ratio: f64| format!("{:+.0} %", 100.0 * (ratio - 1.0));
            lines.push(format!(
                "    {}: {} to {}",
                one.what,
                per_cent(one.low_ratio),
                per_cent(one.high_ratio)
            ));
        }
    }
    lines.push(match fit.inlet_throttle {
        Some(area) => format!("Inlet           {} mm²", units.number(area.get::<square_millimeter>())),
        None => "Inlet           does not limit".to_owned(),
    });
    if let Some(start) = reading.starting_rate {
        lines.push(format!("Starting rate   {}", units.rate(start)));
    }
    lines.push(String::new());
    lines.push(format!("{:<26}{:<14}{}", "Rating", "printed", "fitted machine"));
    let row = |one: &Reproduced| {
        let model = one.model.map_or_else(|| "does not finish".to_owned(), |model| units.rate(model));
        format!("{:<26}{:<14}{model}", as_title(one.kind), units.rate(one.rated))
    };
    lines.extend(fit.reproduces.iter().map(row));
    lines.extend(fit.predicts.iter().map(row));
    if let Some(one) = reading.push_pull
        && let Some(rated) = one.rated
    {
        lines.push(format!(
            "{:<26}{:<14}{} to {} by displacement",
            "Push-pull",
            units.rate(rated),
            units.rate(one.likely),
            units.rate(one.most)
        ));
    }
    lines
}

fn ceiling_line(ceiling: &Ceiling, units: UnitSet) -> String {
    let most = ceiling.most.map_or_else(|| "unknown".to_owned(), |most| units.rate(most));
    let share = match ceiling.share_ratio() {
        Some(share) if share > 1.0 => format!("{} needs evidence", units.share(share)),
        Some(share) => units.share(share),
        None => "-".to_owned(),
    };
    let most = if ceiling.over == TestKind::PushPull && ceiling.kind == CeilingKind::Condenser {
        "not used".to_owned()
    } else {
        most
    };
    format!(
        "{:<26}{:<16}{:<14}{most:<14}{share}",
        as_title(ceiling.over),
        ceiling.kind.label(),
        units.rate(ceiling.rated)
    )
}

fn restated_lines(restated: &Restated, units: UnitSet) -> Vec<String> {
    let mut lines =
        vec![format!("Restated for {} from {}", restated.refrigerant, units.temperature(restated.source))];
    let mut push = |what: &str, rate: Result<MassRate, String>| {
        let text = match rate {
            Ok(rate) if rate.get::<kilogram_per_second>() > 0.0 => units.rate(rate),
            Ok(_) => "none".to_owned(),
            Err(error) => error,
        };
        lines.push(format!("  {what:<24}{text}"));
    };
    let words = |error: &crate::machine::rating::RatingError| as_sentence(&error.to_string());
    push("vapour test", restated.vapour.as_ref().copied().map_err(words));
    push("  at its start", restated.vapour_start.as_ref().copied().map_err(words));
    push("liquid", restated.liquid.as_ref().copied().map_err(words));
    for kit in &restated.kits {
        push(
            &format!("kit {}", kit.name),
            kit.rate.as_ref().copied().map_err(|error| as_sentence(&error.to_string())),
        );
    }
    lines
}
