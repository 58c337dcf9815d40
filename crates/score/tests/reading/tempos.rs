//! Tempo and seconds.

use crate::written::{direction, divisions, doubts, note, parts, piece, rest, score};

#[track_caller]
fn check(measures: &[&str], expected: &[f64]) {
    let piece = piece(&score(measures));
    let found: Vec<f64> = piece
        .moments(&piece.order)
        .iter()
        .map(|moment| moment.at_s)
        .collect();
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (found, expected) in found.iter().zip(expected) {
        assert!((found - expected).abs() < 1e-9, "{found} for {expected}");
    }
}

#[test]
fn without_a_tempo_a_hundred_is_taken_and_said() {
    let text = score(&[&format!("{}{}{}", divisions(1), rest(1), note("C4", 3, ""))]);
    let piece = piece(&text);
    assert!((piece.moments(&piece.order)[0].at_s - 0.6).abs() < 1e-12);
    assert!(doubts(&piece).contains("no tempo: taken at 100 quarters a minute"));
}

#[test]
fn a_sound_goes_before_the_printed_mark() {
    let mark = "<direction><direction-type><metronome><beat-unit>half</beat-unit><per-minute>60</per-minute></metronome></direction-type><sound tempo=\"60\"/></direction>";
    check(
        &[&format!(
            "{}{mark}{}{}",
            divisions(1),
            rest(1),
            note("C4", 1, "")
        )],
        &[1.0],
    );
}

#[test]
fn a_printed_mark_alone_is_read() {
    let mark = direction(
        "<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>40</per-minute></metronome>",
    );
    check(
        &[&format!(
            "{}{mark}{}{}",
            divisions(1),
            rest(1),
            note("C4", 1, "")
        )],
        &[1.0],
    );
}

#[test]
fn a_change_in_the_bar_holds_from_its_place_and_at_every_pass() {
    let (fast, slow) = ("<sound tempo=\"120\"/>", "<sound tempo=\"60\"/>");
    let bar = format!(
        "{}{fast}{}{slow}{}<barline location=\"right\"><repeat direction=\"backward\"/></barline>",
        divisions(1),
        note("C4", 2, ""),
        note("D4", 2, "")
    );
    check(&[&bar], &[0.0, 1.0, 3.0, 4.0]);
}

/// `♩. = ♩`: what was the first is the second from here on.
fn dotted_is_plain() -> String {
    direction(
        "<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><beat-unit>quarter</beat-unit></metronome>",
    )
}

// Common practice, no source.
#[test]
fn note_values_set_equal_change_the_tempo_by_their_ratio() {
    let (fast, crotchet) = ("<sound tempo=\"90\"/>", note("C4", 1, ""));
    let first = format!("{}{fast}{crotchet}{crotchet}", divisions(1));
    let second = format!("{}{crotchet}{crotchet}", dotted_is_plain());
    let third = format!("{}{crotchet}", dotted_is_plain());
    check(
        &[&first, &second, &third],
        &[0.0, 2.0 / 3.0, 4.0 / 3.0, 7.0 / 3.0, 10.0 / 3.0],
    );
    let piece = piece(&score(&[&first, &second, &third]));
    let told: Vec<f64> = piece
        .tempos
        .tempos()
        .iter()
        .map(|t| t.quarters_per_minute)
        .collect();
    assert_eq!(told, [90.0, 60.0, 40.0]);
    assert!(doubts(&piece).contains("bar 2: the tempo is told by note values alone: taken at 60"));
}

#[test]
fn a_tempo_in_figures_goes_before_note_values_and_none_before_them_is_a_hundred() {
    let crotchet = note("C4", 1, "");
    let first = format!("{}{crotchet}", divisions(1));
    let second = format!("{}<sound tempo=\"50\"/>{crotchet}", dotted_is_plain());
    let third = format!("{}{crotchet}", dotted_is_plain());
    let unsaid = piece(&score(&[&first, &third]));
    assert!((unsaid.tempos.at(0, score::Fraction::ZERO) - 100.0).abs() < 1e-9);
    assert!((unsaid.tempos.at(1, score::Fraction::ZERO) - 100.0 / 1.5).abs() < 1e-9);
    assert!(doubts(&unsaid).contains("no tempo"));
    let said = piece(&score(&[&first, &second]));
    assert!((said.tempos.at(1, score::Fraction::ZERO) - 50.0).abs() < 1e-9);
}

#[test]
fn the_tempo_may_stand_in_another_part() {
    let flute = format!("{}<sound tempo=\"30\"/>{}", divisions(1), rest(4));
    let harp = format!("{}{}{}", divisions(1), rest(2), note("C4", 2, ""));
    let piece = piece(&parts(&[
        ("P1", "Flute", &[&flute]),
        ("P2", "Harp", &[&harp]),
    ]));
    assert!((piece.moments(&piece.order)[0].at_s - 4.0).abs() < 1e-12);
}

#[test]
fn a_tempo_that_nobody_plays_is_left_out() {
    let text = score(&[&format!(
        "<sound tempo=\"0\"/><sound tempo=\"x\"/><sound tempo=\"NaN\"/>{}",
        rest(4)
    )]);
    let piece = piece(&text);
    assert!(piece.tempos.tempos().is_empty());
    assert!(doubts(&piece).contains("a tempo cannot be read"));
}
