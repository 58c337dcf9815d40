//! `sevenflats hear` from end to end: sound in by file or pipe, table or JSON out.

use crate::command::{Run, run};
use crate::wav;
use pitch::ReferencePitch;
use serde_json::Value;
use tempfile::tempdir;

const RATE_HZ: u32 = 48_000;

/// The fields of a reading, in their order, as the issue of this command lays them down.
const READING: [&str; 20] = [
    "kind",
    "final",
    "at_s",
    "string",
    "candidates",
    "position",
    "target_hz",
    "heard_hz",
    "off_cents",
    "u95_cents",
    "shows_as",
    "shows_off_cents",
    "f1_hz",
    "f1_u95_cents",
    "f0_hz",
    "b",
    "glide_cents",
    "partials",
    "listened_s",
    "string_certainty",
];

/// One pluck of a pitch, so many cents off, heard with these options; standing in for a harp.
fn hear(pitch: &str, off_cents: f64, options: &[&str]) -> Run {
    let folder = tempdir().unwrap();
    let hz = pitch::raise(ReferencePitch::A440.hz(pitch.parse().unwrap()), off_cents);
    wav::write(
        &folder.path().join("pluck.wav"),
        RATE_HZ,
        1,
        &wav::pluck(hz, RATE_HZ, 2.0),
    );
    let words: Vec<&str> = ["hear", "pluck.wav"]
        .iter()
        .chain(options)
        .copied()
        .collect();
    run(folder.path(), &words, &[])
}

/// The final reading names this string and is this far off, within its interval and a cent.
fn check(pitch: &str, off_cents: f64, options: &[&str], string: &str, expected_off: f64) -> Value {
    let run = hear(pitch, off_cents, &[options, &["--json"]].concat());
    assert_eq!(run.code, Some(0), "{}", run.err);
    let finals: Vec<Value> = run
        .of_kind("reading")
        .into_iter()
        .filter(|reading| reading["final"] == true)
        .collect();
    assert_eq!(finals.len(), 1, "{}", run.out);
    assert_eq!(finals[0]["string"], string, "{}", run.out);
    let off = finals[0]["off_cents"].as_f64().unwrap();
    let u95 = finals[0]["u95_cents"].as_f64().unwrap();
    assert!(
        (off - expected_off).abs() < u95.max(1.0),
        "{off} ± {u95}, not {expected_off}"
    );
    finals[0].clone()
}

#[test]
fn a_string_is_named_and_its_distance_told() {
    let reading = check("Gb3", -12.0, &[], "G3", -12.0);
    assert_eq!(reading["position"], "flat");
    assert_eq!(reading["shows_as"], "F#3");
    let target = reading["target_hz"].as_f64().unwrap();
    assert!((target - 184.9972).abs() < 1e-4, "{target}");
}

#[test]
fn the_setting_says_what_a_string_should_sound() {
    let setting = r#"{"D":0,"C":-1,"B":-1,"E":0,"F":0,"G":1,"A":-1}"#;
    check(
        "G#4",
        5.0,
        &["--setting", setting, "--string", "G4"],
        "G4",
        5.0,
    );
    check("Gn4", 5.0, &["--position", "natural"], "G4", 5.0);
    check(
        "Bn0",
        5.0,
        &["--discless", "C1=Cb1,D1=Dn1", "--string", "7C"],
        "C1",
        5.0,
    );
}

#[test]
fn a_lever_harp_stands_in_its_open_key() {
    check("Eb4", -7.0, &["--harp", "lever34"], "E4", -7.0);
    check(
        "En4",
        -7.0,
        &["--harp", "lever34", "--levers", "E4,A3"],
        "E4",
        -7.0,
    );
    check(
        "En4",
        -7.0,
        &["--harp", "lever34", "--open", "C"],
        "E4",
        -7.0,
    );
}

#[test]
fn another_reference_pitch_moves_every_target() {
    // 442 over 440 is 7.851 cents (arithmetic).
    check("Ab4", 0.0, &["--a4", "442"], "A4", -7.851);
}

#[test]
fn a_named_string_is_followed_however_far_off_it_is() {
    check("Gb4", -300.0, &["--string", "G4"], "G4", -300.0);
}

#[test]
fn a_reading_has_every_field_in_its_place() {
    let run = hear("Gb3", 0.0, &["--json"]);
    let reading = run
        .out
        .lines()
        .find(|line| line.contains("\"kind\":\"reading\""))
        .unwrap();
    let places: Vec<usize> = READING
        .iter()
        .map(|field| {
            reading
                .find(&format!("\"{field}\":"))
                .unwrap_or_else(|| panic!("no {field}"))
        })
        .collect();
    assert!(places.is_sorted(), "{reading}");
    let reading: Value = serde_json::from_str(reading).unwrap();
    assert_eq!(reading.as_object().unwrap().len(), READING.len());
}

#[test]
fn the_last_line_is_the_summary_and_each_pluck_has_one_last_word() {
    let run = hear("Gb3", 0.0, &["--json"]);
    let summary = run.lines().pop().unwrap();
    assert_eq!(
        summary.to_string(),
        r#"{"kind":"summary","plucks":1,"readings":1,"refused":0,"strings":["G3"]}"#
    );
}

#[test]
fn people_read_a_sentence_in_their_own_names() {
    let check = |off: f64, options: &[&str], expected: &[&str]| {
        let run = hear("Gb3", off, options);
        for expected in expected {
            assert!(run.out.contains(expected), "no '{expected}' in {}", run.out);
        }
    };
    check(
        -12.0,
        &[],
        &[
            "4G",
            "G♭",
            "low: up a little.",
            "(a tuner shows F♯ −12)",
            "1 pluck heard",
        ],
    );
    check(
        12.0,
        &["--names", "scientific"],
        &["G3", "high: down a little, to just under, then come up."],
    );
    check(
        0.0,
        &["--names", "german"],
        &["4G", "Ges", "In tune.", "(a tuner shows Fis 0)"],
    );
    check(
        0.0,
        &["--names", "scientific,solfege"],
        &["sol3", "sol♭", "In tune."],
    );
}

#[test]
fn raw_samples_are_heard_from_a_pipe() {
    let folder = tempdir().unwrap();
    let samples = wav::pluck(415.305, 44_100, 1.5);
    let s16le: Vec<u8> = samples
        .iter()
        .flat_map(|sample| ((sample * 32_767.0) as i16).to_le_bytes())
        .collect();
    let f32le: Vec<u8> = samples
        .iter()
        .flat_map(|sample| sample.to_le_bytes())
        .collect();
    for (format, bytes) in [("s16le", s16le), ("f32le", f32le)] {
        let words = ["hear", "-", "--rate", "44100", "--format", format, "--json"];
        let run = run(folder.path(), &words, &bytes);
        assert_eq!(run.code, Some(0), "{}", run.err);
        assert_eq!(
            run.of_kind("reading").last().unwrap()["string"],
            "A4",
            "{}",
            run.out
        );
    }
}

#[test]
fn listening_longer_hears_longer() {
    let listened = |seconds: &str| {
        let run = hear("Gb3", 0.0, &["--json", "--listen-s", seconds]);
        run.of_kind("reading").last().unwrap()["listened_s"]
            .as_f64()
            .unwrap()
    };
    assert!(listened("0.3") < 0.4);
    assert!(listened("1.2") > 1.0);
}
