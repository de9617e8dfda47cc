//! Drawings on paper as plain shapes: what is drawn, not how it is written.
//!
//! One unit is one CSS pixel at the width that both paper sizes have; letters are 12.5 units (9.4 pt)
//! or more. Nothing is told by colour alone: levels are thick lines, losses are hatched.

mod bench;
mod clock;
mod volts;

pub(super) use bench::{Cut, bench};
pub(super) use clock::clock;
pub(super) use volts::volts;

use crate::report::drawing;

/// Width of every drawing. A4 less two margins of 14 mm is 688 pixels.
pub(super) const WIDTH: f32 = 680.0;
/// Size of letters: 9.4 pt.
pub(super) const LETTER: f32 = 12.5;

/// A colour by its meaning.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tone {
    /// Words and axes.
    Ink,
    /// A level that is there.
    Level,
    /// A loss.
    Fall,
    /// Grid.
    Rule,
    /// What is behind words.
    Sheet,
    /// A pause.
    Shade,
}

/// How a line is broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Dash {
    /// Not at all.
    Solid,
    /// Long dashes: starting, another kit.
    Long,
    /// Dots.
    Dots,
    /// Dash and dot: a reference.
    Reference,
}

/// On which side of its place a text stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    /// To the right of it.
    Start,
    /// Round it.
    Middle,
    /// To the left of it.
    End,
}

/// One thing in a drawing.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Item {
    /// A line through points.
    Line { points: Vec<(f32, f32)>, tone: Tone, width: f32, dash: Dash },
    /// A filled outline.
    Area { points: Vec<(f32, f32)>, tone: Tone },
    /// A hatched outline.
    Hatch { points: Vec<(f32, f32)> },
    /// A ring on a line: a joint where a gauge could go.
    Ring { at: (f32, f32), filled: bool },
    /// Words.
    Text { at: (f32, f32), words: String, anchor: Anchor, tone: Tone, bold: bool },
    /// The symbol of a part, its box's corner and the size of its box of 96.
    Symbol { shapes: Vec<drawing::Shape>, at: (f32, f32), size: f32, liquid: bool },
}

/// A drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// What it shows, for those who do not see it.
    pub title: String,
    pub(super) height: f32,
    pub(super) items: Vec<Item>,
}

impl Picture {
    pub(super) fn new(title: impl Into<String>, height: f32) -> Self {
        Self { title: title.into(), height, items: Vec::new() }
    }

    pub(super) fn line(&mut self, points: &[(f32, f32)], tone: Tone, width: f32, dash: Dash) {
        self.items.push(Item::Line { points: points.to_vec(), tone, width, dash });
    }

    pub(super) fn area(&mut self, points: &[(f32, f32)], tone: Tone) {
        self.items.push(Item::Area { points: points.to_vec(), tone });
    }

    pub(super) fn rect(&mut self, x: (f32, f32), y: (f32, f32), tone: Tone) {
        self.area(&[(x.0, y.0), (x.1, y.0), (x.1, y.1), (x.0, y.1)], tone);
    }

    pub(super) fn hatch(&mut self, points: &[(f32, f32)]) {
        self.items.push(Item::Hatch { points: points.to_vec() });
    }

    pub(super) fn text(&mut self, at: (f32, f32), words: impl Into<String>, anchor: Anchor) {
        self.tinted(at, words, anchor, Tone::Ink, false);
    }

    pub(super) fn bold(&mut self, at: (f32, f32), words: impl Into<String>, anchor: Anchor) {
        self.tinted(at, words, anchor, Tone::Ink, true);
    }

    pub(super) fn tinted(
        &mut self,
        at: (f32, f32),
        words: impl Into<String>,
        anchor: Anchor,
        tone: Tone,
        bold: bool,
    ) {
        self.items.push(Item::Text { at, words: words.into(), anchor, tone, bold });
    }

    /// A zigzag over what is folded away, with its amount.
    pub(super) fn fold(&mut self, x: (f32, f32), y: (f32, f32), words: &str) {
        self.rect(x, (y.0 + 3.0, y.1 - 3.0), Tone::Sheet);
        for (edge, side) in [(y.0 + 3.0, 1.0), (y.1 - 3.0, 1.0_f32)] {
            let count = ((x.1 - x.0) / 10.0).floor() as usize;
            let points: Vec<(f32, f32)> = (0..=count)
                .map(|i| (x.0 + 10.0 * i as f32, edge + if i % 2 == 0 { side } else { -side } * 2.5))
                .collect();
            self.line(&points, Tone::Rule, 1.0, Dash::Solid);
        }
        self.text((x.0 + 14.0, (y.0 + y.1) / 2.0 + 4.5), words, Anchor::Start);
    }
}

/// About how wide words are, in units.
pub(super) fn text_width(words: &str) -> f32 {
    0.56 * LETTER * words.chars().count() as f32
}
