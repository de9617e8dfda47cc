//! Worked scenarios, as the text of their files; reading them is `scenario`'s.

/// A worked scenario.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ScenarioPreset {
    /// Never changed, never used again for another.
    pub id: &'static str,
    /// The document's file.
    pub text: &'static str,
}

macro_rules! scenario_files {
    ($($id:literal),+ $(,)?) => {
        &[$(ScenarioPreset {
            id: $id,
            text: include_str!(concat!("../../presets/scenarios/", $id, ".ron")),
        }),+]
    };
}

/// Every worked scenario; the first is what the window opens on.
pub fn scenarios() -> &'static [ScenarioPreset] {
    scenario_files![
        "reference-kits",
        "bakery-freezer",
        "long-cord",
        "ice-rink-liquid",
        "school-kitchen",
        "hospital-two-ports",
        "market-generator",
        "museum-metric",
        "reference-tail",
        "rating-card",
        "slow-path",
        "slow-machine",
        "slow-power",
        "own-or-rent",
        "cold-store-log",
    ]
}

/// The file of the worked scenario with this id.
pub fn built_in_scenario(id: &str) -> Option<&'static str> {
    scenarios().iter().find(|preset| preset.id == id).map(|preset| preset.text)
}
