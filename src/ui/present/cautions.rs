//! What to heed beside the numbers, gravest first: mark, word, sentence.

use super::Scene;
use super::scale::sentence;
use super::volts::graded;
use crate::ui::symbols::Mark;

/// One caution.
pub type Caution = (Mark, String, String);

/// Everything to heed for the kit in hand.
pub fn cautions(scene: &Scene) -> Vec<Caution> {
    let mut all: Vec<Caution> = Vec::new();
    for fault in scene.session.faults() {
        all.push((Mark::Note, "To put right".to_owned(), fault.to_string()));
    }
    if let Some(power) = scene.power(scene.hand()) {
        let mut verdicts: Vec<_> = power.verdicts.iter().collect();
        verdicts.sort_by_key(|v| std::cmp::Reverse(v.grade));
        for verdict in verdicts {
            let (mark, word) = graded(verdict.grade);
            all.push((mark, word.to_owned(), format!("{}.", sentence(&verdict.finding.to_string()))));
        }
    }
    all
}
