//! Lessons for a class: a question on a worked scenario, what to show, and why it is so.
//!
//! A lesson holds no results. Its words have places (`{rate}`) that are filled with what is
//! computed when it is shown, so that they never contradict the picture.

use crate::kit::{Fault, dialect};
use serde::Deserialize;

use super::{PresetError, built_in_scenario};

/// The version of lesson files.
const SCHEMA: u32 = 1;

/// The picture of a lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Picture {
    /// The pressure stairs, part by part.
    PressureStairs,
    /// The voltage stairs, wire by wire, then starting.
    VoltageStairs,
    /// The rate of each kit, before and with the lesson's change.
    Rates,
    /// Path curve and machine curve.
    MeetingPoint,
    /// Pressure and temperature of the system against what is recovered.
    Chilling,
}

/// A number on a plate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Number {
    /// The recovery rate.
    Rate,
    /// The pressure at the machine's inlet.
    Inlet,
    /// Volts at the running motor.
    VoltsRunning,
    /// Volts at the starting motor.
    VoltsStarting,
}

/// A change of one field of the document.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Change {
    /// The field's path.
    pub path: String,
    /// What to put there, as it would be typed.
    pub text: String,
}

/// One step of the reason.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Why {
    /// What to say, with places for numbers.
    pub says: String,
    /// What is tried while it is said; none leaves the lesson's own change.
    #[serde(default)]
    pub set: Option<Change>,
    /// Another picture.
    #[serde(default)]
    pub picture: Option<Picture>,
}

/// A lesson.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, rename = "Lesson")]
pub struct Lesson {
    #[serde(rename = "lesson")]
    _schema: u32,
    /// Its name in the menu.
    pub title: String,
    /// The id of the worked scenario it starts from.
    pub scenario: String,
    /// What is changed in it before the class sees it.
    #[serde(default)]
    pub prepare: Vec<Change>,
    /// The kit in hand.
    pub kit: String,
    /// What the class is asked.
    pub question: String,
    /// What it can answer; none: the parts of the kit.
    #[serde(default)]
    pub choices: Vec<String>,
    /// Numbers that stand while it is asked.
    pub given: Vec<Number>,
    /// Numbers that stand from then on; two at most.
    pub numbers: Vec<Number>,
    /// What is shown.
    pub picture: Picture,
    /// For [`Picture::Chilling`]: the shares of the charge at which a point is shown.
    #[serde(default)]
    pub marks: Vec<String>,
    /// What is tried from showing on.
    #[serde(default)]
    pub set: Option<Change>,
    /// The reason, step by step.
    pub why: Vec<Why>,
}

#[derive(Deserialize)]
#[serde(rename = "Lesson")]
struct Header {
    lesson: u32,
}

const BUILT_IN: [(&str, &str); 4] = [
    ("which-part.ron", include_str!("../../presets/lessons/which-part.ron")),
    ("bigger-machine.ron", include_str!("../../presets/lessons/bigger-machine.ron")),
    ("long-cord.ron", include_str!("../../presets/lessons/long-cord.ron")),
    ("chilling-charge.ron", include_str!("../../presets/lessons/chilling-charge.ron")),
];

impl Lesson {
    /// The shares of the charge at which a point is shown, 0 to 1.
    pub fn mark_ratios(&self) -> Vec<f64> {
        self.marks.iter().filter_map(|mark| share(mark)).collect()
    }

    /// The same question on another document: without the changes that only fit its own scenario.
    pub fn on_any_document(self) -> Self {
        let why = self.why.into_iter().filter(|why| why.set.is_none()).collect();
        Self { prepare: Vec::new(), set: None, why, ..self }
    }

    fn fault(&self) -> Option<Fault> {
        let fault = |path: &str, message: String| Some(Fault { path: path.to_owned(), message });
        if built_in_scenario(&self.scenario).is_none() {
            return fault("scenario", format!("{:?} is no built-in scenario", self.scenario));
        }
        if self.given.len() > 2 || self.numbers.len() > 2 {
            return fault("numbers", "expected two at most".to_owned());
        }
        if self.choices.len() > 5 {
            return fault("choices", format!("are {}; expected 5 at most", self.choices.len()));
        }
        if let Some(mark) = self.marks.iter().find(|mark| share(mark).is_none()) {
            return fault("marks", format!("{mark:?} is no share; expected 0 to 100 %"));
        }
        None
    }
}

/// "35 %" as 0.35.
fn share(text: &str) -> Option<f64> {
    let percent: f64 = text.strip_suffix('%')?.trim().parse().ok()?;
    (0.0..=100.0).contains(&percent).then_some(percent / 100.0)
}

/// The lessons the program brings with it; the first asks for the part that costs the most, which
/// can be asked of any line-up.
///
/// # Errors
/// None as shipped; a test holds it.
pub fn built_in_lessons() -> Result<Vec<Lesson>, PresetError> {
    BUILT_IN.iter().map(|(file, text)| read_lesson(file, text)).collect()
}

/// Reads a lesson file.
///
/// # Errors
/// It does not read, is of another version, or a value is out of range.
pub fn read_lesson(file: &str, text: &str) -> Result<Lesson, PresetError> {
    let unreadable = PresetError::unreadable_in(file);
    let header: Header = dialect().from_str(text).map_err(&unreadable)?;
    if header.lesson != SCHEMA {
        return Err(PresetError::Schema { file: file.to_owned(), found: header.lesson });
    }
    let lesson: Lesson = dialect().from_str(text).map_err(&unreadable)?;
    match lesson.fault() {
        Some(fault) => Err(PresetError::Faulty { file: file.to_owned(), id: lesson.title.clone(), fault }),
        None => Ok(lesson),
    }
}
