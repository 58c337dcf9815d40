//! Marks: diagrams, pedal letters, rehearsal marks, damping, words, arpeggios, signatures.

use crate::written::{direction, divisions, doubts, note, parts, piece, rest, score};
use score::{Arpeggio, Fraction, MarkKind, TimeSignature};

fn kinds(measure: &str) -> Vec<MarkKind> {
    let text = score(&[&format!("{}{measure}{}", divisions(1), rest(4))]);
    piece(&text)
        .marks
        .into_iter()
        .map(|mark| mark.kind)
        .collect()
}

fn tuning(step: &str, alter: &str) -> String {
    format!(
        "<pedal-tuning><pedal-step>{step}</pedal-step><pedal-alter>{alter}</pedal-alter></pedal-tuning>"
    )
}

// MusicXML 4.0, <harp-pedals>: the order of the pedals is advised, not required; fewer may stand.
#[test]
fn a_diagram_gives_the_letters_that_it_has_in_any_order() {
    let diagram = format!(
        "<harp-pedals>{}{}{}</harp-pedals>",
        tuning("A", "-1"),
        tuning("G", "1"),
        tuning("D", "0")
    );
    let [MarkKind::Diagram(letters)] = kinds(&direction(&diagram))[..] else {
        panic!("no diagram");
    };
    assert_eq!(letters.to_string(), "D♮ G♯ A♭");
}

#[test]
fn a_diagram_without_a_pedal_is_doubtful() {
    let wrong = direction(&format!("<harp-pedals>{}</harp-pedals>", tuning("H", "0")));
    let text = score(&[&format!("{wrong}{}", rest(4))]);
    let piece = piece(&text);
    assert!(piece.marks.is_empty());
    assert!(doubts(&piece).contains("a pedal diagram cannot be read"));
}

#[test]
fn words_that_are_pedal_letters_are_told_from_others() {
    let found = kinds(
        &[
            direction("<words>F♯ B♭</words>"),
            direction("<words>E</words><symbol>accidentalFlat</symbol>"),
            direction("<words>sons étouffés</words>"),
            direction("<words>l.v.</words>"),
            direction("<words>près de la table</words>"),
            direction("<damp/>"),
            direction("<damp-all/>"),
        ]
        .concat(),
    );
    let told: Vec<String> = found
        .iter()
        .map(|kind| match kind {
            MarkKind::PedalWords { text, letters } => format!("{text} = {letters}"),
            other => format!("{other:?}"),
        })
        .collect();
    assert_eq!(
        told,
        [
            "F♯ B♭ = F♯ B♭",
            "E♭ = E♭",
            "Etouffe",
            "LetRing",
            "Words(\"près de la table\")",
            "Damp",
            "DampAll"
        ]
    );
}

#[test]
fn an_offset_moves_a_mark() {
    let moved = "<direction><direction-type><words>F♯</words></direction-type><offset>1</offset><staff>2</staff></direction>";
    let text = score(&[&format!("{}{}{moved}{}", divisions(2), rest(2), rest(2))]);
    let mark = &piece(&text).marks[0];
    assert_eq!(
        (mark.measure, mark.offset, mark.staff),
        (0, Fraction::new(3, 2).unwrap(), Some(2))
    );
}

#[test]
fn rehearsal_marks_of_any_part_are_kept_once() {
    let letter = direction("<rehearsal>B</rehearsal>");
    let flute = [rest(4), format!("{letter}{}", rest(4))];
    let harp = [note("C4", 4, ""), format!("{letter}{}", note("C4", 4, ""))];
    let flute: Vec<&str> = flute.iter().map(String::as_str).collect();
    let harp: Vec<&str> = harp.iter().map(String::as_str).collect();
    let piece = piece(&parts(&[("P1", "Flute", &flute), ("P2", "Harp", &harp)]));
    let told: Vec<_> = piece
        .marks
        .iter()
        .map(|mark| (mark.measure, mark.kind.clone()))
        .collect();
    assert_eq!(told, [(1, MarkKind::Rehearsal("B".to_owned()))]);
}

#[test]
fn arpeggios_keep_their_direction() {
    let broken = |more: &str| note("C4", 1, &format!("<notations>{more}</notations>"));
    let text = score(&[&[
        broken("<arpeggiate/>"),
        broken("<arpeggiate direction=\"up\"/>"),
        broken("<arpeggiate direction=\"down\"/>"),
        broken("<non-arpeggiate type=\"bottom\"/>"),
    ]
    .concat()]);
    let found: Vec<_> = piece(&text)
        .notes
        .iter()
        .map(|note| note.arpeggio)
        .collect();
    let expected = [
        Arpeggio::Plain,
        Arpeggio::Up,
        Arpeggio::Down,
        Arpeggio::Together,
    ];
    assert_eq!(found, expected.map(Some));
}

#[test]
fn key_and_time_hold_until_they_change() {
    let first = "<attributes><key><fifths>-3</fifths></key><time><beats>3</beats><beat-type>4</beat-type></time></attributes>";
    let third = "<attributes><key><fifths>2</fifths></key></attributes>";
    let text = score(&[
        &format!("{first}{}", rest(3)),
        &rest(3),
        &format!("{third}{}", rest(3)),
    ]);
    let piece = piece(&text);
    let told: Vec<_> = piece
        .measures
        .iter()
        .map(|m| (m.key.fifths(), m.time))
        .collect();
    let time = Some(TimeSignature { beats: 3, unit: 4 });
    assert_eq!(told, [(Some(-3), time), (Some(-3), time), (Some(2), time)]);
}

#[test]
fn an_etouffe_at_the_note_is_the_notes_own() {
    let text = score(&[&note(
        "C4",
        1,
        "<notations><technical><other-technical>étouffé</other-technical></technical></notations>",
    )]);
    assert!(piece(&text).notes[0].etouffe);
}

#[test]
fn title_and_composer_are_read() {
    let text = score(&[&rest(4)]).replace(
        "<part-list>",
        "<work><work-title>An  Example</work-title></work><identification><creator type=\"composer\">Nobody &amp; Co</creator></identification><part-list>",
    );
    let piece = piece(&text);
    assert_eq!(
        (piece.title.as_str(), piece.composer.as_str()),
        ("An Example", "Nobody & Co")
    );
}
