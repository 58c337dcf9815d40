//! `sevenflats handout` from end to end; its pages are read back by lopdf and roxmltree, outside readers.

use std::path::Path;

use crate::command::{Run, run};
use lopdf::Document;
use serde_json::Value;
use tempfile::{TempDir, tempdir};

/// Three weeks of a little invented harp; what each line says is written in the checks of the diary.
const WEEKS: &str = include_str!("diary_weeks.jsonl");

fn told(words: &[&str]) -> (TempDir, Run) {
    let folder = tempdir().unwrap();
    let words: Vec<&str> = ["handout"].iter().chain(words).copied().collect();
    let run = run(folder.path(), &words, &[]);
    (folder, run)
}

/// A PDF's text without blanks, which a reader may see otherwise.
fn text(path: &Path) -> (usize, String) {
    let document = Document::load(path).unwrap();
    let pages: Vec<u32> = document.get_pages().keys().copied().collect();
    let text = document.extract_text(&pages).unwrap();
    let text = text.chars().filter(|sign| !sign.is_whitespace()).collect();
    (pages.len(), text)
}

#[test]
fn a_handout_is_printed_for_one_student_and_her_harp() {
    let (folder, run) = told(&[
        "--harp",
        "lever34",
        "--open",
        "Eb",
        "--language",
        "de",
        "--student",
        "Perpetua Quill",
        "--out",
        "handout.pdf",
    ]);
    assert_eq!(
        (run.code, run.err.as_str(), run.out.trim()),
        (Some(0), "", "handout.pdf")
    );
    let (pages, text) = text(&folder.path().join("handout.pdf"));
    assert_eq!(pages, 2);
    for words in [
        "fürPerpetuaQuill",
        "Klappenharfe,34Saiten",
        "EsDCBAsGF",
        "DisDCAisGisGF",
        "AlleKlappenlösen",
        "Bei4Gbeginnen",
        "Brilletragen",
    ] {
        assert!(text.contains(words), "{words} not in {text}");
    }
}

#[test]
fn every_built_in_harp_has_two_pages_of_either_paper() {
    for harp in ["pedal47", "pedal40", "lever38", "lever22"] {
        for (paper, height) in [("a4", 841.890), ("letter", 792.0)] {
            for language in ["en", "de", "fr"] {
                let words = [
                    "--harp",
                    harp,
                    "--paper",
                    paper,
                    "--language",
                    language,
                    "--out",
                    "h.pdf",
                ];
                let (folder, run) = told(&words);
                assert_eq!(run.code, Some(0), "{}", run.err);
                let document = Document::load(folder.path().join("h.pdf")).unwrap();
                assert_eq!(document.get_pages().len(), 2);
                let first = document.get_dictionary(document.get_pages()[&1]).unwrap();
                let sides = first
                    .get(b"MediaBox")
                    .and_then(lopdf::Object::as_array)
                    .unwrap();
                assert!((sides[3].as_float().unwrap() - height).abs() < 0.01);
                let root = document
                    .catalog()
                    .unwrap()
                    .get(b"Lang")
                    .unwrap()
                    .as_str()
                    .unwrap();
                assert_eq!(root, language.as_bytes());
            }
        }
    }
}

#[test]
fn programs_are_told_each_string_and_each_file() {
    let (folder, run) = told(&[
        "--order",
        "letters",
        "--language",
        "fr",
        "--out",
        "feuille.svg",
        "--json",
    ]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""));
    let told: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(
        told["files"],
        serde_json::json!(["feuille-1.svg", "feuille-2.svg"])
    );
    assert_eq!(
        (told["pages"].as_u64(), told["language"].as_str()),
        (Some(2), Some("fr"))
    );
    let strings = told["strings"].as_array().unwrap();
    assert_eq!(strings.len(), 47);
    let c4 = strings.iter().find(|one| one["string"] == "C4").unwrap();
    assert_eq!(
        (
            c4["name"].as_str(),
            c4["colour"].as_str(),
            c4["sounds"].as_str(),
            c4["tuner_shows"].as_str(),
            c4["moves"].as_bool()
        ),
        (
            Some("4do"),
            Some("red"),
            Some("do♭"),
            Some("si"),
            Some(true)
        )
    );
    for file in ["feuille-1.svg", "feuille-2.svg"] {
        let page = std::fs::read_to_string(folder.path().join(file)).unwrap();
        let document = roxmltree::Document::parse(&page).unwrap();
        assert_eq!(document.root_element().attribute("width"), Some("210mm"));
    }
}

#[test]
fn a_harp_in_a_file_and_one_in_the_diary_are_called_as_she_calls_them() {
    let folder = tempdir().unwrap();
    let printed = run(
        folder.path(),
        &["strings", "--harp", "lever26", "--toml"],
        &[],
    );
    std::fs::write(folder.path().join("cedar.toml"), &printed.out).unwrap();
    let own = run(
        folder.path(),
        &[
            "handout",
            "--harp",
            "cedar.toml",
            "--a4",
            "442",
            "--out",
            "own.pdf",
        ],
        &[],
    );
    assert_eq!(own.code, Some(0), "{}", own.err);
    let (_, words) = text(&folder.path().join("own.pdf"));
    assert!(
        words.contains("cedar:Leverharp,26strings,A=442Hz"),
        "{words}"
    );

    let taken = ["diary", "--diary", "diary.sqlite", "import", "-"];
    assert_eq!(run(folder.path(), &taken, WEEKS.as_bytes()).code, Some(0));
    let kept = [
        "handout",
        "--diary",
        "diary.sqlite",
        "--out",
        "kept.pdf",
        "--json",
    ];
    let kept = run(folder.path(), &kept, &[]);
    assert_eq!(kept.code, Some(0), "{}", kept.err);
    let told: Value = serde_json::from_str(&kept.out).unwrap();
    assert_eq!(told["strings"].as_array().unwrap().len(), 34);
    let name = told["harp"].as_str().unwrap();
    assert!(!name.is_empty());
    let again = [
        "handout",
        "--diary",
        "diary.sqlite",
        "--harp",
        name,
        "--out",
        "kept.pdf",
    ];
    assert_eq!(run(folder.path(), &again, &[]).code, Some(0));
    let none = [
        "handout",
        "--diary",
        "diary.sqlite",
        "--harp",
        "none",
        "--out",
        "kept.pdf",
    ];
    let none = run(folder.path(), &none, &[]);
    assert_eq!(none.code, Some(2));
    assert!(none.err.contains("knows no harp"), "{}", none.err);
}

#[test]
fn what_cannot_be_is_said() {
    for (words, expected) in [
        (&["--out", "h.docx"][..], "ends in .pdf or .svg"),
        (&[], "--out"),
        (
            &["--out", "h.pdf", "--language", "it"],
            "the languages are en, de and fr",
        ),
        (
            &["--out", "h.pdf", "--harp", "semitones"],
            "for a harp with pedals or levers",
        ),
        (&["--out", "h.pdf", "--open", "Eb"], "open"),
        (
            &["--out", "h.pdf", "--order", "sideways"],
            "an order is a string",
        ),
        (&["--out", "h.pdf", "--harp", "no-such"], "no-such"),
    ] {
        let (folder, run) = told(words);
        assert_eq!(run.code, Some(2), "{words:?} {}", run.err);
        assert!(run.err.contains(expected), "{words:?}: {}", run.err);
        assert!(!folder.path().join("h.pdf").exists());
    }
}
