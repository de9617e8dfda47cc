//! What to heed beside the numbers, gravest first: mark, word, sentence.

use super::Scene;
use super::faults::fault_place;
use super::scale::sentence;
use super::volts::graded;
use crate::ui::symbols::Mark;

/// One caution.
pub type Caution = (Mark, String, String);

/// Everything to heed for the kit in hand; then what should be known.
pub fn cautions(scene: &Scene) -> Vec<Caution> {
    let mut all: Vec<Caution> = Vec::new();
    for fault in scene.session.faults() {
        let place = fault_place(scene.document(), &fault.path).words;
        all.push((Mark::Note, "To put right".to_owned(), format!("{place}: {}", fault.message)));
    }
    for (name, differs) in super::newer::all_newer(scene) {
        let sentence = format!("{name}: {differs}. Take it in hand to keep what stands or to update it.");
        all.push((Mark::Note, "The shelf has a newer figure".to_owned(), sentence));
    }
    let Some(answer) = scene.answer().and_then(|a| a.kits.get(scene.hand())) else {
        return all;
    };
    for caution in answer.cautions() {
        let (mark, word) = graded(caution.grade);
        all.push((mark, word.to_owned(), sentence(&caution.text)));
    }
    if let Some(trouble) = answer.power_trouble() {
        all.push((Mark::Note, "No volts".to_owned(), sentence(&trouble)));
    }
    for note in answer.notes() {
        all.push((Mark::Note, "Note".to_owned(), sentence(&note)));
    }
    all
}
