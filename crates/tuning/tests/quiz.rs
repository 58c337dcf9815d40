//! Questions about a harp: one right choice each, judged right, wrong ones come again, and what is right is held to handbooks.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot prepare its case stops"
)]

use harp::{Harp, Setting, StringName};
use pitch::{Alteration, Letter, MajorKey};
use proptest::prelude::*;
use tuning::practice::quiz::{About, Answer, Asked, Choice, OTHERS_BETWEEN, Quiz};

const ALL: [About; 5] = [
    About::TunerName,
    About::Pin,
    About::OctaveNumber,
    About::DiagramRead,
    About::DiagramSet,
];

const HARPS: [&str; 4] = ["pedal47", "pedal40", "lever34", "lever22"];

fn quiz(harp: &str, about: About, seed: u64) -> Quiz {
    let harp = Harp::named(harp).unwrap();
    Quiz::new(&harp, about, seed).unwrap()
}

fn right(quiz: &Quiz) -> Answer {
    match (quiz.right_place(), quiz.right_setting()) {
        (Some(place), None) => Answer::Choice(place),
        (None, Some(setting)) => Answer::Set(setting),
        both => panic!("{both:?} for {:?}", quiz.question()),
    }
}

fn wrong(quiz: &Quiz) -> Answer {
    match quiz.right_place() {
        Some(place) => Answer::Choice((place + 1) % quiz.question().choices.len()),
        None => Answer::Set(Setting::default()),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn every_question_has_exactly_one_right_choice(seed: u64) {
        for harp in HARPS {
            for about in ALL {
                let mut quiz = quiz(harp, about, seed);
                for _ in 0..12 {
                    let question = quiz.question().clone();
                    let places = 0..question.choices.len();
                    let fits = places.filter(|at| quiz.is_right(Answer::Choice(*at))).count();
                    let sets = usize::from(quiz.right_setting().is_some());
                    prop_assert_eq!(fits + sets, 1, "{:?}", question);
                    prop_assert!(question.choices.is_empty() || question.choices.len() >= 2, "{:?}", question);
                    for (at, choice) in question.choices.iter().enumerate() {
                        prop_assert!(!question.choices[at + 1..].contains(choice), "{:?}", question);
                    }
                    prop_assert!(!quiz.is_right(Answer::Choice(question.choices.len())));
                    let answer = right(&quiz);
                    prop_assert!(quiz.answer(answer));
                    prop_assert!(quiz.question().asked != question.asked, "asked twice in a row");
                }
            }
        }
    }

    #[test]
    fn what_was_wrong_comes_again_after_two_others_and_then_no_more(seed: u64) {
        for harp in HARPS {
            for about in ALL {
                let mut quiz = quiz(harp, about, seed);
                let first = quiz.question().asked;
                let answer = wrong(&quiz);
                prop_assert!(!quiz.answer(answer));
                for _ in 0..OTHERS_BETWEEN {
                    prop_assert!(quiz.question().asked != first);
                    let answer = right(&quiz);
                    quiz.answer(answer);
                }
                prop_assert_eq!(quiz.question().asked, first);
            }
        }
    }
}

#[test]
fn equal_seeds_ask_alike_and_others_do_not() {
    let asked = |seed| {
        let mut quiz = quiz("pedal47", About::TunerName, seed);
        let all = (0..10).map(|_| {
            let asked = format!("{:?}", quiz.question());
            let answer = right(&quiz);
            quiz.answer(answer);
            asked
        });
        all.collect::<Vec<_>>()
    };
    assert_eq!(asked(4), asked(4));
    assert_ne!(asked(4), asked(5));
}

/// All that a drill asks in many turns.
fn many(harp: &str, about: About) -> Vec<(Asked, Vec<Choice>, Option<Choice>)> {
    let mut quiz = quiz(harp, about, 99);
    let turns = (0..600).map(|_| {
        let question = quiz.question().clone();
        let place = quiz.right_place();
        let answer = right(&quiz);
        quiz.answer(answer);
        let right = place.and_then(|at| question.choices.get(at).cloned());
        (question.asked, question.choices, right)
    });
    turns.collect()
}

// What a chromatic display shows with all pedals up: B for C♭, E for F♭, and C♯ D♯ F♯ G♯ A♯ (B. Volpé Bligh's notes on tuning
// the harp; seen in part); E♯ is F and B♯ is C by the same arithmetic.
#[test]
fn a_tuner_shows_what_handbooks_say() {
    use Alteration::{Flat, Natural, Sharp};
    use Letter::{A, B, C, D, E, F, G};
    let expected = [
        (C, Flat, 11),
        (F, Flat, 4),
        (D, Flat, 1),
        (E, Flat, 3),
        (G, Flat, 6),
        (A, Flat, 8),
        (B, Flat, 10),
        (E, Sharp, 5),
        (B, Sharp, 0),
        (G, Natural, 7),
    ];
    let asked = many("pedal47", About::TunerName);
    for (letter, sounds, shown) in expected {
        let met = asked
            .iter()
            .filter(|(asked, ..)| *asked == Asked::Shown { letter, sounds });
        let rights: Vec<_> = met.map(|(_, _, right)| right.clone()).collect();
        assert!(!rights.is_empty(), "{letter} {sounds:?} was never asked");
        for right in rights {
            assert_eq!(right, Some(Choice::Display(shown)), "{letter} {sounds:?}");
        }
    }
    // and backwards
    let c_flat = asked.iter().find(|(asked, ..)| {
        matches!(
            asked,
            Asked::ShownBy {
                letter: C,
                notch: 0,
                ..
            }
        )
    });
    assert_eq!(
        c_flat.and_then(|(_, _, right)| right.clone()),
        Some(Choice::Sounds(C, Flat))
    );
}

// How a lever harp in E flat is set: C = E A B, G = E F A B, D = C E F A B, E = all seven (arithmetic; a player's table of keys
// agrees); eight keys and no other can be asked
#[test]
fn levers_are_on_as_players_tables_say() {
    let table = [
        ("Eb", ""),
        ("Bb", "A"),
        ("F", "EA"),
        ("C", "EAB"),
        ("G", "EFAB"),
        ("D", "CEFAB"),
        ("A", "CEFGAB"),
        ("E", "CDEFGAB"),
    ];
    let asked = many("lever34", About::DiagramRead);
    for (key, letters) in table {
        let met = asked
            .iter()
            .find(|(asked, ..)| matches!(asked, Asked::LeversIn(of) if of.to_string() == key));
        let right = met.and_then(|(_, _, right)| right.clone());
        let letters: Vec<Letter> = letters.chars().filter_map(Letter::from_char).collect();
        assert_eq!(right, Some(Choice::Levers(letters)), "{key}");
    }
    let others = asked.iter().filter(|(asked, ..)| {
        !matches!(asked, Asked::LeversIn(of) if table.iter().any(|(key, _)| of.to_string() == *key))
    });
    assert_eq!(others.count(), 0);
}

// E major is D♯ C♯ B | E F♯ G♯ A, A major D C♯ B | E F♯ G♯ A (a handbook of notation for the harp prints the latter)
#[test]
fn keys_are_set_as_handbooks_print_them() {
    let setting = |letters: &[Letter]| {
        let all = Letter::ALL.into_iter();
        all.fold(Setting::default(), |made, letter| {
            let sharp = letters.contains(&letter);
            made.with(
                letter,
                if sharp {
                    Alteration::Sharp
                } else {
                    Alteration::Natural
                },
            )
        })
    };
    use Letter::{C, D, F, G};
    let expected = [(4, setting(&[D, C, F, G])), (3, setting(&[C, F, G]))];
    for (fifths, wanted) in expected {
        let mut quiz = quiz("pedal47", About::DiagramSet, 3);
        let key = MajorKey::new(fifths).unwrap();
        let met = (0..400).any(|_| {
            let asked = quiz.question().asked == Asked::SetKey(key);
            if asked {
                assert_eq!(quiz.right_setting(), Some(wanted));
                assert!(!quiz.is_right(Answer::Set(wanted.with(D, Alteration::Flat))));
            }
            let answer = right(&quiz);
            quiz.answer(answer);
            asked
        });
        assert!(met);
    }
}

#[test]
fn strings_are_this_harps_own_and_are_drawn_in_their_order() {
    for harp in HARPS {
        let own: Vec<StringName> = {
            let harp = Harp::named(harp).unwrap();
            harp.strings().iter().map(|s| s.name).collect()
        };
        for about in [About::Pin, About::OctaveNumber] {
            let mut quiz = quiz(harp, about, 8);
            for _ in 0..200 {
                let question = quiz.question().clone();
                assert!(question.drawn.windows(2).all(|two| two[0] < two[1]));
                assert!(question.drawn.iter().all(|s| own.contains(s)));
                let (Asked::PinOf(asked)
                | Asked::HeldBy(asked)
                | Asked::Called(asked)
                | Asked::Find(asked)) = question.asked
                else {
                    panic!("{question:?}");
                };
                assert!(question.drawn.contains(&asked));
                if about == About::Pin {
                    assert_eq!(question.drawn.len(), 7);
                    let first = own.iter().position(|s| *s == question.drawn[0]).unwrap();
                    assert_eq!(question.drawn, own[first..first + 7]);
                }
                let answer = right(&quiz);
                quiz.answer(answer);
            }
        }
    }
}

#[test]
fn a_harp_with_too_few_strings_is_not_asked_about_its_pins() {
    let few = Harp::between(
        harp::HarpKind::Lever,
        "C4".parse().unwrap(),
        "E4".parse().unwrap(),
    );
    let few = few.unwrap();
    assert_eq!(Quiz::new(&few, About::Pin, 1), None);
    assert_eq!(Quiz::new(&few, About::OctaveNumber, 1), None);
}
