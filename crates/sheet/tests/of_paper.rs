//! A part on paper as a sheet: what she pencilled is what is printed.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot prepare its case should stop"
)]

use pedals::PaperPart;
use pitch::Letter;
use sheet::{Head, Item, PieceSheet, RemarkKind, Style, piece_pages};

/// Our own invention.
const PART: &str = "opening B♭ E♭\n7C = C♯\nexposed 3A\n5 F♯\n9 [A] F | B\n9:3 C♯\n[B]+6 E -- wait\n\
                    movement Lament\n1 F♯\n2 [C] F\n";

fn made() -> PieceSheet {
    let read = PaperPart::read(PART);
    assert_eq!(read.errors, []);
    PieceSheet::of_paper(&read.part, Head::default())
}

fn texts(sheet: &PieceSheet) -> String {
    let pages = piece_pages(sheet, &Style::default());
    let items = pages.iter().flat_map(|page| &page.items);
    let texts = items.filter_map(|item| match item {
        Item::Text { text, .. } => Some(text.as_str()),
        _ => None,
    });
    texts.collect::<Vec<_>>().join(" ")
}

#[test]
fn bars_and_beats_stand_as_they_were_written() {
    let sheet = made();
    let bars: Vec<(&str, Vec<&str>)> = sheet.movements[0]
        .bars
        .iter()
        .map(|bar| {
            let beats = bar.beats.iter().map(|beat| beat.beat.as_str());
            (bar.bar.label.as_str(), beats.collect())
        })
        .collect();
    let expected = [("5", vec![""]), ("9", vec!["", "3"]), ("B + 6", vec![""])];
    assert_eq!(bars, expected);
    let left = &sheet.movements[0].bars[1].beats[1].left;
    assert_eq!(left[0].letter, Letter::C);
}

#[test]
fn a_mark_shows_the_setting_for_its_first_notes() {
    let sheet = made();
    let [mark] = sheet.movements[0].landmarks.as_slice() else {
        panic!("{:?}", sheet.movements[0].landmarks);
    };
    let stands = |letter| mark.setting.get(letter).unwrap().semitones();
    // F is back and B up; C moves on the third beat only
    assert_eq!(
        [Letter::F, Letter::B, Letter::C].map(stands),
        [0, 0, 0],
        "{mark:?}"
    );
    assert_eq!(
        sheet.movements[1]
            .opening
            .get(Letter::C)
            .unwrap()
            .semitones(),
        1
    );
}

#[test]
fn notes_exposed_strings_and_movements_are_printed() {
    let sheet = made();
    assert_eq!(sheet.remarks.len(), 2);
    assert!(matches!(&sheet.remarks[0].what, RemarkKind::Exposed(strings) if strings.len() == 1));
    let text = texts(&sheet);
    for words in ["Exposed: 3A", "[B]+6 wait", "Lament", "7C to C♯"] {
        let found = text.replace('\u{a0}', " ").contains(words);
        assert!(found, "{words} not in {text}");
    }
}
