//! The parts that refrigerant passes through, from vessel to cylinder.

use super::pen::{AXIS, BOX, Pen};
use super::{Ink, JOINT_HALF, JOINT_WALL, Symbol, half_of};

const F: f32 = JOINT_HALF;

/// Draws one flow part.
pub fn paint(symbol: Symbol, pen: &mut Pen) {
    match symbol {
        Symbol::Vessel { liquid_ratio } => vessel(pen, liquid_ratio),
        Symbol::Cylinder { liquid_ratio } => cylinder(pen, liquid_ratio),
        Symbol::Pipe => {
            pen.rect(0.0, AXIS - F - JOINT_WALL, pen.width, 2.0 * (F + JOINT_WALL), Ink::Wall);
            pen.rect(-0.5, AXIS - F, pen.width + 1.0, 2.0 * F, Ink::Fluid);
        }
        Symbol::Hose { bore_mm } => hose(pen, half_of(bore_mm)),
        Symbol::CoreIn { hole_mm } => core_in(pen, half_of(hole_mm)),
        Symbol::CoreRemoved { hole_mm } => core_removed(pen, half_of(hole_mm)),
        Symbol::BallValve { hole_mm } => ball_valve(pen, half_of(hole_mm)),
        Symbol::SelfSealingEnd { hole_mm } => self_sealing(pen, half_of(hole_mm)),
        Symbol::GaugeSet { hole_mm, seats } => gauge_set(pen, half_of(hole_mm), seats),
        Symbol::FilterDrier { loaded } => filter_drier(pen, loaded),
        Symbol::SightGlass { hole_mm } => sight_glass(pen, half_of(hole_mm)),
        Symbol::Screen { hole_mm } => screen(pen, half_of(hole_mm)),
        Symbol::Tee { hole_mm } => tee(pen, half_of(hole_mm)),
        Symbol::Adapter { hole_mm } => adapter(pen, half_of(hole_mm)),
        Symbol::Seat { hole_mm } => seat(pen, half_of(hole_mm)),
        Symbol::Machine => machine(pen),
        _ => {}
    }
}

/// Solid from `a` to `b`, `half` to each side of the axis.
fn body(pen: &mut Pen, a: f32, b: f32, half: f32, wall: Ink) {
    pen.rect(a, AXIS - half, b - a, 2.0 * half, wall);
}

/// A flare nut in section.
fn nut(pen: &mut Pen, x: f32, wall: Ink) {
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
fn passage(pen: &mut Pen, stations: &[(f32, f32)], fluid: Ink) {
    let mut all = vec![(-0.5, F)];
    all.extend_from_slice(stations);
    all.push((BOX + 0.5, F));
    pen.channel(&all, fluid);
}

fn vessel(pen: &mut Pen, liquid_ratio: f32) {
    pen.round_rect(6.0, 10.0, 74.0, 76.0, 14.0, Ink::Wall);
    pen.round_rect(13.0, 17.0, 60.0, 62.0, 8.0, Ink::Fluid);
    let top = 79.0 - 62.0 * liquid_ratio.clamp(0.0, 1.0);
    if liquid_ratio > 0.0 {
        let top = top.min(70.0);
        pen.rect(13.0, top, 60.0, 71.0 - top, Ink::Liquid);
        pen.convex(&[(13.0, 71.0), (73.0, 71.0), (65.0, 79.0), (21.0, 79.0)], Ink::Liquid);
        if !pen.is_small() && top < 60.0 {
            let dashes = [(22.0, 7.0), (38.0, 7.0), (54.0, 7.0), (22.0, 14.0), (46.0, 14.0)];
            for (x, dy) in dashes {
                pen.line(&[(x, top + dy), (x + 8.0, top + dy)], 2.0, Ink::Sheet);
            }
        }
    }
    body(pen, 78.0, BOX, F + 5.0, Ink::Wall);
    pen.rect(72.0, AXIS - F, 24.5, 2.0 * F, Ink::Fluid);
}

fn cylinder(pen: &mut Pen, liquid_ratio: f32) {
    let riser = [(0.0, 48.0), (10.0, 48.0), (10.0, 9.0), (49.0, 9.0), (49.0, 22.0)];
    let (outer, inner) = if pen.is_small() { (13.0, 5.0) } else { (2.0 * F + 8.0, 2.0 * F - 3.0) };
    pen.line(&riser, outer, Ink::Wall);
    pen.line(&riser, inner, Ink::Fluid);
    pen.rect(42.0, 18.0, 14.0, 10.0, Ink::Wall);
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
    pen.convex(&shell, Ink::Wall);
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
    pen.convex(&inside, Ink::Fluid);
    if liquid_ratio > 0.0 {
        let top = (74.0 - 34.0 * liquid_ratio.clamp(0.0, 1.0)).min(70.0);
        pen.rect(32.0, top, 34.0, 72.0 - top, Ink::Liquid);
        pen.convex(&[(32.0, 71.5), (66.0, 71.5), (63.0, 74.0), (35.0, 74.0)], Ink::Liquid);
    }
    if !pen.is_small() {
        pen.line(&[(49.0, 27.0), (49.0, 68.0)], 2.5, Ink::Wall);
    }
    pen.rect(16.0, 83.0, 66.0, 5.0, Ink::Wall);
    pen.convex(&[(22.0, 88.0), (76.0, 88.0), (80.0, 95.0), (18.0, 95.0)], Ink::Wall);
    if !pen.is_small() {
        pen.rect(40.0, 89.5, 18.0, 4.0, Ink::Sheet);
    }
}

fn hose(pen: &mut Pen, half: f32) {
    let w = pen.width;
    let wall = half + 5.0;
    pen.rect(0.0, AXIS - wall, w, 2.0 * wall, Ink::Wall);
    for end in [8.0, w - 24.0] {
        pen.round_rect(end, AXIS - wall - 6.0, 16.0, 2.0 * wall + 12.0, 2.0, Ink::Wall);
        if !pen.is_small() {
            for j in [5.0, 10.0] {
                pen.rect(end + j, AXIS - wall - 6.0, 1.8, 7.0, Ink::Sheet);
                pen.rect(end + j, AXIS + wall - 1.0, 1.8, 7.0, Ink::Sheet);
            }
        }
    }
    pen.channel(&[(-0.5, half), (w + 0.5, half)], Ink::Fluid);
}

fn core_in(pen: &mut Pen, n: f32) {
    body(pen, 0.0, BOX, F + 6.0, Ink::Wall);
    body(pen, 14.0, 76.0, 30.0, Ink::Wall);
    let n = n.min(26.0);
    let pocket = [(20.0, F), (20.0, 15.0), (36.0, 15.0), (42.0, n), (62.0, n), (68.0, F)];
    passage(pen, &pocket, Ink::Fluid);
    // The poppet and its spring, pushed back: what is left is the narrow.
    pen.convex(&[(20.0, 45.4), (40.0, 46.8), (40.0, 49.2), (20.0, 50.6)], Ink::Wall);
    if pen.is_small() {
        pen.line(&[(23.0, 36.0), (31.0, 60.0)], 3.0, Ink::Wall);
    } else {
        pen.line(&[(22.0, 35.0), (26.0, 61.0), (30.0, 35.0), (34.0, 61.0)], 2.2, Ink::Wall);
    }
}

fn core_removed(pen: &mut Pen, n: f32) {
    body(pen, 0.0, BOX, F + 6.0, Ink::Wall);
    body(pen, 14.0, 76.0, (n + 12.0).max(30.0), Ink::Wall);
    passage(pen, &[(18.0, F), (24.0, n), (66.0, n), (72.0, F)], Ink::Fluid);
    if pen.is_small() {
        pen.convex(&[(38.0, 16.0), (48.0, 2.0), (58.0, 16.0)], Ink::Wall);
    } else {
        pen.convex(&[(40.0, 22.0), (48.0, 32.0), (56.0, 22.0)], Ink::Sheet);
        pen.line(&[(48.0, 6.0), (48.0, 18.0)], 3.0, Ink::Wall);
        pen.convex(&[(42.0, 8.0), (48.0, 0.0), (54.0, 8.0)], Ink::Wall);
    }
}

fn ball_valve(pen: &mut Pen, n: f32) {
    body(pen, 0.0, BOX, F.max(n) + 5.0, Ink::Wall);
    nut(pen, 10.0, Ink::Wall);
    nut(pen, 86.0, Ink::Wall);
    pen.disc(AXIS, AXIS, 29.0_f32.max(n + 8.0), Ink::Wall);
    if !pen.is_small() {
        pen.disc(AXIS, AXIS, 22.0, Ink::Sheet);
    }
    pen.disc(AXIS, AXIS, 19.0, Ink::Wall);
    passage(pen, &[(24.0, F), (29.0, n), (67.0, n), (72.0, F)], Ink::Fluid);
    pen.rect(44.0, 8.0, 8.0, 14.0, Ink::Wall);
    pen.round_rect(40.0, 4.0, 48.0, 8.0, 3.0, Ink::Wall);
}

fn self_sealing(pen: &mut Pen, n: f32) {
    body(pen, 0.0, BOX, F + 6.0, Ink::Wall);
    body(pen, 12.0, 84.0, 24.0, Ink::Wall);
    passage(pen, &[(26.0, F), (38.0, 17.0), (60.0, 17.0), (72.0, F)], Ink::Fluid);
    // The plunger leaves two slits that together are as high as the hole-equivalent.
    let plunger = (17.0 - n).clamp(3.0, 15.8);
    pen.convex(&[(27.0, 48.0), (49.0, 48.0 - plunger), (71.0, 48.0), (49.0, 48.0 + plunger)], Ink::Wall);
    pen.round_rect(0.0, 20.0, 10.0, 56.0, 2.0, Ink::Wall);
    pen.channel(&[(-0.5, F), (12.0, F)], Ink::Fluid);
}

fn gauge_set(pen: &mut Pen, n: f32, seats: usize) {
    body(pen, 0.0, BOX, F + 6.0, Ink::Wall);
    body(pen, 6.0, 90.0, 17.0, Ink::Wall);
    let n = n.min(14.0);
    let mut stations = Vec::new();
    for i in 0..seats.clamp(1, 4) {
        let x = BOX * (i as f32 + 1.0) / (seats.clamp(1, 4) as f32 + 1.0);
        stations.extend([(x - 7.0, F), (x - 3.0, n), (x + 3.0, n), (x + 7.0, F)]);
    }
    passage(pen, &stations, Ink::Fluid);
    for (cx, angle) in [(29.0, -0.7_f32), (67.0, 0.5)] {
        pen.rect(cx - 3.0, 28.0, 6.0, 6.0, Ink::Wall);
        pen.disc(cx, 15.0, 16.5, Ink::Wall);
        pen.disc(cx, 15.0, if pen.is_small() { 11.0 } else { 12.5 }, Ink::Sheet);
        let tip = (cx + 10.0 * angle.sin(), 15.0 - 10.0 * angle.cos());
        pen.line(&[(cx, 15.0), tip], 2.4, Ink::Wall);
        if !pen.is_small() {
            pen.disc(cx, 15.0, 2.0, Ink::Wall);
        }
    }
    for cx in [31.0, 65.0] {
        pen.rect(cx - 3.0, 64.0, 6.0, 8.0, Ink::Wall);
        pen.round_rect(cx - 10.0, 72.0, 20.0, 7.0, 2.0, Ink::Wall);
    }
}

fn filter_drier(pen: &mut Pen, loaded: bool) {
    body(pen, 0.0, BOX, F + 4.0, Ink::Wall);
    let shell = |a: f32, b: f32, top: f32, half: f32| {
        let (c, d) = (BOX - b, BOX - a);
        let (high, low) = (AXIS - half, AXIS + half);
        let bottom = BOX - top;
        [(a, high), (b, top), (c, top), (d, high), (d, low), (c, bottom), (b, bottom), (a, low)]
    };
    pen.convex(&shell(8.0, 22.0, 18.0, F + 4.0), Ink::Wall);
    pen.convex(&shell(12.0, 25.0, 23.0, F), Ink::Fluid);
    pen.rect(26.0, 23.0, 4.0, 50.0, Ink::Wall);
    pen.rect(66.0, 23.0, 4.0, 50.0, Ink::Wall);
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
            pen.disc(x, y, r, Ink::Wall);
            x += step;
        }
        y += step * 0.86;
        odd = !odd;
    }
    pen.channel(&[(-0.5, F), (12.5, F)], Ink::Fluid);
    pen.channel(&[(83.5, F), (BOX + 0.5, F)], Ink::Fluid);
}

fn sight_glass(pen: &mut Pen, n: f32) {
    body(pen, 0.0, BOX, F.max(n) + 5.0, Ink::Wall);
    nut(pen, 10.0, Ink::Wall);
    nut(pen, 86.0, Ink::Wall);
    let hex = [(20.0, 48.0), (34.0, 22.0), (62.0, 22.0), (76.0, 48.0), (62.0, 74.0), (34.0, 74.0)];
    pen.convex(&hex, Ink::Wall);
    passage(pen, &[(22.0, F), (28.0, n), (68.0, n), (74.0, F)], Ink::Fluid);
    pen.disc(AXIS, AXIS, 19.0, Ink::Sheet);
    pen.disc(AXIS, AXIS, 16.0, Ink::Fluid);
    for (x, y, r) in [(42.0, 52.0, 5.0), (54.0, 44.0, 4.0), (53.0, 56.0, 2.6)] {
        pen.disc(x, y, r, Ink::Sheet);
        pen.ring(x, y, r, 1.6, Ink::Wall);
    }
}

fn screen(pen: &mut Pen, n: f32) {
    body(pen, 0.0, BOX, F + 5.0, Ink::Wall);
    body(pen, 20.0, 76.0, F.max(n) + 14.0, Ink::Wall);
    passage(pen, &[(26.0, F), (34.0, n.max(F)), (62.0, n.max(F)), (70.0, F)], Ink::Fluid);
    for i in 0..5 {
        let x = 38.0 + 5.0 * i as f32;
        pen.line(&[(x, AXIS - F), (x, AXIS + F)], 1.8, Ink::Wall);
    }
    nut(pen, 88.0, Ink::Wall);
}

fn tee(pen: &mut Pen, n: f32) {
    body(pen, 0.0, BOX, F + 5.0, Ink::Wall);
    pen.rect(AXIS - n - 5.0, 4.0, 2.0 * n + 10.0, 44.0, Ink::Wall);
    nut(pen, 8.0, Ink::Wall);
    nut(pen, 88.0, Ink::Wall);
    pen.rect(31.0, 4.0, 34.0, 12.0, Ink::Wall);
    passage(pen, &[(20.0, F), (26.0, n), (70.0, n), (76.0, F)], Ink::Fluid);
    pen.rect(AXIS - n, 0.0, 2.0 * n, 48.0, Ink::Fluid);
}

fn adapter(pen: &mut Pen, n: f32) {
    body(pen, 0.0, BOX, F + 5.0, Ink::Wall);
    body(pen, 22.0, 74.0, F.max(n) + 10.0, Ink::Wall);
    nut(pen, 12.0, Ink::Wall);
    nut(pen, 84.0, Ink::Wall);
    passage(pen, &[(32.0, F), (38.0, n), (58.0, n), (64.0, F)], Ink::Fluid);
}

fn seat(pen: &mut Pen, n: f32) {
    body(pen, 0.0, BOX, F + 5.0, Ink::Wall);
    body(pen, 18.0, 78.0, 22.0, Ink::Wall);
    passage(pen, &[(34.0, F), (43.0, n), (53.0, n), (62.0, F)], Ink::Fluid);
    // The stem that lifts off the seat.
    pen.convex(&[(44.0, 8.0), (52.0, 8.0), (52.0, 40.0 - n), (44.0, 40.0 - n)], Ink::Wall);
    pen.round_rect(34.0, 4.0, 28.0, 8.0, 2.0, Ink::Wall);
}

fn machine(pen: &mut Pen) {
    pen.line(&[(30.0, 14.0), (30.0, 4.0), (66.0, 4.0), (66.0, 14.0)], 6.0, Ink::Wall);
    body(pen, 0.0, BOX, F + 5.0, Ink::Wall);
    pen.round_rect(8.0, 12.0, 80.0, 74.0, 5.0, Ink::Wall);
    pen.round_rect(14.0, 18.0, 68.0, 62.0, 2.0, Ink::Sheet);
    pen.channel(&[(-0.5, F), (14.0, F)], Ink::Fluid);
    pen.channel(&[(82.0, F), (BOX + 0.5, F)], Ink::Fluid);
    if pen.is_small() {
        pen.rect(32.0, 24.0, 32.0, 30.0, Ink::Wall);
        pen.rect(39.0, 30.0, 18.0, 10.0, Ink::Sheet);
        pen.disc(48.0, 66.0, 12.0, Ink::Wall);
    } else {
        pen.rect(30.0, 22.0, 36.0, 6.0, Ink::Wall);
        pen.rect(30.0, 22.0, 6.0, 30.0, Ink::Wall);
        pen.rect(60.0, 22.0, 6.0, 30.0, Ink::Wall);
        pen.rect(36.0, 28.0, 24.0, 8.0, Ink::Fluid);
        pen.rect(37.0, 36.0, 22.0, 10.0, Ink::Wall);
        pen.line(&[(48.0, 44.0), (54.0, 66.0)], 4.0, Ink::Wall);
        pen.ring(48.0, 68.0, 10.0, 4.0, Ink::Wall);
        pen.disc(54.0, 66.0, 3.0, Ink::Wall);
        for x in [14.0, 66.0] {
            pen.rect(x, AXIS - F - 3.0, 16.0, 2.0 * F + 6.0, Ink::Wall);
            pen.rect(x, AXIS - F, 16.0, 2.0 * F, Ink::Fluid);
        }
    }
    pen.rect(12.0, 86.0, 12.0, 6.0, Ink::Wall);
    pen.rect(72.0, 86.0, 12.0, 6.0, Ink::Wall);
}
