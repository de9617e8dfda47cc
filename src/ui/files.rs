//! Files: the native dialogs, reading, and writing so that a failed save leaves the old file.

use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};

use narrows::scenario::{self, Document, SiteLog};

pub use crate::terminal::disk::{Trouble, replace};

/// Ending of a document's file.
pub const EXTENSION: &str = "ron";

/// Ending of a site log's table.
const TABLE: &str = "csv";

/// What a dialog was for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// To open.
    Open,
    /// To save.
    Save,
    /// To open a site log's table.
    Log,
    /// A folder for pages.
    Pages,
}

/// A dialog's answer. `None`: cancelled, or there is no dialog on this machine.
pub struct Picked {
    /// What it was for.
    pub purpose: Purpose,
    /// The file.
    pub path: Option<PathBuf>,
}

/// Dialogs that may be open; each runs on a thread of its own, so that the window goes on.
pub struct Dialogs {
    sender: Sender<Picked>,
    receiver: Receiver<Picked>,
}

impl Default for Dialogs {
    fn default() -> Self {
        let (sender, receiver) = channel();
        Self { sender, receiver }
    }
}

impl Dialogs {
    /// Opens a native dialog.
    ///
    /// # Errors
    /// The thread could not be started.
    pub fn ask(&self, purpose: Purpose, name: &str, ctx: &egui::Context) -> Result<(), String> {
        let (sender, ctx, name) = (self.sender.clone(), ctx.clone(), name.to_owned());
        std::thread::Builder::new()
            .name("file dialog".to_owned())
            .spawn(move || {
                let (what, ending) = match purpose {
                    Purpose::Open | Purpose::Save => ("Narrows document", EXTENSION),
                    Purpose::Log | Purpose::Pages => ("Table of a site log", TABLE),
                };
                let dialog = rfd::FileDialog::new().add_filter(what, &[ending]);
                let path = match purpose {
                    Purpose::Open | Purpose::Log => dialog.pick_file(),
                    Purpose::Save => dialog.set_file_name(name).save_file(),
                    Purpose::Pages => rfd::FileDialog::new().set_title("Folder for the pages").pick_folder(),
                };
                // A window that has gone needs no answer.
                let _ = sender.send(Picked { purpose, path });
                ctx.request_repaint();
            })
            .map_err(|error| format!("the file dialog did not open: {error}"))?;
        Ok(())
    }

    /// Answers that have come since.
    pub fn answers(&mut self) -> Vec<Picked> {
        self.receiver.try_iter().collect()
    }
}

/// Reads a document, and the text it was read from.
///
/// # Errors
/// The file cannot be read, or is no document; in words, with its name.
pub fn read(path: &Path) -> Result<(Document, String), String> {
    let text = std::fs::read_to_string(path)
        .map_err(|error| format!("{} cannot be read: {error}", path.display()))?;
    let document = scenario::read(&text).map_err(|error| format!("{}: {error}", path.display()))?;
    Ok((document, text))
}

/// Whether a file is a table by its name.
pub fn is_table(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case(TABLE))
}

/// A site log with the rows of a table; what is fitted stays as in the log before.
///
/// # Errors
/// The file cannot be read, or is no table of a log; in words, with its name.
pub fn read_table(path: &Path, before: Option<&SiteLog>) -> Result<SiteLog, String> {
    let text = std::fs::read_to_string(path)
        .map_err(|error| format!("{} cannot be read: {error}", path.display()))?;
    let rows = scenario::log_from_csv(&text).map_err(|error| format!("{}: {error}", path.display()))?;
    Ok(SiteLog { rows, ..before.cloned().unwrap_or_default() })
}

/// The text of a file, if it can be read.
pub fn text(path: &Path) -> Option<String> {
    std::fs::read_to_string(path).ok()
}

/// Writes a document and returns the text that is now in the file.
///
/// # Errors
/// The file cannot be written; the old one is then untouched, and the sentence says so.
pub fn write(path: &Path, document: &Document) -> Result<String, String> {
    let failed = |trouble: Trouble| {
        format!(
            "{} is not saved: {trouble}. Nothing is lost: your changes are still here, and the file is as it was.",
            path.display()
        )
    };
    let text = scenario::write(document).map_err(|e| failed(Trouble::Other(e.to_string())))?;
    replace(path, &text).map_err(failed)?;
    Ok(text)
}

/// The file that a typed path means: with the ending, if none was typed.
pub fn typed_path(text: &str) -> PathBuf {
    let path = PathBuf::from(text.trim());
    if path.extension().is_none() { path.with_extension(EXTENSION) } else { path }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn document() -> Document {
        crate::ui::examples::first().expect("the first example reads")
    }

    #[test]
    fn what_is_written_reads_the_same() {
        let folder = tempdir("round");
        let path = folder.join("a.ron");
        write(&path, &document()).unwrap();
        assert_eq!(read(&path).unwrap().0, document());
        assert_eq!(std::fs::read_dir(&folder).unwrap().count(), 1, "no neighbour is left");
        std::fs::remove_dir_all(folder).unwrap();
    }

    #[test]
    fn failures_are_sentences_with_the_file() {
        let missing = Path::new("no such folder/x.ron");
        for error in [read(missing).unwrap_err(), write(missing, &document()).unwrap_err()] {
            assert!(error.contains("x.ron"), "{error}");
        }
    }

    #[test]
    fn a_damaged_file_is_refused_and_untouched() {
        let folder = tempdir("damaged");
        let path = folder.join("b.ron");
        std::fs::write(&path, "(narrows: 1, title: \"cut o").unwrap();
        assert!(read(&path).is_err());
        assert_eq!(std::fs::read_to_string(&path).unwrap(), "(narrows: 1, title: \"cut o");
        std::fs::remove_dir_all(folder).unwrap();
    }

    fn tempdir(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("narrows-{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        folder
    }
}
