//! `--demo`: an invented round, made, kept and tuned by, against its own truth.

use crate::command::run;
use crate::sound::{asked, string_of};
use sevenflats::demo;
use tempfile::tempdir;

#[test]
fn the_demo_finds_its_strings_low_and_leaves_them_in_tune() {
    let folder = tempdir().unwrap();
    let run = run(
        folder.path(),
        &["tune", "--demo", "round.wav", "--json"],
        &[],
    );
    assert_eq!(run.code, Some(0), "{}", run.err);
    assert!(run.err.contains("invented"), "{}", run.err);
    let round = demo::tuned().unwrap();
    let wav = hound::WavReader::open(folder.path().join("round.wav")).unwrap();
    assert!((wav.duration() as f64 / f64::from(round.rate_hz) - round.seconds).abs() < 0.1);
    assert!((50.0..80.0).contains(&round.seconds), "{} s", round.seconds);
    let mut order = asked(&run);
    order.dedup();
    let names = [
        "G3", "F3", "E3", "D3", "C3", "B2", "A2", "G2", "F2", "E2", "D2", "C2",
    ];
    assert_eq!(order[..names.len()], names, "{}", run.out);
    for name in names {
        let string = string_of(&run, name);
        let left = round.off_cents_at(name, round.seconds).unwrap();
        assert_eq!(string["state"], "in tune", "{string}, left at {left:.1}");
    }
}

#[test]
fn a_person_is_told_that_it_is_invented_and_hears_it_tuned() {
    let folder = tempdir().unwrap();
    let run = run(folder.path(), &["tune", "--demo", "round.wav"], &[]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""));
    let first = run.out.lines().next().unwrap();
    assert!(
        first.contains("invented") && first.contains("442"),
        "{first}"
    );
    for words in [
        "Now 4G.",
        "low. Up",
        "enough. Leave the key",
        "in tune (",
        "12 of 47 in tune, 35 left",
    ] {
        assert!(run.out.contains(words), "no '{words}' in {}", run.out);
    }
}
