//! What programs may rely on: every field that is promised, with its type and its words.

use std::collections::BTreeSet;

use serde_json::{Value, json};

use crate::asked::{passes, planned, planned_with};

const PLACES: [&str; 3] = ["flat", "natural", "sharp"];

/// The fields of the answer for a pedal harp, as the command's issue lays them down.
const OF_PEDALS: [&str; 13] = [
    "harp",
    "opening_setting",
    "changes",
    "respelled",
    "cannot",
    "discless",
    "settings",
    "cost",
    "moves",
    "optimal",
    "gap",
    "fastest_tempo_factor",
    "diagnostics",
];
/// Those for a lever harp.
const OF_LEVERS: [&str; 11] = [
    "harp",
    "open",
    "opening_levers",
    "changes",
    "respelled",
    "cannot",
    "cost",
    "moves",
    "optimal",
    "gap",
    "diagnostics",
];

fn has(object: &Value, fields: &[&str]) {
    let found: BTreeSet<&str> = object
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect();
    for field in fields {
        assert!(found.contains(field), "no '{field}' in {object}");
    }
}

fn list<'a>(plan: &'a Value, field: &str) -> &'a Vec<Value> {
    let list = plan[field].as_array().unwrap();
    assert!(
        !list.is_empty(),
        "{field} is empty, so that nothing is tried"
    );
    list
}

fn is_word(value: &Value, words: &[&str]) {
    assert!(words.contains(&value.as_str().unwrap()), "{value}");
}

/// `"5/2"`: an exact fraction in lowest terms, quarters counted from "1".
fn is_beat(value: &Value) {
    let text = value.as_str().unwrap();
    let (above, below) = text.split_once('/').unwrap_or((text, "1"));
    let (above, below): (u64, u64) = (above.parse().unwrap(), below.parse().unwrap());
    assert!(above >= below && below > 0, "{value}");
    assert!(
        (2..=below).all(|n| below % n > 0 || above % n > 0),
        "{value}"
    );
    assert!(below > 1 || !text.contains('/'), "{value}");
}

fn is_place(line: &Value) {
    assert!(line["measure"].as_u64().unwrap() >= 1, "{line}");
    assert!(line["bar"].is_string(), "{line}");
    is_beat(&line["beat"]);
    let times = line["passes"].as_array().unwrap();
    assert!(
        !times.is_empty() && times.iter().all(|pass| pass.as_u64() >= Some(1)),
        "{line}"
    );
}

fn is_setting(value: &Value) {
    let pedals = value.as_object().unwrap();
    assert_eq!(pedals.len(), 7, "{value}");
    for pedal in ["D", "C", "B", "E", "F", "G", "A"] {
        assert!(
            (-1..=1).contains(&pedals[pedal].as_i64().unwrap()),
            "{value}"
        );
    }
}

/// What both kinds of harp have.
fn is_answer(plan: &Value) {
    for head in plan["respelled"].as_array().unwrap() {
        is_place(head);
        assert!(
            head["written"].is_string() && head["played"].is_string(),
            "{head}"
        );
    }
    for head in plan["cannot"].as_array().unwrap() {
        is_place(head);
        assert!(
            head["pitch"].is_string() && head["reason"].is_string(),
            "{head}"
        );
        for remedy in list(head, "remedies") {
            is_word(&remedy["what"], &["respell", "octave", "leave_out"]);
            assert_eq!(remedy["pitch"].is_string(), remedy["what"] != "leave_out");
        }
    }
    let cost = plan["cost"].as_object().unwrap();
    let items = cost.iter().filter(|(word, _)| *word != "total");
    let sum: u64 = items.map(|(_, item)| item["price"].as_u64().unwrap()).sum();
    assert_eq!(cost["total"], sum);
    assert!(plan["moves"].is_u64() && plan["gap"].is_u64(), "{plan}");
    assert!(plan["optimal"].is_boolean(), "{plan}");
    for told in plan["diagnostics"].as_array().unwrap() {
        assert!(told["message"].is_string(), "{told}");
    }
}

#[test]
fn every_field_for_a_pedal_harp_is_there() {
    let plan = planned("contract", &[]);
    has(&plan, &OF_PEDALS);
    is_answer(&plan);
    assert_eq!(plan["harp"], "pedal47");
    is_setting(&plan["opening_setting"]);
    for change in list(&plan, "changes") {
        is_place(change);
        assert!(change["at_s"].as_f64().unwrap() >= 0.0, "{change}");
        is_word(&change["from"], &PLACES);
        is_word(&change["to"], &PLACES);
        let pedal = change["pedal"].as_str().unwrap();
        let foot = if "DCB".contains(pedal) {
            "left"
        } else {
            "right"
        };
        assert_eq!(change["foot"], foot, "{change}");
    }
    for string in list(&plan, "discless") {
        assert!(
            string["string"].is_string() && string["pitch"].is_string(),
            "{string}"
        );
        assert!(string["movement"].as_u64() >= Some(1), "{string}");
    }
    for at in list(&plan, "settings") {
        assert!(
            at["measure"].as_u64() >= Some(1) && at["passes"].is_array(),
            "{at}"
        );
        is_setting(&at["setting"]);
    }
    list(&plan, "respelled");
    list(&plan, "cannot");
    let factor = &plan["fastest_tempo_factor"];
    assert!(factor.is_null() || factor.as_f64() >= Some(0.0), "{factor}");
}

// An upbeat is bar 0 and measure 1; 'X1' is printed, not counted. The half beat: one quarter of upbeat at
// 60, then 1.5 quarters.
#[test]
fn measures_are_counted_bars_are_printed_and_beats_are_fractions() {
    let plan = planned("contract", &[]);
    let bars: Vec<_> = list(&plan, "settings")
        .iter()
        .map(|at| (at["measure"].clone(), at["bar"].clone(), at["mark"].clone()))
        .collect();
    let expected = [
        (json!(1), json!("0"), Value::Null),
        (json!(2), json!("1"), json!("A")),
        (json!(3), json!("X1"), Value::Null),
        (json!(4), json!("2"), json!("B")),
    ];
    assert_eq!(bars, expected);
    let first = &list(&plan, "changes")[0];
    let place = (&first["measure"], &first["bar"], &first["beat"]);
    assert_eq!(place, (&json!(2), &json!("1"), &json!("5/2")));
    assert_eq!(first["at_s"], 2.5);
    assert_eq!(
        (&first["from"], &first["to"]),
        (&json!("natural"), &json!("sharp"))
    );
}

// Bar X1 wants C♮4 and C♯4 at once: C♯ is played as D♭, whose pedal stands there. C8 is above the harp.
#[test]
fn two_alterations_of_a_letter_are_respelled_and_what_has_no_string_cannot_be_had() {
    let plan = planned("contract", &[]);
    let respelled = list(&plan, "respelled");
    assert_eq!(respelled.len(), 1, "{respelled:?}");
    let head = &respelled[0];
    assert_eq!((&head["bar"], &head["beat"]), (&json!("X1"), &json!("1")));
    assert_eq!(
        (&head["written"], &head["played"]),
        (&json!("C#4"), &json!("Db4"))
    );
    let cannot = list(&plan, "cannot");
    assert_eq!(cannot.len(), 1, "{cannot:?}");
    assert_eq!(cannot[0]["pitch"], "Cn8");
    assert_eq!(cannot[0]["reason"], "outside_the_harp");
    let remedies = json!([{"what": "octave", "pitch": "Cn7"}, {"what": "leave_out"}]);
    assert_eq!(cannot[0]["remedies"], remedies);
}

// The part says F♯ at bar 2, where an F♮ and an E♮ stand.
#[test]
fn a_mark_of_the_part_is_contradicted_with_a_reason() {
    let plan = planned("contract", &[]);
    let marks = list(&plan, "contradicted");
    assert_eq!(marks.len(), 1, "{marks:?}");
    let expected = json!({
        "measure": 4, "bar": "2", "beat": "1", "passes": [1],
        "pedal": "F", "marked": "sharp", "planned": "natural", "reason": "notes_there",
    });
    assert_eq!(marks[0], expected);
}

#[test]
fn every_field_for_a_lever_harp_is_there() {
    let words = ["--harp", "lever34", "--open", "C"];
    for score in ["lever-right-hand", "contract"] {
        let plan = planned(score, &words);
        has(&plan, &OF_LEVERS);
        is_answer(&plan);
        assert_eq!(
            (&plan["harp"], &plan["open"]),
            (&json!("lever34"), &json!("C"))
        );
        assert!(
            plan["opening_levers"]
                .as_array()
                .unwrap()
                .iter()
                .all(Value::is_string)
        );
        for flip in list(&plan, "changes") {
            is_place(flip);
            assert!(
                flip["at_s"].is_f64() && flip["string"].is_string(),
                "{flip}"
            );
            is_word(&flip["hand"], &["left", "right"]);
            is_word(&flip["to"], &["on", "off"]);
        }
    }
}

// A mark is written once; with the times of playing at which it moves something, all moves are counted.
#[test]
fn moves_are_the_times_of_all_changes() {
    for (score, words) in [
        ("repeat", &[][..]),
        ("volta", &["--spelling", "written"]),
        ("volta-thrice", &[]),
        ("diminished-sevenths", &[]),
    ] {
        let plan = planned(score, words);
        let times = list(&plan, "changes").iter();
        let times = times.map(|change| change["passes"].as_array().unwrap().len() as u64);
        assert_eq!(plan["moves"], times.sum::<u64>(), "{score}");
    }
}

#[test]
fn with_no_repeats_every_pass_is_the_first() {
    let plan = planned("volta-thrice", &["--no-repeats"]);
    for field in ["changes", "settings"] {
        let times = list(&plan, field)
            .iter()
            .map(|line| passes(&line["passes"]));
        assert!(times.clone().all(|times| times == "1"), "{field}");
    }
}

#[test]
fn a_score_without_a_tempo_is_taken_at_100_and_it_is_said() {
    let (tempo, none) = (" tempo=\"60\"", "");
    let plan = planned_with("contract", tempo, none, &[]);
    // the metronome mark still says it
    assert_eq!(list(&plan, "changes")[0]["at_s"], 2.5);
    let mark = "<metronome><beat-unit>quarter</beat-unit><per-minute>60</per-minute></metronome></direction-type><sound tempo=\"60\"/>";
    let words = "<words>lento</words></direction-type>";
    let plan = planned_with("contract", mark, words, &[]);
    // two quarters and a half at 100 a minute
    assert_eq!(list(&plan, "changes")[0]["at_s"], 1.5);
    let told = list(&plan, "diagnostics");
    assert!(
        told.iter()
            .any(|told| told["message"]
                == "the score gives no tempo: taken at 100 quarters a minute"),
        "{told:?}"
    );
}
