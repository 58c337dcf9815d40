//! Glissandi: the whole setting counts, not the written ends.

use crate::asked::{
    changes, check_as_written, diagnostics, planned, planned_with, setting, setting_at,
};

/// The three diminished sevenths have one setting each, by enumeration of all 2,187 (sounds that
/// begin at C, at D and at C sharp), here in the order of the pedals.
const DIMINISHED: [&str; 3] = ["#n#b#bn", "nbn#n#b", "b#bnbn#"];
/// The only setting that sounds C D E G A and nothing else, by enumeration.
const PENTATONIC: &str = "nn#nbnn";

// Bars 1, 3 and 5, each with its diagram; between them a bar of rest, time for all seven pedals.
#[test]
fn each_diminished_seventh_stands_in_its_one_setting() {
    let plan = planned("diminished-sevenths", &[]);
    check_as_written(&plan);
    assert_eq!(setting(&plan["opening_setting"]), DIMINISHED[0]);
    for (measure, expected) in [(1, 0), (3, 1), (5, 2)] {
        assert_eq!(setting_at(&plan, measure), DIMINISHED[expected]);
    }
    // no two of the three have a pedal in common
    assert_eq!(plan["moves"], 14);
    assert_eq!(plan["cost"]["glissando"]["count"], 0);
    assert!(diagnostics(&plan).is_empty(), "{plan}");
    assert_eq!(plan["contradicted"].as_array().unwrap().len(), 0);
}

// E flat to sharp and G flat to sharp in between; then C and A: two notches, one change each.
#[test]
fn from_flat_to_sharp_is_one_change_of_two_notches() {
    let plan = planned("diminished-sevenths", &[]);
    let through: Vec<String> = changes(&plan)
        .into_iter()
        .filter(|change| change.contains("flat>sharp") || change.contains("sharp>flat"))
        .map(|change| change[change.find(' ').unwrap() + 1..].to_owned())
        .collect();
    let mut through: Vec<&str> = through.iter().map(|change| &change[..1]).collect();
    through.sort_unstable();
    assert_eq!(through, ["A", "C", "E", "G"]);
    assert_eq!(plan["cost"]["two_notches"]["count"], 4);
}

#[test]
fn letters_in_words_are_the_setting() {
    let plan = planned("sweeps", &[]);
    assert_eq!(setting(&plan["opening_setting"]), PENTATONIC);
    assert_eq!(setting_at(&plan, 1), PENTATONIC);
}

// C D E F♯ G♯ A♯ B♯, written out before the sweep: one of the five settings that sound the whole-tone
// scale on C, by enumeration. Three pedals from the pentatonic.
#[test]
fn a_scale_written_out_is_the_setting() {
    let plan = planned("sweeps", &[]);
    assert_eq!(setting_at(&plan, 3), "nn#n###");
}

// Bar 5: three flats in the key, F sharp in the bar. E, G, A and B move, F stays.
#[test]
fn where_neither_is_there_key_and_accidentals_serve_and_it_is_said() {
    let plan = planned("sweeps", &[]);
    check_as_written(&plan);
    assert_eq!(setting_at(&plan, 5), "nnbb#nb");
    assert_eq!(plan["moves"], 7);
    let told = diagnostics(&plan);
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].starts_with("5: bar 5: the glissando's setting is not written"));
    assert!(told[0].ends_with("C♮ D♮ E♭ F♯ G♮ A♭ B♭"), "{told:?}");
}

// At 20 times the tempo, a bar of rest is 0.2 s: five letters of the sweep in bar 3 come too late,
// or those of bar 5; what is lost is counted, and no note is said to be lost for it.
#[test]
fn a_sweep_that_comes_too_soon_finds_letters_elsewhere_and_they_are_counted() {
    let plan = planned_with(
        "diminished-sevenths",
        "<per-minute>60</per-minute>",
        "<per-minute>1200</per-minute>",
        &[],
    );
    let slow = planned("diminished-sevenths", &[]);
    assert_eq!(slow["cost"]["glissando"]["count"], 0);
    // the tempo that sounds is the other attribute
    assert_eq!(plan["cost"]["glissando"]["count"], 0);
    let plan = planned_with("diminished-sevenths", "tempo=\"60\"", "tempo=\"1200\"", &[]);
    assert!(
        plan["cost"]["glissando"]["count"].as_u64().unwrap() >= 5,
        "{plan}"
    );
}
