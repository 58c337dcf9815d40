//! What sounds: `<pitch>` alone decides (MusicXML 4.0).

use crate::written::{direction, divisions, note, piece, score, sounds};

#[track_caller]
fn check(measure: &str, expected: &str) {
    let first = divisions(1);
    let piece = piece(&score(&[&format!("{first}{measure}")]));
    assert_eq!(sounds(&piece), expected);
}

#[test]
fn neither_accidental_nor_key_changes_what_is_written() {
    check(
        &format!(
            "<attributes><key><fifths>-7</fifths></key></attributes>{}{}",
            note("C4", 1, "<accidental>flat</accidental>"),
            note("F#4", 1, "<accidental>natural</accidental>")
        ),
        "C4@1:0 F#4@1:1",
    );
}

#[test]
fn an_octave_shift_never_changes_the_pitch() {
    let shift = |kind: &str| direction(&format!("<octave-shift type=\"{kind}\" size=\"8\"/>"));
    check(
        &format!("{}{}{}", shift("down"), note("C6", 1, ""), shift("stop")),
        "C6@1:0",
    );
}

#[test]
fn a_transposing_part_sounds_as_its_letters_move() {
    let transpose = "<attributes><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>";
    check(
        &format!("{transpose}{}{}", note("D4", 1, ""), note("Eb4", 1, "")),
        "C4@1:0 Db4@1:1",
    );
    let piece = piece(&score(&[&format!("{transpose}{}", note("F#5", 1, ""))]));
    assert_eq!(piece.notes[0].written.to_string(), "F#5");
    assert_eq!(piece.notes[0].string.to_string(), "En5");
}

#[test]
fn one_staff_may_be_transposed_and_the_other_not() {
    let transpose = "<attributes><staves>2</staves><transpose number=\"2\"><chromatic>0</chromatic><octave-change>-1</octave-change></transpose></attributes>";
    check(
        &format!(
            "{transpose}{}{}",
            note("C4", 1, "<staff>1</staff>"),
            note("C4", 1, "<staff>2</staff>")
        ),
        "C4@1:0 C3@1:1",
    );
}

#[test]
fn cues_rests_and_unpitched_notes_take_their_time_and_do_not_sound() {
    check(
        &format!(
            "<note><cue/><pitch><step>A</step><octave>4</octave></pitch><duration>1</duration></note>\
             <note><unpitched/><duration>1</duration></note><note><rest/><duration>1</duration></note>{}",
            note("B4", 1, "")
        ),
        "B4@1:3",
    );
}

#[test]
fn a_pitch_that_cannot_be_read_costs_no_other() {
    let bad = "<note><pitch><step>Q</step><octave>4</octave></pitch><duration>1</duration></note>";
    let text = score(&[&format!("{}{bad}{}", divisions(1), note("C4", 1, ""))]);
    let piece = piece(&text);
    assert_eq!(sounds(&piece), "C4@1:1");
    assert!(crate::written::doubts(&piece).contains("bar 1: part Harp: a pitch cannot be read"));
}
