//! What card, readings and log of a document say, each by the same function as the terminal.

use narrows::advice::diagnose::{DiagnoseError, Diagnosis, LogFit, diagnose, fit_log};
use narrows::advice::rating::{RatingReading, read_rating};
use narrows::scenario::{CardSetup, Document, Fault, LogSetup, ReadingsSetup, card_of, log_of, readings_of};

/// A question as it was asked and its answer, or why there is none.
pub type Answered<Q, A> = Result<(Q, A), String>;

/// The answers to what the document has; none where it has nothing to read.
#[derive(Clone, Debug)]
pub struct Reasons {
    /// The rating card, read.
    pub card: Option<Answered<CardSetup, RatingReading>>,
    /// The likely cause of the readings.
    pub cause: Option<Answered<ReadingsSetup, Diagnosis>>,
    /// The site log, fitted.
    pub log: Option<Answered<LogSetup, LogFit>>,
}

impl Reasons {
    /// Reads card, readings and log of a document.
    pub fn of(document: &Document) -> Self {
        Self {
            card: document.rating_card.as_ref().map(|_| card(document)),
            cause: document.readings.as_ref().map(|_| cause(document)),
            log: document.log.as_ref().map(|_| log(document)),
        }
    }
}

fn card(document: &Document) -> Answered<CardSetup, RatingReading> {
    let card = card_of(document).map_err(|faults| in_words(&faults))?;
    let reading = read_rating(&card);
    Ok((card, reading))
}

fn cause(document: &Document) -> Answered<ReadingsSetup, Diagnosis> {
    let readings = readings_of(document).map_err(|faults| in_words(&faults))?;
    let found = diagnose(&readings).map_err(|error| match error {
        // The sentence for a file is of no use beside fields.
        DiagnoseError::NothingRead => "Nothing is read yet: fill in what the gauges show.".to_owned(),
        other => other.to_string(),
    })?;
    Ok((readings, found))
}

fn log(document: &Document) -> Answered<LogSetup, LogFit> {
    let log = log_of(document).map_err(|faults| in_words(&faults))?;
    let fitted = fit_log(&log).map_err(|error| error.to_string())?;
    Ok((log, fitted))
}

fn in_words(faults: &[Fault]) -> String {
    faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ")
}
