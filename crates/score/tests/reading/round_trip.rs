//! Random small scores, written as MusicXML and read back: every note is where it was put.

use proptest::prelude::*;
use score::Fraction;

use crate::written::{note, piece, score};

/// A chord of one voice: letters by index, alterations, octaves; and how many divisions it lasts.
type Chord = (Vec<(usize, i8, i8)>, u32);

fn chords() -> impl Strategy<Value = Vec<Chord>> {
    let head = (0..7_usize, -2..=2_i8, 0..=8_i8);
    let chord = (prop::collection::vec(head, 0..4), 1..12_u32);
    prop::collection::vec(chord, 1..6)
}

/// Each voice of a bar, with the bar's divisions.
fn bars() -> impl Strategy<Value = Vec<(u32, Vec<Vec<Chord>>)>> {
    prop::collection::vec((1..25_u32, prop::collection::vec(chords(), 1..4)), 1..5)
}

fn name(&(letter, alter, octave): &(usize, i8, i8)) -> String {
    let signs = ["bb", "b", "n", "#", "##"];
    let sign = signs[usize::try_from(alter + 2).unwrap()];
    format!("{}{sign}{octave}", pitch::Letter::ALL[letter])
}

proptest! {
    #[test]
    fn every_note_is_read_where_it_was_written(bars in bars()) {
        let mut expected = Vec::new();
        let mut texts = Vec::new();
        for (bar, (divisions, voices)) in bars.iter().enumerate() {
            let mut text = format!("<attributes><divisions>{divisions}</divisions></attributes>");
            for (place, voice) in voices.iter().enumerate() {
                let mut at = 0;
                for (heads, length) in voice {
                    if heads.is_empty() {
                        text += &format!("<forward><duration>{length}</duration></forward>");
                    }
                    for (member, head) in heads.iter().enumerate() {
                        let chord = if member == 0 { "" } else { "<chord/>" };
                        text += &note(&name(head), *length, &format!("{chord}<voice>{}</voice>", place + 1));
                        let quarters = |count: u32| Fraction::new(i64::from(count), i64::from(*divisions)).unwrap();
                        expected.push((bar, quarters(at), quarters(*length), name(head), u32::try_from(place + 1).unwrap()));
                    }
                    at += length;
                }
                text += &format!("<backup><duration>{at}</duration></backup>");
            }
            texts.push(text);
        }
        let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
        let piece = piece(&score(&texts));
        let mut found: Vec<_> = piece
            .notes
            .iter()
            .map(|n| (n.measure, n.offset, n.duration, n.sounding.to_string(), n.voice))
            .collect();
        expected.sort();
        found.sort();
        prop_assert_eq!(found, expected);
    }
}
