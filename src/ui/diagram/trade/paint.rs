//! Painting of the machine on its way and of the two curves under it.

use egui::{Align2, Painter, Pos2, Rangef, Rect, Stroke, StrokeKind, pos2, vec2};

use super::{Layout, Spot, Trade};
use crate::ui::diagram::axis::{Axis, Fixed};
use crate::ui::diagram::lines;
use crate::ui::diagram::ticks::short;
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::{PaintSymbol as _, Symbol, Tints};

pub(super) fn paint(
    painter: &Painter,
    rect: Rect,
    trade: &Trade,
    layout: &Layout,
    focused: bool,
    look: &Look,
) {
    let rate = Lane {
        title: format!("Rate, {}", trade.rate_unit),
        unit: &trade.rate_unit,
        y: layout.rate,
        of: |spot| spot.rate,
        references: &[],
    };
    let volts = Lane {
        title: "Volts at the running motor".to_owned(),
        unit: "V",
        y: layout.volts,
        of: |spot| spot.running,
        references: &trade.references,
    };
    // The machine's place runs through all of it; the curves lie over it.
    plumb_lines(painter, trade, layout, look);
    for lane in [&rate, &volts] {
        curve(painter, trade, layout, lane, look);
    }
    foot(painter, trade, layout, look);
    way(painter, trade, layout, look);
    if focused {
        let stroke = Stroke::new(look.measures.focus_line(), look.palette.ink);
        painter.rect_stroke(rect.shrink(1.0), 0.0, stroke, StrokeKind::Inside);
    }
}

/// From the system by the hose to the machine, from there by the cord to the receptacle.
fn way(painter: &Painter, trade: &Trade, layout: &Layout, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let tints = Tints::new(p, trade.fluid, trade.stale);
    let side = layout.side;
    let y = layout.way.center().y;
    let at = hose_at(trade, layout, trade.at);
    let (left, right) = layout.x.pixels;
    let square = |center: f32| Rect::from_center_size(pos2(center, y), vec2(side, side));
    let hose = Rangef::new(left - side / 2.0, at - side / 2.0);
    if hose.span() > 1.0 {
        let area = Rect::from_x_y_ranges(hose, Rangef::new(y - side / 2.0, y + side / 2.0));
        Symbol::Hose { bore_mm: trade.bore_mm }.paint(painter, area, side, tints);
    }
    let cord = Rangef::new(at + side / 2.0, right + side / 2.0);
    if cord.span() > 1.0 {
        for off in [-2.5, 2.5] {
            painter.hline(cord, y + off * m.line, Stroke::new(2.0 * m.line, tints.wall));
        }
    }
    Symbol::Vessel { liquid_ratio: 0.4 }.paint(painter, square(left - side), side, tints);
    trade.outlet.unwrap_or(Symbol::Receptacle).paint(painter, square(right + side), side, tints);
    Symbol::Machine.paint(painter, square(at), side, tints);
    let [hose, cord] = &trade.lengths;
    let font = fonts::bold(m.body);
    let y = layout.lengths.center().y;
    painter.text(pos2(left - side * 1.5, y), Align2::LEFT_CENTER, hose, font.clone(), p.ink);
    painter.text(pos2(right + side * 1.5, y), Align2::RIGHT_CENTER, cord, font, p.ink);
}

fn hose_at(trade: &Trade, layout: &Layout, at: usize) -> f32 {
    layout.x.at(trade.spots.get(at).map_or(0.0, |spot| spot.hose))
}

/// Down from the machine, and down from where it stands today.
fn plumb_lines(painter: &Painter, trade: &Trade, layout: &Layout, look: &Look) {
    let y = Rangef::new(layout.way.center().y, layout.axis);
    if trade.at != trade.today {
        let x = hose_at(trade, layout, trade.today);
        lines::ghost(painter, vec![pos2(x, layout.lengths.bottom()), pos2(x, y.max)], look);
    }
    painter.vline(hose_at(trade, layout, trade.at), y, look.hairline(look.palette.ink));
}

/// One curve with its axis.
struct Lane<'a> {
    title: String,
    unit: &'a str,
    y: Rangef,
    of: fn(&Spot) -> Option<f64>,
    references: &'a [(f64, String)],
}

fn curve(painter: &Painter, trade: &Trade, layout: &Layout, lane: &Lane<'_>, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let x = Rangef::new(layout.x.pixels.0, layout.x.pixels.1);
    let values = trade.spots.iter().filter_map(lane.of);
    let levels: Vec<f64> = values.chain(lane.references.iter().map(|one| one.0)).collect();
    let axis = Axis::new(&levels, &[], lane.y, true, Fixed::LOW);
    let font = fonts::regular(m.small);
    let ticks = axis.ticks(0.0, m.small * 1.9);
    let decimals = decimals(&ticks);
    for tick in ticks {
        let y = axis.y(tick);
        painter.hline(x, y, look.hairline(p.rule));
        let text = look.decimal(format!("{tick:.decimals$}"));
        painter.text(pos2(x.min - 6.0, y), Align2::RIGHT_CENTER, text, font.clone(), p.ink2);
    }
    painter.hline(x, axis.pixels().lower, look.hairline(p.edge));
    for (fold, band) in axis.folds() {
        let hidden = look.decimal(short(fold.to - fold.from));
        let text = format!("{hidden} {} folded away", lane.unit);
        lines::fold(painter, x, Rangef::new(band.upper, band.lower), &text, look);
    }
    for (level, text) in lane.references {
        let y = axis.y(*level);
        lines::reference(painter, x, y, look);
        painter.text(pos2(x.max + 6.0, y), Align2::LEFT_CENTER, text, font.clone(), p.ink2);
    }
    let title = painter.layout_no_wrap(lane.title.clone(), fonts::bold(m.small), p.ink2);
    let place = Align2::LEFT_BOTTOM.anchor_size(pos2(x.min, lane.y.min - 2.0), title.size());
    // Today's line may run through it.
    painter.rect_filled(place.expand2(vec2(2.0, 0.0)), 0.0, p.sheet);
    painter.galley(place.min, title, p.ink2);
    let color = if trade.stale { p.edge } else { p.level };
    let dot = |at: usize| {
        let spot = trade.spots.get(at)?;
        Some(pos2(layout.x.at(spot.hose), axis.y((lane.of)(spot)?)))
    };
    for stretch in stretches(trade, lane.of) {
        let points: Vec<Pos2> = stretch.into_iter().filter_map(dot).collect();
        lines::polyline(painter, points, Stroke::new(m.level_line(), color), None);
    }
    if let Some(today) = dot(trade.today).filter(|_| trade.at != trade.today) {
        painter.circle(today, 4.0 * m.line, p.sheet, Stroke::new(2.0 * m.line, p.ghost));
    }
    if let Some(here) = dot(trade.at) {
        painter.circle(here, 5.0 * m.line, color, Stroke::new(2.0 * m.line, p.sheet));
    }
}

/// As many decimals as every tick needs: three for 0.490, 0.495, 0.500.
fn decimals(ticks: &[f64]) -> usize {
    let is_whole = |tick: &f64, places: i32| {
        let shifted = tick * 10f64.powi(places);
        (shifted - shifted.round()).abs() <= 1e-6 * shifted.abs()
    };
    (0..6).find(|places| ticks.iter().all(|tick| is_whole(tick, *places))).unwrap_or_default() as usize
}

/// Runs of places that have this value.
fn stretches(trade: &Trade, of: fn(&Spot) -> Option<f64>) -> Vec<Vec<usize>> {
    let has = |at: &usize| trade.spots.get(*at).and_then(of).is_some();
    let all: Vec<usize> = (0..trade.spots.len()).collect();
    let runs = all.chunk_by(|a, b| has(a) == has(b));
    runs.filter(|run| run.first().is_some_and(has)).map(<[usize]>::to_vec).collect()
}

/// The axis of hoses.
fn foot(painter: &Painter, trade: &Trade, layout: &Layout, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let font = fonts::regular(m.small);
    let y = layout.axis + 2.0;
    for tick in layout.x.ticks(m.small * 5.0) {
        let x = layout.x.at(tick);
        painter.vline(x, Rangef::new(layout.axis - 3.0, layout.axis), look.hairline(p.edge));
        let text = look.decimal(short(tick));
        painter.text(pos2(x, y), Align2::CENTER_TOP, text, font.clone(), p.ink2);
    }
    let name = format!("{} hose", trade.unit);
    painter.text(pos2(layout.x.pixels.1 + m.small * 2.0, y), Align2::LEFT_TOP, name, font, p.ink2);
}

#[cfg(test)]
mod tests {
    use super::decimals;

    #[test]
    fn ticks_have_the_decimals_they_need() {
        for (ticks, expected) in [
            (&[0.49, 0.495, 0.5][..], 3),
            (&[0.0, 0.49, 0.495], 3),
            (&[1.4, 1.6], 1),
            (&[110.0, 115.0], 0),
            (&[1.5], 1),
            (&[], 0),
        ] {
            assert_eq!(decimals(ticks), expected, "{ticks:?}");
        }
    }
}
