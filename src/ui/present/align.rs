//! Lines the parts of several kits up in common columns, so that their stairs can be overlaid.
//!
//! Parts with the same job (a core and a stem, an end and a ball valve) share a column; what only
//! one kit has stands in a column of its own. Order within each kit is kept.

use narrows::compare::same_job;
use narrows::kit::{Kit, PartKind};

/// For each column and each kit the place of the kit's part, or none.
///
/// `first` is the kit whose parts make the columns; with `alone` no other kit adds any.
pub fn columns(kits: &[Kit], first: usize, alone: bool) -> Vec<Vec<Option<usize>>> {
    let kinds: Vec<Vec<PartKind>> = kits.iter().map(|k| k.parts.iter().map(|p| p.kind()).collect()).collect();
    let mut columns: Vec<Column> = Vec::new();
    if let Some(own) = kinds.get(first) {
        columns = own.iter().enumerate().map(|(i, &kind)| Column::new(kits.len(), first, i, kind)).collect();
    }
    if !alone {
        for (kit, own) in kinds.iter().enumerate().filter(|(kit, _)| *kit != first) {
            columns = merge(columns, kit, own, kits.len());
        }
    }
    columns.into_iter().map(|c| c.places).collect()
}

struct Column {
    kind: PartKind,
    places: Vec<Option<usize>>,
}

impl Column {
    fn new(kits: usize, kit: usize, place: usize, kind: PartKind) -> Self {
        let mut places = vec![None; kits];
        if let Some(slot) = places.get_mut(kit) {
            *slot = Some(place);
        }
        Self { kind, places }
    }
}

/// Cost of a part or a column that stands alone.
const GAP: u32 = 3;

/// Cost of two kinds in one column; none if they do different jobs.
fn cost(a: PartKind, b: PartKind) -> Option<u32> {
    if a == b {
        return Some(0);
    }
    same_job(a, b).then_some(1)
}

/// Puts one kit's parts into the columns at the least cost (alignment by dynamic programming,
/// Needleman and Wunsch 1970).
fn merge(columns: Vec<Column>, kit: usize, parts: &[PartKind], kits: usize) -> Vec<Column> {
    let (n, m) = (columns.len(), parts.len());
    let width = m + 1;
    let mut best = vec![0u32; (n + 1) * width];
    let at = |i: usize, j: usize| i * width + j;
    for i in (0..=n).rev() {
        for j in (0..=m).rev() {
            let get = |i: usize, j: usize| best.get(at(i, j)).copied().unwrap_or(u32::MAX);
            let mut least = if i == n && j == m { 0 } else { u32::MAX };
            if i < n {
                least = least.min(get(i + 1, j).saturating_add(GAP));
            }
            if j < m {
                least = least.min(get(i, j + 1).saturating_add(GAP));
            }
            if let (Some(column), Some(part)) = (columns.get(i), parts.get(j))
                && let Some(pair) = cost(column.kind, *part)
            {
                least = least.min(get(i + 1, j + 1).saturating_add(pair));
            }
            if let Some(slot) = best.get_mut(at(i, j)) {
                *slot = least;
            }
        }
    }
    let get = |i: usize, j: usize| best.get(at(i, j)).copied().unwrap_or(u32::MAX);
    let mut merged = Vec::with_capacity(n + m);
    let (mut i, mut j) = (0, 0);
    let mut columns = columns.into_iter();
    while i < n || j < m {
        let kind = columns.as_slice().first().map(|c| c.kind);
        let pair = kind.zip(parts.get(j).copied()).and_then(|(a, b)| cost(a, b));
        if pair.is_some_and(|c| get(i, j) == get(i + 1, j + 1).saturating_add(c)) {
            if let Some(mut column) = columns.next() {
                if let Some(slot) = column.places.get_mut(kit) {
                    *slot = Some(j);
                }
                merged.push(column);
            }
            (i, j) = (i + 1, j + 1);
        } else if j < m && get(i, j) == get(i, j + 1).saturating_add(GAP) {
            if let Some(&kind) = parts.get(j) {
                merged.push(Column::new(kits, kit, j, kind));
            }
            j += 1;
        } else {
            merged.extend(columns.next());
            i += 1;
        }
    }
    merged
}

#[cfg(test)]
mod tests {
    use narrows::kit::{GaugeSet, Hole, Part, Tube};
    use narrows::units::Typed;

    use super::*;

    fn hole() -> Hole {
        Hole::new(Typed::parse("3 mm").unwrap())
    }

    fn hose() -> Part {
        let tube = Tube::new(Typed::parse("4.8 mm").unwrap(), Typed::parse("5 ft").unwrap());
        Part::Hose(tube)
    }

    fn gauges() -> Part {
        let set = GaugeSet {
            name: None,
            from: None,
            seats: 2,
            bore: Typed::parse("3.6 mm").unwrap(),
            bore_band: None,
            discharge_coefficient: None,
            pressure_recovery: None,
            working_pressure: None,
        };
        Part::GaugeSet(set)
    }

    fn kits() -> Vec<Kit> {
        let a = vec![Part::ValveCore(hole()), hose(), gauges(), hose(), Part::SelfSealingEnd(hole())];
        let b = vec![Part::Stem(hole()), hose(), Part::BallValve(hole())];
        vec![Kit::new("A", a), Kit::new("B", b)]
    }

    /// By hand: core with stem, hose with hose, end with ball valve.
    #[test]
    fn parts_with_the_same_job_share_a_column() {
        let got = columns(&kits(), 0, false);
        assert_eq!(got.first(), Some(&vec![Some(0), Some(0)]));
        assert_eq!(got.last(), Some(&vec![Some(4), Some(2)]));
        assert_eq!(got.len(), 5);
    }

    #[test]
    fn whatever_kit_comes_first_every_part_has_its_column_in_order() {
        for first in 0..2 {
            let got = columns(&kits(), first, false);
            for (kit, count) in [(0, 5), (1, 3)] {
                let places: Vec<usize> = got.iter().filter_map(|c| c[kit]).collect();
                assert_eq!(places, (0..count).collect::<Vec<_>>());
            }
        }
        assert_eq!(columns(&kits(), 1, true).len(), 3);
        assert!(columns(&[], 3, false).is_empty());
    }
}
