//! Handouts as they are laid out: what they say, and that it fits.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot prepare its case should stop"
)]

use harp::{BUILT_IN, Harp, HarpKind, Naming, OpenTuning};
use keep::Caution;
use pitch::{Letter, ReferencePitch, Tongue};
use sheet::{Dye, FontsIn, Handout, Item, Page, Paper, Style, handout_pages, svg};
use tuning::round::Order;

fn style(tongue: Tongue, paper: Paper) -> Style {
    Style {
        paper,
        tongue,
        naming: Naming {
            language: tongue.notes(),
            ..Naming::default()
        },
        ..Style::default()
    }
}

fn handout(harp: &str, open: Option<OpenTuning>) -> Handout {
    let harp = Harp::named(harp).unwrap();
    let harp = match open {
        Some(open) => harp.with_open(open).unwrap(),
        None => harp,
    };
    Handout::of(&harp, ReferencePitch::A440).unwrap()
}

/// Every harp that is built in, in every key in which it can stand open.
fn handouts() -> Vec<(String, Handout)> {
    let mut all = Vec::new();
    for built_in in &BUILT_IN {
        let opens: &[_] = match built_in.kind {
            HarpKind::Pedal => &[None],
            HarpKind::Lever => &[
                Some(OpenTuning::Eb),
                Some(OpenTuning::C),
                Some(OpenTuning::F),
                Some(OpenTuning::Ab),
            ],
            HarpKind::Free => &[],
        };
        for &open in opens {
            let name = format!("{} {open:?}", built_in.name);
            all.push((name, handout(built_in.name, open)));
        }
    }
    all
}

fn texts(pages: &[Page]) -> String {
    let texts = pages
        .iter()
        .flat_map(|page| &page.items)
        .filter_map(|item| match item {
            Item::Text { text, .. } => Some(text.as_str()),
            _ => None,
        });
    let all: Vec<&str> = texts.collect();
    all.join(" ").replace(['\u{a0}', '\u{202f}'], " ")
}

/// Margins of 17 mm at the sides (48 pt), and of 36 pt above and below.
#[track_caller]
fn check_fits(pages: &[Page], what: &str) {
    assert!(
        (1..=2).contains(&pages.len()),
        "{what}: {} pages",
        pages.len()
    );
    for page in pages {
        let (width, height) = page.paper.size_pt();
        let inside =
            |x: f64, y: f64| x >= 47.9 && x <= width - 47.9 && y >= 36.0 && y <= height - 36.0;
        let mut boxes: Vec<([f64; 4], &str)> = Vec::new();
        for item in &page.items {
            match item {
                Item::Text {
                    x,
                    y,
                    size,
                    face,
                    text,
                } => {
                    let right = x + face.width(text, *size);
                    let within = inside(*x, y - 0.75 * size) && inside(right, y + 0.25 * size);
                    assert!(within, "{what}: outside the margins: {item:?}");
                    assert!(*size >= 9.0, "{what}: too small: {item:?}");
                    assert!(face.has_all(text), "{what}: a sign is missing: {text}");
                    boxes.push(([*x, y - 0.68 * size, right, y + 0.2 * size], text));
                }
                Item::Line { from, to, .. } => {
                    let within = inside(from.0, from.1) && inside(to.0, to.1);
                    assert!(within, "{what}: outside the margins: {item:?}");
                }
                Item::Ring { .. } => panic!("{what}: a ring"),
            }
        }
        for (at, (one, first)) in boxes.iter().enumerate() {
            for (other, second) in &boxes[at + 1..] {
                let apart = one[2] <= other[0]
                    || other[2] <= one[0]
                    || one[3] <= other[1]
                    || other[3] <= one[1];
                assert!(apart, "{what}: '{first}' lies on '{second}'");
            }
        }
    }
}

#[test]
fn every_harp_fits_two_pages_in_every_language_on_both_papers() {
    for (name, mut handout) in handouts() {
        handout.student = "Wilhelmine-Antoinette Obermooshuber-Castelnaudary".to_owned();
        handout.harp = "The larger of the two in the music room".to_owned();
        for tongue in Tongue::ALL {
            for paper in [Paper::A4, Paper::Letter] {
                let what = format!("{name} {tongue:?} {paper:?}");
                check_fits(&handout_pages(&handout, &style(tongue, paper)), &what);
            }
        }
    }
}

#[test]
fn every_order_is_told_and_fits() {
    let check = |harp: &str, order: Order, tongue, expected: &str| {
        let mut handout = handout(harp, None);
        handout.order = order;
        for paper in [Paper::A4, Paper::Letter] {
            let pages = handout_pages(&handout, &style(tongue, paper));
            check_fits(&pages, expected);
            assert!(
                texts(&pages).contains(expected),
                "{expected} not in {}",
                texts(&pages)
            );
        }
    };
    let english = Tongue::English;
    let list = Order::List(["3A", "4G"].map(|one| one.parse().unwrap()).to_vec());
    check(
        "pedal47",
        Order::default(),
        english,
        "Begin at 4G and go down, string by string, to 7C; then from 4A up to 0G.",
    );
    check(
        "lever22",
        Order::default(),
        english,
        "Begin at 4G and go down, string by string, to 5C; then from 4A up to 2C.",
    );
    check(
        "pedal47",
        Order::FromBass,
        english,
        "From the lowest string, 7C, up to the highest, 0G.",
    );
    check(
        "pedal47",
        Order::MiddleOctave,
        english,
        "First the middle octave, from 4F up to 4E;",
    );
    check(
        "pedal47",
        Order::Octaves,
        english,
        "The middle octave from 4F up to 4E,",
    );
    check(
        "pedal47",
        Order::Letters,
        english,
        "from the bass up: C first, and so on to B.",
    );
    check(
        "pedal47",
        Order::Letters,
        Tongue::German,
        "zuerst C, und so fort bis H.",
    );
    check(
        "pedal47",
        Order::Letters,
        Tongue::French,
        "d’abord do, et ainsi de suite jusqu’à si.",
    );
    check(
        "pedal47",
        list,
        english,
        "3A, 4G; then the others, from the bass up.",
    );
    // a first string below the lowest: there is no way down
    let below = Order::FromMiddle("7C".parse().unwrap());
    check(
        "lever22",
        below,
        english,
        "From the lowest string, 5C, up to the highest, 2C.",
    );
}

// MIDI 1.0 (MIDI Manufacturers Association) numbers keys by semitones: middle C, C4, is 60, and the MIDI Tuning Standard gives
// A4, 69, 440 Hz; two names of one number are the same key of equal temperament. The numbers are from memory.
fn number(pitch: pitch::SpelledPitch) -> i32 {
    let of_letter = match pitch.letter {
        Letter::C => 0,
        Letter::D => 2,
        Letter::E => 4,
        Letter::F => 5,
        Letter::G => 7,
        Letter::A => 9,
        Letter::B => 11,
    };
    12 * (i32::from(pitch.octave) + 1) + of_letter + i32::from(pitch.alter)
}

#[test]
fn a_tuner_shows_the_same_key_under_the_name_with_a_sharp() {
    for (name, handout) in handouts() {
        for string in &handout.strings {
            assert_eq!(
                number(string.shown),
                number(string.sounds),
                "{name} {string:?}"
            );
            assert!(matches!(string.shown.alter, 0 | 1), "{name} {string:?}");
            // E♯ and B♯ are no names of a display: F and C are
            let odd =
                string.shown.alter == 1 && matches!(string.shown.letter, Letter::E | Letter::B);
            assert!(!odd, "{name} {string:?}");
        }
    }
}

/// The rows that stand below the strings, as they are printed one after the other.
#[track_caller]
fn check_rows(harp: &str, open: Option<OpenTuning>, tongue: Tongue, rows: &[&str]) {
    let text = texts(&handout_pages(
        &handout(harp, open),
        &style(tongue, Paper::A4),
    ));
    for row in rows {
        assert!(text.contains(row), "{row} not in {text}");
    }
}

#[test]
fn each_language_names_what_sounds_and_what_is_shown_in_its_own_way() {
    // Common practice, several teaching pages: with pedals up a display shows B for C flat and E for F flat.
    check_rows(
        "pedal47",
        None,
        Tongue::English,
        &[
            "1E 1D 1C 1B 1A 1G 1F",
            "sound E♭ D♭ C♭ B♭ A♭ G♭ F♭ and a tuner shows D♯ C♯ B A♯ G♯ F♯ E C strings",
            "0G* 0F",
            "7D* 7C*",
            "* No pedal moves it",
        ],
    );
    // German: H and B, -es and -is, Es and As; many devices write B for H (common experience, no source)
    check_rows(
        "pedal47",
        None,
        Tongue::German,
        &[
            "1E 1D 1C 1H 1A 1G 1F",
            "klingen die Saiten Es Des Ces B As Ges Fes",
            "zeigt Dis Cis H Ais Gis Fis E",
            "schreiben, D♯ C♯ B A♯ G♯ F♯ E",
        ],
    );
    check_rows(
        "pedal47",
        None,
        Tongue::French,
        &[
            "1mi 1ré 1do 1si 1la 1sol 1fa",
            "sonnent mi♭ ré♭ do♭ si♭ la♭ sol♭ fa♭",
            "affiche ré♯ do♯ si la♯ sol♯ fa♯ mi",
        ],
    );
    check_rows(
        "lever34",
        Some(OpenTuning::Eb),
        Tongue::German,
        &[
            "Alle Klappen lösen",
            "klingen die Saiten Es D C B As G F",
            "zeigt Dis D C Ais Gis G F",
        ],
    );
    // in C nothing has a second name
    let plain = handout("lever34", Some(OpenTuning::C));
    let text = texts(&handout_pages(&plain, &style(Tongue::English, Paper::A4)));
    assert!(
        text.contains("shows E D C B A G F") && !text.contains("write flats"),
        "{text}"
    );
    assert!(!text.contains('*'), "{text}");
}

#[test]
fn every_string_stands_on_the_page_once() {
    for (name, handout) in handouts() {
        let pages = handout_pages(&handout, &style(Tongue::English, Paper::A4));
        for string in &handout.strings {
            let still = if string.moves { "" } else { "*" };
            let cell = string.name.harp_number() + still;
            let in_table = |item: &&Item| matches!(item, Item::Text { text, size, .. } if *text == cell && *size > 10.0);
            let found = pages[0].items.iter().filter(in_table).count();
            assert_eq!(found, 1, "{name} {cell}");
        }
        let dyed = |dye| {
            let is = |item: &&Item| matches!(item, Item::Line { dye: its, .. } if *its == dye);
            pages[0].items.iter().filter(is).count()
        };
        let of = |letter| {
            handout
                .strings
                .iter()
                .filter(|one| one.name.letter == letter)
                .count()
        };
        // each in the harp, and one over its column
        assert_eq!(
            (dyed(Dye::Red), dyed(Dye::Blue)),
            (of(Letter::C) + 1, of(Letter::F) + 1)
        );
    }
}

#[test]
fn cautions_steps_and_room_to_write_are_there() {
    for tongue in Tongue::ALL {
        let handout = handout("pedal47", None);
        let pages = handout_pages(&handout, &style(tongue, Paper::A4));
        let text = texts(&pages);
        let words: &[&str] = match tongue {
            Tongue::English => &[
                "Glasses on",
                "can break",
                "wires scratch",
                "low step",
                "tips over",
                "wrist or shoulder hurts, stop",
                "child",
                "hammer a pin",
                "One string at a time",
                "qualified harp technician",
                "wait 2 minutes",
                "several times a day",
                "some harps differ",
                "Harp technician",
                "Telephone",
                "From your teacher",
            ],
            Tongue::German => &[
                "Brille",
                "reißen",
                "Drahtenden kratzen",
                "niedrigen Tritt",
                "kippt um",
                "Handgelenk oder Schulter",
                "Kinder",
                "einschlagen",
                "nie alle zugleich",
                "ausgebildeten",
                "2 Minuten",
                "Mehrmals am Tag",
                "manche Harfen sind anders",
                "Harfentechnik",
                "Telefon",
                "Aus dem Unterricht",
            ],
            Tongue::French => &[
                "lunettes",
                "peut casser",
                "griffent",
                "marche basse",
                "bascule",
                "poignet ou l’épaule",
                "enfant",
                "au marteau",
                "corde à la fois",
                "qualifié",
                "2 minutes",
                "plusieurs fois par jour",
                "certaines harpes diffèrent",
                "Technicien",
                "Téléphone",
                "professeur",
            ],
        };
        // a line may end between two words
        for word in words {
            assert!(text.contains(word), "{word} not in {text}");
        }
        // twelve steps, the four on the way up told in one
        for number in 1..=9 {
            assert!(
                text.contains(&format!(" {number} ")),
                "{number} not in {text}"
            );
        }
        let is_rule = |item: &&Item| matches!(item, Item::Line { from, to, .. } if from.1 == to.1 && to.0 - from.0 > 400.0);
        let rules = pages[1].items.iter().filter(is_rule).count();
        assert!(rules >= 3, "{tongue:?}: {rules} lines for notes");
        // 'up' and 'down', never flat or sharp as a direction
        assert!(!text.contains(" is flat") && !text.contains(" is sharp"));
    }
    // every caution that the keeper of strings gives with a step has its place among these
    let all: std::collections::BTreeSet<Caution> = handout("pedal47", None)
        .steps
        .iter()
        .flat_map(|step| step.cautions)
        .copied()
        .collect();
    assert_eq!(all.len(), 6);
}

#[test]
fn a_handout_is_for_a_harp() {
    assert_eq!(
        Handout::of(&Harp::named("semitones").unwrap(), ReferencePitch::A440),
        None
    );
}

#[test]
fn a_name_is_printed_on_both_pages_and_none_leaves_no_trace() {
    let mut handout = handout("lever34", None);
    let pages = handout_pages(&handout, &style(Tongue::English, Paper::A4));
    assert!(!texts(&pages).contains("for  ") && pages[0].title == "Tuning your harp");
    handout.student = "Perpetua Quill".to_owned();
    let pages = handout_pages(&handout, &style(Tongue::English, Paper::A4));
    for page in &pages {
        assert!(texts(std::slice::from_ref(page)).contains("for Perpetua Quill"));
    }
}

#[test]
fn as_svg_it_is_well_formed_and_its_strings_have_their_colours() {
    let pages = handout_pages(
        &handout("pedal47", None),
        &style(Tongue::French, Paper::Letter),
    );
    for page in &pages {
        let text = svg(page, FontsIn::TheViewer);
        let document = roxmltree::Document::parse(&text).unwrap();
        assert_eq!(document.root_element().attribute("width"), Some("8.5in"));
        let red = |node: &roxmltree::Node<'_, '_>| node.attribute("stroke") == Some("#b3241c");
        let found = document.descendants().filter(red).count();
        assert_eq!(found, if page == &pages[0] { 8 } else { 0 });
    }
}
