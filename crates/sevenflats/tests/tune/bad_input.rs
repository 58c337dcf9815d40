//! Bad input is no crash: what is wrong, where, what to do, and the exit code.

use std::path::Path;

use crate::command::{Run, run};
use crate::sound::{RATE_HZ, samples, tune, tune_in};
use crate::wav;
use tempfile::tempdir;

const NOT_READ: i32 = 1;
const NOT_UNDERSTOOD: i32 = 2;

fn check(run: &Run, code: i32, expected: &[&str]) {
    let said = format!("{}\n{}", run.err, run.out);
    assert_eq!(run.code, Some(code), "{said}");
    for words in expected {
        assert!(said.contains(words), "no '{words}' in {said}");
    }
}

fn check_words(words: &[&str], code: i32, expected: &[&str]) {
    let folder = tempdir().unwrap();
    check(
        &run(folder.path(), &[&["tune"], words].concat(), &[]),
        code,
        expected,
    );
}

fn half_a_round(folder: &Path) {
    let path = folder.join("whole.wav");
    wav::write(&path, RATE_HZ, 1, &samples(&[("Gb3", 0.0), ("Fb3", 0.0)]));
    let whole = std::fs::read(path).unwrap();
    std::fs::write(folder.join("half.wav"), &whole[..whole.len() / 2]).unwrap();
}

#[test]
fn half_a_file_is_tuned_by_as_far_as_it_goes() {
    let folder = tempdir().unwrap();
    half_a_round(folder.path());
    let run = run(
        folder.path(),
        &["tune", "--from", "half.wav", "--json"],
        &[],
    );
    let expected = [
        "breaks off",
        "sound broken off",
        "\"kind\":\"summary\"",
        "\"say\":\"in tune\"",
    ];
    check(&run, NOT_READ, &expected);
}

#[test]
fn silence_is_said_to_be_silent() {
    let expected = [
        "no pluck was heard in 1.0 s",
        "silent from beginning to end",
        "0 of 47 in tune",
    ];
    check(&tune(&[], &[]), NOT_READ, &expected);
}

#[test]
fn a_file_that_is_not_there_is_named() {
    let words = ["--from", "nowhere.wav"];
    check_words(
        &words,
        NOT_READ,
        &["nowhere.wav cannot be opened", "check the name"],
    );
}

#[test]
fn no_sound_at_all_is_no_crash() {
    check_words(&["--rate", "48000"], NOT_READ, &["standard input"]);
}

#[test]
fn what_the_harp_does_not_have_is_not_understood() {
    let folder = tempdir().unwrap();
    let check_options = |options: &[&str], expected: &[&str]| {
        let run = tune_in(folder.path(), &[], options);
        check(&run, NOT_UNDERSTOOD, expected);
    };
    check_options(&["--string", "9Z"], &["'9Z' names no string"]);
    for option in ["--string", "--new", "--broken", "--touch-up"] {
        // A7 is not on a harp of 47 strings
        check_options(&[option, "A7"], &["run from C1 to G7"]);
    }
    check_options(&["--harp", "banjo"], &["neither a harp known by name"]);
}

#[test]
fn options_that_make_no_sense_are_not_understood() {
    check_words(&[], NOT_UNDERSTOOD, &["need their sampling rate"]);
    let rate_of_a_file = ["--from", "round.wav", "--rate", "48000"];
    check_words(&rate_of_a_file, NOT_UNDERSTOOD, &["a file brings its own"]);
    check_words(&["--format", "f32le"], NOT_UNDERSTOOD, &["--rate"]);
    let two = ["--from", "round.wav", "--demo", "demo.wav"];
    check_words(&two, NOT_UNDERSTOOD, &["cannot be used with"]);
    check_words(&["--order", "sideways"], NOT_UNDERSTOOD, &["an order is"]);
    check_words(&["--tolerance", "0"], NOT_UNDERSTOOD, &["is no tolerance"]);
    check_words(
        &["--usual-a4", "900"],
        NOT_UNDERSTOOD,
        &["between 380 and 480"],
    );
    check_words(&["--listen-s", "60"], NOT_UNDERSTOOD, &["seconds"]);
}
