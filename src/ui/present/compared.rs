//! Kits side by side: only what differs from the first, their figures, and their differences.

use narrows::compare::{Band, Figure, Verdict, align};
use narrows::kit::Part;
use narrows::report::Compared;
use narrows::units::{Measure, UnitSet, three_figures};
use uom::si::f64::{ElectricPotential, Mass, MassRate};

use super::scale::{number_and_unit, pretty, sentence};
use super::{Scene, clock, job_words, parts, quantity};
use crate::ui::diagram::bars::{Bar, Bars};
use crate::ui::diagram::time;
use crate::ui::symbols::Symbol;

/// What stands in a column of a row.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// As in the first kit.
    Same,
    /// The first kit's has no partner here.
    Out,
    /// A part: drawing, name, size.
    Part(Symbol, String, String),
    /// Words.
    Words(String),
}

/// A row: what it is about, and one cell a kit.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// What it is about.
    pub name: String,
    /// One a kit.
    pub cells: Vec<Cell>,
}

/// A kit's figure: number, unit, band; or why there is none.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shown {
    /// The number.
    pub numeral: String,
    /// Its unit.
    pub unit: String,
    /// Low and high, in words.
    pub band: String,
    /// Instead of a number.
    pub instead: String,
}

/// The comparison, or why there is none.
pub fn compared<'a>(scene: &Scene<'a>) -> Result<&'a Compared, String> {
    match scene.study().and_then(|s| s.compared.as_ref()) {
        Some(Ok(compared)) => Ok(compared),
        Some(Err(why)) => Err(sentence(why)),
        None => Err(scene.waiting().to_owned()),
    }
}

/// The band of a kit's figure, as `1.15–1.43`; none until it is drawn for this document.
pub fn band_text(scene: &Scene, kit: usize, figure: Figure) -> Option<String> {
    let session = scene.session;
    let compared = compared(scene).ok().filter(|_| !session.is_study_stale() && session.tried().is_none())?;
    Some(band_words(scene.units(), figure, compared.band(kit, figure)?))
}

/// What all kits share, in few words.
pub fn shared(scene: &Scene) -> Vec<String> {
    let document = scene.document();
    let charge = document.source.charge.as_ref().map(|c| format!(", {c}")).unwrap_or_default();
    vec![
        format!("{}{charge}", document.refrigerant),
        format!("system {}", pretty(document.source.temperature.as_typed())),
        format!("air {}", pretty(document.ambient.temperature.as_typed())),
        format!("{} machine", document.machine.displacement),
        format!("cylinder {}", pretty(document.cylinder.temperature.as_typed())),
    ]
}

/// Rows in which some kit differs from the first.
pub fn rows(scene: &Scene, compared: &Compared) -> Vec<Row> {
    let mut rows = part_rows(scene);
    rows.extend(field_rows(scene, compared));
    rows
}

fn cell(part: &Part) -> Cell {
    Cell::Part(parts::symbol(part), parts::name(part), parts::detail(part))
}

fn part_rows(scene: &Scene) -> Vec<Row> {
    let kits = &scene.document().kits;
    let Some(first) = kits.first() else { return Vec::new() };
    let count = first.parts.len();
    // For each kit: partner of each of the first kit's parts, and what stands alone before each.
    let mut partners: Vec<Vec<Option<&Part>>> = Vec::new();
    let mut alone: Vec<Vec<Vec<&Part>>> = Vec::new();
    for kit in kits {
        let mut partner = vec![None; count];
        let mut before: Vec<Vec<&Part>> = vec![Vec::new(); count + 1];
        let mut next = 0;
        for pair in align(&first.parts, &kit.parts) {
            let part = pair.second.and_then(|i| kit.parts.get(i));
            match pair.first {
                Some(i) => {
                    if let Some(slot) = partner.get_mut(i) {
                        *slot = part;
                    }
                    next = i + 1;
                }
                None => {
                    if let Some(list) = before.get_mut(next) {
                        list.extend(part);
                    }
                }
            }
        }
        partners.push(partner);
        alone.push(before);
    }
    let mut rows = Vec::new();
    for i in 0..=count {
        let extra = alone.iter().filter_map(|a| a.get(i)).map(Vec::len).max().unwrap_or(0);
        for j in 0..extra {
            let found: Vec<Option<&Part>> =
                alone.iter().map(|a| a.get(i).and_then(|l| l.get(j)).copied()).collect();
            let name = found.iter().flatten().next().map(|p| parts::name(p)).unwrap_or_default();
            let cells = found.into_iter().map(|p| p.map_or(Cell::Same, cell));
            rows.push(Row { name, cells: cells.collect() });
        }
        let Some(own) = first.parts.get(i) else { continue };
        let mut cells = vec![cell(own)];
        for partner in partners.iter().skip(1) {
            cells.push(match partner.get(i).copied().flatten() {
                None => Cell::Out,
                Some(part) if looks(part) == looks(own) => Cell::Same,
                Some(part) => cell(part),
            });
        }
        if cells.iter().skip(1).any(|c| *c != Cell::Same) {
            rows.push(Row { name: parts::name(own), cells });
        }
    }
    rows
}

/// A part by what a person sees of it.
fn looks(part: &Part) -> (String, String) {
    (parts::name(part), parts::detail(part))
}

/// Machine, cords, method, port: what else a kit has of its own.
fn field_rows(scene: &Scene, compared: &Compared) -> Vec<Row> {
    let count = scene.document().kits.len();
    let mut rows: Vec<Row> = Vec::new();
    for (kit, differs) in compared.differs.iter().enumerate() {
        for field in &differs.fields {
            let name = field_words(&field.field);
            let words = |text: &Option<String>, kit: usize| {
                let said = text.as_deref().map_or("none".to_owned(), pretty);
                let port = (field.field == "second_port").then(|| second_port_words(scene, kit)).flatten();
                Cell::Words(port.map_or(said.clone(), |parts| format!("{parts}; {said}")))
            };
            let at = rows.iter().position(|r| r.name == name).unwrap_or_else(|| {
                let mut cells = vec![Cell::Same; count];
                if let Some(first) = cells.first_mut() {
                    *first = words(&field.first, 0);
                }
                rows.push(Row { name, cells });
                rows.len() - 1
            });
            if let Some(cell) = rows.get_mut(at).and_then(|r| r.cells.get_mut(kit)) {
                *cell = words(&field.second, kit);
            }
        }
    }
    rows
}

/// A field by its path as people say it: "cords.0.gauge" is "Cord 1 gauge".
fn field_words(path: &str) -> String {
    let mut words: Vec<String> = Vec::new();
    for step in path.split('.') {
        match (step.parse::<usize>(), words.last_mut()) {
            (Ok(at), Some(list)) => *list = format!("{} {}", list.trim_end_matches('s'), at + 1),
            _ => words.push(step.replace('_', " ")),
        }
    }
    sentence(&words.join(" "))
}

/// The parts of a kit's second port, in a few words.
fn second_port_words(scene: &Scene, kit: usize) -> Option<String> {
    let port = scene.document().kits.get(kit)?.second_port.as_ref()?;
    let names: Vec<String> = port.parts.iter().map(|part| super::parts::name(part).to_lowercase()).collect();
    Some(if names.is_empty() { "straight on".to_owned() } else { names.join(", ") })
}

/// The figures: name, and one a kit.
pub fn figures(scene: &Scene, compared: &Compared) -> Vec<(&'static str, Vec<Shown>)> {
    let kits = 0..compared.kits.len();
    let of = |figure: Figure| kits.clone().map(|at| shown(scene, compared, at, figure)).collect::<Vec<_>>();
    let mut all = vec![("Rate now", of(Figure::Rate))];
    if scene.study().is_some_and(|s| s.jobs.is_some()) {
        all.push(("Time to level", kits.clone().map(|at| job_time(scene, at)).collect()));
    }
    for (name, figure) in [
        ("Cost", Figure::Cost),
        ("Volts running", Figure::RunningVoltage),
        ("Volts starting", Figure::StartingVoltage),
    ] {
        let values = of(figure);
        if values.iter().any(|v| v.instead.is_empty()) {
            all.push((name, values));
        }
    }
    all
}

fn text_of(units: UnitSet, figure: Figure, si: f64) -> String {
    match figure {
        Figure::Rate => units.rate(MassRate::from_si(si)),
        Figure::Minutes => units.sentence(&time::text(si / 60.0)),
        Figure::Cost => units.number(si),
        Figure::Cylinders => format!("{si:.0}"),
        Figure::Recovered => units.mass(Mass::from_si(si)),
        _ => format!("{:.0} V", ElectricPotential::from_si(si).si()),
    }
}

fn shown(scene: &Scene, compared: &Compared, at: usize, figure: Figure) -> Shown {
    let units = scene.units();
    let Some(si) = compared.headline(at).si(figure) else {
        let instead = if compared.is_withheld(at) { "withheld, see Stop" } else { "no answer" };
        return Shown { instead: instead.to_owned(), ..Shown::default() };
    };
    let (numeral, unit) = number_and_unit(&text_of(units, figure, si));
    let band = compared.band(at, figure);
    let band = band.map(|b| band_words(units, figure, b)).unwrap_or_default();
    Shown { numeral, unit, band, ..Shown::default() }
}

fn band_words(units: UnitSet, figure: Figure, band: &Band) -> String {
    let number = |si: f64| number_and_unit(&text_of(units, figure, si)).0;
    format!("{}\u{2013}{}", number(band.low), number(band.high))
}

fn job_time(scene: &Scene, at: usize) -> Shown {
    let job = match clock::job_of(scene, at) {
        Ok(job) => job,
        Err(why) => return Shown { instead: why, ..Shown::default() },
    };
    if !job_words::is_done(&job.ends_because) {
        let instead = job_words::not_done(job, scene.units());
        return Shown { instead, ..Shown::default() };
    }
    let text = scene.time_text(clock::minutes(job.total));
    let (numeral, unit) = text.rsplit_once(' ').unwrap_or((&text, ""));
    let band = clock::band(scene, at)
        .map(|(low, high)| format!("{} to {}", scene.time_text(low), scene.time_text(high)));
    let left = job_words::liquid_left(job, scene.units());
    let aside: Vec<String> = band.into_iter().chain(left).collect();
    Shown { numeral: numeral.to_owned(), unit: unit.to_owned(), band: aside.join(", "), ..Shown::default() }
}

/// Whether every kit's time is known.
pub fn has_minutes(compared: &Compared) -> bool {
    (0..compared.kits.len()).all(|at| compared.headline(at).minutes.is_some())
}

/// What differences are told in: minutes where there are any, unless the rate is wanted.
pub fn figure(scene: &Scene, compared: &Compared) -> Figure {
    if has_minutes(compared) && !scene.session.view.in_rate { Figure::Minutes } else { Figure::Rate }
}

/// What each kit costs more than another for every minute it saves, in sentences.
pub fn prices_of_minutes(compared: &Compared) -> Vec<String> {
    let name = |at: usize| compared.kits.get(at).map_or("", |kit| kit.kit.name.as_str());
    let count = compared.kits.len();
    let pairs = (0..count).flat_map(|from| (0..count).map(move |to| (from, to)));
    let said = pairs.filter_map(|(from, to)| {
        let price = three_figures(compared.price_per_minute((from, to))?);
        Some(format!("{} against {}: {price} more for each minute saved.", name(to), name(from)))
    });
    said.collect()
}

/// The differences of every two kits, as bars.
pub fn differences(scene: &Scene, compared: &Compared) -> Bars {
    let count = compared.kits.len();
    let figure = figure(scene, compared);
    let (factor, unit, ends) = match figure {
        Figure::Minutes => (1.0 / 60.0, "min", ("sooner", "later")),
        _ => {
            let unit = quantity::rate(scene.units());
            (unit.per_si, unit.name, ("slower", "faster"))
        }
    };
    let mut rows = Vec::new();
    for to in 1..count {
        for from in 0..to {
            rows.push(difference(scene, compared, (from, to), figure, factor, ends));
        }
    }
    Bars {
        rows,
        unit: unit.to_owned(),
        ends: (ends.0.to_owned(), ends.1.to_owned()),
        stale: scene.session.is_study_stale(),
    }
}

fn difference(
    scene: &Scene,
    compared: &Compared,
    (from, to): (usize, usize),
    figure: Figure,
    factor: f64,
    ends: (&str, &str),
) -> Bar {
    let name = |at: usize| compared.kits.get(at).map(|k| k.kit.name.clone()).unwrap_or_default();
    let mut bar = Bar { kit: Some((to, name(to))), against: Some((from, name(from))), ..Bar::default() };
    let Some(plain) = compared.headline(to).less(&compared.headline(from), figure) else {
        bar.text = "cannot tell: no answer".to_owned();
        return bar;
    };
    bar.value = Some(plain * factor);
    let banded = compared.difference((from, to), figure);
    let Some((verdict, band)) = banded.and_then(|d| Some((d.verdict(figure), *d.band(figure)?))) else {
        bar.text = if plain == 0.0 { "the same".to_owned() } else { words(scene, figure, plain, ends) };
        return bar;
    };
    match verdict {
        Verdict::Same => {
            bar.text = "the same".to_owned();
            bar.strong = true;
        }
        Verdict::TooClose | Verdict::Unknown => {
            bar.value = Some(band.median * factor);
            bar.band = Some((band.low * factor, band.high * factor));
            bar.text = verdict.words().to_owned();
            bar.hollow = true;
        }
        Verdict::More | Verdict::Less => {
            bar.value = Some(band.median * factor);
            bar.band = Some((band.low * factor, band.high * factor));
            let (near, far) = if band.median < 0.0 { (band.high, band.low) } else { (band.low, band.high) };
            let range = range_words(scene.units(), figure, near, far);
            bar.text = format!("{} ({range})", words(scene, figure, band.median, ends));
            bar.strong = true;
        }
    }
    bar
}

/// From the nearer to the farther end of a difference, whatever its sign.
fn range_words(units: UnitSet, figure: Figure, near: f64, far: f64) -> String {
    let number = |si: f64| {
        let text = text_of(units, figure, si.abs());
        // A time has more than one number, as "2 h 47 min".
        if figure == Figure::Minutes { text } else { number_and_unit(&text).0 }
    };
    format!("{} to {}", number(near), number(far))
}

fn words(scene: &Scene, figure: Figure, si: f64, ends: (&str, &str)) -> String {
    let word = if si < 0.0 { ends.0 } else { ends.1 };
    format!("{} {word}", text_of(scene.units(), figure, si.abs()))
}

#[cfg(test)]
mod tests {
    use super::{Figure, UnitSet, field_words, range_words};

    #[test]
    fn paths_as_people_say_them() {
        for (path, expected) in [
            ("cords.0.gauge", "Cord 1 gauge"),
            ("machine.inlet_throttle.bore", "Machine inlet throttle bore"),
            ("second_port", "Second port"),
        ] {
            assert_eq!(field_words(path), expected);
        }
    }

    #[test]
    fn a_range_of_hours_keeps_its_minutes() {
        let said = |figure, near, far| range_words(UnitSet::US_TRADE, figure, near, far);
        assert_eq!(said(Figure::Minutes, -10_020.0, -16_140.0), "2 h 47 min to 4 h 29 min");
        assert_eq!(said(Figure::RunningVoltage, 2.0, 4.0), "2 to 4");
    }
}
