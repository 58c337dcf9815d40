//! Grace notes: moments of their own before the main note.

use crate::written::{divisions, grace, note, piece, score};

/// Moments as `pitches@offset-grace`, and their seconds.
fn moments(measures: &[&str]) -> (String, Vec<f64>) {
    let piece = piece(&score(measures));
    let moments = piece.moments(&piece.order);
    let told = moments.iter().map(|moment| {
        let names: Vec<String> = moment
            .notes
            .iter()
            .map(|&at| piece.notes[at].sounding.to_string().replace('n', ""))
            .collect();
        let grace = moment
            .grace
            .map_or_else(String::new, |steps| format!("-{steps}"));
        format!(
            "{}@{}:{}{grace}",
            names.join("+"),
            moment.measure + 1,
            moment.offset
        )
    });
    let told: Vec<String> = told.collect();
    (
        told.join(" "),
        moments.iter().map(|moment| moment.at_s).collect(),
    )
}

#[track_caller]
fn check(measures: &[&str], expected: &str) {
    assert_eq!(moments(measures).0, expected);
}

#[test]
fn grace_notes_come_one_by_one_before_their_main_note() {
    let bar = format!(
        "{}{}{}{}{}",
        divisions(1),
        note("C4", 1, ""),
        grace("D4", ""),
        grace("E4", ""),
        note("F4", 1, "")
    );
    check(&[&bar], "C4@1:0 D4@1:1-2 E4@1:1-1 F4@1:1");
}

#[test]
fn a_chord_of_grace_notes_is_one_moment() {
    let bar = format!(
        "{}{}{}{}",
        divisions(1),
        grace("C4", ""),
        grace("E4", "<chord/>"),
        note("F4", 1, "")
    );
    check(&[&bar], "C4+E4@1:0-1 F4@1:0");
}

#[test]
fn grace_notes_of_two_voices_meet_at_their_last() {
    let bar = format!(
        "{}{}{}{}<backup><duration>1</duration></backup>{}{}",
        divisions(1),
        grace("C5", ""),
        grace("D5", ""),
        note("E5", 1, ""),
        grace("B2", ""),
        note("C3", 1, "")
    );
    check(&[&bar], "C5@1:0-2 B2+D5@1:0-1 C3+E5@1:0");
}

#[test]
fn grace_notes_at_the_end_of_a_bar_come_before_the_next() {
    let first = format!("{}{}{}", divisions(1), note("C4", 4, ""), grace("D4", ""));
    check(&[&first, &note("E4", 4, "")], "C4@1:0 D4@1:4-1 E4@2:0");
}

#[test]
fn seconds_of_grace_notes_lie_before_the_main_note_and_after_what_came_before() {
    let bar = format!(
        "{}{}{}{}{}",
        divisions(8),
        note("C4", 1, ""),
        grace("D4", ""),
        grace("E4", ""),
        note("F4", 8, "")
    );
    let (_, seconds) = moments(&[&bar]);
    assert!(
        seconds.windows(2).all(|pair| pair[0] < pair[1]),
        "{seconds:?}"
    );
    // at 100 a minute an eighth of a quarter is 0.075 s, half of which is shared by two
    assert!(
        (seconds[3] - seconds[1] - 0.0375).abs() < 1e-9,
        "{seconds:?}"
    );
}

#[test]
fn a_piece_that_begins_with_a_grace_note_begins_with_it() {
    let bar = format!("{}{}{}", divisions(1), grace("D4", ""), note("F4", 1, ""));
    let (_, seconds) = moments(&[&bar]);
    assert_eq!(seconds, [0.0, 0.1]);
}
