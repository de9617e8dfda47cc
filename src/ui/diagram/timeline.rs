//! The time line of a job: one bar a kit, from the first hose to the last, on one scale.

use egui::{Align2, Painter, Rangef, Rect, Response, Sense, Stroke, StrokeKind, Ui, pos2, vec2};

use super::lines;
use super::ticks::Scale;
use super::time;
use crate::ui::style::{Look, fonts};
use crate::ui::symbols::paint_kit_mark;

/// What a stretch of a job is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// People work: set-up, hose change, swap, pack-up.
    Hands,
    /// Refrigerant flows.
    Flow,
    /// Waiting.
    Wait,
}

/// A stretch of a job, in minutes.
#[derive(Clone, Debug, PartialEq)]
pub struct Stretch {
    /// Begins.
    pub from: f64,
    /// Ends.
    pub to: f64,
    /// What it is.
    pub name: String,
    /// How it is drawn.
    pub kind: Kind,
}

/// One kit's job.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// The kit's place and letter.
    pub kit: (usize, String),
    /// In order.
    pub stretches: Vec<Stretch>,
    /// Low and high of the end.
    pub band: Option<(f64, f64)>,
    /// At the end: how long it takes, or why there is no answer.
    pub text: String,
    /// The kit in hand.
    pub selected: bool,
}

/// All of it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Timeline {
    /// One a kit.
    pub lines: Vec<Line>,
    /// When it has to be done, with its words.
    pub deadline: Option<(f64, String)>,
    /// An earlier answer.
    pub stale: bool,
}

impl Line {
    /// All of it in words.
    pub fn words(&self) -> String {
        let said: Vec<String> =
            self.stretches.iter().map(|s| format!("{} {}", s.name, time::text(s.to - s.from))).collect();
        format!("Kit {}, {}: {}", self.kit.1, self.text, said.join(", "))
    }
}

/// What every row is drawn with.
struct Sheet<'a> {
    painter: &'a Painter,
    scale: &'a Scale,
    /// Where the deadline's line stands.
    deadline: Option<f32>,
    stale: bool,
    look: &'a Look,
}

/// Draws it; returns a response a kit.
pub fn timeline_ui(ui: &mut Ui, timeline: &Timeline, look: &Look) -> Vec<Response> {
    let m = &look.measures;
    let (row, head) = ((m.body * 3.0).max(look.target()), m.small * 1.8);
    let width = ui.available_width().max(1.0);
    let size = vec2(width, head + row * timeline.lines.len() as f32 + m.small * 2.0);
    let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
    let text = (m.body * 11.0).min(width * 0.26);
    let x = Rangef::new(rect.left() + 48.0, (rect.right() - text).max(rect.left() + 49.0));
    let scale = Scale::across((0.0, range(timeline)), x);
    let painter = ui.painter().with_clip_rect(rect.intersect(ui.clip_rect()));
    let inside = Rangef::new(rect.top() + head, rect.bottom() - m.small * 2.0);
    axis(&painter, inside, &scale, look);
    let sheet = Sheet {
        painter: &painter,
        scale: &scale,
        deadline: timeline.deadline.as_ref().map(|(at, _)| scale.at(*at)),
        stale: timeline.stale,
        look,
    };
    let mut responses = Vec::with_capacity(timeline.lines.len());
    for (i, line) in timeline.lines.iter().enumerate() {
        let top = inside.min + row * i as f32;
        let area = Rect::from_min_max(pos2(rect.left(), top), pos2(rect.right(), top + row));
        let response = ui.interact(area, ui.scope_id().with(("time line", i)), Sense::click());
        let words = line.words();
        response.widget_info(|| egui::WidgetInfo::selected(egui::Role::Button, true, line.selected, &words));
        paint_line(&sheet, area, line);
        if response.has_focus() || response.hovered() {
            painter.rect_stroke(area, 0.0, look.hairline(look.palette.edge), StrokeKind::Inside);
        }
        responses.push(response);
    }
    if let Some((at, words)) = &timeline.deadline {
        deadline(&painter, Rangef::new(rect.top() + head * 0.5, inside.max), scale.at(*at), words, look);
    }
    for (i, line) in timeline.lines.iter().enumerate() {
        let top = inside.min + row * i as f32;
        let area = Rect::from_min_max(pos2(rect.left(), top), pos2(rect.right(), top + row));
        end_words(&sheet, area, line);
    }
    responses
}

fn deadline(painter: &Painter, y: Rangef, x: f32, words: &str, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let dash: (&[f32], &[f32]) = (&[10.0, 2.0], &[3.0, 3.0]);
    let points = vec![pos2(x, y.min), pos2(x, y.max)];
    lines::polyline(painter, points, Stroke::new(2.2 * m.line, p.fall_text), Some(dash));
    let top = y.min - m.small * 0.9;
    painter.text(pos2(x - 5.0, top), Align2::RIGHT_TOP, words, fonts::bold(m.small), p.fall_text);
}

fn range(timeline: &Timeline) -> f64 {
    let ends = timeline.lines.iter().flat_map(|l| {
        let end = l.stretches.last().map(|s| s.to);
        end.into_iter().chain(l.band.map(|b| b.1))
    });
    let all = ends.chain(timeline.deadline.as_ref().map(|d| d.0));
    1.02 * all.filter(|v| v.is_finite()).fold(1.0, f64::max)
}

fn axis(painter: &Painter, inside: Rangef, scale: &Scale, look: &Look) {
    let (m, p) = (&look.measures, look.palette);
    let ticks = scale.time_ticks(m.small * 5.5);
    for (tick, text) in ticks.iter().zip(time::ticks(&ticks)) {
        let x = scale.at(*tick);
        painter.vline(x, inside, look.hairline(p.rule));
        painter.text(pos2(x, inside.max + 3.0), Align2::CENTER_TOP, text, fonts::regular(m.small), p.ink2);
    }
}

fn paint_line(sheet: &Sheet<'_>, area: Rect, line: &Line) {
    let Sheet { painter, scale, look, .. } = *sheet;
    let (m, p) = (&look.measures, look.palette);
    let y = bar_of(area);
    if line.selected {
        painter.rect_filled(area, 0.0, p.plate);
    }
    let center = y.center();
    paint_kit_mark(painter, pos2(area.left() + 14.0, center), 6.5, line.kit.0, p);
    painter.text(
        pos2(area.left() + 26.0, center),
        Align2::LEFT_CENTER,
        &line.kit.1,
        fonts::bold(m.strong),
        p.ink,
    );
    for stretch in &line.stretches {
        paint_stretch(sheet, stretch, y);
    }
    if let Some(band) = band_of(line, scale, y) {
        let corners = [band.left_top(), band.right_top(), band.right_bottom(), band.left_bottom()];
        lines::hatch(painter, &corners, p.ink2, 5.0);
        painter.rect_stroke(band, 0.0, look.hairline(p.ink2), StrokeKind::Inside);
    }
}

/// What the end ranges over, under the bar.
fn band_of(line: &Line, scale: &Scale, bar: Rangef) -> Option<Rect> {
    let (low, high) = line.band?;
    let x = Rangef::new(scale.at(low), scale.at(high));
    Some(Rect::from_x_y_ranges(x, Rangef::new(bar.max, bar.max + 5.0)))
}

/// Heights of the bar of a row.
fn bar_of(area: Rect) -> Rangef {
    Rangef::new(area.top() + 5.0, area.bottom() - 7.0)
}

/// How long it takes, in words behind the bar; beyond the deadline's line, or over it where there is no room,
/// if that passes there.
fn end_words(sheet: &Sheet<'_>, area: Rect, line: &Line) {
    let Sheet { painter, scale, deadline, stale, look } = *sheet;
    let (m, p) = (&look.measures, look.palette);
    let y = bar_of(area);
    let end = line.stretches.last().map_or(scale.pixels.0, |s| scale.at(s.to));
    let left = band_of(line, scale, y).map_or(end, |band| end.max(band.right()));
    let room = (area.right() - left - 10.0).max(20.0);
    let ink = if stale { p.edge } else { p.ink };
    let galley = painter.layout(line.text.clone(), fonts::bold(m.body), ink, room);
    let wide = galley.size().x;
    let beyond = deadline
        .filter(|at| (left..left + wide + 16.0).contains(at) && at + wide + 16.0 <= area.right())
        .unwrap_or(left);
    let at = pos2(beyond + 8.0, y.center() - galley.size().y / 2.0);
    let patch = Rect::from_min_size(at, galley.size()).expand2(vec2(3.0, -1.0));
    painter.rect_filled(patch, 0.0, if line.selected { p.plate } else { p.sheet });
    painter.galley(at, galley, ink);
}

fn paint_stretch(sheet: &Sheet<'_>, stretch: &Stretch, y: Rangef) {
    let Sheet { painter, scale, deadline, stale, look } = *sheet;
    let (m, p) = (&look.measures, look.palette);
    let x = Rangef::new(scale.at(stretch.from), scale.at(stretch.to).max(scale.at(stretch.from) + 1.0));
    let rect = Rect::from_x_y_ranges(x, y);
    let (fill, ink) = match stretch.kind {
        Kind::Flow if stale => (p.edge, p.sheet),
        Kind::Flow => (p.level, p.sheet),
        Kind::Hands => (p.field, p.ink),
        Kind::Wait => (p.ground, p.ink),
    };
    painter.rect(rect, 0.0, fill, look.hairline(p.edge), StrokeKind::Inside);
    if stretch.kind == Kind::Wait {
        let corners = [rect.left_top(), rect.right_top(), rect.right_bottom(), rect.left_bottom()];
        lines::hatch(painter, &corners, p.edge, 8.0);
    }
    let galley = painter.layout_no_wrap(stretch.name.clone(), fonts::regular(m.small), ink);
    if galley.size().x + 6.0 <= x.span() {
        let half = galley.size().x / 2.0;
        // The deadline's line passes beside a name, not through it.
        let beside =
            deadline.filter(|at| (at - x.center()).abs() < half + 4.0).map(|at| at - 8.0 - 2.0 * half);
        let left = beside.filter(|left| *left > x.min + 2.0).unwrap_or(x.center() - half);
        let at = pos2(left, y.center() - galley.size().y / 2.0);
        if stretch.kind == Kind::Wait {
            painter.rect_filled(Rect::from_min_size(at, galley.size()), 0.0, fill);
        }
        painter.galley(at, galley, ink);
    }
}
