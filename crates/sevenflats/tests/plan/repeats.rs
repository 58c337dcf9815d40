//! Repeats: marks are written once, and hold at every time of playing, or say at which.

use serde_json::{Value, json};

use crate::asked::{changes, check_as_written, diagnostics, page, planned, setting, setting_at};

// Bar 1 wants C♮ (B♮ and D♮ beside it), bar 2 wants C♯ on every beat: C goes up in bar 2 both times, and
// back at bar 1 the second time, where it could not be done before.
#[test]
fn where_the_end_does_not_suit_the_beginning_the_mark_stands_at_the_beginning() {
    let plan = planned("repeat", &[]);
    check_as_written(&plan);
    assert_eq!(&setting(&plan["opening_setting"])[..3], "nnn");
    let expected = ["1:1 C sharp>natural 2", "2:1 C natural>sharp 1,2"];
    assert_eq!(changes(&plan), expected);
    assert_eq!(plan["moves"], 3);
    // followed at the first time too, where it moves nothing, it does no harm
    assert!(only_then(&plan).is_empty() && diagnostics(&plan).is_empty());
    assert_eq!(&setting_at(&plan, 1)[..3], "nnn");
    assert_eq!(&setting_at(&plan, 2)[..3], "n#n");
}

#[test]
fn written_order_has_no_way_back() {
    let plan = planned("repeat", &["--no-repeats"]);
    assert_eq!(changes(&plan), ["2:1 C natural>sharp 1"]);
    assert_eq!(plan["moves"], 1);
}

// |: A | 1., 2. B :| 3. C: B begins with C♮ and ends with C♯, A uses no C. The first time C stands
// natural as B is entered, the second time sharp.
#[test]
fn an_ending_entered_two_ways_has_one_set_of_marks() {
    let plan = planned("volta-thrice", &[]);
    check_as_written(&plan);
    let expected = ["2:1 C sharp>natural 2", "2:3 C natural>sharp 1,2"];
    assert_eq!(changes(&plan), expected);
    assert_eq!(plan["moves"], 3);
    assert!(only_then(&plan).is_empty() && diagnostics(&plan).is_empty());
}

// At 170, a beat is 0.353 s. Ending 1 begins with C♯ D♯ E, ending 2 with B♭ C♭ D♭; the left foot must have
// moved D and C since the third beat of bar 1, 0.706 s before. It cannot move twice within one beat
// (0.4 s), so one of them moves on the fourth beat: up the first time, down the second.
#[test]
fn where_no_set_of_marks_serves_they_say_which_time_and_a_diagnostic_says_where() {
    let plan = planned("volta", &["--spelling", "written"]);
    check_as_written(&plan);
    assert_eq!(plan["moves"], 6);
    let differing = only_then(&plan);
    assert_eq!(differing.len(), 2, "{differing:?}");
    let pedal = differing[0]["pedal"].as_str().unwrap();
    assert!(["C", "D"].contains(&pedal));
    for (mark, (pass, to)) in differing.iter().zip([(1, "sharp"), (2, "flat")]) {
        assert_eq!(mark["measure"], 1);
        assert_eq!(mark["beat"], "4");
        assert_eq!(mark["passes"], json!([pass]));
        assert_eq!(
            (&mark["from"], &mark["to"]),
            (&json!("natural"), &json!(to))
        );
    }
    let told = diagnostics(&plan);
    assert_eq!(told.len(), 2, "{told:?}");
    for (told, time) in told.iter().zip(["1st time only", "2nd time only"]) {
        assert!(
            told.starts_with("1: bar 1: ") && told.contains("beat 4"),
            "{told}"
        );
        assert!(told.ends_with(time), "{told}");
    }
    let page = page("volta", &["--spelling", "written"]);
    assert!(page.contains("(1st time only)") && page.contains("(2nd time only)"));
}

// With spelling free the same piece needs no such mark: the feet are spared by other names.
#[test]
fn other_names_may_spare_the_feet() {
    let plan = planned("volta", &[]);
    assert_eq!(plan["cannot"], json!([]));
    assert!(only_then(&plan).is_empty());
    let (moves, by_names) = (&plan["moves"], plan["respelled"].as_array().unwrap());
    assert!(
        moves.as_u64().unwrap() < 6 && !by_names.is_empty(),
        "{plan}"
    );
}

fn only_then(plan: &Value) -> Vec<Value> {
    let all = plan["changes"].as_array().unwrap().iter();
    all.filter(|mark| mark["only_then"] == true)
        .cloned()
        .collect()
}
