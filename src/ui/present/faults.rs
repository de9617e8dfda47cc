//! Where a fault is, in the words a person uses: "Kit A, part 2 (Hose), bore".

use narrows::kit::Part;
use narrows::scenario::{Document, SetError};

use super::parts;
use crate::ui::view::Selected;

/// A place in the document.
#[derive(Clone, Debug, PartialEq)]
pub struct FaultPlace {
    /// In words.
    pub words: String,
    /// The kit it is in, if in one.
    pub kit: Option<usize>,
    /// What to take in hand to put it right.
    pub selected: Option<Selected>,
}

/// The place that a path names.
pub fn fault_place(document: &Document, path: &str) -> FaultPlace {
    let steps: Vec<&str> = path.split('.').collect();
    let place = |words: String, selected| FaultPlace { words, kit: None, selected };
    match steps.as_slice() {
        ["kits", kit, rest @ ..] => in_kit(document, kit, rest),
        ["discharge", at, rest @ ..] => match index(at) {
            Some(i) => {
                let name = part_words(document.discharge.get(i));
                place(
                    with(format!("After the machine, part {}{name}", i + 1), rest),
                    Some(Selected::Discharge(i)),
                )
            }
            None => place(with("After the machine".to_owned(), rest), None),
        },
        ["supply", "cords", at, rest @ ..] => cord(at, rest, ""),
        ["supply", "branch", rest @ ..] => {
            place(with("Branch circuit".to_owned(), rest), Some(Selected::Branch))
        }
        ["supply", "generator", rest @ ..] => {
            place(with("Generator".to_owned(), rest), Some(Selected::Supply))
        }
        ["supply", rest @ ..] => place(with("Supply".to_owned(), rest), Some(Selected::Supply)),
        ["machine", "motor", rest @ ..] => place(with("Motor".to_owned(), rest), Some(Selected::Motor)),
        ["machine", rest @ ..] => place(with("Machine".to_owned(), rest), Some(Selected::Machine)),
        ["cylinder", rest @ ..] => place(with("Cylinder".to_owned(), rest), Some(Selected::Cylinder)),
        ["source", rest @ ..] => place(with("System".to_owned(), rest), Some(Selected::Source)),
        ["ambient", rest @ ..] => place(with("Air around".to_owned(), rest), Some(Selected::Source)),
        other => place(with(String::new(), other), None),
    }
}

fn in_kit(document: &Document, kit: &str, rest: &[&str]) -> FaultPlace {
    let at = document.kits.iter().position(|k| k.name == kit).or_else(|| index(kit));
    let found = at.and_then(|i| document.kits.get(i));
    let name = found.map_or(kit, |k| k.name.as_str());
    let of_kit = format!("Kit {name}");
    let mut place = match rest {
        ["parts", part, field @ ..] => {
            let i = index(part);
            let words = part_words(i.and_then(|i| found?.parts.get(i)));
            let words = with(format!("{of_kit}, part {}{words}", one_more(part)), field);
            FaultPlace { words, kit: None, selected: i.map(Selected::Part) }
        }
        ["second_port", "parts", part, field @ ..] => {
            let i = index(part);
            let words = part_words(i.and_then(|i| found?.second_port.as_ref()?.parts.get(i)));
            let words = with(format!("{of_kit}, second port, part {}{words}", one_more(part)), field);
            FaultPlace { words, kit: None, selected: i.map(Selected::SecondPart) }
        }
        ["cords", at, field @ ..] => cord(at, field, &format!("{of_kit}, ")),
        ["machine", field @ ..] => {
            let words = with(format!("{of_kit}, machine"), field);
            FaultPlace { words, kit: None, selected: Some(Selected::Machine) }
        }
        other => FaultPlace { words: with(of_kit, other), kit: None, selected: None },
    };
    place.kit = at;
    place
}

fn cord(at: &str, field: &[&str], before: &str) -> FaultPlace {
    let words = with(format!("{before}cord {}", one_more(at)), field);
    FaultPlace { words: super::scale::sentence(&words), kit: None, selected: index(at).map(Selected::Cord) }
}

fn index(step: &str) -> Option<usize> {
    step.parse().ok()
}

/// People count from one.
fn one_more(step: &str) -> String {
    index(step).map_or_else(|| step.to_owned(), |i| (i + 1).to_string())
}

fn part_words(part: Option<&Part>) -> String {
    part.map(|p| format!(" ({})", parts::name(p))).unwrap_or_default()
}

/// The field behind the thing, its name in words.
fn with(thing: String, field: &[&str]) -> String {
    let words: Vec<String> = field.iter().map(|f| f.replace('_', " ")).filter(|f| !f.is_empty()).collect();
    match (thing.is_empty(), words.is_empty()) {
        (_, true) => thing,
        (true, false) => super::scale::sentence(&words.join(", ")),
        (false, false) => format!("{thing}, {}", words.join(", ")),
    }
}

/// What a refusal to set a field says beside it.
pub fn refusal_words(error: SetError) -> String {
    match error {
        SetError::Value { expected, .. } => expected,
        SetError::Required { expected, .. } => format!("expected {expected}"),
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_become_the_words_of_the_bench() {
        let document = crate::ui::examples::first().unwrap();
        let words = |path: &str| fault_place(&document, path).words;
        assert_eq!(words("kits.A.parts.0.bore"), "Kit A, part 1 (Valve core), bore");
        assert_eq!(words("supply.cords.0.marked_current"), "Cord 1, marked current");
        assert_eq!(words("machine.motor.rated_voltage"), "Motor, rated voltage");
        assert_eq!(words("source.temperature"), "System, temperature");
        assert_eq!(words("refrigerant"), "Refrigerant");
        let place = fault_place(&document, "kits.A.parts.0.bore");
        assert_eq!((place.kit, place.selected), (Some(0), Some(Selected::Part(0))));
    }

    #[test]
    fn odd_paths_are_no_trouble() {
        let document = crate::ui::examples::first().unwrap();
        for path in
            ["", ".", "kits", "kits.", "kits.Q.parts.x.y", "discharge.9.bore", "supply.cords.", "a.b.c"]
        {
            fault_place(&document, path);
        }
    }
}
