//! Words that hold for a passage: which hand plays, and damping at once. How far they hold is common
//! practice, no source.

use crate::written::{divisions, doubts, note, parts, piece, score};
use score::{Hand, Piece};

/// Words at a staff.
fn words(words: &str, staff: u32) -> String {
    format!(
        "<direction><direction-type><words>{words}</words></direction-type><staff>{staff}</staff></direction>"
    )
}

/// A crotchet on a staff.
fn on(staff: u32, pitch: &str) -> String {
    note(pitch, 1, &format!("<staff>{staff}</staff>"))
}

fn two_staves(measures: &[String]) -> Piece {
    let staves = divisions(1).replace("</divisions>", "</divisions><staves>2</staves>");
    let first = format!("{staves}{}", measures[0]);
    let texts: Vec<&str> = [first.as_str()]
        .into_iter()
        .chain(measures[1..].iter().map(String::as_str))
        .collect();
    piece(&score(&texts))
}

fn hands(piece: &Piece) -> String {
    let hand = |hand| match hand {
        Hand::Left => 'l',
        Hand::Right => 'r',
        Hand::Unsaid => '-',
    };
    piece.notes.iter().map(|note| hand(note.hand)).collect()
}

fn damped(piece: &Piece) -> String {
    let told = piece
        .notes
        .iter()
        .map(|note| if note.etouffe { 'x' } else { '.' });
    told.collect()
}

#[test]
fn a_hand_plays_until_the_other_hands_word_on_the_same_staff() {
    let piece = two_staves(&[
        [
            on(1, "C5"),
            words("m.g.", 1),
            on(1, "D5"),
            words("l.h.", 1),
            on(1, "E5"),
            on(2, "C3"),
        ]
        .concat(),
        [
            on(1, "F5"),
            words("m.d.", 1),
            on(1, "G5"),
            words("r.h.", 2),
            on(1, "A5"),
        ]
        .concat(),
    ]);
    assert_eq!(hands(&piece), "rllllrr");
    assert!(
        !doubts(&piece).contains("ended nowhere"),
        "{}",
        doubts(&piece)
    );
}

#[test]
fn a_hand_that_is_ended_nowhere_plays_to_the_end_of_its_bar_and_that_is_said() {
    let piece = two_staves(&[
        [words("L.H.", 1), on(1, "C5"), on(1, "D5")].concat(),
        on(1, "E5"),
    ]);
    assert_eq!(hands(&piece), "llr");
    assert!(doubts(&piece).contains("bar 1: 'L.H.' is ended nowhere: taken for this bar only"));
}

#[test]
fn the_hand_that_plays_there_anyway_is_nothing_new() {
    let piece =
        two_staves(&[[words("r.h.", 1), on(1, "C5"), words("l.h.", 2), on(2, "D3")].concat()]);
    assert_eq!(hands(&piece), "rl");
    assert!(!doubts(&piece).contains("ended"));
}

#[test]
fn a_hand_without_a_staff_is_left_out_where_there_are_two_and_taken_where_there_is_one() {
    let unsaid = "<direction><direction-type><words>l.h.</words></direction-type></direction>";
    let two = two_staves(&[[unsaid, &on(1, "C5")].concat()]);
    assert_eq!(hands(&two), "r");
    assert!(doubts(&two).contains("'l.h.' does not say at which staff"));
    let inside = format!(
        "{}{unsaid}{}{}",
        divisions(1),
        on(1, "C4"),
        words("r.h.", 1)
    );
    let one = piece(&score(&[&inside]));
    assert_eq!(hands(&one), "l");
}

#[test]
fn words_in_a_part_of_two_hands_are_about_that_part() {
    let upper = format!(
        "{}{}{}{}{}",
        divisions(1),
        words("l.h.", 1),
        on(1, "C5"),
        words("r.h.", 1),
        on(1, "D5")
    );
    let lower = format!("{}{}{}", divisions(1), on(1, "C3"), on(1, "D3"));
    let piece = piece(&parts(&[("P1", "a", &[&upper]), ("P2", "b", &[&lower])]));
    assert_eq!(hands(&piece), "lllr");
}

#[test]
fn the_singular_and_sec_damp_what_sounds_there() {
    let piece = two_staves(&[[
        words("étouffé", 1),
        on(1, "C5"),
        on(1, "D5"),
        words("sec", 1),
        note("E5", 1, "<staff>1</staff>"),
        note("G3", 1, "<chord/><staff>2</staff>"),
    ]
    .concat()]);
    assert_eq!(damped(&piece), "x..x");
}

#[test]
fn the_plural_damps_until_all_may_ring_again() {
    let piece = two_staves(&[
        [
            on(1, "C5"),
            words("sons étouffés", 1),
            on(1, "D5"),
            on(2, "C3"),
        ]
        .concat(),
        [
            on(1, "E5"),
            words("étouffés", 1),
            on(1, "F5"),
            words("laissez vibrer", 1),
            on(1, "G5"),
        ]
        .concat(),
    ]);
    assert_eq!(damped(&piece), ".x.xx.");
    assert!(!doubts(&piece).contains("ended nowhere"));
}

#[test]
fn the_plural_that_is_ended_nowhere_damps_what_sounds_there_and_that_is_said() {
    let piece = two_staves(&[
        [words("étouffés", 1), on(1, "C5"), on(1, "D5")].concat(),
        [words("étouffés", 1), on(1, "E5"), on(1, "F5")].concat(),
    ]);
    assert_eq!(damped(&piece), "x.x.");
    assert!(
        doubts(&piece)
            .contains("bar 1: 'étouffés' is ended nowhere: taken for what sounds there only")
    );
}

#[test]
fn not_to_be_damped_is_no_damping() {
    let piece = two_staves(&[[
        words("étouffez", 1),
        on(1, "C5"),
        words("ne pas étouffer", 1),
        on(1, "D5"),
    ]
    .concat()]);
    assert_eq!(damped(&piece), "x.");
}

// SMuFL (W3C), 'Plucked techniques': U+E638 pluckedDamp, U+E639 pluckedDampAll, U+E63B
// pluckedDampOnStem; MusicXML 4.0 names them in the attribute `smufl`.
#[test]
fn signs_for_damping_at_a_note_damp_it() {
    let signs = [
        "<technical><other-technical smufl=\"pluckedDamp\"/></technical>",
        "<technical><other-technical smufl=\"pluckedDampAll\"/></technical>",
        "<articulations><other-articulation smufl=\"pluckedDampOnStem\"/></articulations>",
        "<other-notation type=\"single\" smufl=\"pluckedDamp\"/>",
        "<technical><other-technical smufl=\"pluckedPlectrum\"/></technical>",
    ];
    let notes: String = signs
        .iter()
        .map(|sign| note("C4", 1, &format!("<notations>{sign}</notations>")))
        .collect();
    let read = piece(&score(&[&format!("{}{notes}", divisions(1))]));
    assert_eq!(damped(&read), "xxxx.");
}

#[test]
fn signs_for_damping_between_notes_are_marks() {
    let sign =
        |kind: &str| format!("<direction><direction-type>{kind}</direction-type></direction>");
    let read = piece(&score(&[&[
        divisions(1),
        sign("<symbol>pluckedDamp</symbol>"),
        note("C4", 1, ""),
        sign("<other-direction smufl=\"pluckedDampAll\"/>"),
        note("C4", 1, ""),
        sign("<symbol>pluckedPlectrum</symbol>"),
    ]
    .concat()]));
    let kinds: Vec<&score::MarkKind> = read.marks.iter().map(|mark| &mark.kind).collect();
    assert_eq!(kinds, [&score::MarkKind::Damp, &score::MarkKind::DampAll]);
}
