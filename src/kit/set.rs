//! A kit: the parts in order, and what it does differently from the rest of the document.

use super::cord::check_cords;
use super::job_plan::check_machines;
use super::{Cord, Door, JobPlan, Machine, MachinePorts, Method, Part, Port, Price, check_price};
use serde::{Deserialize, Serialize};

/// A second connection to the system whose parts meet the first one's on the way.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SecondPort {
    /// What this connection draws; as the first one if left out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub port: Option<Port>,
    /// Its own parts, from the system to where the two meet.
    pub parts: Vec<Part>,
    /// The two meet in front of this part of the kit; the number of parts for the machine itself.
    pub joins_before: usize,
}

/// A kit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kit {
    /// Short and unique: `A`. Edits address the kit by it.
    pub name: String,
    /// In words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// From the system to the machine.
    pub parts: Vec<Part>,
    /// A second connection, if there is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub second_port: Option<SecondPort>,
    /// What the connection draws, if not as the document says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub port: Option<Port>,
    /// The machine, if not the document's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub machine: Option<Machine>,
    /// How flow is computed, if not as the document says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub method: Option<Method>,
    /// The cords, if not the document's.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cords: Option<Vec<Cord>>,
    /// How many machines run at once, if not as the job's plan says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub machines: Option<u32>,
    /// How they are connected, if not as the job's plan says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub machine_ports: Option<MachinePorts>,
    /// What it costs to have it on this job: rent, purchase.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<Price>,
}

impl Kit {
    /// Where the cords that feed it stand: its own, or the supply's.
    pub fn cords_path(&self) -> String {
        match &self.cords {
            Some(_) => format!("kits.{}.cords", self.name),
            None => "supply.cords".to_owned(),
        }
    }

    /// What the first port and the second draw; `source` is what the source's connection does. Of two
    /// connections for both, the first is the liquid's and the second the vapour's.
    pub fn ports(&self, source: Port) -> (Port, Port) {
        let first = self.port.unwrap_or(source);
        match self.second_port.as_ref().map(|second| second.port) {
            Some(None) if first == Port::Both => (Port::Liquid, Port::Vapour),
            Some(Some(second)) => (first, second),
            Some(None) | None => (first, first),
        }
    }

    /// A kit of these parts that shares everything else.
    pub fn new(name: impl Into<String>, parts: Vec<Part>) -> Self {
        Self {
            name: name.into(),
            label: None,
            parts,
            second_port: None,
            port: None,
            machine: None,
            method: None,
            cords: None,
            machines: None,
            machine_ports: None,
            price: None,
        }
    }

    /// How many machines run at once with it.
    pub(crate) fn machine_count(&self, plan: Option<&JobPlan>) -> u32 {
        self.machines.or(plan.and_then(|plan| plan.machines)).unwrap_or(1)
    }

    pub(crate) fn check(&self, door: &mut Door<'_>) {
        check_parts(&self.parts, door);
        if let Some(second) = &self.second_port {
            let mut door = door.at("second_port");
            check_parts(&second.parts, &mut door);
            if second.joins_before > self.parts.len() {
                door.fault(
                    "joins_before",
                    format!(
                        "{} is behind the last part; expected 0 to {}",
                        second.joins_before,
                        self.parts.len(),
                    ),
                );
            }
            if second.joins_before == 0 || second.parts.is_empty() {
                door.fault("joins_before", "both connections need a part of their own before they meet");
            }
        }
        if let Some(machine) = &self.machine {
            machine.check(&mut door.at("machine"));
        }
        if let Some(cords) = &self.cords {
            check_cords(cords, door);
        }
        check_machines(self.machines, door);
        check_price(self.price.as_ref(), "price", door);
    }
}

pub(crate) fn check_parts(parts: &[Part], door: &mut Door<'_>) {
    let mut door = door.at("parts");
    for (index, part) in parts.iter().enumerate() {
        part.check(&mut door.at(index));
    }
}
