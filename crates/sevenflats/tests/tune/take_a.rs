//! `--take-a`: the A from a note that somebody holds. The notes are sums of sines, whose pitch is known exactly.

use std::f64::consts::TAU;

use crate::command::{Run, run};
use crate::sound::{RATE_HZ, s16le};
use crate::wav;
use tempfile::tempdir;

/// A held note: six partials, its pitch at each second.
fn held(seconds: f64, hz_at: impl Fn(f64) -> f64) -> Vec<f32> {
    let rate = f64::from(RATE_HZ);
    let mut turns = 0.0;
    let sample = |k: usize| {
        let t = k as f64 / rate;
        turns += hz_at(t) / rate;
        let ends = (t.min(seconds - t) / 0.03).min(1.0);
        let partial = |n: u32| (TAU * f64::from(n) * turns).sin() / f64::from(n);
        (0.15 * ends * (1..=6).map(partial).sum::<f64>()) as f32
    };
    (0..(seconds * rate) as usize).map(sample).collect()
}

fn take(samples: &[f32], options: &[&str]) -> Run {
    let folder = tempdir().unwrap();
    wav::write(&folder.path().join("a.wav"), RATE_HZ, 1, samples);
    let words = [&["tune", "--from", "a.wav", "--take-a"], options].concat();
    run(folder.path(), &words, &[])
}

#[test]
fn the_a_is_told_to_half_a_hertz_with_the_command_that_uses_it() {
    let run = take(&held(4.0, |_| 442.1), &["--usual-a4", "440"]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""), "{}", run.out);
    let expected = [
        "A = 442.1 Hz, ±",
        "by the A4 that was held. To the nearest half hertz: 442.\n",
        // 442 over 440: 7.851 cents, 0.911 % more tension (arithmetic)
        "7.9 cents above this harp's usual pitch, 0.9 % more pull on every string.",
        "  sevenflats tune --a4 442 --usual-a4 440 …\n",
        "With all pedals up this harp has no A string to compare: its A strings sound A♭.",
    ];
    for words in expected {
        assert!(run.out.contains(words), "no '{words}' in {}", run.out);
    }
    assert!(!run.out.contains("technician"), "{}", run.out);
}

#[test]
fn a_program_reads_one_line() {
    let run = take(&held(4.0, |_| 442.1), &["--json"]);
    assert_eq!(run.code, Some(0), "{}", run.err);
    let line = run.out.trim_end();
    let fields = [
        "kind",
        "note",
        "heard_hz",
        "u95_cents",
        "a4_hz",
        "asks_technician",
    ];
    assert_eq!(crate::keys(line), fields);
    let line = run.lines().pop().unwrap();
    assert_eq!(run.out.lines().count(), 1);
    assert_eq!(
        (&line["kind"], &line["a4_hz"]),
        (&"the_a".into(), &442.0.into())
    );
    assert!(
        (line["heard_hz"].as_f64().unwrap() - 442.1).abs() < 0.15,
        "{line}"
    );
    assert_eq!(
        (&line["note"], &line["asks_technician"]),
        (&"An4".into(), &false.into())
    );
}

#[test]
fn raw_samples_on_standard_input_give_the_same() {
    let folder = tempdir().unwrap();
    let samples = held(4.0, |_| 442.1);
    let rate = RATE_HZ.to_string();
    let words = ["tune", "--rate", &rate, "--json", "--take-a"];
    let raw = run(folder.path(), &words, &s16le(&samples));
    assert_eq!(
        (raw.code, raw.out),
        (Some(0), take(&samples, &["--json"]).out)
    );
}

#[test]
fn far_above_the_usual_pitch_the_technician_is_asked_first() {
    // 442 over 430: 47.65 cents, 5.66 % (arithmetic)
    let samples = held(4.0, |_| 442.0);
    let run = take(&samples, &["--usual-a4", "430"]);
    let words = "47.7 cents above this harp's usual pitch, 5.7 % more pull on every string: ask your technician first.\nOnly if the technician agrees:\n";
    assert!(run.out.contains(words), "{}", run.out);
    let run = take(&samples, &["--usual-a4", "430", "--json"]);
    assert_eq!(run.lines()[0]["asks_technician"], true);
}

#[test]
fn another_note_says_the_same_a_and_another_stand_has_a_strings() {
    // D4 is seven semitones below A4: 442 × 2^(−7/12) (arithmetic)
    let d4 = 442.0 * 2f64.powf(-7.0 / 12.0);
    let run = take(&held(4.0, |_| d4), &["D4", "--position", "natural"]);
    assert_eq!(run.code, Some(0), "{}", run.err);
    assert!(
        run.out
            .contains("by the D4 that was held. To the nearest half hertz: 442."),
        "{}",
        run.out
    );
    assert!(
        run.out.contains("it sounds on 6A, 5A, 4A, 3A, 2A, 1A."),
        "{}",
        run.out
    );
}

#[test]
fn what_gives_no_a_is_refused_with_what_to_do() {
    let check = |samples: &[f32], reason: &str, advice: &str| {
        let run = take(samples, &["--json"]);
        assert_eq!(run.code, Some(1), "{reason}: {}", run.out);
        assert_eq!(
            crate::keys(run.out.trim_end()),
            ["kind", "reason", "detail"]
        );
        let line = &run.lines()[0];
        assert_eq!(
            (&line["kind"], &line["reason"]),
            (&"refused".into(), &reason.into()),
            "{line}"
        );
        assert!(line["detail"].as_str().unwrap().contains(advice), "{line}");
        let told = take(samples, &[]);
        assert_eq!((told.code, told.out.as_str()), (Some(1), ""));
        assert!(told.err.contains(advice), "{}", told.err);
    };
    check(&held(1.5, |_| 442.0), "too short", "hold it for 3 seconds");
    check(&held(4.0, |t| 430.0 + 6.0 * t), "unsteady", "held still");
    check(&held(4.0, |_| 487.0), "out of range", "only 380 to 480");
    check(
        &held(4.0, |_| 620.0),
        "not heard",
        "held alone, near the microphone",
    );
    check(
        &vec![0.0; 4 * RATE_HZ as usize],
        "not heard",
        "silent from beginning to end",
    );
    // something else, as loud, for a third of each second
    let (a, other) = (held(6.0, |_| 442.0), held(6.0, |_| 500.0));
    let both = |(k, (a, other)): (usize, (&f32, &f32))| {
        let is_there = k % (RATE_HZ as usize) < RATE_HZ as usize / 3;
        a + if is_there { 2.0 * other } else { 0.0 }
    };
    let broken: Vec<f32> = a.iter().zip(&other).enumerate().map(both).collect();
    check(&broken, "not alone", "let it sound alone");
}

#[test]
fn half_a_file_gives_the_a_that_is_in_it() {
    let folder = tempdir().unwrap();
    let path = folder.path().join("a.wav");
    wav::write(&path, RATE_HZ, 1, &held(9.0, |_| 442.0));
    let whole = std::fs::read(&path).unwrap();
    std::fs::write(&path, &whole[..whole.len() / 2]).unwrap();
    let run = run(folder.path(), &["tune", "--from", "a.wav", "--take-a"], &[]);
    assert_eq!(run.code, Some(1));
    assert!(
        run.out.contains("To the nearest half hertz: 442."),
        "{}",
        run.out
    );
    assert!(run.err.contains("breaks off"), "{}", run.err);
}

#[test]
fn what_belongs_to_tuning_is_not_mixed_with_it() {
    let samples = held(0.5, |_| 442.0);
    for option in [
        ["--a4", "442"],
        ["--order", "bass"],
        ["--string", "4G"],
        ["--picture", "a.svg"],
    ] {
        let run = take(&samples, &[&["A4"], &option[..]].concat());
        assert_eq!(run.code, Some(2), "{option:?}: {}", run.out);
        assert!(run.err.contains("cannot be used with"), "{}", run.err);
    }
    let run = take(&samples, &["H4"]);
    assert_eq!(run.code, Some(2), "{}", run.err);
    let run = take(&samples, &["C9"]);
    assert_eq!(run.code, Some(2), "{}", run.err);
}
