//! The job clock: mass left, rate and system pressure against time, each on a scale of its own.

use uom::si::pressure::pascal;

use super::{Anchor, Dash, Picture, Tone, WIDTH, text_width};
use crate::job::over_time::JobAnswer;
use crate::report::drawing::ticks::{Scale, short};
use crate::report::job_words::phase_name;
use crate::units::UnitSet;
use crate::units::factors::{POUND_KG, PSI_PA};
use uom::si::f64::Pressure;
use uom::si::time::minute;

const LEFT: f32 = 56.0;
const RIGHT: f32 = WIDTH - 12.0;
const TOP: f32 = 22.0;
/// Height of a lane, and the gap below it.
const LANE: f32 = 66.0;
const GAP: f32 = 20.0;
/// A curve is drawn with no more points than this.
const MOST_POINTS: usize = 400;

/// A curve in a lane.
struct Curve<'a> {
    name: String,
    values: &'a [f64],
    per_si: f64,
    only_flow: bool,
    width: f32,
    dash: Dash,
    mark: Option<(f64, String)>,
}

/// The drawing; none without a curve.
pub(in crate::report::pages) fn clock(
    answer: &JobAnswer,
    level: Option<(Pressure, &str)>,
    units: UnitSet,
) -> Option<Picture> {
    let minutes = answer.total.get::<minute>();
    if answer.trace.len() < 2 || !(minutes > 0.0) {
        return None;
    }
    let (mass, rate, pressure) = match units {
        UnitSet::UsTrade => ((1.0 / POUND_KG, "lb"), (60.0 / POUND_KG, "lb/min"), (1.0 / PSI_PA, "psia")),
        UnitSet::Si => ((1.0, "kg"), (60.0, "kg/min"), (1e-5, "bar a")),
    };
    let trace = &answer.trace;
    let curves = [
        Curve {
            name: format!("left in the system, {}", mass.1),
            values: &trace.remaining_kg,
            per_si: mass.0,
            only_flow: false,
            width: 3.2,
            dash: Dash::Solid,
            mark: None,
        },
        Curve {
            name: format!("rate, {}", rate.1),
            values: &trace.rate_kg_s,
            per_si: rate.0,
            only_flow: true,
            width: 1.6,
            dash: Dash::Solid,
            mark: None,
        },
        Curve {
            name: format!("system pressure, {}", pressure.1),
            values: &trace.system_pa,
            per_si: pressure.0,
            only_flow: false,
            width: 2.2,
            dash: Dash::Dots,
            mark: level.map(|(at, words)| (at.get::<pascal>() * pressure.0, format!("level {words}"))),
        },
    ];
    let bottom = TOP + 3.0 * (LANE + GAP);
    let mut picture = Picture::new("Mass left, rate and system pressure against time", bottom + 18.0);
    let time = Scale::across((0.0, minutes), LEFT..=RIGHT);
    phases(&mut picture, answer, time, bottom - GAP);
    for (lane, curve) in curves.iter().enumerate() {
        let top = TOP + (LANE + GAP) * lane as f32;
        draw(&mut picture, answer, curve, time, (top + 16.0, top + LANE + GAP - 4.0));
    }
    times(&mut picture, time, bottom - 4.0);
    Some(picture)
}

fn phases(picture: &mut Picture, answer: &JobAnswer, time: Scale, bottom: f32) {
    for phase in &answer.phases {
        let x = (time.at(phase.start.get::<minute>()), time.at(phase.end.get::<minute>()));
        if !phase.kind.flows() {
            picture.rect(x, (TOP, bottom + GAP - 4.0), Tone::Shade);
        }
        picture.line(&[(x.0, TOP - 12.0), (x.0, bottom + GAP - 4.0)], Tone::Rule, 0.8, Dash::Solid);
        let name = phase_name(phase.kind);
        if text_width(name) + 6.0 < x.1 - x.0 {
            picture.text((x.0 + 4.0, TOP - 4.0), name, Anchor::Start);
        }
    }
}

fn draw(picture: &mut Picture, answer: &JobAnswer, curve: &Curve, time: Scale, y: (f32, f32)) {
    let trace = &answer.trace;
    let highest = curve.values.iter().copied().filter(|value| value.is_finite()).fold(0.0, f64::max);
    let top = (highest * curve.per_si).max(1e-12);
    let up = Scale::up((0.0, 1.05 * top), y.0..=y.1);
    picture.line(&[(LEFT, y.0 - 2.0), (LEFT, y.1), (RIGHT, y.1)], Tone::Ink, 1.0, Dash::Solid);
    for tick in up.ticks(24.0) {
        picture.text((LEFT - 5.0, up.at(tick) + 4.5), short(tick), Anchor::End);
        picture.line(&[(LEFT - 3.0, up.at(tick)), (LEFT, up.at(tick))], Tone::Ink, 1.0, Dash::Solid);
    }
    if let Some((level, _)) = &curve.mark {
        picture.line(&[(LEFT, up.at(*level)), (RIGHT, up.at(*level))], Tone::Ink, 1.0, Dash::Reference);
    }
    let stride = trace.len().div_ceil(MOST_POINTS).max(1);
    let mut stretch: Vec<(f32, f32)> = Vec::new();
    let mut before = None;
    for at in 0..trace.len() {
        let phase = trace.phase.get(at).copied();
        let is_last = at + 1 == trace.len() || phase != trace.phase.get(at + 1).copied();
        let is_first = phase != before;
        before = phase;
        if !(is_first || is_last || at % stride == 0) {
            continue;
        }
        let flows = phase.and_then(|phase| answer.phases.get(phase)).is_some_and(|phase| phase.kind.flows());
        if curve.only_flow && !flows {
            flush(picture, curve, &mut stretch);
            continue;
        }
        let (Some(seconds), Some(value)) = (trace.time_s.get(at), curve.values.get(at)) else { continue };
        stretch.push((time.at(seconds / 60.0), up.at(value * curve.per_si)));
    }
    flush(picture, curve, &mut stretch);
    let words = curve.mark.as_ref().map(|(_, words)| format!("; dash-dot line: {words}")).unwrap_or_default();
    let said = format!("{}{words}", curve.name);
    let right = RIGHT - 4.0;
    let half = (right - text_width(&said) - 4.0, right + 2.0);
    picture.rect(half, (y.0 - 14.0, y.0 + 1.0), Tone::Sheet);
    picture.bold((right, y.0 - 2.0), said, Anchor::End);
}

fn flush(picture: &mut Picture, curve: &Curve, stretch: &mut Vec<(f32, f32)>) {
    if stretch.len() > 1 {
        picture.line(stretch, Tone::Level, curve.width, curve.dash);
    }
    stretch.clear();
}

fn times(picture: &mut Picture, time: Scale, y: f32) {
    let minutes = time.values.1;
    let (unit, name) = if minutes >= 180.0 { (60.0, "h") } else { (1.0, "min") };
    for tick in time.time_ticks(64.0) {
        let x = time.at(tick);
        picture.line(&[(x, y), (x, y + 4.0)], Tone::Ink, 1.0, Dash::Solid);
        let anchor = if x > RIGHT - 20.0 { Anchor::End } else { Anchor::Middle };
        picture.text((x, y + 17.0), format!("{} {name}", short(tick / unit)), anchor);
    }
}
