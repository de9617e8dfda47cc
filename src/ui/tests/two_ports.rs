//! Two ports: the second branch is read, changed and reordered like the first.

use egui::{Key, Modifiers};
use egui_kittest::kittest::Queryable as _;

use super::*;
use crate::ui::actions::PartList;
use crate::ui::present::{Scene, scale::PressureScale, second, stairs};

fn two_ports() -> Harness<'static, Window> {
    let mut h = window(named("hospital-two-ports"), [1366.0, 768.0]);
    apply(&mut h, Action::Kit(1));
    h
}

fn second_parts(h: &Harness<'static, Window>) -> Vec<narrows::kit::PartKind> {
    let second = h.state().app.session().document().kits[1].second_port.as_ref().expect("a second port");
    second.parts.iter().map(narrows::kit::Part::kind).collect()
}

#[test]
fn parts_of_the_second_branch_are_added_and_moved() {
    let mut h = two_ports();
    let list = PartList::Second(1);
    let valve = h.state().app.session().document().kits[1].parts[4].clone();
    apply(&mut h, Action::Edit(Edit::Insert { list, at: 2, part: Box::new(valve) }));
    assert_eq!(second_parts(&h).len(), 3);
    h.get_by_label_contains("second port, Ball valve").click();
    h.run_steps(2);
    h.get_all_by_label("Earlier").last().expect("the command under the part").click();
    h.run_steps(3);
    use narrows::kit::PartKind::{BallValve, Hose, Stem};
    assert_eq!(second_parts(&h), [Stem, BallValve, Hose]);
    h.get_by_label_contains("second port, Ball valve").focus();
    h.run_steps(2);
    h.key_press_modifiers(Modifiers::COMMAND, Key::ArrowRight);
    h.run_steps(3);
    assert_eq!(second_parts(&h), [Stem, Hose, BallValve]);
    assert!(h.state().app.session().faults().is_empty());
}

#[test]
fn a_narrower_second_branch_takes_less_of_the_flow() {
    let mut h = two_ports();
    h.get_by_label_contains("second port, Hose").click();
    h.run_steps(2);
    type_into(&mut h, "Bore of second port, part 2", "3 mm");
    let point = h.state().app.session().answer().unwrap().kits[1].point().unwrap();
    let solved = point.second.as_ref().expect("two ports");
    assert!(solved.mass_flow < solved.first_mass_flow);
    assert!(
        (solved.mass_flow + solved.first_mass_flow - point.mass_flow).value.abs()
            < 1e-6 * point.mass_flow.value
    );
}

/// Both lines start at the system and end at one pressure, in front of the tee.
#[test]
fn both_lines_meet_at_the_joint() {
    let mut h = two_ports();
    let path = "kits.B.second_port.parts.1.length".to_owned();
    apply(&mut h, Action::Edit(Edit::Set { path, text: "35 ft".to_owned() }));
    let session = h.state().app.session();
    let scene = Scene::new(session);
    let (run, _) = second::run(&scene, PressureScale::of(scene.units())).expect("a second line");
    let all = stairs::stairs(&scene);
    let joins = scene.second.as_ref().unwrap().joins;
    assert_eq!(run.stairs.len(), joins);
    let first = &all.runs[0].stairs;
    let end = |stairs: &[crate::ui::diagram::stairs::Stair]| *stairs.last().unwrap().levels.last().unwrap();
    assert!((end(&run.stairs) - end(&first[..joins])).abs() < 1e-3 * end(&run.stairs));
    assert_eq!(run.stairs[0].levels[0], first[0].levels[0]);
}

#[test]
fn a_second_port_comes_and_goes() {
    let mut h = window(named("bakery-freezer"), [1366.0, 1400.0]);
    apply(&mut h, Action::Select(Some(crate::ui::view::Selected::Source)));
    let before = h.state().app.session().document().clone();
    h.get_by_label("Add a second port").click();
    h.run_steps(3);
    assert!(h.state().app.session().document().kits[0].second_port.is_some());
    assert!(h.state().app.session().faults().is_empty());
    apply(&mut h, Action::Select(Some(crate::ui::view::Selected::Source)));
    h.get_by_label("Remove the second port").click();
    h.run_steps(3);
    assert_eq!(*h.state().app.session().document(), before);
}
