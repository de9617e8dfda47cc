//! Bands of headline figures and of their differences, of what was drawn (`drawing`).
//!
//! The band of a difference is taken over the differences, draw by draw, so that what kits share
//! cancels.

use super::draws::DrawPlan;
use super::headline::{Figure, Headline};

/// 10 % of the draws lie below a band, 10 % above it.
const LOW_RATIO: f64 = 0.1;
const HIGH_RATIO: f64 = 0.9;
/// No verdict if fewer than this share of the draws has an answer in both kits.
const ENOUGH_RATIO: f64 = 0.5;

/// Where 80 % of the draws lie. SI units of its figure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// A tenth of the draws lies below.
    pub low: f64,
    /// Half of them do.
    pub median: f64,
    /// Nine tenths do.
    pub high: f64,
    /// How many draws had an answer.
    pub answered: usize,
}

impl Band {
    /// The band of these values; none of none.
    pub(super) fn of(mut values: Vec<f64>) -> Option<Self> {
        values.retain(|value| value.is_finite());
        values.sort_by(f64::total_cmp);
        Some(Self {
            low: quantile(&values, LOW_RATIO)?,
            median: quantile(&values, 0.5)?,
            high: quantile(&values, HIGH_RATIO)?,
            answered: values.len(),
        })
    }

    /// Whether zero lies in it.
    pub fn holds_zero(&self) -> bool {
        self.low <= 0.0 && self.high >= 0.0
    }

    /// From low to high.
    pub fn width(&self) -> f64 {
        self.high - self.low
    }
}

/// The value below which this share of the sorted values lies, straight between neighbours
/// (definition 7 of Hyndman and Fan 1996). Of 1, 2, 3, 4, 5 a tenth lies below 1.4.
fn quantile(sorted: &[f64], ratio: f64) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    let at = ratio * last as f64;
    let below = *sorted.get(at.floor() as usize)?;
    let above = *sorted.get(at.ceil() as usize)?;
    Some(below + (at - at.floor()) * (above - below))
}

/// A kit's bands.
#[derive(Debug, Clone, PartialEq)]
pub struct KitBands {
    /// The kit.
    pub name: String,
    bands: [Option<Band>; Figure::ALL.len()],
    joints: Vec<Band>,
}

impl KitBands {
    /// Of headlines and of pressures along the path, one of each a draw.
    pub(super) fn of(name: String, drawn: &[Headline], joints_pa: &[Vec<f64>]) -> Self {
        let values = |figure: Figure| drawn.iter().filter_map(|one| one.si(figure)).collect();
        let count = joints_pa.iter().map(Vec::len).max().unwrap_or_default();
        let joint = |at: usize| joints_pa.iter().filter_map(|one| one.get(at).copied()).collect();
        Self {
            name,
            bands: Figure::ALL.map(|figure| Band::of(values(figure))),
            joints: (0..count).filter_map(|at| Band::of(joint(at))).collect(),
        }
    }

    /// Absolute pressures in Pa: of the system, then behind each part of the path up to the machine;
    /// nothing where whole jobs were drawn.
    pub fn joints(&self) -> &[Band] {
        &self.joints
    }

    /// The band of one figure; none if no draw had it.
    pub fn band(&self, figure: Figure) -> Option<&Band> {
        of_figure(&self.bands, figure)
    }
}

/// What the band of a difference says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Every draw gives exactly the same: nothing between the kits differs.
    Same,
    /// The band holds zero.
    TooClose,
    /// More, in at least nine draws of ten.
    More,
    /// Less, in at least nine draws of ten.
    Less,
    /// Too few draws had an answer.
    Unknown,
}

impl Verdict {
    /// In words, about the second kit against the first.
    pub fn words(self) -> &'static str {
        match self {
            Self::Same => "the same",
            Self::TooClose => "too close to call",
            Self::More => "more",
            Self::Less => "less",
            Self::Unknown => "cannot tell",
        }
    }
}

/// One kit less another, draw by draw.
#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    /// The kit that is taken off.
    pub from: String,
    /// The kit it is taken from.
    pub to: String,
    bands: [Option<Band>; Figure::ALL.len()],
    draws: usize,
}

impl Difference {
    /// Of headlines one a draw, the same draws in both.
    pub(super) fn of(
        (from, from_drawn): (String, &[Headline]),
        (to, to_drawn): (String, &[Headline]),
        draws: usize,
    ) -> Self {
        let values = |figure: Figure| -> Vec<f64> {
            let pairs = to_drawn.iter().zip(from_drawn.iter());
            pairs.filter_map(|(to, from)| to.less(from, figure)).collect()
        };
        Self { from, to, bands: Figure::ALL.map(|figure| Band::of(values(figure))), draws }
    }

    /// The band of one figure's difference, `to` less `from`.
    pub fn band(&self, figure: Figure) -> Option<&Band> {
        of_figure(&self.bands, figure)
    }

    /// What that band says.
    pub fn verdict(&self, figure: Figure) -> Verdict {
        match self.band(figure) {
            Some(band) if (band.answered as f64) < ENOUGH_RATIO * self.draws as f64 => Verdict::Unknown,
            None => Verdict::Unknown,
            Some(band) if band.low == 0.0 && band.high == 0.0 => Verdict::Same,
            Some(band) if band.holds_zero() => Verdict::TooClose,
            Some(band) if band.low > 0.0 => Verdict::More,
            Some(_) => Verdict::Less,
        }
    }
}

fn of_figure(bands: &[Option<Band>; Figure::ALL.len()], figure: Figure) -> Option<&Band> {
    Figure::ALL.iter().zip(bands).find(|(one, _)| **one == figure).and_then(|(_, band)| band.as_ref())
}

/// The bands of all kits of a document.
#[derive(Debug, Clone, PartialEq)]
pub struct Bands {
    /// What was asked for.
    pub plan: DrawPlan,
    /// How many draws were made.
    pub draws: usize,
    /// How many of them no document could be solved for.
    pub refused: usize,
    /// It was stopped before its last draw.
    pub stopped: bool,
    /// Each kit, in the document's order.
    pub kits: Vec<KitBands>,
    /// Each pair of kits, the earlier one as `from`.
    pub differences: Vec<Difference>,
}

impl Bands {
    /// The difference of two kits by name, `to` less `from`, if they stand in this order.
    pub fn difference(&self, from: &str, to: &str) -> Option<&Difference> {
        self.differences.iter().find(|one| one.from == from && one.to == to)
    }
}

/// Every pair of kits, of headlines one a draw.
pub(super) fn differences(names: &[String], drawn: &[Vec<Headline>], draws: usize) -> Vec<Difference> {
    let kits: Vec<(&String, &Vec<Headline>)> = names.iter().zip(drawn).collect();
    let mut pairs = Vec::new();
    for (at, (from, from_drawn)) in kits.iter().enumerate() {
        for (to, to_drawn) in kits.iter().skip(at + 1) {
            pairs.push(Difference::of(((*from).clone(), from_drawn), ((*to).clone(), to_drawn), draws));
        }
    }
    pairs
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_by_hand() {
        let sorted = [1.0, 2.0, 3.0, 4.0, 5.0];
        assert!((quantile(&sorted, 0.1).unwrap() - 1.4).abs() < 1e-12);
        assert_eq!(quantile(&sorted, 0.5), Some(3.0));
        assert!((quantile(&sorted, 0.9).unwrap() - 4.6).abs() < 1e-12);
        assert_eq!(quantile(&[], 0.5), None);
        assert_eq!(quantile(&[7.0], 0.9), Some(7.0));
    }

    /// One draw, answered or not, of figures that are all `rate`.
    fn difference(values: &[f64]) -> Difference {
        let bands = Figure::ALL.map(|_| Band::of(values.to_vec()));
        Difference { from: "A".into(), to: "B".into(), bands, draws: 10 }
    }

    #[test]
    fn verdicts_follow_the_band_of_the_difference() {
        let verdict = |values: &[f64]| difference(values).verdict(Figure::Rate);
        assert_eq!(verdict(&[0.0; 10]), Verdict::Same);
        assert_eq!(verdict(&[1.0; 10]), Verdict::More);
        assert_eq!(verdict(&[-1.0; 10]), Verdict::Less);
        assert_eq!(verdict(&[-1.0, -1.0, 0.5, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0]), Verdict::TooClose);
        assert_eq!(verdict(&[1.0; 4]), Verdict::Unknown);
        assert_eq!(verdict(&[]), Verdict::Unknown);
        assert_eq!(verdict(&[f64::NAN; 10]), Verdict::Unknown);
    }
}
