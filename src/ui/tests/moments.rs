//! A moment of a job on the pressure stairs: several machines, pauses, push-pull.

use super::*;
use crate::ui::moment::Seen;
use crate::ui::present::clock::Sample;

fn studied(document: Document) -> Harness<'static, Window> {
    let mut session = Session::new(document, None);
    session.study_now(None);
    window_on(session, [1366.0, 768.0])
}

/// The rate of the whole job at that moment, from its own march over time.
fn trace_rate(h: &Harness<'static, Window>, minutes: f64) -> f64 {
    let jobs = h.state().app.session().study().and_then(|s| s.jobs.as_ref()).expect("jobs");
    let job = jobs.as_ref().expect("answers").kits[0].shown().expect("a job");
    Sample::at(&job.trace, 60.0 * minutes).expect("inside").rate_kg_s
}

/// Two computations of one flow: the march over time, and the operating point of its moment. The
/// march reads the path from a table and knows how much warmer than saturated the last vapour is,
/// hence 5 %.
#[test]
fn several_machines_draw_at_a_moment_what_the_job_says() {
    for (machines, ports) in [("1", "same"), ("2", "same"), ("3", "separate")] {
        let mut document = named("reference-tail");
        scenario::set(&mut document, "job.machines", machines).expect("it applies");
        scenario::set(&mut document, "job.machine_ports", ports).expect("it applies");
        let mut h = studied(document);
        for minutes in [1.0, 4.0, 9.0] {
            apply(&mut h, Action::Clock(minutes));
            let moment = h.state().app.session().moment().expect("a moment").clone();
            let Seen::Point(point) = moment.seen else { panic!("it flows") };
            assert_eq!(point.machines.count.to_string(), machines);
            let (now, expected) = (point.mass_flow.value, trace_rate(&h, minutes));
            let off = (now / expected - 1.0).abs();
            assert!(off < 0.05, "{machines} on {ports} at {minutes} min: {now} and {expected} kg/s");
        }
    }
}

/// Two machines on ports of their own: the plate holds the rate of both and says so.
#[test]
fn the_plate_holds_the_rate_of_all_machines() {
    let rate_of = |machines: &str| {
        let mut document = named("own-or-rent");
        scenario::set(&mut document, "kits.A.machines", machines).expect("it applies");
        let h = window(document, [1366.0, 768.0]);
        let said = h.query_all_by_label_contains("2 machines").next().is_some();
        assert_eq!(said, machines == "2");
        rate(&h)
    };
    let ratio = rate_of("2") / rate_of("1");
    assert!((ratio - 2.0).abs() < 1e-9, "{ratio} times the rate of one");
}

/// Every phase of a job has something to see, and each says what.
#[test]
fn pauses_and_push_pull_can_be_looked_at() {
    let mut h = studied(named("ice-rink-liquid"));
    let phases: Vec<(f64, f64, bool)> = {
        let jobs = h.state().app.session().study().and_then(|s| s.jobs.as_ref()).expect("jobs");
        let job = jobs.as_ref().expect("answers").kits[0].shown().expect("a job");
        let minutes = |t: uom::si::f64::Time| t.value / 60.0;
        job.phases.iter().map(|p| (minutes(p.start), minutes(p.end), p.kind.flows())).collect()
    };
    let (mut pushed, mut rested) = (0, 0);
    for (from, to, flows) in phases.into_iter().filter(|(from, to, _)| to - from > 0.1) {
        apply(&mut h, Action::Clock(0.5 * (from + to)));
        let moment = h.state().app.session().moment().expect("a moment");
        match moment.seen {
            Seen::PushPull { system, cylinder, rate } => {
                assert!(flows && system > cylinder && rate.value > 0.0);
                pushed += 1;
            }
            Seen::Rest { .. } => {
                assert!(!flows);
                rested += 1;
            }
            Seen::Point(_) => assert!(flows),
        }
    }
    assert!(pushed > 0 && rested > 0);
}
