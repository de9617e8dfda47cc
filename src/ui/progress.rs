//! How far the draws behind the window are, and the word that ends them: shared with the thread
//! that makes them.

use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// What is drawn in the background.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    /// Bands of every kit's whole job.
    Jobs,
    /// Bands of what counts in the kit at this place.
    Gains(usize),
    /// The break-even of the methods with the kit at this place.
    BreakEven(usize),
}

impl Wish {
    /// What it is called while it goes on.
    pub fn name(self) -> &'static str {
        match self {
            Self::Jobs => "Whole jobs",
            Self::Gains(_) => "Gains in minutes",
            Self::BreakEven(_) => "Break-even",
        }
    }
}

/// How far it is.
#[derive(Debug, Default)]
pub struct Progress {
    made: AtomicUsize,
    of: AtomicUsize,
    cancelled: AtomicBool,
}

impl Progress {
    /// Says how far it is; 0 of 0 if nothing is drawn.
    pub fn tell(&self, made: usize, of: usize) {
        self.made.store(made, Ordering::Relaxed);
        self.of.store(of, Ordering::Relaxed);
    }

    /// Draws made and draws wanted, while some are made.
    pub fn now(&self) -> Option<(usize, usize)> {
        let of = self.of.load(Ordering::Relaxed);
        (of > 0).then(|| (self.made.load(Ordering::Relaxed), of))
    }

    /// Ends the draws, or lets them go on.
    pub fn cancel(&self, cancelled: bool) {
        self.cancelled.store(cancelled, Ordering::Relaxed);
    }

    /// Whether they were ended.
    pub fn is_cancelled(&self) -> bool {
        self.cancelled.load(Ordering::Relaxed)
    }
}
