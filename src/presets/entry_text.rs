//! The text of a shelf file: where its entries stand, one entry written anew, a new file.
//!
//! Only the entry that changes is written; what else a person has written in the file, comments
//! and all, stays as it is.

use std::ops::Range;

use ron::ser::PrettyConfig;

use crate::kit::dialect;

use super::item::Item;
use super::shelf::{SCHEMA, Shelf};
use super::thing::Thing;

/// Why an entry cannot be written.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum EntryError {
    /// Nothing with this id in the file.
    #[error("there is no entry {id:?} in it")]
    NotThere {
        /// The id.
        id: String,
    },
    /// The file would not say what it should.
    #[error("the entry {id:?} cannot be written there ({detail})")]
    Unwritable {
        /// The id.
        id: String,
        /// What is in the way.
        detail: String,
    },
}

/// A file with this entry alone.
///
/// # Errors
/// The entry reads back as something else, or not at all.
pub fn new_file(item: &Item<Thing>) -> Result<String, EntryError> {
    let text = format!(
        "// Of one's own shelf. This may be edited here or in the window.\n(\n    schema: {SCHEMA},\n    {}: [\n        \
         {},\n    ],\n)\n",
        item.item.kind().list(),
        entry(item)?,
    );
    checked(text, item)
}

/// The file with this entry in the place of the one that has its id.
///
/// # Errors
/// There is none in the file, or the file would not read back.
pub fn changed_file(text: &str, item: &Item<Thing>) -> Result<String, EntryError> {
    let not_there = || EntryError::NotThere { id: item.id.clone() };
    let (_, place) = entries(text).into_iter().find(|(id, _)| *id == item.id).ok_or_else(not_there)?;
    let before = text.get(..place.start).ok_or_else(not_there)?;
    let after = text.get(place.end..).ok_or_else(not_there)?;
    checked(format!("{before}{}{after}", entry(item)?), item)
}

/// The line on which the last entry of this id says it, counted from 1.
pub(super) fn line_of(text: &str, id: &str) -> Option<usize> {
    let (_, place) = entries(text).into_iter().rfind(|(found, _)| found == id)?;
    Some(text.get(..place.start)?.matches('\n').count() + 1)
}

fn entry(item: &Item<Thing>) -> Result<String, EntryError> {
    let on_one_line = PrettyConfig::new().new_line("\n").depth_limit(0);
    dialect()
        .to_string_pretty(item, on_one_line)
        .map_err(|error| EntryError::Unwritable { id: item.id.clone(), detail: error.to_string() })
}

fn checked(text: String, item: &Item<Thing>) -> Result<String, EntryError> {
    let refuse = |detail: String| EntryError::Unwritable { id: item.id.clone(), detail };
    let mut shelf = Shelf::default();
    shelf.add("file", &text).map_err(|error| refuse(error.to_string()))?;
    let wanted = Item { file: Some("file".to_owned()), ..item.clone() };
    if shelf.things().contains(&wanted) {
        Ok(text)
    } else {
        Err(refuse("it would read back as something else".to_owned()))
    }
}

/// The entries of a text by their ids, each from its bracket to the one that closes it.
fn entries(text: &str) -> Vec<(String, Range<usize>)> {
    let mut open: Vec<(usize, Option<String>)> = Vec::new();
    let mut found = Vec::new();
    let mut signs = text.char_indices().peekable();
    let mut key = String::new();
    while let Some((at, sign)) = signs.next() {
        match sign {
            '/' if text.get(at..).is_some_and(|rest| rest.starts_with("//")) => {
                while signs.next_if(|(_, sign)| *sign != '\n').is_some() {}
            }
            '/' if text.get(at..).is_some_and(|rest| rest.starts_with("/*")) => {
                let end =
                    text.get(at..).and_then(|rest| rest.find("*/")).map_or(text.len(), |end| at + end + 2);
                while signs.next_if(|(at, _)| *at < end).is_some() {}
            }
            '"' => {
                let value = string_from(&mut signs);
                if key == "id"
                    && let Some((_, id)) = open.last_mut()
                {
                    *id = Some(value);
                }
                key.clear();
            }
            '(' => {
                open.push((at, None));
                key.clear();
            }
            ')' => {
                if let Some((start, Some(id))) = open.pop() {
                    found.push((id, start..at + 1));
                }
                key.clear();
            }
            sign if sign.is_alphanumeric() || sign == '_' => key.push(sign),
            ':' => {}
            sign if sign.is_whitespace() => {}
            _ => key.clear(),
        }
    }
    found
}

/// A text in quotes whose first quote has been read.
fn string_from(signs: &mut std::iter::Peekable<std::str::CharIndices<'_>>) -> String {
    let mut text = String::new();
    while let Some((_, sign)) = signs.next() {
        match sign {
            '"' => break,
            '\\' => text.extend(signs.next().map(|(_, sign)| sign)),
            sign => text.push(sign),
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    const FILE: &str = "// My hoses (\"measured\").\n(\n    schema: 1,\n    parts: [\n        // the blue one\n        \
        (id: \"own-blue\", name: \"Blue (old)\", origin: measured, item: Hose(bore: \"4.6 mm\", length: \"5 ft\")),\n        \
        /* ) */ (id: \"own-red\", name: \"Red\", origin: measured, item: Hose(bore: \"4.9 mm\", length: \"5 ft\")), // keep\n    ],\n)\n";

    fn items(text: &str) -> Vec<Item<Thing>> {
        let mut shelf = Shelf::default();
        shelf.add("own.ron", text).unwrap();
        shelf.things()
    }

    #[test]
    fn entries_are_found_between_comments_and_quoted_brackets() {
        let found = entries(FILE);
        let ids: Vec<&str> = found.iter().map(|(id, _)| id.as_str()).collect();
        assert_eq!(ids, ["own-blue", "own-red"]);
        assert_eq!((line_of(FILE, "own-blue"), line_of(FILE, "own-red")), (Some(6), Some(7)));
        assert_eq!(line_of(FILE, "own"), None);
    }

    #[test]
    fn one_entry_changes_and_the_rest_stays_letter_for_letter() {
        let mut blue = items(FILE).remove(0);
        blue.name = "Blue, \"new\"".to_owned();
        blue.retired = true;
        let text = changed_file(FILE, &blue).unwrap();
        assert_eq!(items(&text)[0], blue);
        assert_eq!(items(&text)[1], items(FILE)[1]);
        let lines = |text: &str| text.lines().map(str::to_owned).collect::<Vec<_>>();
        let (old, new) = (lines(FILE), lines(&text));
        assert_eq!(old.len(), new.len());
        for (at, (old, new)) in old.iter().zip(&new).enumerate() {
            assert_eq!(old == new, at != 5, "line {}: {new}", at + 1);
        }
    }

    #[test]
    fn every_built_in_thing_is_written_and_read_back() {
        for item in Shelf::built_in().unwrap().things() {
            let own = Item { id: format!("own-{}", item.id), ..item };
            let text = new_file(&own).unwrap_or_else(|error| panic!("{error}"));
            assert_eq!(items(&text).len(), 1, "{}", own.id);
            assert_eq!(text.lines().count(), 7, "one line an entry: {text}");
        }
    }

    #[test]
    fn an_entry_that_is_not_there_or_cannot_be_is_refused() {
        let blue = items(FILE).remove(0);
        let gone = Item { id: "own-green".to_owned(), ..blue.clone() };
        assert!(matches!(changed_file(FILE, &gone), Err(EntryError::NotThere { .. })));
        let red = Item { id: "Own Red".to_owned(), ..blue };
        assert!(matches!(new_file(&red), Err(EntryError::Unwritable { .. })));
    }
}
