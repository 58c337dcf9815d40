//! What a round says, in every language: the same strings, figures and directions, in no other language's words.

#![allow(clippy::unwrap_used, reason = "a test that cannot be set up must stop")]

mod every;
mod examples;

use std::collections::BTreeSet;

use harp::Colour;
use pitch::{Language, Tongue};
use tuning::Direction;
use tuning::round::{
    Names, Say, Then, Warning, a_tuner_shows, advice, amount_words, care, colour_words,
    enough_words, how_far, reason_words, sentence, state_words, then, way_words,
    which_way_the_key_turns,
};

use every::{AMOUNTS, KINDS, REASONS, STATES, WAYS, kind, name, says};

/// Words of English that mean nothing in German or French, and would be left over.
const ENGLISH: [&str; 42] = [
    "the", "and", "of", "it", "to", "again", "pluck", "with", "that", "then", "leave", "key",
    "string", "strings", "turn", "look", "high", "low", "up", "down", "by", "for", "this", "its",
    "all", "be", "has", "near", "there", "new", "left", "stop", "tuner", "shows", "wire", "harp",
    "ask", "hear", "heard", "pedal", "lever", "half",
];
/// Of these, words that German or French have too.
const THEIRS: [(Tongue, &str); 2] = [(Tongue::German, "pedal"), (Tongue::French, "stop")];
/// Words for an accidental: never a direction, and never where a string stands.
const ACCIDENTALS: [(Tongue, &[&str]); 3] = [
    (Tongue::English, &["flat", "sharp", "flatter", "sharper"]),
    (
        Tongue::German,
        &[
            "erniedrigt",
            "erniedrigen",
            "erhöht",
            "erhöhen",
            "vermindert",
            "b",
            "kreuz",
        ],
    ),
    (
        Tongue::French,
        &["bémol", "dièse", "bémolisé", "diésé", "baisser", "hausser"],
    ),
];

fn says_in(tongue: Tongue, say: &Say) -> String {
    // names between brackets, so that they are found again, whatever the language
    let names = Names {
        string: &|s| format!("[{}]", s.harp_number()),
        letter: &|l| format!("[{l}]"),
        pitch: &|p| format!("[{}]", p.pretty()),
    };
    sentence(say, &names, tongue)
}

/// Standing words and short forms of a language, names and pitches between brackets.
fn phrases(tongue: Tongue) -> Vec<String> {
    let names = Names {
        string: &|s| format!("[{}]", s.harp_number()),
        letter: &|l| format!("[{l}]"),
        pitch: &|p| format!("[{}]", p.pretty()),
    };
    let mut all = vec![care(tongue).to_owned(), enough_words(tongue).to_owned()];
    for way in WAYS {
        all.push(which_way_the_key_turns(way, tongue).to_owned());
        all.push(way_words(way, tongue).to_owned());
        all.extend(AMOUNTS.map(|amount| how_far(way, amount, tongue)));
    }
    all.extend(AMOUNTS.map(|amount| amount_words(amount, tongue).to_owned()));
    all.extend(REASONS.map(|reason| reason_words(reason, tongue).to_owned()));
    all.extend(REASONS.map(|reason| advice(reason, tongue).to_owned()));
    all.extend(STATES.map(|state| state_words(state, tongue).to_owned()));
    for colour in [Colour::Red, Colour::Dark, Colour::Metallic, Colour::Plain] {
        all.extend([false, true].map(|wire| colour_words(colour, wire, tongue).to_owned()));
    }
    for next in ["B3", "C4", "D4"] {
        all.push(then(name("C4"), name(next), &names, tongue));
    }
    all
}

/// What stands between brackets, sorted, and the text without it.
fn taken_apart(text: &str) -> (Vec<String>, String) {
    let (mut named, mut rest) = (Vec::new(), String::new());
    for (place, piece) in text.split(['[', ']']).enumerate() {
        if place % 2 == 1 {
            named.push(piece.to_owned());
        } else {
            rest.push_str(piece);
        }
    }
    named.sort();
    (named, rest)
}

/// The figures in a text, with their signs and a point before decimals, sorted; and the marks that were found there.
fn figures(text: &str) -> (Vec<String>, BTreeSet<char>) {
    let (mut found, mut marks) = (Vec::new(), BTreeSet::new());
    let letters: Vec<char> = text.chars().collect();
    let mut at = 0;
    while at < letters.len() {
        if !letters[at].is_ascii_digit() {
            at += 1;
            continue;
        }
        let sign = at.checked_sub(1).map(|before| letters[before]);
        let sign = sign.filter(|sign| ['−', '+', '±', '-'].contains(sign));
        let mut figure = String::from_iter(sign);
        while let Some(letter) = letters.get(at) {
            let goes_on = letters.get(at + 1).is_some_and(char::is_ascii_digit);
            match letter {
                digit if digit.is_ascii_digit() => figure.push(*digit),
                '.' | ',' if goes_on => {
                    marks.insert(*letter);
                    figure.push('.');
                }
                _ => break,
            }
            at += 1;
        }
        found.push(figure);
    }
    found.sort();
    (found, marks)
}

fn words(text: &str) -> Vec<String> {
    let letters = text.to_lowercase();
    let words = letters.split(|c: char| !c.is_alphabetic());
    words
        .filter(|word| !word.is_empty())
        .map(str::to_owned)
        .collect()
}

/// The first direction that is said.
fn first_way(text: &str, tongue: Tongue) -> Option<Direction> {
    let text = format!(" {} ", words(text).join(" "));
    let (up, down) = match tongue {
        Tongue::English => (" up ", " down "),
        Tongue::German => (" höher ", " tiefer "),
        Tongue::French => (" plus haut ", " plus bas "),
    };
    match (text.find(up), text.find(down)) {
        (None, None) => None,
        (Some(up), Some(down)) if down < up => Some(Direction::Down),
        (None, Some(_)) => Some(Direction::Down),
        (Some(_), _) => Some(Direction::Up),
    }
}

/// Where it is said that a string stands, if it is.
fn stands(text: &str, tongue: Tongue) -> Option<bool> {
    let text = format!(" {} ", words(text).join(" "));
    let (low, high) = match tongue {
        Tongue::English => (" low ", " high "),
        Tongue::German => (" zu tief ", " zu hoch "),
        Tongue::French => (" trop bas ", " trop haut "),
    };
    match (text.contains(low), text.contains(high)) {
        (false, false) => None,
        (low, high) => {
            assert!(low != high, "{text}");
            Some(high)
        }
    }
}

#[test]
fn no_kind_of_thing_to_say_is_left_out_here() {
    let kinds: BTreeSet<usize> = says().iter().map(kind).collect();
    assert_eq!(kinds, (0..KINDS).collect());
}

#[test]
fn everything_is_a_sentence_in_every_language() {
    for say in says() {
        for tongue in Tongue::ALL {
            let said = says_in(tongue, &say);
            assert!(said.ends_with(['.', '?']), "{said}");
            assert!(
                !said.contains("  ") && !said.contains("..") && !said.contains("?."),
                "{said}"
            );
            let first = said.trim_start_matches('[').chars().next().unwrap();
            // the English one of a pluck without a string began so before there were others
            let as_before = tongue == Tongue::English && said.starts_with("not read");
            assert!(
                first.is_uppercase() || first.is_ascii_digit() || as_before,
                "{said}"
            );
        }
    }
    for phrases in Tongue::ALL.map(phrases) {
        assert!(phrases.len() > 50);
        assert!(phrases.iter().all(|phrase| !phrase.trim().is_empty()));
    }
}

#[test]
fn no_sentence_is_the_same_in_two_languages() {
    for say in says() {
        let all: BTreeSet<String> = Tongue::ALL.map(|tongue| says_in(tongue, &say)).into();
        assert_eq!(all.len(), 3, "{all:?}");
    }
    let [english, german, french] = Tongue::ALL.map(phrases);
    for ((english, german), french) in english.iter().zip(german).zip(french) {
        assert!(
            *english != german && *english != french && german != french,
            "{english}"
        );
    }
}

#[test]
fn every_language_names_the_same_strings_and_figures() {
    let (mut named, mut numbered) = (0, 0);
    for say in says() {
        let (names, rest) = taken_apart(&says_in(Tongue::English, &say));
        let (numbers, marks) = figures(&rest);
        assert!(!marks.contains(&','), "{rest}");
        named += names.len();
        numbered += numbers.len();
        for tongue in [Tongue::German, Tongue::French] {
            let said = says_in(tongue, &say);
            let (their_names, rest) = taken_apart(&said);
            let (their_numbers, marks) = figures(&rest);
            assert_eq!(their_names, names, "{said}");
            assert_eq!(their_numbers, numbers, "{said}");
            assert!(!marks.contains(&'.'), "{said}");
        }
    }
    assert!(
        named > 100 && numbered > 80,
        "{named} names, {numbered} figures"
    );
}

#[test]
fn no_english_is_left_over() {
    for tongue in [Tongue::German, Tongue::French] {
        let said = says()
            .into_iter()
            .map(|say| taken_apart(&says_in(tongue, &say)).1);
        for text in said.chain(phrases(tongue).iter().map(|p| taken_apart(p).1)) {
            for word in words(&text) {
                let theirs = THEIRS.contains(&(tongue, word.as_str()));
                assert!(
                    theirs || !ENGLISH.contains(&word.as_str()),
                    "'{word}' in: {text}"
                );
            }
        }
    }
}

#[test]
fn no_direction_is_named_by_an_accidental() {
    // there, and only there, a note is meant: strings that sound A flat
    let means_a_note = |say: &Say| matches!(say, Say::TheA { strings, .. } if strings.is_empty());
    for (tongue, accidentals) in ACCIDENTALS {
        let said = says().into_iter().filter(|say| !means_a_note(say));
        let said = said.map(|say| taken_apart(&says_in(tongue, &say)).1);
        for text in said.chain(phrases(tongue).iter().map(|p| taken_apart(p).1)) {
            for word in words(&text) {
                assert!(!accidentals.contains(&word.as_str()), "'{word}' in: {text}");
            }
        }
    }
}

#[test]
fn every_language_says_the_same_way_to_turn() {
    let mut turned = 0;
    for say in says() {
        let way = match &say {
            Say::Turn(turn) => Some(turn.way),
            Say::Moving { way, .. } => Some(*way),
            Say::Warning(Warning::OverPull { .. }) => Some(Direction::Down),
            Say::Broke(_, Then::FittedNow) => Some(Direction::Up),
            _ => None,
        };
        let way = way.filter(|way| *way != Direction::There);
        // 'up' is also a pedal's place, and the way along a string to its pin
        let is_place = matches!(
            say,
            Say::SecondBest { .. }
                | Say::Warning(Warning::PedalUp { .. } | Warning::KeyElsewhere { .. })
        );
        for tongue in Tongue::ALL {
            let said = says_in(tongue, &say);
            if tongue != Tongue::English || !is_place {
                assert_eq!(first_way(&said, tongue), way, "{said}");
            }
        }
        turned += usize::from(way.is_some());
    }
    assert!(turned > 25, "{turned}");
    for tongue in Tongue::ALL {
        for way in [Direction::Up, Direction::Down] {
            let mut all = vec![
                way_words(way, tongue).to_owned(),
                which_way_the_key_turns(way, tongue).to_owned(),
            ];
            all.extend(AMOUNTS.map(|amount| how_far(way, amount, tongue)));
            for said in all {
                assert_eq!(first_way(&said, tongue), Some(way), "{said}");
            }
        }
    }
}

#[test]
fn every_language_says_the_same_of_where_a_string_stands() {
    let mut standing = 0;
    for say in says() {
        let [english, german, french] =
            Tongue::ALL.map(|tongue| stands(&says_in(tongue, &say), tongue));
        assert_eq!((german, french), (english, english), "{say:?}");
        standing += usize::from(english.is_some());
    }
    assert!(standing > 30, "{standing}");
}

#[test]
fn french_sets_a_narrow_space_before_high_marks_and_the_others_none() {
    let mut marks = 0;
    for tongue in Tongue::ALL {
        let said = says().into_iter().map(|say| says_in(tongue, &say));
        for text in said.chain(phrases(tongue)) {
            let letters: Vec<char> = text.chars().collect();
            for pair in letters
                .windows(2)
                .filter(|pair| [':', ';', '!', '?'].contains(&pair[1]))
            {
                assert_eq!(pair[0] == '\u{202f}', tongue == Tongue::French, "{text}");
                assert_ne!(pair[0], ' ', "{text}");
                marks += 1;
            }
            for pair in letters.windows(2).filter(|pair| pair[1] == '%') {
                assert_eq!(pair[0] == ' ', tongue == Tongue::English, "{text}");
            }
        }
    }
    assert!(marks > 200, "{marks}");
}

#[test]
fn a_display_is_named_in_the_readers_notes() {
    let shows = |shown: &str, notes, tongue| a_tuner_shows(shown.parse().unwrap(), notes, tongue);
    let check = |shown, expected: [&str; 3]| {
        let found = Tongue::ALL.map(|tongue| shows(shown, tongue.notes(), tongue));
        assert_eq!(found, expected);
    };
    check(
        "F#3",
        [
            "a tuner shows F♯",
            "ein Stimmgerät zeigt Fis",
            "un accordeur affiche fa♯",
        ],
    );
    check(
        "B3",
        [
            "a tuner shows B",
            "ein Stimmgerät zeigt H (oft als B)",
            "un accordeur affiche si",
        ],
    );
    let english_notes = shows("B3", Language::English, Tongue::German);
    assert_eq!(english_notes, "ein Stimmgerät zeigt B");
}
