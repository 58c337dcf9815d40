//! Harmonics: what matters is the string that is plucked.

use crate::written::{divisions, doubts, note, score};
use score::{Harmonics, Options, read};

fn harmonic(inside: &str) -> String {
    format!("<notations><technical><harmonic>{inside}</harmonic></technical></notations>")
}

#[track_caller]
fn check(notes: &[String], harmonics: Harmonics, expected: &[(&str, &str)]) -> score::Piece {
    let text = score(&[&format!("{}{}", divisions(1), notes.concat())]);
    let options = Options {
        harmonics,
        ..Options::default()
    };
    let piece = read(text.as_bytes(), &options).unwrap();
    let found: Vec<_> = piece
        .notes
        .iter()
        .map(|n| (n.string.pretty(), n.sounding.pretty()))
        .collect();
    let expected: Vec<_> = expected
        .iter()
        .map(|(a, b)| ((*a).to_owned(), (*b).to_owned()))
        .collect();
    assert_eq!(found, expected);
    piece
}

#[test]
fn an_unmarked_harmonic_is_written_at_its_string() {
    check(
        &[note("G3", 1, &harmonic(""))],
        Harmonics::String,
        &[("G♮3", "G♮4")],
    );
}

#[test]
fn or_at_what_it_sounds_where_that_is_chosen() {
    check(
        &[note("G4", 1, &harmonic(""))],
        Harmonics::Sounding,
        &[("G♮3", "G♮4")],
    );
}

#[test]
fn a_mark_goes_before_the_choice() {
    check(
        &[note("G4", 1, &harmonic("<natural/><sounding-pitch/>"))],
        Harmonics::String,
        &[("G♮3", "G♮4")],
    );
    let piece = check(
        &[note("Gb3", 1, &harmonic("<natural/><base-pitch/>"))],
        Harmonics::Sounding,
        &[("G♭3", "G♭4")],
    );
    assert_eq!(piece.notes[0].harmonic.unwrap().artificial, Some(false));
}

#[test]
fn a_harmonic_written_as_a_chord_is_one_string() {
    check(
        &[
            note("C3", 1, &harmonic("<base-pitch/>")),
            note(
                "F3",
                1,
                &format!("<chord/>{}", harmonic("<touching-pitch/>")),
            ),
            note(
                "C5",
                1,
                &format!("<chord/>{}", harmonic("<sounding-pitch/>")),
            ),
            note("E4", 1, "<chord/>"),
        ],
        Harmonics::String,
        &[("C♮3", "C♮5"), ("E♮4", "E♮4")],
    );
}

#[test]
fn a_touched_place_alone_is_doubtful() {
    let piece = check(
        &[note("G3", 1, &harmonic("<touching-pitch/>"))],
        Harmonics::Sounding,
        &[("G♮3", "G♮4")],
    );
    assert!(doubts(&piece).contains("only where it is touched"));
}
