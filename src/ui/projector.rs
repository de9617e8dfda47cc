//! What a class is shown: a question, then the answer piece by piece, then why, step by step.

use narrows::presets::{Change, Lesson, Picture};
use narrows::scenario::Document;

/// How far the lesson is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Phase {
    /// The question; parts uncut, losses covered.
    #[default]
    Ask,
    /// So many pieces are shown.
    Show(usize),
    /// All of it, and so many steps of the reason.
    Why(usize),
}

impl Phase {
    /// Its word on the screen.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Ask => "Ask",
            Self::Show(_) => "Show",
            Self::Why(_) => "Why",
        }
    }
}

/// The state of the projector view.
#[derive(Clone, Debug, PartialEq)]
pub struct Projector {
    /// What is taught.
    pub lesson: Lesson,
    /// How far the lesson is.
    pub phase: Phase,
    /// Nothing is shown.
    pub blank: bool,
    /// Hands for each choice.
    pub votes: [u32; 9],
    /// In a window of its own, beside the ordinary one.
    pub beside: bool,
    /// The lesson's own document, as the class sees it first.
    pub start: Option<Box<Document>>,
}

/// One key of the presenter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// On.
    Next,
    /// Back.
    Back,
    /// Blank, or not.
    Blank,
    /// From the start, without votes.
    Reset,
    /// A hand for a choice, by its place.
    Vote(usize),
}

impl Projector {
    /// The question, without votes.
    pub fn new(lesson: Lesson, beside: bool) -> Self {
        Self { lesson, phase: Phase::Ask, blank: false, votes: [0; 9], beside, start: None }
    }

    /// Does one step; the picture has so many pieces and the class so many choices.
    pub fn step(&mut self, step: Step, pieces: usize, choices: usize) {
        let was_blank = std::mem::take(&mut self.blank);
        match step {
            Step::Blank => self.blank = !was_blank,
            Step::Reset => (self.phase, self.votes) = (Phase::Ask, [0; 9]),
            Step::Vote(at) => {
                // Out of the blank a hand still counts; after the question none does.
                let open = self.phase == Phase::Ask && at < choices;
                if let Some(votes) = self.votes.get_mut(at).filter(|_| open) {
                    *votes = votes.saturating_add(1);
                }
            }
            // Out of the blank the picture comes back as it was.
            Step::Next | Step::Back if was_blank => {}
            Step::Next => self.phase = self.next(pieces),
            Step::Back => self.phase = self.back(pieces),
        }
    }

    fn next(&self, pieces: usize) -> Phase {
        let steps = self.lesson.why.len();
        match self.phase {
            Phase::Ask if pieces > 0 => Phase::Show(1),
            Phase::Show(shown) if shown < pieces => Phase::Show(shown + 1),
            Phase::Ask | Phase::Show(_) if steps > 0 => Phase::Why(1),
            Phase::Why(said) if said < steps => Phase::Why(said + 1),
            last => last,
        }
    }

    fn back(&self, pieces: usize) -> Phase {
        match self.phase {
            Phase::Why(said) if said > 1 => Phase::Why(said - 1),
            Phase::Why(_) if pieces > 0 => Phase::Show(pieces),
            Phase::Show(shown) if shown > 1 => Phase::Show(shown - 1),
            _ => Phase::Ask,
        }
    }

    /// Whether answers have to stay covered wherever the class might see them: until every piece
    /// is shown.
    pub fn is_covered(&self, pieces: usize) -> bool {
        match self.phase {
            Phase::Ask => true,
            Phase::Show(shown) => shown < pieces,
            Phase::Why(_) => false,
        }
    }

    /// The step of the reason that is said.
    pub fn why(&self) -> Option<&narrows::presets::Why> {
        match self.phase {
            Phase::Why(said) => self.lesson.why.get(said.checked_sub(1)?),
            _ => None,
        }
    }

    /// The picture that is shown.
    pub fn picture(&self) -> Picture {
        self.why().and_then(|why| why.picture).unwrap_or(self.lesson.picture)
    }

    /// The change that is tried at this point of the lesson.
    pub fn change(&self) -> Option<&Change> {
        if self.phase == Phase::Ask {
            return None;
        }
        self.why().and_then(|why| why.set.as_ref()).or(self.lesson.set.as_ref())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two pieces to show; the first lesson's reason has four steps.
    fn projector() -> Projector {
        let lessons = narrows::presets::built_in_lessons().unwrap();
        Projector::new(lessons.into_iter().next().unwrap(), false)
    }

    #[test]
    fn the_lesson_goes_there_and_back() {
        let mut p = projector();
        let mut walk = |step, expected| {
            p.step(step, 2, 5);
            assert_eq!(p.phase, expected);
        };
        walk(Step::Next, Phase::Show(1));
        walk(Step::Next, Phase::Show(2));
        for said in [1, 2, 3, 4, 4] {
            walk(Step::Next, Phase::Why(said));
        }
        for said in [3, 2, 1] {
            walk(Step::Back, Phase::Why(said));
        }
        walk(Step::Back, Phase::Show(2));
        walk(Step::Blank, Phase::Show(2));
        walk(Step::Back, Phase::Show(2));
        walk(Step::Back, Phase::Show(1));
        walk(Step::Back, Phase::Ask);
        walk(Step::Back, Phase::Ask);
    }

    #[test]
    fn votes_count_while_asked_and_go_with_a_reset() {
        let mut p = projector();
        for at in [0, 1, 1, 4, 7, 99] {
            p.step(Step::Vote(at), 2, 4);
        }
        assert_eq!(p.votes[..5], [1, 2, 0, 0, 0]);
        p.step(Step::Next, 2, 4);
        p.step(Step::Vote(0), 2, 4);
        assert_eq!(p.votes[..5], [1, 2, 0, 0, 0], "the question is over");
        p.step(Step::Reset, 2, 4);
        assert_eq!(p, projector());
    }

    #[test]
    fn answers_are_covered_until_all_is_shown() {
        let mut p = projector();
        let mut covered = Vec::new();
        for _ in 0..4 {
            covered.push(p.is_covered(2));
            p.step(Step::Next, 2, 5);
        }
        assert_eq!(covered, [true, true, false, false]);
    }
}
