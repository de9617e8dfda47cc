//! The parts that current passes through, from panel to motor. Joints are blades and slots.

use super::pen::{AXIS, Pen};
use super::{Ink, Symbol};

/// Draws one power part.
pub fn paint(symbol: Symbol, pen: &mut Pen) {
    match symbol {
        Symbol::Panel => panel(pen),
        Symbol::Branch => branch(pen),
        Symbol::Receptacle => receptacle(pen),
        Symbol::Cord { area_mm2 } => cord(pen, area_mm2),
        Symbol::Reel => reel(pen),
        Symbol::Generator => generator(pen),
        Symbol::Motor => motor(pen),
        _ => {}
    }
}

fn panel(pen: &mut Pen) {
    pen.round_rect(20.0, 6.0, 56.0, 84.0, 3.0, Ink::Wall);
    pen.rect(26.0, 12.0, 44.0, 72.0, Ink::Sheet);
    let rows = if pen.is_small() { 3 } else { 4 };
    let pitch = 66.0 / rows as f32;
    for i in 0..rows {
        let y = 17.0 + pitch * i as f32;
        for (x, slot) in [(30.0, 39.0), (51.0, 53.0)] {
            pen.rect(x, y, 15.0, pitch - 6.0, Ink::Wall);
            if !pen.is_small() {
                pen.rect(slot, y + 3.0, 4.0, pitch - 12.0, Ink::Sheet);
            }
        }
    }
}

fn branch(pen: &mut Pen) {
    pen.rect(0.0, 36.0, 96.0, 24.0, Ink::Wall);
    pen.rect(0.0, 41.0, 96.0, 14.0, Ink::Sheet);
    for y in [45.0, 51.0] {
        pen.line(&[(0.0, y), (96.0, y)], 2.6, Ink::Wall);
    }
    for x in [22.0, 70.0] {
        pen.rect(x - 5.0, 30.0, 10.0, 36.0, Ink::Wall);
    }
}

fn receptacle(pen: &mut Pen) {
    pen.round_rect(14.0, 8.0, 68.0, 80.0, 8.0, Ink::Wall);
    pen.round_rect(20.0, 14.0, 56.0, 68.0, 4.0, Ink::Sheet);
    pen.rect(34.0, 28.0, 7.0, 20.0, Ink::Wall);
    pen.rect(55.0, 30.0, 7.0, 16.0, Ink::Wall);
    pen.disc(48.0, 64.0, 7.0, Ink::Wall);
}

/// The wire's width grows with the conductor: 1.31 mm² (16 AWG) is 7, 3.31 mm² (12 AWG) is 13.
fn cord(pen: &mut Pen, area_mm2: f32) {
    let width = if area_mm2.is_finite() { (3.0 + 3.0 * area_mm2).clamp(4.0, 18.0) } else { 7.0 };
    let wire = [
        (26.0, 48.0),
        (34.0, 48.0),
        (40.0, 40.0),
        (46.0, 34.0),
        (52.0, 40.0),
        (52.0, 56.0),
        (58.0, 62.0),
        (64.0, 56.0),
        (68.0, 48.0),
        (72.0, 48.0),
    ];
    pen.line(&wire, width, Ink::Wall);
    let plug = [(10.0, 36.0), (22.0, 36.0), (28.0, 42.0), (28.0, 54.0), (22.0, 60.0), (10.0, 60.0)];
    pen.convex(&plug, Ink::Wall);
    for y in [39.0, 52.0] {
        pen.rect(0.0, y, 11.0, 4.5, Ink::Wall);
    }
    let socket = [(70.0, 40.0), (76.0, 34.0), (94.0, 34.0), (94.0, 62.0), (76.0, 62.0), (70.0, 56.0)];
    pen.convex(&socket, Ink::Wall);
    for y in [40.0, 51.0] {
        pen.rect(86.0, y, 8.0, 4.5, Ink::Sheet);
    }
}

fn reel(pen: &mut Pen) {
    pen.convex(&[(40.0, 46.0), (49.0, 46.0), (30.0, 92.0), (20.0, 92.0)], Ink::Wall);
    pen.convex(&[(47.0, 46.0), (56.0, 46.0), (76.0, 92.0), (66.0, 92.0)], Ink::Wall);
    pen.disc(48.0, 42.0, 34.0, Ink::Wall);
    pen.disc(48.0, 42.0, 27.0, Ink::Sheet);
    let turns: &[f32] = if pen.is_small() { &[19.0] } else { &[22.0, 17.0, 12.0] };
    for &r in turns {
        pen.ring(48.0, 42.0, r, if pen.is_small() { 7.0 } else { 3.2 }, Ink::Wall);
    }
    pen.disc(48.0, 42.0, 7.0, Ink::Wall);
    pen.line(&[(70.0, 58.0), (84.0, 70.0), (96.0, 70.0)], 6.0, Ink::Wall);
}

fn generator(pen: &mut Pen) {
    pen.line(&[(6.0, 84.0), (6.0, 12.0), (90.0, 12.0), (90.0, 84.0)], 6.0, Ink::Wall);
    pen.rect(2.0, 80.0, 92.0, 7.0, Ink::Wall);
    pen.round_rect(16.0, 26.0, 64.0, 50.0, 3.0, Ink::Wall);
    pen.rect(22.0, 12.0, 20.0, 14.0, Ink::Wall);
    let wave: Vec<(f32, f32)> = (0..=22)
        .map(|i| {
            let x = 26.0 + 2.0 * i as f32;
            (x, 51.0 - 14.0 * ((x - 26.0) / 44.0 * std::f32::consts::TAU).sin())
        })
        .collect();
    pen.line(&wave, 5.0, Ink::Sheet);
    pen.disc(18.0, 90.0, 5.0, Ink::Wall);
    pen.disc(78.0, 90.0, 5.0, Ink::Wall);
}

fn motor(pen: &mut Pen) {
    pen.round_rect(18.0, 20.0, 54.0, 54.0, 4.0, Ink::Wall);
    let (fins, pitch, h) = if pen.is_small() { (2, 20.0, 7.0) } else { (4, 11.0, 4.5) };
    for i in 0..fins {
        pen.rect(26.0, 28.0 + pitch * i as f32, 38.0, h, Ink::Sheet);
    }
    pen.rect(72.0, AXIS - 6.0, 22.0, 11.0, Ink::Wall);
    pen.round_rect(8.0, 28.0, 10.0, 38.0, 3.0, Ink::Wall);
    pen.rect(20.0, 74.0, 14.0, 10.0, Ink::Wall);
    pen.rect(56.0, 74.0, 14.0, 10.0, Ink::Wall);
    pen.rect(14.0, 84.0, 62.0, 5.0, Ink::Wall);
}
