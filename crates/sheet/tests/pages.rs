//! Pages as they are laid out: nothing lost, nothing outside the margins, no bar split.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot prepare its case should stop"
)]

#[path = "made/sheets.rs"]
mod sheets;

use harp::Setting;
use pitch::{Letter, Tongue};
use proptest::prelude::*;
use sheet::{
    BarChanges, BeatChanges, Diagrams, Face, FontsIn, Item, MovementSheet, Page, Paper, Pencilled,
    PieceSheet, Print, Style, evening_pages, piece_pages, svg,
};
use sheets::{bar, changes, evening, harbour, key, long, still};

fn texts(page: &Page) -> impl Iterator<Item = &str> {
    page.items.iter().filter_map(|item| match item {
        Item::Text { text, .. } => Some(text.as_str()),
        _ => None,
    })
}

/// All text of all pages, blanks between; blanks that hold words together as blanks.
fn all(pages: &[Page]) -> String {
    let all: Vec<&str> = pages.iter().flat_map(texts).collect();
    all.join(" ").replace('\u{a0}', " ")
}

fn styles() -> Vec<Style> {
    let mut styles = Vec::new();
    for paper in [Paper::A4, Paper::Letter] {
        for print in [Print::Usual, Print::Large] {
            for diagrams in [Diagrams::Signs, Diagrams::Letters] {
                for tongue in Tongue::ALL {
                    let naming = match tongue {
                        Tongue::English => "english",
                        Tongue::German => "german",
                        Tongue::French => "scientific,solfege",
                    };
                    styles.push(Style {
                        paper,
                        print,
                        diagrams,
                        naming: naming.parse().unwrap(),
                        tongue,
                    });
                }
            }
        }
    }
    styles
}

#[track_caller]
fn check_inside(pages: &[Page]) {
    for page in pages {
        let (width, height) = page.paper.size_pt();
        // a ring may hang out of the margin, by less than 4 mm
        let side = 28.0;
        let inside =
            |x: f64, y: f64| x >= side && x <= width - side && y >= 36.0 && y <= height - 36.0;
        for item in &page.items {
            let good = match item {
                Item::Text {
                    x,
                    y,
                    size,
                    face,
                    text,
                } => inside(*x, *y) && x + face.width(text, *size) <= width - side,
                Item::Line { from, to, .. } => inside(from.0, from.1) && inside(to.0, to.1),
                Item::Ring { centre, radius, .. } => {
                    inside(centre.0 - radius.0, centre.1 - radius.1)
                        && inside(centre.0 + radius.0, centre.1 + radius.1)
                }
            };
            assert!(good, "outside the margins: {item:?}");
        }
    }
}

#[test]
fn a_piece_holds_all_it_should_in_every_style() {
    for style in styles() {
        let pages = piece_pages(&harbour(), &style);
        check_inside(&pages);
        let text = all(&pages);
        for words in [
            "Ottoline Brisk",
            "442 Hz",
            "17",
            "33",
            "2½",
            "5A is a new string.",
        ] {
            assert!(text.contains(words), "{words} not in {text}");
        }
        let rings = |page: &Page| {
            page.items
                .iter()
                .filter(|item| matches!(item, Item::Ring { .. }))
                .count()
        };
        // from three flats to one: A and E moved; from one flat to one sharp: B and F
        assert_eq!(pages.iter().map(rings).sum::<usize>(), 4);
    }
}

#[track_caller]
fn check_words(naming: &str, tongue: Tongue, expected: &[&str]) {
    let style = Style {
        naming: naming.parse().unwrap(),
        tongue,
        diagrams: Diagrams::Letters,
        ..Style::default()
    };
    let text = all(&piece_pages(&harbour(), &style));
    for words in expected {
        assert!(text.contains(words), "{words} not in {text}");
    }
}

#[test]
fn strings_notes_and_words_are_in_her_languages() {
    check_words(
        "harp",
        Tongue::English,
        &[
            "Opening pedals",
            "7C to C♯, 7D to D♭",
            "E♭ F G A♭",
            "E♮ 2nd time",
            "3G♯ as 3A♭",
            "4A♯: the feet are not fast enough",
        ],
    );
    check_words(
        "german",
        Tongue::German,
        &[
            "Pedale am Anfang",
            "7C auf Cis, 7D auf Des",
            "Es F G As",
            "D C B",
            "H♮",
            "E♮ 2. Mal",
            "Takt 9",
        ],
    );
    check_words(
        "scientific,solfege",
        Tongue::French,
        &[
            "Pédales au début",
            "do1 en do♯, ré1 en ré♭",
            "mi♭ fa sol la♭",
            "mi♮ 2e fois",
        ],
    );
}

#[test]
fn a_piece_without_changes_says_so() {
    for style in styles() {
        let pages = piece_pages(&still(), &style);
        assert_eq!(pages.len(), 1);
        check_inside(&pages);
    }
    assert!(all(&piece_pages(&still(), &Style::default())).contains("No pedal moves."));
    // nothing known at all is still a page with its number
    let empty = piece_pages(&PieceSheet::default(), &Style::default());
    assert_eq!(all(&empty), "Untitled A = 440 Hz 1");
}

#[test]
fn long_titles_and_names_are_broken_not_cut() {
    let title =
        "Sixteen Very Leisurely Variations on a Melody Heard across the Water from the Other Bank "
            .repeat(4);
    for style in styles() {
        let mut piece = harbour();
        piece.title = title.clone();
        piece.composer = "Incomprehensibilissimus".repeat(6);
        piece.movements[0].landmarks[0].mark = "Poco meno".to_owned();
        let pages = piece_pages(&piece, &style);
        check_inside(&pages);
        assert!(all(&pages).contains("Other Bank"));
        let mut evening = evening();
        evening.pieces[0] = piece;
        check_inside(&evening_pages(&evening, &style));
    }
}

#[test]
fn every_page_has_the_title_and_its_number() {
    let piece = long(2400);
    let pages = piece_pages(&piece, &Style::default());
    assert!(pages.len() >= 60, "{} pages", pages.len());
    check_inside(&pages);
    for (at, page) in pages.iter().enumerate() {
        let number = format!("{} / {}", at + 1, pages.len());
        assert!(texts(page).any(|text| text == number), "{number}");
        assert!(texts(page).any(|text| text == piece.title));
        assert_eq!(page.title, piece.title);
    }
}

#[test]
fn large_print_is_twice_the_size_with_fewer_things_on_a_page() {
    let large = Style {
        print: Print::Large,
        ..Style::default()
    };
    let size = |pages: &[Page]| {
        let letter = pages
            .iter()
            .flat_map(|page| &page.items)
            .find_map(|item| match item {
                Item::Text { size, text, .. } if text == "C♯" => Some(*size),
                _ => None,
            });
        letter.unwrap()
    };
    let (usual, large) = (
        piece_pages(&long(60), &Style::default()),
        piece_pages(&long(60), &large),
    );
    assert!(
        large.len() > 2 * usual.len(),
        "{} {}",
        usual.len(),
        large.len()
    );
    let (usual, large) = (
        piece_pages(&harbour(), &Style::default()),
        piece_pages(
            &harbour(),
            &Style {
                print: Print::Large,
                ..Style::default()
            },
        ),
    );
    assert_eq!(size(&large), 2.0 * size(&usual));
}

#[test]
fn the_evening_stands_on_one_page_and_says_what_is_turned() {
    let pages = evening_pages(&evening(), &Style::default());
    assert_eq!(pages.len(), 1);
    check_inside(&pages);
    let text = all(&pages);
    for words in [
        "1. Ottoline Brisk Harbour Lights at Low Water",
        "Concert harp, A = 442 Hz By key 7C to C♯, 7D to D♭",
        "Before this piece the whole harp to A = 440 Hz, 7C from C♯ to C♮",
    ] {
        assert!(text.contains(words), "{words} not in {text}");
    }
    // 7D keeps its pitch: it is not named among what is turned
    assert!(!text.contains("7D from"), "{text}");
    let mut many = evening();
    many.pieces = std::iter::repeat_with(harbour).take(9).collect();
    many.pieces[1].before.follows = true;
    assert_eq!(evening_pages(&many, &Style::default()).len(), 1);
    assert!(all(&evening_pages(&many, &Style::default())).contains("nothing to turn"));
    let large = Style {
        print: Print::Large,
        ..Style::default()
    };
    let pages = evening_pages(&many, &large);
    assert!(pages.len() >= 3, "{}", pages.len());
    check_inside(&pages);
}

#[test]
fn every_svg_is_well_formed_and_of_its_papers_size() {
    for style in styles() {
        for page in piece_pages(&harbour(), &style)
            .iter()
            .chain(&evening_pages(&evening(), &style))
        {
            let text = svg(page, FontsIn::TheViewer);
            let document = roxmltree::Document::parse(&text).unwrap();
            let root = document.root_element();
            let width = match style.paper {
                Paper::A4 => "210mm",
                Paper::Letter => "8.5in",
            };
            assert_eq!(root.attribute("width"), Some(width));
            let words = document
                .descendants()
                .filter(|node| node.has_tag_name("text"));
            let words: Vec<&str> = words.filter_map(|node| node.text()).collect();
            assert_eq!(words, texts(page).collect::<Vec<_>>());
        }
    }
    let mut odd = still();
    odd.title = "<&\"' ]]> Œuvre".to_owned();
    let page = &piece_pages(&odd, &Style::default())[0];
    let text = svg(page, FontsIn::ThePage);
    let document = roxmltree::Document::parse(&text).unwrap();
    assert!(
        document
            .descendants()
            .any(|node| node.text() == Some(odd.title.as_str()))
    );
    // each face that is used once, the others not
    assert_eq!(text.matches("@font-face").count(), 3);
    assert!(Face::ALL.iter().all(|face| face.bytes().len() < 100_000));
}

#[test]
fn a_bar_that_fills_pages_is_printed_whole() {
    let mut piece = still();
    let beat = BeatChanges {
        beat: "1".to_owned(),
        right: changes(1, "1", "F# G A#", "").beats[0].right.clone(),
        left: Vec::new(),
    };
    piece.movements[0].bars = vec![BarChanges {
        bar: bar(3),
        beats: vec![beat; 90],
    }];
    for print in [Print::Usual, Print::Large] {
        let pages = piece_pages(
            &piece,
            &Style {
                print,
                ..Style::default()
            },
        );
        check_inside(&pages);
        assert_eq!(all(&pages).matches("F♯").count(), 90);
    }
}

fn some_changes() -> impl Strategy<Value = Vec<Pencilled>> {
    let one = (0..4_usize, 0..3_usize).prop_map(|(letter, to)| Pencilled {
        string: None,
        letter: [Letter::E, Letter::F, Letter::G, Letter::A][letter],
        to: pitch::Alteration::ALL[to],
        only: Vec::new(),
    });
    prop::collection::vec(one, 0..4)
}

fn some_movement() -> impl Strategy<Value = MovementSheet> {
    let beat = (some_changes(), some_changes()).prop_map(|(right, left)| BeatChanges {
        beat: "1".to_owned(),
        right,
        left,
    });
    let bars = prop::collection::vec((1..9_u32, prop::collection::vec(beat, 1..12)), 0..25);
    bars.prop_map(|bars| {
        let mut order = 0;
        let bars = bars.into_iter().map(|(step, beats)| {
            order += step;
            BarChanges {
                bar: bar(order),
                beats,
            }
        });
        MovementSheet {
            opening: key(0),
            bars: bars.collect(),
            ..MovementSheet::default()
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn every_change_is_printed_once_and_no_bar_is_split(movement in some_movement(), large in any::<bool>()) {
        let print = if large { Print::Large } else { Print::Usual };
        let style = Style { print, diagrams: Diagrams::Signs, ..Style::default() };
        let unit = if large { 2.0 } else { 1.0 };
        let piece = PieceSheet { title: "T".to_owned(), movements: vec![movement.clone()], ..PieceSheet::default() };
        let pages = piece_pages(&piece, &style);
        check_inside(&pages);
        let letters = |page: &Page| page.items.iter().filter(|item| {
            matches!(item, Item::Text { size, face: Face::Text, .. } if *size == 13.0 * unit)
        }).count();
        let asked: usize = movement.bars.iter().flat_map(|bar| &bar.beats).map(|beat| beat.right.len() + beat.left.len()).sum();
        prop_assert_eq!(pages.iter().map(letters).sum::<usize>(), asked);
        // the bars whose numbers a page has own exactly the changes on it
        let mut bars = movement.bars.iter();
        for page in &pages {
            let numbers = page.items.iter().filter(|item| matches!(item, Item::Text { face: Face::Semibold, .. })).count();
            let owned: usize = bars.by_ref().take(numbers).flat_map(|bar| &bar.beats).map(|beat| beat.right.len() + beat.left.len()).sum();
            prop_assert_eq!(letters(page), owned);
        }
    }

    #[test]
    fn any_words_can_be_printed(title in "\\PC{0,60}", remark in "\\PC{0,200}") {
        let mut piece = harbour();
        piece.title = title;
        piece.remarks[2].what = sheet::RemarkKind::Caution(remark);
        for page in piece_pages(&piece, &Style::default()) {
            let text = svg(&page, FontsIn::TheViewer);
            prop_assert!(roxmltree::Document::parse(&text).is_ok());
        }
    }

    #[test]
    fn a_diagram_has_a_sign_for_each_pedal(at in 0..2187_usize) {
        let mut opening = Setting::default();
        let mut rest = at;
        let mut expected = String::new();
        for letter in Setting::PEDAL_ORDER {
            let alteration = pitch::Alteration::ALL[rest % 3];
            rest /= 3;
            opening = opening.with(letter, alteration);
            // SMuFL: raised, centred, lowered; the divider before the right foot's first
            if letter == Letter::E { expected.push('\u{e683}'); }
            expected.push(['\u{e680}', '\u{e681}', '\u{e682}'][alteration as usize]);
        }
        let mut piece = still();
        piece.movements[0].opening = opening;
        piece.movements[0].bars = vec![changes(2, "1", "A", "")];
        prop_assert!(all(&piece_pages(&piece, &Style::default())).contains(&expected));
    }
}
