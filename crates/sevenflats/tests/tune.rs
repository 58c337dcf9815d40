//! `sevenflats tune` from end to end, as a person and a program use it. The sounds are invented: strings by the plainest
//! formula, whose pitch is known exactly.
#![allow(
    clippy::disallowed_types,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::panic,
    reason = "makes files and runs the command"
)]

#[path = "tune/bad_input.rs"]
mod bad_input;
#[path = "support/command.rs"]
mod command;
#[path = "tune/demo.rs"]
mod demo;
#[path = "tune/picture.rs"]
mod picture;
#[path = "tune/said.rs"]
mod said;
#[path = "tune/sound.rs"]
mod sound;
#[path = "tune/take_a.rs"]
mod take_a;
#[path = "support/wav.rs"]
mod wav;

use command::run;
use sound::{RATE_HZ, asked, s16le, samples, says, string_of, tune};
use tempfile::tempdir;

/// The fields of the last line, in their order, as the issue of this command lays them down.
const SUMMARY: [&str; 5] = ["kind", "strings", "minutes", "again", "warnings"];
/// Those of each string in it.
const SUMMED: [&str; 6] = [
    "string",
    "before_cents",
    "after_cents",
    "u95_cents",
    "plucks",
    "state",
];

/// 4G found 18 cents low, then in tune.
const TURNED: sound::Plucks<'_> = &[("Gb3", -18.0), ("Gb3", 0.0)];

/// The keys of an object of JSON text, in their order.
fn keys(object: &str) -> Vec<String> {
    let (mut depth, mut keys) = (0, Vec::new());
    let mut rest = object;
    while let Some(at) = rest.find(['{', '}', '[', ']', '"']) {
        let sign = rest.as_bytes()[at];
        rest = &rest[at + 1..];
        match sign {
            b'{' | b'[' => depth += 1,
            b'}' | b']' => depth -= 1,
            _ => {
                let end = rest.find('"').unwrap();
                if depth == 1 && rest[end + 1..].starts_with(':') {
                    keys.push(rest[..end].to_owned());
                }
                rest = &rest[end + 1..];
            }
        }
    }
    keys
}

#[test]
fn a_program_reads_one_object_a_line_and_the_summary_last() {
    let run = tune(TURNED, &["--json"]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""), "{}", run.out);
    let kinds = ["reading", "refused", "moving", "say", "warning", "summary"];
    let lines = run.lines();
    for line in &lines {
        assert!(kinds.iter().any(|kind| line["kind"] == *kind), "{line}");
        assert!(line["kind"] == "summary" || line["at_s"].is_f64(), "{line}");
    }
    assert_eq!(run.of_kind("summary").len(), 1);
    let last = run.out.lines().last().unwrap();
    assert_eq!(keys(last), SUMMARY);
    let strings = &last[last.find("[{").unwrap() + 1..];
    assert_eq!(keys(&strings[..=strings.find('}').unwrap()]), SUMMED);
    assert_eq!(
        lines.last().unwrap()["strings"].as_array().unwrap().len(),
        47
    );
}

#[test]
fn a_string_found_low_is_turned_and_is_in_tune() {
    let run = tune(TURNED, &["--json"]);
    let turn = &run.of_kind("say")[..];
    let turn = turn.iter().find(|s| s["say"] == "turn").unwrap();
    assert_eq!(
        (&turn["string"], &turn["way"]),
        (&"G3".into(), &"up".into())
    );
    assert_eq!(asked(&run), ["G3", "F3"], "{}", run.out);
    let string = string_of(&run, "G3");
    assert_eq!(
        (&string["state"], &string["plucks"]),
        (&"in tune".into(), &2.into())
    );
    let near = |field: &str, cents: f64| {
        let heard = string[field].as_f64().unwrap();
        assert!((heard - cents).abs() < 1.5, "{string}");
    };
    near("before_cents", -18.0);
    near("after_cents", 0.0);
    let unheard = string_of(&run, "F3");
    assert!(
        unheard["before_cents"].is_null() && unheard["u95_cents"].is_null(),
        "{unheard}"
    );
    assert_eq!(unheard["state"], "not yet heard");
}

#[test]
fn a_person_reads_sentences_and_a_table() {
    let run = tune(TURNED, &[]);
    let expected = [
        "Now 4G.",
        "cents low. Up a little.",
        "4G: in tune (",
        "Now 4F.",
        "1 of 47 in tune, 46 left",
        "string  before   after",
    ];
    for words in expected {
        assert!(run.out.contains(words), "no '{words}' in {}", run.out);
    }
    assert!(
        !run.out.contains("flat") && !run.out.contains("sharp"),
        "{}",
        run.out
    );
    let run = tune(TURNED, &["--names", "scientific,german"]);
    assert!(
        run.out.contains("Now G3.") && !run.out.contains("4G"),
        "{}",
        run.out
    );
}

#[test]
fn raw_samples_on_standard_input_give_the_same_as_the_file() {
    let folder = tempdir().unwrap();
    let samples = samples(TURNED);
    let wide: Vec<u8> = samples.iter().flat_map(|x| x.to_le_bytes()).collect();
    let from_file = tune(TURNED, &["--json"]);
    let rate = RATE_HZ.to_string();
    let words = ["tune", "--rate", &rate, "--json"];
    let raw = run(folder.path(), &words, &s16le(&samples));
    assert_eq!((raw.code, raw.out), (Some(0), from_file.out.clone()));
    let words = [&words[..], &["--from", "-", "--format", "f32le"]].concat();
    let raw = run(folder.path(), &words, &wide);
    assert_eq!((raw.code, says(&raw)), (Some(0), says(&from_file)));
}

#[test]
fn strings_are_asked_for_in_the_order_that_is_wished() {
    let check = |order: &[&str], first: &str, second: &str| {
        let run = tune(&[], &[&["--json", "--said", "next.txt"], order].concat());
        assert_eq!(run.code, Some(1), "no file 'next.txt': {}", run.err);
        let folder = tempdir().unwrap();
        std::fs::write(folder.path().join("next.txt"), "0.5 next").unwrap();
        let words = [&["--json", "--said", "next.txt"], order].concat();
        let run = sound::tune_in(folder.path(), &[], &words);
        assert_eq!(asked(&run), [first, second], "{order:?}");
    };
    check(&[], "G3", "F3");
    check(&["--order", "4C"], "C4", "B3");
    check(&["--order", "middle-octave"], "F3", "G3");
    check(&["--order", "bass"], "C1", "D1");
    check(&["--order", "letters"], "C1", "C2");
    check(&["--order", "octaves"], "F3", "F2");
    check(&["--order", "3A,G2"], "A4", "G2");
}

#[test]
fn the_tolerance_is_the_players() {
    let check = |options: &[&str], state: &str| {
        let run = tune(&[("Gb3", 4.0)], &[&["--json"], options].concat());
        assert_eq!(
            string_of(&run, "G3")["state"],
            state,
            "{options:?} {}",
            run.out
        );
    };
    check(&[], "before known");
    check(&["--tolerance", "6"], "in tune");
    check(&["--tolerance", "6,2"], "in tune");
    check(&["--tolerance", "2,6"], "before known");
}

#[test]
fn a_touch_up_asks_for_its_strings_only_and_is_called_second_best() {
    let plucks = [("Ab4", -9.0), ("Ab4", 0.0), ("Gb3", 0.0)];
    let run = tune(&plucks, &["--json", "--touch-up", "3A,4G"]);
    assert!(asked(&run).iter().all(|s| s == "G3"), "{}", run.out);
    assert!(says(&run).contains(&"second best".to_owned()));
    assert!(says(&run).contains(&"all heard".to_owned()), "{}", run.out);
    let run = tune(&plucks[..1], &["--touch-up", "3A,4G"]);
    assert!(run.out.contains("2 strings.") && run.out.contains("second best to a whole round"));
    let run = tune(
        &[("An4", 0.0)],
        &["--touch-up", "3A", "--position", "natural"],
    );
    assert!(
        run.out.contains("When there is time, tune the open harp"),
        "{}",
        run.out
    );
    assert!(run.out.contains("3A: in tune"), "{}", run.out);
}

#[test]
fn a_new_string_climbs_from_far_below() {
    // a fourth below G♭3 other strings sound: only because it is named is it G3
    let run = tune(&[("Gb3", -500.0)], &["--json", "--new", "G3"]);
    let turn = run.of_kind("say").into_iter().find(|s| s["say"] == "turn");
    let turn = turn.unwrap();
    assert_eq!(
        (&turn["string"], &turn["way"]),
        (&"G3".into(), &"up".into())
    );
    assert!(
        turn["words"].as_str().unwrap().contains("4G (new)"),
        "{turn}"
    );
    assert!(turn["by_cents"].as_f64().unwrap() < 260.0, "{turn}");
    assert_eq!(string_of(&run, "G3")["state"], "new");
    assert!(
        run.out.contains("Eyes away from the strings"),
        "{}",
        run.out
    );
}

#[test]
fn a_broken_string_is_not_asked_for() {
    let run = tune(&[("Fb3", 0.0)], &["--json", "--broken", "G3,E3"]);
    assert_eq!(asked(&run), ["F3", "D3"], "{}", run.out);
    assert_eq!(string_of(&run, "G3")["state"], "broken");
    assert!(run.out.contains("Eyes away from the strings"));
}

#[test]
fn a_named_string_is_followed_however_far_off_it_is() {
    let run = tune(&[("Gb3", -300.0)], &["--json", "--string", "4G"]);
    assert_eq!(says(&run)[..2], ["this one", "begun"]);
    assert_eq!(asked(&run)[0], "G3");
    let before = string_of(&run, "G3")["before_cents"].as_f64().unwrap();
    assert!((before + 300.0).abs() < 2.0, "{before}");
}

#[test]
fn the_round_can_be_of_another_harp_at_another_pitch() {
    // 442 over 440 is 7.851 cents (arithmetic)
    let run = tune(&[("Gb3", 0.0)], &["--json", "--a4", "442"]);
    let before = string_of(&run, "G3")["before_cents"].as_f64().unwrap();
    assert!((before + 7.851).abs() < 1.0, "{before}");
    let options = ["--json", "--harp", "lever34", "--levers", "E4"];
    let run = tune(&[("En4", 0.0)], &options);
    assert_eq!(string_of(&run, "E4")["state"], "in tune", "{}", run.out);
    assert!(says(&run).contains(&"second best".to_owned()));
}

#[test]
fn a_pitch_far_above_the_usual_one_asks_for_a_technician() {
    let options = ["--json", "--a4", "450", "--usual-a4", "440"];
    let run = tune(&[("Gb3", 38.9)], &options);
    assert!(
        says(&run).contains(&"ask your technician".to_owned()),
        "{}",
        run.out
    );
    let run = tune(
        &[("Gb3", 7.9)],
        &["--json", "--a4", "442", "--usual-a4", "440"],
    );
    assert!(
        !says(&run).contains(&"ask your technician".to_owned()),
        "{}",
        run.out
    );
}

#[test]
fn listening_shorter_hears_shorter() {
    let run = tune(&[("Gb3", 0.0)], &["--json", "--listen-s", "0.4"]);
    let last = run.of_kind("reading").pop().unwrap();
    assert!(last["listened_s"].as_f64().unwrap() < 0.5, "{last}");
}
