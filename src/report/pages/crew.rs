//! The crew's page: what to carry, in which order to work, where to stop, what to write down.
//!
//! Lists of protective equipment and of checks are common practice, no source.

use super::common::{self, Scene};
use super::gauges;
use super::model::{Block, Section, Table};
use super::picture;
use crate::job::CylinderFill;
use crate::kit::Part;
use crate::report::job_steps::job_steps;
use crate::report::job_table::{deadline_words, level_words, plain_name, push_pull_words, stop_rule};
use crate::report::part_words::{part_detail, part_name};
use crate::report::power_words::{element_losses, element_name, running_words, starting_words};
use crate::report::time_words::time_text;
use crate::units::as_sentence;

pub(super) fn sections(scene: &Scene) -> Vec<Section> {
    let mut sections = vec![
        common::cautions(scene),
        order(scene),
        carry(scene),
        cylinders(scene),
        power(scene),
        gauges::section(scene),
        readings(),
        phones(),
    ];
    sections.push(common::assumptions(scene));
    sections.extend(common::notes(scene));
    sections
}

fn order(scene: &Scene) -> Section {
    let mut blocks = vec![
        Block::Heading("Before the machine starts".to_owned()),
        Block::Checks(
            [
                "Gloves, goggles and ventilation are in place; no flames, no smoking.",
                "Cylinder markings read: water capacity, tare, test date, refrigerant. One refrigerant to a cylinder.",
                "Scale set to zero; stop weights below written on each cylinder.",
                "Hoses, fittings and gauges leak-tight and rated for the highest pressure; air purged as instructed.",
                "Filter-drier fitted at the machine's inlet.",
                "Circuit known and free of other heavy loads; cord unrolled, undamaged, earthed.",
            ]
            .map(str::to_owned)
            .into(),
        ),
        Block::Heading("Order of operations".to_owned()),
    ];
    match (scene.job(), &scene.answers.jobs) {
        (Ok(answer), Ok(jobs)) => {
            let steps = job_steps(&jobs.planned, answer);
            let line = |step: &crate::report::JobStep| {
                let mass = step.recovered.map(|mass| format!(", about {}", scene.units.mass(mass)));
                format!(
                    "At {}, for {}: {}{}.",
                    time_text(step.from),
                    time_text(step.to - step.from),
                    step.what,
                    mass.unwrap_or_default()
                )
            };
            blocks.push(Block::Steps(steps.iter().map(line).collect()));
            blocks.extend(
                deadline_words(&jobs.planned, answer)
                    .map(|words| Block::Words(format!("The window of {words}."))),
            );
            blocks.push(Block::Words(format!(
                "At the end about {} stay in the system.",
                scene.units.mass(answer.remaining)
            )));
            if let Some(limits) = &answer.push_pull {
                let words = push_pull_words(limits, scene.units);
                blocks.push(Block::Words(as_sentence(&format!("push-pull runs {words}"))));
            }
        }
        (Err(missing), _) => blocks.extend(missing.into_iter().map(Block::Words)),
        (Ok(_), Err(_)) => {}
    }
    let level = match &scene.answers.limits.level {
        Ok(level) => format!(
            "Evacuate to {}.",
            level_words(level, scene.document.ambient.absolute_pressure(), scene.units)
        ),
        Err(why) => as_sentence(&format!("there is no level: {why}")),
    };
    blocks.push(Block::Words(level));
    Section::new("The work", blocks)
}

fn part_line(part: &Part) -> String {
    let detail = part_detail(part);
    if detail.is_empty() { part_name(part) } else { format!("{}, {detail}", part_name(part)) }
}

fn carry(scene: &Scene) -> Section {
    let mut blocks = vec![Block::Words(format!("Kit {}.", scene.kit_words()))];
    if let Some(kit) = scene.kit() {
        blocks.push(Block::Heading("From the system to the machine".to_owned()));
        blocks.push(Block::Steps(kit.parts.iter().map(part_line).collect()));
        if let Some(second) = &kit.second_port {
            let where_to =
                format!("From the second port, to meet the first before part {}", second.joins_before + 1);
            blocks.push(Block::Heading(where_to));
            blocks.push(Block::Steps(second.parts.iter().map(part_line).collect()));
        }
    }
    if !scene.document.discharge.is_empty() {
        blocks.push(Block::Heading("From the machine to the cylinder".to_owned()));
        blocks.push(Block::Steps(scene.document.discharge.iter().map(part_line).collect()));
    }
    if let Some(plan) = &scene.document.job {
        for (name, parts) in
            [("Push-pull, vapour line", &plan.vapour_line), ("Push-pull, gas line", &plan.gas_line)]
        {
            if !parts.is_empty() {
                blocks.push(Block::Heading(name.to_owned()));
                blocks.push(Block::Steps(parts.iter().map(part_line).collect()));
            }
        }
    }
    blocks.push(Block::Heading("With them".to_owned()));
    let mut more = vec![as_sentence(&common::machine_words(scene))];
    more.extend(scene.cords().iter().map(|cord| as_sentence(&common::cord_words(cord))));
    more.extend(
        [
            "Scale that can weigh a full cylinder, spare batteries.",
            "Filter-drier, one spare; caps and plugs; spare cores and a tool for them.",
            "Thermometer, voltmeter, leak detector.",
            "Labels and a pen for the cylinders.",
        ]
        .map(str::to_owned),
    );
    blocks.push(Block::Checks(more));
    blocks.push(Block::Heading("To wear".to_owned()));
    blocks.push(Block::Checks(protection(scene)));
    blocks.push(Block::Blanks(vec!["Also:".to_owned(), "Also:".to_owned()]));
    Section::new("What to carry", blocks)
}

fn protection(scene: &Scene) -> Vec<String> {
    let class = scene.answers.ask.refrigerant.safety_class();
    let mut all: Vec<String> = [
        "Goggles or face shield.",
        "Gloves against liquid refrigerant, dry and undamaged.",
        "Long sleeves and trousers, safety-toe shoes.",
        "Ventilation; on roofs and ladders, fall protection as the site asks.",
    ]
    .map(str::to_owned)
    .into();
    if class.is_flammable() {
        all.push(format!(
            "Class {class}: gas detector, no ignition sources, fire extinguisher at hand; equipment marked for it."
        ));
    }
    if class.is_toxic() {
        all.push(format!("Class {class}: respirator as its safety data sheet says."));
    }
    all
}

fn cylinders(scene: &Scene) -> Section {
    let title = "Cylinders and where to stop";
    let mut table = Table::new(&[
        "*No.",
        "*Cylinder",
        "Goes in",
        "Stop at, gross",
        "*Rule that set it",
        "*Weighed at the end",
    ]);
    let (limits, mass) = (&scene.answers.limits, |mass| scene.units.mass(mass));
    let rule_of = |index: usize| {
        let cylinder = limits.cylinders.get(index);
        cylinder.and_then(stop_rule).map_or("none".to_owned(), |rule| rule.name.clone())
    };
    let stop = |gross: Option<_>| match gross {
        Some(gross) => scene.stop_weight(gross),
        None => "tare not known: read TW".to_owned(),
    };
    match &limits.schedule {
        Some(schedule) => {
            for (number, fill) in schedule.fills.iter().enumerate() {
                let name = if is_only_for_high(fill) { " (only for the high charge)" } else { "" };
                table.rows.push(vec![
                    (number + 1).to_string(),
                    format!("{}{name}", plain_name(&fill.name)),
                    mass(if is_only_for_high(fill) { fill.high } else { fill.likely }),
                    stop(fill.stop_gross),
                    rule_of(fill.index),
                    String::new(),
                ]);
            }
        }
        None => {
            for (index, cylinder) in limits.cylinders.iter().enumerate() {
                table.rows.push(vec![
                    (index + 1).to_string(),
                    cylinder.name.clone(),
                    format!("up to {}", mass(cylinder.remaining)),
                    match cylinder.stops.is_empty() {
                        true => stop(cylinder.stop_gross),
                        false => "may not be filled, see Stop".to_owned(),
                    },
                    rule_of(index),
                    String::new(),
                ]);
            }
        }
    }
    let mut blocks = if table.rows.is_empty() {
        vec![Block::Words("There is no usable cylinder.".to_owned())]
    } else {
        vec![Block::Table(table)]
    };
    blocks.push(Block::Words(
        "Weights to stop at are rounded down. The scale decides, not a float or a clock; a lower limit on the \
         cylinder wins."
            .to_owned(),
    ));
    let mut rules: Vec<String> = Vec::new();
    let usable = limits.cylinders.iter().filter(|cylinder| cylinder.stops.is_empty());
    for rule in usable.filter_map(stop_rule) {
        let words = format!("{}: {}.", rule.name, rule.source.trim_end_matches('.'));
        if !rules.contains(&words) {
            rules.push(words);
        }
    }
    if !rules.is_empty() {
        blocks.push(Block::List(rules));
    }
    for cylinder in limits.cylinders.iter().filter(|cylinder| !cylinder.stops.is_empty()) {
        let why: Vec<String> = cylinder.stops.iter().map(|stop| as_sentence(&stop.to_string())).collect();
        blocks.push(Block::Words(format!("Not to be filled: {}", why.join(" "))));
    }
    Section::new(title, blocks)
}

fn is_only_for_high(fill: &CylinderFill) -> bool {
    fill.likely.value <= 0.0
}

fn power(scene: &Scene) -> Section {
    let mut blocks = vec![Block::Words(as_sentence(&common::circuit_words(scene)))];
    let Some(solved) = scene.answers.kit() else { return Section::new("Cords and circuits", blocks) };
    match &solved.answer.power {
        Ok(point) => {
            blocks.push(Block::Facts(vec![
                ("Running".to_owned(), running_words(&point.running, scene.units)),
                ("Starting".to_owned(), starting_words(&point.starting, scene.units)),
            ]));
            blocks.extend(picture::volts(solved, scene.units).map(Block::Picture));
            let mut table = Table::new(&["*Element", "Lost running", "Lost starting"]);
            for element in &point.elements {
                let [running, starting] = element_losses(element, scene.units);
                table.rows.push(vec![element_name(&solved.kit.cords, element), running, starting]);
            }
            blocks.push(Block::Table(table));
        }
        Err(error) => blocks.push(Block::Words(as_sentence(&error.to_string()))),
    }
    Section::new("Cords and circuits", blocks)
}

fn readings() -> Section {
    let head = [
        "Time",
        "Weight on the scale",
        "System",
        "Machine inlet",
        "Discharge",
        "Cylinder temp.",
        "Volts",
        "Amps",
    ];
    let form = Block::Form { head: head.map(str::to_owned).into(), rows: 9 };
    let end = Block::Blanks(
        [
            "Level reached at (time, gauge):",
            "After the wait (time, gauge):",
            "Recovered by the scale:",
            "Cylinders used (numbers):",
            "Name and signature:",
        ]
        .map(str::to_owned)
        .into(),
    );
    Section::new("Readings", vec![form, end])
}

fn phones() -> Section {
    let lines = ["Emergency:", "Site contact:", "Office:", "Electrician:", "Reclaimer or supplier:"];
    Section::new("Phone numbers", vec![Block::Blanks(lines.map(str::to_owned).into())])
}
