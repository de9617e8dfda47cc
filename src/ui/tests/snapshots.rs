//! Pictures of the drawings, compared with those in `tests/snapshots/`.
//!
//! Only with the feature `snapshots`, since they need a renderer. After a wanted change:
//! `UPDATE_SNAPSHOTS=true cargo test --features snapshots --bin narrows snapshots`.

use egui_kittest::SnapshotOptions;

use super::*;
use crate::ui::diagram::chain::chain_ui;
use crate::ui::diagram::clock::{Layout, clock_ui};
use crate::ui::diagram::columns::Columns;
use crate::ui::diagram::stairs::stairs_ui;
use crate::ui::panels::meeting_point::meeting_plot_ui;
use crate::ui::panels::{Desk, bench};
use crate::ui::present::{Scene, chain, clock, stairs};
use crate::ui::style::Look;

fn studied(id: &str) -> Session {
    let mut session = Session::new(named(id), None);
    session.study_now(None);
    // A second port, where there is one.
    let kits = &session.document().kits;
    session.view.kit = kits.iter().position(|k| k.second_port.is_some()).unwrap_or_default();
    session
}

/// A drawing by itself, with what it needs.
type Draw = fn(&mut egui::Ui, &mut Desk);

struct Stage {
    session: Session,
    shelf: Shelf,
    theme: Theme,
    draw: Draw,
    frames: usize,
}

impl Stage {
    fn show(&mut self, ui: &mut egui::Ui) {
        // New fonts are there from the second frame on.
        if self.frames == 0 {
            fonts::install(ui.ctx());
        } else {
            let look = Look { still: true, ..Look::new(self.theme, 1366.0, 768.0) };
            look.apply(ui.ctx());
            let scene = Scene::new(&self.session);
            let mut desk = Desk { scene: &scene, look: &look, shelf: &self.shelf, actions: Vec::new() };
            let frame = egui::Frame::new().fill(look.palette.sheet);
            egui::CentralPanel::default().frame(frame).show(ui, |ui| (self.draw)(ui, &mut desk));
        }
        self.frames += 1;
    }
}

/// Other renderers smooth edges a little otherwise.
fn options() -> SnapshotOptions {
    SnapshotOptions::new().threshold(0.6).max_failed_pixels(40)
}

/// Light, dark, and light as a printer without colours shows it.
fn check(name: &str, id: &str, size: [f32; 2], draw: Draw) {
    let shelf = Shelf::built_in().expect("the shelf reads");
    let stage = Stage { session: studied(id), shelf, theme: Theme::Dark, draw, frames: 0 };
    let mut h = Harness::builder()
        .with_size(vec2(size[0], size[1]))
        .wgpu()
        .build_ui_state(|ui, stage: &mut Stage| stage.show(ui), stage);
    for theme in [Theme::Dark, Theme::Light] {
        h.state_mut().theme = theme;
        h.run_steps(4);
        h.snapshot_options(format!("{name}-{}", theme.name().to_lowercase()), &options());
    }
    let mut image = h.render().expect("a picture");
    for pixel in image.pixels_mut() {
        let [r, g, b, a] = pixel.0;
        // Luma of ITU-R BT.709.
        let grey = 0.2126 * f32::from(r) + 0.7152 * f32::from(g) + 0.0722 * f32::from(b);
        pixel.0 = [grey.round() as u8, grey.round() as u8, grey.round() as u8, a];
    }
    egui_kittest::image_snapshot_options(&image, format!("{name}-grey"), &options());
}

fn columns(ui: &egui::Ui, desk: &Desk) -> Columns {
    Columns::fit(ui.max_rect().x_range(), desk.scene.slots.len(), &desk.look.measures)
}

/// The chain with a second port, two kits side by side.
#[test]
fn chain_with_a_second_port() {
    check("chain", "hospital-two-ports", [900.0, 216.0], |ui, desk| {
        let columns = columns(ui, desk);
        let model = chain::chain(desk.scene);
        chain_ui(ui, ui.max_rect(), &columns, &model, desk.look);
    });
}

#[test]
fn pressure_stairs() {
    check("stairs", "reference-kits", [900.0, 400.0], |ui, desk| {
        let columns = columns(ui, desk);
        let model = stairs::stairs(desk.scene);
        stairs_ui(ui, ui.max_rect(), &columns, &model, false, desk.look);
    });
}

#[test]
fn voltage_stairs() {
    check("volts", "long-cord", [900.0, 260.0], |ui, desk| {
        let columns = columns(ui, desk);
        let rect = ui.max_rect();
        bench::power_ui(ui, desk, rect, &columns, None);
    });
}

#[test]
fn meeting_point() {
    check("meeting", "reference-kits", [700.0, 420.0], meeting_plot_ui);
}

#[test]
fn job_clock() {
    check("clock", "long-cord", [900.0, 420.0], |ui, desk| {
        let model = clock::clock(desk.scene).expect("a job");
        let rect = ui.max_rect();
        clock_ui(ui, rect, &model, Layout::Lanes, rect.left() + 50.0, desk.look);
    });
}

/// Every step of every lesson, the van, and the narrow window, to be looked at: in
/// `target/pictures/`.
#[test]
#[ignore = "writes pictures for people, compares nothing"]
fn pictures_to_look_at() {
    let folder = std::path::Path::new("target/pictures");
    std::fs::create_dir_all(folder).expect("a folder");
    let save = |h: &mut Harness<'static, Window>, name: &str| {
        h.run_steps(6);
        h.render().expect("a picture").save(folder.join(format!("{name}.png"))).expect("it is written");
    };
    for (i, _) in presets::built_in_lessons().expect("they read").iter().enumerate() {
        let mut h = built(Harness::builder().wgpu(), studied("school-kitchen"), [1280.0, 720.0]);
        apply(&mut h, Action::Teach(i));
        for step in 0..12 {
            h.state_mut().app.session_mut().study_now(None);
            save(&mut h, &format!("lesson-{i}-{step:02}"));
            apply(&mut h, Action::Lesson(crate::ui::projector::Step::Next));
        }
    }
    for id in ["long-cord", "ice-rink-liquid", "hospital-two-ports"] {
        let mut h = built(Harness::builder().wgpu(), studied(id), [1366.0, 768.0]);
        save(&mut h, &format!("bench-{id}"));
        apply(&mut h, Action::Van(true));
        save(&mut h, &format!("van-{id}"));
        apply(&mut h, Action::Van(false));
        h.set_size(vec2(683.0, 384.0));
        save(&mut h, &format!("narrow-{id}"));
        h.set_size(vec2(1366.0, 640.0));
        save(&mut h, &format!("low-{id}"));
    }
}
