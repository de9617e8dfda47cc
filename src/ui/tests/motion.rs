//! Changes move and then stand; nothing asks for frames when nothing changes.

use egui_kittest::kittest::Queryable as _;

use super::*;
use crate::ui::actions::PartList;

/// Frames of a hundredth of a second, so that a change can be seen on its way.
fn slow(document: Document) -> Harness<'static, Window> {
    let builder = Harness::builder().with_step_dt(0.01);
    let mut h = built(builder, Session::new(document, None), [1366.0, 768.0]);
    h.run_steps(40);
    h
}

fn frames_until_rest(h: &mut Harness<'static, Window>) -> usize {
    let mut frames = 0;
    while h.ctx.has_requested_repaint() && frames < 400 {
        h.run_steps(1);
        frames += 1;
    }
    frames
}

fn take_out(h: &mut Harness<'static, Window>) {
    let ctx = h.ctx.clone();
    let edit = Edit::Remove { list: PartList::Kit(0), at: 4 };
    h.state_mut().app.apply(Action::Edit(edit), &ctx);
    h.run_steps(1);
}

#[test]
fn every_view_rests_when_nothing_changes() {
    let mut session = Session::new(named("ice-rink-liquid"), None);
    session.study_now(None);
    let mut h = window_on(session, [1366.0, 768.0]);
    for view in View::ALL {
        apply(&mut h, Action::View(view));
        h.run_steps(6);
        assert!(!h.ctx.has_requested_repaint(), "{} asks for frames", view.name());
    }
}

/// 160 ms at 10 ms a frame, and a frame or two to begin and to end.
#[test]
fn an_answer_moves_for_a_sixth_of_a_second() {
    let mut h = slow(named("reference-kits"));
    assert_eq!(frames_until_rest(&mut h), 0, "at rest before");
    take_out(&mut h);
    let frames = frames_until_rest(&mut h);
    assert!((12..=22).contains(&frames), "{frames} frames");
    // What is read aloud is the answer, never a number on the way.
    let rate = UnitSet::UsTrade
        .rate(uom::si::f64::MassRate::new::<uom::si::mass_rate::kilogram_per_second>(rate(&h)));
    h.get_by_label_contains(&format!("Rate now, vapour: {rate}"));
}

#[test]
fn under_reduced_motion_an_answer_jumps() {
    let mut h = slow(named("reference-kits"));
    apply(&mut h, Action::Still(true));
    frames_until_rest(&mut h);
    take_out(&mut h);
    let frames = frames_until_rest(&mut h);
    assert!(frames <= 3, "{frames} frames");
}
