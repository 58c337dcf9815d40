//! What must hold for any sequence of events, sensible or not.

use std::collections::BTreeSet;

use harp::StringName;
use pitch::{Letter, SpelledPitch, raise};
use proptest::prelude::*;
use tuning::round::{Act, Event, Kept, Moving, Plan, Round, Say, State, Then};
use tuning::{Direction, Heard, Reading};

use crate::table::{check, ear, name, plan, reading, target, words};

/// One step of a made-up round, before it knows its harp.
#[derive(Clone, Debug)]
enum Step {
    Pluck {
        string: usize,
        off: f64,
        u95: f64,
        certainty: f64,
        last: bool,
        seconds: f64,
    },
    Move {
        string: usize,
        off: f64,
        seconds: f64,
    },
    Act {
        which: usize,
        string: usize,
        seconds: f64,
    },
}

/// A few neighbours are plucked again and again: names cross where strings meet.
fn steps() -> impl Strategy<Value = Vec<Step>> {
    let off = prop_oneof![4 => -60.0..60.0f64, 2 => -4.0..4.0f64, 1 => -600.0..300.0f64];
    let pluck = (
        0usize..14,
        off.clone(),
        0.1..12.0f64,
        0.3..1.0f64,
        0u8..8,
        0.1..20.0f64,
    );
    let pluck = pluck.prop_map(
        |(string, off, u95, certainty, early, seconds)| Step::Pluck {
            string,
            off,
            u95,
            certainty,
            last: early > 0,
            seconds,
        },
    );
    let moved = (0usize..14, off, 0.02..0.5f64);
    let moved = moved.prop_map(|(string, off, seconds)| Step::Move {
        string,
        off,
        seconds,
    });
    let act = (0usize..20, 0usize..14, 0.1..200.0f64);
    let act = act.prop_map(|(which, string, seconds)| Step::Act {
        which,
        string,
        seconds,
    });
    proptest::collection::vec(prop_oneof![8 => pluck, 4 => moved, 2 => act], 1..120)
}

fn few(kind: &str) -> Plan {
    let mut plan = plan(kind);
    plan.strings.truncate(14);
    plan
}

fn event(round: &Round, at_s: f64, step: &Step) -> Event {
    let string = |at: usize| round.plan().strings[at].standing.string;
    match *step {
        Step::Pluck {
            string: at,
            off,
            u95,
            certainty,
            last,
            ..
        } => {
            let hz = raise(target(round, string(at)), off);
            let standing = round.plan().strings[at].standing;
            let heard = ear(round, at_s, hz, u95);
            let heard = heard.unwrap_or_else(|| reading(standing, at_s, hz, u95));
            let string_certainty = heard.string_certainty.min(certainty);
            Event::Heard(Heard::Reading(Reading {
                last,
                string_certainty,
                ..heard
            }))
        }
        Step::Move {
            string: at, off, ..
        } => Event::Moving(Moving {
            at_s,
            string: string(at),
            hz: raise(target(round, string(at)), off),
            u95_cents: 1.0,
        }),
        Step::Act {
            which, string: at, ..
        } => Event::Act {
            at_s,
            act: act(which, string(at)),
        },
    }
}

fn act(which: usize, string: StringName) -> Act {
    let pitch = SpelledPitch {
        letter: string.letter,
        alter: 0,
        octave: string.octave,
    };
    match which {
        0 => Act::ThisOne(string),
        1 => Act::LetGo,
        2 => Act::Skip(string),
        3 => Act::Broke(string, Then::PlayWithout),
        4 => Act::Broke(string, Then::FittedNow),
        5 => Act::Again(string),
        6 => Act::NotInTune(string),
        7 => Act::InTuneByEar(string),
        8 => Act::Pause,
        9 | 10 => Act::Resume,
        11 => Act::SetTo(string, pitch),
        12 => Act::BetweenPieces,
        13 => Act::MovedOnPurpose(string),
        14 => Act::AsSaid(Letter::ALL[string.letter.index()]),
        15 => Act::UseA {
            a4_hz: 441.0,
            technician_asked: false,
        },
        16 => Act::UseA {
            a4_hz: 440.0,
            technician_asked: true,
        },
        17 => Act::Finish,
        _ => Act::Next,
    }
}

/// Runs the steps, shows each event with the round before and after it, and gives back the events.
fn run(
    kind: &str,
    steps: &[Step],
    mut see: impl FnMut(&Round, &Event, &Round, &[Say]),
) -> Vec<Event> {
    let mut round = Round::new(few(kind));
    let mut events = vec![Event::Act {
        at_s: 0.0,
        act: Act::Begin,
    }];
    round.step(&events[0]);
    let mut at_s = 0.0;
    for step in steps {
        at_s += match *step {
            Step::Pluck { seconds, .. }
            | Step::Move { seconds, .. }
            | Step::Act { seconds, .. } => seconds,
        };
        let before = round.clone();
        let event = event(&round, at_s, step);
        let said = round.step(&event);
        see(&before, &event, &round, &said);
        events.push(event);
    }
    events
}

/// The same but for what a reading is set aside for.
fn same(a: &Kept, b: &Kept) -> bool {
    (a.at_s, a.target_hz, a.heard_hz, a.off_cents) == (b.at_s, b.target_hz, b.heard_hz, b.off_cents)
}

fn nothing_is_lost(before: &Round, after: &Round) {
    for string in before.plan().strings.iter().map(|s| s.standing.string) {
        let (old, new) = (before.kept(string), after.kept(string));
        assert!(
            new.len() >= old.len(),
            "{string}: {} readings, then {}",
            old.len(),
            new.len()
        );
        assert!(
            old.iter().zip(new).all(|(a, b)| same(a, b)),
            "{string}: a reading changed"
        );
        assert!(
            new.len() <= old.len() + 1,
            "{string}: more than one reading at once"
        );
    }
    for (old, new) in before
        .summary()
        .strings
        .iter()
        .zip(&after.summary().strings)
    {
        assert!(
            old.before.is_none() || new.before.is_some(),
            "{} lost its before",
            old.string
        );
        assert!(
            old.after.is_none() || new.after.is_some(),
            "{} lost its after",
            old.string
        );
        assert_eq!(new.plucks == 0, new.before.is_none(), "{}", new.string);
        assert_eq!(new.before.is_none(), new.after.is_none(), "{}", new.string);
    }
}

/// Directions agree with what is kept, or for a moving string with what moves.
fn no_way_is_wrong(event: &Event, after: &Round, said: &[Say]) {
    for say in said {
        match say {
            Say::Turn(turn) => {
                let kept = after
                    .kept(turn.string)
                    .last()
                    .expect("a direction needs a reading");
                let off = pitch::cents(target(after, turn.string), kept.heard_hz);
                assert_eq!(turn.way == Direction::Up, off < 0.0, "{turn:?}");
                assert_eq!(turn.way == Direction::Down, off > 0.0, "{turn:?}");
                assert!(turn.by_cents <= off.abs() + 1e-9, "{turn:?}");
                assert!(
                    off.abs() <= 50.0 || turn.by_cents <= 0.5 * off.abs() + 1e-9,
                    "{turn:?}"
                );
            }
            Say::Moving { string, way, .. } => {
                let Event::Moving(moving) = event else {
                    panic!("{say:?} after {event:?}")
                };
                let off = pitch::cents(target(after, *string), moving.hz);
                assert!(*way != Direction::Up || off < 0.0, "{say:?}");
                assert!(*way != Direction::Down || off > 0.0, "{say:?}");
            }
            _ => {}
        }
        let text = words(say).to_lowercase();
        assert!(!text.is_empty(), "no words for {say:?}");
        assert!(
            !text.contains(" sharp") && !text.contains("too flat"),
            "{text}"
        );
    }
}

/// A reading that the ear does not believe in gets no name, unless she gave it one.
fn no_name_is_believed_in_by_no_one(before: &Round, event: &Event, after: &Round) {
    let Event::Heard(Heard::Reading(r)) = event else {
        return;
    };
    let shared = r.string.is_none();
    let belief = r.string_certainty * if shared { 2.0 } else { 1.0 };
    for string in before.plan().strings.iter().map(|s| s.standing.string) {
        if after.kept(string).len() > before.kept(string).len() {
            assert!(r.last, "an early reading was kept");
            assert!(
                belief >= 0.75 || before.pinned() == Some(string),
                "{string} named at {belief}"
            );
        }
    }
}

fn nothing_live_is_kept(before: &Round, event: &Event, after: &Round) {
    if matches!(event, Event::Moving(_)) {
        let kept =
            |round: &Round| -> usize { round.summary().strings.iter().map(|s| s.plucks).sum() };
        assert_eq!(kept(before), kept(after));
    }
}

/// Where two strings a semitone apart are both possible and neither is in hand, asked for, or heard: no direction.
fn two_strings_get_no_direction(said: &[Say]) {
    if said.iter().any(|s| matches!(s, Say::Which(_))) {
        let ways = said
            .iter()
            .filter(|s| matches!(s, Say::Turn(_) | Say::InTune { .. } | Say::Near { .. }));
        assert_eq!(ways.count(), 0, "{said:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn whatever_happens_what_must_hold_holds(steps in steps(), pedals in any::<bool>()) {
        let kind = if pedals { "pedal47" } else { "lever34" };
        let events = run(kind, &steps, |before, event, after, said| {
            nothing_is_lost(before, after);
            no_way_is_wrong(event, after, said);
            no_name_is_believed_in_by_no_one(before, event, after);
            nothing_live_is_kept(before, event, after);
            two_strings_get_no_direction(said);
        });
        // run again from its record, the round says the same
        let (mut once, mut again) = (Round::new(few(kind)), Round::new(few(kind)));
        for event in &events {
            prop_assert_eq!(once.step(event), again.step(event));
        }
        prop_assert_eq!(once, again);
    }

    #[test]
    fn figures_that_are_no_numbers_do_no_harm(hz in prop_oneof![Just(f64::NAN), Just(0.0), Just(-5.0), Just(f64::INFINITY)], at_s in prop_oneof![Just(f64::NAN), Just(1.0)]) {
        let mut round = Round::new(few("pedal47"));
        round.step(&Event::Act { at_s: 0.0, act: Act::Begin });
        let standing = round.plan().strings[3].standing;
        let heard = Reading { heard_hz: hz, ..reading(standing, at_s, 100.0, 1.0) };
        prop_assert_eq!(round.step(&Event::Heard(Heard::Reading(heard))), vec![]);
        let moving = Moving { at_s, string: standing.string, hz, u95_cents: 1.0 };
        prop_assert_eq!(round.step(&Event::Moving(moving)), vec![]);
        prop_assert!(round.kept(standing.string).is_empty());
    }
}

#[test]
fn a_round_run_again_from_its_first_half_goes_on_the_same() {
    let table = "begin |\n pluck 4G -20 |\n move 4G -9 |\n pluck 4G 0 |";
    let (a, b) = (check(plan("lever34"), table), check(plan("lever34"), table));
    assert_eq!(a, b);
}

#[test]
fn every_state_can_be_reached() {
    let round = check(
        plan("pedal47"),
        "begin            |
         pluck 4G 0       |
         pluck 4F -12     |
         pluck 5D -30     |
         move 5D -10      |
         pluck 7D 1 9     |
         skip 5C          |
         broke 3A without |
         by-ear 7C        |
         again 4G         |
         broke 3G new     |",
    );
    let states = [
        ("4A", State::NotYetHeard),
        ("4F", State::BeforeKnown),
        ("5D", State::Moving),
        ("7D", State::Near),
        ("5C", State::Skipped),
        ("3A", State::Broken),
        ("7C", State::InTuneByEar),
        ("4G", State::Again),
        ("3G", State::New),
    ];
    for (string, state) in states {
        assert_eq!(round.state(name(string)), Some(state), "{string}");
    }
    let reached: BTreeSet<State> = states.iter().map(|(_, s)| *s).collect();
    let round = check(plan("pedal47"), "begin |\n pluck 4G 0 |");
    assert_eq!(round.state(name("4G")), Some(State::InTune));
    assert_eq!(reached.len() + 1, 10);
}
