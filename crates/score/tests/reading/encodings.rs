//! Encodings of the text.

use crate::written::{doubts, note, piece, score, sounds};
use score::{Options, ScoreError, musicxml_text, read};

#[test]
fn utf_16_reads_as_utf_8_does_and_anchors_count_in_the_decoded_text() {
    let text = score(&[&note("C4", 4, "")]).replace("Harp", "Härfe 𝄞");
    let plain = piece(&text);
    let le: Vec<u8> = "\u{feff}"
        .chars()
        .chain(text.chars())
        .collect::<String>()
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    let be: Vec<u8> = "\u{feff}"
        .chars()
        .chain(text.chars())
        .collect::<String>()
        .encode_utf16()
        .flat_map(u16::to_be_bytes)
        .collect();
    for bytes in [&le, &be] {
        assert_eq!(read(bytes, &Options::default()).unwrap(), plain);
        assert_eq!(musicxml_text(bytes).unwrap(), text);
    }
    let marked = format!("\u{feff}{text}");
    assert_eq!(piece(&marked), plain);
}

#[test]
fn bytes_that_are_no_text_are_replaced_and_said() {
    let text = score(&[&note("C4", 4, "")]);
    let mut bytes = text.into_bytes();
    let at = bytes.windows(4).position(|four| four == b"Harp").unwrap();
    bytes[at] = 0xFF;
    let piece = read(&bytes, &Options::default()).unwrap();
    assert_eq!(sounds(&piece), "C4@1:0");
    assert!(doubts(&piece).contains("not all in its encoding"));
}

#[test]
fn what_is_no_score_is_refused_by_what_it_is() {
    let check = |bytes: &[u8], expected: ScoreError| {
        assert_eq!(read(bytes, &Options::default()).unwrap_err(), expected);
    };
    check(b"", ScoreError::Empty);
    check(b"   ", ScoreError::Unknown);
    check(b"RIFF....WAVEfmt ", ScoreError::Unknown);
    check(b"<html></html>", ScoreError::NoScore);
    check(b"<score-partwise/>", ScoreError::NoMeasures);
    check(
        b"<score-partwise><part id='P1'/></score-partwise>",
        ScoreError::NoMeasures,
    );
}
