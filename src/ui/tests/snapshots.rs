//! Pictures of the drawings, compared with those in `tests/snapshots/`.
//!
//! Only with the feature `snapshots`, since they need a renderer. After a wanted change:
//! `UPDATE_SNAPSHOTS=true cargo test --features snapshots --bin narrows snapshots`.

use egui_kittest::SnapshotOptions;

use super::*;

/// Small pictures: they are to show that lines, labels and marks stand where they stood.
const SIZE: [f32; 2] = [900.0, 560.0];

fn studied(id: &str) -> Session {
    let mut session = Session::new(named(id), None);
    session.study_now(None);
    session
}

/// A window with a renderer; changes jump, so that no picture is taken on the way.
fn drawn(session: Session) -> Harness<'static, Window> {
    let mut h = built(Harness::builder().wgpu(), session, SIZE);
    apply(&mut h, Action::Still(true));
    h
}

/// Other renderers smooth edges a little otherwise.
fn options() -> SnapshotOptions {
    SnapshotOptions::new().threshold(0.6).max_failed_pixels(40)
}

/// Takes a picture.
fn check(h: &mut Harness<'static, Window>, name: &str) {
    h.run_steps(3);
    h.snapshot_options(name, &options());
}

/// Light, dark, and light as a printer without colours shows it.
fn check_all(session: Session, view: View, name: &str) {
    let mut h = drawn(session);
    apply(&mut h, Action::View(view));
    for theme in [Theme::Dark, Theme::Light] {
        apply(&mut h, Action::Theme(theme));
        check(&mut h, &format!("{name}-{}", theme.name().to_lowercase()));
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

#[test]
fn chain_with_a_second_port() {
    check_all(studied("hospital-two-ports"), View::Bench, "chain");
}

#[test]
fn pressure_stairs() {
    check_all(studied("reference-kits"), View::LineUp, "stairs");
}

#[test]
fn voltage_stairs() {
    check_all(studied("long-cord"), View::CordRun, "volts");
}

#[test]
fn meeting_point() {
    check_all(studied("reference-kits"), View::MeetingPoint, "meeting");
}

#[test]
fn job_clock() {
    check_all(studied("long-cord"), View::JobClock, "clock");
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
