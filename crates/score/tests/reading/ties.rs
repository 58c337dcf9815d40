//! Ties: the end of one is no new attack.

use crate::written::{divisions, doubts, note, piece, score};

#[track_caller]
fn check(first: &str, second: &str, attacks: &[bool]) -> score::Piece {
    let text = score(&[&format!(
        "{}{}{}",
        divisions(1),
        note("C4", 1, first),
        note("C4", 1, second)
    )]);
    let piece = piece(&text);
    let found: Vec<bool> = piece.notes.iter().map(score::Note::is_attack).collect();
    assert_eq!(found, attacks);
    piece
}

#[test]
fn the_end_of_a_tie_is_no_attack() {
    check(
        "<tie type=\"start\"/>",
        "<tie type=\"stop\"/>",
        &[true, false],
    );
}

#[test]
fn a_tie_that_is_only_drawn_counts_too() {
    let tied = |kind: &str| format!("<notations><tied type=\"{kind}\"/></notations>");
    check(&tied("start"), &tied("stop"), &[true, false]);
}

#[test]
fn what_sounds_goes_before_what_is_drawn() {
    check(
        "<tie type=\"start\"/>",
        "<tie type=\"start\"/><notations><tied type=\"stop\"/></notations>",
        &[true, true],
    );
}

#[test]
fn a_tie_from_nowhere_is_held_and_said() {
    let piece = check("<tie type=\"stop\"/>", "", &[false, true]);
    assert!(doubts(&piece).contains("bar 1: C♮4 is tied to nothing before it"));
}

#[test]
fn let_ring_is_a_mark_and_no_tie() {
    let piece = check(
        "<notations><tied type=\"let-ring\"/></notations>",
        "",
        &[true, true],
    );
    assert!(!piece.notes[0].tie.start);
    assert_eq!(piece.marks[0].kind, score::MarkKind::LetRing);
}
