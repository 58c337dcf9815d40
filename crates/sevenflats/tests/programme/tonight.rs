//! Something broke: what it costs tonight.

use serde_json::{Value, json};

use crate::{page, told};

fn tonight(told: &Value, piece: usize) -> &Value {
    &told["pieces"][piece]["tonight"]
}

#[test]
fn with_nothing_broken_nothing_is_said_of_it() {
    assert_eq!(told(&[])["pieces"][0].get("tonight"), None);
}

#[test]
fn a_missing_low_string_costs_one_note_a_piece() {
    let told = told(&["--missing", "7D"]);
    // 7C can be tuned to D for bars 1, 9 and 12, and loses bar 2; in the last piece it keeps C for two bars
    let first = tonight(&told, 0);
    assert_eq!(
        (&first["lost"], &first["lost_if_whole"], &first["measures"]),
        (&json!(1), &json!(0), &json!(12))
    );
    assert_eq!(
        first["broken_measures"],
        json!([{"measure": 2, "bar": "2", "pass": 1}])
    );
    let last = tonight(&told, 2);
    assert_eq!(last["lost"], 1);
    assert_eq!(
        last["broken_measures"],
        json!([{"measure": 2, "bar": "2", "pass": 1}])
    );
    // the part on paper does not name it
    assert_eq!(
        tonight(&told, 1),
        &json!({
            "lost": null, "lost_if_whole": null, "measures": null, "broken_measures": [], "stretches": [],
        })
    );
}

#[test]
fn a_stuck_pedal_is_planned_round_and_marked_on_paper() {
    let told = told(&["--stuck", "F=natural"]);
    // F sharp never stands beside G, F flat never beside E: both have another string
    assert_eq!(tonight(&told, 0)["lost"], 0);
    assert_eq!(tonight(&told, 2)["lost"], 0);
    assert_eq!(
        tonight(&told, 1)["stretches"],
        json!([{"broken": "F=natural", "movement": 1, "from": "5", "until_movement": 1, "until": "9"}])
    );
    let page = page(&["--stuck", "F=natural"]);
    assert!(
        page.contains(
            "tonight   no note lost (no note lost with nothing broken); 12 of 12 bars survive whole"
        ),
        "{page}"
    );
    assert!(
        page.contains("tonight   F♮ is stuck; it should stand elsewhere from bar 5 to bar 9"),
        "{page}"
    );
}

#[test]
fn a_dead_disc_and_an_exposed_string_are_named_on_paper() {
    let told = told(&["--dead", "4F=sharp", "--missing", "3A"]);
    let paper = tonight(&told, 1)["stretches"].as_array().unwrap();
    let broken: Vec<&str> = paper
        .iter()
        .map(|one| one["broken"].as_str().unwrap())
        .collect();
    assert_eq!(broken, ["F3=sharp", "A4"]);
}
