//! Lever harps: each string for itself, and a hand that must be free.

use serde_json::json;

use crate::asked::{check_as_written, page, planned, planned_with};

const ON_LEVERS: [&str; 4] = ["--harp", "lever34", "--open", "C"];

// F4 in bar 1 and F♯4 in bar 3. At 160 the left hand plucks every 0.375 s, and a flip takes half a
// second (a guess); the right hand rests in bar 2.
#[test]
fn the_right_hand_flips_where_it_rests_and_the_left_does_not() {
    let plan = planned("lever-right-hand", &ON_LEVERS);
    check_as_written(&plan);
    assert_eq!(plan["open"], "C");
    assert_eq!(plan["opening_levers"], json!([]));
    assert_eq!(plan["moves"], 1);
    let flip = &plan["changes"][0];
    assert_eq!(
        (&flip["hand"], &flip["string"], &flip["to"]),
        (&json!("right"), &json!("F4"), &json!("on"))
    );
    // within its rest, that is until the first beat of bar 3
    let at_s = flip["at_s"].as_f64().unwrap();
    assert!(at_s > 1.0 && at_s <= 3.0, "{flip}");
    let measure = flip["measure"].as_u64().unwrap();
    assert!(
        measure == 2 || (measure == 3 && flip["beat"] == "1"),
        "{flip}"
    );
}

// At 60 the left hand has a second between its notes, and it is the one that is asked first.
#[test]
fn slower_the_left_hand_can() {
    let plan = planned_with(
        "lever-right-hand",
        "tempo=\"160\"",
        "tempo=\"60\"",
        &ON_LEVERS,
    );
    assert_eq!(plan["changes"][0]["hand"], "left");
}

// Open in E flat F is natural and A, B, E are flat: A♮4 is its lever; F♯4 a flip all the same. Scores
// check value 16: open E flat has E♭ … E major, open C has C … C♯ major, so G major's F♯ is had in both.
#[test]
fn of_the_open_tunings_she_allows_the_cheaper_one_is_taken() {
    let plan = planned("lever-right-hand", &["--harp", "lever34", "--open", "Eb,C"]);
    assert_eq!(plan["open"], "C");
    let only = planned("lever-right-hand", &["--harp", "lever34", "--open", "Eb"]);
    assert!(
        only["opening_levers"]
            .as_array()
            .unwrap()
            .contains(&json!("A4"))
    );
}

#[test]
fn a_person_reads_string_hand_and_place() {
    let page = page("lever-right-hand", &ON_LEVERS);
    for words in [
        "levers on   none",
        "3F on, right hand",
        "1 lever flipped in the piece",
    ] {
        assert!(page.contains(words), "no '{words}' in {page}");
    }
}
