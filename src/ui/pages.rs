//! Pages to hand over, written on a thread of their own: the window goes on while bands are drawn.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, Sender, channel};

use narrows::compare::{DEFAULT_JOB_DRAWS, DrawPlan};
use narrows::presets::{Shelf, built_in_rules};
use narrows::report::Draws;
use narrows::report::pages::{PageAsk, page_answers, page_files};
use narrows::scenario::Document;
use narrows::units::UnitSet;

use crate::terminal::disk::{PagesTrouble, write_pages};
use crate::terminal::pages::printed_now;

/// What is to be written where.
#[derive(Clone, Debug)]
pub struct Order {
    /// The document.
    pub document: Document,
    /// The kit in hand.
    pub kit: usize,
    /// Units of answers.
    pub units: UnitSet,
    /// The folder.
    pub folder: PathBuf,
    /// Pages that are there may go.
    pub force: bool,
    /// Bands are drawn and changes followed, which takes a while.
    pub thorough: bool,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// Written, in words.
    Written(String),
    /// Some are there already in this folder; in words.
    There(PathBuf, String),
    /// Not written, in words.
    Failed(String),
}

/// Orders under way.
pub struct Printer {
    sender: Sender<Outcome>,
    receiver: Receiver<Outcome>,
}

impl Default for Printer {
    fn default() -> Self {
        let (sender, receiver) = channel();
        Self { sender, receiver }
    }
}

impl Printer {
    /// Carries an order out on a thread.
    ///
    /// # Errors
    /// The thread could not be started.
    pub fn start(&self, order: Order, ctx: &egui::Context) -> Result<(), String> {
        let (sender, ctx) = (self.sender.clone(), ctx.clone());
        std::thread::Builder::new()
            .name("pages".to_owned())
            .spawn(move || {
                // A window that has gone needs no answer.
                let _ = sender.send(carry_out(&order));
                ctx.request_repaint();
            })
            .map_err(|error| format!("the pages were not written: {error}"))?;
        Ok(())
    }

    /// What has come of orders since.
    pub fn outcomes(&self) -> Vec<Outcome> {
        self.receiver.try_iter().collect()
    }
}

/// Carries an order out at once.
pub fn carry_out(order: &Order) -> Outcome {
    match written(order) {
        Ok(count) => Outcome::Written(format!(
            "{count} files are in {}. Open a page in any browser and print it from there.",
            order.folder.display()
        )),
        Err(Refused::There(words)) => Outcome::There(order.folder.clone(), words),
        Err(Refused::Other(words)) => Outcome::Failed(format!("No pages: {words}")),
    }
}

enum Refused {
    There(String),
    Other(String),
}

fn written(order: &Order) -> Result<usize, Refused> {
    let other = |words: String| Refused::Other(words);
    let rules = built_in_rules().map_err(|error| other(error.to_string()))?;
    let shelf = Shelf::built_in().map_err(|error| other(error.to_string()))?;
    let kit = order.document.kits.get(order.kit).map(|kit| kit.name.as_str());
    let draws = if order.thorough {
        Draws { points: Some(DrawPlan::default()), jobs: DrawPlan::new(DEFAULT_JOB_DRAWS, 1).ok() }
    } else {
        Draws::default()
    };
    let ask = PageAsk { rules: &rules, shelf: &shelf, draws, follow_changes: order.thorough, kit };
    let answers = page_answers(&order.document, ask, &|| false).map_err(|error| other(error.to_string()))?;
    let files = page_files(&order.document, &answers, &printed_now(), order.units);
    write_pages(&order.folder, &files, order.force).map(|paths| paths.len()).map_err(|error| match error {
        PagesTrouble::There { folder, names } => Refused::There(format!("{folder} has {names} already.")),
        error => other(error.to_string()),
    })
}
