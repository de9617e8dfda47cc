//! Several machines on one circuit.

use uom::si::electric_current::ampere;

use super::caution::{Caution, Place};
use crate::job::KitAnswer;
use crate::power::Grade;
use crate::scenario::KitSetup;

/// A continuous load may take this share of a breaker (NEC 210.19(A)(1)).
const CONTINUOUS_RATIO: f64 = 0.8;

/// What the kit's machines would ask of the one circuit that was described; none for a single one.
pub(super) fn several_machines(kit: &KitSetup, answer: &KitAnswer) -> Option<Caution> {
    let machines = kit.machines;
    let running = answer.power.as_ref().ok()?.running.point()?;
    if machines < 2 {
        return None;
    }
    let each = running.current.get::<ampere>();
    let others = running.branch_current.get::<ampere>() - each;
    let asked = each * f64::from(machines) + others.max(0.0);
    let breaker = kit.setup.power.branch.breaker().get::<ampere>();
    let (grade, words) = if asked > breaker {
        (Grade::Stop, "more than its rating: it will trip")
    } else if asked > CONTINUOUS_RATIO * breaker {
        (Grade::Warning, "more than 80 % of it, its limit for a continuous load")
    } else {
        (Grade::Note, "within its 80 % for a continuous load")
    };
    Some(Caution {
        id: "several-machines",
        grade,
        place: Place::CordRun,
        text: format!(
            "{machines} machines on this one circuit would draw {asked:.1} A on its {breaker:.0} A breaker, {words}. \
             Give each a circuit of its own and ask for the panel schedule."
        ),
        withholds: false,
    })
}
