//! A cylinder that warms: how full of liquid it is and at what pressure, against temperature.

use egui::{Align2, Painter, Pos2, Rangef, Rect, Sense, Stroke, StrokeKind, Ui, pos2, vec2};

use super::lines;
use super::ticks::{Scale, short};
use crate::ui::style::{Look, fonts};
use crate::ui::widgets::arrows::arrows;

/// The picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fill {
    /// Temperatures at the two ends.
    pub ends: (f64, f64),
    /// Unit of temperature.
    pub temperature_unit: String,
    /// Temperature and per cent of the inside taken by liquid.
    pub percent: Vec<[f64; 2]>,
    /// Temperature and pressure.
    pub pressure: Vec<[f64; 2]>,
    /// Unit of pressure.
    pub pressure_unit: String,
    /// Where liquid fills it, with its words.
    pub full_at: Option<(f64, String)>,
    /// Temperatures of rules, with their words.
    pub marks: Vec<(f64, String)>,
    /// The temperature that is looked at.
    pub cursor: f64,
    /// Per cent of liquid there, if that is known.
    pub now_percent: Option<f64>,
    /// That temperature in words.
    pub cursor_words: String,
    /// An earlier answer.
    pub stale: bool,
}

/// Draws it; returns another temperature if one is chosen.
pub fn fill_ui(ui: &mut Ui, rect: Rect, fill: &Fill, look: &Look) -> Option<f64> {
    let m = &look.measures;
    let drawing = (rect.width() * 0.22).clamp(60.0, 150.0);
    let x = Rangef::new(rect.left() + drawing + m.small * 4.0, rect.right() - 12.0);
    let scale = Scale::across(fill.ends, Rangef::new(x.min, x.max.max(x.min + 1.0)));
    let response = ui.interact(
        Rect::from_x_y_ranges(x, rect.y_range()),
        ui.scope_id().with("fill picture"),
        Sense::click_and_drag(),
    );
    let words = format!("Cylinder temperature, {}", fill.cursor_words);
    response.widget_info(|| egui::WidgetInfo::slider(true, fill.cursor, &words));
    if ui.is_rect_visible(rect) {
        let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
        paint_cylinder(&painter, Rect::from_min_size(rect.min, vec2(drawing, rect.height())), fill, look);
        paint_curves(&painter, rect, fill, &scale, response.has_focus(), look);
    }
    // One degree, with Shift ten.
    let keys = || arrows(ui, response.id, fill.cursor, fill.ends, [1.0, 10.0]);
    let stepped = response.has_focus().then(keys).flatten();
    let pointed = (response.clicked() || response.dragged())
        .then(|| response.interact_pointer_pos().map(|p| scale.value(p.x)))
        .flatten();
    let chosen = pointed.or(stepped)?;
    Some(chosen.clamp(fill.ends.0, fill.ends.1)).filter(|t| *t != fill.cursor)
}

/// The cylinder in section, with its liquid.
fn paint_cylinder(painter: &Painter, area: Rect, fill: &Fill, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let width = (area.width() * 0.62).min(area.height() * 0.42);
    let height = (width * 1.7).min(area.height() - m.small * 5.0).max(10.0);
    let shell =
        Rect::from_center_size(pos2(area.center().x, area.top() + 16.0 + height / 2.0), vec2(width, height));
    let wall = (width * 0.07).max(3.0);
    let neck = Rect::from_center_size(pos2(shell.center().x, shell.top() - 6.0), vec2(width * 0.24, 14.0));
    painter.rect_filled(neck, 0.0, p.wall);
    painter.rect_filled(shell, width * 0.16, p.wall);
    let inside = shell.shrink(wall);
    painter.rect_filled(inside, width * 0.10, p.vapor);
    let share = (fill.now_percent.unwrap_or(0.0) / 100.0).clamp(0.0, 1.0) as f32;
    let level = inside.bottom() - share * inside.height();
    let full = share >= 1.0;
    let liquid = Rect::from_min_max(pos2(inside.left(), level), inside.max);
    painter.with_clip_rect(liquid.intersect(painter.clip_rect())).rect_filled(inside, width * 0.10, p.liquid);
    if full {
        painter.rect_stroke(shell.expand(4.0), width * 0.18, Stroke::new(3.0, p.stop), StrokeKind::Outside);
    }
    let text = match fill.now_percent {
        Some(_) if full => "LIQUID-FULL".to_owned(),
        Some(percent) => format!("{percent:.0} % liquid"),
        None => "not known".to_owned(),
    };
    let color = if full { p.stop } else { p.ink };
    let at = pos2(area.center().x, shell.bottom() + 8.0);
    let below = painter.text(at, Align2::CENTER_TOP, text, fonts::bold(m.body), color);
    let words = painter.layout(fill.cursor_words.clone(), fonts::regular(m.small), p.ink2, area.width());
    painter.galley(pos2(area.left(), below.bottom() + 3.0), words, p.ink2);
}

fn paint_curves(painter: &Painter, rect: Rect, fill: &Fill, x: &Scale, focused: bool, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let (head, foot, gap) = (m.small * 2.8, m.small * 2.6, m.small * 2.2);
    let room = (rect.height() - head - foot - gap).max(4.0);
    let upper = Rangef::new(rect.top() + head, rect.top() + head + room * 0.54);
    let lower = Rangef::new(upper.max + gap, rect.bottom() - foot);
    let across = Rangef::new(x.pixels.0, x.pixels.1);
    let percent = Scale::up((0.0, 108.0), upper);
    let top = fill.pressure.iter().map(|q| q[1]).filter(|v| v.is_finite()).fold(1.0, f64::max);
    let pressure = Scale::up((0.0, 1.1 * top), lower);
    // Beyond liquid-full nothing holds: said by an area, a line and words.
    if let Some((at, words)) = &fill.full_at {
        let left = x.at(*at).max(across.min);
        let lanes = if left < across.max { vec![upper, lower] } else { Vec::new() };
        for lane in lanes {
            let beyond = Rect::from_x_y_ranges(Rangef::new(left, across.max), lane);
            let corners =
                [beyond.left_top(), beyond.right_top(), beyond.right_bottom(), beyond.left_bottom()];
            lines::hatch(painter, &corners, p.stop, 9.0);
            painter.vline(left, lane, Stroke::new(2.0 * m.line, p.stop));
        }
        let galley = painter.layout_no_wrap(words.clone(), fonts::bold(m.small), p.stop);
        let right = (left + 4.0 + galley.size().x).min(across.max);
        painter.galley(pos2(right - galley.size().x, rect.top() + 2.0), galley, p.stop);
    }
    lane(
        painter,
        across,
        upper,
        &percent,
        "liquid, % of the inside",
        &fill.percent,
        x,
        (fill.stale, 100.0),
        look,
    );
    let name = format!("pressure, {}", fill.pressure_unit);
    lane(painter, across, lower, &pressure, &name, &fill.pressure, x, (fill.stale, f64::NAN), look);
    let font = fonts::regular(m.small);
    for tick in x.ticks(m.small * 4.0) {
        let at = pos2(x.at(tick), lower.max + 3.0);
        painter.text(at, Align2::CENTER_TOP, look.decimal(short(tick)), font.clone(), p.ink2);
    }
    painter.text(
        pos2(across.max, lower.max + m.small * 1.1),
        Align2::RIGHT_TOP,
        &fill.temperature_unit,
        font.clone(),
        p.ink2,
    );
    for (at, words) in &fill.marks {
        let at = x.at(*at);
        let dash: (&[f32], &[f32]) = (&[10.0, 2.0], &[3.0, 3.0]);
        let points = vec![pos2(at, upper.min), pos2(at, lower.max)];
        lines::polyline(painter, points, Stroke::new(m.reference_line(), p.ghost), Some(dash));
        painter.text(pos2(at, upper.min - 2.0), Align2::CENTER_BOTTOM, words, font.clone(), p.ink2);
    }
    let at = x.at(fill.cursor);
    let width = if focused { m.focus_line() } else { 1.8 * m.line };
    painter.vline(at, Rangef::new(upper.min, lower.max), Stroke::new(width, p.fall_text));
    let tip = vec![pos2(at - 7.0, lower.max + 10.0), pos2(at + 7.0, lower.max + 10.0), pos2(at, lower.max)];
    painter.add(egui::Shape::convex_polygon(tip, p.fall_fill, Stroke::NONE));
    if focused {
        painter.rect_stroke(rect.shrink(1.0), 0.0, Stroke::new(m.focus_line(), p.ink), StrokeKind::Inside);
    }
}

#[allow(clippy::too_many_arguments, reason = "one lane of two, drawn alike")]
fn lane(
    painter: &Painter,
    across: Rangef,
    lane: Rangef,
    y: &Scale,
    name: &str,
    points: &[[f64; 2]],
    x: &Scale,
    (stale, limit): (bool, f64),
    look: &Look,
) {
    let (m, p) = (&look.measures, look.palette);
    let font = fonts::regular(m.small);
    for tick in y.ticks(m.small * 2.0) {
        painter.hline(across, y.at(tick), look.hairline(p.rule));
        painter.text(
            pos2(across.min - 5.0, y.at(tick)),
            Align2::RIGHT_CENTER,
            look.decimal(short(tick)),
            font.clone(),
            p.ink2,
        );
    }
    if limit.is_finite() {
        painter.hline(across, y.at(limit), Stroke::new(2.0 * m.line, p.stop));
    }
    painter.hline(across, lane.max, Stroke::new(1.5 * m.line, p.ink));
    painter.vline(across.min, lane, look.hairline(p.edge));
    let color = if stale { p.edge } else { p.level };
    let line: Vec<Pos2> = points.iter().map(|q| pos2(x.at(q[0]), y.at(q[1]))).collect();
    if line.len() > 1 {
        lines::polyline(painter, line, Stroke::new(m.level_line(), color), None);
    }
    let galley = painter.layout_no_wrap(name.to_owned(), fonts::bold(m.small), color);
    // Liquid fills the lower left of its lane late, pressure the upper left never.
    let top = if limit.is_finite() { lane.max - galley.size().y - 4.0 } else { lane.min + 2.0 };
    painter.galley(pos2(across.min + 8.0, top), galley, color);
}
