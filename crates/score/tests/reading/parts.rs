//! Which part is read, and what damage in one costs the others.

use crate::written::{divisions, doubts, note, parts, piece, rest, score, sounds};
use score::{Options, ScoreError, WhichPart, read};

#[test]
fn the_harps_part_is_found_and_all_are_listed() {
    let text = parts(&[
        ("P1", "Flute", &[&note("C6", 4, "")]),
        ("P2", "Harp", &[&note("C2", 4, "")]),
    ]);
    let piece = piece(&text);
    assert_eq!(sounds(&piece), "C2@1:0");
    let names: Vec<&str> = piece.parts.iter().map(score::Part::label).collect();
    assert_eq!((names, piece.chosen), (vec!["Flute", "Harp"], vec![1]));
}

#[test]
fn a_part_is_known_as_a_harp_by_its_sound_too() {
    let text = parts(&[
        ("P1", "Upper", &[&note("C6", 4, "")]),
        ("P2", "Lower", &[&note("C2", 4, "")]),
    ]);
    let sound = "<part-name>Lower</part-name><score-instrument id=\"I\"><instrument-name>x</instrument-name><instrument-sound>pluck.harp</instrument-sound></score-instrument>";
    let named = text.replace("<part-name>Lower</part-name>", sound);
    assert_eq!(sounds(&piece(&named)), "C2@1:0");
    let program = "<part-name>Lower</part-name><midi-instrument id=\"I\"><midi-program>47</midi-program></midi-instrument>";
    let numbered = text.replace("<part-name>Lower</part-name>", program);
    assert_eq!(sounds(&piece(&numbered)), "C2@1:0");
}

#[test]
fn a_named_part_is_read_and_a_missing_one_lists_what_there_is() {
    let text = parts(&[
        ("P1", "Flute", &[&note("C6", 4, "")]),
        ("P2", "Harp", &[&note("C2", 4, "")]),
    ]);
    let asked = |name: &str| Options {
        part: WhichPart::Named(name.to_owned()),
        ..Options::default()
    };
    let flute = read(text.as_bytes(), &asked("flute")).unwrap();
    assert_eq!(sounds(&flute), "C6@1:0");
    let error = read(text.as_bytes(), &asked("Oboe")).unwrap_err();
    assert!(matches!(&error, ScoreError::NoSuchPart { parts, .. } if parts.len() == 2));
    assert!(error.to_string().contains("1 Flute, 2 Harp"));
}

#[test]
fn two_parts_without_a_harp_are_two_hands() {
    let text = parts(&[
        ("a", "", &[&note("C5", 4, "")]),
        ("b", "", &[&note("C3", 4, "")]),
    ]);
    let piece = piece(&text);
    let hands: Vec<_> = piece.notes.iter().map(|note| note.hand).collect();
    assert_eq!(hands, [score::Hand::Left, score::Hand::Right]);
    assert!(doubts(&piece).contains("no part is named as the harp's: 'a, b' was taken"));
}

#[test]
fn one_bad_bar_never_stops_the_reading() {
    let good = format!("{}{}", divisions(1), note("C4", 4, ""));
    for bad in [
        "<note><pitch>",
        "&nothing;",
        "<a:b/>",
        "<note a='1' a='2'/>",
        "</x>",
        "<note>&lt;<",
    ] {
        let text = score(&[&good, bad, &note("D4", 4, "")]);
        let piece = piece(&text);
        assert_eq!(sounds(&piece), "C4@1:0 D4@3:0", "{bad}");
        assert_eq!(piece.measures.len(), 3, "{bad}");
        assert!(
            doubts(&piece).contains("bar 2: part Harp: this bar cannot be read"),
            "{bad}"
        );
        assert_eq!(piece.measures[2].start, score::Fraction::whole(8), "{bad}");
    }
}

#[test]
fn a_text_that_breaks_off_gives_what_came_before() {
    let text = score(&[&note("C4", 4, ""), &note("D4", 4, ""), &note("E4", 4, "")]);
    let cut = text.find("<step>E").unwrap();
    let piece = piece(&text[..cut]);
    assert_eq!(sounds(&piece), "C4@1:0 D4@2:0");
    assert!(doubts(&piece).contains("the file breaks off"));
}

#[test]
fn a_head_that_cannot_be_read_costs_only_names() {
    let text = score(&[&note("C4", 4, "")]).replace("<part-name>", "<part-name>&bomb;");
    let piece = piece(&text);
    assert_eq!(sounds(&piece), "C4@1:0");
    assert!(doubts(&piece).contains("the head of the score cannot be read"));
}

#[test]
fn a_timewise_score_reads_as_the_partwise_one() {
    let bars = [
        format!("{}{}", divisions(1), note("C4", 4, "")),
        note("D4", 4, ""),
    ];
    let list =
        "<part-list><score-part id=\"P1\"><part-name>Harp</part-name></score-part></part-list>";
    let text = format!(
        "<score-timewise>{list}<measure number=\"7\"><part id=\"P1\">{}</part></measure><measure number=\"8\"><part id=\"P1\">{}</part></measure></score-timewise>",
        bars[0], bars[1]
    );
    let piece = piece(&text);
    assert_eq!(sounds(&piece), "C4@1:0 D4@2:0");
    assert_eq!(piece.measures[1].number, "8");
    assert!(text[piece.notes[1].anchor.byte..].starts_with("<note><pitch><step>D"));
}

#[test]
fn a_prefix_declared_at_the_root_is_known_in_the_bars() {
    let link = "<link xlink:href=\"http://example.org\"/>";
    let text = score(&[&format!("{link}{}", note("C4", 4, ""))]);
    let piece = piece(&text);
    assert_eq!(sounds(&piece), "C4@1:0");
    assert!(text[piece.notes[0].anchor.byte..].starts_with("<note>"));
}

#[test]
fn parts_of_unlike_numbers_of_bars_are_said() {
    let text = parts(&[
        ("P1", "Harp", &[&rest(4), &rest(4)]),
        ("P2", "Flute", &[&rest(4)]),
    ]);
    assert!(doubts(&piece(&text)).contains("different numbers of bars (1 to 2)"));
}
