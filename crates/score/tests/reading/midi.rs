//! Standard MIDI Files 1.0, written here byte by byte.

use crate::written::{doubts, order, sounds};
use score::{Fraction, Hand, MarkKind, Options, ScoreError, WhichPart, read};

/// A file of a format with so many ticks a quarter.
pub(crate) fn file(format: u8, division: [u8; 2], tracks: &[Vec<u8>]) -> Vec<u8> {
    let count = u8::try_from(tracks.len()).unwrap();
    let mut bytes = b"MThd\0\0\0\x06\0".to_vec();
    bytes.extend([format, 0, count]);
    bytes.extend(division);
    for track in tracks {
        bytes.extend(b"MTrk");
        let end = [0, 0xFF, 0x2F, 0];
        bytes.extend(
            u32::try_from(track.len() + end.len())
                .unwrap()
                .to_be_bytes(),
        );
        bytes.extend(track);
        bytes.extend(end);
    }
    bytes
}

fn meta(kind: u8, data: &[u8]) -> Vec<u8> {
    [&[0, 0xFF, kind, u8::try_from(data.len()).unwrap()], data].concat()
}

#[track_caller]
fn piece(bytes: &[u8]) -> score::Piece {
    read(bytes, &Options::default()).unwrap()
}

const NINETY_SIX: [u8; 2] = [0, 96];

#[test]
fn running_status_and_silent_strokes_are_understood() {
    // C4 and E4 for a quarter each; the ends are note-ons of velocity 0 under running status
    let track = vec![0, 0x90, 60, 64, 96, 60, 0, 0, 64, 64, 96, 64, 0];
    let piece = piece(&file(0, NINETY_SIX, &[track]));
    assert_eq!(sounds(&piece), "C4@1:0 E4@1:1");
    assert!(
        piece
            .notes
            .iter()
            .all(|note| !note.spelled && note.duration == Fraction::ONE)
    );
    assert_eq!(order(&piece), "1");
}

#[test]
fn the_key_signature_spells() {
    let play = |fifths: u8| {
        let notes = [
            0, 0x90, 61, 64, 96, 0x80, 61, 64, 0, 0x90, 66, 64, 96, 0x80, 66, 64,
        ];
        let track = [meta(0x59, &[fifths, 0]), notes.to_vec()].concat();
        sounds(&piece(&file(0, NINETY_SIX, &[track])))
    };
    assert_eq!(play(4), "C#4@1:0 F#4@1:1");
    assert_eq!(play(0xFB), "Db4@1:0 Gb4@1:1");
}

#[test]
fn tempo_and_bars_come_from_any_track() {
    let first = [
        meta(0x03, b"A title"),
        meta(0x51, &[0x0F, 0x42, 0x40]),
        meta(0x58, &[3, 2, 24, 8]),
    ]
    .concat();
    let second = vec![0x83, 0x00, 0x90, 60, 64, 96, 60, 0];
    let piece = piece(&file(1, NINETY_SIX, &[first, second]));
    // 384 ticks of 96 are four quarters: the second quarter of the second bar of three; one a second
    assert_eq!(sounds(&piece), "C4@2:1");
    assert_eq!(piece.title, "A title");
    assert!((piece.moments(&piece.order)[0].at_s - 4.0).abs() < 1e-9);
}

#[test]
fn without_a_tempo_the_standards_own_is_taken_and_said() {
    let piece = piece(&file(0, NINETY_SIX, &[vec![96, 0x90, 60, 64, 96, 60, 0]]));
    assert!((piece.moments(&piece.order)[0].at_s - 0.5).abs() < 1e-9);
    assert!(doubts(&piece).contains("taken at 120 quarters a minute"));
}

#[test]
fn of_two_tracks_the_higher_is_the_right_hands() {
    let low = vec![0, 0x90, 40, 64, 96, 40, 0];
    let high = vec![0, 0x91, 50, 64, 96, 50, 0];
    let piece = piece(&file(1, NINETY_SIX, &[low, high]));
    let hands: Vec<Hand> = piece.notes.iter().map(|note| note.hand).collect();
    assert_eq!(hands, [Hand::Left, Hand::Right]);
    assert!(doubts(&piece).contains("which hand plays is not said"));
    assert!(doubts(&piece).contains("no part is named as the harp's"));
}

#[test]
fn one_track_is_divided_at_middle_c() {
    let track = vec![0, 0x90, 59, 64, 0, 60, 64, 96, 59, 0, 0, 60, 0];
    let piece = piece(&file(0, NINETY_SIX, &[track]));
    let hands: Vec<Hand> = piece.notes.iter().map(|note| note.hand).collect();
    assert_eq!(hands, [Hand::Left, Hand::Right]);
}

#[test]
fn the_harps_tracks_are_found_by_name_or_program_and_drums_left_out() {
    let flute = [meta(0x03, b"Flute"), vec![0, 0x90, 80, 64, 96, 80, 0]].concat();
    let harp = [meta(0x03, b"Harp"), vec![0, 0x91, 70, 64, 96, 70, 0]].concat();
    let program = vec![0, 0xC2, 46, 0, 0x92, 50, 64, 96, 50, 0];
    let drums = vec![0, 0x99, 35, 64, 96, 35, 0];
    let bytes = file(1, NINETY_SIX, &[flute, harp, program, drums]);
    let found = piece(&bytes);
    assert_eq!(sounds(&found), "D3@1:0 Bb4@1:0");
    assert_eq!(found.parts.len(), 3);
    let asked = Options {
        part: WhichPart::Named("flute".to_owned()),
        ..Options::default()
    };
    assert_eq!(sounds(&read(&bytes, &asked).unwrap()), "Ab5@1:0");
}

#[test]
fn markers_are_rehearsal_marks() {
    let track = [vec![96, 0xFF, 6, 1, b'B'], vec![0, 0x90, 60, 64, 96, 60, 0]].concat();
    let piece = piece(&file(0, NINETY_SIX, &[track]));
    assert_eq!(piece.marks[0].kind, MarkKind::Rehearsal("B".to_owned()));
    assert_eq!(
        (piece.marks[0].measure, piece.marks[0].offset),
        (0, Fraction::ONE)
    );
}

#[test]
fn a_riff_container_is_opened() {
    let inner = file(0, NINETY_SIX, &[vec![0, 0x90, 60, 64, 96, 60, 0]]);
    let bytes = [b"RIFF\0\0\0\0RMIDdata\0\0\0\0", inner.as_slice()].concat();
    assert_eq!(sounds(&piece(&bytes)), "C4@1:0");
}

#[test]
fn ticks_of_seconds_give_the_seconds_that_they_are() {
    // 25 frames of 40 ticks: a tick is a millisecond
    let track = vec![0x87, 0x68, 0x90, 60, 64, 96, 60, 0];
    let piece = piece(&file(0, [0xE7, 40], &[track]));
    assert!((piece.moments(&piece.order)[0].at_s - 1.0).abs() < 1e-9);
    assert!(doubts(&piece).contains("counts seconds, not beats"));
}

#[test]
fn damage_is_said_and_what_came_before_is_kept() {
    let whole = file(
        0,
        NINETY_SIX,
        &[vec![0, 0x90, 60, 64, 96, 60, 0, 0, 62, 64, 96, 62, 0]],
    );
    let piece = piece(&whole[..whole.len() - 9]);
    assert_eq!(sounds(&piece), "C4@1:0");
    assert!(doubts(&piece).contains("breaks off"));
    let endless = file(0, NINETY_SIX, &[vec![0, 0x90, 60, 64, 96, 62, 64]]);
    assert!(doubts(&crate::midi::piece(&endless)).contains("2 notes never end"));
}

#[test]
fn what_cannot_be_a_file_is_refused() {
    let check = |bytes: &[u8]| {
        let error = read(bytes, &Options::default()).unwrap_err();
        assert!(
            matches!(error, ScoreError::Midi { .. } | ScoreError::NoMeasures),
            "{error}"
        );
    };
    check(b"MThd");
    check(b"MThd\0\0\0\x06\0\0\0\x01\0\x60");
    check(&file(0, [0, 0], &[vec![0, 0x90, 60, 64, 96, 60, 0]]));
    check(&file(0, [0x80, 0], &[vec![0, 0x90, 60, 64, 96, 60, 0]]));
    check(&file(0, NINETY_SIX, &[vec![]]));
    let far = vec![0xFF, 0xFF, 0xFF, 0x7F, 0x90, 60, 64, 96, 60, 0];
    let error = read(&file(0, [0, 1], &[far]), &Options::default()).unwrap_err();
    assert!(error.to_string().contains("bars"), "{error}");
}
