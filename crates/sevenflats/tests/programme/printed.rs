//! The printed evening read back: by lopdf, an outside reader of PDF, and roxmltree.

use std::path::Path;

use lopdf::{Dictionary, Document, Object};

use crate::command::run;
use crate::folder;

fn printed(words: &[&str], name: &str) -> (tempfile::TempDir, Document) {
    let out = tempfile::tempdir().unwrap();
    let path = out.path().join(name);
    let words = [words, &["--sheet", path.to_str().unwrap()]].concat();
    let run = run(&folder(), &words, &[]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""), "{words:?}");
    let document = Document::load(&path).unwrap();
    (out, document)
}

/// The text of some pages without blanks, which a reader may see otherwise.
fn text(document: &Document, pages: &[u32]) -> String {
    let text = document.extract_text(pages).unwrap();
    text.chars().filter(|sign| !sign.is_whitespace()).collect()
}

fn check(document: &Document, page: u32, expected: &[&str]) {
    let text = text(document, &[page]);
    for words in expected {
        let words: String = words.split_whitespace().collect();
        assert!(text.contains(&words), "{words} not in {text}");
    }
}

#[test]
fn the_evening_and_each_piece_have_a_page() {
    let (_out, document) = printed(&["programme", "evening.toml"], "evening.pdf");
    assert_eq!(document.get_pages().len(), 4);
    check(
        &document,
        1,
        &[
            "An Evening by the Water",
            "Pedal harp, 47 strings, A = 440 Hz",
            "7C from C♯ to C♭",
            "7D from D♮ to D♭",
            "the whole harp to A = 442 Hz",
            "Turning up on stage",
        ],
    );
    // SMuFL: lowered, centred, raised, and the divider before the right foot; D C B | E F G A
    check(
        &document,
        1,
        &["\u{e681}\u{e682}\u{e681}\u{e683}\u{e681}\u{e682}\u{e681}\u{e681}"],
    );
    check(
        &document,
        1,
        &["\u{e680}\u{e681}\u{e680}\u{e683}\u{e680}\u{e681}\u{e681}\u{e680}"],
    );
    check(
        &document,
        2,
        &["Lantern Ferry", "Ottoline Brisk", "7C to C♯"],
    );
    check(
        &document,
        3,
        &[
            "Salt Meadow",
            "Exposed: 3A, 2E",
            "B + 6",
            "[B]+6",
            "wait for the bell",
        ],
    );
}

#[test]
fn pages_are_a4_and_fonts_lie_inside() {
    let (_out, document) = printed(&["programme", "evening.toml"], "evening.pdf");
    for page in document.get_pages().values() {
        let page = document.get_dictionary(*page).unwrap();
        let sides = page.get(b"MediaBox").and_then(Object::as_array).unwrap();
        let sides: Vec<f32> = sides.iter().map(|side| side.as_float().unwrap()).collect();
        // ISO 216: 210 × 297 mm
        assert!(
            (sides[2] - 595.276).abs() < 0.01 && (sides[3] - 841.890).abs() < 0.01,
            "{sides:?}"
        );
    }
    let objects = document
        .objects
        .values()
        .filter_map(|object| object.as_dict().ok());
    let is_font = |dictionary: &&Dictionary| {
        let kind = dictionary.get(b"Type").and_then(Object::as_name);
        kind.is_ok_and(|kind| kind == b"FontDescriptor")
    };
    let fonts: Vec<&Dictionary> = objects.filter(is_font).collect();
    assert_eq!(fonts.len(), 4);
    assert!(
        fonts
            .iter()
            .all(|font| font.has(b"FontFile2") || font.has(b"FontFile3"))
    );
}

#[test]
fn letters_and_large_print_are_hers_to_choose() {
    let (_out, letters) = printed(&["programme", "evening.toml", "--letters"], "l.pdf");
    let all = text(&letters, &[1, 2, 3, 4]);
    assert!(!all.contains('\u{e681}') && all.contains("E♭FGA♭"), "{all}");
    let (_out, large) = printed(
        &["programme", "evening.toml", "--large", "--paper", "letter"],
        "g.pdf",
    );
    assert!(large.get_pages().len() > 4);
    let first = large.get_dictionary(large.get_pages()[&1]).unwrap();
    let sides = first.get(b"MediaBox").and_then(Object::as_array).unwrap();
    assert!((sides[3].as_float().unwrap() - 792.0).abs() < 0.01);
}

#[test]
fn a_score_alone_is_printed_too() {
    let words = ["plan", "the-weir.musicxml", "--a4", "442"];
    let (_out, document) = printed(&words, "weir.pdf");
    assert_eq!(document.get_pages().len(), 1);
    check(&document, 1, &["The Weir", "A = 442 Hz", "7D to D♭"]);
}

#[test]
fn svg_has_a_file_for_each_page() {
    let out = tempfile::tempdir().unwrap();
    let path = out.path().join("evening.svg");
    let words = [
        "programme",
        "evening.toml",
        "--sheet",
        path.to_str().unwrap(),
    ];
    assert_eq!(run(&folder(), &words, &[]).code, Some(0));
    for number in 1..=4 {
        let page = out.path().join(format!("evening-{number}.svg"));
        let page = std::fs::read_to_string(page).unwrap();
        let document = roxmltree::Document::parse(&page).unwrap();
        assert_eq!(document.root_element().attribute("width"), Some("210mm"));
        assert!(page.contains("@font-face"));
    }
}

#[test]
fn levers_are_printed_by_string() {
    let scores = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/plan/scores");
    let score = scores.join("lever-right-hand.musicxml");
    let words = ["plan", score.to_str().unwrap(), "--harp", "lever34"];
    let (_out, document) = printed(&words, "levers.pdf");
    // as the plan says it: open in C, nothing on, F above middle C up in bar 3
    check(
        &document,
        1,
        &[
            "Lever harp, 34 strings",
            "Open tuning C",
            "Levers on none",
            "3F♯",
        ],
    );
}
