//! What the person has chosen for the window: units of answers, colours, sizes, motion. Kept beside
//! the document, not in it.

use narrows::scenario::Document;
use narrows::units::UnitSet;

use super::Session;
use crate::ui::settings::Settings;

impl Session {
    /// The units that were chosen, else those that go with how the document was typed.
    pub(super) fn units(&self) -> UnitSet {
        self.settings.units.unwrap_or_else(|| units_of(&self.document))
    }

    /// Whether units follow each document.
    pub fn has_units_as_typed(&self) -> bool {
        self.settings.units.is_none()
    }

    pub(super) fn choose_units(&mut self, units: Option<UnitSet>) {
        self.choose(|settings| settings.units = units);
        self.view.units = self.units();
    }

    /// Makes a choice and remembers it for the next window.
    pub(super) fn choose(&mut self, change: impl FnOnce(&mut Settings)) {
        change(&mut self.settings);
        self.dress();
        if let Some(keep) = &self.keep
            && let Err(error) = self.settings.write(keep.folder())
        {
            self.view.message = Some(error);
        }
    }

    /// Shows the window as chosen, but for units: those looked at may be absolute for now.
    pub(super) fn dress(&mut self) {
        let Settings { theme, van, still, .. } = self.settings;
        (self.view.theme, self.view.van, self.view.still) = (theme, van, still);
    }
}

/// The units of answers that go with how a document was typed.
fn units_of(document: &Document) -> UnitSet {
    let unit = document.source.temperature.unit().to_lowercase();
    if unit.contains('f') { UnitSet::US_TRADE } else { UnitSet::SI }
}
