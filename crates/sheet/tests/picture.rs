//! Whole pictures: read back by an XML parser from outside the project (`roxmltree`).

#![allow(clippy::unwrap_used, reason = "a test that cannot be set up must stop")]

use harp::{BUILT_IN, Harp, Naming, Numbers};
use pitch::Tongue;
use proptest::prelude::*;
use roxmltree::{Document, Node};
use sheet::{Mark, Picture, Side, Size, Tone, draw, said, title};

const TONES: [Tone; 2] = [Tone::Light, Tone::Dark];

/// A picture with every mark in it, its numbers invented.
fn every_mark(harp: &str) -> Picture {
    let mut picture = Picture::of(&Harp::named(harp).unwrap());
    picture.title = "Pedals up, A = 442".to_owned();
    let count = picture.strings.len();
    for (place, string) in picture.strings.iter_mut().enumerate() {
        let (cents, u95_cents) = (((place * 37) % 121) as f64 - 60.0, 0.5 + (place % 7) as f64);
        string.before_cents = Some(-40.0);
        string.mark = match place % 9 {
            0 => Mark::NotYetHeard,
            1 => Mark::Off { cents, u95_cents },
            2 => Mark::InTune {
                cents: 1.0,
                u95_cents,
            },
            3 => Mark::Near {
                cents: -1.0,
                u95_cents,
            },
            4 => Mark::Moving {
                cents,
                trail_cents: vec![-50.0, -20.0, 8.0],
            },
            5 => Mark::Skipped,
            6 => Mark::Broken,
            7 => Mark::New {
                cents: Some(-480.0),
            },
            _ => Mark::Again {
                cents: 0.4,
                u95_cents,
            },
        };
    }
    picture.present = Some(picture.strings[count / 2].name);
    picture
}

/// The picture in a language, with its names of notes.
fn in_tongue(mut picture: Picture, tongue: Tongue) -> Picture {
    picture.title = title("", harp::HarpKind::Pedal, true, 442.5, tongue);
    (picture.tongue, picture.naming.language) = (tongue, tongue.notes());
    picture
}

/// Every picture of [`every_mark`]: all built-in harps, sizes, tones, sides, namings and languages.
fn all(check: impl Fn(&str, &Picture, Size, &Document<'_>)) {
    let mut drawn = 0;
    for built_in in &BUILT_IN {
        for (side, names, tongue) in [
            (Side::Player, Numbers::Harp, Tongue::English),
            (Side::Other, Numbers::Scientific, Tongue::English),
            (Side::Player, Numbers::Scientific, Tongue::German),
            (Side::Other, Numbers::Harp, Tongue::German),
            (Side::Player, Numbers::Harp, Tongue::French),
            (Side::Other, Numbers::Scientific, Tongue::French),
        ] {
            let mut picture = in_tongue(every_mark(built_in.name), tongue);
            (picture.side, picture.naming.numbers) = (side, names);
            for size in Size::ALL {
                // words do not know the tone
                for tone in &TONES[..if tongue == Tongue::English { 2 } else { 1 }] {
                    let svg = draw(&picture, size, *tone);
                    check(
                        built_in.name,
                        &picture,
                        size,
                        &Document::parse(&svg).unwrap(),
                    );
                    drawn += 1;
                }
            }
        }
    }
    assert!(drawn >= 320, "only {drawn} pictures");
}

fn texts<'a>(document: &'a Document<'_>) -> impl Iterator<Item = Node<'a, 'a>> {
    document
        .descendants()
        .filter(|node| node.has_tag_name("text"))
}

fn number(node: &Node<'_, '_>, key: &str) -> f64 {
    node.attribute(key).unwrap().parse().unwrap()
}

#[test]
fn a_screen_reader_finds_an_image_with_a_title_and_the_account() {
    all(|_, picture, _, document| {
        let root = document.root_element();
        assert_eq!(root.attribute("role"), Some("img"));
        let title = root.attribute("aria-label").unwrap();
        assert!(!title.is_empty());
        // SVG 2, 'title' element: the first child, for what reads it as SVG 1.1
        let first: Vec<Node<'_, '_>> = root.children().filter(Node::is_element).take(2).collect();
        assert_eq!(first[0].tag_name().name(), "title");
        assert_eq!(first[0].text(), Some(title));
        assert_eq!(first[1].tag_name().name(), "desc");
        let account = document
            .descendants()
            .find(|node| node.tag_name().name() == "desc")
            .unwrap();
        assert!(account.text().unwrap().starts_with(&said(picture)));
        // typical, typisch, typiques
        assert!(account.text().unwrap().contains("typi"));
        assert_eq!(root.attribute("lang"), Some(picture.tongue.code()));
    });
}

#[test]
fn a_picture_fetches_nothing_and_runs_nothing() {
    let allowed = [
        "svg", "title", "desc", "rect", "g", "path", "line", "circle", "text",
    ];
    all(|_, _, _, document| {
        for node in document.descendants().filter(Node::is_element) {
            let tag = node.tag_name().name();
            assert!(allowed.contains(&tag), "{tag}");
            for attribute in node.attributes() {
                let (key, value) = (attribute.name(), attribute.value());
                assert_ne!(key, "id", "two pictures in one page would share it");
                assert!(!key.starts_with("on") && !key.contains("href"), "{key}");
                assert!(
                    !value.contains("url(") && !value.contains("//"),
                    "{key}={value}"
                );
            }
        }
    });
}

#[test]
fn every_c_and_f_is_lettered_in_one_naming_and_not_the_other() {
    all(|name, picture, _, document| {
        let words: Vec<&str> = texts(document).filter_map(|node| node.text()).collect();
        let numbers = match picture.naming.numbers {
            Numbers::Harp => Numbers::Scientific,
            Numbers::Scientific => Numbers::Harp,
        };
        let other = Naming {
            numbers,
            ..picture.naming
        };
        let own: Vec<String> = picture
            .strings
            .iter()
            .map(|s| picture.name_of(s.name))
            .collect();
        for string in &picture.strings {
            let letter = string.name.letter.as_char();
            if !string.name.sharp && (letter == 'C' || letter == 'F') {
                let lettered = picture.name_of(string.name);
                assert!(words.contains(&lettered.as_str()), "{name}: {lettered}");
            }
            let foreign = other.string(string.name);
            if !own.contains(&foreign) {
                assert!(!words.contains(&foreign.as_str()), "{name}: {foreign}");
            }
        }
    });
}

/// Width of a letter over the size of its type, generously: no font is at hand to measure.
const ADVANCE: f64 = 0.52;

#[test]
fn words_and_marks_stay_on_the_canvas() {
    all(|name, _, size, document| {
        let (width, height) = size.extent();
        for text in texts(document) {
            let letters = text.text().unwrap().chars().count() as f64;
            let long = ADVANCE * letters * number(&text, "font-size");
            let left = match text.attribute("text-anchor") {
                Some("middle") => number(&text, "x") - 0.5 * long,
                Some("end") => number(&text, "x") - long,
                _ => number(&text, "x"),
            };
            let words = text.text().unwrap();
            assert!(
                left >= 0.0 && left + long <= width,
                "{name} {size:?}: {words}"
            );
            let y = number(&text, "y");
            assert!(
                y >= number(&text, "font-size") * 0.7 && y <= height,
                "{name} {size:?}: {words}"
            );
        }
        for circle in document
            .descendants()
            .filter(|node| node.has_tag_name("circle"))
        {
            let [x, y, r] = ["cx", "cy", "r"].map(|key| number(&circle, key));
            assert!(x - r >= 0.0 && x + r <= width, "{name} {size:?}");
            assert!(y - r >= 0.0 && y + r <= height, "{name} {size:?}");
        }
        for rect in document
            .descendants()
            .filter(|node| node.has_tag_name("rect"))
            .skip(1)
        {
            let [y, tall] = ["y", "height"].map(|key| number(&rect, key));
            assert!(
                y >= 0.0 && y + tall <= height,
                "{name} {size:?}: column or foot at {y}"
            );
        }
    });
}

#[test]
fn no_words_lie_on_other_words() {
    all(|name, _, size, document| {
        let boxes: Vec<(f64, f64, f64, f64, &str)> = texts(document)
            .map(|text| {
                let words = text.text().unwrap();
                let type_size = number(&text, "font-size");
                let long = 0.45 * words.chars().count() as f64 * type_size;
                let x = number(&text, "x");
                let left = match text.attribute("text-anchor") {
                    Some("middle") => x - 0.5 * long,
                    Some("end") => x - long,
                    _ => x,
                };
                let y = number(&text, "y");
                (left, left + long, y - 0.66 * type_size, y, words)
            })
            .collect();
        for (place, one) in boxes.iter().enumerate() {
            for other in &boxes[place + 1..] {
                let apart =
                    one.1 <= other.0 || other.1 <= one.0 || one.3 <= other.2 || other.3 <= one.2;
                assert!(apart, "{name} {size:?}: '{}' on '{}'", one.4, other.4);
            }
        }
    });
}

#[test]
fn paper_is_measured_in_millimetres_and_always_light() {
    let picture = every_mark("pedal47");
    let svg = draw(&picture, Size::Paper, Tone::Dark);
    assert_eq!(svg, draw(&picture, Size::Paper, Tone::Light));
    let document = Document::parse(&svg).unwrap();
    let root = document.root_element();
    // ISO 216: A4 is 210 mm × 297 mm.
    assert_eq!(root.attribute("width"), Some("210mm"));
    assert_eq!(root.attribute("height"), Some("297mm"));
    assert_eq!(root.attribute("viewBox"), Some("0 0 210 297"));
}

#[test]
fn directions_are_low_and_high_and_no_string_is_called_flat_or_sharp() {
    for tongue in Tongue::ALL {
        let picture = in_tongue(every_mark("pedal47"), tongue);
        let svg = draw(&picture, Size::Desk, Tone::Light);
        for word in ["flat", "sharp", "bémol", "dièse", "erniedrigt", "erhöht"] {
            assert!(
                !svg.contains(word) && !said(&picture).contains(word),
                "{word}"
            );
        }
    }
}

#[test]
fn no_english_word_is_left_in_a_german_or_french_picture() {
    let english = [
        "string", "strings", "harp", "of", "in", "tune", "low", "high", "heard", "near", "moving",
        "skipped", "broken", "new", "again", "figures", "more", "and", "before", "off", "the",
    ];
    for tongue in [Tongue::German, Tongue::French] {
        let picture = in_tongue(every_mark("pedal47"), tongue);
        let svg = draw(&picture, Size::Phone, Tone::Light);
        let document = Document::parse(&svg).unwrap();
        let spoken = ["text", "desc", "title"];
        let mut words = 0;
        for node in document.descendants() {
            if spoken.contains(&node.tag_name().name()) {
                let text = node.text().unwrap().to_lowercase();
                for word in text.split(|c: char| !c.is_alphabetic()) {
                    let german_too = tongue == Tongue::German && word == "in";
                    assert!(
                        german_too || !english.contains(&word),
                        "'{word}' in: {text}"
                    );
                    words += 1;
                }
            }
        }
        assert!(words > 100, "{words}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_is_given_the_picture_is_well_formed_and_has_only_numbers(
        title in any::<String>(),
        cents in prop::collection::vec(any::<f64>(), 47),
        lengths in prop::collection::vec(prop::option::of(any::<f64>()), 47),
        kinds in prop::collection::vec(0..6u8, 47),
        count in 0..47usize,
    ) {
        let mut picture = Picture::of(&Harp::named("pedal47").unwrap());
        picture.title = title;
        for (place, string) in picture.strings.iter_mut().enumerate() {
            let (cents, u95_cents) = (cents[place], cents[(place + 1) % 47]);
            string.length_mm = lengths[place];
            string.gauge_mm = lengths[(place + 1) % 47];
            string.before_cents = lengths[(place + 2) % 47];
            string.mark = match kinds[place] {
                0 => Mark::Off { cents, u95_cents },
                1 => Mark::InTune { cents, u95_cents },
                2 => Mark::Near { cents, u95_cents },
                3 => Mark::Moving { cents, trail_cents: vec![u95_cents, cents] },
                4 => Mark::New { cents: Some(cents) },
                _ => Mark::Broken,
            };
        }
        picture.strings.truncate(count);
        let svg = draw(&picture, Size::Phone, Tone::Light);
        let document = Document::parse(&svg);
        prop_assert!(document.is_ok(), "{:?}", document.err());
        let document = document.unwrap();
        for node in document.descendants().filter(Node::is_element) {
            for attribute in node.attributes() {
                prop_assert!(!attribute.value().contains("NaN"), "{}", attribute.value());
                prop_assert!(!attribute.value().contains("inf"), "{}", attribute.value());
            }
        }
    }
}
