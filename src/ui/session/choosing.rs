//! What the person has chosen for the window: units of answers. Kept beside the document, not in it.

use narrows::scenario::Document;
use narrows::units::UnitSet;

use super::Session;

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
        self.settings.units = units;
        self.view.units = self.units();
        if let Some(keep) = &self.keep
            && let Err(error) = self.settings.write(keep.folder())
        {
            self.view.message = Some(error);
        }
    }
}

/// The units of answers that go with how a document was typed.
fn units_of(document: &Document) -> UnitSet {
    let unit = document.source.temperature.unit().to_lowercase();
    if unit.contains('f') { UnitSet::US_TRADE } else { UnitSet::SI }
}
