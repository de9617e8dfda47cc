//! What a method asks for, and where it does not suit.

use uom::si::mass::kilogram;

use super::{Facts, Grade, Place, Rule, both};
use crate::job::{RecoveryMethod, Unsuited};
use crate::units::as_sentence;

pub(super) const RULES: &[Rule] = &[
    Rule {
        id: "push-pull",
        grade: Grade::Warning,
        place: Place::Method,
        fires: |facts| push_pull(facts).into_iter().collect(),
    },
    Rule {
        id: "no-liquid-port",
        grade: Grade::Warning,
        place: Place::Method,
        fires: |facts| unsuited(facts, |reason| matches!(reason, Unsuited::NoLiquidPort { .. })),
    },
    Rule {
        id: "method-unsuited",
        grade: Grade::Note,
        place: Place::Method,
        fires: |facts| unsuited(facts, |reason| !matches!(reason, Unsuited::NoLiquidPort { .. })),
    },
];

fn push_pull(facts: &Facts<'_>) -> Option<String> {
    if facts.ask.method != RecoveryMethod::PushPull {
        return None;
    }
    let allowance = facts.ask.day.siphon_allowance;
    let short = if allowance.get::<kilogram>() > 0.0 {
        format!("{} is kept free for that.", both(allowance))
    } else {
        format!(
            "Nothing is kept free for that yet: allow for {:.0} s of flow and for what the liquid line holds.",
            facts.ask.filling.siphon_time.get::<uom::si::time::second>()
        )
    };
    Some(format!(
        "Push-pull: stop on the scale's weight and close the valves. Liquid can go on siphoning into the cylinder \
         after the machine stops, and an automatic shut-off may not stop it. {short} Watch the sight glass; a \
         vapour phase must follow."
    ))
}

fn unsuited(facts: &Facts<'_>, is_meant: fn(&Unsuited) -> bool) -> Vec<String> {
    let meant = facts.limits.unsuited.iter().filter(|reason| is_meant(reason));
    meant.map(|reason| as_sentence(&reason.to_string())).collect()
}
