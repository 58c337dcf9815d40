//! Marks written into a score: found again where they were put, and nothing else changed.

#[path = "../made/musical.rs"]
mod musical;

use pitch::{Alteration, Letter};
use proptest::prelude::*;
use score::{
    Fraction, Letters, MarkKind, NewMark, NewMarkKind, Options, Piece, Placement, ScoreError,
    musicxml_text, read, with_marks,
};

use crate::archives::score_archive;
use crate::written::{divisions, grace, note, piece, rest, score};

fn pencilled(words: &str) -> NewMarkKind {
    NewMarkKind::Pencilled {
        words: words.to_owned(),
        addition: None,
    }
}

fn all_natural() -> Letters {
    Letter::ALL
        .into_iter()
        .fold(Letters::default(), |letters, letter| {
            letters.with(letter, Alteration::Natural)
        })
}

fn mark(measure: usize, offset: Fraction, kind: NewMarkKind) -> NewMark {
    NewMark {
        measure,
        offset,
        kind,
        placement: None,
        staff: None,
    }
}

/// The text with one mark in it, `F♯`.
fn marked(text: &str, measure: usize, offset: (i64, i64)) -> String {
    let offset = Fraction::new(offset.0, offset.1).unwrap();
    let marks = [mark(measure, offset, pencilled("F♯"))];
    String::from_utf8(
        with_marks(text.as_bytes(), &piece(text), &marks)
            .unwrap()
            .to_vec(),
    )
    .unwrap()
}

/// The mark as it stands in `marked`.
const WRITTEN: &str = "<direction><direction-type><words>F♯</words></direction-type></direction>";

/// Writes one mark into a bar and shows where it went, `@` for the mark.
#[track_caller]
fn check(bar: &str, offset: (i64, i64), expected: &str) {
    let text = score(&[bar]);
    assert_eq!(
        marked(&text, 0, offset).replace(WRITTEN, "@"),
        score(&[expected])
    );
}

#[test]
fn a_mark_stands_before_the_note_that_begins_there() {
    let (head, c, e, rest) = (
        divisions(2),
        note("C4", 2, ""),
        note("E4", 2, "<chord/>"),
        rest(2),
    );
    let g = note("G4", 2, "<voice>2</voice>");
    let back = "<backup><duration>4</duration></backup>";
    let forward = "<forward><duration>2</duration></forward>";
    check(
        &format!("{head}{c}{e}{rest}"),
        (0, 1),
        &format!("{head}@{c}{e}{rest}"),
    );
    check(
        &format!("{head}{c}{e}{rest}"),
        (1, 1),
        &format!("{head}{c}{e}@{rest}"),
    );
    check(
        &format!("{head}{c}{c}{back}{forward}{g}"),
        (1, 1),
        &format!("{head}{c}@{c}{back}{forward}{g}"),
    );
    // where only the second voice has a note
    let long = note("C4", 4, "");
    check(
        &format!("{head}{long}{back}{g}{g}"),
        (1, 1),
        &format!("{head}{long}{back}{g}@{g}"),
    );
    check(
        &format!("{head}{long}{back}{forward}{g}"),
        (1, 1),
        &format!("{head}{long}{back}{forward}@{g}"),
    );
}

#[test]
fn a_mark_stands_before_the_grace_notes_of_its_note() {
    let (head, c, d) = (divisions(1), note("C4", 1, ""), grace("D4", ""));
    check(
        &format!("{head}{c}{d}{d}{c}"),
        (1, 1),
        &format!("{head}{c}@{d}{d}{c}"),
    );
}

#[test]
fn the_note_of_its_own_staff_comes_first() {
    let (upper, lower) = (
        note("C5", 1, "<staff>1</staff>"),
        note("C3", 1, "<staff>2</staff>"),
    );
    let back = "<backup><duration>1</duration></backup>";
    let text = score(&[&format!("{}{upper}{back}{lower}", divisions(1))]);
    let mut second = mark(0, Fraction::ZERO, pencilled("F♯"));
    second.staff = Some(2);
    second.placement = Some(Placement::Above);
    let found = with_marks(text.as_bytes(), &piece(&text), &[second])
        .unwrap()
        .to_vec();
    let found = String::from_utf8(found).unwrap();
    assert!(found.contains(&format!(
        "{back}<direction placement=\"above\"><direction-type><words>F♯</words></direction-type><staff>2</staff></direction>{lower}"
    )));
}

#[test]
fn where_no_note_begins_an_offset_says_when() {
    let (head, c) = (divisions(3), note("C4", 12, ""));
    let with = |offset: &str| {
        WRITTEN.replace(
            "</direction-type>",
            &format!("</direction-type><offset>{offset}</offset>"),
        )
    };
    let bar = format!("{head}{c}");
    let found = |at| marked(&score(&[&bar]), 0, at);
    assert_eq!(found((2, 1)), score(&[&format!("{head}{}{c}", with("6"))]));
    assert_eq!(
        found((3, 2)),
        score(&[&format!("{head}{}{c}", with("4.5"))])
    );
    assert_eq!(found((4, 3)), score(&[&format!("{head}{}{c}", with("4"))]));
    // no decimal number is a seventh: as near as may be
    assert_eq!(
        found((1, 7)),
        score(&[&format!("{head}{}{c}", with("0.428571"))])
    );
    // an earlier note from which the way is a decimal number
    let uneven = format!(
        "{}{}<attributes><divisions>1</divisions></attributes>{}",
        divisions(3),
        note("C4", 1, ""),
        rest(3)
    );
    assert!(
        marked(&score(&[&uneven]), 0, (1, 2))
            .contains(&format!("{}<note><pitch><step>C", with("1.5")))
    );
}

#[test]
fn a_bar_without_notes_takes_a_mark_too() {
    let bar = format!("{}<forward><duration>4</duration></forward>", divisions(1));
    check(&bar, (0, 1), &bar.replace("<forward>", "@<forward>"));
    check(&bar, (4, 1), &format!("{bar}@"));
    check(&divisions(1), (0, 1), &format!("{}@", divisions(1)));
}

#[test]
fn a_mark_has_a_line_of_its_own_where_notes_have_one() {
    for end in ["\n", "\r\n"] {
        let note = note("C4", 4, "");
        let text = score(&[&format!("{end}  {}{end}  {note}{end}", divisions(1))]);
        let found = marked(&text, 0, (0, 1));
        assert_eq!(
            found,
            text.replace(&note, &format!("{WRITTEN}{end}  {note}"))
        );
    }
}

#[test]
fn the_opening_diagram_is_read_again() {
    let text = score(&[&note("C4", 4, "")]);
    let letters = all_natural().with(Letter::F, Alteration::Sharp);
    let marks = [mark(0, Fraction::ZERO, NewMarkKind::Diagram(letters))];
    let found = with_marks(text.as_bytes(), &piece(&text), &marks)
        .unwrap()
        .to_vec();
    let read = read(&found, &Options::default()).unwrap();
    assert_eq!(read.marks[0].kind, MarkKind::Diagram(letters));
}

#[test]
fn between_the_staves_is_below_the_first_of_two() {
    let staves = divisions(1).replace("</divisions>", "</divisions><staves>2</staves>");
    let two = piece(&score(&[&format!("{staves}{}", note("C4", 4, ""))]));
    let one = piece(&score(&[&note("C4", 4, "")]));
    let staff = |piece: &Piece| {
        let mark = NewMark::between_staves(piece, 0, Fraction::ZERO, pencilled("F♯"));
        (mark.placement, mark.staff)
    };
    assert_eq!(staff(&two), (Some(Placement::Below), Some(1)));
    assert_eq!(staff(&one), (Some(Placement::Below), None));
}

#[test]
fn what_holds_at_some_playings_only_is_no_pedal_letter_when_read_again() {
    let text = score(&[&note("C4", 4, "")]);
    let kind = NewMarkKind::Pencilled {
        words: "F♯".to_owned(),
        addition: Some("1st time".to_owned()),
    };
    let found = with_marks(
        text.as_bytes(),
        &piece(&text),
        &[mark(0, Fraction::ZERO, kind)],
    )
    .unwrap()
    .to_vec();
    let read = read(&found, &Options::default()).unwrap();
    assert_eq!(
        read.marks[0].kind,
        MarkKind::Words("F♯ (1st time)".to_owned())
    );
}

#[test]
fn encodings_stay_as_they_are() {
    let text = score(&[&note("C4", 4, "")]).replace(
        "<?xml version=\"1.0\"?>",
        "<?xml version='1.0' encoding='ISO-8859-1'?><!--é𝄞-->",
    );
    let latin: Vec<u8> = text
        .replace('𝄞', "")
        .chars()
        .map(|c| u8::try_from(u32::from(c)).unwrap())
        .collect();
    let little: Vec<u8> = format!("\u{feff}{text}")
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    let big: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
    for bytes in [latin, little, big] {
        let piece = read(&bytes, &Options::default()).unwrap();
        let marks = [mark(0, Fraction::ZERO, pencilled("F♯"))];
        let found = with_marks(&bytes, &piece, &marks).unwrap().to_vec();
        unchanged(&bytes, &found, &piece, &marks);
    }
}

#[test]
fn a_compressed_score_comes_back_as_the_score_alone() {
    let text = score(&[&note("C4", 4, "")]);
    let bytes = score_archive("s.xml", "s.xml", text.as_bytes(), true);
    let piece = read(&bytes, &Options::default()).unwrap();
    let marks = [mark(0, Fraction::ZERO, pencilled("F♯"))];
    assert_eq!(
        with_marks(&bytes, &piece, &[]).unwrap().to_vec(),
        text.as_bytes()
    );
    let found = with_marks(&bytes, &piece, &marks).unwrap().to_vec();
    unchanged(text.as_bytes(), &found, &piece, &marks);
}

#[test]
fn what_cannot_be_marked_is_refused_with_what_to_do() {
    let text = score(&[&note("C4", 4, ""), "", "<note><broken></note>"]);
    let empty = text.replace(
        "<measure number=\"2\"></measure>",
        "<measure number=\"2\"/>",
    );
    let piece = piece(&text);
    let at = |measure| [mark(measure, Fraction::ZERO, pencilled("F♯"))];
    let told = |bytes: &[u8], measure| {
        with_marks(bytes, &piece, &at(measure))
            .unwrap_err()
            .to_string()
    };
    assert!(told(b"MThd\0\0\0\x06\0\0\0\x01\0\x60", 0).contains("save the piece as MusicXML"));
    assert!(told(text.as_bytes(), 2).starts_with("bar 3: a mark cannot be written there"));
    assert!(
        told(empty.as_bytes(), 1)
            .contains("bar 2: a mark cannot be written there (it is an empty tag)")
    );
    assert!(with_marks(text.as_bytes(), &piece, &at(1)).is_ok());
    let error = with_marks(text.as_bytes(), &piece, &at(3)).unwrap_err();
    assert_eq!(error, ScoreError::OtherScore);
    let other = text.replace("P1", "P2");
    assert_eq!(
        with_marks(other.as_bytes(), &piece, &at(0)).unwrap_err(),
        ScoreError::OtherScore
    );
}

/// Holds a marked score against its source: without the marks it is the same bytes; read, it has the
/// same notes and times, and the marks as they were put in.
pub(crate) fn unchanged(before: &[u8], after: &[u8], read_before: &Piece, marks: &[NewMark]) {
    let (text, marked) = (
        musicxml_text(before).unwrap(),
        musicxml_text(after).unwrap(),
    );
    assert_eq!(stripped(&marked, &text), text);
    let read_after = read(after, &Options::default()).unwrap();
    assert_eq!(
        musical::musical(read_after.clone()),
        musical::musical(read_before.clone())
    );
    let mut found: Vec<_> = placed(&read_after);
    for old in placed(read_before) {
        let at = found.iter().position(|new| *new == old).unwrap();
        found.remove(at);
    }
    let mut expected: Vec<_> = marks.iter().map(expected).collect();
    expected.sort();
    found.sort();
    assert_eq!(found, expected);
}

/// A marked text without the directions that its source does not have.
fn stripped(after: &str, before: &str) -> String {
    let (mut from, mut kept) = (0, String::new());
    for (start, _) in after.match_indices("<direction") {
        if after.as_bytes()[start + "<direction".len()] == b'-' {
            continue;
        }
        kept.push_str(&after[from..start]);
        from = start + after[start..].find("</direction>").unwrap() + "</direction>".len();
        let direction = &after[start..from];
        let was_there = before
            .get(kept.len()..)
            .is_some_and(|rest| rest.starts_with(direction));
        if was_there {
            kept.push_str(direction);
        } else {
            // its line's end and the next one's indentation
            from += after[from..].len() - after[from..].trim_start().len();
        }
    }
    kept + &after[from..]
}

fn placed(piece: &Piece) -> Vec<(usize, Fraction, Option<u32>, String)> {
    let told = piece.marks.iter().map(|mark| {
        let kind = match &mark.kind {
            MarkKind::Diagram(letters) => format!("diagram {letters}"),
            MarkKind::PedalWords { text, .. } | MarkKind::Words(text) => text.clone(),
            other => format!("{other:?}"),
        };
        (mark.measure, mark.offset, mark.staff, kind)
    });
    told.collect()
}

fn expected(mark: &NewMark) -> (usize, Fraction, Option<u32>, String) {
    let kind = match &mark.kind {
        NewMarkKind::Diagram(letters) => format!("diagram {letters}"),
        NewMarkKind::Pencilled { words, .. } => words.clone(),
    };
    (mark.measure, mark.offset, mark.staff, kind)
}

/// What sounds, by kind, and how many divisions it lasts.
type Voice = Vec<(u8, u32)>;

/// Bars of two voices of notes, rests, grace notes and chords on a grid, in so many divisions.
fn bars() -> impl Strategy<Value = Vec<(u32, Voice, Voice)>> {
    let voice = || prop::collection::vec((0..5_u8, 1..7_u32), 1..6);
    prop::collection::vec((1..13_u32, voice(), voice()), 1..5)
}

fn bar(divisions: u32, voices: [&[(u8, u32)]; 2]) -> String {
    let mut text = crate::written::divisions(divisions);
    let mut back = 0;
    for (voice, sounds) in voices.into_iter().enumerate() {
        if voice > 0 {
            text += &format!("<backup><duration>{back}</duration></backup>");
        }
        for &(kind, length) in sounds {
            let more = format!("<voice>{}</voice>", voice + 1);
            text += &match kind {
                0 => rest(length),
                1 => format!("<forward><duration>{length}</duration></forward>"),
                2 => format!("{}{}", grace("D5", &more), note("C4", length, &more)),
                3 => note("Eb4", length, &more) + &note("G4", length, &format!("<chord/>{more}")),
                _ => note("F#4", length, &more),
            };
            back += length;
        }
    }
    text
}

proptest! {
    #[test]
    fn marks_are_found_where_they_were_put_and_nothing_else_changed(
        bars in bars(),
        places in prop::collection::vec((any::<prop::sample::Index>(), 0..40_i64, 0..5_usize, any::<bool>()), 0..12),
        lines in any::<bool>(),
    ) {
        let mut text = bars.iter().map(|(d, upper, lower)| bar(*d, [upper, lower])).collect::<Vec<_>>();
        if lines {
            text.iter_mut().for_each(|bar| *bar = bar.replace("<note>", "\n\t<note>"));
        }
        let text = score(&text.iter().map(String::as_str).collect::<Vec<_>>());
        let read_before = piece(&text);
        let mut marks = Vec::new();
        for (place, step, kind, staff) in places {
            let measure = place.index(bars.len());
            // on notes, between them by decimal parts of a division, and at the end
            let offset = Fraction::new(step, 4 * i64::from(bars[measure].0)).unwrap();
            let offset = offset.min(read_before.measures[measure].length);
            let words = ["F♯", "B♭ C♮", "<&>", "Ah"].get(kind);
            let kind = words.map_or(NewMarkKind::Diagram(all_natural()), |words| pencilled(words));
            let mark = NewMark { staff: staff.then_some(1), ..mark(measure, offset, kind) };
            marks.push(mark);
        }
        let after = with_marks(text.as_bytes(), &read_before, &marks).unwrap().to_vec();
        unchanged(text.as_bytes(), &after, &read_before, &marks);
    }
}
