//! What is said during the round.

use crate::command::run;
use crate::sound::{asked, says, string_of, tune, tune_in};
use tempfile::tempdir;

/// Everything that can be said, and the word that answers it in JSON; none where nothing is said.
const ACTS: [(&str, Option<&str>); 20] = [
    ("this 4G", Some("this one")),
    ("any", Some("any string")),
    ("skip 4F", Some("skipped")),
    ("broke 4E", Some("broke")),
    ("new 5A", Some("broke")),
    ("next", Some("next")),
    ("by-ear 4D", Some("by ear")),
    ("again 4D", None),
    ("not-in-tune 4D", Some("undone")),
    ("set 7C B0", Some("will stand")),
    ("between-pieces", Some("offer")),
    ("on-purpose 4C", Some("on purpose")),
    ("as-said G", None),
    ("use-a 442", Some("uses")),
    ("use-a 470", Some("ask your technician")),
    ("use-a 470 technician-asked", Some("uses")),
    ("skip 9Z", None),
    ("pause", Some("paused")),
    ("resume", Some("resumed")),
    ("finish", Some("finished")),
];

#[test]
fn every_act_is_followed_and_answered() {
    for (act, answer) in ACTS.into_iter().filter(|(act, _)| *act != "skip 9Z") {
        let folder = tempdir().unwrap();
        let before = if act == "resume" {
            "0.3 pause\n"
        } else {
            "0.3 this 4G\n"
        };
        let text = format!("# what I say\n{before}\n0.6 {act} # now\n");
        std::fs::write(folder.path().join("said.txt"), text).unwrap();
        let options = ["--json", "--said", "said.txt", "--usual-a4", "440"];
        let run = tune_in(folder.path(), &[], &options);
        // the sound is silent: nothing was heard, and the acts were followed all the same
        assert_eq!(run.code, Some(1), "{act}: {}", run.err);
        assert!(run.err.contains("no pluck was heard"), "{act}: {}", run.err);
        let says = run.of_kind("say");
        let at =
            |s: &&serde_json::Value| s["at_s"].as_f64().is_some_and(|at| at > 0.59 && at < 0.99);
        let words: Vec<&str> = says
            .iter()
            .filter(at)
            .filter_map(|s| s["say"].as_str())
            .collect();
        match answer {
            Some(answer) => assert!(words.contains(&answer), "{act}: {words:?}"),
            None => assert!(!words.contains(&"not here"), "{act}: {words:?}"),
        }
        assert_eq!(run.of_kind("summary").len(), 1);
    }
}

#[test]
fn what_is_said_is_told_on_request() {
    let folder = tempdir().unwrap();
    let help = run(folder.path(), &["tune", "--said", "help"], &[]);
    assert_eq!(help.code, Some(0), "{}", help.err);
    for (act, _) in ACTS {
        let word = act.split(' ').next().unwrap();
        assert!(help.out.contains(word), "{word}");
    }
}

#[test]
fn nothing_is_kept_during_a_pause() {
    let folder = tempdir().unwrap();
    let said = "0 pause\n2.4 resume\n";
    std::fs::write(folder.path().join("said.txt"), said).unwrap();
    let plucks = [("Gb3", 0.0), ("Fb3", 0.0)];
    let run = tune_in(folder.path(), &plucks, &["--json", "--said", "said.txt"]);
    assert_eq!(
        string_of(&run, "G3")["state"],
        "not yet heard",
        "{}",
        run.out
    );
    assert_eq!(string_of(&run, "F3")["state"], "in tune", "{}", run.out);
}

#[test]
fn what_is_to_be_said_after_the_sound_is_said_at_its_end() {
    let folder = tempdir().unwrap();
    std::fs::write(folder.path().join("said.txt"), "60 skip 4F\n").unwrap();
    let run = tune_in(
        folder.path(),
        &[("Gb3", 0.0)],
        &["--json", "--said", "said.txt"],
    );
    assert_eq!(asked(&run), ["G3", "F3", "E3"], "{}", run.out);
    assert_eq!(string_of(&run, "F3")["state"], "skipped");
    assert_eq!(says(&run).last().map(String::as_str), Some("finished"));
}

#[test]
fn a_line_that_is_not_understood_is_named_by_its_number() {
    let folder = tempdir().unwrap();
    let check = |text: &str, expected: &[&str]| {
        std::fs::write(folder.path().join("said.txt"), text).unwrap();
        let run = tune_in(folder.path(), &[("Gb3", 0.0)], &["--said", "said.txt"]);
        assert_eq!(run.code, Some(1), "{}", run.err);
        for words in expected {
            assert!(run.err.contains(words), "no '{words}' in {}", run.err);
        }
    };
    check(
        "1 any\n\n2 dance 4G\n",
        &[
            "--said said.txt",
            "line 3",
            "'dance 4G' is not understood",
            "--said help",
        ],
    );
    check("1 skip 9Z\n", &["line 1", "'9Z' names no string"]);
    check(
        "soon skip 4G\n",
        &["line 1", "'soon' is no number of seconds"],
    );
    let missing = tune(&[], &["--said", "nowhere.txt"]);
    assert_eq!(missing.code, Some(1));
    assert!(missing.err.contains("nowhere.txt"), "{}", missing.err);
}
