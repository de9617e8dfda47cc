//! The parts that refrigerant passes through, from vessel to cylinder.

use egui::Color32;

use super::pen::{AXIS, BOX, Pen};
use super::{JOINT_HALF, JOINT_WALL, Symbol, Tints, half_of};

const F: f32 = JOINT_HALF;

/// Draws one flow part.
pub fn paint(symbol: Symbol, pen: &Pen, t: Tints) {
    match symbol {
        Symbol::Vessel { liquid_ratio } => vessel(pen, t, liquid_ratio),
        Symbol::Cylinder { liquid_ratio } => cylinder(pen, t, liquid_ratio),
        Symbol::Pipe => {
            pen.rect(0.0, AXIS - F - JOINT_WALL, pen.width, 2.0 * (F + JOINT_WALL), t.wall);
            pen.rect(-0.5, AXIS - F, pen.width + 1.0, 2.0 * F, t.fluid);
        }
        Symbol::Hose { bore_mm } => hose(pen, t, half_of(bore_mm)),
        Symbol::CoreIn { hole_mm } => core_in(pen, t, half_of(hole_mm)),
        Symbol::CoreRemoved { hole_mm } => core_removed(pen, t, half_of(hole_mm)),
        Symbol::BallValve { hole_mm } => ball_valve(pen, t, half_of(hole_mm)),
        Symbol::SelfSealingEnd { hole_mm } => self_sealing(pen, t, half_of(hole_mm)),
        Symbol::GaugeSet { hole_mm, seats } => gauge_set(pen, t, half_of(hole_mm), seats),
        Symbol::FilterDrier { loaded } => filter_drier(pen, t, loaded),
        Symbol::SightGlass { hole_mm } => sight_glass(pen, t, half_of(hole_mm)),
        Symbol::Screen { hole_mm } => screen(pen, t, half_of(hole_mm)),
        Symbol::Tee { hole_mm } => tee(pen, t, half_of(hole_mm)),
        Symbol::Adapter { hole_mm } => adapter(pen, t, half_of(hole_mm)),
        Symbol::Seat { hole_mm } => seat(pen, t, half_of(hole_mm)),
        Symbol::Machine => machine(pen, t),
        _ => {}
    }
}

/// Solid from `a` to `b`, `half` to each side of the axis.
fn body(pen: &Pen, a: f32, b: f32, half: f32, wall: Color32) {
    pen.rect(a, AXIS - half, b - a, 2.0 * half, wall);
}

/// A flare nut in section.
fn nut(pen: &Pen, x: f32, wall: Color32) {
    let (h, w) = (17.0, 6.0);
    let points = [
        (x - w, AXIS - h + 4.0),
        (x - w + 3.0, AXIS - h),
        (x + w - 3.0, AXIS - h),
        (x + w, AXIS - h + 4.0),
        (x + w, AXIS + h - 4.0),
        (x + w - 3.0, AXIS + h),
        (x - w + 3.0, AXIS + h),
        (x - w, AXIS + h - 4.0),
    ];
    pen.convex(&points, wall);
}

/// The passage: joints at both ends, the stations between.
fn passage(pen: &Pen, stations: &[(f32, f32)], fluid: Color32) {
    let mut all = vec![(-0.5, F)];
    all.extend_from_slice(stations);
    all.push((BOX + 0.5, F));
    pen.channel(&all, fluid);
}

fn vessel(pen: &Pen, t: Tints, liquid_ratio: f32) {
    pen.round_rect(6.0, 10.0, 74.0, 76.0, 14.0, t.wall);
    pen.round_rect(13.0, 17.0, 60.0, 62.0, 8.0, t.fluid);
    let top = 79.0 - 62.0 * liquid_ratio.clamp(0.0, 1.0);
    if liquid_ratio > 0.0 {
        let top = top.min(70.0);
        pen.rect(13.0, top, 60.0, 71.0 - top, t.liquid);
        pen.convex(&[(13.0, 71.0), (73.0, 71.0), (65.0, 79.0), (21.0, 79.0)], t.liquid);
        if !pen.is_small() && top < 60.0 {
            let dashes = [(22.0, 7.0), (38.0, 7.0), (54.0, 7.0), (22.0, 14.0), (46.0, 14.0)];
            for (x, dy) in dashes {
                pen.line(&[(x, top + dy), (x + 8.0, top + dy)], 2.0, t.sheet);
            }
        }
    }
    body(pen, 78.0, BOX, F + 5.0, t.wall);
    pen.rect(72.0, AXIS - F, 24.5, 2.0 * F, t.fluid);
}

fn cylinder(pen: &Pen, t: Tints, liquid_ratio: f32) {
    let riser = [(0.0, 48.0), (10.0, 48.0), (10.0, 9.0), (49.0, 9.0), (49.0, 22.0)];
    let (outer, inner) = if pen.is_small() { (13.0, 5.0) } else { (2.0 * F + 8.0, 2.0 * F - 3.0) };
    pen.line(&riser, outer, t.wall);
    pen.line(&riser, inner, t.fluid);
    pen.rect(42.0, 18.0, 14.0, 10.0, t.wall);
    let shell = [
        (26.0, 38.0),
        (34.0, 26.0),
        (64.0, 26.0),
        (72.0, 38.0),
        (72.0, 74.0),
        (66.0, 80.0),
        (32.0, 80.0),
        (26.0, 74.0),
    ];
    pen.convex(&shell, t.wall);
    let inside = [
        (32.0, 40.0),
        (37.0, 32.0),
        (61.0, 32.0),
        (66.0, 40.0),
        (66.0, 72.0),
        (63.0, 74.0),
        (35.0, 74.0),
        (32.0, 72.0),
    ];
    pen.convex(&inside, t.fluid);
    if liquid_ratio > 0.0 {
        let top = (74.0 - 34.0 * liquid_ratio.clamp(0.0, 1.0)).min(70.0);
        pen.rect(32.0, top, 34.0, 72.0 - top, t.liquid);
        pen.convex(&[(32.0, 71.5), (66.0, 71.5), (63.0, 74.0), (35.0, 74.0)], t.liquid);
    }
    if !pen.is_small() {
        pen.line(&[(49.0, 27.0), (49.0, 68.0)], 2.5, t.wall);
    }
    pen.rect(16.0, 83.0, 66.0, 5.0, t.wall);
    pen.convex(&[(22.0, 88.0), (76.0, 88.0), (80.0, 95.0), (18.0, 95.0)], t.wall);
    if !pen.is_small() {
        pen.rect(40.0, 89.5, 18.0, 4.0, t.sheet);
    }
}

fn hose(pen: &Pen, t: Tints, half: f32) {
    let w = pen.width;
    let wall = half + 5.0;
    pen.rect(0.0, AXIS - wall, w, 2.0 * wall, t.wall);
    for end in [8.0, w - 24.0] {
        pen.round_rect(end, AXIS - wall - 6.0, 16.0, 2.0 * wall + 12.0, 2.0, t.wall);
        if !pen.is_small() {
            for j in [5.0, 10.0] {
                pen.rect(end + j, AXIS - wall - 6.0, 1.8, 7.0, t.sheet);
                pen.rect(end + j, AXIS + wall - 1.0, 1.8, 7.0, t.sheet);
            }
        }
    }
    pen.channel(&[(-0.5, half), (w + 0.5, half)], t.fluid);
}

fn core_in(pen: &Pen, t: Tints, n: f32) {
    body(pen, 0.0, BOX, F + 6.0, t.wall);
    body(pen, 14.0, 76.0, 30.0, t.wall);
    let n = n.min(26.0);
    let pocket = [(20.0, F), (20.0, 15.0), (36.0, 15.0), (42.0, n), (62.0, n), (68.0, F)];
    passage(pen, &pocket, t.fluid);
    // The poppet and its spring, pushed back: what is left is the narrow.
    pen.convex(&[(20.0, 45.4), (40.0, 46.8), (40.0, 49.2), (20.0, 50.6)], t.wall);
    if pen.is_small() {
        pen.line(&[(23.0, 36.0), (31.0, 60.0)], 3.0, t.wall);
    } else {
        pen.line(&[(22.0, 35.0), (26.0, 61.0), (30.0, 35.0), (34.0, 61.0)], 2.2, t.wall);
    }
}

fn core_removed(pen: &Pen, t: Tints, n: f32) {
    body(pen, 0.0, BOX, F + 6.0, t.wall);
    body(pen, 14.0, 76.0, (n + 12.0).max(30.0), t.wall);
    passage(pen, &[(18.0, F), (24.0, n), (66.0, n), (72.0, F)], t.fluid);
    if pen.is_small() {
        pen.convex(&[(38.0, 16.0), (48.0, 2.0), (58.0, 16.0)], t.wall);
    } else {
        pen.convex(&[(40.0, 22.0), (48.0, 32.0), (56.0, 22.0)], t.sheet);
        pen.line(&[(48.0, 6.0), (48.0, 18.0)], 3.0, t.wall);
        pen.convex(&[(42.0, 8.0), (48.0, 0.0), (54.0, 8.0)], t.wall);
    }
}

fn ball_valve(pen: &Pen, t: Tints, n: f32) {
    body(pen, 0.0, BOX, F.max(n) + 5.0, t.wall);
    nut(pen, 10.0, t.wall);
    nut(pen, 86.0, t.wall);
    pen.disc(AXIS, AXIS, 29.0_f32.max(n + 8.0), t.wall);
    if !pen.is_small() {
        pen.disc(AXIS, AXIS, 22.0, t.sheet);
    }
    pen.disc(AXIS, AXIS, 19.0, t.wall);
    passage(pen, &[(24.0, F), (29.0, n), (67.0, n), (72.0, F)], t.fluid);
    pen.rect(44.0, 8.0, 8.0, 14.0, t.wall);
    pen.round_rect(40.0, 4.0, 48.0, 8.0, 3.0, t.wall);
}

fn self_sealing(pen: &Pen, t: Tints, n: f32) {
    body(pen, 0.0, BOX, F + 6.0, t.wall);
    body(pen, 12.0, 84.0, 24.0, t.wall);
    passage(pen, &[(26.0, F), (38.0, 17.0), (60.0, 17.0), (72.0, F)], t.fluid);
    // The plunger leaves two slits that together are as high as the hole-equivalent.
    let plunger = (17.0 - n).clamp(3.0, 15.8);
    pen.convex(&[(27.0, 48.0), (49.0, 48.0 - plunger), (71.0, 48.0), (49.0, 48.0 + plunger)], t.wall);
    pen.round_rect(0.0, 20.0, 10.0, 56.0, 2.0, t.wall);
    pen.channel(&[(-0.5, F), (12.0, F)], t.fluid);
}

fn gauge_set(pen: &Pen, t: Tints, n: f32, seats: usize) {
    body(pen, 0.0, BOX, F + 6.0, t.wall);
    body(pen, 6.0, 90.0, 17.0, t.wall);
    let n = n.min(14.0);
    let mut stations = Vec::new();
    for i in 0..seats.clamp(1, 4) {
        let x = BOX * (i as f32 + 1.0) / (seats.clamp(1, 4) as f32 + 1.0);
        stations.extend([(x - 7.0, F), (x - 3.0, n), (x + 3.0, n), (x + 7.0, F)]);
    }
    passage(pen, &stations, t.fluid);
    for (cx, angle) in [(29.0, -0.7_f32), (67.0, 0.5)] {
        pen.rect(cx - 3.0, 28.0, 6.0, 6.0, t.wall);
        pen.disc(cx, 15.0, 16.5, t.wall);
        pen.disc(cx, 15.0, if pen.is_small() { 11.0 } else { 12.5 }, t.sheet);
        let tip = (cx + 10.0 * angle.sin(), 15.0 - 10.0 * angle.cos());
        pen.line(&[(cx, 15.0), tip], 2.4, t.wall);
        if !pen.is_small() {
            pen.disc(cx, 15.0, 2.0, t.wall);
        }
    }
    for cx in [31.0, 65.0] {
        pen.rect(cx - 3.0, 64.0, 6.0, 8.0, t.wall);
        pen.round_rect(cx - 10.0, 72.0, 20.0, 7.0, 2.0, t.wall);
    }
}

fn filter_drier(pen: &Pen, t: Tints, loaded: bool) {
    body(pen, 0.0, BOX, F + 4.0, t.wall);
    let shell = |a: f32, b: f32, top: f32, half: f32| {
        let (c, d) = (BOX - b, BOX - a);
        let (high, low) = (AXIS - half, AXIS + half);
        let bottom = BOX - top;
        [(a, high), (b, top), (c, top), (d, high), (d, low), (c, bottom), (b, bottom), (a, low)]
    };
    pen.convex(&shell(8.0, 22.0, 18.0, F + 4.0), t.wall);
    pen.convex(&shell(12.0, 25.0, 23.0, F), t.fluid);
    pen.rect(26.0, 23.0, 4.0, 50.0, t.wall);
    pen.rect(66.0, 23.0, 4.0, 50.0, t.wall);
    let (step, r) = match (pen.is_small(), loaded) {
        (true, _) => (12.0, 4.0),
        (false, true) => (8.0, 3.7),
        (false, false) => (9.0, 2.6),
    };
    let mut y = 28.0;
    let mut odd = false;
    while y <= 70.0 {
        let mut x = if odd { 36.0 + step / 2.0 } else { 36.0 };
        while x <= 62.0 {
            pen.disc(x, y, r, t.wall);
            x += step;
        }
        y += step * 0.86;
        odd = !odd;
    }
    pen.channel(&[(-0.5, F), (12.5, F)], t.fluid);
    pen.channel(&[(83.5, F), (BOX + 0.5, F)], t.fluid);
}

fn sight_glass(pen: &Pen, t: Tints, n: f32) {
    body(pen, 0.0, BOX, F.max(n) + 5.0, t.wall);
    nut(pen, 10.0, t.wall);
    nut(pen, 86.0, t.wall);
    let hex = [(20.0, 48.0), (34.0, 22.0), (62.0, 22.0), (76.0, 48.0), (62.0, 74.0), (34.0, 74.0)];
    pen.convex(&hex, t.wall);
    passage(pen, &[(22.0, F), (28.0, n), (68.0, n), (74.0, F)], t.fluid);
    pen.disc(AXIS, AXIS, 19.0, t.sheet);
    pen.disc(AXIS, AXIS, 16.0, t.fluid);
    for (x, y, r) in [(42.0, 52.0, 5.0), (54.0, 44.0, 4.0), (53.0, 56.0, 2.6)] {
        pen.disc(x, y, r, t.sheet);
        pen.ring(x, y, r, 1.6, t.wall);
    }
}

fn screen(pen: &Pen, t: Tints, n: f32) {
    body(pen, 0.0, BOX, F + 5.0, t.wall);
    body(pen, 20.0, 76.0, F.max(n) + 14.0, t.wall);
    passage(pen, &[(26.0, F), (34.0, n.max(F)), (62.0, n.max(F)), (70.0, F)], t.fluid);
    for i in 0..5 {
        let x = 38.0 + 5.0 * i as f32;
        pen.line(&[(x, AXIS - F), (x, AXIS + F)], 1.8, t.wall);
    }
    nut(pen, 88.0, t.wall);
}

fn tee(pen: &Pen, t: Tints, n: f32) {
    body(pen, 0.0, BOX, F + 5.0, t.wall);
    pen.rect(AXIS - n - 5.0, 4.0, 2.0 * n + 10.0, 44.0, t.wall);
    nut(pen, 8.0, t.wall);
    nut(pen, 88.0, t.wall);
    pen.rect(31.0, 4.0, 34.0, 12.0, t.wall);
    passage(pen, &[(20.0, F), (26.0, n), (70.0, n), (76.0, F)], t.fluid);
    pen.rect(AXIS - n, 0.0, 2.0 * n, 48.0, t.fluid);
}

fn adapter(pen: &Pen, t: Tints, n: f32) {
    body(pen, 0.0, BOX, F + 5.0, t.wall);
    body(pen, 22.0, 74.0, F.max(n) + 10.0, t.wall);
    nut(pen, 12.0, t.wall);
    nut(pen, 84.0, t.wall);
    passage(pen, &[(32.0, F), (38.0, n), (58.0, n), (64.0, F)], t.fluid);
}

fn seat(pen: &Pen, t: Tints, n: f32) {
    body(pen, 0.0, BOX, F + 5.0, t.wall);
    body(pen, 18.0, 78.0, 22.0, t.wall);
    passage(pen, &[(34.0, F), (43.0, n), (53.0, n), (62.0, F)], t.fluid);
    // The stem that lifts off the seat.
    pen.convex(&[(44.0, 8.0), (52.0, 8.0), (52.0, 40.0 - n), (44.0, 40.0 - n)], t.wall);
    pen.round_rect(34.0, 4.0, 28.0, 8.0, 2.0, t.wall);
}

fn machine(pen: &Pen, t: Tints) {
    pen.line(&[(30.0, 14.0), (30.0, 4.0), (66.0, 4.0), (66.0, 14.0)], 6.0, t.wall);
    body(pen, 0.0, BOX, F + 5.0, t.wall);
    pen.round_rect(8.0, 12.0, 80.0, 74.0, 5.0, t.wall);
    pen.round_rect(14.0, 18.0, 68.0, 62.0, 2.0, t.sheet);
    pen.channel(&[(-0.5, F), (14.0, F)], t.fluid);
    pen.channel(&[(82.0, F), (BOX + 0.5, F)], t.fluid);
    if pen.is_small() {
        pen.rect(32.0, 24.0, 32.0, 30.0, t.wall);
        pen.rect(39.0, 30.0, 18.0, 10.0, t.sheet);
        pen.disc(48.0, 66.0, 12.0, t.wall);
    } else {
        pen.rect(30.0, 22.0, 36.0, 6.0, t.wall);
        pen.rect(30.0, 22.0, 6.0, 30.0, t.wall);
        pen.rect(60.0, 22.0, 6.0, 30.0, t.wall);
        pen.rect(36.0, 28.0, 24.0, 8.0, t.fluid);
        pen.rect(37.0, 36.0, 22.0, 10.0, t.wall);
        pen.line(&[(48.0, 44.0), (54.0, 66.0)], 4.0, t.wall);
        pen.ring(48.0, 68.0, 10.0, 4.0, t.wall);
        pen.disc(54.0, 66.0, 3.0, t.wall);
        for x in [14.0, 66.0] {
            pen.rect(x, AXIS - F - 3.0, 16.0, 2.0 * F + 6.0, t.wall);
            pen.rect(x, AXIS - F, 16.0, 2.0 * F, t.fluid);
        }
    }
    pen.rect(12.0, 86.0, 12.0, 6.0, t.wall);
    pen.rect(72.0, 86.0, 12.0, 6.0, t.wall);
}
