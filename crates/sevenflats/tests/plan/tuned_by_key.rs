//! Strings without discs: one pitch a movement, whatever the pedals do.

use serde_json::{Value, json};

use crate::asked::{check_as_written, page, planned, planned_with, setting, setting_at};

/// `C1 Cb1 1`: the string, what it is tuned to, and in which movement.
fn tuned(plan: &Value) -> Vec<String> {
    let all = plan["discless"].as_array().unwrap().iter();
    let words = all.map(|tuned| {
        let (string, pitch) = (&tuned["string"], &tuned["pitch"]);
        let (string, pitch) = (string.as_str().unwrap(), pitch.as_str().unwrap());
        format!("{string} {pitch} {}", tuned["movement"])
    });
    words.collect()
}

// C1, D1 and G7 are asked flat in bars 1 to 4, natural in bars 1 to 3 of what follows: common
// practice sets them by key between the movements (encyclopaedia; E. L. Jones). The D pedal stands
// natural throughout, for D4.
#[test]
fn low_strings_are_flat_in_one_movement_and_natural_in_the_next() {
    let plan = planned("two-movements", &[]);
    check_as_written(&plan);
    let expected = [
        "C1 Cb1 1", "D1 Db1 1", "G7 Gb7 1", "C1 Cn1 2", "D1 Dn1 2", "G7 Gn7 2",
    ];
    assert_eq!(tuned(&plan), expected);
    let measures = plan["discless"].as_array().unwrap().iter();
    let measures: Vec<_> = measures.map(|tuned| tuned["measure"].clone()).collect();
    assert_eq!(measures, [1, 1, 1, 5, 5, 5]);
}

// Flats of the first movement: D♮4, B♭3, C♮4, E♭4, F♮4, G♮4, A♭4. The second wants F♯, E♮, C♯ (D♮
// beside it) and B♮: four pedals, set before it begins, so that none moves in playing.
#[test]
fn pedals_are_set_between_the_movements() {
    let plan = planned("two-movements", &[]);
    assert_eq!(setting(&plan["opening_setting"]), "nnbbnnb");
    let listed = plan["changes"].as_array().unwrap();
    let before = |change: &&Value| change["before_movement"] == 2;
    assert_eq!(
        listed.iter().filter(before).count(),
        listed.len(),
        "{listed:?}"
    );
    let first = |change: &&Value| change["measure"] == 5 && change["beat"] == "1";
    assert_eq!(
        listed.iter().filter(first).count(),
        listed.len(),
        "{listed:?}"
    );
    let pedals: Vec<_> = listed
        .iter()
        .map(|change| change["pedal"].as_str().unwrap())
        .collect();
    for pedal in ["F", "E", "C", "B"] {
        assert!(pedals.contains(&pedal), "{pedals:?}");
    }
    assert_eq!(plan["moves"], listed.len());
    assert_eq!(plan["cost"]["moved"]["count"], 0);
    assert_eq!(setting_at(&plan, 4), "nnbbnnb");
    let second = setting_at(&plan, 5);
    assert_eq!(&second[..6], "n#nn#n", "{second}");
    let page = page("two-movements", &[]);
    assert!(page.contains("Before movement 2"), "{page}");
}

// The printed numbers begin anew: measure 6 is bar 2 of the second movement.
#[test]
fn measures_are_counted_through_and_bars_as_printed() {
    let plan = planned("two-movements", &[]);
    let bars = plan["settings"].as_array().unwrap().iter();
    let bars: Vec<_> = bars.map(|at| at["bar"].as_str().unwrap()).collect();
    assert_eq!(bars, ["1", "2", "3", "4", "1", "2", "3"]);
}

#[test]
fn a_person_reads_which_movement_they_are_retuned_for() {
    let page = page("two-movements", &[]);
    for words in [
        "by key 7C to C♭\n",
        "by key 7D to D♮, for movement 2 (bar 1)",
        "Before movement 2",
    ] {
        assert!(page.contains(words), "no '{words}' in {page}");
    }
}

// D♭1 and C1 twice each, then D♮1 once: C1 must stay natural, so D1 can only be flat or natural, and
// flat loses one note, natural two.
#[test]
fn the_rarer_pitch_of_one_string_cannot_be_had() {
    let plan = planned("low-d-both-ways", &[]);
    assert_eq!(tuned(&plan), ["C1 Cn1 1", "D1 Db1 1"]);
    let lost = plan["cannot"].as_array().unwrap();
    assert_eq!(lost.len(), 1, "{lost:?}");
    assert_eq!(lost[0]["measure"], 9);
    assert_eq!(lost[0]["pitch"], "Dn1");
    assert_eq!(lost[0]["reason"], "tuned_by_key");
    let remedies = json!([{"what": "octave", "pitch": "Dn2"}, {"what": "leave_out"}]);
    assert_eq!(lost[0]["remedies"], remedies);
}

// Bars 3 to 8 rest: six bars of four seconds.
#[test]
fn a_rest_of_24_seconds_lets_it_be_retuned_where_that_is_allowed() {
    let plan = planned("low-d-both-ways", &["--retune", "20"]);
    check_as_written(&plan);
    assert_eq!(tuned(&plan), ["C1 Cn1 1", "D1 Db1 1", "D1 Dn1 1"]);
    let again = &plan["discless"][2];
    assert_eq!(again["in_a_rest"], true);
    let measure = again["measure"].as_u64().unwrap();
    assert!((3..=4).contains(&measure), "{again}");
    let longer = planned("low-d-both-ways", &["--retune", "30"]);
    assert_eq!(longer["cannot"].as_array().unwrap().len(), 1);
}

// C1 has been asked for A (Cambridge Guide to Orchestration, ch. 4): three semitones under C.
#[test]
fn a_string_tuned_far_down_is_told_by_what_it_sounds() {
    let low = |pitch: &str, octave: i32| {
        let alter = if pitch == "B" {
            "<alter>-1</alter>"
        } else {
            ""
        };
        format!("<step>{pitch}</step>{alter}<octave>{octave}</octave>")
    };
    for (asked, sounds, played) in [(low("A", 0), "An0", "Cbbb1"), (low("B", 0), "Bb0", "Cbb1")] {
        let from = "<step>C</step><octave>1</octave>";
        let plan = planned_with("low-d-both-ways", from, &asked, &[]);
        assert_eq!(tuned(&plan)[0], format!("C1 {sounds} 1"));
        let heads = plan["respelled"].as_array().unwrap();
        assert!(
            heads.iter().all(|head| head["played"] == played),
            "{heads:?}"
        );
        assert_eq!(heads.len(), 2);
    }
}
