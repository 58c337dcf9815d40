//! When it sounds: divisions, chords, steps back and forward, parts of unlike length.

use crate::written::{divisions, note, parts, piece, rest, score, sounds};
use score::{Fraction, Options, WhichPart, read};

#[track_caller]
fn check(measures: &[String], expected: &str) {
    let measures: Vec<&str> = measures.iter().map(String::as_str).collect();
    assert_eq!(sounds(&piece(&score(&measures))), expected);
}

#[test]
fn divisions_may_change_in_the_middle_of_a_bar() {
    let change = "<attributes><divisions>6</divisions></attributes>";
    check(
        &[
            format!(
                "{}{}{change}{}{}",
                divisions(1),
                note("C4", 1, ""),
                note("D4", 2, ""),
                note("E4", 1, "")
            ),
            note("F4", 6, ""),
        ],
        "C4@1:0 D4@1:1 E4@1:4/3 F4@2:0",
    );
}

#[test]
fn divisions_may_be_decimal() {
    check(
        &[format!(
            "<attributes><divisions>0.5</divisions></attributes>{}{}",
            note("C4", 1, ""),
            note("D4", 1, "")
        )],
        "C4@1:0 D4@1:2",
    );
}

#[test]
fn triplets_meet_quavers_where_they_should() {
    let triplets: String = ["C4", "D4", "E4"].map(|p| note(p, 2, "")).concat();
    let back = "<backup><duration>6</duration></backup>";
    let quavers: String = ["C3", "D3", "E3"]
        .map(|p| note(p, 3, "<voice>2</voice>"))
        .concat();
    check(
        &[format!("{}{triplets}{back}{quavers}", divisions(6))],
        "C3@1:0 C4@1:0 D4@1:1/3 D3@1:1/2 E4@1:2/3 E3@1:1",
    );
}

#[test]
fn members_of_a_chord_begin_with_its_first_note() {
    check(
        &[format!(
            "{}{}{}<direction/>{}{}",
            divisions(1),
            note("C4", 2, ""),
            note("E4", 2, "<chord/>"),
            note("G4", 1, "<chord/>"),
            note("A4", 1, "")
        )],
        "C4@1:0 E4@1:0 G4@1:0 A4@1:2",
    );
}

#[test]
fn a_step_forward_leaves_a_gap() {
    check(
        &[format!(
            "{}<forward><duration>3</duration></forward>{}",
            divisions(2),
            note("C4", 1, "")
        )],
        "C4@1:3/2",
    );
}

#[test]
fn a_step_back_beyond_the_bar_stops_at_its_beginning() {
    let text = score(&[&format!(
        "{}{}<backup><duration>9</duration></backup>{}",
        divisions(1),
        note("C4", 1, ""),
        note("D4", 1, "")
    )]);
    let piece = piece(&text);
    assert_eq!(sounds(&piece), "C4@1:0 D4@1:0");
    assert!(crate::written::doubts(&piece).contains("step back beyond"));
}

#[test]
fn a_bar_begins_where_the_longest_part_says() {
    let short = [
        format!("{}{}", divisions(1), note("C4", 3, "")),
        note("D4", 4, ""),
    ];
    let long = [format!("{}{}", divisions(1), rest(4)), rest(4)];
    let borrowed = |bars: &'_ [String; 2]| [bars[0].clone(), bars[1].clone()];
    let (short, long) = (borrowed(&short), borrowed(&long));
    let short: Vec<&str> = short.iter().map(String::as_str).collect();
    let long: Vec<&str> = long.iter().map(String::as_str).collect();
    let piece = piece(&parts(&[("P1", "Harp", &short), ("P2", "Flute", &long)]));
    assert_eq!(piece.measures[1].start, Fraction::whole(4));
    assert_eq!(piece.end(), Fraction::whole(8));
}

#[test]
fn an_empty_bar_is_as_long_as_its_time_signature() {
    let piece = piece(&score(&[&divisions(1), ""]));
    assert_eq!(piece.end(), Fraction::whole(8));
    assert!(crate::written::doubts(&piece).contains("taken from the time signature"));
}

#[test]
fn bars_keep_their_printed_numbers() {
    let text = score(&[
        "<note><rest/><duration>1</duration></note>",
        &note("C4", 4, ""),
    ]);
    let text = text.replacen("number=\"1\"", "number=\"0\" implicit=\"yes\"", 1);
    let text = text.replacen("number=\"2\"", "number=\"1a\"", 1);
    let piece = piece(&text);
    let told: Vec<_> = piece
        .measures
        .iter()
        .map(|m| (m.index, m.number.as_str(), m.implicit))
        .collect();
    assert_eq!(told, [(1, "0", true), (2, "1a", false)]);
}

#[test]
fn staves_are_hands_and_voices_are_kept() {
    let text = score(&[&format!(
        "<attributes><divisions>1</divisions><staves>2</staves></attributes>{}<backup><duration>1</duration></backup>{}",
        note("C5", 1, "<voice>1</voice><staff>1</staff>"),
        note("C3", 1, "<voice>5</voice><staff>2</staff>")
    )]);
    let piece = piece(&text);
    let told: Vec<_> = piece
        .notes
        .iter()
        .map(|n| (n.staff, n.voice, n.hand))
        .collect();
    assert_eq!(
        told,
        [(2, 5, score::Hand::Left), (1, 1, score::Hand::Right)]
    );
}

#[test]
fn each_note_knows_its_place_in_the_source() {
    let text = score(&[
        &format!("{}{}", divisions(1), note("C4", 1, "")),
        &note("D4", 1, ""),
    ]);
    let piece = read(
        text.as_bytes(),
        &Options {
            part: WhichPart::All,
            ..Options::default()
        },
    )
    .unwrap();
    for (note, element) in piece.notes.iter().zip([1, 0]) {
        assert_eq!(note.anchor.element, element);
        assert!(text[note.anchor.byte..].starts_with("<note>"));
        assert!(text[note.anchor.byte..].contains(&format!("<step>{}", note.written.letter)));
    }
    assert_eq!(score::musicxml_text(text.as_bytes()).unwrap(), text);
}
