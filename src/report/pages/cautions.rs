//! Every caution of a document, once, with the kits that it belongs to.

use crate::advice::{Caution, Place};
use crate::power::Grade;
use crate::report::solved::SolvedKit;
use crate::units::{PressureUnit, bare_word};

/// A caution on a page.
#[derive(Debug, Clone, PartialEq)]
pub struct PageCaution {
    /// How serious.
    pub grade: Grade,
    /// The kits it belongs to; none if it belongs to all.
    pub kits: Vec<String>,
    /// Its lasting name.
    pub id: &'static str,
    /// Where it belongs.
    pub place: Place,
    /// What it says.
    pub text: String,
}

/// The cautions of kits and job: what all kits share once, Stops first.
pub(super) fn gathered(kits: Vec<&SolvedKit>, of_job: Vec<Caution>) -> Vec<PageCaution> {
    let mut all: Vec<PageCaution> = Vec::new();
    let count = kits.len();
    let page = |caution: &Caution| PageCaution {
        grade: caution.grade,
        kits: Vec::new(),
        id: caution.id,
        place: caution.place,
        text: caution.text.clone(),
    };
    for kit in kits {
        for caution in &kit.cautions {
            let known = all.iter_mut().find(|one| one.text == caution.text && one.grade == caution.grade);
            match known {
                Some(one) => one.kits.push(kit.kit.name.clone()),
                None => all.push(PageCaution { kits: vec![kit.kit.name.clone()], ..page(caution) }),
            }
        }
    }
    for caution in all.iter_mut().filter(|caution| caution.kits.len() == count) {
        caution.kits.clear();
    }
    all.extend(of_job.iter().map(page));
    all.sort_by_key(|caution| std::cmp::Reverse(caution.grade));
    all
}

/// A blank to write a number in.
pub(super) const BLANK: &str = "_____";

/// Cautions whose numbers are limits of the trade, not answers.
const FIXED: [&str; 4] = ["warm-cylinder", "waiting-cylinder-warm", "heavy-cylinder", "hot-surfaces"];

/// What a class is asked for is given in one of these, or is a pressure.
const UNITS: [&str; 8] = ["V", "A", "%", "W", "lb", "kg", "inHg", "min"];

/// The caution as a class sees it that is asked for the numbers: shape, word and sentence stand,
/// numbers that were computed are blanks. About the power path every number may be one.
pub(super) fn with_blanks(caution: &PageCaution) -> PageCaution {
    if FIXED.contains(&caution.id) {
        return caution.clone();
    }
    let words: Vec<&str> = caution.text.split(' ').collect();
    let is_unit = |word: &&str| {
        let bare = bare_word(word);
        UNITS.contains(&bare) || PressureUnit::is_written(bare)
    };
    let said = words.iter().enumerate().map(|(at, word)| {
        let is_asked = caution.place == Place::CordRun || words.get(at + 1).is_some_and(is_unit);
        if is_asked { blanked(word) } else { (*word).to_owned() }
    });
    PageCaution { text: said.collect::<Vec<_>>().join(" "), ..caution.clone() }
}

/// A word that is a number as a blank, what stands around it kept: "(120" and "12.9," are numbers,
/// "R-22", "A2L" and "16/3" are not.
fn blanked(word: &str) -> String {
    let inner = bare_word(word);
    let is_number = !inner.is_empty() && inner.chars().all(|letter| letter.is_ascii_digit() || letter == '.');
    if is_number { word.replacen(inner, BLANK, 1) } else { word.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_become_blanks_and_names_stay() {
        let caution = PageCaution {
            grade: Grade::Warning,
            kits: Vec::new(),
            id: "under-voltage",
            place: Place::CordRun,
            text: "R-22 class A2L: 84.3 V (73 %), 12.9, not 115.".to_owned(),
        };
        let said = with_blanks(&caution).text;
        assert_eq!(said, "R-22 class A2L: _____ V (_____ %), _____, not _____.");
        let text = "40 CFR 82.156 says 0 inHg vac: stop at 64.8 lb (29.4 kg).".to_owned();
        let level = PageCaution { place: Place::Target, text, ..caution.clone() };
        let said = with_blanks(&level).text;
        assert_eq!(said, "40 CFR 82.156 says _____ inHg vac: stop at _____ lb (_____ kg).");
        let text =
            "Made for 400 psig (27.6 bar(g)), meets 28.9 bar(g), 3.9 bar(a) or 67.4 kPa(a).".to_owned();
        let weak = PageCaution { place: Place::LineUp, text, ..caution.clone() };
        let said = "Made for _____ psig (_____ bar(g)), meets _____ bar(g), _____ bar(a) or _____ kPa(a).";
        assert_eq!(with_blanks(&weak).text, said);
        let fixed = PageCaution { id: "warm-cylinder", ..caution.clone() };
        assert_eq!(with_blanks(&fixed).text, caution.text);
    }
}
