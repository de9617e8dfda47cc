//! How the job is done: method, times of the steps, machines; and how far it has to go.

use super::{Door, Part, is_false};
use crate::units::{Reference, Typed, TypedPressure};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use uom::si::f64::{Mass, Ratio, Time};

/// A way to recover.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum RecoveryMethod {
    /// Vapour only.
    #[default]
    #[serde(alias = "vapor")]
    Vapour,
    /// Liquid as long as there is some, then vapour.
    #[serde(alias = "liquid_then_vapor")]
    LiquidThenVapour,
    /// Vapour from the cylinder pushes the system's liquid over; then vapour.
    PushPull,
}

/// How several machines are connected to the system.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MachinePorts {
    /// All on the same connection.
    #[default]
    Same,
    /// Each on a connection of its own.
    Separate,
    /// Each on a connection of its own; the second and later ones join when vapour is drawn.
    Staged,
}

/// Method, times and machines of a job. What is left out is assumed where it is needed.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct JobPlan {
    /// The method.
    pub method: RecoveryMethod,
    /// Liquid recovery ends when this share of the liquid in reach is left; when none is, if left
    /// out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub change_over: Option<Typed<Ratio>>,
    /// To move hoses from liquid to vapour, after push-pull too.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub hose_change: Option<Typed<Time>>,
    /// To change cylinders.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub swap: Option<Typed<Time>>,
    /// Before the machine starts.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub set_up: Option<Typed<Time>>,
    /// After the level holds.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pack_up: Option<Typed<Time>>,
    /// All has to be done within this time.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub deadline: Option<Typed<Time>>,
    /// How many machines run at once; one if left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub machines: Option<u32>,
    /// How they are connected.
    pub machine_ports: MachinePorts,
    /// Push-pull: parts from the cylinder's vapour port to the machine; without loss if left out.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub vapour_line: Vec<Part>,
    /// Push-pull: parts from the machine to the system's vapour port; without loss if left out.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gas_line: Vec<Part>,
    /// Push-pull below this charge is not worth while.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub push_pull_from: Option<Typed<Mass>>,
    /// Kept free in the cylinder for what siphons over after the machine stops.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub siphon_allowance: Option<Typed<Mass>>,
    /// The most that the scale can weigh.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub scale_capacity: Option<Typed<Mass>>,
}

/// The most machines that a job may have.
const MOST_MACHINES: u32 = 20;
/// Six days: longer, something was mistyped.
const LONGEST_S: f64 = 6.0 * 86_400.0;

/// Machines that run at once.
pub(super) fn check_machines(machines: Option<u32>, door: &mut Door<'_>) {
    if let Some(count) = machines.filter(|count| !(1..=MOST_MACHINES).contains(count)) {
        door.fault("machines", format!("{count} is out of range; expected 1 to {MOST_MACHINES}"));
    }
}

impl JobPlan {
    pub(crate) fn check(&self, door: &mut Door<'_>) {
        door.optional("change_over", self.change_over.as_ref(), 0.0..=1.0, "a share of 0 to 1");
        for (field, time) in [
            ("hose_change", &self.hose_change),
            ("swap", &self.swap),
            ("set_up", &self.set_up),
            ("pack_up", &self.pack_up),
        ] {
            door.optional(field, time.as_ref(), 0.0..=LONGEST_S, "0 s to 6 days");
        }
        door.optional("deadline", self.deadline.as_ref(), 60.0..=LONGEST_S, "1 min to 6 days");
        check_machines(self.machines, door);
        for (field, parts) in [("vapour_line", &self.vapour_line), ("gas_line", &self.gas_line)] {
            for (index, part) in parts.iter().enumerate() {
                part.check(&mut door.at(field).at(index));
            }
        }
        door.optional("push_pull_from", self.push_pull_from.as_ref(), 0.0..=1e4, "0 kg to 10 t");
        door.optional("siphon_allowance", self.siphon_allowance.as_ref(), 0.0..=1e3, "0 kg to 1 t");
        door.optional("scale_capacity", self.scale_capacity.as_ref(), 0.1..=1e5, "0.1 kg to 100 t");
    }
}

/// How far to evacuate.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum TargetLevel {
    /// As the rules have it; written `"rule"`.
    #[default]
    Rule,
    /// One's own level.
    Given(TypedPressure),
}

impl TargetLevel {
    const RULE: &'static str = "rule";

    /// As it stands in a file or a field.
    pub fn as_typed(&self) -> &str {
        match self {
            Self::Rule => Self::RULE,
            Self::Given(level) => level.as_typed(),
        }
    }
}

impl Serialize for TargetLevel {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.as_typed())
    }
}

impl<'de> Deserialize<'de> for TargetLevel {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = crate::units::text_or_number(
            deserializer,
            "a level, as \"10 inHg vac\", \"0 psig\" or \"rule\"",
        )?;
        if text.trim().eq_ignore_ascii_case(Self::RULE) {
            return Ok(Self::Rule);
        }
        TypedPressure::parse(&text)
            .map(Self::Given)
            .map_err(|error| serde::de::Error::custom(format!("{error}; or say \"rule\"")))
    }
}

/// When the machine was made: the rule's levels depend on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MachineMade {
    /// Before the rule's date in 1993.
    #[serde(rename = "before_1993")]
    Before1993,
    /// On that date or later.
    #[serde(rename = "since_1993")]
    Since1993,
}

/// How far the job has to go, and how that is proved.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Target {
    /// The level.
    pub level: TargetLevel,
    /// When the machine was made.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub machine_made: Option<MachineMade>,
    /// Leaks make the level unattainable.
    #[serde(skip_serializing_if = "is_false")]
    pub leak: bool,
    /// The appliance's full charge, if it is not what is in it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub full_charge: Option<Typed<Mass>>,
    /// Small, sealed in the factory.
    #[serde(skip_serializing_if = "is_false")]
    pub small_appliance: bool,
    /// A small appliance's own compressor runs.
    #[serde(skip_serializing_if = "is_false")]
    pub compressor_runs: bool,
    /// Between reaching the level and looking again.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wait: Option<Typed<Time>>,
    /// How often to look again.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rechecks: Option<u32>,
}

/// The most re-checks that a job may have.
const MOST_RECHECKS: u32 = 20;

impl Target {
    pub(crate) fn check(&self, door: &mut Door<'_>) {
        if let TargetLevel::Given(level) = &self.level {
            // The deepest air there is, so that only what no air allows is refused here.
            let standard = uom::si::f64::Pressure::new::<uom::si::pressure::pascal>(1.2e5);
            let absolute_pa = level.absolute(standard).get::<uom::si::pressure::pascal>();
            if !(0.0..=1e6).contains(&absolute_pa) {
                let hint = match level.reference() {
                    Reference::Vacuum => "expected no more than an absolute vacuum",
                    Reference::Gauge | Reference::Absolute => "expected a vacuum up to 9 bar(g)",
                };
                door.fault("level", format!("{level} is out of range; {hint}"));
            }
        }
        door.optional("full_charge", self.full_charge.as_ref(), 1e-4..=1e6, "0.1 g to 1000 t");
        door.optional("wait", self.wait.as_ref(), 0.0..=LONGEST_S, "0 s to 6 days");
        if self.rechecks.is_some_and(|count| count > MOST_RECHECKS) {
            let count = self.rechecks.unwrap_or_default();
            door.fault("rechecks", format!("{count} is out of range; expected 0 to {MOST_RECHECKS}"));
        }
    }
}
