//! Bad input is no crash: each is answered with what is wrong, where, and what to do, and with the
//! exit code that `sevenflats --help` tells.

use crate::wav;
use std::path::Path;

use crate::command::run;
use tempfile::tempdir;

const DONE: i32 = 0;
const NOT_READ: i32 = 1;
const NOT_UNDERSTOOD: i32 = 2;

/// The A-flat of string 3A, open at 440 Hz.
const A_FLAT_4_HZ: f64 = 415.305;

/// Runs `hear --json` on a file made of these bytes; every one of `expected` must be in what it
/// says on standard error or in its warnings.
fn check(file: &str, bytes: &[u8], code: i32, expected: &[&str]) {
    let folder = tempdir().unwrap();
    std::fs::write(folder.path().join(file), bytes).unwrap();
    check_in(folder.path(), &["hear", "--json", file], code, expected);
}

fn check_in(folder: &Path, words: &[&str], code: i32, expected: &[&str]) {
    let run = run(folder, words, &[]);
    let said = format!("{}\n{}", run.err, run.out);
    assert_eq!(run.code, Some(code), "{words:?}: {said}");
    for expected in expected {
        assert!(
            said.contains(expected),
            "{words:?} does not say '{expected}': {said}"
        );
    }
}

/// A good recording of string 3A, as the bytes of a WAV file.
fn good(rate_hz: u32, channels: u16) -> Vec<u8> {
    bytes(rate_hz, channels, |sample| sample)
}

fn bytes(rate_hz: u32, channels: u16, change: impl Fn(f32) -> f32) -> Vec<u8> {
    let folder = tempdir().unwrap();
    let path = folder.path().join("good.wav");
    let mono = wav::pluck(A_FLAT_4_HZ, rate_hz, 1.5);
    let samples: Vec<f32> = mono
        .iter()
        .flat_map(|&sample| std::iter::repeat_n(change(sample), usize::from(channels)))
        .collect();
    wav::write(&path, rate_hz, channels, &samples);
    std::fs::read(path).unwrap()
}

#[test]
fn a_good_recording_is_read_without_complaint() {
    let folder = tempdir().unwrap();
    std::fs::write(folder.path().join("good.wav"), good(48_000, 1)).unwrap();
    let run = run(folder.path(), &["hear", "--json", "good.wav"], &[]);
    assert_eq!(
        (run.code, run.err.as_str()),
        (Some(DONE), ""),
        "{}",
        run.out
    );
    assert_eq!(
        run.of_kind("reading").last().unwrap()["string"],
        "A4",
        "{}",
        run.out
    );
    assert!(run.of_kind("warning").is_empty(), "{}", run.out);
}

#[test]
fn a_file_that_is_not_there_is_named() {
    let folder = tempdir().unwrap();
    let expected = ["nowhere.wav cannot be opened", "check the name"];
    check_in(folder.path(), &["hear", "nowhere.wav"], NOT_READ, &expected);
}

#[test]
fn a_folder_is_no_recording() {
    let folder = tempdir().unwrap();
    std::fs::create_dir(folder.path().join("round")).unwrap();
    check_in(
        folder.path(),
        &["hear", "round"],
        NOT_READ,
        &["round is a folder", "one by one"],
    );
}

#[test]
fn an_empty_file_is_called_empty() {
    check(
        "empty.wav",
        b"",
        NOT_READ,
        &["empty.wav is empty (0 bytes)", "again"],
    );
}

#[test]
fn a_text_is_no_recording() {
    check(
        "notes.wav",
        &b"not a sound at all. ".repeat(400),
        NOT_READ,
        &["notes.wav is no WAV", "convert it to WAV"],
    );
}

#[test]
fn a_truncated_file_is_heard_as_far_as_it_goes() {
    let whole = good(48_000, 1);
    let expected = [
        "breaks off",
        "of the 1.50 s",
        "copy the file again",
        "\"kind\":\"reading\"",
    ];
    check(
        "cut.wav",
        &whole[..whole.len() * 3 / 4],
        NOT_READ,
        &expected,
    );
}

#[test]
fn a_file_cut_anywhere_in_its_header_is_refused_in_words() {
    let folder = tempdir().unwrap();
    let whole = good(8_000, 1);
    for end in 0..60 {
        let path = folder.path().join("cut.wav");
        std::fs::write(&path, &whole[..end]).unwrap();
        let run = run(folder.path(), &["hear", "--json", "cut.wav"], &[]);
        assert_eq!(
            run.code,
            Some(NOT_READ),
            "cut at byte {end}: {}{}",
            run.err,
            run.out
        );
        assert!(
            run.err.contains("cut.wav"),
            "cut at byte {end}: {}",
            run.err
        );
    }
}

#[test]
fn a_silent_file_is_called_silent() {
    let silent = bytes(48_000, 1, |_| 0.0);
    check(
        "silent.wav",
        &silent,
        NOT_READ,
        &[
            "silent.wav: no pluck was heard in 1.5 s",
            "silent from beginning to end",
            "right microphone",
        ],
    );
}

#[test]
fn a_clipped_recording_is_read_with_a_warning() {
    let clipped = bytes(48_000, 1, |sample| (sample * 12.0).clamp(-1.0, 1.0));
    check(
        "loud.wav",
        &clipped,
        DONE,
        &["\"warning\":\"clipped\"", "\"kind\":\"summary\""],
    );
}

#[test]
fn two_channels_are_mixed_with_a_warning() {
    let expected = [
        "\"warning\":\"channels mixed\"",
        "2 channels, heard as their average",
        "\"string\":\"A4\"",
    ];
    check("stereo.wav", &good(48_000, 2), DONE, &expected);
}

#[test]
fn channels_that_take_each_other_away_are_named() {
    let folder = tempdir().unwrap();
    let mono = wav::pluck(A_FLAT_4_HZ, 48_000, 1.5);
    let both: Vec<f32> = mono.iter().flat_map(|&sample| [sample, -sample]).collect();
    wav::write(&folder.path().join("wires.wav"), 48_000, 2, &both);
    let expected = [
        "no pluck was heard",
        "take each other away",
        "save one of them alone",
    ];
    check_in(folder.path(), &["hear", "wires.wav"], NOT_READ, &expected);
}

#[test]
fn eight_kilohertz_are_heard_with_a_warning() {
    let expected = [
        "\"warning\":\"low sampling rate\"",
        "nothing above 4000 Hz",
        "\"string\":\"A4\"",
    ];
    check("phone.wav", &good(8_000, 1), DONE, &expected);
}

#[test]
fn a_sampling_rate_out_of_range_is_refused() {
    check(
        "slow.wav",
        &good(4_000, 1),
        NOT_READ,
        &["sampled at 4000 Hz", "48000 Hz"],
    );
}

#[test]
fn samples_that_are_no_numbers_are_heard_as_silence_with_a_warning() {
    let folder = tempdir().unwrap();
    let mut samples = wav::pluck(A_FLAT_4_HZ, 48_000, 1.5);
    samples[1_000] = f32::NAN;
    samples[1_001] = f32::INFINITY;
    let input: Vec<u8> = samples
        .iter()
        .flat_map(|sample| sample.to_le_bytes())
        .collect();
    let words = [
        "hear", "--json", "--rate", "48000", "--format", "f32le", "-",
    ];
    let run = run(folder.path(), &words, &input);
    assert_eq!(run.code, Some(DONE), "{}", run.err);
    assert!(run.out.contains("2 samples hold no number"), "{}", run.out);
}

#[test]
fn one_bad_file_does_not_keep_the_others_from_being_heard() {
    let folder = tempdir().unwrap();
    std::fs::write(folder.path().join("good.wav"), good(48_000, 1)).unwrap();
    let expected = [
        "nowhere.wav cannot be opened",
        "\"string\":\"A4\"",
        "\"plucks\":1",
    ];
    check_in(
        folder.path(),
        &["hear", "--json", "nowhere.wav", "good.wav"],
        NOT_READ,
        &expected,
    );
}

#[test]
fn an_impossible_reference_pitch_is_refused() {
    let folder = tempdir().unwrap();
    for a4 in ["4400", "379.9", "480.1", "NaN", "inf", "-440", "A", ""] {
        let a4 = format!("--a4={a4}");
        check_in(folder.path(), &["strings", &a4], NOT_UNDERSTOOD, &["--a4"]);
    }
}

#[test]
fn raw_samples_need_their_rate_and_files_bring_their_own() {
    let folder = tempdir().unwrap();
    check_in(
        folder.path(),
        &["hear", "-"],
        NOT_UNDERSTOOD,
        &["add --rate 48000"],
    );
    check_in(
        folder.path(),
        &["hear", "a.wav", "--rate", "48000"],
        NOT_UNDERSTOOD,
        &["brings its own"],
    );
    check_in(
        folder.path(),
        &["hear", "-", "-", "--rate", "48000"],
        NOT_UNDERSTOOD,
        &["only once"],
    );
    check_in(
        folder.path(),
        &["hear", "-", "--rate", "48000"],
        NOT_READ,
        &["standard input: no pluck was heard"],
    );
}

#[test]
fn nothing_to_hear_is_a_wrong_command() {
    let folder = tempdir().unwrap();
    check_in(folder.path(), &["hear"], NOT_UNDERSTOOD, &["FILE"]);
    check_in(folder.path(), &[], NOT_UNDERSTOOD, &["hear", "strings"]);
}

#[test]
fn a_harp_that_is_not_known_is_answered_with_those_that_are() {
    let folder = tempdir().unwrap();
    let expected = ["--harp pedal99", "pedal47", "lever34", "nor a file"];
    check_in(
        folder.path(),
        &["strings", "--harp", "pedal99"],
        NOT_UNDERSTOOD,
        &expected,
    );
}

#[test]
fn what_the_harp_does_not_have_is_said() {
    let folder = tempdir().unwrap();
    let hear = |words: &[&str], expected: &[&str]| {
        let words: Vec<&str> = ["hear", "x.wav"].iter().chain(words).copied().collect();
        check_in(folder.path(), &words, NOT_UNDERSTOOD, expected);
    };
    hear(&["--string", "A7"], &["--string A7", "C1", "G7"]);
    hear(&["--string", "H4"], &["'H4' names no string"]);
    hear(&["--levers", "E4"], &["E4", "no lever"]);
    hear(&["--harp", "lever22", "--levers", "E2"], &["no string E2"]);
    hear(&["--open", "Eb"], &["pedal harp", "C flat major"]);
    hear(&["--discless", "C4=Cn4"], &["C4", "has discs or a lever"]);
    hear(&["--discless", "C1=G1"], &["C1", "cannot be tuned to"]);
    hear(&["--setting", "{\"D\":0,\"C\":3}"], &["C is set to 3"]);
    hear(&["--setting", "{\"D\":0,\"D\":1}"], &["D stands twice"]);
    hear(&["--setting", "D natural"], &["a setting is written"]);
    hear(
        &["--harp", "lever34", "--setting", "{\"D\":-1}"],
        &["D2", "cannot stand at flat"],
    );
    hear(
        &["--harp", "semitones", "--position", "sharp"],
        &["neither pedals nor levers"],
    );
}

#[test]
fn a_harp_file_with_a_mistake_names_the_line_and_what_to_do() {
    let folder = tempdir().unwrap();
    let head = "kind = \"lever\"\nlowest = \"C3\"\nhighest = \"C6\"\n";
    let check = |text: &str, expected: &[&str]| {
        std::fs::write(folder.path().join("mine.toml"), format!("{head}{text}")).unwrap();
        let words = ["strings", "--harp", "mine.toml"];
        check_in(
            folder.path(),
            &words,
            NOT_READ,
            &[&["mine.toml"], expected].concat(),
        );
    };
    check(
        "[[string]]\nname = \"C4\"\n[[string]]\nname = \"4C\"\n",
        &["line 7", "C4", "twice"],
    );
    check(
        "[[string]]\nname = \"C4\"\ngauge_mm = -0.8\n",
        &["line 6", "C4", "gauge_mm", "-0.8"],
    );
    check("[[string]]\nname = \"X9\"\n", &["line 5", "X9"]);
    check("[[string]\n", &["line 4"]);
    check("colour = \"green\"\n", &["line 4", "colour"]);
}

#[test]
fn a_harp_file_that_cannot_be_read_is_named() {
    let folder = tempdir().unwrap();
    let words = ["strings", "--harp", "mine.toml"];
    std::fs::write(folder.path().join("mine.toml"), b"kind = \"\xff\xfe\"").unwrap();
    check_in(
        folder.path(),
        &words,
        NOT_READ,
        &["mine.toml: the harp file cannot be read"],
    );
    std::fs::write(folder.path().join("mine.toml"), vec![b'#'; 2 << 20]).unwrap();
    check_in(
        folder.path(),
        &words,
        NOT_READ,
        &["mine.toml: 2097152 bytes is no harp file"],
    );
}

#[test]
fn a_closed_pipe_is_no_complaint() {
    let folder = tempdir().unwrap();
    let mut child = std::process::Command::new(env!("CARGO_BIN_EXE_sevenflats"))
        .args(["strings", "--harp", "semitones", "--json"])
        .current_dir(folder.path())
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(DONE));
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
}
