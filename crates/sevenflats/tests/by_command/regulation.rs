//! `sevenflats regulation` on the demo check, which is invented: what each disc is off by is known exactly.

use std::fs;

use serde_json::Value;
use tempfile::tempdir;

use crate::command::{Run, run};

/// Strings whose step is made wrong, the step, and by how many cents (`sevenflats::demo::checked`).
const FAULTS: [(&str, &str, f64, &str); 4] = [
    ("F6", "natural", -9.0, "pedal"),
    ("F5", "natural", -9.0, "pedal"),
    ("F4", "natural", -9.0, "pedal"),
    ("D5", "sharp", 8.0, "disc"),
];

fn demo(words: &[&str]) -> (tempfile::TempDir, Run) {
    let folder = tempdir().unwrap();
    let all = [&["regulation", "--demo", "check.wav"], words].concat();
    let run = run(folder.path(), &all, b"");
    (folder, run)
}

fn string<'a>(lines: &'a [Value], name: &str) -> &'a Value {
    lines.iter().find(|line| line["string"] == name).unwrap()
}

#[test]
fn every_fault_of_the_demo_check_is_found_and_no_other() {
    let (_folder, run) = demo(&["--json"]);
    assert_eq!(run.code, Some(0), "{}", run.err);
    let strings = run.of_kind("string");
    assert_eq!(strings.len(), 9);
    let mut held = 0;
    for line in &strings {
        for step in ["natural", "sharp"] {
            let name = line["string"].as_str().unwrap();
            let fault = FAULTS
                .iter()
                .find(|fault| (fault.0, fault.1) == (name, step));
            let (truth, cause) = fault.map_or((0.0, None), |fault| (fault.2, Some(fault.3)));
            let figure = |field: &str| line[field][step].as_f64().unwrap();
            assert_eq!(line["causes"][step].as_str(), cause, "{line}");
            assert!((figure("step_cents") - 100.0 - figure("error_cents")).abs() < 1e-9);
            held += usize::from((figure("error_cents") - truth).abs() <= figure("u95_cents"));
        }
    }
    // of 18 intervals of 95 % one misses on the average; the check is always the same
    assert!(held >= 16, "{held}");
    assert_eq!(string(&strings, "F5")["cause"], "pedal");
    assert_eq!(string(&strings, "E5")["cause"], Value::Null);
    let summary = &run.of_kind("summary")[0];
    let count = |field: &str| summary[field].as_u64();
    assert_eq!(
        (count("strings"), count("left"), count("report")),
        (Some(9), Some(0), Some(4))
    );
    assert_eq!(summary["a4_hz"], 442.0);
    assert!(run.err.contains("No such harp exists"));
}

#[test]
fn people_are_led_from_position_to_position_and_told_whose_the_fault_is() {
    let (_folder, run) = demo(&[]);
    assert_eq!(run.code, Some(0), "{}", run.err);
    let mut rest = run.out.as_str();
    for words in [
        "No such harp exists",
        "9 strings, 36 plucks: about 3 minutes",
        "Pluck 1F (36 to come).",
        "All pedals to the middle",
        "All pedals down",
        "All pedals up again",
        "all pedals are up",
        "at A = 442 Hz, 4 steps for the technician",
        "the whole letter, its pedal",
        "this disc",
        "your technician's",
    ] {
        let at = rest
            .find(words)
            .unwrap_or_else(|| panic!("no '{words}' in {rest}"));
        rest = &rest[at..];
    }
}

#[test]
fn an_earlier_check_stands_beside_and_the_table_goes_to_the_technician() {
    let (folder, first) = demo(&["--json"]);
    fs::write(folder.path().join("spring.json"), &first.out).unwrap();
    let words = [
        "regulation",
        "--demo",
        "check.wav",
        "--before",
        "spring.json",
        "--csv",
        "harp.csv",
        "--sheet",
        "harp.pdf",
    ];
    let second = run(folder.path(), &words, b"");
    assert_eq!(second.code, Some(0), "{}", second.err);
    assert!(second.out.contains("natural  was"), "{}", second.out);
    let pdf = fs::read(folder.path().join("harp.pdf")).unwrap();
    assert!(pdf.starts_with(b"%PDF-") && pdf.len() > 10_000);
    let csv = fs::read_to_string(folder.path().join("harp.csv")).unwrap();
    let rows: Vec<Vec<&str>> = csv
        .split("\r\n")
        .map(|row| row.splitn(13, ',').collect())
        .collect();
    assert_eq!((rows.len(), rows[0].len()), (11, 13));
    let row = rows.iter().find(|row| row[0] == "2F").unwrap();
    // the same sound gives the same figures
    assert_eq!(row[3], row[10]);
    assert!(row[12].contains("its pedal"), "{row:?}");
}

#[test]
fn a_check_that_ends_early_keeps_what_was_measured_and_says_how_to_leave_the_harp() {
    let (folder, _) = demo(&["--json"]);
    fs::write(folder.path().join("said"), "1.5 skip 2E\n50 finish\n").unwrap();
    let words = [
        "regulation",
        "--from",
        "check.wav",
        "--a4",
        "442",
        "--strings",
        "1F,2E,2D,2F,3E,3D,3F,4E,4D",
        "--said",
        "said",
        "--new",
        "3D",
    ];
    let told = run(folder.path(), &words, b"");
    assert_eq!(told.code, Some(0), "{}", told.err);
    assert!(
        told.out.contains("Leave the harp with all pedals up"),
        "{}",
        told.out
    );
    assert!(told.out.contains("new: shown, not judged"));
    assert!(!told.out.contains("\n2E "), "{}", told.out);
    let words = [&words[..], &["--json"]].concat();
    let told = run(folder.path(), &words, b"");
    let string = told.of_kind("string");
    let found = string.iter().find(|line| line["string"] == "D5").unwrap();
    assert_eq!(
        (&found["cause"], &found["weight"]["natural"]),
        (&Value::from("new"), &Value::Null)
    );
    assert!(told.of_kind("summary")[0]["left"].as_u64() > Some(0));
}

#[test]
fn a_check_is_kept_in_the_diary_and_stands_beside_the_next() {
    let (folder, _) = demo(&["--json"]);
    let told = |words: &[&str]| {
        let told = run(folder.path(), words, b"");
        assert_eq!(told.code, Some(0), "{}", told.err);
        told
    };
    let check = [
        "regulation",
        "--from",
        "check.wav",
        "--a4",
        "442",
        "--strings",
        "1F,2E,2D,2F,3E,3D,3F,4E,4D",
        "--diary",
        "harp.sqlite",
    ];
    let first = told(&check);
    assert!(
        first
            .out
            .contains("Kept in the diary as a check of 'pedal C1 G7'"),
        "{}",
        first.out
    );
    assert!(!first.out.contains("natural  was"), "{}", first.out);
    let since = std::time::SystemTime::UNIX_EPOCH.elapsed().unwrap();
    let day = diary::Moment::of_unix_s(since.as_secs_f64() - 3.5 * 86_400.0).at();
    let fitted = format!(
        r#"{{"device":"phone","seq":1,"at":"{day}","kind":"string_fitted","v":1,"body":{{"harp":"pedal C1 G7","string":"D5","on":null,"material":null,"gauge_mm":null,"used":false,"by":""}}}}"#
    );
    fs::write(folder.path().join("fitted.ndjson"), fitted + "\n").unwrap();
    told(&["diary", "import", "fitted.ndjson", "--diary", "harp.sqlite"]);
    let second = told(&check);
    for words in [
        "New by the diary, so shown and not judged: 3D (3 days).",
        "natural  was",
        "new: shown, not judged",
    ] {
        assert!(second.out.contains(words), "no '{words}' in {}", second.out);
    }
    let kept = told(&["diary", "export", "--diary", "harp.sqlite"]).out;
    let checks: Vec<Value> = kept
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .filter(|line: &Value| line["kind"] == "regulation")
        .collect();
    assert_eq!(checks.len(), 2);
    let found = |check: &Value, name: &str| {
        let strings = check["body"]["strings"].as_array().unwrap().clone();
        let string = strings.into_iter().find(|one| one["string"] == name);
        string.unwrap()["found"].as_str().unwrap().to_owned()
    };
    assert_eq!(found(&checks[0], "D5"), "disc");
    assert_eq!(found(&checks[1], "D5"), "too_new");
    assert_eq!(found(&checks[1], "F5"), "pedal");
    assert_eq!(checks[0]["body"]["pedals"][0]["letter"], "F");
    // to ask how long it takes makes no diary
    told(&["regulation", "--how-long", "--diary", "none.sqlite"]);
    assert!(!folder.path().join("none.sqlite").exists());
}

#[test]
fn there_is_time_for_so_many_strings_and_it_is_said() {
    let told = |words: &[&str]| {
        let all = [&["regulation", "--how-long"], words].concat();
        run(tempdir().unwrap().path(), &all, b"").out
    };
    // 44 strings with discs by four plucks, as counted on a harp with three without
    assert!(
        told(&[]).contains("44 strings, 176 plucks: about 13 minutes"),
        "{}",
        told(&[])
    );
    assert!(told(&["--minutes", "5"]).contains("16 strings, 64 plucks: about 5 minutes"));
    assert!(told(&["--harp", "lever34"]).contains("34 strings, 102 plucks"));
}

#[test]
fn what_cannot_be_checked_is_said_with_what_to_do() {
    let folder = tempdir().unwrap();
    fs::write(folder.path().join("text.json"), "good morning\n").unwrap();
    fs::write(folder.path().join("empty.json"), "").unwrap();
    let check = |words: &[&str], code: i32, expected: &str| {
        let all = [&["regulation"], words].concat();
        let run = run(folder.path(), &all, b"");
        assert_eq!(run.code, Some(code), "{}", run.err);
        assert!(run.err.contains(expected), "no '{expected}' in {}", run.err);
    };
    check(
        &["--strings", "7C", "--how-long"],
        2,
        "nothing is left to check",
    );
    check(&["--minutes", "0"], 2, "0.5 to 600");
    check(
        &["--strings", "9C", "--how-long"],
        2,
        "outside every instrument",
    );
    check(
        &["--harp", "lever22", "--strings", "7C", "--how-long"],
        2,
        "strings run from C3 to C6",
    );
    check(&["--from", "nowhere.wav"], 1, "nowhere.wav");
    check(
        &["--how-long", "--before", "text.json"],
        1,
        "line 1 is none of a check",
    );
    check(
        &["--how-long", "--before", "empty.json"],
        1,
        "no string is in it",
    );
    check(
        &["--demo", "a.wav", "--csv", "nowhere/a.csv"],
        1,
        "check that the folder is there",
    );
    check(&[], 2, "need their sampling rate");
    check(
        &["--demo", "a.wav", "--diary", "a.sqlite"],
        2,
        "cannot be used with",
    );
    check(
        &["--from", "text.json", "--diary", "text.json"],
        1,
        "text.json",
    );
}
