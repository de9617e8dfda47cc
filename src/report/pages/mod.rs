//! Pages to hand over: customer, crew, comparison, class handout and its key.
//!
//! Document and answers in, page structures out ([`Page`]), then HTML text ([`html_text`]). The
//! numbers come from the same rows that the terminal's tables print. No clock: the date of
//! printing comes in as text.

mod answers;
mod cautions;
mod class;
mod common;
mod comparison;
mod crew;
mod customer;
mod gauges;
mod html;
mod model;
mod picture;
mod svg;

pub use answers::{PageAnswers, PageAsk, PagesError, page_answers};
pub use cautions::PageCaution;
pub use html::html_text;
pub use model::{Big, Block, Page, PageKind, Printed, Section, Table};
pub use picture::Picture;

use super::job_csv::jobs_csv;
use crate::scenario::Document;
use crate::units::UnitSet;

/// Name of the file of the job's curves.
pub const CURVES_FILE: &str = "curves.csv";

/// A file to be written.
#[derive(Debug, Clone, PartialEq)]
pub struct PageFile {
    /// Its name, without a folder.
    pub name: &'static str,
    /// Its text.
    pub text: String,
}

/// Every page of a document, in the order of [`PageKind::ALL`].
pub fn pages(document: &Document, answers: &PageAnswers, printed: &Printed, units: UnitSet) -> Vec<Page> {
    let scene = common::Scene { document, answers, units };
    let page = |kind: PageKind| Page {
        kind,
        title: document.title.clone(),
        place: document.place.clone(),
        job_date: document.date.as_ref().map(ToString::to_string),
        printed: printed.clone(),
        sections: match kind {
            PageKind::Customer => customer::sections(&scene),
            PageKind::Crew => crew::sections(&scene),
            PageKind::Comparison => comparison::sections(&scene),
            PageKind::Handout => class::handout(&scene),
            PageKind::Key => class::key(&scene),
        },
    };
    PageKind::ALL.map(page).into()
}

/// Every page as a file, and the curves of the jobs where there are any.
pub fn page_files(
    document: &Document,
    answers: &PageAnswers,
    printed: &Printed,
    units: UnitSet,
) -> Vec<PageFile> {
    let one = |page: &Page| PageFile { name: page.kind.file_name(), text: html_text(page) };
    let mut files: Vec<PageFile> = pages(document, answers, printed, units).iter().map(one).collect();
    if let Ok(jobs) = &answers.jobs
        && jobs.kits.iter().any(|job| job.shown().is_ok())
    {
        files.push(PageFile { name: CURVES_FILE, text: jobs_csv(jobs) });
    }
    files
}
