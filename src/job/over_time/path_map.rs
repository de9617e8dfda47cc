//! What a path passes, drawn up once and looked up often.
//!
//! Marching a path costs tens of microseconds; a whole job asks some hundreds of times. So the
//! path's curve, outlet pressure against flow, is marched at a few source states and interpolated
//! between them. The source is described by its pressure and by what each port draws: vapour by
//! its quality, liquid by its saturation pressure and by how far it is pressed above that, as a share of it.
//! States are filled in as a job comes by, so only those near its course are ever marched. Between them
//! these are interpolated, all nearly straight:
//!
//! - `ln(largest flow/√(p ρ))` in `ln p` (cubic; for liquid, whose temperature hardly changes, a
//!   parabola) and quality (straight); for pressed liquid its square in the pressure, since that flow goes
//!   with the root of the pressure above saturation;
//! - outlet over source pressure (over the saturation pressure of pressed liquid) at fixed shares of the
//!   largest flow, `1 − (1 − s)²` for even `s`: closer together where the curve turns down to the choke.
//!
//! Against the march itself the largest flow agrees within 0.01 to 0.2 % for vapour and saturated
//! liquid and 1 % for pressed liquid, the outlet pressure within 0.6 % (2 %) of the source's; the
//! tests below print and bound it. Below four times the table's lowest pressure, or where a march
//! meets that floor, the scaled curve of the next higher pressure is kept.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;

use super::path_curve::{Curve, PathCurve, SAMPLES, add, between, share_of};
use crate::flow::{Arrival, Line, Medium, Method, Path, Point};
use crate::fluid::Refrigerant;
use crate::job::{JobError, Port};

/// Step in `ln p`.
const STEP: f64 = 0.5;
/// How fast nodes spread beside saturation, of vapour and of liquid.
const SPREAD: [f64; 2] = [0.6, 0.5];
/// A largest flow is sought from so much above what its neighbours tell, as a logarithm.
const ASIDE: f64 = 0.01;
/// The same where only one neighbour is known.
const FAR_ASIDE: f64 = 0.05;
/// First pressure at which the table's floor is out of the way of a choke.
const FIRST: i32 = 3;

/// A port's axis beside pressure: quality, or `p/p_sat − 1` of liquid. Nodes stand at
/// `base ± scale (e^(SPREAD i) − 1)`: close together next to saturation, where the flow begins to
/// flash or to stay dry.
#[derive(Debug, Clone, Copy)]
struct Axis {
    /// Quality at node 0.
    base: f64,
    scale: f64,
    spread: f64,
    is_liquid: bool,
}

impl Axis {
    fn of(port: Port) -> Self {
        let vapor = Self { base: 1.0, scale: 0.04, spread: SPREAD[0], is_liquid: false };
        match port {
            Port::Vapor => Self { base: 1.0, ..vapor },
            Port::Liquid => Self { base: 0.0, scale: 0.025, spread: SPREAD[1], is_liquid: true },
            Port::Mixed { vapor_ratio } => Self { base: vapor_ratio.value, ..vapor },
        }
    }

    /// How far a node stands from node 0.
    fn beside(&self, node: i32) -> f64 {
        let away = f64::from(node);
        self.scale * ((self.spread * away.abs()).exp() - 1.0) * away.signum()
    }

    /// The node below and the share of the next one; a hair beside a node counts as on it.
    fn place(&self, beside: f64) -> (i32, f64) {
        let along = (1.0 + beside.abs() / self.scale).ln() / self.spread * beside.signum();
        let nearest = along.round();
        if (along - nearest).abs() < 1e-7 {
            return (nearest as i32, 0.0);
        }
        let node = along.floor() as i32;
        let (low, high) = (self.beside(node), self.beside(node + 1));
        (node, (beside - low) / (high - low))
    }
}

type Key = (i32, i32, i32);

/// A path's curves on one refrigerant.
#[derive(Debug)]
pub(super) struct PathMap<'a> {
    refrigerant: &'a Refrigerant,
    method: Method,
    path: Path,
    axes: [Axis; 2],
    last: i32,
    curves: RefCell<BTreeMap<Key, Result<Curve, JobError>>>,
    /// The logarithm of the scaled largest flow found last.
    last_found: Cell<Option<f64>>,
}

/// What each port draws, by quality.
pub(super) type Qualities = [f64; 2];

impl<'a> PathMap<'a> {
    pub fn new(refrigerant: &'a Refrigerant, method: Method, path: Path, ports: (Port, Port)) -> Self {
        let reach = (refrigerant.highest_pressure_pa() / refrigerant.lowest_pressure_pa()).ln() / STEP;
        Self {
            refrigerant,
            method,
            path,
            axes: [Axis::of(ports.0), Axis::of(ports.1)],
            last: ((reach - 1e-9).floor() as i32).max(FIRST + 3),
            curves: RefCell::new(BTreeMap::new()),
            last_found: Cell::new(None),
        }
    }

    fn has_two_ports(&self) -> bool {
        self.path.second.is_some()
    }

    fn is_open(&self) -> bool {
        let none = |parts: &[crate::flow::PathPart]| parts.iter().all(|part| part.elements.is_empty());
        none(&self.path.parts) && !self.has_two_ports()
    }

    /// The path on a source at a pressure, its ports drawing these qualities.
    pub fn at(&self, source_pa: f64, qualities: Qualities) -> Result<PathCurve, JobError> {
        let isobar = self.refrigerant.saturation_at_pressure(source_pa)?;
        let enthalpy = |quality: f64| isobar.liquid_enthalpy_j_kg + quality * isobar.latent_heat_j_kg();
        let enthalpies = qualities.map(enthalpy);
        let open = Curve { log_largest: 0.0, pressure_ratio: [1.0; SAMPLES], second_ratio: [0.0; SAMPLES] };
        if self.is_open() {
            return Ok(PathCurve {
                base_pa: source_pa,
                largest_kg_s: f64::INFINITY,
                enthalpies,
                is_open: true,
                curve: open,
            });
        }
        let first = self.refrigerant.by_enthalpy(&isobar, enthalpies[0])?;
        let mut beside = [qualities[0] - self.axes[0].base, qualities[1] - self.axes[1].base];
        let mut base_pa = source_pa;
        if self.axes[0].is_liquid {
            if qualities[0] < -1e-9 {
                let liquid_k = self.refrigerant.state_ph_at(&isobar, enthalpies[0])?.temperature_k;
                base_pa = self.refrigerant.bubble_pressure_pa(liquid_k)?.min(source_pa);
            }
            beside[0] = source_pa / base_pa - 1.0;
        }
        if self.axes[1].is_liquid {
            // A second port meets liquid only where the contents are in equilibrium.
            beside[1] = 0.0;
        }
        let curve = self.interpolated(base_pa, beside)?;
        let scale = (base_pa / first.specific_volume_m3_kg).sqrt();
        let largest_kg_s = curve.log_largest.exp() * scale;
        Ok(PathCurve { base_pa, largest_kg_s, enthalpies, is_open: false, curve })
    }

    /// - `base_pa`: the pressure, less what liquid at the first port is pressed
    /// - `beside`: where each port stands on its axis
    fn interpolated(&self, base_pa: f64, beside: [f64; 2]) -> Result<Curve, JobError> {
        let along = (base_pa / self.refrigerant.lowest_pressure_pa()).ln() / STEP;
        // Liquid's pressure hardly changes with its temperature: three rows show how the curve bends.
        let wide = if self.axes[0].is_liquid { 3 } else { 4 };
        let start = (along.floor() as i32 - 1).min(self.last + 1 - wide).max(FIRST);
        let mut rows: Vec<(f64, Curve)> = Vec::with_capacity(4);
        let mut refused = None;
        // Rows at the ends of the table may have no answer: the others must do.
        for row in (start..start + wide).chain(start + wide..=self.last).chain((FIRST..start).rev()) {
            let is_far = !(start..start + wide).contains(&row);
            if is_far && !rows.is_empty() {
                break;
            }
            match self.across(row, beside) {
                Ok(curve) => rows.push((f64::from(row), curve)),
                Err(error) => refused = Some(error),
            }
        }
        let Some(lowest) = rows.iter().map(|(row, _)| *row).reduce(f64::min) else {
            let floor_pa = self.refrigerant.lowest_pressure_pa();
            return Err(refused.unwrap_or(JobError::BelowTable { floor_pa }));
        };
        let along = along.max(lowest);
        let mut mixed = Curve::ZERO;
        for (row, curve) in &rows {
            let others = rows.iter().filter(|(other, _)| other != row);
            let weight: f64 = others.map(|(other, _)| (along - other) / (row - other)).product();
            add(&mut mixed, curve, weight);
        }
        Ok(mixed)
    }

    /// Between the nodes of the first port's axis, at one of the map's pressures.
    fn across(&self, row: i32, beside: [f64; 2]) -> Result<Curve, JobError> {
        let (first, share) = self.axes[0].place(beside[0]);
        let near = self.across_second(row, first, beside[1]);
        if share == 0.0 {
            return near;
        }
        // At the edge of the table one neighbour must do.
        match (near, self.across_second(row, first + 1, beside[1])) {
            (Ok(near), Ok(far)) => Ok(between(&near, &far, share, self.axes[0].is_liquid)),
            (Ok(only), Err(_)) | (Err(_), Ok(only)) => Ok(only),
            (Err(error), Err(_)) => Err(error),
        }
    }

    fn across_second(&self, row: i32, first: i32, beside: f64) -> Result<Curve, JobError> {
        if !self.has_two_ports() {
            return self.curve((row, first, 0));
        }
        let (second, share) = self.axes[1].place(beside);
        let near = self.curve((row, first, second));
        if share == 0.0 {
            return near;
        }
        match (near, self.curve((row, first, second + 1))) {
            (Ok(near), Ok(far)) => Ok(between(&near, &far, share, self.axes[1].is_liquid)),
            (Ok(only), Err(_)) | (Err(_), Ok(only)) => Ok(only),
            (Err(error), Err(_)) => Err(error),
        }
    }

    fn curve(&self, key: Key) -> Result<Curve, JobError> {
        if let Some(curve) = self.curves.borrow().get(&key) {
            return curve.clone();
        }
        let curve = self.march(key);
        self.curves.borrow_mut().insert(key, curve.clone());
        curve
    }

    /// How many curves have been marched.
    #[cfg(test)]
    pub fn marched(&self) -> usize {
        self.curves.borrow().len()
    }

    /// A little more than the logarithm of the scaled largest flow, from the nodes beside this one.
    fn guess(&self, (row, first, second): Key) -> Option<f64> {
        let curves = self.curves.borrow();
        let known = |rows: i32, firsts: i32| {
            let curve = curves.get(&(row + rows, first + firsts, second))?;
            curve.as_ref().ok().map(|curve| curve.log_largest)
        };
        let across = [(-1, -1), (-1, 1), (1, -1), (1, 1)]
            .into_iter()
            .find_map(|(rows, firsts)| Some(known(rows, 0)? + known(0, firsts)? - known(rows, firsts)?));
        let straight = |sign: i32| Some(2.0 * known(sign, 0)? - known(2 * sign, 0)?);
        let nearest =
            || known(-1, 0).or_else(|| known(1, 0)).or_else(|| known(0, -1)).or_else(|| known(0, 1));
        let guess = across.or_else(|| straight(-1)).or_else(|| straight(1)).map(|near| near + ASIDE);
        guess.or_else(|| Some(nearest().or(self.last_found.get())? + FAR_ASIDE))
    }

    fn march(&self, (row, first, second): Key) -> Result<Curve, JobError> {
        let refrigerant = self.refrigerant;
        let base_pa = (refrigerant.lowest_pressure_pa() * (f64::from(row) * STEP).exp())
            .min(refrigerant.highest_pressure_pa());
        let base = refrigerant.saturation_at_pressure(base_pa)?;
        let is_pressed = self.axes[0].is_liquid && first != 0;
        let source_pa = if is_pressed { base_pa * (1.0 + self.axes[0].beside(first)) } else { base_pa };
        let isobar = refrigerant.saturation_at_pressure(source_pa)?;
        let point = |axis: &Axis, node: i32| -> Result<Point, JobError> {
            if axis.is_liquid {
                return Ok(refrigerant.by_enthalpy(&isobar, base.liquid_enthalpy_j_kg)?);
            }
            let quality = axis.base + axis.beside(node);
            let enthalpy = isobar.liquid_enthalpy_j_kg + quality * isobar.latent_heat_j_kg();
            Ok(refrigerant.by_enthalpy(&isobar, enthalpy)?)
        };
        let ends = [point(&self.axes[0], first)?, point(&self.axes[1], second)?];
        let line = Line::new(refrigerant, self.method, &self.path, ends[0], ends[1])?;
        let scale = (base_pa / ends[0].specific_volume_m3_kg).sqrt();
        let mut up_to = self.guess((row, first, second)).map_or(1e-5, f64::exp) * scale;
        let mut largest = None;
        for round in 0..20 {
            largest = line.largest_flow(up_to)?;
            if largest.is_some() {
                break;
            }
            up_to *= 1.1 + 0.5 * f64::from(round).powi(2);
        }
        let (largest_kg_s, end_pa) = match largest {
            Some(largest) => (largest.mass_flow_kg_s, Some(largest.outlet_pressure_pa)),
            None => (up_to, None),
        };
        self.last_found.set(Some((largest_kg_s / scale).ln()));
        let mut curve = Curve {
            log_largest: (largest_kg_s / scale).ln(),
            pressure_ratio: [1.0; SAMPLES],
            second_ratio: [0.0; SAMPLES],
        };
        for index in 0..SAMPLES {
            let before = if index == 0 { source_pa / base_pa } else { curve.pressure_ratio[index - 1] };
            let share = share_of(index as f64 / (SAMPLES - 1) as f64);
            let (pressure, enthalpy) = match (index + 1 == SAMPLES, end_pa) {
                (true, Some(end_pa)) => (end_pa / base_pa, line.outlet_enthalpy_j_kg(largest_kg_s)?),
                _ => match line.arrival(share * largest_kg_s)? {
                    Arrival::Arrives(end) => (end.pressure_pa / base_pa, end.enthalpy_j_kg),
                    Arrival::TooMuch(_) => (before, ends[0].enthalpy_j_kg),
                },
            };
            curve.pressure_ratio[index] = pressure;
            let span = ends[1].enthalpy_j_kg - ends[0].enthalpy_j_kg;
            curve.second_ratio[index] = match self.has_two_ports() {
                true if span.abs() > 1.0 => ((enthalpy - ends[0].enthalpy_j_kg) / span).clamp(0.0, 1.0),
                true => 0.5,
                false => 0.0,
            };
        }
        Ok(curve)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::flow::{Element, PathPart, Restriction, Tube};
    use uom::si::f64::{Length, Ratio};
    use uom::si::length::{foot, millimeter};
    use uom::si::ratio::ratio;

    fn hole(mm: f64, coefficient: f64) -> PathPart {
        let one = Ratio::new::<ratio>(1.0);
        let coefficient = Ratio::new::<ratio>(coefficient);
        let hole = Restriction::from_hole(Length::new::<millimeter>(mm), coefficient, one);
        PathPart { elements: vec![Element::Restriction(hole.unwrap())] }
    }

    fn hose(mm: f64, feet: f64) -> PathPart {
        let length = Length::new::<millimeter>;
        let tube = Tube::new(length(mm), Length::new::<foot>(feet), length(0.01), length(0.0));
        PathPart { elements: vec![Element::Tube(tube.unwrap())] }
    }

    fn kit(name: char) -> Path {
        Path::series(match name {
            'A' => vec![hole(2.2, 0.7), hose(4.8, 5.0), hole(3.6, 0.8), hose(4.8, 3.0), hole(2.6, 0.8)],
            _ => vec![hole(4.8, 0.8), hose(8.0, 5.0), hole(7.0, 0.8)],
        })
    }

    /// The worst relative miss of largest flow and of outlet pressure against the march itself.
    fn worst(refrigerant: &str, path: &Path, port: Port, states: &[(f64, f64)]) -> (f64, f64) {
        let refrigerant = Refrigerant::load(refrigerant).unwrap();
        let map = PathMap::new(&refrigerant, Method::default(), path.clone(), (port, port));
        let mut worst = (0.0_f64, 0.0_f64);
        for &(pressure_pa, quality) in states {
            let at = refrigerant.saturation_at_pressure(pressure_pa).unwrap();
            let enthalpy = at.liquid_enthalpy_j_kg + quality * at.latent_heat_j_kg();
            let point = refrigerant.by_enthalpy(&at, enthalpy).unwrap();
            let line = Line::new(&*refrigerant, Method::default(), path, point, point).unwrap();
            let curve = map.at(pressure_pa, [quality; 2]).unwrap();
            let largest = line.largest_flow(3.0 * curve.largest_kg_s).unwrap().unwrap();
            let miss = curve.largest_kg_s / largest.mass_flow_kg_s - 1.0;
            worst.0 = worst.0.max(miss.abs());
            for place in [0.11, 0.37, 0.63, 0.81, 0.93] {
                let flow = share_of(place) * largest.mass_flow_kg_s;
                let Arrival::Arrives(end) = line.arrival(flow).unwrap() else { panic!("{place}") };
                worst.1 = worst.1.max(((curve.outlet_pa(place) - end.pressure_pa) / pressure_pa).abs());
            }
        }
        println!(
            "{port:?}: largest flow {:.1e}, outlet pressure {:.1e}, {} curves",
            worst.0,
            worst.1,
            map.marched()
        );
        worst
    }

    #[test]
    fn vapour_wet_and_dry() {
        let states: Vec<(f64, f64)> = (0..14)
            .map(|i| (1.6e6 * 0.77_f64.powi(i), 1.0 + 0.017 * f64::from(i)))
            .chain((0..10).map(|i| (1.05e6 * 0.8_f64.powi(i), 1.0)))
            .collect();
        for (refrigerant, name) in [("R-22", 'A'), ("R-410A", 'C'), ("R-407C", 'A')] {
            let worst = worst(refrigerant, &kit(name), Port::Vapor, &states);
            assert!(worst.0 < 3e-3 && worst.1 < 8e-3, "{refrigerant} {name}: {worst:?}");
        }
    }

    #[test]
    fn liquid_saturated_and_pressed() {
        let states: Vec<(f64, f64)> = (0..8)
            .map(|i| (1.3e6 * 0.9_f64.powi(i), 0.0))
            .chain((0..8).map(|i| (1.2e6, -0.013 * f64::from(i))))
            .collect();
        for (refrigerant, name) in [("R-22", 'A'), ("R-410A", 'C')] {
            let worst = worst(refrigerant, &kit(name), Port::Liquid, &states);
            assert!(worst.0 < 1e-2 && worst.1 < 2e-2, "{refrigerant} {name}: {worst:?}");
        }
    }
}
