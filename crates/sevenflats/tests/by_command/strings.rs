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

/// Three weeks of a little invented harp; what each line says is written in the checks of the diary.
const WEEKS: &str = include_str!("diary_weeks.jsonl");

/// What `strings --diary` says of it, and of some spares.
fn needs(words: &[&str], more: &str) -> Vec<Value> {
    let folder = tempdir().unwrap();
    let file = format!("{WEEKS}{more}");
    let taken = ["diary", "--diary", "diary.sqlite", "import", "-"];
    assert_eq!(run(folder.path(), &taken, file.as_bytes()).code, Some(0));
    let all = [&["strings", "--diary", "diary.sqlite"], words].concat();
    let answer = run(folder.path(), &all, &[]);
    assert_eq!((answer.code, answer.err.as_str()), (Some(0), ""));
    answer.lines()
}

const DRAWER: &str = r#"{"device":"desk","seq":4,"at":"2026-11-14T10:00:00Z","kind":"spares","v":1,"body":{"harp":"little","string":"A5","material":"gut","gauge_mm":0.8,"bought":null,"change":2}}
{"device":"desk","seq":5,"at":"2026-11-14T10:00:00Z","kind":"visit","v":1,"body":{"harp":"little","on":null,"who":"","done":"levers set","note":""}}
"#;

#[test]
fn what_a_harp_needs_is_told_from_its_diary() {
    let lines = needs(&["--json"], DRAWER);
    let of = |kind: &'static str| lines.iter().filter(move |line| line["kind"] == kind);
    assert_eq!((of("harp").count(), of("string").count()), (1, 34));
    let string = |name: &str| of("string").find(|line| line["string"] == name).unwrap();
    // E5 broke on 8 November, and none is in its place
    let e5 = string("E5");
    assert_eq!(
        (&e5["stands"], &e5["due"]),
        (&"broken".into(), &"missing".into())
    );
    assert_eq!(e5["breaks"], serde_json::json!(["2026-11-08T09:00:00Z"]));
    // found 4 cents low a week after it was left in tune
    let moved = string("G3")["moved"]["cents"].as_f64().unwrap();
    assert!((moved + 4.0).abs() < 0.001, "{moved}");
    // a spare A stands for its own place and, tuned down, for the two below; never for one above
    assert_eq!(string("A5")["cover"]["by"], "own");
    for (below, same_colour) in [("G5", true), ("F5", false)] {
        assert_eq!(string(below)["cover"]["made_for"], "A5");
        assert_eq!(string(below)["cover"]["same_colour"], same_colour);
    }
    assert_eq!(string("B5")["cover"]["by"], "nothing");
    assert_eq!(
        string("G3")["tension_n"],
        Value::Null,
        "no figures, no tension"
    );
    let spare = of("spare").next().unwrap();
    assert_eq!(
        (&spare["place"], &spare["count"]),
        (&"A5".into(), &2.into())
    );
    let visits = &of("harp").next().unwrap()["visits"];
    assert_eq!(visits[0]["done"], "levers set");
    let ordered: Vec<&Value> = of("order")
        .flat_map(|line| line["covers"].as_array().unwrap())
        .collect();
    assert!(ordered.contains(&&"B5".into()) && !ordered.contains(&&"A5".into()));
}

#[test]
fn people_read_what_a_harp_needs() {
    let folder = tempdir().unwrap();
    let taken = ["diary", "--diary", "diary.sqlite", "import", "-"];
    let file = format!("{WEEKS}{DRAWER}");
    run(folder.path(), &taken, file.as_bytes());
    let said = run(folder.path(), &["strings", "--diary", "diary.sqlite"], &[]).out;
    for words in [
        "no string: to be put on.",
        "2 × 2A, gut, 0.8 mm",
        "To order",
        "levers set",
    ] {
        assert!(said.contains(words), "{said}\nhas no '{words}'");
    }
    let words = ["strings", "--diary", "diary.sqlite", "--harp", "big"];
    let none = run(folder.path(), &words, &[]);
    assert_eq!(none.code, Some(2));
    assert!(none.err.contains("knows no harp"), "{}", none.err);
}
