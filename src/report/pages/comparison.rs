//! Kits side by side: figures, only what differs, differences with their bands, what counts.

use super::common::{self, Scene};
use super::model::{Block, Section, Table};
use super::picture::Cut;
use crate::compare::Figure;
use crate::report::change_words::change_rows;
use crate::report::compared::Compared;
use crate::report::compared_table::{
    Cells, DIFFERENCES, DifferenceRow, band_words, difference_rows, differs_rows, figure_rows, no_time_words,
};
use crate::report::job_solved::SolvedJobs;
use crate::report::job_steps::whole_time;
use crate::report::job_words::ends_text;
use crate::report::ranked::Ranked;
use crate::report::ranked_table::{LEGEND, drawn_words, row_cells};
use crate::report::time_words::time_text;

pub(super) fn sections(scene: &Scene) -> Vec<Section> {
    let mut sections = Vec::new();
    match &scene.answers.compared {
        Ok(compared) => {
            sections.push(side_by_side(scene, compared));
            sections.extend(differs(compared));
            sections.extend(
                DIFFERENCES.iter().filter_map(|(figure, title)| differences(scene, compared, *figure, title)),
            );
            sections.extend(certainty(compared));
        }
        Err(why) => {
            sections.push(Section::new("Side by side", vec![Block::Words(format!("Not compared: {why}"))]));
        }
    }
    sections.push(jobs(scene));
    sections.push(pictures(scene));
    sections.push(counts(scene));
    sections.push(common::cautions(scene));
    sections.push(common::assumptions(scene));
    sections.extend(common::notes(scene));
    sections
}

fn side_by_side(scene: &Scene, compared: &Compared) -> Section {
    let names: Vec<String> = compared.kits.iter().map(|kit| format!("Kit {}", kit.kit.name)).collect();
    let mut table = Table::new(&["*"]);
    table.head.extend(names);
    table.words.resize(table.head.len(), false);
    for row in figure_rows(compared, scene.units) {
        let cells = match row.cells {
            Cells::Each(cells) => cells,
            Cells::Shared(text) => vec![text; compared.kits.len()],
        };
        table.rows.push(std::iter::once(row.name.to_owned()).chain(cells).collect());
    }
    let labels = compared.kits.iter().filter_map(|kit| {
        let label = kit.kit.label.as_deref()?;
        Some((format!("Kit {}", kit.kit.name), label.to_owned()))
    });
    let mut blocks = vec![Block::Facts(labels.collect()), Block::Table(table)];
    blocks.extend(
        compared
            .kits
            .iter()
            .filter_map(|kit| Some(Block::Words(format!("Kit {}: {}", kit.kit.name, scene.no_rate(kit)?)))),
    );
    let no_time = no_time_words(compared, scene.units).into_iter();
    blocks.extend(no_time.map(|(lead, why)| Block::Words(format!("{lead}: {why}"))));
    Section::new("Side by side", blocks)
}

/// Only what differs from the first kit.
fn differs(compared: &Compared) -> Option<Section> {
    let name = |at: usize| compared.kits.get(at).map_or("", |kit| kit.kit.name.as_str());
    let mut blocks = Vec::new();
    for (at, differing) in compared.differs.iter().enumerate().skip(1) {
        blocks.push(Block::Heading(format!("Kit {} differs from {}", name(at), name(0))));
        let rows = differs_rows(differing);
        blocks.push(if rows.is_empty() {
            Block::Words("In nothing.".to_owned())
        } else {
            Block::List(rows.into_iter().map(|(what, words)| format!("{what}: {words}")).collect())
        });
    }
    (!blocks.is_empty()).then(|| Section::new("What differs", blocks))
}

fn differences(scene: &Scene, compared: &Compared, figure: Figure, title: &str) -> Option<Section> {
    let rows = difference_rows(compared, figure, scene.units);
    if rows.is_empty() {
        return None;
    }
    let mut table = Table::new(&["*Kits", "Difference", "*Range", "*", "*"]);
    let cells = |row: DifferenceRow| {
        vec![row.name, row.value, row.band, row.verdict.to_owned(), row.price.unwrap_or_default()]
    };
    table.rows = rows.into_iter().map(cells).collect();
    Some(Section::new(title, vec![Block::Table(table)]))
}

/// What the ranges are made of.
fn certainty(compared: &Compared) -> Option<Section> {
    let words = band_words(compared).or_else(|| {
        (compared.kits.len() > 1).then(|| "No ranges were drawn: what is close cannot be told.".to_owned())
    })?;
    Some(Section::new("How certain that is", vec![Block::Words(words)]))
}

fn jobs(scene: &Scene) -> Section {
    let title = "The whole job";
    match &scene.answers.jobs {
        Ok(jobs) => Section::new(title, vec![Block::Table(job_table(scene, jobs))]),
        Err(missing) => {
            let words = missing.iter().map(|one| Block::Words(format!("Not worked out. Missing: {one}.")));
            Section::new(title, words.collect())
        }
    }
}

fn job_table(scene: &Scene, jobs: &SolvedJobs) -> Table {
    let mut table = Table::new(&["*Kit", "Time on site", "*Range", "Recovered", "Cylinders", "*Ends"]);
    let ambient = scene.document.ambient.absolute_pressure();
    for (at, job) in jobs.kits.iter().enumerate() {
        let mut row = vec![job.start.kit.name.clone()];
        match job.shown() {
            Ok(answer) => {
                let time = |time| whole_time(&jobs.planned, time);
                row.push(time_text(time(answer.total)));
                row.push(common::band(jobs, at).map(|band| common::range(band.ends)).unwrap_or_default());
                row.push(scene.units.mass(answer.recovered));
                row.push(answer.cylinders.len().to_string());
                row.push(ends_text(&answer.ends_because, scene.units, ambient));
            }
            Err(_) => {
                let why = scene.no_rate(&job.start).unwrap_or_else(|| "See the cautions.".to_owned());
                row.extend(["none".to_owned(), String::new(), String::new(), String::new(), why]);
            }
        }
        table.rows.push(row);
    }
    table
}

fn pictures(scene: &Scene) -> Section {
    let mut blocks = Vec::new();
    for (at, solved) in scene.answers.kits.iter().enumerate() {
        blocks.push(Block::Heading(format!("Kit {}", solved.kit.name)));
        blocks.extend(common::bench(scene, at, Cut::Open));
        blocks.extend(common::part_table(scene, solved).map(Block::Table));
    }
    Section::new("Where the pressure is lost", blocks)
}

fn counts(scene: &Scene) -> Section {
    let title = "What counts";
    let ranked = match &scene.answers.ranked {
        Ok(ranked) => ranked,
        Err(why) => return Section::new(title, vec![Block::Words(format!("Not ranked: {why}"))]),
    };
    let mut blocks = Vec::new();
    for one in ranked {
        blocks.push(Block::Heading(format!("Kit {}", one.counts.kit)));
        blocks.push(Block::Table(count_table(scene, one)));
        let changes = change_rows(one, scene.units).into_iter();
        blocks.push(Block::List(changes.map(|(when, words)| format!("{when}: {words}")).collect()));
        blocks.extend(drawn_words(one).map(Block::Words));
    }
    blocks.push(Block::Words(LEGEND.to_owned()));
    Section::new(title, blocks)
}

fn count_table(scene: &Scene, ranked: &Ranked) -> Table {
    let mut table = Table::new(&["*Thing", "Ideal", "Ideal, in time", "Only this", "*Ideal, in volts"]);
    table.rows = ranked.counts.rows.iter().map(|row| row_cells(ranked, row, scene.units).into()).collect();
    if !ranked.counts.has_jobs() {
        const TIME: usize = 2;
        table.head.remove(TIME);
        table.words.remove(TIME);
        table.rows.iter_mut().for_each(|row| drop(row.remove(TIME)));
    }
    table
}
