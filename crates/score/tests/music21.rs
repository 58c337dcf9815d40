//! Against another reader: the scores that the package music21 10.5.1 brings, as it counts them
//! (`reference/music21-counts`), and the facts that its suite of test files states. The scores are
//! in no repository of ours: `./dev test` fetches the package. A missing file is a failure.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_macros,
    clippy::unwrap_used,
    clippy::panic,
    reason = "reads the scores of a package, and says what it compared"
)]

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use score::{Fraction, Letters, MarkKind, Options, Piece, WhichPart, read};

/// How music21 counts: one file a row.
const TABLE: &str = include_str!("../../../reference/music21-counts/data.csv");
/// Where we count otherwise, and why: file, the words of the row in our count, reason.
const OTHERWISE: [(&str, &str, &str); 4] = [
    (
        "musicxml/lilypondTestSuite/02e-Rests-NoType.xml",
        "3,2,2,0,0,5",
        "a note without <staff> is on the first staff; music21 puts it on both",
    ),
    (
        "musicxml/lilypondTestSuite/21f-Chord-ElementInBetween.xml",
        "3,1,1,0,0,4",
        "a direction between the members of a chord does not end it",
    ),
    (
        "corpus/schumann_robert/dichterliebe_no2.xml",
        "250,73,18,0,23,",
        "four cues, which do not sound",
    ),
    (
        "corpus/schumann_robert/opus48no2.mxl",
        "250,73,18,0,23,",
        "four cues, which do not sound",
    ),
];
/// The suite that the package bundles (MIT).
const SUITE: &str = "musicxml/lilypondTestSuite";

#[test]
fn notes_onsets_bars_graces_and_ties_are_those_that_music21_counts() {
    let mut wrong = Vec::new();
    let mut pieces = 0;
    for row in TABLE.lines().skip(1) {
        let (file, counted) = row.split_once(',').unwrap();
        let expected = OTHERWISE
            .iter()
            .find(|(name, ..)| *name == file)
            .map_or(counted, |(_, ours, _)| ours);
        let found = counts(&all_parts(file), !counted.ends_with(','));
        if found != expected {
            wrong.push(format!("{file}: {found} for {expected}"));
        }
        pieces += usize::from(file.starts_with("corpus/"));
    }
    println!("{pieces} pieces and the suite compared");
    assert!(pieces >= 40, "only {pieces} pieces compared");
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Notes, places in bars at which one begins, bars, grace notes, ends of ties, where it ends.
fn counts(piece: &Piece, with_end: bool) -> String {
    let places: BTreeSet<_> = piece.notes.iter().map(|n| (n.measure, n.offset)).collect();
    let graces = piece
        .notes
        .iter()
        .filter(|note| note.grace.is_some())
        .count();
    let ends = piece.notes.iter().filter(|note| note.tie.stop).count();
    let end = if with_end {
        piece.end().to_string()
    } else {
        String::new()
    };
    format!(
        "{},{},{},{graces},{ends},{end}",
        piece.notes.len(),
        places.len(),
        piece.measures.len()
    )
}

// Counted with music21 10.5.1: every written note, ends of ties too.
#[test]
fn five_pieces_have_their_notes_onsets_and_bars() {
    let check = |file: &str, expected: (usize, usize, usize)| {
        let piece = all_parts(&format!("corpus/{file}"));
        let moments = piece.moments(&piece.written_order());
        let onsets: BTreeSet<Fraction> = moments.iter().map(|moment| moment.at).collect();
        let found = (piece.notes.len(), onsets.len(), piece.measures.len());
        assert_eq!(found, expected, "{file}");
    };
    check("schumann_clara/polonaise_op1n1.mxl", (856, 367, 40));
    check("schumann_clara/polonaise_op1n3.mxl", (966, 382, 48));
    check("bach/bwv846.mxl", (601, 529, 34));
    check("joplin/maple_leaf_rag.mxl", (1581, 579, 85));
    check("cpebach/h186.mxl", (831, 630, 32));
}

// The suite's 31a: one diagram.
#[test]
fn the_suites_pedal_diagram_is_read() {
    let piece = suite("31a-Directions.xml");
    let diagrams: Vec<Letters> = piece
        .marks
        .iter()
        .filter_map(|mark| match mark.kind {
            MarkKind::Diagram(letters) => Some(letters),
            _ => None,
        })
        .collect();
    let told: Vec<String> = diagrams.iter().map(Letters::to_string).collect();
    assert_eq!(told, ["C♭ D♮ E♮ F♮ G♯ A♭ B♭"]);
}

// MusicXML 4.0: an octave shift never changes what is written in <pitch>; music21 agrees.
#[test]
fn the_suites_octave_shifts_change_no_pitch() {
    assert_eq!(
        sounds(&suite("33d-Spanners-OctaveShifts.xml"), 0),
        "A4 C5 A6 C3 B2 A5 A5 B3 C4"
    );
}

// The suite's 72a: a trumpet in B flat, a horn in E flat and a piano sound the same scale.
#[test]
fn the_suites_transposing_instruments_sound_alike() {
    let piece = suite("72a-TransposingInstruments.xml");
    for part in 0..2 {
        assert!(
            sounds(&piece, part).starts_with("C4 D4 E4"),
            "{}",
            sounds(&piece, part)
        );
    }
}

// The suite's own words on each file.
#[test]
fn the_suites_repeats_are_played_in_order() {
    let check = |file: &str, expected: &str| {
        let piece = suite(file);
        let order = piece
            .order
            .iter()
            .map(|played| (played.measure + 1).to_string());
        assert_eq!(order.collect::<Vec<_>>().join(" "), expected, "{file}");
    };
    check("45a-SimpleRepeat.xml", "1 1 1 1 1 2");
    check("45b-RepeatWithAlternatives.xml", "1 2 1 3 4");
    check(
        "45e-Repeats-Nested-Alternatives.xml",
        "1 2 1 3 4 5 5 6 7 8 9 8 9 10",
    );
}

// As music21 10.5.1 reads them.
#[test]
fn the_suites_graces_tuplets_and_changing_divisions_stand_where_they_should() {
    let graces = suite("24a-GraceNotes.xml");
    let count = graces
        .notes
        .iter()
        .filter(|note| note.grace.is_some())
        .count();
    assert_eq!((graces.notes.len(), count), (28, 15));
    let tuplets = suite("23a-Tuplets.xml");
    let onsets = tuplets
        .notes
        .iter()
        .take(3)
        .map(|note| note.offset.to_string());
    assert_eq!(onsets.collect::<Vec<_>>(), ["0", "2/3", "4/3"]);
    assert_eq!(
        suite("03c-Rhythm-DivisionChange.xml").end(),
        Fraction::whole(8)
    );
    let pickup = suite("46d-PickupMeasure-ImplicitMeasures.xml");
    assert_eq!(Some(pickup.end()), Fraction::new(17, 2));
}

fn sounds(piece: &Piece, part: usize) -> String {
    let notes = piece.notes.iter().filter(|note| note.anchor.part == part);
    let names = notes.map(|note| note.sounding.to_string().replace('n', ""));
    names.collect::<Vec<_>>().join(" ")
}

fn suite(file: &str) -> Piece {
    all_parts(&format!("{SUITE}/{file}"))
}

fn all_parts(file: &str) -> Piece {
    let options = Options {
        part: WhichPart::All,
        ..Options::default()
    };
    let path = folder().join(file);
    let bytes = std::fs::read(&path).unwrap_or_else(|error| {
        panic!(
            "{}: {error}; run ./dev test, which fetches music21",
            path.display()
        )
    });
    read(&bytes, &options).unwrap_or_else(|error| panic!("{file}: {error}"))
}

/// The folder `music21` of the unpacked package.
fn folder() -> PathBuf {
    let own = || Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/music21");
    std::env::var_os("SEVENFLATS_MUSIC21")
        .map_or_else(own, PathBuf::from)
        .join("music21")
}
