//! The chain of parts with the pressure stairs beneath, sharing its columns.
//!
//! A hole is a step, a length is a slope. The axis starts at zero; an empty stretch is folded away
//! and its amount printed. The branch of a second port is not drawn: the table has it.

use uom::si::f64::Pressure;
use uom::si::pressure::pascal;

use super::{Anchor, Dash, Item, LETTER, Picture, Tone, WIDTH, text_width};
use crate::job::{OperatingPoint, PartPoint, Port};
use crate::kit::{Kit, Part};
use crate::report::drawing::axis::{Axis, Fixed};
use crate::report::drawing::{BOX, Ink, Symbol, symbol_of};
use crate::report::solved::SolvedKit;
use crate::scenario::Document;
use crate::units::UnitSet;

/// Whether parts are cut open along their bore, with the stairs, or shown whole without them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::report::pages) enum Cut {
    /// Cut open.
    Open,
    /// Whole: nothing of the inside shows.
    Whole,
}

const LEFT: f32 = 48.0;
const RIGHT: f32 = WIDTH - 30.0;
const TOP: f32 = 122.0;
const BOTTOM: f32 = 350.0;
/// Largest symbol.
const SYMBOL: f32 = 74.0;
/// Middle of the chain.
const CHAIN_Y: f32 = 46.0;
/// A loss below this share of the whole is not printed.
const PRINTED_RATIO: f64 = 0.03;

/// The drawing of a kit; without an operating point that may be shown, its chain only.
pub(in crate::report::pages) fn bench(
    document: &Document,
    kit: &Kit,
    solved: &SolvedKit,
    units: UnitSet,
    cut: Cut,
) -> Picture {
    let columns = Columns { count: kit.parts.len() + document.discharge.len() + 3 };
    let point = solved.shown_point().ok().filter(|_| cut == Cut::Open);
    let what = if point.is_some() { "with the pressure lost in each part" } else { "as a chain of parts" };
    let height = if point.is_some() { BOTTOM + 22.0 } else { TOP - 8.0 };
    let mut picture = Picture::new(format!("Kit {}, {what}", kit.name), height);
    chain(&mut picture, columns, document, kit, solved, cut);
    if let Some(point) = point {
        stairs(&mut picture, &Drawn { columns, document, kit, point, solved, units });
    }
    picture
}

/// Equal columns from the system to the cylinder.
#[derive(Debug, Clone, Copy)]
struct Columns {
    count: usize,
}

impl Columns {
    fn width(self) -> f32 {
        (RIGHT - LEFT) / self.count.max(1) as f32
    }

    fn span(self, at: usize) -> (f32, f32) {
        let left = LEFT + self.width() * at as f32;
        (left, left + self.width())
    }

    fn middle(self, at: usize) -> f32 {
        LEFT + self.width() * (at as f32 + 0.5)
    }
}

fn chain(
    picture: &mut Picture,
    columns: Columns,
    document: &Document,
    kit: &Kit,
    solved: &SolvedKit,
    cut: Cut,
) {
    let is_liquid = !matches!(solved.kit.setup.source.first, Port::Vapor);
    let count = kit.parts.len();
    let mut symbols = vec![(Symbol::Vessel { liquid_ratio: 0.4 }, "System".to_owned(), is_liquid)];
    let number = |at: usize| (at + 1).to_string();
    symbols.extend(kit.parts.iter().enumerate().map(|(i, part)| (symbol_of(part), number(i), is_liquid)));
    symbols.push((Symbol::Machine, "Machine".to_owned(), false));
    let discharge = document.discharge.iter().enumerate();
    symbols.extend(discharge.map(|(i, part)| (symbol_of(part), number(count + i), true)));
    symbols.push((Symbol::Cylinder { liquid_ratio: 0.5 }, "Cylinder".to_owned(), true));
    let size = SYMBOL.min(columns.width() - 4.0).max(18.0);
    for (at, (symbol, label, liquid)) in symbols.into_iter().enumerate() {
        let (left, right) = columns.span(at);
        draw(picture, symbol, (left, right), size, liquid, cut);
        picture.bold(((left + right) / 2.0, CHAIN_Y + SYMBOL / 2.0 + 18.0), label, Anchor::Middle);
    }
}

/// One symbol in its column, the pipe beside it drawn too.
fn draw(picture: &mut Picture, symbol: Symbol, x: (f32, f32), size: f32, liquid: bool, cut: Cut) {
    let width = x.1 - x.0;
    let mut put = |symbol: Symbol, left: f32, wide: f32| {
        let mut shapes = symbol.shapes(wide * BOX / size, size < 40.0);
        if cut == Cut::Whole {
            shapes.retain(|shape| !matches!(shape.ink(), Ink::Fluid | Ink::Liquid));
        }
        let at = (left, CHAIN_Y - size / 2.0);
        picture.items.push(Item::Symbol { shapes, at, size, liquid });
    };
    let side = (width - size) / 2.0;
    if symbol.fills_column() || side < 0.5 {
        put(symbol, x.0, width);
        return;
    }
    if !matches!(symbol, Symbol::Vessel { .. }) {
        put(Symbol::Pipe, x.0, side);
    }
    if !matches!(symbol, Symbol::Cylinder { .. }) {
        put(Symbol::Pipe, x.1 - side, side);
    }
    put(symbol, x.0 + side, size);
}

struct Drawn<'a> {
    columns: Columns,
    document: &'a Document,
    kit: &'a Kit,
    point: &'a OperatingPoint,
    solved: &'a SolvedKit,
    units: UnitSet,
}

impl Drawn<'_> {
    /// Parts with their column, before the machine and after it.
    fn parts(&self) -> impl Iterator<Item = (usize, &Part, &PartPoint)> + Clone {
        let behind = self.kit.parts.len() + 2;
        let before = self.kit.parts.iter().zip(&self.point.parts).enumerate();
        let after = self.document.discharge.iter().zip(&self.point.discharge_parts).enumerate();
        before
            .map(|(i, (part, point))| (i + 1, part, point))
            .chain(after.map(move |(i, (part, point))| (i + behind, part, point)))
    }

    fn text(&self, pressure: Pressure) -> String {
        self.units.pressure(pressure, self.solved.kit.setup.ambient.pressure)
    }

    /// Pascals in a unit of the axis, and the names of absolute and lost pressure.
    fn unit(&self) -> (f64, &'static str, &'static str) {
        let unit = self.units.pressure;
        (unit.size_si(), unit.absolute(), unit.name())
    }

    fn on(&self, pressure: Pressure) -> f64 {
        pressure.get::<pascal>() / self.unit().0
    }
}

fn levels_of(part: &PartPoint) -> Vec<Pressure> {
    let ends = [part.inlet_pressure];
    ends.into_iter().chain(part.between.iter().copied()).chain([part.outlet_pressure]).collect()
}

fn stairs(picture: &mut Picture, drawn: &Drawn) {
    let (_, absolute, difference) = drawn.unit();
    let air = drawn.on(drawn.solved.kit.setup.ambient.pressure);
    let point = drawn.point;
    let mut levels = vec![air, drawn.on(point.system_pressure), drawn.on(point.machine.discharge_pressure)];
    levels.push(drawn.on(point.cylinder_pressure));
    levels.extend(drawn.parts().flat_map(|(_, _, part)| levels_of(part)).map(|level| drawn.on(level)));
    let losses: Vec<(f64, f64)> = drawn
        .parts()
        .map(|(_, _, part)| (drawn.on(part.inlet_pressure), drawn.on(part.outlet_pressure)))
        .collect();
    let axis = Axis::new(&levels, &losses, TOP..=BOTTOM, true, Fixed::TALL);
    grid(picture, drawn.columns, &axis, absolute);
    for (fold, y) in axis.folds() {
        let words = format!("{:.0} {difference} folded away", fold.to - fold.from);
        picture.fold((LEFT, RIGHT), (y.upper, y.lower), &words);
    }
    let y = axis.y(air);
    picture.line(&[(LEFT, y), (RIGHT, y)], Tone::Ink, 1.0, Dash::Reference);
    let zero = "dash-dot line: 0 on the gauge, the air outside";
    picture.text((RIGHT, BOTTOM + 15.0), zero, Anchor::End);
    line(picture, drawn, &axis);
    ends(picture, drawn, &axis);
}

fn grid(picture: &mut Picture, columns: Columns, axis: &Axis, unit: &str) {
    for at in 1..columns.count {
        let x = columns.span(at).0;
        picture.line(&[(x, TOP), (x, BOTTOM)], Tone::Rule, 0.6, Dash::Solid);
    }
    for tick in axis.ticks(0.0, 24.0) {
        let y = axis.y(tick);
        picture.line(&[(LEFT, y), (RIGHT, y)], Tone::Rule, 0.6, Dash::Solid);
        picture.text((LEFT - 5.0, y + 4.5), crate::report::drawing::ticks::short(tick), Anchor::End);
    }
    picture.text((4.0, TOP - 6.0), unit, Anchor::Start);
    picture.line(&[(LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM)], Tone::Ink, 1.0, Dash::Solid);
}

/// The level from the system to the cylinder, with losses and the machine's lift.
fn line(picture: &mut Picture, drawn: &Drawn, axis: &Axis) {
    let y = |pressure: Pressure| axis.y(drawn.on(pressure));
    let whole = drawn.on(drawn.point.system_pressure - drawn.point.machine_inlet_pressure).max(1e-9);
    let source = drawn.columns.span(0);
    let start = y(drawn.point.system_pressure);
    let mut track = vec![(source.0, start), (source.1, start)];
    let mut joints = vec![(source.1, start)];
    let machine = drawn.kit.parts.len() + 1;
    let mut behind = Vec::new();
    let mut said = Vec::new();
    for (column, part, point) in drawn.parts() {
        let x = drawn.columns.span(column);
        let track = if column < machine { &mut track } else { &mut behind };
        let levels: Vec<f32> = levels_of(point).into_iter().map(y).collect();
        if part.tube().is_some() {
            slope(picture, track, x, &levels);
        } else {
            steps(picture, track, x, &levels, point.choked);
        }
        joints.extend(track.last().copied());
        let loss = drawn.on(point.drop());
        if loss >= PRINTED_RATIO * whole {
            said.push(((x.0 + x.1) / 2.0, levels.last().copied().unwrap_or(0.0), loss, point.choked));
        }
    }
    lift(picture, drawn, axis, machine);
    let cylinder = drawn.columns.span(machine + drawn.document.discharge.len() + 1);
    let end = y(drawn.point.cylinder_pressure);
    let leaves = behind.last().map_or(y(drawn.point.machine.discharge_pressure), |last| last.1);
    let out = (drawn.columns.middle(machine), y(drawn.point.machine.discharge_pressure));
    behind.insert(0, out);
    behind.extend([(cylinder.0, leaves), (cylinder.0, end), (cylinder.1, end)]);
    track.push((drawn.columns.middle(machine), y(drawn.point.machine_inlet_pressure)));
    for track in [&track, &behind] {
        picture.line(track, Tone::Level, 3.2, Dash::Solid);
    }
    for at in joints {
        picture.items.push(Item::Ring { at, filled: false });
    }
    for (x, low, loss, is_choked) in said {
        let words = drawn.units.number(loss);
        let (half, top) = (text_width(&words) / 2.0, low + 6.0);
        picture.rect((x - half, x + half), (top, top + LETTER + 1.0), Tone::Sheet);
        picture.tinted((x, low + 6.0 + LETTER - 1.5), words, Anchor::Middle, Tone::Fall, true);
        if is_choked {
            picture.bold((x + 15.0, low - 8.0), "CHOKED", Anchor::Start);
        }
    }
}

fn slope(picture: &mut Picture, track: &mut Vec<(f32, f32)>, x: (f32, f32), levels: &[f32]) {
    let (Some(&first), Some(&last)) = (levels.first(), levels.last()) else { return };
    // What rises, as liquid that falls in a tube, is no loss.
    if last - first > 1.0 {
        picture.hatch(&[(x.0, first), (x.1, last), (x.0, last)]);
    }
    track.extend([(x.0, first), (x.1, last)]);
}

/// Steps at equal distances: one a hole, as many as there are seats.
fn steps(picture: &mut Picture, track: &mut Vec<(f32, f32)>, x: (f32, f32), levels: &[f32], is_choked: bool) {
    let count = levels.len().saturating_sub(1);
    track.extend(levels.first().map(|first| (x.0, *first)));
    for (step, pair) in levels.windows(2).enumerate() {
        let [from, to] = *pair else { continue };
        let at = x.0 + (x.1 - x.0) * (step as f32 + 1.0) / (count as f32 + 1.0);
        if to - from > 1.0 {
            picture.hatch(&[(at - 8.0, from), (at, from), (at, to), (at - 8.0, to)]);
        }
        track.extend([(at, from), (at, to)]);
        if is_choked && step + 1 == count {
            for bar in [4.0, 9.0] {
                picture.line(&[(at + bar, from - 4.0), (at + bar, to + 4.0)], Tone::Ink, 2.5, Dash::Solid);
            }
        }
    }
    track.extend(levels.last().map(|last| (x.1, *last)));
}

fn lift(picture: &mut Picture, drawn: &Drawn, axis: &Axis, machine: usize) {
    let x = drawn.columns.middle(machine);
    let low = axis.y(drawn.on(drawn.point.machine_inlet_pressure));
    let high = axis.y(drawn.on(drawn.point.machine.discharge_pressure));
    for side in [-5.0, 5.0] {
        picture.line(&[(x + side, low), (x + side, high)], Tone::Level, 1.5, Dash::Solid);
    }
    let middle = (low + high) / 2.0;
    if (low - high).abs() > 24.0 {
        let up = if high < low { -5.0 } else { 5.0 };
        picture.area(&[(x - 4.0, middle), (x + 4.0, middle), (x, middle + 2.0 * up)], Tone::Level);
    }
}

/// Gauge readings at the ends.
fn ends(picture: &mut Picture, drawn: &Drawn, axis: &Axis) {
    let point = drawn.point;
    let y = |pressure: Pressure| axis.y(drawn.on(pressure));
    let x = drawn.columns.middle(drawn.kit.parts.len() + 1);
    let mut put = |at: (f32, f32), words: String, anchor: Anchor| {
        let wide = text_width(&words) + 6.0;
        let left = match anchor {
            Anchor::Start => at.0,
            Anchor::Middle => at.0 - wide / 2.0,
            Anchor::End => at.0 - wide,
        };
        picture.rect((left, left + wide), (at.1 - LETTER, at.1 + 3.0), Tone::Sheet);
        picture.bold(at, words, anchor);
    };
    put((LEFT + 5.0, y(point.system_pressure) - 8.0), drawn.text(point.system_pressure), Anchor::Start);
    let inlet = drawn.text(point.machine_inlet_pressure);
    put((x + 10.0, y(point.machine_inlet_pressure) + 4.5), inlet, Anchor::Start);
    let discharge = y(point.machine.discharge_pressure).max(TOP + 14.0);
    put((x - 10.0, discharge - 4.0), drawn.text(point.machine.discharge_pressure), Anchor::End);
    let cylinder = drawn.text(point.cylinder_pressure);
    if cylinder != drawn.text(point.machine.discharge_pressure) {
        put((WIDTH - 2.0, y(point.cylinder_pressure) + 18.0), cylinder, Anchor::End);
    }
}
