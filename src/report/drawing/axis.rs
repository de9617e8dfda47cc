//! A vertical axis from zero, true to scale, whose empty stretches can be folded away.
//!
//! One pixel is the same amount everywhere; a fold takes a fixed height and prints how much it
//! hides. No fold crosses a level that is drawn.

use std::ops::RangeInclusive;

/// Heights that do not grow with the scale, in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fixed {
    /// Height of a fold.
    pub fold: f32,
    /// Kept clear between a level and a fold.
    pub clear: f32,
    /// Above the highest level.
    pub head: f32,
}

impl Fixed {
    /// For a picture of some height.
    pub const TALL: Self = Self { fold: 22.0, clear: 18.0, head: 14.0 };
    /// For a low picture.
    pub const LOW: Self = Self { fold: 16.0, clear: 9.0, head: 4.0 };
}

/// A stretch is worth folding if that frees more than this share of the height.
const WORTH_RATIO: f64 = 0.12;

/// A stretch of values that is not drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fold {
    /// Lower end.
    pub from: f64,
    /// Upper end.
    pub to: f64,
}

/// Heights on screen or paper: they grow downwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pixels {
    /// The smaller one.
    pub upper: f32,
    /// The greater one.
    pub lower: f32,
}

impl Pixels {
    fn span(self) -> f32 {
        self.lower - self.upper
    }
}

/// Maps values to heights.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    top: f64,
    folds: Vec<Fold>,
    pixels: Pixels,
    px_per_unit: f64,
    fixed: Fixed,
}

impl Axis {
    /// An axis from zero to above the highest of `levels`, drawn between two heights on screen.
    ///
    /// `fold` allows folds; they only come where `levels` leave a wide gap, and never across one of
    /// the `losses` (from, to): a loss is drawn in full.
    pub fn new(
        levels: &[f64],
        losses: &[(f64, f64)],
        pixels: impl Into<RangeInclusive<f32>>,
        fold: bool,
        fixed: Fixed,
    ) -> Self {
        let (upper, lower) = pixels.into().into_inner();
        let pixels = Pixels { upper, lower };
        let mut levels: Vec<f64> = levels.iter().copied().filter(|v| v.is_finite()).collect();
        levels.push(0.0);
        levels.sort_by(f64::total_cmp);
        let highest = levels.last().copied().unwrap_or(0.0).max(1e-9);
        let mut gaps = Vec::new();
        let mut axis = Self::build(highest, &gaps, pixels, fixed);
        while fold && gaps.len() < 2 {
            let Some(gap) = widest_gap(&levels, losses, &gaps) else { break };
            let freed = (gap.to - gap.from) * axis.px_per_unit - f64::from(fixed.fold + 2.0 * fixed.clear);
            gaps.push(gap);
            let folded = Self::build(highest, &gaps, pixels, fixed);
            if freed < WORTH_RATIO * f64::from(pixels.span()) || folded.px_per_unit < axis.px_per_unit {
                break;
            }
            axis = folded;
        }
        axis
    }

    /// An axis on which the inside of these gaps is hidden, but for a margin at each end.
    ///
    /// The scale `s` follows from the heights: `s (highest − gaps) + margins + folds + head = H`.
    fn build(highest: f64, gaps: &[Fold], pixels: Pixels, sizes: Fixed) -> Self {
        let hidden: f64 = gaps.iter().map(|f| f.to - f.from).sum();
        let fixed = f64::from(sizes.head) + gaps.len() as f64 * f64::from(sizes.fold + 2.0 * sizes.clear);
        let room = (f64::from(pixels.span()) - fixed).max(1.0);
        let px_per_unit = room / (highest - hidden).max(1e-9);
        let clear = f64::from(sizes.clear) / px_per_unit;
        let mut folds: Vec<Fold> =
            gaps.iter().map(|g| Fold { from: g.from + clear, to: g.to - clear }).collect();
        folds.retain(|f| f.to > f.from);
        folds.sort_by(|a, b| a.from.total_cmp(&b.from));
        let top = highest + f64::from(sizes.head) / px_per_unit;
        Self { top, folds, pixels, px_per_unit, fixed: sizes }
    }

    /// Height on screen of a value.
    pub fn y(&self, value: f64) -> f32 {
        let value = if value.is_finite() { value } else { 0.0 };
        let mut px = value;
        let mut folds_below = 0.0;
        for fold in &self.folds {
            if value >= fold.to {
                px -= fold.to - fold.from;
                folds_below += 1.0;
            } else if value > fold.from {
                // Inside a fold nothing is true to scale; keep the order.
                let inside = (value - fold.from) / (fold.to - fold.from);
                px -= value - fold.from;
                folds_below += inside;
            }
        }
        self.pixels.lower - (px * self.px_per_unit) as f32 - (folds_below as f32) * self.fixed.fold
    }

    /// The folds and where they lie on screen.
    pub fn folds(&self) -> impl Iterator<Item = (Fold, Pixels)> + '_ {
        self.folds.iter().map(|&f| (f, Pixels { upper: self.y(f.to), lower: self.y(f.from) }))
    }

    /// Round values to mark, none inside a fold and none closer than `min_px`; `offset` is where
    /// the marked scale has its zero (the ambient pressure, for a gauge scale).
    pub fn ticks(&self, offset: f64, min_px: f32) -> Vec<f64> {
        let step = round_step(f64::from(min_px) / self.px_per_unit);
        let first = (-offset / step).ceil() as i64;
        let last = ((self.top - offset) / step).floor() as i64;
        if last.saturating_sub(first) > 400 {
            return Vec::new();
        }
        (first..=last)
            .map(|i| i as f64 * step)
            .filter(|v| {
                let at = v + offset;
                let near = f64::from(min_px) * 0.35 / self.px_per_unit;
                !self.folds.iter().any(|f| at > f.from - near && at < f.to + near)
            })
            .collect()
    }

    /// Lower and upper end on screen.
    pub fn pixels(&self) -> Pixels {
        self.pixels
    }
}

/// The widest stretch without a level that is not among `taken`.
fn widest_gap(levels: &[f64], losses: &[(f64, f64)], taken: &[Fold]) -> Option<Fold> {
    let crosses = |gap: &Fold| losses.iter().any(|(a, b)| a.min(*b) < gap.to && a.max(*b) > gap.from);
    levels
        .windows(2)
        .filter_map(|w| Some(Fold { from: *w.first()?, to: *w.get(1)? }))
        .filter(|gap| !taken.contains(gap) && !crosses(gap))
        .max_by(|a, b| (a.to - a.from).total_cmp(&(b.to - b.from)))
}

/// The smallest of 1, 2, 5 times a power of ten that is not below `least`.
fn round_step(least: f64) -> f64 {
    if !(least.is_finite() && least > 0.0) {
        return 1.0;
    }
    let power = 10f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|k| k * power).find(|s| *s >= least).unwrap_or(power)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn axis(levels: &[f64], fold: bool) -> Axis {
        Axis::new(levels, &[], 0.0..=260.0, fold, Fixed::TALL)
    }

    #[test]
    fn without_a_fold_it_is_a_straight_line_from_zero() {
        let a = axis(&[100.0], false);
        assert_eq!(a.y(0.0), 260.0);
        // 14 px stay free above the highest.
        assert!((a.y(100.0) - 14.0).abs() < 1e-3 && (a.y(50.0) - 137.0).abs() < 1e-3);
    }

    #[test]
    fn a_fold_keeps_the_scale_and_crosses_no_level() {
        let levels = [14.7, 200.0, 216.0, 234.0, 252.0];
        let a = axis(&levels, true);
        let (fold, _) = a.folds().next().expect("185 psi of nothing");
        assert!(levels.iter().all(|l| *l <= fold.from || *l >= fold.to), "{fold:?}");
        let below = a.y(0.0) - a.y(10.0);
        let above = a.y(220.0) - a.y(230.0);
        assert!((below - above).abs() < 1e-3, "{below} {above}");
        let plain = axis(&levels, false);
        let before = plain.y(220.0) - plain.y(230.0);
        assert!(above > 2.0 * before, "folding brought little: {before} to {above}");
    }

    #[test]
    fn a_loss_is_never_folded() {
        let pixels = 0.0..=260.0;
        let levels = [14.7, 100.0, 230.0];
        let a = Axis::new(&levels, &[(230.0, 100.0)], pixels, true, Fixed::TALL);
        assert!(a.folds().all(|(f, _)| f.to <= 100.0), "folded across the loss");
    }

    #[test]
    fn higher_values_are_never_lower_on_screen() {
        let a = axis(&[14.7, 195.0, 230.0, 330.0], true);
        let mut last = f32::INFINITY;
        for i in 0..=340 {
            let y = a.y(f64::from(i));
            assert!(y <= last, "{i}");
            last = y;
        }
    }

    #[test]
    fn odd_levels_are_no_trouble() {
        for levels in [&[][..], &[f64::NAN], &[0.0], &[1e9, 1e-9], &[f64::INFINITY, 5.0]] {
            for span in [0.0, 1.0, 300.0] {
                let a = Axis::new(levels, &[], 0.0..=span, true, Fixed::TALL);
                assert!(a.y(3.0).is_finite());
                a.ticks(14.7, 20.0);
            }
        }
    }
}
