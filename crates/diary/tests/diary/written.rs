//! What a [`Writer`] writes is what a diary writes, and no line of it is read back as anything else, or not at all.

use diary::{
    Diary, Entry, HIGHEST_SEQ, HarpKept, Record, RecordId, RoundBegun, RoundEvents, RoundOver,
    StringOver, Writer,
};
use harp::{Harp, HarpKind, OpenTuning, Position, Setting, Setup, StringName};
use pitch::{Alteration, Letter, ReferencePitch, SpelledPitch};
use proptest::prelude::*;
use tuning::round::{Act, Aside, Event, Kept, Order, Plan, Tolerance};

use crate::any_events::{any_event, figure, spelled, string};
use crate::samples::{STATES, at, begun_with_all, events, harp_entry, id, over};

/// Writes an entry without a diary and reads the line: everything in it is as it was, and a diary writes the same line.
/// What is no number equals nothing, and is compared as it is shown.
#[track_caller]
pub(crate) fn check(entry: &Entry) {
    let now = at("2026-11-26T18:40:00.5Z");
    let mut writer = Writer::new("a device", 1).unwrap();
    let line = writer.line(&now, entry).unwrap();
    assert_eq!(writer.next(), &id("a device", 2));
    let record = Record::parse(&line).unwrap();
    assert_eq!(record.line(), line);
    assert_eq!((record.id(), record.at()), (&id("a device", 1), &now));
    let read = record.entry().unwrap();
    assert_eq!(format!("{read:?}"), format!("{entry:?}"));
    let mut diary = Diary::default();
    assert_eq!(diary.append("a device", now, entry).unwrap().line(), line);
}

#[track_caller]
fn check_refused(entry: &Entry) {
    let mut writer = Writer::new("phone", 4).unwrap();
    let refused = writer.line(&at("2026-11-26T18:40:00Z"), entry);
    assert!(refused.is_err(), "{entry:?}");
    assert_eq!(writer.next().seq, 4, "its place stays free");
}

#[test]
fn one_of_every_entry_and_event_is_written_as_a_diary_writes_it() {
    check(&harp_entry("little"));
    check(&Entry::Round(begun_with_all()));
    check(&Entry::RoundOver(over(&id("phone", 3))));
    for entry in Entry::round_events(&id("phone", 3), 5, &events()) {
        check(&entry);
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
    let c4 = StringName::new(Letter::C, 4);
    for act in [Act::SetTo(c4, no_pitch), Act::Skip(no_string)] {
        check_refused(&Entry::RoundEvents(RoundEvents {
            round: id("phone", 3),
            first: 0,
            events: vec![Event::Act { at_s: 1.0, act }],
        }));
    }
    let mut begun = begun_with_all();
    begun.order = Order::FromMiddle(no_string);
    check_refused(&Entry::Round(begun));
    let long = HarpKept {
        harp: "long".to_owned(),
        toml: "#".repeat(diary::LONGEST_LINE),
    };
    check_refused(&Entry::Harp(long));
}

#[test]
fn a_device_writes_no_further_than_its_last_place() {
    let now = at("2026-11-26T18:40:00Z");
    let mut writer = Writer::new("phone", HIGHEST_SEQ).unwrap();
    let line = writer.line(&now, &harp_entry("little")).unwrap();
    assert_eq!(Record::parse(&line).unwrap().id().seq, HIGHEST_SEQ);
    assert!(writer.line(&now, &harp_entry("little")).is_err());
    assert!(Writer::new("", 1).is_err());
}

fn record_id() -> impl Strategy<Value = RecordId> {
    ("[^\\p{Cc}]{1,12}", any::<u64>()).prop_map(|(device, seq)| id(&device, seq))
}

fn order() -> impl Strategy<Value = Order> {
    prop_oneof![
        string().prop_map(Order::FromMiddle),
        Just(Order::MiddleOctave),
        Just(Order::FromBass),
        Just(Order::Letters),
        Just(Order::Octaves),
        prop::collection::vec(string(), 0..5).prop_map(Order::List),
    ]
}

fn setup() -> impl Strategy<Value = Setup> {
    let open = proptest::option::of(0usize..OpenTuning::ALL.len());
    let setting = proptest::option::of(prop::collection::vec(proptest::option::of(0usize..3), 7));
    let levers = prop::collection::vec(string(), 0..4);
    let discless = prop::collection::vec((string(), spelled()), 0..4);
    let all = (380.0..480.0f64, open, 0usize..3, setting, levers, discless);
    all.prop_map(|(a4_hz, open, position, setting, levers, discless)| Setup {
        reference: ReferencePitch::new(a4_hz).unwrap(),
        open: open.map(|o| OpenTuning::ALL[o]),
        position: [Position::Open, Position::Natural, Position::Sharp][position],
        setting: setting.map(|places| {
            let named = Letter::ALL.into_iter().zip(places);
            named.fold(Setting::default(), |setting, (letter, place)| match place {
                Some(place) => setting.with(letter, Alteration::ALL[place]),
                None => setting,
            })
        }),
        levers,
        discless,
    })
}

fn any_begun() -> impl Strategy<Value = RoundBegun> {
    let strings = || prop::collection::vec(string(), 0..5);
    let highest = prop::collection::vec((string(), figure()), 0..4);
    let figures = (figure(), figure(), figure(), proptest::option::of(figure()));
    let all = (
        any::<String>(),
        any::<String>(),
        setup(),
        order(),
        figures,
        proptest::option::of(strings()),
        highest,
    );
    all.prop_map(
        |(harp, toml, setup, order, figures, touch_up, highest_hz)| RoundBegun {
            harp,
            toml,
            setup,
            order,
            tolerance: Tolerance {
                middle_cents: figures.0,
                outer_cents: figures.1,
            },
            listen_s: figures.2,
            usual_a4_hz: figures.3,
            touch_up,
            highest_hz,
        },
    )
}

fn kept() -> impl Strategy<Value = Option<Kept>> {
    let asides = [None, Some(Aside::Position), Some(Aside::OldString)];
    let figures = prop::collection::vec(figure(), 5);
    let beside = [0; 3].map(|_| proptest::option::of(figure()));
    let parts = (figures, 0usize..3, beside);
    proptest::option::of(
        parts.prop_map(move |(f, aside, [b, t60_s, level_dbfs])| Kept {
            at_s: f[0],
            target_hz: f[1],
            heard_hz: f[2],
            off_cents: f[3],
            u95_cents: f[4],
            b,
            t60_s,
            level_dbfs,
            aside: asides[aside],
        }),
    )
}

fn any_over() -> impl Strategy<Value = RoundOver> {
    let one = (
        string(),
        kept(),
        kept(),
        any::<u64>(),
        0..STATES.len(),
        any::<bool>(),
    );
    let one = one.prop_map(
        |(string, before, after, plucks, state, fitted)| StringOver {
            string,
            before,
            after,
            plucks,
            state: STATES[state],
            fitted,
        },
    );
    let strings = prop::collection::vec(one, 0..6);
    let again = prop::collection::vec(string(), 0..4);
    let all = (
        record_id(),
        any::<bool>(),
        figure(),
        any::<u64>(),
        again,
        strings,
    );
    all.prop_map(
        |(round, finished, minutes, left, again, strings)| RoundOver {
            round,
            finished,
            minutes,
            left,
            again,
            strings,
        },
    )
}

/// A harp as it can be chosen before a round: kind, compass, open key, strings that nothing moves.
fn chosen_harp() -> impl Strategy<Value = Harp> {
    let open = proptest::option::of(0usize..OpenTuning::ALL.len());
    let all = (any::<bool>(), 0i8..28, 0i8..50, open, any::<u64>());
    all.prop_map(|(is_pedal, lowest, size, open, unmoved)| {
        let kind = if is_pedal {
            HarpKind::Pedal
        } else {
            HarpKind::Lever
        };
        let nth = |n: i8| StringName::new(Letter::ALL[usize::try_from(n % 7).unwrap()], n / 7);
        let harp = Harp::between(kind, nth(lowest), nth((lowest + size).min(54))).unwrap();
        let open = open.map(|open| OpenTuning::ALL[open]);
        let harp = match open.filter(|open| !is_pedal && *open != OpenTuning::Cb) {
            Some(open) => harp.with_open(open).unwrap(),
            None => harp,
        };
        let names = harp.strings().iter().map(|s| s.name).enumerate();
        let unmoved: Vec<StringName> = names
            .filter(|(at, _)| unmoved >> (at % 64) & 1 == 1)
            .map(|(_, name)| name)
            .collect();
        harp.with_unmoved(&unmoved).unwrap()
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn any_events_are_written_as_themselves(
        round in record_id(),
        first in any::<u64>(),
        events in prop::collection::vec(any_event(), 0..12),
    ) {
        check(&Entry::RoundEvents(RoundEvents { round, first, events }));
    }

    #[test]
    fn any_beginning_is_written_as_itself(begun in any_begun()) {
        check(&Entry::Round(begun));
    }

    #[test]
    fn any_end_is_written_as_itself(over in any_over()) {
        check(&Entry::RoundOver(over));
    }

    #[test]
    fn any_harp_and_its_name_are_written_as_themselves(harp in any::<String>(), toml in any::<String>()) {
        check(&Entry::Harp(HarpKept { harp, toml }));
    }

    #[test]
    fn any_chosen_harp_is_read_from_the_beginning_of_its_round(harp in chosen_harp(), name in any::<String>()) {
        let setup = Setup::open(ReferencePitch::A440);
        let plan = Plan::of(&harp, &setup).unwrap();
        let begun = RoundBegun::of(&name, &harp, &setup, &plan, 0.6);
        let read = Harp::from_toml(&begun.toml);
        prop_assert_eq!(read.as_ref(), Ok(&harp));
        prop_assert_eq!(begun.plan(), Ok(plan));
        check(&Entry::Round(begun));
    }
}
