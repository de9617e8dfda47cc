//! The class handout, with blanks and the parts uncut, and its key.
//!
//! The handout holds nothing that was computed: numbers in cautions that are answers stand as
//! blanks, bores and notes stand in the key.

use super::cautions::{BLANK, with_blanks};
use super::common::{self, Scene};
use super::model::{Block, Section, Table};
use super::picture::{self, Cut};
use crate::kit::Part;
use crate::report::change_words::change_rows;
use crate::report::job_table::{level_words, stop_rule};
use crate::report::part_words::{part_detail, part_name, typed_text};
use crate::report::table::choked_name;
use crate::report::time_words::time_text;
use crate::units::as_sentence;

/// A question, and its answer if there is one.
struct Question {
    asks: String,
    answer: String,
}

pub(super) fn handout(scene: &Scene) -> Vec<Section> {
    let mut sections = Vec::new();
    let mut chain: Vec<Block> = common::bench(scene, scene.answers.hand, Cut::Whole).into_iter().collect();
    chain.push(Block::Table(parts_to_fill(scene)));
    sections.push(Section::new("The line-up", chain));
    let lines = questions(scene).into_iter().map(|question| question.asks).collect();
    sections.push(Section::new("Guess, then write down what comes out", vec![Block::Blanks(lines)]));
    let why = [
        "Why is the largest loss where it is?",
        "What would you change first, and what else changes with it?",
    ];
    sections.push(Section::new(
        "In your own words",
        vec![Block::Form { head: why.map(str::to_owned).into(), rows: 3 }],
    ));
    sections.push(Section::new(
        "What is known",
        vec![Block::Facts(common::given(scene)), Block::List(common::taken(scene))],
    ));
    let cautions = scene.answers.cautions.iter().map(with_blanks).collect();
    sections.push(Section::new(
        "Cautions",
        vec![
            Block::Cautions(cautions),
            Block::Words(format!("{BLANK} stands for a number that you can find.")),
        ],
    ));
    sections
}

pub(super) fn key(scene: &Scene) -> Vec<Section> {
    let mut sections = Vec::new();
    let answers = questions(scene).into_iter().map(|question| (question.asks, question.answer)).collect();
    sections.push(Section::new("Answers", vec![Block::Facts(answers)]));
    let mut chain: Vec<Block> = common::bench(scene, scene.answers.hand, Cut::Open).into_iter().collect();
    if let Some(solved) = scene.answers.kit() {
        chain.extend(scene.no_rate(solved).map(Block::Words));
        chain.extend(common::part_table(scene, solved).map(Block::Table));
        chain.extend(picture::volts(solved, scene.units).map(Block::Picture));
    }
    chain.push(Block::List(parts(scene).map(|part| as_sentence(&sized(part))).collect()));
    sections.push(Section::new("The line-up, cut open", chain));
    let ranked = scene.answers.ranked.as_ref().ok().and_then(|ranked| ranked.get(scene.answers.hand));
    if let Some(ranked) = ranked {
        let changes = change_rows(ranked, scene.units).into_iter();
        let lines = changes.map(|(when, words)| format!("{when}: {words}")).collect();
        sections.push(Section::new("What to change", vec![Block::List(lines)]));
    }
    sections.push(common::cautions(scene));
    sections.push(common::assumptions(scene));
    sections.extend(common::notes(scene));
    sections
}

/// The parts in the order of the drawing's numbers.
fn parts<'a>(scene: &Scene<'a>) -> impl Iterator<Item = &'a Part> + use<'a> {
    scene.kit().into_iter().flat_map(|kit| &kit.parts).chain(&scene.document.discharge)
}

fn sized(part: &Part) -> String {
    let detail = part_detail(part);
    if detail.is_empty() { part_name(part) } else { format!("{}, {detail}", part_name(part)) }
}

/// A part without its bore: a hose's length may be seen from outside.
fn seen(part: &Part) -> String {
    match part.length() {
        Some(length) => format!("{}, {} long", part_name(part), typed_text(length.as_typed())),
        None => part_name(part),
    }
}

fn parts_to_fill(scene: &Scene) -> Table {
    let unit = scene.units.pressure.name();
    let mut table = Table::new(&["*No.", "*Part"]);
    table.head.extend([format!("My guess, {unit}"), format!("Lost, {unit}"), "Choked?".to_owned()]);
    table.words.resize(5, false);
    table.rows = parts(scene)
        .enumerate()
        .map(|(at, part)| {
            let blank = || BLANK.to_owned();
            vec![(at + 1).to_string(), seen(part), blank(), blank(), blank()]
        })
        .collect();
    table
}

/// What is asked, in the order of the pages.
fn questions(scene: &Scene) -> Vec<Question> {
    let solved = scene.answers.kit();
    let none = || solved.and_then(|solved| scene.no_rate(solved)).unwrap_or_else(|| "none".to_owned());
    let point = scene.answers.point();
    let flow = |say: &dyn Fn(&crate::job::OperatingPoint) -> String| point.map_or_else(none, say);
    let power = solved.and_then(|solved| solved.answer.power.as_ref().ok());
    let running = power.and_then(|power| power.running.point());
    let question = |asks: &str, answer: String| Question { asks: asks.to_owned(), answer };
    let mut all = vec![
        question("Pressure in the system:", flow(&|point| scene.pressure(point.system_pressure))),
        question("Rate at the start:", flow(&|point| scene.units.rate(point.mass_flow))),
        question(
            "Pressure at the machine's inlet:",
            flow(&|point| scene.pressure(point.machine_inlet_pressure)),
        ),
        question("Part that costs most:", flow(&|point| largest(scene, point))),
        question(
            "Part that chokes, if any:",
            flow(&|point| {
                let name = solved.and_then(|solved| choked_name(solved, point));
                name.unwrap_or("no part").to_owned()
            }),
        ),
        question(
            "Volts at the motor, running:",
            running.map_or("cannot hold".to_owned(), |point| scene.units.voltage(point.voltage)),
        ),
        question(
            "Amps, running:",
            running.map_or("cannot hold".to_owned(), |point| scene.units.current(point.current)),
        ),
        question(
            "Volts at the motor, starting:",
            power.map_or("none".to_owned(), |power| scene.units.voltage(power.starting.voltage)),
        ),
    ];
    let level = scene.answers.limits.level.as_ref();
    all.push(question(
        "Level to evacuate to, and by which rule:",
        match level {
            Ok(level) => level_words(level, scene.document.ambient.absolute_pressure(), scene.units),
            Err(why) => as_sentence(&why.to_string()),
        },
    ));
    if let Some(cylinder) = scene.answers.limits.cylinders.first() {
        let rule = stop_rule(cylinder).map(|rule| format!(", by {}", rule.name)).unwrap_or_default();
        let stop = cylinder.stop_gross.map(|gross| scene.stop_weight(gross));
        let stop = stop.unwrap_or_else(|| "not known".to_owned());
        all.push(question("Gross weight at which to stop:", format!("{stop}{rule}")));
    }
    if let Ok(answer) = scene.job() {
        all.push(question("Time to the level:", time_text(answer.total)));
    }
    all
}

fn largest(scene: &Scene, point: &crate::job::OperatingPoint) -> String {
    let names = scene.answers.kit().map(|solved| solved.kit.parts.as_slice()).unwrap_or_default();
    let costliest =
        names.iter().zip(&point.parts).max_by(|a, b| a.1.drop().value.total_cmp(&b.1.drop().value));
    costliest.map_or("none".to_owned(), |(name, part)| {
        format!("{}, {}", name.name, scene.units.pressure_loss(part.drop()))
    })
}
