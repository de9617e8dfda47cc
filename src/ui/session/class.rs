//! The class: a lesson begun, its steps, and the change that a step tries.

use narrows::presets::{Lesson, Picture, built_in_lessons, built_in_scenario};
use narrows::scenario::{self, Document};

use super::Session;
use crate::ui::actions::{Action, Edit};
use crate::ui::projector::{Projector, Step};
use crate::ui::view::Selected;

impl Session {
    /// Shows the question that fits any line-up about the document in hand, or ends the class.
    pub(super) fn project(&mut self, on: bool) {
        self.view.projector = None;
        if on {
            match lesson_at(0) {
                Ok(lesson) => {
                    // The focus box stands on the largest loss by itself: that is the answer.
                    self.view.selected = Some(Selected::Source);
                    self.view.projector = Some(Projector::new(lesson.on_any_document(), false));
                }
                Err(error) => self.view.message = Some(error),
            }
        }
    }

    /// The class in a window of its own, or in the ordinary one; begins it if there is none.
    pub(super) fn project_beside(&mut self, beside: bool) {
        if self.view.projector.is_none() {
            self.project(true);
        }
        if let Some(projector) = &mut self.view.projector {
            projector.beside = beside;
        }
    }

    /// Begins a lesson on its own scenario.
    pub(super) fn teach(&mut self, at: usize) {
        let beside = self.view.projector.as_ref().is_some_and(|p| p.beside);
        match lesson_at(at).and_then(|lesson| Ok((prepared(&lesson)?, lesson))) {
            Ok((document, lesson)) => {
                let kit = document.kits.iter().position(|k| k.name == lesson.kit).unwrap_or_default();
                self.start(document.clone(), None);
                self.take_in_hand(kit);
                self.view.selected = Some(Selected::Source);
                let class = Projector::new(lesson, beside);
                self.view.projector = Some(Projector { start: Some(Box::new(document)), ..class });
            }
            Err(error) => self.view.message = Some(error),
        }
    }

    pub(super) fn step(&mut self, step: Step) {
        let (pieces, choices) = (self.pieces(), self.choices());
        if let Some(projector) = &mut self.view.projector {
            projector.step(step, pieces, choices);
        }
        if step == Step::Reset {
            self.start_again();
        }
    }

    /// The lesson's own document as the class saw it first; one step of undo.
    fn start_again(&mut self) {
        self.end_trial();
        self.in_lesson = None;
        let start = self.view.projector.as_ref().and_then(|p| p.start.as_deref().cloned());
        if let Some(start) = start.filter(|start| *start != self.document) {
            self.remember_answer();
            self.history.push(std::mem::replace(&mut self.document, start));
            self.changed();
        }
    }

    /// How many pieces the lesson's picture is shown in.
    pub fn pieces(&self) -> usize {
        let Some(projector) = &self.view.projector else { return 0 };
        let kit = self.document.kits.get(self.view.kit);
        match projector.lesson.picture {
            Picture::PressureStairs => kit.map_or(0, |k| k.parts.len()),
            Picture::VoltageStairs => {
                let supply = &self.document.supply;
                let cords = kit.and_then(|k| k.cords.as_ref()).unwrap_or(&supply.cords);
                usize::from(supply.branch.is_some()) + cords.len() + 1
            }
            Picture::Rates => self.document.kits.len(),
            Picture::MeetingPoint => 1,
            Picture::Chilling => projector.lesson.marks.len(),
        }
    }

    fn choices(&self) -> usize {
        let Some(projector) = &self.view.projector else { return 0 };
        match projector.lesson.choices.len() {
            0 => self.document.kits.get(self.view.kit).map_or(0, |k| k.parts.len()),
            given => given,
        }
    }

    /// Whether answers have to stay covered: a class has been asked and not been shown all.
    pub fn is_covered(&self) -> bool {
        self.view.projector.as_ref().is_some_and(|p| p.is_covered(self.pieces()))
    }

    /// Whether what is tried stays while this is done.
    pub(super) fn goes_with_trial(&self, action: &Action) -> bool {
        let only_looks = matches!(
            action,
            Action::KeepTrial | Action::Theme(_) | Action::Units(_) | Action::Van(_) | Action::Still(_)
        );
        let in_class = matches!(
            action,
            Action::Lesson(_)
                | Action::Beside(_)
                | Action::View(_)
                | Action::Select(_)
                | Action::Absolute(_)
                | Action::UnitsBox(_)
                | Action::Unfold(_)
                | Action::Clock(_)
        );
        only_looks || (in_class && self.view.projector.is_some())
    }

    /// Tries what the lesson's step wants tried, unless a person tries something else.
    pub(super) fn follow_lesson(&mut self) {
        let Some(projector) = &self.view.projector else {
            self.in_lesson = None;
            return;
        };
        let wanted = projector.change().cloned();
        if self.trial.is_some() && self.in_lesson.is_none() {
            return;
        }
        if self.trial.is_some() && self.in_lesson == wanted {
            return;
        }
        self.end_trial();
        self.in_lesson = None;
        if let Some(change) = wanted {
            self.try_out(Edit::Set { path: change.path.clone(), text: change.text.clone() });
            self.in_lesson = self.trial.is_some().then_some(change);
        }
    }
}

fn lesson_at(at: usize) -> Result<Lesson, String> {
    let lessons = built_in_lessons().map_err(|error| error.to_string())?;
    lessons.into_iter().nth(at).ok_or_else(|| "there is no such lesson".to_owned())
}

/// The document that the class sees first.
fn prepared(lesson: &Lesson) -> Result<Document, String> {
    let text = built_in_scenario(&lesson.scenario).unwrap_or_default();
    let mut document = scenario::read(text).map_err(|error| error.to_string())?;
    for change in &lesson.prepare {
        scenario::set(&mut document, &change.path, &change.text).map_err(|error| error.to_string())?;
    }
    document.title.clone_from(&lesson.title);
    Ok(document)
}
