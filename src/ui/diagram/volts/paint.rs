//! Painting of the voltage stairs.

use egui::{Align2, Painter, Pos2, Rangef, Rect, Shape, Stroke, StrokeKind, pos2, vec2};

use super::{Volts, VoltsPlace, Wire, foot_height};
use crate::ui::diagram::axis::{Axis, Fixed};
use crate::ui::diagram::chain::paint::corner_ticks;
use crate::ui::diagram::lines;
use crate::ui::diagram::ticks::short;
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::{Fluid, PaintSymbol as _, Symbol, Tints, paint_mark};

pub fn paint(painter: &Painter, place: VoltsPlace, v: &Volts, hovered: Option<usize>, look: &Look) {
    let foot = foot_height(look);
    let bottom = place.rect.bottom() - foot - 6.0;
    let pixels = Rangef::new(place.rect.top() + 12.0, bottom.max(place.rect.top() + 13.0));
    if v.wires.iter().any(|w| w.running.is_some() || w.starting.is_some()) {
        let fixed = if pixels.span() > 240.0 { Fixed::TALL } else { Fixed::LOW };
        let axis = Axis::new(&levels(v), &losses_of(v), pixels, true, fixed);
        let x = Rangef::new(place.left, place.machine.max);
        grid(painter, place, v, &axis, x, look);
        losses(painter, place, v, &axis, look);
        riser(painter, place, look);
        level_lines(painter, place, v, &axis, look);
    }
    feet(painter, place, v, hovered, look);
    verdicts(painter, place, v, look);
}

/// The motor's pair of wires, with its plug where it enters the picture above.
fn riser(painter: &Painter, place: VoltsPlace, look: &Look) {
    let Some(top) = place.riser else { return };
    let (m, p) = (&look.measures, look.palette);
    let x = place.machine.center();
    let y = Rangef::new(top, place.rect.bottom() - foot_height(look) + 6.0);
    for dx in [-2.5, 2.5] {
        painter.vline(x + dx * m.line, y, Stroke::new(2.0 * m.line, p.wall));
    }
    let plug = Rect::from_center_size(pos2(x, place.rect.top()), vec2(14.0, 16.0) * m.line);
    painter.rect(plug, 3.0, p.field, Stroke::new(2.0 * m.line, p.wall), StrokeKind::Inside);
    for dx in [-2.5, 2.5] {
        let blade = Rect::from_center_size(plug.center() + vec2(dx * m.line, 0.0), vec2(2.0, 6.0) * m.line);
        painter.rect_filled(blade, 0.0, p.wall);
    }
}

fn height(axis: &Axis) -> Rangef {
    Rangef::new(axis.pixels().upper, axis.pixels().lower)
}

fn levels(v: &Volts) -> Vec<f64> {
    let wires = v.wires.iter().flat_map(|w| [w.running, w.starting]).flatten();
    let mut all: Vec<f64> = wires.flat_map(|(a, b)| [a, b]).collect();
    all.extend(v.references.iter().map(|r| r.0));
    all.extend(v.extent.iter().copied());
    all.extend([&v.running, &v.starting].into_iter().flatten().map(|r| r.0));
    all.extend(v.ghost.map(|(running, starting)| [running, starting]).into_iter().flatten());
    all
}

fn losses_of(v: &Volts) -> Vec<(f64, f64)> {
    v.wires.iter().filter(|w| w.slope).flat_map(|w| [w.running, w.starting]).flatten().collect()
}

fn grid(painter: &Painter, place: VoltsPlace, v: &Volts, axis: &Axis, x: Rangef, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let font = fonts::regular(m.small);
    for i in 1..=v.wires.len() {
        painter.vline(place.span(i, v.wires.len()).min, height(axis), look.hairline(p.rule));
    }
    let ticks = axis.ticks(0.0, m.small * 1.9);
    for (i, tick) in ticks.iter().enumerate() {
        let y = axis.y(*tick);
        painter.hline(x, y, look.hairline(p.rule));
        let unit = if i + 1 == ticks.len() { " V" } else { "" };
        let at = pos2(place.left - 6.0, y);
        let text = look.decimal(short(*tick)) + unit;
        painter.text(at, Align2::RIGHT_CENTER, text, font.clone(), p.ink2);
    }
    painter.vline(x.min, height(axis), look.hairline(p.edge));
    painter.hline(x, axis.pixels().lower, Stroke::new(1.5 * m.line, p.ink));
    for (fold, band) in axis.folds() {
        let text = format!("{:.0} V folded away", fold.to - fold.from);
        lines::fold(painter, x, Rangef::new(band.upper, band.lower), &text, look);
    }
    let mut last = f32::INFINITY;
    for (level, text) in &v.references {
        let y = axis.y(*level);
        lines::reference(painter, x, y, look);
        if (y - last).abs() > m.small {
            let at = pos2(names_left(place, look), y);
            let galley = painter.layout_no_wrap(text.clone(), font.clone(), p.ink2);
            // Over the line at its beginning where there is no room behind it.
            let fits = at.x + galley.size().x <= place.rect.right();
            let start = pos2(x.min + 6.0, y - galley.size().y);
            let corner = if fits { at - vec2(0.0, galley.size().y / 2.0) } else { start };
            painter.galley(corner, galley, p.ink2);
            last = y;
        }
    }
}

/// Where the names of reference lines begin, clear of the volts written beside the motor's dots.
fn names_left(place: VoltsPlace, look: &Look) -> f32 {
    (place.machine.max + 6.0).max(place.machine.center() + look.measures.strong * 4.2)
}

fn losses(painter: &Painter, place: VoltsPlace, v: &Volts, axis: &Axis, look: &Look) {
    let count = v.wires.len();
    let triangle = |i: usize, (a, b): (f64, f64)| {
        let x = place.span(i, count);
        [pos2(x.min, axis.y(a)), pos2(x.max, axis.y(b)), pos2(x.min, axis.y(b))]
    };
    for (i, wire) in v.wires.iter().enumerate().filter(|(_, w)| w.slope) {
        if let Some(starting) = wire.starting {
            lines::hatch(painter, &triangle(i, starting), look.palette.fall_fill, 7.0);
        }
        if let Some(running) = wire.running {
            let points = triangle(i, running).to_vec();
            painter.add(Shape::convex_polygon(points, look.palette.fall_fill, Stroke::NONE));
        }
    }
}

fn level_lines(painter: &Painter, place: VoltsPlace, v: &Volts, axis: &Axis, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let count = v.wires.len();
    let color = if v.stale { p.edge } else { p.level };
    let motor = place.machine.center();
    let mut ends: Vec<(f32, &str, bool)> = Vec::new();
    for running in [false, true] {
        let of = |w: &Wire| if running { w.running } else { w.starting };
        let mut points: Vec<Pos2> = Vec::new();
        for (i, wire) in v.wires.iter().enumerate() {
            if let Some((a, b)) = of(wire) {
                let x = place.span(i, count);
                points.extend([pos2(x.min, axis.y(a)), pos2(x.max, axis.y(b))]);
            }
        }
        let end = if running { &v.running } else { &v.starting };
        if let Some((level, text)) = end {
            points.push(pos2(motor, axis.y(*level)));
            ends.push((axis.y(*level), text, running));
        }
        let dash: Option<(&[f32], &[f32])> = (!running).then_some((&[9.0], &[4.0]));
        let width = if running { m.level_line() } else { m.level_line() * 0.8 };
        if points.len() > 1 {
            lines::polyline(painter, points, Stroke::new(width, color), dash);
        }
    }
    ghost_ends(painter, motor, v, axis, look);
    line_names(painter, place, v, axis, look);
    end_dots(painter, motor, ends, color, look);
}

/// Where the lines ended before the change.
fn ghost_ends(painter: &Painter, motor: f32, v: &Volts, axis: &Axis, look: &Look) {
    let Some((running, starting)) = v.ghost else { return };
    let reach = 22.0 * look.measures.line;
    for level in [running, starting].map(|level| axis.y(level)) {
        let ends = vec![pos2(motor - reach, level), pos2(motor + 0.4 * reach, level)];
        lines::ghost(painter, ends, look);
    }
}

fn line_names(painter: &Painter, place: VoltsPlace, v: &Volts, axis: &Axis, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let count = v.wires.len();
    // The widest stretch between the lines is where their names fit.
    let Some(i) = v.wires.iter().position(|w| w.symbol == Symbol::Receptacle) else { return };
    let Some(wire) = v.wires.get(i) else { return };
    let center = place.span(i, count).center();
    let font = fonts::bold(m.small);
    if let Some((level, _)) = wire.running {
        let at = pos2(center, axis.y(level) - 3.0);
        painter.text(at, Align2::CENTER_BOTTOM, "running", font.clone(), p.level);
    }
    if let Some((level, _)) = wire.starting {
        let at = pos2(center, axis.y(level) + 3.0);
        painter.text(at, Align2::CENTER_TOP, "starting", font.clone(), p.level);
    }
    if let Some((i, wire)) = v.wires.iter().enumerate().rfind(|(_, w)| w.slope)
        && let Some((level, _)) = wire.running
    {
        let span = place.span(i, count);
        let at = pos2(span.max - 6.0, axis.y(level) - 1.0);
        let galley = painter.layout_no_wrap(v.heat.clone(), font, p.fall_text);
        let rect = Align2::RIGHT_BOTTOM.anchor_size(at, galley.size());
        // A reference line may run through it.
        painter.rect_filled(rect.shrink2(vec2(-2.0, 2.0)), 0.0, p.sheet);
        painter.galley(rect.min, galley, p.fall_text);
    }
}

fn end_dots(painter: &Painter, x: f32, ends: Vec<(f32, &str, bool)>, color: egui::Color32, look: &Look) {
    let m = &look.measures;
    let mut taken = f32::NEG_INFINITY;
    let mut ends = ends;
    ends.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (y, text, running) in ends {
        let fill = if running { color } else { look.palette.field };
        painter.circle(pos2(x, y), 5.0 * m.line, fill, Stroke::new(2.0 * m.line, color));
        let at = y.max(taken + m.strong * 1.1);
        taken = at;
        let galley = painter.layout_no_wrap(text.to_owned(), fonts::bold(m.strong), color);
        let rect = Align2::LEFT_CENTER.anchor_size(pos2(x + 10.0 * m.line, at), galley.size());
        painter.rect_filled(rect.expand2(vec2(2.0, -2.0)), 0.0, look.palette.sheet);
        painter.galley(rect.min, galley, color);
    }
}

fn feet(painter: &Painter, place: VoltsPlace, v: &Volts, hovered: Option<usize>, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let count = v.wires.len();
    let tints = Tints::new(p, Fluid::Vapor, v.stale);
    let foot = foot_height(look);
    let y = Rangef::new(place.rect.bottom() - foot, place.rect.bottom() - 2.0);
    let size = (foot - 12.0).min(40.0 * m.line);
    for i in 0..=count {
        let x = place.span(i, count);
        let area = Rect::from_x_y_ranges(x, y).shrink(1.5);
        if v.selected == Some(i) && v.tried {
            painter.rect_filled(area, 0.0, p.field);
            corner_ticks(painter, area, look);
        } else if v.selected == Some(i) {
            painter.rect(area, 0.0, p.field, Stroke::new(m.focus_line(), p.ink), StrokeKind::Inside);
        } else if hovered == Some(i) {
            painter.rect_stroke(area, 0.0, look.hairline(p.edge), StrokeKind::Inside);
        }
        let Some(wire) = v.wires.get(i) else {
            let square = Rect::from_center_size(area.center(), vec2(size, size));
            Symbol::Motor.paint(painter, square, size, tints);
            let at = pos2(square.right() + 8.0, y.min + 5.0);
            let end = verdicts_left(painter, place, v, look).min(place.rect.right()) - 8.0;
            let lines = [
                ("Motor", fonts::bold(m.small), p.ink),
                (v.motor_detail.as_str(), fonts::regular(m.small), p.ink2),
            ];
            if end - at.x > 4.0 * m.small {
                foot_words(painter, at, end - at.x, lines);
            }
            continue;
        };
        let square = Rect::from_min_size(area.left_center() + vec2(6.0, -size / 2.0), vec2(size, size));
        // Where there is no room for both, the words are worth more.
        let both = area.right() - square.right() > 7.5 * m.small;
        if both {
            wire.symbol.paint(painter, square, size, tints);
        }
        let left = if both { square.right() + 8.0 } else { area.left() + 4.0 };
        let at = pos2(left, y.min + 5.0);
        let room = area.right() - at.x - 2.0;
        let full = painter.layout_no_wrap(wire.loss.clone(), fonts::bold(m.small), p.fall_text);
        let loss = if full.size().x <= room { &wire.loss } else { &wire.loss_short };
        let lines = [
            (wire.name.as_str(), fonts::bold(m.small), p.ink),
            (wire.detail.as_str(), fonts::regular(m.small), p.ink2),
            (loss.as_str(), fonts::bold(m.small), p.fall_text),
        ];
        foot_words(painter, at, room, lines);
    }
}

/// Lines under each other, each no wider than there is room.
fn foot_words<const N: usize>(
    painter: &Painter,
    at: egui::Pos2,
    room: f32,
    lines: [(&str, egui::FontId, egui::Color32); N],
) {
    let mut at = at;
    for (text, font, color) in lines {
        let galley = crate::ui::diagram::chain::paint::fit(painter, text, font, color, room);
        let height = galley.size().y;
        painter.galley(at, galley, color);
        at.y += height;
    }
}

/// Where verdicts begin: behind the names of the reference lines.
fn verdicts_left(painter: &Painter, place: VoltsPlace, v: &Volts, look: &Look) -> f32 {
    let (m, p) = (&look.measures, look.palette);
    let name = |text: &str| painter.layout_no_wrap(text.to_owned(), fonts::regular(m.small), p.ink2).size().x;
    let names = v.references.iter().map(|(_, text)| name(text)).fold(m.small * 6.0, f32::max);
    names_left(place, look) + names + 16.0
}

fn verdicts(painter: &Painter, place: VoltsPlace, v: &Volts, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let left = verdicts_left(painter, place, v, look);
    let room = place.rect.right() - left - 8.0;
    if room < 110.0 {
        return;
    }
    let mut y = place.rect.top() + 8.0;
    for (mark, word, sentence) in &v.verdicts {
        let body = painter.layout(sentence.clone(), fonts::regular(m.small), p.ink, room);
        let height = m.strong * 1.7 + body.size().y + 8.0;
        if y + height > place.rect.bottom() {
            break;
        }
        let side = m.strong * 1.4;
        let square = Rect::from_min_size(pos2(left, y), vec2(side, side));
        paint_mark(*mark, painter, square, p);
        let at = pos2(square.right() + 6.0, square.center().y);
        painter.text(at, Align2::LEFT_CENTER, word, fonts::bold(m.strong), p.ink);
        painter.galley(pos2(left, square.bottom() + 4.0), body, p.ink);
        y += height;
    }
}
