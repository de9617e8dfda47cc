//! Readings as fields, and the likely causes as bars and sentences.

use narrows::advice::diagnose::{Diagnosis, Hypothesis};
use narrows::kit::Kit;
use narrows::power::Grade;
use narrows::report::{
    because_text, cannot_tell_text, diagnosis_notes, next_check_text, reading_rows, verdict_text,
};
use narrows::scenario::{ReadingKind, Readings, ReadingsSetup};
use narrows::units::{Measure, PressureUnit, TemperatureUnit, Typed, TypedPressure, UnitSet};

use super::Scene;
use super::scale::{PressureScale, sentence};
use crate::ui::diagram::bars::{Bar, Bars};
use crate::ui::symbols::Mark;
use crate::ui::widgets::plate::Plate;

/// Hypotheses less likely than this are not drawn.
const SHOWN_RATIO: f64 = 0.005;

/// A reading that can be typed.
pub struct ReadingField {
    /// Which.
    pub kind: ReadingKind,
    /// What it is called.
    pub label: &'static str,
    /// Its field's path.
    pub path: &'static str,
    /// As typed; empty if it was not read.
    pub typed: String,
    /// The unit of a bare number.
    pub unit: &'static str,
}

/// A field for every number that can be read.
pub fn fields(readings: Option<&Readings>, units: UnitSet) -> Vec<ReadingField> {
    let pressure = PressureScale::of(units).gauge;
    let gauge =
        |of: fn(&Readings) -> &Option<TypedPressure>| readings.and_then(|r| of(r).as_ref()).map(typed_gauge);
    let field = |kind, label, path, typed: Option<String>, unit| {
        let typed = typed.unwrap_or_default();
        ReadingField { kind, label, path, typed, unit }
    };
    use ReadingKind as K;
    vec![
        field(K::Rate, "Scale rate", "readings.rate", typed(readings, |r| &r.rate), units.rate.name()),
        field(
            K::SystemPressure,
            "System",
            "readings.system_pressure",
            gauge(|r| &r.system_pressure),
            pressure,
        ),
        field(
            K::MachineInlet,
            "Machine inlet",
            "readings.machine_inlet_pressure",
            gauge(|r| &r.machine_inlet_pressure),
            pressure,
        ),
        field(
            K::Discharge,
            "Discharge",
            "readings.discharge_pressure",
            gauge(|r| &r.discharge_pressure),
            pressure,
        ),
        field(
            K::CylinderPressure,
            "Cylinder pressure",
            "readings.cylinder_pressure",
            gauge(|r| &r.cylinder_pressure),
            pressure,
        ),
        field(
            K::CylinderTemperature,
            "Cylinder temperature",
            "readings.cylinder_temperature",
            typed(readings, |r| &r.cylinder_temperature),
            units.temperature.name(),
        ),
        field(
            K::RunningVoltage,
            "Volts at the machine",
            "readings.running_voltage",
            typed(readings, |r| &r.running_voltage),
            "V",
        ),
        field(
            K::ReceptacleVoltage,
            "Volts at the receptacle",
            "readings.receptacle_voltage",
            typed(readings, |r| &r.receptacle_voltage),
            "V",
        ),
        field(
            K::RunningCurrent,
            "Amps",
            "readings.running_current",
            typed(readings, |r| &r.running_current),
            "A",
        ),
    ]
}

fn typed_gauge(pressure: &TypedPressure) -> String {
    pressure.as_typed().to_owned()
}

fn typed<Q: Measure>(readings: Option<&Readings>, of: fn(&Readings) -> &Option<Typed<Q>>) -> Option<String> {
    readings.and_then(|r| of(r).as_ref()).map(|typed| typed.as_typed().to_owned())
}

/// The tolerances: label, path, as typed, and the usual one in the units of answers, rounded.
pub fn tolerances(
    readings: Option<&Readings>,
    units: UnitSet,
) -> [(&'static str, &'static str, String, &'static str); 5] {
    let gauges = match units.pressure {
        PressureUnit::Psi => "2 psi",
        PressureUnit::Bar => "0.14 bar",
        PressureUnit::Kilopascal => "14 kPa",
    };
    let temperature = match units.temperature {
        TemperatureUnit::Fahrenheit => "3 °F",
        TemperatureUnit::Celsius => "1.7 °C",
    };
    fn text<Q: Measure>(typed: Option<&Typed<Q>>) -> String {
        typed.map(|t| t.as_typed().to_owned()).unwrap_or_default()
    }
    let all = readings.map(|r| &r.tolerances);
    [
        ("Rate", "readings.tolerances.rate", text(all.and_then(|t| t.rate.as_ref())), "10 %"),
        ("Gauges", "readings.tolerances.pressure", text(all.and_then(|t| t.pressure.as_ref())), gauges),
        (
            "Temperature",
            "readings.tolerances.temperature",
            text(all.and_then(|t| t.temperature.as_ref())),
            temperature,
        ),
        ("Volts", "readings.tolerances.voltage", text(all.and_then(|t| t.voltage.as_ref())), "1.5 V"),
        ("Amps", "readings.tolerances.current", text(all.and_then(|t| t.current.as_ref())), "5 %"),
    ]
}

/// The kit the readings were taken on.
pub fn kit<'a>(scene: &Scene<'a>) -> Option<&'a Kit> {
    let document = scene.document();
    let named = document.readings.as_ref().and_then(|r| r.kit.as_deref());
    named.and_then(|name| document.kit(name)).or(document.kits.first())
}

/// Where cold may begin: words and what the document's field takes.
pub fn cold_spots(kit: Option<&Kit>) -> Vec<(String, String)> {
    let mut spots = vec![("not felt".to_owned(), "none".to_owned()), same("nowhere")];
    let parts = kit.map_or(&[][..], |k| k.parts.as_slice());
    for (at, part) in parts.iter().enumerate() {
        let label = part.label();
        let alone = parts.iter().filter(|other| other.label().eq_ignore_ascii_case(label)).count() == 1;
        // A name stays true when parts move; a place tells two of the same name apart.
        let value = if alone { label.to_owned() } else { at.to_string() };
        spots.push((format!("{}. {label}", at + 1), value));
    }
    spots.push(same("machine inlet"));
    spots
}

fn same(word: &str) -> (String, String) {
    (word.to_owned(), word.to_owned())
}

/// The chosen one of them in words; what is typed otherwise stays as it is.
pub fn cold_now(readings: Option<&Readings>, spots: &[(String, String)]) -> String {
    let Some(typed) = readings.and_then(|r| r.cold_part.as_deref()) else { return "not felt".to_owned() };
    let plain = |text: &str| text.trim().replace(['_', '-'], " ").to_lowercase();
    let found = spots.iter().find(|(_, value)| plain(value) == plain(typed));
    let by_place = || spots.iter().find(|(word, _)| place_of(word) == typed.trim().parse().ok());
    found.or_else(by_place).map_or_else(|| typed.to_owned(), |(word, _)| word.clone())
}

fn place_of(word: &str) -> Option<usize> {
    word.split_once(". ")?.0.parse::<usize>().ok()?.checked_sub(1)
}

/// Readings and what was found, or why there is nothing.
pub fn found<'a>(scene: &Scene<'a>) -> Result<(&'a ReadingsSetup, &'a Diagnosis), String> {
    if scene.document().readings.is_none() {
        return Err("Nothing is read yet: fill in what the gauges show. Two gauges and the scale say most."
            .to_owned());
    }
    let reasons = scene.study().and_then(|s| s.reasons.as_ref());
    match reasons.and_then(|r| r.cause.as_ref()) {
        Some(Ok((readings, found))) => Ok((readings, found)),
        Some(Err(why)) => Err(sentence(why)),
        None => Err(scene.waiting().to_owned()),
    }
}

/// For each reading: with nothing wrong, with the likeliest cause if one can be told.
pub fn beside(scene: &Scene, readings: &ReadingsSetup, found: &Diagnosis, kind: ReadingKind) -> [String; 2] {
    let rows = reading_rows(readings, found, scene.units());
    let row = rows.into_iter().find(|row| row.kind == kind);
    row.map_or_else(Default::default, |row| {
        let likeliest = row.likeliest.filter(|_| found.cannot_tell.is_none());
        [row.expected.unwrap_or_default(), likeliest.unwrap_or_default()]
    })
}

/// What forbids the job on which it was read: every Stop of its kit, then those of cylinders, method and
/// level.
pub fn stops(scene: &Scene) -> Vec<(Mark, &'static str, String)> {
    let place = kit(scene).and_then(|kit| scene.document().kits.iter().position(|k| k.name == kit.name));
    let of_kit = place.and_then(|at| scene.answer()?.kits.get(at)).map_or(&[][..], |kit| kit.cautions());
    let of_job = scene.study().and_then(|study| study.limits()).map_or(&[][..], |limits| &limits.cautions);
    let all = of_kit.iter().chain(of_job).filter(|caution| caution.grade == Grade::Stop);
    all.map(|stop| {
        let (mark, word) = super::volts::graded(stop.grade);
        (mark, word, sentence(&stop.text))
    })
    .collect()
}

/// The likeliest group in large, or that it cannot be told.
pub fn plate(scene: &Scene, found: &Diagnosis) -> Plate {
    let title = "Likely cause".to_owned();
    let stale = scene.session.is_studying_reasons();
    match (&found.cannot_tell, found.groups.first()) {
        (Some(cannot), _) => {
            let words = cannot_tell_text(cannot);
            Plate { title, instead: Some((Mark::Note, words)), stale, ..Plate::default() }
        }
        (None, Some((group, likelihood))) => Plate {
            title,
            numeral: sentence(group.label()),
            unit: percent(*likelihood),
            stale,
            ..Plate::default()
        },
        (None, None) => Plate { title, stale, ..Plate::default() },
    }
}

/// The verdict and the next check, in sentences.
pub fn verdict(scene: &Scene, readings: &ReadingsSetup, found: &Diagnosis) -> (String, Option<String>) {
    (verdict_text(found, readings, scene.units()), found.next_check.as_ref().map(next_check_text))
}

/// The hypotheses worth naming.
pub fn shown(found: &Diagnosis) -> impl Iterator<Item = &Hypothesis> {
    found.hypotheses.iter().filter(|one| one.likelihood_ratio >= SHOWN_RATIO)
}

/// Them as bars.
pub fn bars(scene: &Scene, found: &Diagnosis) -> Bars {
    let rows = shown(found).enumerate().map(|(place, one)| Bar {
        label: one.name.clone(),
        detail: sentence(one.group.label()),
        value: Some(100.0 * one.likelihood_ratio),
        text: percent(one.likelihood_ratio),
        strong: place == 0 && found.cannot_tell.is_none(),
        hollow: found.cannot_tell.is_some(),
        ..Bar::default()
    });
    Bars {
        rows: rows.collect(),
        unit: "%".to_owned(),
        stale: scene.session.is_studying_reasons(),
        ..Bars::default()
    }
}

/// Why each stands where it does: name, group, sentence.
pub fn because(
    scene: &Scene,
    readings: &ReadingsSetup,
    found: &Diagnosis,
) -> Vec<(String, &'static str, String)> {
    let text = |one: &Hypothesis| because_text(one, readings, scene.units());
    shown(found).map(|one| (one.name.clone(), one.group.label(), text(one))).collect()
}

/// All groups with their likelihoods, in one line.
pub fn groups(found: &Diagnosis) -> String {
    let words: Vec<String> =
        found.groups.iter().map(|(group, l)| format!("{} {}", group.label(), percent(*l))).collect();
    format!("By group: {}. Power and cylinder may be at fault beside another.", words.join(", "))
}

/// What else should be known.
pub fn notes(scene: &Scene, readings: &ReadingsSetup, found: &Diagnosis) -> Vec<String> {
    diagnosis_notes(found, readings, scene.units())
}

/// Nothing is certain and nothing is impossible.
fn percent(ratio: f64) -> String {
    match 100.0 * ratio {
        share if share > 99.5 => "> 99 %".to_owned(),
        share if share < 0.5 => "< 1 %".to_owned(),
        share => format!("{share:.0} %"),
    }
}
