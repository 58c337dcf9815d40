//! Tremolos of two notes: both sound as long as both last. MusicXML 4.0 (W3C), `<tremolo>`: 'start' and
//! 'stop' join two notes, each written with half of the time.

use crate::written::{divisions, doubts, note, piece, rest, score};
use score::{Fraction, Piece};

fn half(kind: &str) -> String {
    format!("<notations><ornaments><tremolo type=\"{kind}\">3</tremolo></ornaments></notations>")
}

fn one_bar(inside: &[String]) -> Piece {
    piece(&score(&[&format!("{}{}", divisions(2), inside.concat())]))
}

/// `Fn4 An4 Cn5 from 1 to 3`.
fn told(piece: &Piece) -> Vec<String> {
    let told = piece.tremolos.iter().map(|tremolo| {
        let notes = tremolo.notes.iter().map(|&note| piece.notes[note].written);
        let notes: Vec<String> = notes.map(|pitch| pitch.to_string()).collect();
        format!(
            "{} from {} to {}",
            notes.join(" "),
            tremolo.from,
            tremolo.to
        )
    });
    told.collect()
}

#[test]
fn two_notes_sound_through_both_lengths() {
    let read = one_bar(&[
        rest(2),
        note("F4", 2, &half("start")),
        note("A4", 2, &half("stop")),
        rest(2),
    ]);
    assert_eq!(told(&read), ["Fn4 An4 from 1 to 3"]);
    // they stay where they are written
    assert_eq!(read.notes[1].offset, Fraction::whole(2));
    assert!(!doubts(&read).contains("tremolo"));
}

#[test]
fn chords_alternate_whole() {
    let read = one_bar(&[
        note("F4", 4, &half("start")),
        note("A4", 4, "<chord/>"),
        note("C5", 4, &half("stop")),
        note("E5", 4, "<chord/>"),
    ]);
    assert_eq!(told(&read), ["Fn4 An4 Cn5 En5 from 0 to 4"]);
}

#[test]
fn half_a_tremolo_is_told() {
    for inside in [
        [note("F4", 4, &half("start")), note("A4", 4, "")],
        [note("F4", 4, ""), note("A4", 4, &half("stop"))],
    ] {
        let read = one_bar(&inside);
        assert!(read.tremolos.is_empty());
        assert_eq!(read.notes.len(), 2);
        assert!(doubts(&read).contains("tremolo"), "{}", doubts(&read));
    }
}

#[test]
fn a_tremolo_on_one_note_is_that_note() {
    let single =
        "<notations><ornaments><tremolo type=\"single\">3</tremolo></ornaments></notations>";
    let read = one_bar(&[note("F4", 8, single)]);
    assert!(read.tremolos.is_empty());
    assert!(!doubts(&read).contains("tremolo"));
}
