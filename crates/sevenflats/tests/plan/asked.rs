//! How the other tests here ask the command, and what they take from its answer.

use std::path::{Path, PathBuf};

use serde_json::{Value, json};

use crate::command::{Run, run};

/// The folder with the scores.
pub(crate) fn scores() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/plan/scores")
}

/// The plan of one of our scores, as JSON.
pub(crate) fn planned(score: &str, words: &[&str]) -> Value {
    let file = format!("{score}.musicxml");
    planned_in(&scores(), &file, words)
}

/// The plan of a score with one thing in it changed; what is changed must be there.
pub(crate) fn planned_with(score: &str, from: &str, to: &str, words: &[&str]) -> Value {
    let file = format!("{score}.musicxml");
    let text = std::fs::read_to_string(scores().join(&file)).unwrap();
    assert!(text.contains(from), "{file} has no {from}");
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join(&file), text.replace(from, to)).unwrap();
    planned_in(folder.path(), &file, words)
}

fn planned_in(folder: &Path, file: &str, words: &[&str]) -> Value {
    let words = [&["plan", file, "--json"], words].concat();
    let run = run(folder, &words, &[]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""), "{words:?}");
    assert_eq!(run.out.lines().count(), 1, "{}", run.out);
    serde_json::from_str(&run.out).unwrap()
}

/// What a person reads.
pub(crate) fn page(score: &str, words: &[&str]) -> String {
    let file = format!("{score}.musicxml");
    let words = [&["plan", file.as_str()], words].concat();
    let Run { code, out, err } = run(&scores(), &words, &[]);
    assert_eq!((code, err.as_str()), (Some(0), ""), "{words:?}");
    out
}

/// A setting in the order of the pedals, `D C B E F G A`: `b`, `n` or `#` each.
pub(crate) fn setting(value: &Value) -> String {
    let pedals = ["D", "C", "B", "E", "F", "G", "A"];
    let signs = pedals.map(|pedal| match value[pedal].as_i64() {
        Some(-1) => "b",
        Some(0) => "n",
        Some(1) => "#",
        _ => panic!("{pedal} in {value}"),
    });
    signs.concat()
}

/// The setting at the beginning of a written measure, all passes alike.
pub(crate) fn setting_at(plan: &Value, measure: u64) -> String {
    let all = plan["settings"].as_array().unwrap();
    let here: Vec<_> = all.iter().filter(|s| s["measure"] == measure).collect();
    assert_eq!(here.len(), 1, "measure {measure}: {here:?}");
    setting(&here[0]["setting"])
}

/// Every change in words: `3:1 C natural>sharp 1,2`, measure and beat first, times of playing last.
pub(crate) fn changes(plan: &Value) -> Vec<String> {
    let all = plan["changes"].as_array().unwrap().iter();
    let words = all.map(|change| {
        let text = |field: &str| change[field].as_str().unwrap().to_owned();
        format!(
            "{}:{} {} {}>{} {}",
            change["measure"],
            text("beat"),
            text("pedal"),
            text("from"),
            text("to"),
            passes(&change["passes"])
        )
    });
    words.collect()
}

/// Times of playing: `1,2`.
pub(crate) fn passes(value: &Value) -> String {
    let all = value.as_array().unwrap().iter();
    all.map(Value::to_string).collect::<Vec<_>>().join(",")
}

/// What no fixture but a few has: nothing is lost, nothing on another string than written.
pub(crate) fn check_as_written(plan: &Value) {
    assert_eq!(plan["cannot"], json!([]), "{plan}");
    assert_eq!(plan["respelled"], json!([]), "{plan}");
}

/// The diagnostics in words: `5: the glissando …`, the measure first where there is one.
pub(crate) fn diagnostics(plan: &Value) -> Vec<String> {
    let all = plan["diagnostics"].as_array().unwrap().iter();
    let words = all.map(|told| {
        let measure = told["measure"].as_u64();
        let measure = measure.map_or(String::new(), |at| format!("{at}: "));
        format!("{measure}{}", told["message"].as_str().unwrap())
    });
    words.collect()
}
