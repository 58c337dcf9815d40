//! `sevenflats diary` from end to end. Harps, figures and people are invented.

use std::path::Path;

use serde_json::{Value, json};
use tempfile::tempdir;

use crate::command::{Run, run};

/// Three weeks of a little harp, as a page would export them; what each line says is written beside the checks.
const WEEKS: &str = include_str!("diary_weeks.jsonl");

#[track_caller]
fn diary(folder: &Path, words: &[&str], input: &str) -> Run {
    let mut all = vec!["diary", "--diary", "diary.sqlite"];
    all.extend(words);
    run(folder, &all, input.as_bytes())
}

/// A run that does what it should, and its one line.
#[track_caller]
fn done(folder: &Path, words: &[&str], input: &str) -> Value {
    let run = diary(folder, words, input);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""), "{words:?}");
    run.lines().remove(0)
}

#[test]
fn what_was_taken_in_is_given_out_line_for_line() {
    let folder = tempdir().unwrap();
    let mut taken = done(folder.path(), &["import", "-", "--json"], WEEKS);
    // whether its clocks are ahead depends on the day of this check
    taken["clocks"].take();
    assert_eq!(
        taken,
        json!({"kind":"imported","new":9,"known":0,"conflicts":[],"not_taken":[],"clocks":null})
    );
    let again = done(folder.path(), &["import", "-", "--json"], WEEKS);
    assert_eq!((&again["new"], &again["known"]), (&json!(0), &json!(9)));
    let out = diary(folder.path(), &["export"], "").out;
    let (mut out, mut given): (Vec<_>, Vec<_>) = (out.lines().collect(), WEEKS.lines().collect());
    out.sort_unstable();
    given.sort_unstable();
    assert_eq!(out, given);
    let file = done(folder.path(), &["export", "weeks.jsonl", "--json"], "");
    assert_eq!(
        file,
        json!({"kind":"exported","file":"weeks.jsonl","records":9})
    );
    let over = diary(folder.path(), &["export", "weeks.jsonl"], "");
    assert_eq!(over.code, Some(1));
    assert!(over.err.contains("not overwritten"), "{}", over.err);
}

/// The kinds of the records that are given.
fn kinds(run: &Run) -> Vec<String> {
    assert_eq!(run.code, Some(0), "{}", run.err);
    let kind = |line: Value| line["kind"].as_str().unwrap().to_owned();
    run.lines().into_iter().map(kind).collect()
}

#[test]
fn some_of_it_is_given_and_each_line_is_as_it_was() {
    let folder = tempdir().unwrap();
    done(folder.path(), &["import", "-", "--json"], WEEKS);
    let note = r#"{"device":"pad","seq":1,"at":"2026-11-26T18:40:00Z","kind":"note","v":1,"body":{"harp":null,"string":null,"text":"mine"}}"#;
    done(folder.path(), &["import", "-", "--json"], note);
    let rounds = diary(folder.path(), &["export", "--kinds", "rounds"], "");
    let given = kinds(&rounds);
    assert_eq!(given, ["round", "round_over", "round", "round_over"]);
    assert!(
        rounds
            .out
            .lines()
            .all(|line| WEEKS.lines().any(|own| own == line))
    );
    let since = diary(folder.path(), &["export", "--since", "2026-01-01"], "");
    assert!(!kinds(&since).contains(&"note".to_owned()), "not unasked");
    let notes = diary(folder.path(), &["export", "--kinds", "notes"], "");
    assert_eq!(notes.out.trim_end(), note);
    let later = diary(
        folder.path(),
        &["export", "--kinds", "notes", "--since", "2026-11-27"],
        "",
    );
    assert_eq!(later.out, "");
    let file = done(
        folder.path(),
        &["export", "notes.jsonl", "--kinds", "notes", "--json"],
        "",
    );
    assert_eq!(
        file,
        json!({"kind":"exported","file":"notes.jsonl","records":1,"not_understood":0})
    );
    let nobody = diary(folder.path(), &["export", "--harp", "nobody's"], "");
    assert_eq!(nobody.code, Some(2), "{}", nobody.err);
    let no_kind = diary(folder.path(), &["export", "--kinds", "secrets"], "");
    assert_eq!(no_kind.code, Some(2));
    assert!(
        no_kind.err.contains("rounds, practice, strings"),
        "{}",
        no_kind.err
    );
}

#[test]
fn the_air_is_shown_as_it_was_read_last_and_before_where_that_is_asked_for() {
    let folder = tempdir().unwrap();
    let air = |seq: u32, temperature: f64| {
        format!(
            r#"{{"device":"phone","seq":{seq},"at":"2026-11-2{seq}T18:40:00Z","kind":"air","v":1,"body":{{"harp":null,"temperature_c":{temperature},"humidity_percent":44.0}}}}"#
        )
    };
    let lines: Vec<String> = (1..=5).map(|seq| air(seq, 18.0 + f64::from(seq))).collect();
    diary(folder.path(), &["import", "-"], &lines.join("\n"));
    let out = diary(folder.path(), &["show"], "").out;
    assert!(
        out.contains("Air: 23.0 °C, 44 % humidity, on 2026-11-25 18:40"),
        "{out}"
    );
    assert_eq!(out.matches("Air").count(), 1, "{out}");
    let out = diary(folder.path(), &["show", "--history", "4"], "").out;
    assert_eq!(out.matches("Air").count(), 4, "{out}");
    let run = diary(folder.path(), &["show", "--json"], "");
    assert_eq!(
        run.out.trim(),
        r#"{"kind":"air","at":"2026-11-25T18:40:00Z","harp":null,"temperature_c":23.0,"humidity_percent":44.0}"#
    );
}

#[test]
fn a_clock_that_is_ahead_is_warned_of_when_its_records_come_in() {
    let folder = tempdir().unwrap();
    let line = |seq: u32, year: u32| {
        format!(
            r#"{{"device":"phone","seq":{seq},"at":"{year}-11-26T18:40:00Z","kind":"note","v":1,"body":{{"harp":null,"string":null,"text":"a"}}}}"#
        )
    };
    let of = [line(1, 2020), line(2, 9999), line(3, 9999)].join("\n");
    let run = diary(folder.path(), &["import", "-"], &of);
    assert_eq!(run.code, Some(0));
    assert_eq!(run.out.matches("days from now").count(), 1, "{}", run.out);
    assert!(
        run.out.contains("phone 3: by its clock this was written"),
        "{}",
        run.out
    );
    // known by now, and not said again
    let again = diary(folder.path(), &["import", "-"], &of);
    assert!(!again.out.contains("from now"), "{}", again.out);
    let json = diary(folder.path(), &["import", "-", "--json"], &line(4, 9999));
    assert!(
        json.out
            .contains(r#""clocks":[{"record":{"device":"phone","seq":4},"seen":"ahead""#),
        "{}",
        json.out
    );
}

#[test]
fn what_is_known_of_each_string_is_shown() {
    let folder = tempdir().unwrap();
    done(folder.path(), &["import", "-", "--json"], WEEKS);
    let run = diary(folder.path(), &["show", "--json", "--history", "10"], "");
    let lines = run.lines();
    assert_eq!(lines.len(), 1 + 34 + 1, "a harp of 34 strings, and the air");
    assert_eq!(
        (&lines[0]["harp"], &lines[0]["rounds"]),
        (&json!("little"), &json!(2))
    );
    let string = |name: &str| lines.iter().find(|line| line["string"] == name).unwrap();
    // found 10 cents low, left in tune; a week later found 4 cents low and left
    let g3 = string("G3");
    assert_eq!(
        (&g3["harp_number"], &g3["stands"]),
        (&json!("4G"), &json!("on"))
    );
    assert_eq!(g3["last"]["off_cents"], 0.5);
    assert_eq!(g3["last"]["at"], "2026-11-12T18:00:40Z");
    assert_eq!(g3["in_tune_at"], "2026-11-12T18:00:40Z");
    assert_eq!(g3["history"].as_array().unwrap().len(), 4);
    let moved = g3["moved"]["cents"].as_f64().unwrap();
    // from 196.0 Hz to 195.547668 Hz: 1200 log2(195.547668 / 196.0) = -4.00 cents
    assert!((moved + 4.0).abs() < 0.001, "{moved}");
    // put on in October, by what was corrected later: gut, 1.02 mm
    let a4 = string("A4");
    assert_eq!(a4["fitted"]["at"], "2026-10-30T00:00:00Z");
    assert_eq!(
        (&a4["fitted"]["material"], &a4["fitted"]["gauge_mm"]),
        (&json!("gut"), &json!(1.02))
    );
    assert!(a4["age_days"].as_f64().unwrap() > 0.0);
    assert_eq!(
        (&string("E5")["stands"], &string("E5")["breaks"]),
        (&json!("broken"), &json!(["2026-11-08T09:00:00Z"]))
    );
    assert_eq!(string("F4")["faults"][0]["part"], "lever");
    assert_eq!(string("C2")["last"], Value::Null);
    let some = diary(folder.path(), &["show", "--json", "--string", "4G,A4"], "").lines();
    assert_eq!(some.len(), 3);
}

#[test]
fn people_see_a_line_for_each_string() {
    let folder = tempdir().unwrap();
    done(folder.path(), &["import", "-", "--json"], WEEKS);
    let out = diary(folder.path(), &["show", "--string", "4G,3A,3E,3F"], "").out;
    for words in [
        "little: 2 rounds, A at 440 Hz on 2026-11-12",
        "4G      0.5 ± 0.3 too high      2026-11-12  2026-11-12  −4.0 ± 0.4",
        "2026-10-30 gut 1.02 mm",
        "broken",
        "its lever buzzes (since 2026-11-09)",
    ] {
        assert!(out.contains(words), "{out}\nhas no '{words}'");
    }
    assert!(!out.contains("G3"), "one way of naming a page: {out}");
    let none = diary(folder.path(), &["show", "--harp", "big"], "");
    assert_eq!(none.code, Some(2));
    assert!(none.err.contains("knows no harp"), "{}", none.err);
}

#[test]
fn a_cut_and_edited_export_gives_what_is_whole_and_names_the_rest() {
    let folder = tempdir().unwrap();
    let mut file = WEEKS.replace(r#""phone","seq":2,"#, r#""phone","seq":-2,"#);
    file.truncate(file.trim_end().len() - 7);
    let run = diary(folder.path(), &["import", "-", "--json"], &file);
    assert_eq!(run.code, Some(1));
    assert!(
        run.err.contains("-, line 2: ") && run.err.contains("-, line 9: "),
        "{}",
        run.err
    );
    assert!(run.err.contains("copy it again"), "{}", run.err);
    let taken = &run.lines()[0];
    assert_eq!(
        (&taken["new"], taken["not_taken"].as_array().unwrap().len()),
        (&json!(7), 2)
    );
    let check = diary(folder.path(), &["check", "--json"], "");
    assert_eq!(check.code, Some(1), "the second is missing");
    assert_eq!(
        check.lines()[0]["gaps"],
        json!([{"device":"phone","from":2,"to":2}])
    );
    // the whole file comes after all
    done(folder.path(), &["import", "-", "--json"], WEEKS);
    let check = diary(folder.path(), &["check"], "");
    assert_eq!(check.code, Some(0));
    assert!(
        check.out.ends_with("Nothing is missing.\n"),
        "{}",
        check.out
    );
}

#[test]
fn two_bodies_newer_records_and_a_wrong_clock_are_named() {
    let folder = tempdir().unwrap();
    done(folder.path(), &["import", "-", "--json"], WEEKS);
    let others = [
        r#"{"device":"desk","seq":1,"at":"2026-11-01T08:00:00Z","kind":"note","v":1,"body":{"harp":null,"string":null,"text":"earlier"}}"#,
        r#"{"device":"desk","seq":4,"at":"2926-11-20T08:00:00Z","kind":"note","v":7,"body":"newer"}"#,
        r#"{"device":"desk","seq":5,"at":"2926-11-19T08:00:00Z","kind":"note","v":1,"body":{"harp":null,"string":null,"text":"a day before"}}"#,
    ];
    let taken = done(
        folder.path(),
        &["import", "-", "--json"],
        &others.join("\n"),
    );
    assert_eq!(taken["conflicts"], json!([{"device":"desk","seq":1}]));
    let check = diary(folder.path(), &["check"], "");
    assert_eq!(check.code, Some(1));
    for words in [
        "desk 1: two records claim this place",
        "desk 5: by its clock this was written 24 hours before",
        "from now",
        "1 record is of a newer version",
    ] {
        assert!(check.out.contains(words), "{}\nhas no '{words}'", check.out);
    }
}

#[test]
fn a_backup_comes_back_and_the_present_diary_is_kept() {
    let folder = tempdir().unwrap();
    done(folder.path(), &["import", "-", "--json"], WEEKS);
    let backup = done(folder.path(), &["backup", "safe.sqlite", "--json"], "");
    assert_eq!(backup, json!({"kind":"backed_up","file":"safe.sqlite"}));
    let restored = done(folder.path(), &["restore", "safe.sqlite", "--json"], "");
    assert_eq!(
        (&restored["records"], &restored["whole"]),
        (&json!(9), &json!(true))
    );
    let kept = restored["kept"].as_str().unwrap();
    assert!(folder.path().join(kept).exists(), "{kept}");
    let out = diary(folder.path(), &["restore", "safe.sqlite"], "").out;
    assert!(
        out.contains("The diary that was there is kept as diary.kept-"),
        "{out}"
    );
}

#[test]
fn what_cannot_be_opened_is_said_with_what_to_do() {
    let folder = tempdir().unwrap();
    let path = folder.path();
    let check = |words: &[&str], code, says: &str| {
        let run = diary(path, words, "");
        assert_eq!(run.code, Some(code), "{words:?}: {}", run.err);
        assert!(run.err.contains(says), "{}\nhas no '{says}'", run.err);
    };
    check(&["show"], 1, "there is no such file");
    check(
        &["import", "none.jsonl"],
        1,
        "none.jsonl: this cannot be read",
    );
    std::fs::write(path.join("diary.sqlite"), "a letter").unwrap();
    for words in [
        &["show"][..],
        &["check"],
        &["export"],
        &["backup", "b.sqlite"],
    ] {
        check(words, 1, "this is no diary of this program");
    }
    check(
        &["restore", "none.sqlite"],
        1,
        "none.sqlite: there is no such file",
    );
    assert_eq!(
        std::fs::read(path.join("diary.sqlite")).unwrap(),
        b"a letter"
    );
}

/// Without `--diary` it lies where this system keeps the data of programs.
#[cfg(target_os = "linux")]
#[test]
fn the_diary_lies_where_the_system_keeps_data() {
    let folder = tempdir().unwrap();
    // XDG Base Directory Specification 0.8: $XDG_DATA_HOME
    std::fs::write(folder.path().join("weeks.jsonl"), WEEKS).unwrap();
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_sevenflats"))
        .args(["diary", "import", "weeks.jsonl"])
        .current_dir(folder.path())
        .env("XDG_DATA_HOME", folder.path().join("data"))
        .output()
        .unwrap();
    assert!(output.status.success(), "{output:?}");
    assert!(folder.path().join("data/sevenflats/diary.sqlite").exists());
}
