//! The customer's page: what will be done, how long, how many cylinders, to which level.

use super::common::{self, Scene, TimeBand, is_done, range};
use super::model::{Big, Block, Section, Table};
use super::picture;
use crate::job::over_time::JobAnswer;
use crate::report::job_steps::{job_steps, whole_time};
use crate::report::job_table::deadline_words;
use crate::report::job_words::ends_text;
use crate::report::part_words::typed_text;
use crate::report::time_words::time_text;
use crate::units::as_sentence;

pub(super) fn sections(scene: &Scene) -> Vec<Section> {
    let mut sections = vec![work(scene), time(scene), cylinders(scene), level(scene), site(scene)];
    sections.push(common::cautions(scene));
    sections.push(common::assumptions(scene));
    sections.extend(common::notes(scene));
    sections
}

fn work(scene: &Scene) -> Section {
    let document = scene.document;
    let amount = match &document.source.charge {
        Some(charge) => format!("{} of {}", typed_text(charge.as_typed()), document.refrigerant),
        None => format!("The {} (how much is not known)", document.refrigerant),
    };
    let what = format!(
        "{amount} will be taken out of the system into recovery cylinders, {}. The work ends when the system holds \
         the level below.",
        common::method_words(document)
    );
    let scope = "This is recovery only: it does not clean, recycle, reclaim or dry anything. Repair and evacuation \
                 are other jobs.";
    let kit = format!("Worked out for kit {}.", scene.kit_words());
    Section::new(
        "What will be done",
        vec![Block::Words(what), Block::Words(scope.to_owned()), Block::Words(kit)],
    )
}

fn time(scene: &Scene) -> Section {
    let title = "How long it takes";
    let (answer, jobs) = match (scene.job(), &scene.answers.jobs) {
        (Ok(answer), Ok(jobs)) => (answer, jobs),
        (Err(missing), _) => return Section::new(title, missing.into_iter().map(Block::Words).collect()),
        (Ok(_), Err(_)) => return Section::new(title, Vec::new()),
    };
    let planned = &jobs.planned;
    let likely = whole_time(planned, answer.total);
    let band = common::band(jobs, scene.answers.hand);
    let note = match &band {
        Some(band) => format!("{}, {}", range(band.ends), band.because),
        None => "no range was drawn".to_owned(),
    };
    let mut blocks = Vec::new();
    if !is_done(answer) {
        let ambient = scene.document.ambient.absolute_pressure();
        let why = ends_text(&answer.ends_because, scene.units, ambient);
        blocks.push(Block::Words(format!("As planned, the job is not done: {why}")));
    }
    blocks.push(Block::Bigs(vec![
        Big { name: "On site, likely".to_owned(), value: time_text(likely), note },
        Big {
            name: "Recovered".to_owned(),
            value: scene.units.mass(answer.recovered),
            note: format!("{} stay in the system", scene.units.mass(answer.remaining)),
        },
    ]));
    if let Some(TimeBand { ends: (low, high), .. }) = band {
        blocks.push(Block::Table(band_table(low, likely, high)));
    }
    blocks
        .extend(deadline_words(planned, answer).map(|words| Block::Words(format!("The window of {words}."))));
    blocks.push(Block::Table(phases(scene, answer)));
    let level = planned.limits.level.as_ref().ok().map(|level| (level.absolute, level.stated.as_str()));
    let clock = picture::clock(answer, level, scene.units).map(Block::Picture);
    let words = "The clock starts with the machine. Grey: pauses (changes of cylinder and hoses, waiting).";
    blocks.extend(clock.into_iter().chain([Block::Words(words.to_owned())]));
    Section::new(title, blocks)
}

fn band_table(low: uom::si::f64::Time, likely: uom::si::f64::Time, high: uom::si::f64::Time) -> Table {
    let mut table = Table::new(&["*", "Low", "Likely", "High"]);
    let cells = [low, likely, high].map(time_text);
    table.rows.push(std::iter::once("Time on site".to_owned()).chain(cells).collect());
    table
}

fn phases(scene: &Scene, answer: &JobAnswer) -> Table {
    let mut table = Table::new(&["*Step", "From", "To", "Recovered"]);
    let Ok(jobs) = &scene.answers.jobs else { return table };
    table.rows = job_steps(&jobs.planned, answer)
        .into_iter()
        .map(|step| {
            let mass = step.recovered.map(|mass| scene.units.mass(mass)).unwrap_or_default();
            vec![
                as_sentence(step.name).trim_end_matches('.').to_owned(),
                time_text(step.from),
                time_text(step.to),
                mass,
            ]
        })
        .collect();
    table
}

fn cylinders(scene: &Scene) -> Section {
    let title = "Cylinders";
    let Some(schedule) = &scene.answers.limits.schedule else {
        let words = "How many are needed is not known, since the charge is not given.".to_owned();
        return Section::new(title, vec![Block::Words(words)]);
    };
    let (likely, high) = (schedule.likely_count, schedule.high_count);
    let is_enough = schedule.homeless.value <= 0.0 && schedule.more.is_none();
    let note = match (is_enough, likely == high) {
        (false, _) => "not enough, see below".to_owned(),
        (true, true) => "enough for the highest charge too".to_owned(),
        (true, false) => format!("{high} for the highest charge"),
    };
    let mut blocks = vec![Block::Bigs(vec![Big {
        name: "Cylinders, likely".to_owned(),
        value: likely.to_string(),
        note,
    }])];
    blocks.push(Block::Words(
        "Each is filled by weight, no further than the lowest of its limits allows, and holds one refrigerant only."
            .to_owned(),
    ));
    if schedule.homeless.value > 0.0 {
        let mass = scene.units.mass(schedule.homeless);
        blocks.push(Block::Words(format!("Nothing takes {mass}: there is no usable cylinder for it.")));
    }
    if let Some(more) = &schedule.more {
        blocks.push(Block::Words(format!(
            "The stock lacks {} for the likely charge and {} for the highest.",
            more.likely, more.high
        )));
    }
    Section::new(title, blocks)
}

fn level(scene: &Scene) -> Section {
    let block = match &scene.answers.limits.level {
        Ok(level) => Block::Facts(vec![
            ("Down to".to_owned(), level.stated.clone()),
            ("By".to_owned(), level.origin()),
            (
                "To confirm".to_owned(),
                if level.needs_confirmation() {
                    "Sources disagree: confirm with the current text before the work.".to_owned()
                } else {
                    "Copied from the dated source; it may have changed since.".to_owned()
                },
            ),
        ]),
        Err(why) => Block::Words(as_sentence(&format!("there is no level: {why}"))),
    };
    Section::new("The level, and where it comes from", vec![block])
}

fn site(scene: &Scene) -> Section {
    let mut needs = vec![format!("Power: {}.", common::circuit_words(scene))];
    let running = scene.answers.kit().and_then(|kit| kit.answer.power.as_ref().ok());
    if let Some(point) = running.and_then(|power| power.running.point()) {
        needs.push(format!(
            "The machine draws about {} while it runs; nothing else heavy on the same circuit.",
            scene.units.current(point.current)
        ));
    }
    if common::machine_count(scene.document) > 1 {
        needs.push("A circuit of its own for each machine.".to_owned());
    }
    needs.push(
        "Ventilation, and a way for a hand truck between the system and where cylinders stand.".to_owned(),
    );
    needs.push("No flames and no smoking near the work.".to_owned());
    Section::new("What the site gives", vec![Block::List(needs)])
}
