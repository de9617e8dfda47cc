//! What a class is shown: a question, then the answer piece by piece, then why.

/// How far the lesson is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Phase {
    /// The question; parts uncut, losses covered.
    #[default]
    Ask,
    /// So many parts show what they cost.
    Show(usize),
    /// All of it, and the reason.
    Why,
}

impl Phase {
    /// Its word on the screen.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Ask => "Ask",
            Self::Show(_) => "Show",
            Self::Why => "Why",
        }
    }
}

/// The state of the projector view.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Projector {
    /// How far the lesson is.
    pub phase: Phase,
    /// Nothing is shown.
    pub blank: bool,
    /// Hands for each part.
    pub votes: [u32; 9],
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
    /// A hand for a part, by its place.
    Vote(usize),
}

impl Projector {
    /// Does one step; the kit has so many parts.
    pub fn step(&mut self, step: Step, parts: usize) {
        let was_blank = std::mem::take(&mut self.blank);
        match step {
            Step::Blank => self.blank = !was_blank,
            Step::Reset => *self = Self::default(),
            Step::Vote(at) => {
                if let Some(votes) = self.votes.get_mut(at).filter(|_| at < parts) {
                    *votes = votes.saturating_add(1);
                }
            }
            // Out of the blank the picture comes back as it was.
            Step::Next | Step::Back if was_blank => {}
            Step::Next => self.phase = next(self.phase, parts),
            Step::Back => self.phase = back(self.phase, parts),
        }
    }
}

fn next(phase: Phase, parts: usize) -> Phase {
    match phase {
        Phase::Ask if parts > 0 => Phase::Show(1),
        Phase::Show(shown) if shown < parts => Phase::Show(shown + 1),
        _ => Phase::Why,
    }
}

fn back(phase: Phase, parts: usize) -> Phase {
    match phase {
        Phase::Why if parts > 0 => Phase::Show(parts),
        Phase::Show(shown) if shown > 1 => Phase::Show(shown - 1),
        _ => Phase::Ask,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_lesson_goes_there_and_back() {
        let mut p = Projector::default();
        let mut walk = |step, expected| {
            p.step(step, 2);
            assert_eq!(p.phase, expected);
        };
        walk(Step::Next, Phase::Show(1));
        walk(Step::Next, Phase::Show(2));
        walk(Step::Next, Phase::Why);
        walk(Step::Next, Phase::Why);
        walk(Step::Back, Phase::Show(2));
        walk(Step::Blank, Phase::Show(2));
        walk(Step::Back, Phase::Show(2));
        walk(Step::Back, Phase::Show(1));
        walk(Step::Back, Phase::Ask);
        walk(Step::Back, Phase::Ask);
    }

    #[test]
    fn votes_count_and_go_with_a_reset() {
        let mut p = Projector::default();
        for at in [0, 1, 1, 7, 99] {
            p.step(Step::Vote(at), 5);
        }
        assert_eq!(p.votes[..3], [1, 2, 0]);
        p.step(Step::Reset, 5);
        assert_eq!(p, Projector::default());
    }
}
