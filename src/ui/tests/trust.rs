//! What lets a person rely on the figures: the known answers, and the words in plain language.

use narrows::report::published::all_cases;

use super::*;

/// Every topic is there, and each case of an opened one with what is expected and what came out.
#[test]
fn known_answers_are_shown_a_topic_at_a_time() {
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    apply(&mut h, Action::View(View::Checks));
    h.get_by_label_contains("0 failed");
    let cases = all_cases().expect("they read");
    let conductors: Vec<_> = cases.iter().filter(|case| case.topic == "Conductors").collect();
    h.get_by_label(&format!("Conductors {}", conductors.len())).click();
    h.run_steps(3);
    for case in conductors {
        assert!(h.query_all_by_label(&case.what).next().is_some(), "{} is not shown", case.what);
    }
}

#[test]
fn a_word_is_found_by_typing_what_others_call_it() {
    let mut h = window(named("reference-kits"), [1366.0, 768.0]);
    apply(&mut h, Action::View(View::Words));
    h.get_by_label("Choked");
    type_into(&mut h, "Find a word", "manifold");
    h.get_by_label("Gauge set");
    assert!(h.query_by_label("Choked").is_none());
    type_into(&mut h, "Find a word", "turnip");
    h.get_by_label("No word here has that in it.");
}
