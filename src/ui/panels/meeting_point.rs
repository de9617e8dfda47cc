//! Meeting point: what the path passes and what the machine draws, against the inlet pressure.

use egui::{Ui, vec2};
use egui_plot::{Line, LineStyle, Plot, PlotPoints, Points, Text};
use uom::si::f64::{MassRate, Pressure};
use uom::si::mass_rate::kilogram_per_second;

use super::Desk;
use crate::ui::diagram::lines::kit_color;
use crate::ui::present::clock;
use crate::ui::present::quantity;
use crate::ui::present::scale::PressureScale;
use crate::ui::style::fonts;

/// The view.
pub fn meeting_point_ui(ui: &mut Ui, desk: &mut Desk) {
    let area = ui.max_rect().shrink2(vec2(12.0, 8.0));
    let mut child = ui.new_child(egui::UiBuilder::new().id_salt("meeting").max_rect(area));
    let mut help = "Where the curves cross, path and machine agree. Where the path's curve is level, \
                pulling harder does nothing."
        .to_owned();
    if clock::job(desk.scene).is_ok() {
        help.push_str(" Dots: where they agree in the course of the job.");
    }
    let text = egui::RichText::new(help).font(fonts::regular(desk.look.measures.small));
    child.label(text.color(desk.look.palette.ink2));
    meeting_plot_ui(&mut child, desk);
}

/// The curves alone.
pub fn meeting_plot_ui(child: &mut Ui, desk: &mut Desk) {
    let scale = PressureScale::of(desk.scene.units());
    let unit = quantity::rate(desk.scene.units());
    let rate = (unit.per_si, unit.name);
    if desk.scene.answer().is_none_or(|a| a.kits.iter().all(|k| k.curves.is_none())) {
        child.label("No curves: there is no answer to draw.");
        return;
    }
    let plot = Plot::new("meeting point")
        .grid_color(desk.look.palette.rule)
        .grid_spacing(40.0..=300.0)
        .set_margin_fraction(vec2(0.02, 0.04))
        .x_axis_label(format!("pressure at the compressor, {}", scale.absolute))
        .y_axis_label(rate.1)
        .include_x(0.0)
        .include_y(0.0)
        .include_y(highest(desk) * rate.0)
        .allow_scroll(false)
        .allow_drag(false)
        .allow_zoom(false)
        .allow_boxed_zoom(false)
        .show_x(true);
    let look = *desk.look;
    let sign = move |mark: egui_plot::GridMark, _: &std::ops::RangeInclusive<f64>| {
        let places = (-mark.step_size.log10().floor()).clamp(0.0, 6.0) as usize;
        look.decimal(format!("{:.places$}", mark.value))
    };
    let plot = if look.decimal_comma { plot.x_axis_formatter(sign).y_axis_formatter(sign) } else { plot };
    plot.show(child, |plot| {
        job_trail(plot, desk, scale, rate.0);
        machine_before(plot, desk, scale, rate.0);
        for kit in shown_kits(desk) {
            kit_curves(plot, desk, kit, scale, rate.0);
        }
    });
}

/// Where the picture ends, kg/s: above every plateau near the meeting points. A path that could
/// pass far more leaves the picture at the top, or the rest would be squeezed at its foot.
fn highest(desk: &Desk) -> f64 {
    let answers = desk.scene.answer();
    let tops = shown_kits(desk).into_iter().filter_map(|kit| {
        let answer = answers?.kits.get(kit)?;
        let rate = answer.point()?.mass_flow.get::<kilogram_per_second>();
        let curve = &answer.curves.as_ref()?.path;
        let top = curve.iter().map(|p| p.1.get::<kilogram_per_second>()).fold(0.0, f64::max);
        Some(if top <= 2.5 * rate { 1.12 * top } else { 1.6 * rate })
    });
    tops.fold(0.0, f64::max)
}

/// How the meeting point walks down through the job, and where it is at the moment looked at.
fn job_trail(plot: &mut egui_plot::PlotUi, desk: &Desk, scale: PressureScale, per_kg_s: f64) {
    let Ok(job) = clock::job(desk.scene) else { return };
    let (p, m) = (desk.look.palette, desk.look.measures);
    let trace = &job.trace;
    let top = highest(desk) * per_kg_s;
    for (i, phase) in job.phases.iter().enumerate().filter(|(_, phase)| phase.kind.flows()) {
        let points = trace.suction_pa.iter().zip(&trace.rate_kg_s).zip(&trace.phase);
        let trail: PlotPoints<'static> = points
            .filter(|(_, of)| **of == i)
            .map(|((pa, kg_s), _)| [pa / scale.unit_pa, kg_s * per_kg_s])
            .filter(|at| at[1] <= top)
            .collect();
        let name = format!("{} of the job", narrows::report::phase_name(phase.kind));
        let line = Line::new(name, trail).color(p.ghost).width(m.ghost_line());
        plot.line(line.style(LineStyle::dotted_dense()));
    }
    let Some(minutes) = desk.scene.session.view.clock_min.filter(|m| *m > 0.0) else { return };
    let Some(sample) = clock::Sample::at(trace, 60.0 * minutes) else { return };
    let place = [sample.suction_pa / scale.unit_pa, sample.rate_kg_s * per_kg_s];
    let dot = Points::new("at the marker", vec![place]).color(p.fall_fill).radius(5.0);
    plot.points(dot.shape(egui_plot::MarkerShape::Diamond));
    let text = format!("at {}", desk.scene.time_text(minutes));
    words(plot, desk, place, vec2(10.0, 0.0), &text, egui::Align2::LEFT_TOP);
}

/// The part of a curve that is not above the picture, cut exactly at its edge.
fn up_to(top: f64, curve: impl Iterator<Item = [f64; 2]>) -> PlotPoints<'static> {
    let mut kept: Vec<[f64; 2]> = Vec::new();
    let mut last: Option<[f64; 2]> = None;
    for point in curve {
        if let Some(before) = last
            && (before[1] > top) != (point[1] > top)
        {
            let share = (top - before[1]) / (point[1] - before[1]);
            kept.push([before[0] + share * (point[0] - before[0]), top]);
        }
        if point[1] <= top {
            kept.push(point);
        }
        last = Some(point);
    }
    kept.into()
}

/// The point at this share of a curve; near its end in the picture where it leaves that.
fn drawn_point(
    curve: &[(Pressure, MassRate)],
    share: f64,
    at: impl Fn(&(Pressure, MassRate)) -> [f64; 2],
    top: f64,
) -> Option<[f64; 2]> {
    let drawn: Vec<[f64; 2]> = curve.iter().map(at).filter(|point| point[1] <= top).collect();
    let share = if drawn.len() < curve.len() { 0.85 } else { share };
    drawn.get((share * drawn.len() as f64) as usize).copied()
}

fn shown_kits(desk: &Desk) -> Vec<usize> {
    let count = desk.scene.document().kits.len();
    if desk.scene.session.view.alone { vec![desk.scene.hand()] } else { (0..count).collect() }
}

fn kit_curves(plot: &mut egui_plot::PlotUi, desk: &Desk, kit: usize, scale: PressureScale, per_kg_s: f64) {
    let p = desk.look.palette;
    let Some(answer) = desk.scene.answer().and_then(|a| a.kits.get(kit)) else { return };
    let name = desk.scene.document().kits.get(kit).map_or("", |k| k.name.as_str());
    let at = |(pressure, rate): &(Pressure, MassRate)| {
        [scale.on(*pressure), rate.get::<kilogram_per_second>() * per_kg_s]
    };
    let top = highest(desk) * per_kg_s;
    let points = |curve: &[(Pressure, MassRate)]| -> PlotPoints<'static> { up_to(top, curve.iter().map(at)) };
    let color = kit_color(kit, p);
    let width = desk.look.measures.level_line();
    if let Some(curves) = &answer.curves {
        let width = if kit == 2 { 0.6 * width } else { width };
        let line = Line::new(format!("{name}, path"), points(&curves.path)).color(color).width(width);
        plot.line(line.style(line_style(kit)));
        if kit == desk.scene.hand() {
            plateau_ui(plot, desk, &curves.path, at);
            let line = Line::new("machine", points(&curves.machine)).color(p.ink2);
            plot.line(line.width(width * 0.7).style(LineStyle::dashed_loose()));
            if let Some(middle) = drawn_point(&curves.machine, 0.6, at, top) {
                words(plot, desk, middle, vec2(-10.0, 0.0), "machine", egui::Align2::RIGHT_BOTTOM);
            }
        }
    }
    if let Some(point) = answer.point() {
        let place = at(&(point.machine.suction_pressure, point.mass_flow));
        plot.points(Points::new(format!("{name}, meeting point"), vec![place]).color(color).radius(6.0));
        // Under the dot to the left it is free: the machine's line falls slowly, the path's steeply.
        // Other kits' numbers stand in the strip; here their letters are enough.
        let rate = format!("{name}  {}", desk.scene.units().rate(point.mass_flow));
        let (text, off, anchor) = if kit == desk.scene.hand() {
            (
                rate.as_str(),
                clear_of_curves(plot, desk, place, &rate, scale, per_kg_s),
                egui::Align2::RIGHT_TOP,
            )
        } else if kit.is_multiple_of(2) {
            (name, vec2(11.0, 4.0), egui::Align2::LEFT_TOP)
        } else {
            (name, vec2(-11.0, -4.0), egui::Align2::RIGHT_BOTTOM)
        };
        words(plot, desk, place, off, text, anchor);
    }
}

/// How far off the point under its left the words touch no curve; the nearest such place.
fn clear_of_curves(
    plot: &egui_plot::PlotUi,
    desk: &Desk,
    [x, y]: [f64; 2],
    text: &str,
    scale: PressureScale,
    per_kg_s: f64,
) -> egui::Vec2 {
    let strong = desk.look.measures.strong;
    let transform = *plot.transform();
    let on_screen = |x, y| transform.position_from_point(&egui_plot::PlotPoint::new(x, y));
    let at = |(pressure, rate): &(Pressure, MassRate)| {
        on_screen(scale.on(*pressure), rate.get::<kilogram_per_second>() * per_kg_s)
    };
    let answers = shown_kits(desk).into_iter().filter_map(|kit| desk.scene.answer()?.kits.get(kit));
    let curves = answers.filter_map(|kit| kit.curves.as_ref()).flat_map(|c| [&c.path, &c.machine]);
    let lines: Vec<Vec<egui::Pos2>> = curves.map(|curve| curve.iter().map(at).collect()).collect();
    let font = fonts::bold(strong);
    let ink = desk.look.palette.ink;
    let size = plot.ctx().fonts_mut(|fonts| fonts.layout_no_wrap(text.to_owned(), font, ink)).size();
    let dot = on_screen(x, y);
    let touches = |off: egui::Vec2| {
        let rect = egui::Align2::RIGHT_TOP.anchor_size(dot + off, size).expand(3.0);
        // Pieces of a curve are short against words, but for its plateau.
        let passes = |a: egui::Pos2, b: egui::Pos2| {
            (0..=16_u8).any(|i| rect.contains(a + (b - a) * (f32::from(i) / 16.0)))
        };
        lines.iter().any(|line| line.windows(2).any(|pair| matches!(pair, [a, b] if passes(*a, *b))))
    };
    let usual = vec2(0.0, 3.4 * strong);
    let down = [3.4, 2.4, 4.4, 5.4, 6.4, 8.0, 10.0].into_iter();
    let places = down.flat_map(|down| [0.0, 1.5, 3.0, 5.0].map(|left| vec2(-left * strong, down * strong)));
    let frame = *transform.frame();
    let inside = |off: &egui::Vec2| frame.contains(dot + *off + vec2(0.0, size.y));
    places.filter(inside).find(|off| !touches(*off)).unwrap_or(usual)
}

/// The machine's curve before the last change, where it was another one.
fn machine_before(plot: &mut egui_plot::PlotUi, desk: &Desk, scale: PressureScale, per_kg_s: f64) {
    let curve = |answer: Option<&'_ crate::ui::answer::Answer>| {
        answer?.kits.get(desk.scene.hand())?.curves.as_ref().map(|c| c.machine.clone())
    };
    let Some(before) = curve(desk.scene.before()) else { return };
    if curve(desk.scene.answer()).is_none_or(|now| now == before) {
        return;
    }
    let at = |(pressure, rate): &(Pressure, MassRate)| {
        [scale.on(*pressure), rate.get::<kilogram_per_second>() * per_kg_s]
    };
    let top = highest(desk) * per_kg_s;
    let line = Line::new("machine before", up_to(top, before.iter().map(at)));
    let line = line.color(desk.look.palette.ghost).width(desk.look.measures.ghost_line());
    plot.line(line.style(LineStyle::dashed_loose()));
    if let Some(middle) = drawn_point(&before, 0.5, at, top) {
        words(plot, desk, middle, vec2(0.0, 4.0), "before", egui::Align2::LEFT_TOP);
    }
}

/// Says it where a path's curve is level.
fn plateau_ui(
    plot: &mut egui_plot::PlotUi,
    desk: &Desk,
    path: &[(Pressure, MassRate)],
    at: impl Fn(&(Pressure, MassRate)) -> [f64; 2],
) {
    let (Some(first), Some(second)) = (path.first(), path.get(1)) else { return };
    let ([x0, y0], [x1, y1]) = (at(first), at(second));
    if (y0 - y1).abs() <= 1e-6 * y0.abs() && x1 - x0 > 0.05 * at(path.last().unwrap_or(second))[0] {
        let text = "pulling harder does nothing";
        words(plot, desk, [x0, y0], vec2(10.0, -4.0), text, egui::Align2::LEFT_BOTTOM);
    }
}

/// Words so many pixels off a point. Lines pass behind words, not through them.
fn words(
    plot: &mut egui_plot::PlotUi,
    desk: &Desk,
    [x, y]: [f64; 2],
    off: egui::Vec2,
    text: &str,
    anchor: egui::Align2,
) {
    let [per_px_x, per_px_y] = plot.transform().dvalue_dpos();
    let at = [x + per_px_x * f64::from(off.x), y + per_px_y * f64::from(off.y)];
    let p = desk.look.palette;
    let rich = egui::RichText::new(text).font(fonts::bold(desk.look.measures.strong)).color(p.ink);
    let rich = rich.background_color(p.field.gamma_multiply(0.8));
    plot.text(Text::new(text, at.into(), rich).anchor(anchor));
}

fn line_style(kit: usize) -> LineStyle {
    match kit {
        1 => LineStyle::Dashed { length: 12.0 },
        2 => LineStyle::Dotted { spacing: 9.0 },
        3 => LineStyle::Dashed { length: 6.0 },
        // The plot's own solid line grows thin where it is steep; one endless dash does not.
        _ => LineStyle::Dashed { length: 1e6 },
    }
}
