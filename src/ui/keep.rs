//! What the window keeps for the person between runs: a recovery copy of what is not saved, and
//! the names of recent files. In the user's own data folder; nothing else is written there.
//!
//! A copy is written three seconds after a change, so that a kill loses less than ten. Its name
//! carries the process, so that two windows do not take each other's.

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use narrows::scenario::{self, Document};

use super::files::{self, Trouble};

/// From a change to its copy.
const PATIENCE: Duration = Duration::from_secs(3);
/// Recent files kept.
const RECENT: usize = 8;
const FIRST_LINE: &str = "// file: ";

/// The data folder of one window.
pub struct Keep {
    folder: PathBuf,
    written: Option<Document>,
    changed_at: Option<Instant>,
}

/// A copy that a window which has ended left behind.
#[derive(Clone, Debug, PartialEq)]
pub struct Leftover {
    copy: PathBuf,
    /// What was not saved.
    pub document: Document,
    /// The file it belongs to.
    pub file: Option<PathBuf>,
}

/// What tending came to.
#[derive(Debug, Default, PartialEq)]
pub struct Tended {
    /// When to tend again, if a copy is due.
    pub again_in: Option<Duration>,
    /// A copy could not be written.
    pub trouble: Option<String>,
}

impl Keep {
    /// Keeps in this folder; it is made when first needed.
    pub fn new(folder: PathBuf) -> Self {
        Self { folder, written: None, changed_at: None }
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    fn copy(&self) -> PathBuf {
        self.folder.join(format!("recovery-{}.ron", std::process::id()))
    }

    /// Writes the copy when it is due, takes it away when everything is saved.
    pub fn tend(&mut self, document: &Document, file: Option<&Path>, unsaved: bool, now: Instant) -> Tended {
        if !unsaved {
            self.drop_copy();
            return Tended::default();
        }
        if self.written.as_ref() == Some(document) {
            return Tended::default();
        }
        let waited = now.saturating_duration_since(*self.changed_at.get_or_insert(now));
        if waited < PATIENCE {
            return Tended { again_in: Some(PATIENCE - waited), trouble: None };
        }
        self.changed_at = None;
        // Also after a failure: the next change tries again, not the next frame.
        self.written = Some(document.clone());
        let trouble = self.write(document, file).err();
        let trouble = trouble.map(|t| format!("no recovery copy can be kept: {t}. Save often."));
        Tended { again_in: None, trouble }
    }

    fn write(&self, document: &Document, file: Option<&Path>) -> Result<(), Trouble> {
        let text = scenario::write(document).map_err(|e| Trouble::Other(e.to_string()))?;
        let file = file.map(|f| f.display().to_string()).unwrap_or_default().replace(['\n', '\r'], " ");
        std::fs::create_dir_all(&self.folder).map_err(Trouble::from)?;
        files::replace(&self.copy(), &format!("{FIRST_LINE}{file}\n{text}"))
    }

    /// Takes the copy away.
    pub fn drop_copy(&mut self) {
        self.changed_at = None;
        if self.written.take().is_some() {
            // It may not exist, if it could not be written.
            let _ = std::fs::remove_file(self.copy());
        }
    }

    /// Copies of windows that have ended, without those that cannot be read.
    pub fn leftovers(&self) -> Vec<Leftover> {
        let Ok(entries) = std::fs::read_dir(&self.folder) else { return Vec::new() };
        let mut paths: Vec<PathBuf> = entries.filter_map(|e| Some(e.ok()?.path())).collect();
        paths.sort();
        paths.into_iter().filter(|path| is_orphan(path)).filter_map(read_leftover).collect()
    }

    /// Takes a leftover away.
    pub fn forget(&self, leftover: &Leftover) {
        // What is gone already needs no taking away.
        let _ = std::fs::remove_file(&leftover.copy);
    }

    /// Recent files that are still there, newest first.
    pub fn recent(&self) -> Vec<PathBuf> {
        let text = std::fs::read_to_string(self.folder.join("recent.txt")).unwrap_or_default();
        text.lines().map(PathBuf::from).filter(|p| p.is_file()).take(RECENT).collect()
    }

    /// Puts a file at the head of the recent ones and returns them.
    pub fn remember(&self, path: &Path) -> Vec<PathBuf> {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        let mut all = self.recent();
        all.retain(|p| *p != path);
        all.insert(0, path);
        all.truncate(RECENT);
        let lines: Vec<String> = all.iter().map(|p| p.display().to_string()).collect();
        let written = std::fs::create_dir_all(&self.folder).map_err(Trouble::from);
        // A list of names is not worth a message.
        let _ = written.and_then(|()| files::replace(&self.folder.join("recent.txt"), &lines.join("\n")));
        all
    }
}

/// A recovery copy whose window runs no more.
fn is_orphan(path: &Path) -> bool {
    let name = path.file_name().and_then(|n| n.to_str()).unwrap_or_default();
    let pid = name.strip_prefix("recovery-").and_then(|n| n.strip_suffix(".ron"));
    let Some(pid) = pid.and_then(|p| p.parse::<u32>().ok()) else { return false };
    // Where the system does not show its processes, every copy but our own counts as left behind.
    let comm = std::fs::read_to_string(format!("/proc/{pid}/comm")).unwrap_or_default();
    pid != std::process::id() && !comm.starts_with("narrows")
}

fn read_leftover(copy: PathBuf) -> Option<Leftover> {
    let text = std::fs::read_to_string(&copy).ok()?;
    let document = scenario::read(&text).ok()?;
    let file = text.lines().next()?.strip_prefix(FIRST_LINE)?;
    let file = (!file.is_empty()).then(|| PathBuf::from(file));
    Some(Leftover { copy, document, file })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn keep(name: &str) -> Keep {
        let folder = std::env::temp_dir().join(format!("narrows-keep-{name}-{}", std::process::id()));
        // Left by an earlier run, if there.
        let _ = std::fs::remove_dir_all(&folder);
        Keep::new(folder)
    }

    fn document() -> Document {
        crate::ui::examples::first().unwrap()
    }

    #[test]
    fn a_copy_comes_soon_after_a_change_and_goes_with_saving() {
        let mut keep = keep("copy");
        let (document, start) = (document(), Instant::now());
        assert!(keep.tend(&document, None, true, start).again_in.is_some());
        assert!(!keep.copy().exists());
        keep.tend(&document, Some(Path::new("/x/y.ron")), true, start + Duration::from_secs(4));
        let copy = read_leftover(keep.copy()).expect("a copy");
        assert_eq!((copy.document, copy.file), (document.clone(), Some(PathBuf::from("/x/y.ron"))));
        assert!(keep.leftovers().is_empty(), "our own is not left behind");
        keep.tend(&document, None, false, start);
        assert!(!keep.copy().exists());
        std::fs::remove_dir_all(&keep.folder).unwrap();
    }

    #[test]
    fn what_an_ended_window_left_is_found_and_forgotten() {
        let keep = keep("left");
        std::fs::create_dir_all(&keep.folder).unwrap();
        // No process has this number: Linux ends at 4194304.
        let copy = keep.folder.join("recovery-4294967295.ron");
        std::fs::write(&copy, format!("{FIRST_LINE}\n{}", scenario::write(&document()).unwrap())).unwrap();
        std::fs::write(keep.folder.join("recovery-4294967294.ron"), "damaged").unwrap();
        let left = keep.leftovers();
        assert_eq!(left.len(), 1);
        assert_eq!((left[0].document.clone(), left[0].file.clone()), (document(), None));
        keep.forget(&left[0]);
        assert!(keep.leftovers().is_empty());
        std::fs::remove_dir_all(&keep.folder).unwrap();
    }

    #[test]
    fn recent_files_are_newest_first_and_still_there() {
        let keep = keep("recent");
        std::fs::create_dir_all(&keep.folder).unwrap();
        let file = |n: usize| keep.folder.join(format!("{n}.ron"));
        for n in 0..10 {
            std::fs::write(file(n), "x").unwrap();
            keep.remember(&file(n));
        }
        keep.remember(&file(5));
        std::fs::remove_file(file(9)).unwrap();
        let recent = keep.recent();
        assert_eq!(recent.first(), Some(&file(5)));
        assert!(recent.len() <= RECENT && !recent.contains(&file(9)));
        std::fs::remove_dir_all(&keep.folder).unwrap();
    }

    /// A folder that cannot be made: its parent is a file.
    #[test]
    fn a_copy_that_cannot_be_kept_is_said_once() {
        let parent = std::env::temp_dir().join(format!("narrows-keep-file-{}", std::process::id()));
        std::fs::write(&parent, "x").unwrap();
        let mut keep = Keep::new(parent.join("inside"));
        let (document, start) = (document(), Instant::now());
        keep.tend(&document, None, true, start);
        let late = start + Duration::from_secs(9);
        assert!(keep.tend(&document, None, true, late).trouble.is_some());
        assert_eq!(keep.tend(&document, None, true, late), Tended::default());
        std::fs::remove_file(&parent).unwrap();
    }
}
