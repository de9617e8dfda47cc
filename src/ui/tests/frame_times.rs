//! How long a frame takes where every answer is there already; printed, not judged:
//! `cargo test --release --bin narrows frame_times -- --ignored --nocapture`.

use std::time::{Duration, Instant};

use narrows::compare::DrawPlan;

use super::*;

const FRAMES: usize = 200;

/// The median frame of each view in milliseconds: what the program lays out and draws, and what egui makes
/// triangles of. Uploading them and the screen's own drawing are the graphics driver's.
#[test]
#[ignore = "prints times"]
fn frame_times() {
    for (id, size) in [
        ("reference-kits", [1366.0, 768.0]),
        ("ice-rink-liquid", [1366.0, 768.0]),
        ("ice-rink-liquid", [1920.0, 1080.0]),
    ] {
        let mut session = Session::new(named(id), None);
        session.study_now(Some(DrawPlan::new(24, 1).expect("enough draws")));
        let mut h = window_on(session, size);
        println!("{id}, {} x {}: laid out, made triangles of, ms", size[0], size[1]);
        for view in View::ALL {
            apply(&mut h, Action::View(view));
            let [laid_out, triangles] = medians(&mut h, size).map(|time| 1e3 * time.as_secs_f64());
            println!("  {:<18}{laid_out:>6.2}{triangles:>6.2}", view.name());
        }
    }
}

fn medians(h: &mut Harness<'static, Window>, size: [f32; 2]) -> [Duration; 2] {
    let ctx = h.ctx.clone();
    let app = &mut h.state_mut().app;
    let screen_rect = Some(egui::Rect::from_min_size(egui::Pos2::ZERO, size.into()));
    let mut times = [const { Vec::new() }; 2];
    for _ in 0..FRAMES {
        let input = egui::RawInput { screen_rect, ..Default::default() };
        let start = Instant::now();
        let output = ctx.run_ui(input, |ui| {
            app.take_in(ui.ctx());
            app.show(ui);
        });
        let laid_out = start.elapsed();
        let meshes = ctx.tessellate(output.shapes, output.pixels_per_point);
        times[0].push(laid_out);
        times[1].push(start.elapsed() - laid_out);
        assert!(!meshes.is_empty());
    }
    times.map(|mut times| {
        times.sort();
        times[FRAMES / 2]
    })
}
