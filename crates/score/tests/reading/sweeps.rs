//! Glissandi: the setting at them.

use crate::written::{direction, divisions, doubts, note, piece, score};
use score::SettingSource;

fn sweep(kind: &str) -> String {
    format!("<notations><glissando number=\"1\" type=\"{kind}\"/></notations>")
}

#[track_caller]
fn check(bar: &str, letters: &str, source: SettingSource, guessed: bool) {
    let text = score(&[&format!("{}{bar}", divisions(1))]);
    let piece = piece(&text);
    assert_eq!(piece.glissandi.len(), 1);
    let found = &piece.glissandi[0];
    assert_eq!(
        (found.letters.to_string().as_str(), found.source),
        (letters, source)
    );
    assert_eq!(
        doubts(&piece).contains("the glissando's setting is not written"),
        guessed
    );
}

fn ends() -> String {
    format!(
        "{}{}",
        note("C3", 2, &sweep("start")),
        note("C6", 2, &sweep("stop"))
    )
}

#[test]
fn a_diagram_at_it_is_its_setting() {
    // a diminished seventh that sounds on four keys: C♮ D♯ E♭ F♯ G♭ A♮ B♯, by enumeration
    let tunings: String = [("D", 1), ("C", 0), ("B", 1), ("E", -1), ("F", 1), ("G", -1), ("A", 0)]
        .iter()
        .map(|(step, alter)| format!("<pedal-tuning><pedal-step>{step}</pedal-step><pedal-alter>{alter}</pedal-alter></pedal-tuning>"))
        .collect();
    let diagram = direction(&format!("<harp-pedals>{tunings}</harp-pedals>"));
    check(
        &format!("{diagram}{}", ends()),
        "C♮ D♯ E♭ F♯ G♭ A♮ B♯",
        SettingSource::Diagram,
        false,
    );
}

#[test]
fn letters_at_it_change_what_the_key_says() {
    let key = "<attributes><key><fifths>-3</fifths></key></attributes>";
    let words = direction("<words>F♯ B♮</words>");
    check(
        &format!("{key}{words}{}", ends()),
        "C♮ D♮ E♭ F♯ G♮ A♭ B♮",
        SettingSource::Words,
        false,
    );
}

#[test]
fn seven_letters_written_out_are_its_setting() {
    let run: String = ["C3", "D#3", "Eb3", "F#3", "Gb3", "A3"]
        .map(|pitch| note(pitch, 1, ""))
        .concat();
    let bar = format!(
        "{run}{}{}",
        note("B#3", 1, &sweep("start")),
        note("C6", 1, &sweep("stop"))
    );
    check(
        &bar,
        "C♮ D♯ E♭ F♯ G♭ A♮ B♯",
        SettingSource::WrittenOut,
        false,
    );
}

#[test]
fn else_key_and_accidentals_are_taken_and_it_is_said() {
    let key = "<attributes><key><fifths>-3</fifths></key></attributes>";
    let bar = format!(
        "{key}{}{}{}",
        note("F#4", 1, ""),
        note("C3", 1, &sweep("start")),
        note("C6", 1, &sweep("stop"))
    );
    check(
        &bar,
        "C♮ D♮ E♭ F♯ G♮ A♭ B♭",
        SettingSource::KeyAndAccidentals,
        true,
    );
}

#[test]
fn an_end_alone_is_said() {
    let text = score(&[&format!(
        "{}{}",
        divisions(1),
        note("C3", 2, &sweep("start"))
    )]);
    let found = piece(&text);
    assert_eq!((found.glissandi[0].from, found.glissandi[0].to), (0, None));
    assert!(doubts(&found).contains("a glissando has no end"));
    let text = score(&[&format!(
        "{}{}",
        divisions(1),
        note("C3", 2, &sweep("stop"))
    )]);
    let found = piece(&text);
    assert!(found.glissandi.is_empty());
    assert!(doubts(&found).contains("a glissando has no beginning"));
}

#[test]
fn one_glissando_may_begin_where_another_ends() {
    let both = "<notations><glissando number=\"1\" type=\"stop\"/><glissando number=\"1\" type=\"start\"/></notations>";
    let text = score(&[&format!(
        "{}{}{}{}",
        divisions(1),
        note("C3", 1, &sweep("start")),
        note("C6", 1, both),
        note("C4", 1, &sweep("stop"))
    )]);
    let found: Vec<_> = piece(&text)
        .glissandi
        .iter()
        .map(|g| (g.from, g.to))
        .collect();
    assert_eq!(found, [(0, Some(1)), (1, Some(2))]);
}
