//! A pedal that moves under a ringing string buzzes: it has a price. A string that was damped has
//! none.

use serde_json::{Value, json};

use crate::asked::{changes, planned, planned_with};

/// E4 and F4, and a second later F♯4 and G4: F must move in between, for E and G stand natural.
fn check(plan: &Value, ringing: u64) {
    assert_eq!(changes(plan), ["1:2 F natural>sharp 1"]);
    assert_eq!(plan["cost"]["ringing"]["count"], ringing, "{plan}");
    let price = plan["cost"]["ringing"]["price"].as_u64().unwrap();
    assert_eq!(price > 0, ringing > 0, "{plan}");
}

#[test]
fn a_string_that_rings_makes_the_move_dearer() {
    let etouffe = "<technical><other-technical>étouffé</other-technical></technical>";
    check(&planned_with("etouffes", etouffe, "", &[]), 1);
}

#[test]
fn after_an_etouffe_it_costs_no_more_than_a_move() {
    let plan = planned("etouffes", &[]);
    check(&plan, 0);
    assert_eq!(plan["cost"]["total"], json!(1000));
}

#[test]
fn a_sign_for_damping_all_does_the_same() {
    check(&planned("damped", &[]), 0);
}

#[test]
fn so_does_the_word_above_the_notes() {
    check(&planned("etouffe-in-words", &[]), 0);
    check(
        &planned_with("etouffe-in-words", ">étouffé<", ">dolce<", &[]),
        1,
    );
}
