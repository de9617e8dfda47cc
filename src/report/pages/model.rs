//! What stands on a page, as plain structures.

use super::cautions::PageCaution;
use super::picture::Picture;

/// Which page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PageKind {
    /// For whoever ordered the work.
    Customer,
    /// For those who do it.
    Crew,
    /// Kits side by side.
    Comparison,
    /// For a class, with blanks.
    Handout,
    /// What belongs in the blanks.
    Key,
}

impl PageKind {
    /// Every page.
    pub const ALL: [Self; 5] = [Self::Customer, Self::Crew, Self::Comparison, Self::Handout, Self::Key];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Customer => "Customer page",
            Self::Crew => "Crew page",
            Self::Comparison => "Comparison page",
            Self::Handout => "Class handout",
            Self::Key => "Key to the class handout",
        }
    }

    /// What it is for.
    pub fn purpose(self) -> &'static str {
        match self {
            Self::Customer => "What will be done, how long it may take and what it takes.",
            Self::Crew => "What to carry, in which order to work, where to stop, what to write down.",
            Self::Comparison => "What differs between the kits and what that is worth.",
            Self::Handout => "Guess first, then write down what comes out.",
            Self::Key => "What belongs in the blanks of the handout, and why.",
        }
    }

    /// The name of its file.
    pub fn file_name(self) -> &'static str {
        match self {
            Self::Customer => "customer.html",
            Self::Crew => "crew.html",
            Self::Comparison => "comparison.html",
            Self::Handout => "handout.html",
            Self::Key => "key.html",
        }
    }
}

/// When and by what a page was printed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Printed {
    /// The day, in words.
    pub date: String,
    /// The program's version.
    pub version: String,
}

/// A page.
#[derive(Debug, Clone, PartialEq)]
pub struct Page {
    /// Which one.
    pub kind: PageKind,
    /// The document's title.
    pub title: String,
    /// Where the job is.
    pub place: Option<String>,
    /// The day of the job, as the document has it.
    pub job_date: Option<String>,
    /// When it was printed.
    pub printed: Printed,
    /// What stands on it.
    pub sections: Vec<Section>,
}

/// A part of a page under its own heading.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// The heading.
    pub title: String,
    /// What stands under it.
    pub blocks: Vec<Block>,
}

impl Section {
    /// A section.
    pub fn new(title: impl Into<String>, blocks: Vec<Block>) -> Self {
        Self { title: title.into(), blocks }
    }
}

/// A large answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Big {
    /// What it is.
    pub name: String,
    /// The answer.
    pub value: String,
    /// Its range, or a word about it.
    pub note: String,
}

/// A table; numbers stand in every column but those of words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Table {
    /// Headings of the columns.
    pub head: Vec<String>,
    /// Whether a column holds words.
    pub words: Vec<bool>,
    /// Its rows.
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// An empty table; a heading that starts with a star is that of a column of words.
    pub(super) fn new(head: &[&str]) -> Self {
        Self {
            head: head.iter().map(|name| name.trim_start_matches('*').to_owned()).collect(),
            words: head.iter().map(|name| name.starts_with('*')).collect(),
            rows: Vec::new(),
        }
    }
}

/// One thing on a page.
#[derive(Debug, Clone, PartialEq)]
pub enum Block {
    /// A paragraph.
    Words(String),
    /// A smaller heading.
    Heading(String),
    /// A list.
    List(Vec<String>),
    /// Names and what belongs to them.
    Facts(Vec<(String, String)>),
    /// Large answers.
    Bigs(Vec<Big>),
    /// A table.
    Table(Table),
    /// Things to tick off.
    Checks(Vec<String>),
    /// Numbered things to tick off.
    Steps(Vec<String>),
    /// Lines to write on.
    Blanks(Vec<String>),
    /// A table with empty rows to write in.
    Form {
        /// Headings of its columns.
        head: Vec<String>,
        /// How many empty rows.
        rows: usize,
    },
    /// Cautions.
    Cautions(Vec<PageCaution>),
    /// A drawing.
    Picture(Picture),
}
