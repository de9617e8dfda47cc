//! One entry of the shelf: the thing, what it is called, where its values come from.

use crate::kit::{Shelved, dialect, is_false};
use serde::{Deserialize, Serialize};

/// Where an entry's values come from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Origin {
    /// A published standard.
    Standard,
    /// Common practice, unverified.
    Typical,
    /// Made up to show something.
    Invented,
    /// Measured by its owner.
    Measured,
}

impl Origin {
    /// All, in the order they are listed.
    pub const ALL: [Self; 4] = [Self::Standard, Self::Typical, Self::Invented, Self::Measured];

    /// In a word.
    pub fn label(self) -> &'static str {
        match self {
            Self::Standard => "standard",
            Self::Typical => "typical",
            Self::Invented => "invented",
            Self::Measured => "measured",
        }
    }
}

/// One entry of the shelf.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Item<T> {
    /// Never changed, never used again for another.
    pub id: String,
    /// For people.
    pub name: String,
    /// Where the values come from.
    pub origin: Origin,
    /// What should be known with it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Not offered any more; documents that have a copy keep it.
    #[serde(default, skip_serializing_if = "is_false")]
    pub retired: bool,
    /// The thing itself.
    pub item: T,
    /// The person's own file it stands in; none for what is built in.
    #[serde(skip)]
    pub file: Option<String>,
}

impl<T: Shelved + Clone + Serialize> Item<T> {
    /// A copy for a document, which remembers where it came from and which figures it had then.
    pub fn taken(&self) -> T {
        let mut copy = self.item.clone();
        copy.set_from(Some(self.remembered()));
        copy
    }

    /// What a copy remembers: the id, and a mark of the figures as they are now.
    pub fn remembered(&self) -> String {
        format!("{}@{}", self.id, mark(&self.item))
    }
}

/// A short mark of a thing's figures: other figures, another mark. What it is called and where it
/// came from do not count. FNV-1a, 32 bits, over the thing as files write it.
pub(super) fn mark<T: Shelved + Clone + Serialize>(thing: &T) -> String {
    let text = dialect().to_string(&bare(thing)).unwrap_or_default();
    let hash =
        text.bytes().fold(0x811c_9dc5_u32, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193));
    format!("{hash:08x}")
}

/// The thing without name and origin: its figures alone.
pub(super) fn bare<T: Shelved + Clone>(thing: &T) -> T {
    let mut bare = thing.clone();
    bare.set_from(None);
    bare.set_name(None);
    bare
}
