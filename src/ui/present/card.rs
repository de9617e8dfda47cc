//! A rating card as fields, and the machine that would be given its ratings.

use narrows::advice::rating::{RatingReading, Restated};
use narrows::kit::{RatedRate, RatingCard, RatingConditions, TestMethod};
use narrows::machine::rating::{Ceiling, CeilingKind, Reproduced, TestKind};
use narrows::report::{displacement_text, rating_notes};
use narrows::scenario::CardSetup;
use narrows::units::Typed;
use uom::si::area::square_millimeter;
use uom::si::f64::MassRate;
use uom::si::mass_rate::kilogram_per_second;

use super::Scene;
use super::scale::{number_and_unit, sentence};
use crate::ui::diagram::bars::{Bar, Bars};
use crate::ui::symbols::Mark;
use crate::ui::widgets::plate::Plate;

/// What stands for a condition that the card does not say.
pub const UNKNOWN: &str = "unknown";
/// What stands for a condition that a rating has from the card.
pub const AS_CARD: &str = "as the card";

/// A card to begin with; every figure is invented.
pub fn invented() -> Option<RatingCard> {
    let rate = Typed::parse("0.30 lb/min").ok()?;
    Some(RatingCard {
        name: Some("Invented card".to_owned()),
        vapour: Some(RatedRate { rate, conditions: None }),
        ..RatingCard::default()
    })
}

/// One rating's place on the card.
pub struct RatingRow<'a> {
    /// What it is called.
    pub name: &'static str,
    /// Its field in the card.
    pub field: &'static str,
    /// As printed, if it is.
    pub rated: Option<&'a RatedRate>,
    /// The card would still say something without it.
    pub may_go: bool,
}

/// The four places, whether printed or not.
pub fn rows(card: &RatingCard) -> [RatingRow<'_>; 4] {
    // Push-pull alone fits no machine.
    let fitting = [&card.vapour, &card.liquid, &card.high_temperature_vapour];
    let many = fitting.iter().filter(|rated| rated.is_some()).count() > 1;
    [
        RatingRow { name: "Vapour", field: "vapour", rated: card.vapour.as_ref(), may_go: many },
        RatingRow { name: "Liquid", field: "liquid", rated: card.liquid.as_ref(), may_go: many },
        RatingRow { name: "Push-pull", field: "push_pull", rated: card.push_pull.as_ref(), may_go: true },
        RatingRow {
            name: "High-temperature vapour",
            field: "high_temperature_vapour",
            rated: card.high_temperature_vapour.as_ref(),
            may_go: many,
        },
    ]
}

/// A condition that is one of a few words: its field, its label, the word now, words and values.
pub struct Choice {
    /// In the conditions.
    pub field: &'static str,
    /// What it is called.
    pub label: &'static str,
    /// The word that holds; none if nothing is said.
    pub now: Option<String>,
    /// Words and what the field takes.
    pub options: Vec<(String, String)>,
}

/// Refrigerant, test method and certificate of some conditions.
pub fn choices(conditions: &RatingConditions) -> [Choice; 3] {
    let pair = |word: &str, value: &str| (word.to_owned(), value.to_owned());
    let method = conditions.test_method.map(|method| match method {
        TestMethod::Ahri740 => "AHRI 740",
        TestMethod::StartingRate => "starting rate",
    });
    let certified = conditions.certified.map(|yes| if yes { "certified" } else { "not certified" });
    [
        Choice {
            field: "refrigerant",
            label: "Refrigerant",
            now: conditions.refrigerant.clone(),
            options: narrows::fluid::list().map(|l| pair(l.designation, l.designation)).collect(),
        },
        Choice {
            field: "test_method",
            label: "Test method",
            now: method.map(str::to_owned),
            options: vec![pair("AHRI 740", "ahri_740"), pair("starting rate", "starting_rate")],
        },
        Choice {
            field: "certified",
            label: "Certified",
            now: certified.map(str::to_owned),
            options: vec![pair("certified", "yes"), pair("not certified", "no")],
        },
    ]
}

/// Source and ambient temperature of some conditions: field, label, as typed, and what stands there
/// where nothing is said.
pub fn temperatures<'a>(
    conditions: &RatingConditions,
    unsaid: &'a str,
) -> [(&'static str, &'static str, String, &'a str); 2] {
    // The test method says the source's temperature.
    let by_method = conditions.test_method == Some(TestMethod::Ahri740);
    let source = if by_method { "by method" } else { unsaid };
    let text = |typed: &Option<Typed<uom::si::f64::ThermodynamicTemperature>>| {
        typed.as_ref().map(|t| t.as_typed().to_owned()).unwrap_or_default()
    };
    [
        ("source_temperature", "Source temperature", text(&conditions.source_temperature), source),
        ("ambient", "Ambient", text(&conditions.ambient), unsaid),
    ]
}

/// What else a card may print: label, field, as typed, unit of a bare number.
pub fn others(card: &RatingCard) -> [(&'static str, &'static str, String, &'static str); 4] {
    fn text<Q: narrows::units::Measure>(typed: &Option<Typed<Q>>) -> String {
        typed.as_ref().map(|t| t.as_typed().to_owned()).unwrap_or_default()
    }
    let vacuum = card.final_vacuum.as_ref().map(|t| t.as_typed().to_owned()).unwrap_or_default();
    [
        ("Final vacuum", "final_vacuum", vacuum, "inHg vac"),
        ("Displacement", "displacement", text(&card.displacement), "cfm"),
        ("Port bore", "port_bore", text(&card.port_bore), "mm"),
        ("Condenser", "condenser_conductance", text(&card.condenser_conductance), "W/K"),
    ]
}

/// The card as read, or why it is not.
pub fn read<'a>(scene: &Scene<'a>) -> Result<&'a (CardSetup, RatingReading), String> {
    let reasons = scene.study().and_then(|s| s.reasons.as_ref());
    match reasons.and_then(|r| r.card.as_ref()) {
        Some(Ok(both)) => Ok(both),
        Some(Err(why)) => Err(sentence(why)),
        None => Err(scene.waiting().to_owned()),
    }
}

/// Displacement with its band, inlet, rate at the start.
pub fn plates(scene: &Scene, reading: &RatingReading) -> Vec<Plate> {
    let stale = scene.session.is_studying_reasons();
    let plate = |title: &str| Plate { title: title.to_owned(), stale, ..Plate::default() };
    let fit = match &reading.fit {
        Ok(fit) => fit,
        Err(error) => {
            let words = sentence(&error.to_string());
            return vec![Plate { instead: Some((Mark::Note, words)), ..plate("Displacement, fitted") }];
        }
    };
    let units = scene.units();
    let (numeral, unit) = number_and_unit(&displacement_text(fit.displacement, units));
    let low_high = |band: &narrows::advice::rating::DisplacementBand| {
        let number = |rate| number_and_unit(&displacement_text(rate, units)).0;
        format!("{} to {}", number(band.low), number(band.high))
    };
    let mut plates = vec![Plate {
        numeral,
        unit,
        was: reading.band.as_ref().map(low_high).unwrap_or_default(),
        aside: fit
            .displacement_from
            .map_or("the document's own".to_owned(), |k| format!("from {}", k.label())),
        ..plate("Displacement, fitted")
    }];
    plates.push(match fit.inlet_throttle {
        Some(area) => Plate {
            numeral: units.number(area.get::<square_millimeter>()),
            unit: "mm²".to_owned(),
            aside: if fit.throttle_is_fitted { "from liquid" } else { "the document's own" }.to_owned(),
            ..plate("Inlet")
        },
        None => Plate { instead: Some((Mark::Note, "Does not limit.".to_owned())), ..plate("Inlet") },
    });
    if let Some(start) = reading.starting_rate {
        let (numeral, unit) = number_and_unit(&units.rate(start));
        plates.push(Plate { numeral, unit, ..plate("Rate at the start of the test") });
    }
    plates
}

/// Why the displacement is not known better.
pub fn widenings(reading: &RatingReading) -> Option<String> {
    let band = reading.band.as_ref()?;
    let percent = |ratio: f64| {
        let sign = if ratio < 1.0 { "\u{2212}" } else { "+" };
        format!("{sign}{:.0} %", 100.0 * (ratio - 1.0).abs())
    };
    let words: Vec<String> = band
        .widenings
        .iter()
        .map(|one| format!("{} {} to {}", one.what, percent(one.low_ratio), percent(one.high_ratio)))
        .collect();
    Some(format!("The band: {}.", words.join("; ")))
}

fn kg_s(rate: MassRate) -> f64 {
    rate.get::<kilogram_per_second>()
}

fn title(kind: TestKind) -> String {
    sentence(kind.label())
}

/// Each printed rate and what the fitted machine would be given, in per cent of the printed one.
pub fn against_model(scene: &Scene, reading: &RatingReading) -> Bars {
    let units = scene.units();
    let mut rows = Vec::new();
    if let Ok(fit) = &reading.fit {
        let bar = |one: &Reproduced, how: &str| {
            let share = one.model.map(|model| 100.0 * kg_s(model) / kg_s(one.rated));
            Bar {
                label: title(one.kind),
                detail: format!("{how} {}", units.rate(one.rated)),
                value: share,
                text: one.model.map_or("does not finish the test".to_owned(), |model| {
                    format!("{}, {:.0} %", units.rate(model), share.unwrap_or_default())
                }),
                ..Bar::default()
            }
        };
        rows.extend(fit.reproduces.iter().map(|one| bar(one, "fitted to the printed")));
        rows.extend(fit.predicts.iter().map(|one| bar(one, "predicted, printed")));
    }
    if let Some(one) = reading.push_pull
        && let Some(rated) = one.rated
    {
        let share = |rate| 100.0 * kg_s(rate) / kg_s(rated);
        rows.push(Bar {
            label: "Push-pull".to_owned(),
            detail: format!("by volume, printed {}", units.rate(rated)),
            value: Some(share(one.likely)),
            band: Some((share(one.likely), share(one.most))),
            text: format!("{} to {}", number_and_unit(&units.rate(one.likely)).0, units.rate(one.most)),
            ..Bar::default()
        });
    }
    Bars { rows, unit: "%".to_owned(), stale: scene.session.is_studying_reasons(), ..Bars::default() }
}

/// Each printed rate as a share of each of the four ceilings.
pub fn ceilings(scene: &Scene, reading: &RatingReading) -> Bars {
    Bars {
        rows: reading.ceilings.iter().map(|one| ceiling(scene, one)).collect(),
        unit: "%".to_owned(),
        stale: scene.session.is_studying_reasons(),
        ..Bars::default()
    }
}

fn ceiling(scene: &Scene, one: &Ceiling) -> Bar {
    let units = scene.units();
    let printed = units.rate(one.rated);
    let most = match one.most {
        // Push-pull moves liquid; its gas is not condensed.
        _ if one.over == TestKind::PushPull && one.kind == CeilingKind::Condenser => "not used".to_owned(),
        Some(most) => units.rate(most),
        None => UNKNOWN.to_owned(),
    };
    let share = one.share_ratio();
    let text = match share {
        Some(share) if one.needs_evidence() => format!("{:.0} %, needs evidence", 100.0 * share),
        Some(share) => format!("{:.0} %", 100.0 * share),
        None => most.clone(),
    };
    Bar {
        label: format!("{}: {}", title(one.over), one.kind.label()),
        detail: match share {
            Some(_) => format!("{} of {most}", number_and_unit(&printed).0),
            None => format!("printed {printed}"),
        },
        value: share.map(|share| 100.0 * share),
        text,
        mark: one.needs_evidence().then_some(Mark::Note),
        strong: one.needs_evidence(),
        ..Bar::default()
    }
}

/// The fitted machine on the document's own job: heading, and what with how much.
pub fn restated(scene: &Scene, restated: &Restated) -> (String, Vec<(String, String)>) {
    let units = scene.units();
    let source = units.temperature(restated.source);
    let heading = format!("The same machine with {} from {source}", restated.refrigerant);
    let words = |rate: Result<MassRate, String>| match rate {
        Ok(rate) if kg_s(rate) > 0.0 => units.rate(rate),
        Ok(_) => "none".to_owned(),
        Err(why) => sentence(&why),
    };
    fn text<E: ToString>(rate: &Result<MassRate, E>) -> Result<MassRate, String> {
        rate.as_ref().copied().map_err(ToString::to_string)
    }
    let mut rows = vec![
        ("Vapour test".to_owned(), words(text(&restated.vapour))),
        ("Vapour test, at its start".to_owned(), words(text(&restated.vapour_start))),
        ("Liquid test".to_owned(), words(text(&restated.liquid))),
    ];
    rows.extend(restated.kits.iter().map(|kit| (format!("Kit {} now", kit.name), words(text(&kit.rate)))));
    (heading, rows)
}

/// What should be known beside the numbers.
pub fn notes(scene: &Scene, reading: &RatingReading) -> Vec<String> {
    rating_notes(reading, scene.units())
}
