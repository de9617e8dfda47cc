//! Writing files so that a failed write leaves what was there, and the words for what goes wrong.
//!
//! The window saves with the same function.

use std::io::Write as _;
use std::path::{Path, PathBuf};

use narrows::report::pages::PageFile;

/// Why a file could not be written, in the words of the person whose file it is.
#[derive(Debug, thiserror::Error)]
pub enum Trouble {
    /// No right to write there.
    #[error("this folder may not be written to")]
    NotAllowed,
    /// A medium that cannot be written.
    #[error("this disk can only be read")]
    ReadOnly,
    /// No room.
    #[error("the disk is full")]
    Full,
    /// No such folder.
    #[error("there is no such folder")]
    NoFolder,
    /// Anything else, as the system says it.
    #[error("{0}")]
    Other(String),
}

impl From<std::io::Error> for Trouble {
    fn from(error: std::io::Error) -> Self {
        use std::io::ErrorKind;
        match error.kind() {
            ErrorKind::PermissionDenied => Self::NotAllowed,
            ErrorKind::ReadOnlyFilesystem => Self::ReadOnly,
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded => Self::Full,
            ErrorKind::NotFound | ErrorKind::NotADirectory => Self::NoFolder,
            _ => Self::Other(error.to_string()),
        }
    }
}

/// Puts a text in a file's place: written to a neighbour first, which then takes the file's name.
pub fn replace(path: &Path, text: &str) -> Result<(), Trouble> {
    let name = path.file_name().ok_or_else(|| Trouble::Other("it has no file name".to_owned()))?;
    let mut neighbour_name = std::ffi::OsString::from(".");
    neighbour_name.push(name);
    neighbour_name.push(".new");
    let neighbour = path.with_file_name(neighbour_name);
    let written = write_all(&neighbour, text).and_then(|()| std::fs::rename(&neighbour, path));
    written.map_err(|error| {
        // The neighbour may not exist; then there is nothing to take away.
        let _ = std::fs::remove_file(&neighbour);
        Trouble::from(error)
    })
}

fn write_all(path: &Path, text: &str) -> std::io::Result<()> {
    let mut file = std::fs::File::create(path)?;
    file.write_all(text.as_bytes())?;
    file.sync_all()
}

/// Why pages were not written.
#[derive(Debug, thiserror::Error)]
pub enum PagesTrouble {
    /// Some are there already, and nobody said that they may go.
    #[error(
        "{folder} has {names} already; expected a folder without, or the word that they may be overwritten"
    )]
    There {
        /// The folder.
        folder: String,
        /// Those that are there.
        names: String,
    },
    /// It is a file.
    #[error("{path} is no folder; expected one to put the pages into")]
    NoFolder {
        /// The path.
        path: String,
    },
    /// Writing failed.
    #[error("{path} is not written: {trouble}")]
    Failed {
        /// What was to be written.
        path: String,
        /// Why not.
        trouble: Trouble,
    },
}

/// Writes pages into a folder, which is made if its parent is there. Nothing is written if one of
/// them is there already and `force` is not set.
///
/// # Errors
/// What cannot be written and why, in words.
pub fn write_pages(folder: &Path, files: &[PageFile], force: bool) -> Result<Vec<PathBuf>, PagesTrouble> {
    let said =
        |path: &Path, trouble: Trouble| PagesTrouble::Failed { path: path.display().to_string(), trouble };
    let is_new = !folder.exists();
    if is_new {
        std::fs::create_dir(folder).map_err(|error| said(folder, error.into()))?;
    } else if !folder.is_dir() {
        return Err(PagesTrouble::NoFolder { path: folder.display().to_string() });
    }
    let there: Vec<&str> =
        files.iter().map(|file| file.name).filter(|name| folder.join(name).exists()).collect();
    if !there.is_empty() && !force {
        return Err(PagesTrouble::There { folder: folder.display().to_string(), names: there.join(", ") });
    }
    let write = |file: &PageFile| {
        let path = folder.join(file.name);
        replace(&path, &file.text).map_err(|trouble| said(&path, trouble))?;
        Ok(path)
    };
    files.iter().map(write).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_system_refuses_is_said_in_words() {
        let words = |kind: std::io::ErrorKind| Trouble::from(std::io::Error::from(kind)).to_string();
        assert_eq!(words(std::io::ErrorKind::StorageFull), "the disk is full");
        assert_eq!(words(std::io::ErrorKind::ReadOnlyFilesystem), "this disk can only be read");
        assert_eq!(words(std::io::ErrorKind::PermissionDenied), "this folder may not be written to");
    }

    #[test]
    fn pages_are_written_once_and_overwritten_only_when_allowed() {
        let folder = std::env::temp_dir().join(format!("narrows-pages-{}", std::process::id()));
        let files = [PageFile { name: "crew.html", text: "one".to_owned() }];
        assert_eq!(write_pages(&folder, &files, false).unwrap(), [folder.join("crew.html")]);
        let newer = [PageFile { name: "crew.html", text: "two".to_owned() }];
        let refused = write_pages(&folder, &newer, false).unwrap_err().to_string();
        assert!(refused.contains("crew.html"), "{refused}");
        assert_eq!(std::fs::read_to_string(folder.join("crew.html")).unwrap(), "one");
        write_pages(&folder, &newer, true).unwrap();
        assert_eq!(std::fs::read_to_string(folder.join("crew.html")).unwrap(), "two");
        assert_eq!(std::fs::read_dir(&folder).unwrap().count(), 1, "no neighbour is left");
        let no_folder = write_pages(&folder.join("crew.html"), &files, false).unwrap_err().to_string();
        assert!(no_folder.contains("no folder"), "{no_folder}");
        let nowhere = write_pages(&folder.join("a").join("b"), &files, false).unwrap_err().to_string();
        assert!(nowhere.contains("there is no such folder"), "{nowhere}");
        std::fs::remove_dir_all(folder).unwrap();
    }
}
