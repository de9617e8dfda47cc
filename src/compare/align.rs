//! Which part of one kit stands for which part of another.
//!
//! Parts with the same job (a core and a stem, an end and a ball valve) are paired, order is kept,
//! and the pairing with the least difference is taken.

use crate::kit::{Part, PartKind};

/// Places in two lists of parts; one of the two is none where a part stands alone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Pair {
    /// In the first list.
    pub first: Option<usize>,
    /// In the second.
    pub second: Option<usize>,
}

/// Cost of a part that stands alone.
const ALONE: u32 = 4;

/// Cost of a pair; none if they do different jobs.
fn cost(a: &Part, b: &Part) -> Option<u32> {
    if a == b {
        return Some(0);
    }
    if a.kind() == b.kind() {
        return Some(1);
    }
    same_job(a.kind(), b.kind()).then_some(2)
}

/// Whether two kinds stand in for each other.
pub fn same_job(a: PartKind, b: PartKind) -> bool {
    job(a) == job(b)
}

/// Kinds that stand in for each other.
fn job(kind: PartKind) -> u8 {
    match kind {
        PartKind::ValveCore | PartKind::Stem | PartKind::ServiceValve => 0,
        PartKind::Hose | PartKind::DipTube => 1,
        PartKind::SelfSealingEnd | PartKind::BallValve | PartKind::Valve => 2,
        PartKind::GaugeSet => 3,
        PartKind::FilterDrier => 4,
        PartKind::SightGlass => 5,
        PartKind::InletScreen => 6,
        PartKind::Adapter | PartKind::Tee => 7,
    }
}

/// Pairs the parts of two lists at the least cost.
///
/// # Source
/// Needleman and Wunsch 1970, alignment by dynamic programming.
pub fn align(first: &[Part], second: &[Part]) -> Vec<Pair> {
    let least = least_costs(first, second);
    let get = |i: usize, j: usize| least.get(i).and_then(|row| row.get(j)).copied().unwrap_or(u32::MAX);
    let mut pairs = Vec::with_capacity(first.len() + second.len());
    let (mut i, mut j) = (0, 0);
    while i < first.len() || j < second.len() {
        let together = first.get(i).zip(second.get(j)).and_then(|(a, b)| cost(a, b));
        if together.is_some_and(|cost| get(i, j) == get(i + 1, j + 1).saturating_add(cost)) {
            pairs.push(Pair { first: Some(i), second: Some(j) });
            (i, j) = (i + 1, j + 1);
        } else if i < first.len() && (j >= second.len() || get(i, j) == get(i + 1, j).saturating_add(ALONE)) {
            pairs.push(Pair { first: Some(i), second: None });
            i += 1;
        } else {
            pairs.push(Pair { first: None, second: Some(j) });
            j += 1;
        }
    }
    pairs
}

/// For every two places the least cost of pairing what follows.
fn least_costs(first: &[Part], second: &[Part]) -> Vec<Vec<u32>> {
    let alone = |count: usize| ALONE.saturating_mul(u32::try_from(count).unwrap_or(u32::MAX));
    let mut below: Vec<u32> = (0..=second.len()).map(|j| alone(second.len() - j)).collect();
    let mut rows = vec![below.clone()];
    for (i, a) in first.iter().enumerate().rev() {
        let mut row = vec![alone(first.len() - i)];
        for (j, b) in second.iter().enumerate().rev() {
            let at = |row: &[u32], j: usize| row.get(j).copied().unwrap_or(u32::MAX);
            // `row` grows from its end: its last entry belongs to the part behind `b`.
            let skip_first = at(&below, j).saturating_add(ALONE);
            let skip_second = row.last().copied().unwrap_or(u32::MAX).saturating_add(ALONE);
            let together = cost(a, b).map_or(u32::MAX, |cost| at(&below, j + 1).saturating_add(cost));
            row.push(skip_first.min(skip_second).min(together));
        }
        row.reverse();
        below.clone_from(&row);
        rows.push(row);
    }
    rows.reverse();
    rows
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::kit::{GaugeSet, Hole, Tube};
    use crate::units::Typed;

    fn mm(text: &str) -> Typed<uom::si::f64::Length> {
        Typed::parse(text).unwrap()
    }

    fn hose(feet: &str) -> Part {
        Part::Hose(Tube::new(mm("4.8 mm"), mm(feet)))
    }

    fn kit_a() -> Vec<Part> {
        let hole = |bore| Hole::new(mm(bore));
        let seats = GaugeSet {
            name: None,
            from: None,
            seats: 2,
            bore: mm("3.6 mm"),
            bore_band: None,
            discharge_coefficient: None,
            pressure_recovery: None,
            working_pressure: None,
        };
        vec![
            Part::ValveCore(hole("2.2 mm")),
            hose("5 ft"),
            Part::GaugeSet(seats),
            hose("3 ft"),
            Part::SelfSealingEnd(hole("2.6 mm")),
        ]
    }

    fn check(first: &[Part], second: &[Part], expected: &[(Option<usize>, Option<usize>)]) {
        let pairs: Vec<_> = align(first, second).iter().map(|pair| (pair.first, pair.second)).collect();
        assert_eq!(pairs, expected);
    }

    #[test]
    fn jobs_are_paired_and_order_is_kept() {
        let b =
            vec![Part::Stem(Hole::new(mm("4.2 mm"))), hose("5 ft"), Part::BallValve(Hole::new(mm("4.2 mm")))];
        let expected =
            [(Some(0), Some(0)), (Some(1), Some(1)), (Some(2), None), (Some(3), None), (Some(4), Some(2))];
        check(&kit_a(), &b, &expected);
        let turned: Vec<_> = expected.iter().map(|(first, second)| (*second, *first)).collect();
        check(&b, &kit_a(), &turned);
    }

    #[test]
    fn the_same_parts_are_paired_with_themselves() {
        check(&kit_a(), &kit_a(), &[0, 1, 2, 3, 4].map(|i| (Some(i), Some(i))));
        check(&kit_a(), &[], &[0, 1, 2, 3, 4].map(|i| (Some(i), None)));
        check(&[], &kit_a(), &[0, 1, 2, 3, 4].map(|i| (None, Some(i))));
        check(&[], &[], &[]);
    }
}
