//! Marks written into the scores that the package music21 10.5.1 brings: found again where they were
//! put, and nothing else changed. `./dev test` fetches the package; a missing file is a failure.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_macros,
    clippy::unwrap_used,
    clippy::panic,
    reason = "reads the scores of a package, and says what it compared"
)]

#[path = "made/musical.rs"]
mod musical;

use std::path::{Path, PathBuf};

use pitch::{Alteration, Letter};
use score::{
    Fraction, Letters, Mark, MarkKind, NewMark, NewMarkKind, Options, Piece, musicxml_text, read,
    with_marks,
};

/// The files, one a row.
const TABLE: &str = include_str!("../../../reference/music21-counts/data.csv");

#[test]
fn marks_are_found_again_in_real_scores_and_nothing_else_changed() {
    let (mut pieces, mut put) = (0, 0);
    for row in TABLE.lines().skip(1) {
        let (file, _) = row.split_once(',').unwrap();
        let bytes = std::fs::read(folder().join(file)).unwrap_or_else(|error| {
            panic!("{file}: {error}; run ./dev test, which fetches music21")
        });
        let piece = read(&bytes, &Options::default()).unwrap();
        let marks = marks(&piece);
        let after = with_marks(&bytes, &piece, &marks)
            .unwrap_or_else(|e| panic!("{file}: {e}"))
            .to_vec();
        check(file, &bytes, &after, &piece, &marks);
        pieces += 1;
        put += marks.len();
    }
    println!("{put} marks in {pieces} scores");
    assert!(
        pieces >= 40 && put >= 20 * pieces,
        "{put} marks in {pieces} scores"
    );
}

/// A diagram at the beginning; pencilled changes at every fifth note, and half-way to the next one.
fn marks(piece: &Piece) -> Vec<NewMark> {
    let naturals = |letters: Letters, letter| letters.with(letter, Alteration::Natural);
    let all = Letter::ALL.into_iter().fold(Letters::default(), naturals);
    let mut marks = vec![NewMark::between_staves(
        piece,
        0,
        Fraction::ZERO,
        NewMarkKind::Diagram(all),
    )];
    let part = piece.marked_part().unwrap();
    let notes = piece.notes.iter().filter(|note| note.anchor.part == part);
    for note in notes.step_by(5) {
        let half = note.duration.times(Fraction::new(1, 2).unwrap()).unwrap();
        for offset in [note.offset, note.offset.plus(half).unwrap()] {
            let words = NewMarkKind::Pencilled {
                words: "F♯ B♭".to_owned(),
                addition: None,
            };
            marks.push(NewMark::between_staves(piece, note.measure, offset, words));
        }
    }
    marks
}

fn check(file: &str, before: &[u8], after: &[u8], piece: &Piece, marks: &[NewMark]) {
    let (text, marked) = (
        musicxml_text(before).unwrap(),
        musicxml_text(after).unwrap(),
    );
    assert!(
        stripped(&marked) == text,
        "{file}: more than marks was changed"
    );
    let again = read(after, &Options::default()).unwrap();
    assert!(
        musical::musical(again.clone()) == musical::musical(piece.clone()),
        "{file}: what is played was changed"
    );
    let ours = |mark: &&Mark| {
        matches!(&mark.kind, MarkKind::PedalWords { text, .. } if text == "F♯ B♭")
            || matches!(&mark.kind, MarkKind::Diagram(letters) if letters.is_complete())
    };
    let place = |mark: &Mark| (mark.measure, mark.offset, mark.staff);
    let mut found: Vec<_> = again.marks.iter().filter(ours).map(place).collect();
    let mut expected: Vec<_> = marks
        .iter()
        .map(|m| (m.measure, m.offset, m.staff))
        .collect();
    expected.extend(piece.marks.iter().filter(ours).map(place));
    found.sort();
    expected.sort();
    // what no decimal number of divisions reaches stands within a millionth of one
    let near = |a: Fraction, b: Fraction| (a.to_f64() - b.to_f64()).abs() < 1e-6;
    let same = found.len() == expected.len()
        && found
            .iter()
            .zip(&expected)
            .all(|(a, b)| (a.0, a.2) == (b.0, b.2) && near(a.1, b.1));
    assert!(same, "{file}: {found:?} for {expected:?}");
}

/// A marked text without our marks: each with the line's end and indentation that follow it.
fn stripped(marked: &str) -> String {
    let mut kept = String::new();
    let mut rest = marked;
    while let Some(at) = rest.find("<direction placement=\"below\"><direction-type>") {
        let (before, from) = rest.split_at(at);
        kept.push_str(before);
        let end = from.find("</direction>").unwrap() + "</direction>".len();
        let direction = &from[..end];
        let plain = direction.replace("&#9839;", "♯").replace("&#9837;", "♭");
        let ours = plain.contains("<words>F♯ B♭<")
            || direction.contains("<harp-pedals><pedal-tuning><pedal-step>D<");
        if !ours {
            kept.push_str(direction);
        }
        rest = if ours {
            from[end..].trim_start()
        } else {
            &from[end..]
        };
    }
    kept + rest
}

/// The folder `music21` of the unpacked package.
fn folder() -> PathBuf {
    let own = || Path::new(env!("CARGO_MANIFEST_DIR")).join("../../target/music21");
    std::env::var_os("SEVENFLATS_MUSIC21")
        .map_or_else(own, PathBuf::from)
        .join("music21")
}
