//! What several pages say alike.

use uom::si::f64::{Mass, Time};
use uom::si::mass::kilogram;

use super::answers::PageAnswers;
use super::model::{Block, Section, Table};
use super::picture::{self, Cut};
use crate::compare::Figure;
use crate::fluid::Refrigerant;
use crate::job::over_time::{EndsBecause, JobAnswer, Pauses};
use crate::kit::{Cord, Kit, Machine, Port, RecoveryMethod};
use crate::report::error_words::job_error_text;
use crate::report::job_solved::{SolvedJobs, UnshownJob};
use crate::report::job_steps::whole_time;
use crate::report::job_words::{ends_text, job_note_text};
use crate::report::note_words::notes_of;
use crate::report::part_words::typed_text;
use crate::report::solved::{SolvedKit, Unshown};
use crate::report::table::part_mark;
use crate::report::time_words::time_text;
use crate::scenario::{Document, PartName};
use crate::units::{Measure, UnitSet, as_sentence};

/// Everything that sections are made of.
pub(super) struct Scene<'a> {
    pub document: &'a Document,
    pub answers: &'a PageAnswers,
    pub units: UnitSet,
}

impl<'a> Scene<'a> {
    /// The kit that the pages are about, as it is written.
    pub fn kit(&self) -> Option<&'a Kit> {
        self.document.kits.get(self.answers.hand)
    }

    /// Its machine.
    pub fn machine(&self) -> &'a Machine {
        self.kit().and_then(|kit| kit.machine.as_ref()).unwrap_or(&self.document.machine)
    }

    /// Its cords.
    pub fn cords(&self) -> &'a [Cord] {
        self.kit().map_or(&self.document.supply.cords, |kit| self.document.cords_of(kit))
    }

    /// Its job, or why there is none, in sentences.
    pub fn job(&self) -> Result<&'a JobAnswer, Vec<String>> {
        let jobs = self.answers.jobs.as_ref().map_err(|missing| {
            missing
                .iter()
                .map(|one| format!("The job is not worked out. Missing: {one}."))
                .collect::<Vec<_>>()
        })?;
        let Some(job) = jobs.kits.get(self.answers.hand) else {
            return Err(vec!["The job was not followed to its end.".to_owned()]);
        };
        job.shown().map_err(|unshown| {
            vec![match unshown {
                UnshownJob::Withheld(caution) => format!("Time and rate are withheld. {}", caution.text),
                UnshownJob::NoAnswer(error) => as_sentence(&self.error_text(error)),
            }]
        })
    }

    pub fn error_text(&self, error: &crate::job::JobError) -> String {
        job_error_text(error, self.units, self.document.ambient.absolute_pressure())
    }

    pub fn pressure(&self, absolute: uom::si::f64::Pressure) -> String {
        self.units.pressure(absolute, self.document.ambient.absolute_pressure())
    }

    /// Why the kit's rate is not shown, in a sentence.
    pub fn no_rate(&self, solved: &SolvedKit) -> Option<String> {
        match solved.shown_point() {
            Ok(_) => None,
            Err(Unshown::Withheld(caution)) => Some(format!("The rate is withheld. {}", caution.text)),
            Err(Unshown::NoPoint(error)) => Some(as_sentence(&self.error_text(error))),
        }
    }

    /// A weight to stop at, as a scale shows it: rounded down, never up.
    pub fn stop_weight(&self, gross: Mass) -> String {
        let kg = gross.get::<kilogram>();
        let unit = self.units.mass;
        let number = kg / unit.size_si();
        // What is a whole tenth but for the last bit stays one.
        let tenths = ((number * 10.0 + 1e-6).floor() / 10.0).max(0.0);
        format!("{} {}", self.units.decimals(tenths, 1), unit.name())
    }

    /// "Kit B of 2, core out": what the page is about.
    pub fn kit_words(&self) -> String {
        let Some(kit) = self.kit() else { return "No kit.".to_owned() };
        let label = kit.label.as_deref().map(|label| format!(": {label}")).unwrap_or_default();
        match self.document.kits.len() {
            1 => format!("{}{label}", kit.name),
            count => format!("{}{label} (one of {count}; the comparison page has all)", kit.name),
        }
    }
}

/// Whether a job is done as it should be.
pub(super) fn is_done(answer: &JobAnswer) -> bool {
    matches!(
        answer.ends_because,
        EndsBecause::LevelReached | EndsBecause::AlreadyAtLevel | EndsBecause::NothingToRecover
    )
}

/// Every caution of the document.
pub(super) fn cautions(scene: &Scene) -> Section {
    Section::new("Cautions", vec![Block::Cautions(scene.answers.cautions.clone())])
}

/// Low and high of the whole time on site, and what they come from.
pub(super) struct TimeBand {
    pub ends: (Time, Time),
    pub because: &'static str,
}

/// The band of a kit's time: drawn over all that is uncertain, or else what the charge's own gives.
pub(super) fn band(jobs: &SolvedJobs, at: usize) -> Option<TimeBand> {
    let whole = |time: Time| whole_time(&jobs.planned, time);
    if let Some(band) = jobs.band(at, Figure::Minutes) {
        let ends = (whole(Time::from_si(band.low)), whole(Time::from_si(band.high)));
        return Some(TimeBand { ends, because: "four of five draws of all that is uncertain" });
    }
    let (a, b) = jobs.kits.get(at)?.band?;
    Some(TimeBand { ends: (whole(a.min(b)), whole(a.max(b))), because: "with the low and the high charge" })
}

/// Low and high of a time, in order.
pub(super) fn range((a, b): (Time, Time)) -> String {
    let (low, high) = if a <= b { (a, b) } else { (b, a) };
    format!("{} to {}", time_text(low), time_text(high))
}

/// What every number rests on.
pub(super) fn assumptions(scene: &Scene) -> Section {
    let mut blocks = vec![Block::Facts(given(scene)), Block::List(taken(scene))];
    blocks.retain(|block| !matches!(block, Block::List(items) if items.is_empty()));
    Section::new("What this rests on", blocks)
}

/// Notes of the document and of the answers; what holds for all kits once, the rest with its kit.
pub(super) fn notes(scene: &Scene) -> Vec<Section> {
    let ambient = scene.document.ambient.absolute_pressure();
    let mut said: Vec<(String, Vec<&str>)> = Vec::new();
    for (at, kit) in scene.answers.kits.iter().enumerate() {
        let mut own = notes_of(kit);
        let job = scene.answers.jobs.as_ref().ok().and_then(|jobs| jobs.kits.get(at));
        if let Some(answer) = job.and_then(|job| job.shown().ok()) {
            if !is_done(answer) {
                own.push(ends_text(&answer.ends_because, scene.units, ambient));
            }
            own.extend(answer.notes.iter().map(|note| job_note_text(note, scene.units, ambient)));
        }
        for text in own {
            let name = kit.kit.name.as_str();
            match said.iter_mut().find(|(other, _)| *other == text) {
                Some((_, kits)) if kits.last() == Some(&name) => {}
                Some((_, kits)) => kits.push(name),
                None => said.push((text, vec![name])),
            }
        }
    }
    let count = scene.answers.kits.len();
    let with_kits = |(text, kits): (String, Vec<&str>)| {
        if kits.len() == count { text } else { format!("Kit {}: {text}", kits.join(", ")) }
    };
    let all: Vec<String> =
        scene.document.notes.iter().cloned().chain(said.into_iter().map(with_kits)).collect();
    if all.is_empty() { Vec::new() } else { vec![Section::new("Notes", vec![Block::List(all)])] }
}

fn fact(name: &str, what: impl Into<String>) -> (String, String) {
    (name.to_owned(), what.into())
}

/// What the document gives, as typed.
pub(super) fn given(scene: &Scene) -> Vec<(String, String)> {
    let document = scene.document;
    let refrigerant = &scene.answers.ask.refrigerant;
    let source = &document.source;
    let typed = |text: &str| typed_text(text);
    let mut facts = vec![fact(
        "Refrigerant",
        format!("{}, class {}", refrigerant.designation(), refrigerant.safety_class()),
    )];
    let band = document.charge_band.as_ref().map(|band| format!(", known to ± {}", band.as_typed()));
    facts.push(fact(
        "Charge",
        match &source.charge {
            Some(charge) => format!("{}{}", typed(charge.as_typed()), band.unwrap_or_default()),
            None => "not given: no more than the vapour is counted".to_owned(),
        },
    ));
    let volume = source.volume.as_ref().map(|volume| format!(", {} inside", typed(volume.as_typed())));
    facts.push(fact(
        "System",
        format!(
            "{}{}, {}",
            typed(source.temperature.as_typed()),
            volume.unwrap_or_else(|| ", inside volume not given".to_owned()),
            port_words(scene.kit().and_then(|kit| kit.port).unwrap_or(source.port)),
        ),
    ));
    let altitude = document.ambient.altitude.as_ref().map(|height| format!(", {} up", height.as_typed()));
    facts.push(fact(
        "Air",
        format!("{}{}", typed(document.ambient.temperature.as_typed()), altitude.unwrap_or_default()),
    ));
    facts.push(fact("Machine", machine_words(scene)));
    facts.push(fact("Cylinder in use", typed(document.cylinder.temperature.as_typed())));
    facts.push(fact("Power", power_words(scene)));
    facts
}

/// What is taken where the document says nothing, and where the rules come from.
pub(super) fn taken(scene: &Scene) -> Vec<String> {
    let (document, answers) = (scene.document, scene.answers);
    let mut all = Vec::new();
    if document.source.metal_heat_capacity.is_none() && document.source.heat_gain.is_none() {
        all.push("No heat from the system's metal or the air around it is counted.".to_owned());
    }
    let plan = document.job.clone().unwrap_or_default();
    let usual = Pauses::default();
    let times = [
        ("a change of cylinder", plan.swap.is_none(), usual.swap),
        (
            "a change of hoses",
            plan.hose_change.is_none() && plan.method == RecoveryMethod::PushPull,
            usual.hose_change,
        ),
    ];
    for (what, is_assumed, time) in times {
        if is_assumed && answers.jobs.is_ok() {
            all.push(format!("{} is taken for {what}.", time_text(time)));
        }
    }
    if plan.set_up.is_none() && plan.pack_up.is_none() {
        all.push("No time for setting up and packing up is counted.".to_owned());
    }
    all.push(properties_words(&answers.ask.refrigerant));
    all.push(sources_words(&answers.ask.refrigerant));
    let filling = &answers.ask.filling;
    all.push(format!("Filling limits: {}, {}.", filling.title, filling.edition));
    all.push(
        "Bores and discharge coefficients are as the document has them; parts were not measured unless it says so."
            .to_owned(),
    );
    all
}

/// What the refrigerant is, and what is not sure of its properties.
fn properties_words(refrigerant: &Refrigerant) -> String {
    let mut words = format!(
        "{}: {}, class {}.",
        refrigerant.designation(),
        refrigerant.composition(),
        refrigerant.safety_class_text(),
    );
    if let Some(reason) = refrigerant.estimate_reason() {
        words.push_str(&format!(" Its properties are estimates: {reason}."));
    }
    words
}

/// Where its properties come from.
fn sources_words(refrigerant: &Refrigerant) -> String {
    format!("Its properties: {}. Its viscosities: {}.", refrigerant.source(), refrigerant.viscosity_source())
}

fn port_words(port: Port) -> &'static str {
    match port {
        Port::Liquid => "liquid is drawn",
        Port::Vapour => "vapour is drawn",
        Port::Both => "liquid and vapour are drawn",
    }
}

pub(super) fn method_words(document: &Document) -> &'static str {
    match document.job.as_ref().map(|plan| plan.method).unwrap_or_default() {
        RecoveryMethod::Vapour => "as vapour",
        RecoveryMethod::LiquidThenVapour => "as liquid first, then as vapour",
        RecoveryMethod::PushPull => "by push-pull, then as liquid and vapour",
    }
}

/// How many machines run at once.
pub(super) fn machine_count(document: &Document) -> u32 {
    document.job.as_ref().and_then(|plan| plan.machines).unwrap_or(1)
}

pub(super) fn machine_words(scene: &Scene) -> String {
    let machine = scene.machine();
    let count = match machine_count(scene.document) {
        1 => String::new(),
        count => format!("{count} × "),
    };
    let motor = &machine.motor;
    format!(
        "{count}{}, {}, motor {}, {}",
        machine.name.as_deref().unwrap_or("recovery machine"),
        machine.displacement.as_typed(),
        motor.rated_voltage,
        motor.rated_current,
    )
}

pub(super) fn cord_words(cord: &Cord) -> String {
    let name = cord.name.as_deref().unwrap_or("Extension cord");
    format!("{name}, {}, {}", cord.gauge, typed_text(cord.length.as_typed()))
}

pub(super) fn circuit_words(scene: &Scene) -> String {
    let supply = &scene.document.supply;
    let source = match &supply.generator {
        Some(generator) => {
            format!(
                "generator, {}, {} continuous, {} surge",
                supply.voltage, generator.continuous, generator.surge
            )
        }
        None => format!("{} at the panel", supply.voltage),
    };
    let branch = supply.branch.as_ref().map(|branch| {
        let breaker =
            branch.breaker.as_ref().map(|breaker| format!(", {breaker} breaker")).unwrap_or_default();
        let other =
            branch.other_load.as_ref().map(|load| format!(", {load} of other loads")).unwrap_or_default();
        format!("; branch circuit {}, {}{breaker}{other}", branch.gauge, typed_text(branch.length.as_typed()))
    });
    format!("{source}{}", branch.unwrap_or_default())
}

fn power_words(scene: &Scene) -> String {
    let cords: Vec<String> = scene.cords().iter().map(cord_words).collect();
    let cords = if cords.is_empty() { "no cord".to_owned() } else { cords.join("; ") };
    format!("{}; {cords}", circuit_words(scene))
}

/// The parts of a kit with their pressures; numbers as in the drawing.
pub(super) fn part_table(scene: &Scene, solved: &SolvedKit) -> Option<Table> {
    let point = solved.shown_point().ok()?;
    let mut table = Table::new(&["*No.", "*Part", "In", "Out", "Lost", "*"]);
    let mut number = 0;
    let mut add = |names: &[PartName], parts: &[crate::job::PartPoint], lead: &str| {
        for (name, part) in names.iter().zip(parts) {
            let label = if lead.is_empty() {
                number += 1;
                number.to_string()
            } else {
                lead.to_owned()
            };
            table.rows.push(vec![
                label,
                name.name.clone(),
                scene.pressure(part.inlet_pressure),
                scene.pressure(part.outlet_pressure),
                scene.units.pressure_loss(part.drop()),
                part_mark(part).to_owned(),
            ]);
        }
    };
    add(&solved.kit.parts, &point.parts, "");
    add(&solved.kit.discharge_parts, &point.discharge_parts, "");
    if let Some(second) = &point.second {
        add(&solved.kit.second_parts, &second.parts, "2nd port");
    }
    (!table.rows.is_empty()).then_some(table)
}

/// Chain and stairs of a kit.
pub(super) fn bench(scene: &Scene, at: usize, cut: Cut) -> Option<Block> {
    let (kit, solved) = (scene.document.kits.get(at)?, scene.answers.kits.get(at)?);
    Some(Block::Picture(picture::bench(scene.document, kit, solved, scene.units, cut)))
}
