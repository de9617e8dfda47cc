//! Where things go: the axis with its folds, the line of each kit, the area of each loss.

use egui::{Pos2, Rangef, Rect, pos2};

use super::{Run, Shape, Stair, Stairs};
use crate::ui::diagram::axis::{Axis, Fixed};
use crate::ui::diagram::columns::Columns;
use crate::ui::style::Look;

/// The geometry of the picture.
pub struct Plan {
    /// The whole area.
    pub rect: Rect,
    /// From first to last column.
    pub x: Rangef,
    /// Heights.
    pub axis: Axis,
    /// Lines of each run, in the order of the runs.
    pub tracks: Vec<Track>,
    /// Line of the second port's branch.
    pub second: Option<Track>,
    /// Line of the ghost.
    pub ghost: Option<Track>,
}

/// The line of one run: before the machine and after it.
pub struct Track {
    /// System to machine inlet.
    pub suction: Vec<Pos2>,
    /// Machine outlet to cylinder.
    pub discharge: Vec<Pos2>,
    /// The lift, if there is a machine.
    pub lift: Option<Rect>,
    /// Losses to fill and to print.
    pub falls: Vec<Fall>,
    /// Joints between parts, where a gauge could go.
    pub joints: Vec<Pos2>,
    /// The fall into the cylinder: upper and lower end.
    pub into_cylinder: Option<(Pos2, Pos2)>,
}

/// One loss on screen.
pub struct Fall {
    /// Upper end.
    pub from: Pos2,
    /// Lower end.
    pub to: Pos2,
    /// A step, else a slope.
    pub step: bool,
    /// The number.
    pub text: String,
    /// Flow is choked here.
    pub choked: bool,
}

impl Plan {
    pub fn new(rect: Rect, columns: &Columns, s: &Stairs, unfolded: bool, look: &Look) -> Self {
        let head = look.measures.small * 1.9;
        let y = Rangef::new(rect.top() + head, (rect.bottom() - 8.0).max(rect.top() + head));
        // Where there is little height, folds and margins give theirs to the steps.
        let fixed = if y.span() > 300.0 { Fixed::TALL } else { Fixed::LOW };
        let axis = Axis::new(&levels(s), &losses(s), y, !unfolded, fixed);
        let track = |run: &Run| Track::new(run, columns, &axis, look);
        Self {
            rect,
            x: Rangef::new(columns.left, columns.right()),
            tracks: s.runs.iter().map(track).collect(),
            second: s.second.as_ref().map(|(run, _)| track(run)),
            ghost: s.ghost.as_ref().map(|(run, _)| track(run)),
            axis,
        }
    }
}

/// Every line of stairs.
fn drawn(s: &Stairs) -> impl Iterator<Item = &Run> + Clone {
    let more = [&s.second, &s.ghost].into_iter().flatten();
    s.runs.iter().chain(more.map(|(run, _)| run))
}

/// Every level that is drawn.
fn levels(s: &Stairs) -> Vec<f64> {
    let runs = drawn(s);
    let stairs = runs.flat_map(|run| run.stairs.iter());
    let mut all: Vec<f64> = stairs.clone().flat_map(|s| s.levels.iter().copied()).collect();
    let bands = stairs.filter_map(|s| s.band).flatten();
    all.extend(bands.flat_map(|(low, high)| [low, high]));
    all.extend(s.references.iter().map(|(level, _)| *level));
    all.extend(s.extent.iter().flat_map(|(a, b)| [*a, *b]));
    if !s.references.is_empty() {
        all.push(s.ambient);
    }
    all
}

/// From and to of every loss that is drawn in full.
fn losses(s: &Stairs) -> Vec<(f64, f64)> {
    drawn(s)
        .flat_map(|r| r.stairs.iter())
        .filter(|stair| matches!(stair.shape, Shape::Slope | Shape::Steps))
        .filter_map(|stair| Some((*stair.levels.first()?, *stair.levels.last()?)))
        .chain(s.extent.iter().copied())
        .collect()
}

impl Track {
    fn new(run: &Run, columns: &Columns, axis: &Axis, look: &Look) -> Self {
        let mut track = Self {
            suction: Vec::new(),
            discharge: Vec::new(),
            lift: None,
            falls: Vec::new(),
            joints: Vec::new(),
            into_cylinder: None,
        };
        for (i, stair) in run.stairs.iter().enumerate() {
            track.add(stair, columns.span(i), axis, look);
            if let (Some(next), Some(last)) = (run.stairs.get(i + 1), track.line().last().copied())
                && (stair.shape != Shape::Level || next.shape != Shape::Level)
            {
                track.joints.push(last);
            }
        }
        track
    }

    fn line(&mut self) -> &mut Vec<Pos2> {
        if self.lift.is_some() { &mut self.discharge } else { &mut self.suction }
    }

    fn add(&mut self, stair: &Stair, span: Rangef, axis: &Axis, look: &Look) {
        let (Some(&first), Some(&last)) = (stair.levels.first(), stair.levels.last()) else {
            return;
        };
        let (enter, leave) = (pos2(span.min, axis.y(first)), pos2(span.max, axis.y(last)));
        self.line().push(enter);
        match stair.shape {
            Shape::Level => {}
            Shape::Slope => self.falls.push(Fall {
                from: enter,
                to: leave,
                step: false,
                text: stair.drops.first().cloned().unwrap_or_default(),
                choked: stair.choked,
            }),
            Shape::Steps => self.add_steps(stair, span, axis),
            Shape::Fall => {
                // Early in the column, so that its words have room beside it.
                let x = span.min + 0.1 * span.span();
                let (from, to) = (pos2(x, enter.y), pos2(x, leave.y));
                self.line().extend([from, to]);
                self.into_cylinder = Some((from, to));
            }
            Shape::Lift => {
                let half = 9.0 * look.measures.line;
                let x = Rangef::new(span.center() - half, span.center() + half);
                let (low, high) = (enter.y.max(leave.y), enter.y.min(leave.y));
                self.suction.push(pos2(x.min, enter.y));
                self.lift = Some(Rect::from_x_y_ranges(x, Rangef::new(high, low)));
                self.discharge.push(pos2(x.max, leave.y));
            }
        }
        self.line().push(leave);
    }

    fn add_steps(&mut self, stair: &Stair, span: Rangef, axis: &Axis) {
        let steps = stair.levels.len().saturating_sub(1);
        // Of several holes the one with the largest loss is the one that chokes.
        let losses: Vec<f64> =
            stair.levels.windows(2).map(|w| w.first().zip(w.last()).map_or(0.0, |(a, b)| a - b)).collect();
        let largest = losses.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        for (j, pair) in stair.levels.windows(2).enumerate() {
            let [above, below] = *pair else { continue };
            let x = span.min + span.span() * (j as f32 + 1.0) / (steps as f32 + 1.0);
            let (from, to) = (pos2(x, axis.y(above)), pos2(x, axis.y(below)));
            self.line().extend([from, to]);
            let text = stair.drops.get(j).cloned().unwrap_or_default();
            let choked = stair.choked && losses.get(j).is_some_and(|l| *l >= largest);
            self.falls.push(Fall { from, to, step: true, text, choked });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ui::style::Theme;

    /// A core, a hose and a machine: the line falls at the core's middle, slopes over the hose
    /// and stops at the lift.
    #[test]
    fn a_hole_is_a_step_and_a_length_is_a_slope() {
        let look = Look::new(Theme::Light, 1366.0, 768.0);
        let columns = Columns { left: 50.0, width: 100.0, count: 3 };
        let stair = |shape, levels: &[f64]| Stair { shape, levels: levels.to_vec(), ..Stair::level(0.0) };
        let run = Run {
            stairs: vec![
                stair(Shape::Steps, &[234.0, 218.0]),
                stair(Shape::Slope, &[218.0, 215.0]),
                stair(Shape::Lift, &[215.0, 330.0]),
            ],
            ..Run::default()
        };
        let s = Stairs { runs: vec![run], ambient: 14.7, ..Stairs::default() };
        let rect = Rect::from_min_max(pos2(0.0, 200.0), pos2(400.0, 460.0));
        let plan = Plan::new(rect, &columns, &s, false, &look);
        let track = &plan.tracks[0];
        let step = &track.falls[0];
        assert!(step.step && step.from.x == 100.0 && step.to.x == 100.0 && step.to.y > step.from.y);
        let slope = &track.falls[1];
        assert!(!slope.step && slope.from.x == 150.0 && slope.to.x == 250.0);
        let lift = track.lift.unwrap();
        assert_eq!(lift.center().x, 300.0);
        assert!(lift.top() < step.from.y, "the machine lifts above the system");
    }
}
