//! What is written is read back as itself, to the last bit, whatever it is.

use std::collections::BTreeSet;

use diary::{Diary, Entry, LONGEST_LINE, MOST_EVENTS, Record, RoundEvents};
use harp::StringName;
use pitch::{Letter, SpelledPitch};
use proptest::prelude::*;
use tuning::round::{Act, Estimate, Event, Moving};
use tuning::{Heard, Partial, Reading, Refused};

use crate::samples::{
    REASONS, acts, at, begun, begun_with_all, events, harp_entry, id, kind_of_event, ordered, over,
    reading,
};

/// Writes an entry, reads the line, and compares all that is there; what is no number equals nothing, so as it is shown.
#[track_caller]
fn check(entry: &Entry) -> Record {
    let mut diary = Diary::default();
    let record = diary.append("a device", at("2026-11-26T18:40:00.5Z"), entry);
    let record = record.unwrap().clone();
    let read = Record::parse(record.line()).unwrap();
    assert_eq!(read, record);
    let read = read.entry().unwrap();
    assert_eq!(format!("{read:?}"), format!("{entry:?}"));
    record
}

fn of(events: Vec<Event>) -> Entry {
    Entry::RoundEvents(RoundEvents {
        round: id("phone", 3),
        first: 0,
        events,
    })
}

#[test]
fn one_of_every_event_is_read_back() {
    let mut all = events();
    all.push(ordered());
    let kinds: BTreeSet<usize> = all.iter().map(kind_of_event).collect();
    assert_eq!(kinds, (0..6 + acts().len()).collect(), "one of every kind");
    check(&of(all));
}

#[test]
fn one_of_every_entry_is_read_back() {
    check(&harp_entry("little"));
    check(&Entry::Round(begun("big")));
    check(&Entry::Round(begun_with_all()));
    check(&Entry::RoundOver(over(&id("phone", 3))));
}

#[test]
fn a_beginning_makes_its_plan_again() {
    let begun = begun_with_all();
    let plan = begun.plan().unwrap();
    assert_eq!(plan.strings.len(), 36);
    let again = check(&Entry::Round(begun));
    let Some(Entry::Round(again)) = again.entry() else {
        panic!("another entry");
    };
    assert_eq!(again.plan(), Ok(plan));
}

#[test]
fn the_longest_batch_of_long_readings_is_a_line() {
    let partial = |n| Partial {
        n,
        hz: 1_234.567_890_123_456_7 * f64::from(n),
        u95_cents: 0.123_456_789_012_345_67,
    };
    let long = Reading {
        partials: (1..=40).map(partial).collect(),
        ..reading()
    };
    let many = vec![Event::Heard(Heard::Reading(long)); 2 * MOST_EVENTS + 1];
    let entries = Entry::round_events(&id("phone", 3), 5, &many);
    let firsts: Vec<(u64, usize)> = (entries.iter())
        .map(|e| match e {
            Entry::RoundEvents(part) => (part.first, part.events.len()),
            _ => panic!("another entry"),
        })
        .collect();
    assert_eq!(firsts, [(5, 400), (405, 400), (805, 1)]);
    let line = check(&entries[0]).line().len();
    assert!(2 * line < LONGEST_LINE, "{line} bytes");
}

pub(crate) fn string() -> impl Strategy<Value = StringName> {
    let any = (0usize..7, any::<bool>(), 0i8..8);
    any.prop_map(|(letter, sharp, octave)| StringName {
        letter: Letter::ALL[letter],
        sharp: sharp && ![2, 6].contains(&letter),
        octave,
    })
}

pub(crate) fn spelled() -> impl Strategy<Value = SpelledPitch> {
    let any = (0usize..7, -2i8..=2, -1i8..=9);
    any.prop_map(|(letter, alter, octave)| SpelledPitch {
        letter: Letter::ALL[letter],
        alter,
        octave,
    })
}

pub(crate) fn figure() -> impl Strategy<Value = f64> {
    prop_oneof![3 => prop::num::f64::ANY, 1 => -1e4..1e4f64, 1 => Just(0.1 + 0.2)]
}

fn any_reading() -> impl Strategy<Value = Event> {
    let figures = prop::collection::vec(figure(), 14);
    let partials = prop::collection::vec((any::<u32>(), figure(), figure()), 0..6);
    let strings = prop::collection::vec(string(), 0..4);
    let all = (any::<bool>(), figures, partials, strings, any::<String>());
    all.prop_map(|(last, f, partials, strings, shows_as)| {
        Event::Heard(Heard::Reading(Reading {
            last,
            at_s: f[0],
            string: strings.first().copied(),
            candidates: strings,
            target_hz: f[1],
            heard_hz: f[2],
            off_cents: f[3],
            u95_cents: f[4],
            shows_as,
            shows_off_cents: f[5],
            f1_hz: f[6],
            f1_u95_cents: f[7],
            f0_hz: f[8],
            b: f[9],
            glide_cents: f[10],
            partials: (partials.into_iter())
                .map(|(n, hz, u95_cents)| Partial { n, hz, u95_cents })
                .collect(),
            listened_s: f[11],
            string_certainty: f[4],
            stiffness_cents: f[3],
            t60_s: Some(f[12]).filter(|_| last),
            level_dbfs: Some(f[13]).filter(|_| last),
            direction: None,
            position: None,
        }))
    })
}

pub(crate) fn any_event() -> impl Strategy<Value = Event> {
    let refused = (
        figure(),
        proptest::option::of(string()),
        0usize..6,
        any::<String>(),
    );
    let refused = refused.prop_map(|(at_s, string, reason, detail)| {
        Event::Heard(Heard::Refused(Refused {
            at_s,
            string,
            reason: REASONS[reason],
            detail,
        }))
    });
    let moving = (figure(), string(), figure(), figure());
    let moving = moving.prop_map(|(at_s, string, hz, u95_cents)| {
        Event::Moving(Moving {
            at_s,
            string,
            hz,
            u95_cents,
        })
    });
    let held = prop::collection::vec((figure(), figure()), 0..20);
    let held = (figure(), spelled(), held).prop_map(|(at_s, note, held)| Event::NoteHeld {
        at_s,
        note,
        estimates: (held.into_iter())
            .map(|(hz, u95_cents)| Estimate { hz, u95_cents })
            .collect(),
    });
    let act = (figure(), 0..acts().len(), string(), spelled(), figure());
    let act = act.prop_map(|(at_s, which, string, pitch, a4_hz)| Event::Act {
        at_s,
        act: match acts()[which] {
            Act::ThisOne(_) => Act::ThisOne(string),
            Act::Broke(_, then) => Act::Broke(string, then),
            Act::SetTo(..) => Act::SetTo(string, pitch),
            Act::UseA { .. } => Act::UseA {
                a4_hz,
                technician_asked: false,
            },
            other => other,
        },
    });
    let order = (figure(), prop::collection::vec(string(), 0..8));
    let order = order.prop_map(|(at_s, strings)| Event::Order { at_s, strings });
    prop_oneof![any_reading(), refused, moving, held, order, act]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn any_events_are_read_back(events in prop::collection::vec(any_event(), 0..12)) {
        check(&of(events));
    }
}

#[test]
fn what_would_be_read_back_as_something_else_is_not_written() {
    let no_pitch = SpelledPitch {
        letter: Letter::C,
        alter: 3,
        octave: 4,
    };
    let no_string = StringName {
        letter: Letter::E,
        sharp: true,
        octave: 4,
    };
    let mut diary = Diary::default();
    for act in [
        Act::SetTo(StringName::new(Letter::C, 4), no_pitch),
        Act::Skip(no_string),
    ] {
        let event = Event::Act { at_s: 1.0, act };
        let refused = diary.append("phone", at("2026-11-26T18:40:00Z"), &of(vec![event]));
        assert!(refused.is_err(), "{act:?}");
    }
    assert_eq!(diary.records().count(), 0);
}
