//! `sevenflats strings` from end to end.

use crate::command::run;
use serde_json::Value;
use tempfile::tempdir;

fn lines(words: &[&str]) -> Vec<Value> {
    let folder = tempdir().unwrap();
    let words: Vec<&str> = ["strings", "--json"].iter().chain(words).copied().collect();
    let run = run(folder.path(), &words, &[]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""));
    run.lines()
}

/// The string's line holds these values; hertz to a thousandth.
fn check(words: &[&str], string: &str, expected: &[(&str, Value)]) {
    let lines = lines(words);
    let line = lines.iter().find(|line| line["string"] == string).unwrap();
    for (pointer, value) in expected {
        let found = line
            .pointer(pointer)
            .unwrap_or_else(|| panic!("no {pointer} in {line}"));
        match (found.as_f64(), value.as_f64()) {
            (Some(found), Some(value)) => {
                assert!(
                    (found - value).abs() < 1e-3,
                    "{pointer} {found}, not {value}"
                );
            }
            _ => assert_eq!(found, value, "{pointer}"),
        }
    }
}

#[test]
fn each_harp_has_its_strings() {
    // Counts: arithmetic on the compasses (pedal47 C1–G7, lever34 C2–A6, semitones B0–G♯7).
    for (harp, strings) in [
        ("pedal47", 47),
        ("pedal46", 46),
        ("pedal44", 44),
        ("pedal40", 40),
        ("lever34", 34),
        ("semitones", 82),
    ] {
        assert_eq!(lines(&["--harp", harp]).len(), strings, "{harp}");
    }
}

#[test]
fn a_string_has_its_names_its_colour_and_its_targets() {
    // Frequencies: arithmetic, equal temperament at 440 Hz; 415.305 and 30.868 Hz also by hand.
    check(
        &[],
        "A4",
        &[
            ("/harp_number", "3A".into()),
            ("/colour", "plain".into()),
            ("/discless", false.into()),
            ("/target_hz/flat", 415.305.into()),
            ("/target_hz/natural", 440.0.into()),
            ("/target_hz/sharp", 466.164.into()),
        ],
    );
    check(
        &[],
        "C1",
        &[
            ("/harp_number", "7C".into()),
            ("/colour", "red".into()),
            ("/discless", true.into()),
            ("/target_hz/flat", 30.868.into()),
        ],
    );
}

#[test]
fn figures_that_were_not_given_are_blank() {
    check(
        &[],
        "A4",
        &[
            ("/length_mm", Value::Null),
            ("/tension_n", Value::Null),
            ("/material", Value::Null),
            ("/b", Value::Null),
        ],
    );
    let folder = tempdir().unwrap();
    let run = run(folder.path(), &["strings"], &[]);
    assert!(run.out.contains("length_mm (47 strings)"), "{}", run.out);
    assert!(run.out.contains("Nothing is guessed."), "{}", run.out);
}

#[test]
fn a_lever_harp_is_listed_in_the_key_in_which_it_stands_open() {
    let e4 = |open: &str| lines(&["--harp", "lever34", "--open", open])[16].clone();
    assert_eq!(e4("Eb")["string"], "E4");
    assert!(e4("Eb")["target_hz"]["flat"].is_f64() && e4("Eb")["target_hz"]["sharp"].is_null());
    assert!(e4("C")["target_hz"]["flat"].is_null() && e4("C")["target_hz"]["sharp"].is_f64());
}

#[test]
fn the_figures_of_ones_own_harp_give_its_mechanics() {
    let folder = tempdir().unwrap();
    std::fs::write(
        folder.path().join("mine.toml"),
        include_str!("../my_harp.toml"),
    )
    .unwrap();
    let run = run(
        folder.path(),
        &["strings", "--json", "--harp", "mine.toml"],
        &[],
    );
    assert_eq!(run.code, Some(0), "{}", run.err);
    let line = run
        .lines()
        .into_iter()
        .find(|line| line["string"] == "C4")
        .unwrap();
    // T = π ρ (d L f)², Mersenne: 1300 kg/m³, 1.0 mm, 400 mm, C4 at 261.626 Hz.
    let tension_n = std::f64::consts::PI * 1300.0 * (1.0e-3 * 0.400 * 261.6256_f64).powi(2);
    let found = line["tension_n"].as_f64().unwrap();
    assert!(
        (found - tension_n).abs() < 0.05,
        "{found} N, not {tension_n}"
    );
}

#[test]
fn a_harp_is_printed_as_a_file_that_is_read_back() {
    let folder = tempdir().unwrap();
    let printed = run(
        folder.path(),
        &["strings", "--harp", "lever36", "--toml"],
        &[],
    );
    std::fs::write(folder.path().join("mine.toml"), &printed.out).unwrap();
    let own = run(
        folder.path(),
        &["strings", "--harp", "mine.toml", "--json"],
        &[],
    );
    assert_eq!(
        own.out,
        run(
            folder.path(),
            &["strings", "--harp", "lever36", "--json"],
            &[]
        )
        .out
    );
}
