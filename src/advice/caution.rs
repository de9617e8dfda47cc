//! Cautions: one engine, its triggers as data, three grades.
//!
//! A caution is shown where the decision is made and repeated on every page. None can be switched
//! off. A Stop about refrigerant or machine withholds the rate; a Stop about the power path leaves
//! the volts in sight, since they are its reason.

use crate::job::KitAnswer;
use crate::power::Grade;
use crate::scenario::KitSetup;

use super::rules::RULES;
use super::several_machines::several_machines;
use super::verdicts::from_verdicts;
use super::weak_parts::weak_parts;

/// Said at the foot of every page and table, and in the about box.
pub const DEFERENCE: &str = "This is a planning estimate, not an instruction, certification or proof of \
compliance. Follow the equipment maker's instructions, cylinder markings, the nameplate and the law where \
you work. Refrigerant may be handled only by persons certified where required. Evacuation levels, filling \
limits and recovery rules are copies of the dated source named beside them and may have changed since: check \
the text in force. Electrical work on fixed wiring belongs to a qualified person under the adopted electrical \
code. If this tool and a label disagree, the label wins.";

/// Cylinders are kept below this: 125 °F, the limit on their labels.
pub(super) const CYLINDER_LIMIT_F: f64 = 125.0;

/// Where a caution belongs on the screen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Place {
    /// Beside the machine.
    Machine,
    /// Beside the parts.
    LineUp,
    /// Beside what the port draws.
    Method,
    /// Beside the cylinder.
    Cylinder,
    /// Beside the level that has to be reached.
    Target,
    /// Beside the plan of the job.
    JobSheet,
    /// Beside the power path.
    CordRun,
    /// At the first use of a session, and on pages.
    FirstUse,
}

impl Place {
    /// The word that programs read.
    pub fn tag(self) -> &'static str {
        match self {
            Self::Machine => "machine",
            Self::LineUp => "line_up",
            Self::Method => "method",
            Self::Cylinder => "cylinder",
            Self::Target => "target",
            Self::JobSheet => "job_sheet",
            Self::CordRun => "cord_run",
            Self::FirstUse => "first_use",
        }
    }
}

/// One caution.
#[derive(Debug, Clone, PartialEq)]
pub struct Caution {
    /// A lasting name.
    pub id: &'static str,
    /// How serious.
    pub grade: Grade,
    /// Where it is shown.
    pub place: Place,
    /// One line with its reason.
    pub text: String,
    /// The rate is not given while it stands.
    pub withholds: bool,
}

/// What a rule looks at.
pub(super) struct Facts<'a> {
    pub kit: &'a KitSetup,
    pub answer: &'a KitAnswer,
}

/// A trigger and what it says.
pub(super) struct Rule {
    pub id: &'static str,
    pub grade: Grade,
    pub place: Place,
    pub withholds: bool,
    /// The caution's line, where the trigger fires.
    pub fires: fn(&Facts<'_>) -> Option<String>,
}

/// Every caution of a solved kit, Stops first.
pub fn cautions(kit: &KitSetup, answer: &KitAnswer) -> Vec<Caution> {
    let facts = Facts { kit, answer };
    let mut fired: Vec<Caution> = RULES
        .iter()
        .filter_map(|rule| {
            Some(Caution {
                id: rule.id,
                grade: rule.grade,
                place: rule.place,
                text: (rule.fires)(&facts)?,
                withholds: rule.withholds,
            })
        })
        .collect();
    fired.extend(weak_parts(&facts));
    fired.extend(several_machines(kit, answer));
    let source = kit.setup.power.supply.source();
    fired.extend(answer.power.iter().flat_map(|power| from_verdicts(power, source)));
    fired.sort_by_key(|caution| std::cmp::Reverse(caution.grade));
    fired
}

/// The caution that withholds the rate, if one does.
pub fn withheld_because(cautions: &[Caution]) -> Option<&Caution> {
    cautions.iter().find(|caution| caution.withholds)
}
