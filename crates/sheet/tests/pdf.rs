//! The PDF read back by an outside reader, lopdf: page sizes, fonts, text, diagrams.
#![cfg(feature = "pdf")]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot prepare its case should stop"
)]

#[path = "made/sheets.rs"]
mod sheets;

use lopdf::{Dictionary, Document, Object};
use pitch::Tongue;
use sheet::{Diagrams, Page, Paper, Style, evening_pages, pdf, piece_pages};
use sheets::{evening, harbour, long};

fn read(pages: &[Page]) -> Document {
    let bytes = pdf(pages, "Title ♭", Tongue::English).unwrap();
    Document::load_mem(&bytes).unwrap()
}

/// All text without blanks, which a reader may see otherwise.
fn text(document: &Document) -> String {
    let pages: Vec<u32> = document.get_pages().keys().copied().collect();
    let text = document.extract_text(&pages).unwrap();
    text.chars().filter(|sign| !sign.is_whitespace()).collect()
}

fn fonts(document: &Document) -> Vec<&Dictionary> {
    let objects = document
        .objects
        .values()
        .filter_map(|object| object.as_dict().ok());
    objects
        .filter(|dictionary| {
            let kind = dictionary.get(b"Type").and_then(Object::as_name);
            kind.is_ok_and(|kind| kind == b"FontDescriptor")
        })
        .collect()
}

#[test]
fn pages_have_the_papers_size() {
    for (paper, width, height) in [(Paper::A4, 595.276, 841.890), (Paper::Letter, 612.0, 792.0)] {
        let style = Style {
            paper,
            ..Style::default()
        };
        let document = read(&piece_pages(&harbour(), &style));
        for page in document.get_pages().values() {
            let page = document.get_dictionary(*page).unwrap();
            let sides = page.get(b"MediaBox").and_then(Object::as_array).unwrap();
            let sides: Vec<f32> = sides.iter().map(|side| side.as_float().unwrap()).collect();
            assert!((sides[2] - sides[0] - width).abs() < 0.01, "{sides:?}");
            assert!((sides[3] - sides[1] - height).abs() < 0.01, "{sides:?}");
        }
    }
}

#[test]
fn every_font_is_embedded_in_part() {
    let document = read(&piece_pages(&harbour(), &Style::default()));
    let fonts = fonts(&document);
    assert_eq!(fonts.len(), 4);
    for font in fonts {
        let name = font.get(b"FontName").and_then(Object::as_name).unwrap();
        let name = String::from_utf8_lossy(name);
        // ISO 32000-1, 9.6.4: six capitals and a plus before the name of a part of a font
        let (tag, rest) = name.split_once('+').unwrap();
        assert!(
            tag.len() == 6 && tag.chars().all(|sign| sign.is_ascii_uppercase()),
            "{name}"
        );
        assert!(rest.starts_with("Sevenflats"), "{name}");
        assert!(font.has(b"FontFile2") || font.has(b"FontFile3"), "{name}");
    }
}

#[test]
fn text_stays_text() {
    let document = read(&piece_pages(&harbour(), &Style::default()));
    let text = text(&document);
    for words in [
        "HarbourLightsatLowWater",
        "OttolineBrisk",
        "A=442Hz",
        "7CtoC♯,7DtoD♭",
        "E♮2ndtime",
        "3G♯as3A♭",
        "2½",
        // three flats: D C B♭ | E♭ F G A♭
        "\u{e681}\u{e681}\u{e680}\u{e683}\u{e680}\u{e681}\u{e681}\u{e680}",
    ] {
        assert!(text.contains(words), "{words} not in {text}");
    }
    let count = |sign: char| text.chars().filter(|other| *other == sign).count();
    // the opening and two marks
    assert_eq!(count('\u{e683}'), 3);
    assert_eq!(
        count('\u{e680}') + count('\u{e681}') + count('\u{e682}'),
        3 * 7
    );
}

#[test]
fn letters_take_the_place_of_signs_where_she_wants_them() {
    let style = Style {
        diagrams: Diagrams::Letters,
        naming: "german".parse().unwrap(),
        tongue: Tongue::German,
        ..Style::default()
    };
    let document = read(&evening_pages(&evening(), &style));
    let text = text(&document);
    assert!(text.contains("EsFGAsDCB"), "{text}");
    assert!(!text.contains('\u{e683}'));
    // upright and italic; no sign of a diagram, no heavy figure
    assert_eq!(fonts(&document).len(), 2);
}

#[test]
fn sixty_pages_are_one_file_and_the_same_each_time() {
    let pages = piece_pages(&long(2400), &Style::default());
    let first = pdf(&pages, "The Long Shore", Tongue::English).unwrap();
    assert_eq!(
        first,
        pdf(&pages, "The Long Shore", Tongue::English).unwrap()
    );
    assert_eq!(
        Document::load_mem(&first).unwrap().get_pages().len(),
        pages.len()
    );
    assert!(
        first.len() < 40_000 + 6_000 * pages.len(),
        "{} bytes",
        first.len()
    );
}

#[test]
fn names_in_other_scripts_are_text_and_a_sign_no_font_has_is_no_error() {
    let mut piece = harbour();
    piece.title = "漢 Рахманинов".to_owned();
    let text = text(&read(&piece_pages(&piece, &Style::default())));
    assert!(text.contains("Рахманинов"), "{text}");
}

#[test]
fn a_handout_is_text_and_its_strings_are_red_and_blue() {
    let harp = harp::Harp::named("pedal47").unwrap();
    let handout = sheet::Handout::of(&harp, pitch::ReferencePitch::A440).unwrap();
    let style = Style {
        naming: "german".parse().unwrap(),
        tongue: Tongue::German,
        ..Style::default()
    };
    let document = read(&sheet::handout_pages(&handout, &style));
    assert_eq!(document.get_pages().len(), 2);
    let text = text(&document);
    for words in [
        "1H",
        "EsDesCesBAsGesFes",
        "DisCisHAisGisFisE",
        "D♯C♯BA♯G♯F♯E",
        "Windungennebeneinander",
    ] {
        assert!(text.contains(words), "{words} not in {text}");
    }
    // ISO 32000-1, table 74: a stroking colour is set by RG, by SC or by SCN, parts from 0 to 1
    let content = document.get_page_content(document.get_pages()[&1]);
    let operations = lopdf::content::Content::decode(&content)
        .unwrap()
        .operations;
    let set = operations
        .iter()
        .filter(|one| matches!(one.operator.as_str(), "RG" | "SC" | "SCN"));
    let set: Vec<Vec<f32>> = set
        .map(|one| {
            one.operands
                .iter()
                .filter_map(|part| part.as_float().ok())
                .collect()
        })
        .collect();
    for expected in [[0xb3, 0x24, 0x1c], [0x1d, 0x3c, 0x78]] {
        let is = |found: &Vec<f32>| {
            found.len() == 3
                && found
                    .iter()
                    .zip(expected)
                    .all(|(part, byte)| (part * 255.0 - f32::from(byte as u8)).abs() < 0.6)
        };
        assert!(set.iter().any(is), "{expected:?} not in {set:?}");
    }
}
