//! What the window remembers of the person's choices, in one small file of the data folder.

use std::path::Path;

use narrows::units::UnitSet;
use serde::{Deserialize, Serialize};

use super::files::{self, Trouble};
use super::style::Theme;

const FILE: &str = "settings.ron";

/// The choices. What a file does not name is as in a window that was never changed.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Settings {
    /// Units of answers; as each document was typed if none were chosen.
    pub units: Option<UnitSet>,
    /// The colours.
    pub theme: Theme,
    /// Large type and targets, for a van.
    pub van: bool,
    /// Reduced motion: changes jump.
    pub still: bool,
}

impl Settings {
    /// Reads them from the data folder; a file that is not there means none.
    ///
    /// # Errors
    /// The file is damaged; in words, with its line.
    pub fn read(folder: &Path) -> Result<Self, String> {
        let path = folder.join(FILE);
        let Some(text) = files::text(&path) else { return Ok(Self::default()) };
        ron::from_str(&text).map_err(|error| {
            let (path, line) = (path.display(), error.span.start.line);
            format!("{path}, line {line}: {}. Units, colours and sizes are as in a new window.", error.code)
        })
    }

    /// Writes them into the data folder.
    ///
    /// # Errors
    /// The file cannot be written; in words.
    pub fn write(&self, folder: &Path) -> Result<(), String> {
        let path = folder.join(FILE);
        let failed = |trouble: Trouble| format!("{} is not written: {trouble}", path.display());
        let pretty = ron::ser::PrettyConfig::new().new_line("\n");
        let text = ron::ser::to_string_pretty(self, pretty)
            .map_err(|error| failed(Trouble::Other(error.to_string())))?;
        std::fs::create_dir_all(folder).map_err(|error| failed(error.into()))?;
        files::replace(&path, &(text + "\n")).map_err(failed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use narrows::units::{PressureUnit, RateUnit};

    #[test]
    fn choices_come_back_and_damage_is_said() {
        let folder = std::env::temp_dir().join(format!("narrows-settings-{}", std::process::id()));
        assert_eq!(Settings::read(&folder.join("none")), Ok(Settings::default()));
        let mixed =
            UnitSet { pressure: PressureUnit::Bar, rate: RateUnit::GramPerSecond, ..UnitSet::US_TRADE };
        let comma = UnitSet { absolute: true, decimal_comma: true, ..UnitSet::SI };
        for settings in [
            Settings::default(),
            Settings { units: Some(mixed), theme: Theme::Dark, ..Settings::default() },
            Settings { units: Some(comma), theme: Theme::Sun, van: true, still: true },
        ] {
            settings.write(&folder).unwrap();
            assert_eq!(Settings::read(&folder), Ok(settings));
        }
        std::fs::write(folder.join(FILE), "(still: true)").unwrap();
        assert_eq!(Settings::read(&folder), Ok(Settings { still: true, ..Settings::default() }));
        std::fs::write(folder.join(FILE), "(\n theme: furlong)").unwrap();
        assert!(Settings::read(&folder).unwrap_err().contains("line 2"));
        std::fs::remove_dir_all(folder).unwrap();
    }
}
