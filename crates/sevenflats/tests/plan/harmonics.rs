//! Harmonics: what matters is the string that is plucked. On a lever harp each string has a lever of
//! its own, so that the plan tells which string that is.

use serde_json::json;

use crate::asked::{check_as_written, diagnostics, planned};

/// Open in C, where every sharp is a lever.
const ON_LEVERS: [&str; 4] = ["--harp", "lever34", "--open", "C"];

// F♯4 with no mark, G♯4 as base, A♯4 as touched place, C♯5 as sound (string C4), D♯4 with its sound D♯5 as
// a chord (string D4).
#[test]
fn without_a_mark_the_written_note_is_the_string() {
    let plan = planned("harmonics", &ON_LEVERS);
    check_as_written(&plan);
    assert_eq!(
        plan["opening_levers"],
        json!(["C4", "D4", "F4", "G4", "A4"])
    );
    assert_eq!(plan["changes"], json!([]));
}

// Only the note with no mark changes its string: F3.
#[test]
fn or_what_sounds_where_she_says_so() {
    let words = [&ON_LEVERS[..], &["--harmonics", "sounding"]].concat();
    let plan = planned("harmonics", &words);
    assert_eq!(
        plan["opening_levers"],
        json!(["F3", "C4", "D4", "G4", "A4"])
    );
}

#[test]
fn a_touched_place_alone_is_doubtful_and_said() {
    let told = diagnostics(&planned("harmonics", &ON_LEVERS));
    assert_eq!(told.len(), 1, "{told:?}");
    assert!(told[0].starts_with("3: bar 3: the harmonic A♯4 names only where it is touched"));
}
