//! What cannot be read is named with what to do; all else is shown.

use std::path::Path;

use serde_json::{Value, json};

use crate::command::{Run, run};
use crate::{copied, folder};

fn spoilt(file: &str, from: &str, to: &str) -> (tempfile::TempDir, Run) {
    let copy = copied();
    let path = copy.path().join(file);
    let text = std::fs::read_to_string(&path).unwrap();
    assert!(text.contains(from), "{file} has no {from}");
    std::fs::write(&path, text.replacen(from, to, 1)).unwrap();
    let run = run(copy.path(), &["programme", "evening.toml", "--json"], &[]);
    (copy, run)
}

/// Two of three pieces are there; the other says why not.
fn check_rest(run: &Run, unread: usize, why: &str) {
    assert_eq!(run.code, Some(1), "{}", run.err);
    assert!(run.err.contains(why), "{}", run.err);
    assert!(
        run.err.contains(&format!("piece {} (", unread + 1)),
        "{}",
        run.err
    );
    let told: Value = serde_json::from_str(&run.out).unwrap();
    for (at, piece) in told["pieces"].as_array().unwrap().iter().enumerate() {
        let is_unread = piece["unread"] != json!([]);
        assert_eq!(is_unread, at == unread, "{piece}");
    }
}

#[test]
fn a_missing_score_leaves_the_others() {
    let (_copy, run) = spoilt("evening.toml", "the-weir.musicxml", "the-wier.musicxml");
    check_rest(&run, 2, "the score cannot be read");
}

#[test]
fn a_broken_score_leaves_the_others() {
    let (_copy, run) = spoilt(
        "lantern-ferry.musicxml",
        "<score-partwise version=\"4.0\">",
        "<recipe>",
    );
    check_rest(&run, 0, "lantern-ferry.musicxml");
    let told: Value = serde_json::from_str(&run.out).unwrap();
    // what comes before the second piece is not known then
    assert_eq!(told["pieces"][0]["source"], "unread");
    assert_eq!(told["retunings"].as_array().unwrap().len(), 1);
}

#[test]
fn an_unknown_harp_is_named() {
    let (_copy, run) = spoilt(
        "evening.toml",
        "a4_hz = 442",
        "a4_hz = 442\nharp = \"pedal99\"",
    );
    check_rest(&run, 2, "pedal99: neither a harp known by name");
}

#[test]
fn a_line_that_cannot_be_read_is_named_and_the_rest_kept() {
    let (_copy, run) = spoilt("salt-meadow.txt", "5 F♯", "5 H♯");
    check_rest(
        &run,
        1,
        "salt-meadow.txt: line 5, column 3: 'H♯' is no pedal",
    );
    let told: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(told["pieces"][1]["moves"], 6);
    // without F sharp in bar 5, F natural in bar 9 moves nothing
    let findings = told["pieces"][1]["findings"].to_string();
    assert!(
        findings.contains("F stands in natural already"),
        "{findings}"
    );
}

#[test]
fn a_line_in_the_evening_itself_has_its_own_number() {
    let copy = tempfile::tempdir().unwrap();
    let text = "[[piece]]\ntitle = \"x\"\npencilled = \"\"\"\nopening Bb\n12 Q\n\"\"\"\n";
    std::fs::write(copy.path().join("e.toml"), text).unwrap();
    let run = run(copy.path(), &["programme", "e.toml"], &[]);
    assert_eq!(run.code, Some(1));
    assert!(
        run.err.contains("line 5, column 4: 'Q' is no pedal"),
        "{}",
        run.err
    );
    assert!(run.out.contains("1. x"), "{}", run.out);
}

fn check_refused(words: &[&str], code: i32, message: &str) {
    let run = run(&folder(), words, &[]);
    assert_eq!(run.code, Some(code), "{}", run.err);
    assert!(run.err.contains(message), "{}", run.err);
}

#[test]
fn what_cannot_be_done_at_all_is_refused() {
    check_refused(
        &["programme", "no-evening.toml"],
        1,
        "the evening cannot be read",
    );
    check_refused(
        &["programme", "the-weir.musicxml"],
        1,
        "this is a score, not an evening",
    );
    check_refused(
        &["programme", "evening.toml", "--missing", "0A"],
        2,
        "no harp of the evening has this string",
    );
    check_refused(
        &["programme", "evening.toml", "--sheet", "e.doc"],
        2,
        "ends in .pdf or .svg",
    );
    check_refused(&["programme", "evening.toml", "--large"], 2, "--sheet");
    check_refused(&["programme"], 2, "EVENING");
}

#[test]
fn a_sheet_that_cannot_be_written_is_said_after_all_else() {
    let run = run(
        &folder(),
        &["programme", "evening.toml", "--sheet", "nowhere/e.pdf"],
        &[],
    );
    assert_eq!(run.code, Some(1));
    assert!(run.err.contains("--sheet nowhere/e.pdf"), "{}", run.err);
    assert!(run.out.contains("3. The Weir"), "{}", run.out);
    assert!(!Path::new("nowhere").exists());
}

#[test]
fn a_part_on_paper_for_levers_is_refused_in_words() {
    let (_copy, run) = spoilt("evening.toml", "paper = ", "harp = \"lever34\"\npaper = ");
    check_rest(&run, 1, "written down in pedals");
}

#[test]
fn the_file_to_fill_in_is_printed() {
    let run = run(&folder(), &["programme", "--toml"], &[]);
    assert_eq!(run.code, Some(0));
    assert!(run.out.contains("[[piece]]"), "{}", run.out);
}
