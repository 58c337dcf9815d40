//! Any bytes at all: an answer or an error, never a crash; and what is read keeps its own rules.

use proptest::prelude::*;
use score::{Options, Piece, WhichPart, read};

use crate::written::{divisions, grace, note, score};

/// What holds for every piece, however damaged its source.
fn check(bytes: &[u8]) {
    for part in [WhichPart::Harp, WhichPart::All] {
        let options = Options {
            part,
            ..Options::default()
        };
        if let Ok(piece) = read(bytes, &options) {
            sound(&piece);
        }
    }
}

fn sound(piece: &Piece) {
    let measures = piece.measures.len();
    assert!(measures > 0);
    assert!(
        piece
            .measures
            .windows(2)
            .all(|pair| pair[0].start <= pair[1].start)
    );
    assert!(
        piece
            .order
            .iter()
            .all(|played| played.measure < measures && played.pass > 0)
    );
    assert!(
        piece
            .notes
            .windows(2)
            .all(|pair| (pair[0].measure, pair[0].offset) <= (pair[1].measure, pair[1].offset))
    );
    for note in &piece.notes {
        assert!(note.measure < measures && note.staff > 0);
        assert_eq!(
            note.grace.is_some(),
            note.grace.is_some_and(|steps| steps > 0)
        );
    }
    for glissando in &piece.glissandi {
        assert!(glissando.from < piece.notes.len());
        assert!(glissando.to.is_none_or(|to| to < piece.notes.len()));
    }
    for tremolo in &piece.tremolos {
        assert!(tremolo.notes.iter().all(|&note| note < piece.notes.len()));
        assert!(tremolo.measure < measures && tremolo.from <= tremolo.to);
    }
    let moments = piece.moments(&piece.order);
    assert!(
        moments
            .iter()
            .all(|moment| moment.at_s.is_finite() && moment.at_s >= 0.0)
    );
    let written = piece.moments(&piece.written_order());
    let heads: usize = written.iter().map(|moment| moment.notes.len()).sum();
    assert_eq!(heads, piece.notes.len());
    assert!(
        piece
            .diagnostics
            .iter()
            .all(|doubt| !doubt.to_string().is_empty())
    );
}

/// A score with something of everything.
fn rich() -> String {
    let first = format!(
        "{}<barline location=\"left\"><repeat direction=\"forward\"/></barline><direction><direction-type><harp-pedals><pedal-tuning><pedal-step>D</pedal-step><pedal-alter>1</pedal-alter></pedal-tuning></harp-pedals></direction-type><offset>1</offset><sound tempo=\"80\" segno=\"s\"/></direction>{}{}{}<backup><duration>1</duration></backup>{}",
        divisions(2),
        grace("D4", ""),
        note(
            "C4",
            2,
            "<tie type=\"start\"/><notations><glissando number=\"1\" type=\"start\"/></notations>"
        ),
        note("E4", 1, "<chord/>"),
        note("Ab2", 3, "<voice>2</voice><staff>2</staff>")
    );
    let second = format!(
        "<barline location=\"left\"><ending number=\"1,2\" type=\"start\"/></barline><attributes><transpose><chromatic>-2</chromatic></transpose></attributes>{}<barline><ending number=\"1\" type=\"stop\"/><repeat direction=\"backward\" times=\"3\"/></barline><sound dalsegno=\"s\"/>",
        note(
            "C4",
            3,
            "<tie type=\"stop\"/><notations><technical><harmonic/></technical><glissando number=\"1\" type=\"stop\"/></notations>"
        )
    );
    score(&[&first, &second])
}

#[test]
fn a_score_cut_anywhere_is_read_or_refused() {
    let text = rich();
    for cut in 0..text.len() {
        check(&text.as_bytes()[..cut]);
    }
}

proptest! {
    #[test]
    fn any_bytes_are_read_or_refused(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        check(&bytes);
        check(&[b"PK\x03\x04".as_slice(), &bytes].concat());
        check(&[b"MThd\0\0\0\x06\0\x01\0\x01\0\x60MTrk\0\0\x01\0".as_slice(), &bytes].concat());
        check(&[b"<score-partwise><part><measure>".as_slice(), &bytes].concat());
    }

    #[test]
    fn bytes_changed_anywhere_are_read_or_refused(
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..8)
    ) {
        let mut bytes = rich().into_bytes();
        for (place, byte) in &changes {
            let at = place.index(bytes.len());
            bytes[at] = *byte;
        }
        check(&bytes);
        let mut midi = crate::midi::file(1, [0, 96], &[
            vec![0, 0xFF, 0x51, 3, 7, 0xA1, 0x20, 0, 0xFF, 0x58, 4, 3, 2, 24, 8],
            vec![0, 0x90, 60, 64, 96, 60, 0, 0, 64, 64, 96, 64, 0],
        ]);
        for (place, byte) in &changes {
            let at = place.index(midi.len());
            midi[at] = *byte;
        }
        check(&midi);
        let mut archive = crate::archives::score_archive("s.xml", "s.xml", rich().as_bytes(), true);
        for (place, byte) in &changes {
            let at = place.index(archive.len());
            archive[at] = *byte;
        }
        check(&archive);
    }

    #[test]
    fn pieces_of_scores_in_any_order_are_read_or_refused(pieces in prop::collection::vec(0..40_usize, 0..60)) {
        const PIECES: [&str; 40] = [
            "<score-partwise>", "</score-partwise>", "<part id=\"a\">", "</part>", "<measure number=\"1\">",
            "</measure>", "<note>", "</note>", "<pitch>", "</pitch>", "<step>C</step>", "<octave>4</octave>",
            "<duration>1</duration>", "<duration>-1</duration>", "<chord/>", "<grace/>", "<rest/>", "<backup>",
            "</backup>", "<attributes>", "</attributes>", "<divisions>0</divisions>", "<divisions>3</divisions>",
            "<key><fifths>99</fifths></key>", "<time><beats>1</beats><beat-type>4</beat-type></time>",
            "<barline><repeat direction=\"backward\"/></barline>", "<barline location=\"left\"><repeat direction=\"forward\"/></barline>",
            "<barline><ending number=\"2\" type=\"start\"/></barline>", "<barline><ending number=\"1\" type=\"stop\"/></barline>",
            "<sound dacapo=\"yes\"/>", "<sound dalsegno=\"x\" segno=\"x\"/>", "<sound tocoda=\"x\" coda=\"x\"/>",
            "<sound fine=\"yes\"/>", "<!--", "-->", "<![CDATA[", "]]>", "&amp;", "<a b='", "é",
        ];
        let text: String = pieces.iter().map(|&piece| PIECES[piece]).collect();
        check(text.as_bytes());
        check(format!("<score-timewise><part-list/>{text}").as_bytes());
        check(format!("<score-partwise><part id='a'><measure>{text}</measure></part></score-partwise>").as_bytes());
    }
}
