//! A person's own shelf: files of one folder, added to what is built in.
//!
//! Every file is used whole or not at all, and one that cannot be used takes no other with it. A
//! new thing gets a file of its own; a changed one is written where it stands, and nothing else in
//! its file. Nothing is overwritten that another program has changed meanwhile.

use std::collections::BTreeMap;
use std::path::PathBuf;

use narrows::kit::Shelved as _;
use narrows::presets::{Item, Origin, Shelf, Thing, changed_file, new_file};

use super::files::{self, Trouble};

/// Ending of a shelf's file.
const ENDING: &str = "ron";

/// What is built in and what is one's own, together.
#[derive(Default)]
pub struct OwnShelf {
    built_in: Shelf,
    all: Shelf,
    folder: Option<PathBuf>,
    /// The files by their names, as they were read.
    texts: BTreeMap<String, String>,
    troubles: Vec<String>,
}

impl OwnShelf {
    /// Only what is built in.
    pub fn set_built_in(&mut self, shelf: Shelf) {
        self.built_in = shelf;
        self.read();
    }

    /// Adds the files of a folder from now on; it is made when first needed.
    pub fn keep_in(&mut self, folder: PathBuf) {
        self.folder = Some(folder);
        self.read();
    }

    /// Everything there is to take.
    pub fn all(&self) -> &Shelf {
        &self.all
    }

    /// Where one's own files are.
    pub fn folder(&self) -> Option<&PathBuf> {
        self.folder.as_ref()
    }

    /// What cannot be used, one sentence a file.
    pub fn troubles(&self) -> &[String] {
        &self.troubles
    }

    /// Reads the folder again.
    pub fn read(&mut self) {
        self.all = self.built_in.clone();
        self.texts.clear();
        self.troubles.clear();
        for path in self.paths() {
            let Some(name) = path.file_name().map(|name| name.to_string_lossy().into_owned()) else {
                continue;
            };
            match std::fs::read_to_string(&path) {
                Ok(text) => {
                    if let Err(error) = self.all.add(&name, &text) {
                        self.troubles.push(format!("{error}. Nothing of this file is on the shelf."));
                    }
                    self.texts.insert(name, text);
                }
                Err(error) => self.troubles.push(format!("{name} cannot be read: {error}")),
            }
        }
    }

    fn paths(&self) -> Vec<PathBuf> {
        let entries = self.folder.as_ref().and_then(|folder| std::fs::read_dir(folder).ok());
        let mut paths: Vec<PathBuf> =
            entries.into_iter().flatten().filter_map(|entry| Some(entry.ok()?.path())).collect();
        // A neighbour that is just being written begins with a full stop.
        let is_ours = |path: &PathBuf| {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            !name.starts_with('.')
                && path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case(ENDING))
        };
        paths.retain(is_ours);
        paths.sort();
        paths
    }

    /// Puts a new thing on one's own shelf and returns its id.
    ///
    /// # Errors
    /// It cannot be written; in words, with the file.
    pub fn add(
        &mut self,
        name: &str,
        origin: Origin,
        note: Option<String>,
        thing: Thing,
    ) -> Result<String, String> {
        // Another window may have added something meanwhile.
        self.read();
        let mut thing = thing;
        thing.set_from(None);
        let id = self.free_id(name);
        let item = Item {
            id: id.clone(),
            name: name.to_owned(),
            origin,
            note,
            retired: false,
            item: thing,
            file: None,
        };
        let text = new_file(&item).map_err(|error| format!("{name} is not on the shelf: {error}"))?;
        self.write(&format!("{id}.{ENDING}"), &text)?;
        Ok(id)
    }

    /// Writes a thing of one's own where it stands.
    ///
    /// # Errors
    /// It cannot be written, or another program has changed its file; in words, with the file.
    pub fn change(&mut self, item: &Item<Thing>) -> Result<(), String> {
        let Some(name) = &item.file else {
            return Err(format!("{} is built in and stays as it is; copy it to change the copy", item.name));
        };
        let known = self.texts.get(name).cloned().unwrap_or_default();
        let path = self.path(name)?;
        if files::text(&path).as_ref() != Some(&known) {
            self.read();
            return Err(format!(
                "{} was changed by another program. It has been read again; nothing was written over it.",
                path.display()
            ));
        }
        let text = changed_file(&known, item).map_err(|error| format!("{name}: {error}"))?;
        self.write(&name.clone(), &text)
    }

    fn path(&self, name: &str) -> Result<PathBuf, String> {
        let folder = self.folder.as_ref();
        folder
            .map(|folder| folder.join(name))
            .ok_or_else(|| "this machine gives no folder for a shelf".to_owned())
    }

    fn write(&mut self, name: &str, text: &str) -> Result<(), String> {
        let path = self.path(name)?;
        let folder = path.parent().map(std::fs::create_dir_all);
        let written = folder.unwrap_or(Ok(())).map_err(Trouble::from);
        let outcome = written.and_then(|()| files::replace(&path, text));
        self.read();
        outcome.map_err(|trouble| {
            format!("{} is not written: {trouble}. The shelf is as it was.", path.display())
        })
    }

    /// An id that says the name and that neither an entry nor a file has.
    fn free_id(&self, name: &str) -> String {
        let words: Vec<String> = name
            .to_lowercase()
            .split(|c: char| !c.is_ascii_alphanumeric())
            .filter(|word| !word.is_empty())
            .take(6)
            .map(str::to_owned)
            .collect();
        let stem = if words.is_empty() { "own".to_owned() } else { format!("own-{}", words.join("-")) };
        let is_free = |id: &String| {
            !self.all.ids().any(|taken| taken == id)
                && self.path(&format!("{id}.{ENDING}")).map_or(true, |path| !path.exists())
        };
        let numbered = (2..).map(|n| format!("{stem}-{n}"));
        std::iter::once(stem.clone()).chain(numbered).find(is_free).unwrap_or(stem)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use narrows::scenario;

    fn shelf(name: &str) -> OwnShelf {
        let folder = std::env::temp_dir().join(format!("narrows-shelf-{name}-{}", std::process::id()));
        // Left by an earlier run, if there.
        let _ = std::fs::remove_dir_all(&folder);
        let mut shelf = OwnShelf::default();
        shelf.set_built_in(Shelf::built_in().unwrap());
        shelf.keep_in(folder);
        shelf
    }

    fn hose(shelf: &OwnShelf) -> Thing {
        Thing::Part(shelf.all().part("hose-quarter").unwrap().taken())
    }

    fn own(shelf: &OwnShelf, id: &str) -> Item<Thing> {
        shelf.all().things().into_iter().find(|item| item.id == id).unwrap()
    }

    fn end(shelf: &OwnShelf) {
        std::fs::remove_dir_all(shelf.folder().unwrap()).unwrap();
    }

    #[test]
    fn a_thing_is_added_changed_and_there_again_next_time() {
        let mut shelf = shelf("round");
        let id = shelf.add("Blue hose, 5 ft", Origin::Measured, None, hose(&shelf)).unwrap();
        assert_eq!(id, "own-blue-hose-5-ft");
        assert_eq!(
            shelf.add("Blue hose, 5 ft", Origin::Measured, None, hose(&shelf)).unwrap(),
            "own-blue-hose-5-ft-2"
        );
        let mut item = own(&shelf, &id);
        if let Thing::Part(part) = &mut item.item {
            scenario::set_in(part, "bore", "4,6 mm").unwrap();
        }
        item.retired = true;
        shelf.change(&item).unwrap();
        let mut again = OwnShelf::default();
        again.set_built_in(Shelf::built_in().unwrap());
        again.keep_in(shelf.folder().unwrap().clone());
        assert_eq!(own(&again, &id), item);
        assert!(again.troubles().is_empty(), "{:?}", again.troubles());
        let names = std::fs::read_dir(shelf.folder().unwrap()).unwrap().count();
        assert_eq!(names, 2, "no neighbour is left");
        end(&shelf);
    }

    #[test]
    fn one_bad_file_takes_no_other_with_it_and_is_said_with_its_line() {
        let mut shelf = shelf("bad");
        let id = shelf.add("Blue", Origin::Measured, None, hose(&shelf)).unwrap();
        let folder = shelf.folder().unwrap().clone();
        std::fs::write(folder.join("a.ron"), "(schema: 1,\n parts: [(id: \"own-x\",").unwrap();
        std::fs::write(folder.join("z.ron"), [0xff, 0xfe]).unwrap();
        shelf.read();
        assert_eq!(own(&shelf, &id).name, "Blue");
        assert_eq!(shelf.troubles().len(), 2);
        assert!(shelf.troubles()[0].starts_with("a.ron, line 2"), "{:?}", shelf.troubles());
        end(&shelf);
    }

    #[test]
    fn what_another_program_wrote_is_not_written_over() {
        let mut shelf = shelf("clash");
        let id = shelf.add("Blue", Origin::Measured, None, hose(&shelf)).unwrap();
        let mut item = own(&shelf, &id);
        let path = shelf.folder().unwrap().join("own-blue.ron");
        let theirs = std::fs::read_to_string(&path).unwrap().replace("4.8 mm", "4.4 mm");
        std::fs::write(&path, &theirs).unwrap();
        item.name = "Mine".to_owned();
        assert!(shelf.change(&item).unwrap_err().contains("changed by another program"));
        assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
        item = own(&shelf, &id);
        item.name = "Mine".to_owned();
        shelf.change(&item).unwrap();
        assert!(std::fs::read_to_string(&path).unwrap().contains("4.4 mm"));
        end(&shelf);
    }

    #[test]
    fn what_cannot_be_written_is_said_and_the_shelf_stays() {
        let parent = std::env::temp_dir().join(format!("narrows-shelf-file-{}", std::process::id()));
        std::fs::write(&parent, "x").unwrap();
        let mut shelf = shelf("none");
        shelf.keep_in(parent.join("inside"));
        let before = shelf.all().clone();
        let error = shelf.add("Blue", Origin::Measured, None, hose(&shelf)).unwrap_err();
        assert!(error.contains("is not written"), "{error}");
        assert_eq!(*shelf.all(), before);
        let mut nowhere = OwnShelf::default();
        nowhere.set_built_in(before);
        assert!(nowhere.add("Blue", Origin::Measured, None, hose(&shelf)).is_err());
        let built_in = own(&shelf, "hose-quarter");
        assert!(shelf.change(&built_in).unwrap_err().contains("built in"));
        std::fs::remove_file(&parent).unwrap();
    }
}
