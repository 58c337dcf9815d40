//! One of every event and every act, and what is needed to write them.

use diary::{At, Device, Diary, Entry, HarpKept, RecordId, RoundBegun, RoundOver, StringOver};
use harp::{Harp, OpenTuning, Position, Setting, Setup, StringName};
use pitch::{Letter, ReferencePitch};
use tuning::round::{
    Act, Aside, Estimate, Event, Kept, Moving, Order, Plan, State, Then, Tolerance,
};
use tuning::{Direction, Heard, Partial, Reading, Reason, Refused, Warning, WarningKind};

pub(crate) fn name(text: &str) -> StringName {
    text.parse().unwrap()
}

pub(crate) fn at(text: &str) -> At {
    text.parse().unwrap()
}

pub(crate) fn id(device: &str, seq: u64) -> RecordId {
    let device: Device = device.parse().unwrap();
    RecordId { device, seq }
}

/// The moment of a minute of an evening.
pub(crate) fn minute(minute: u64) -> At {
    at(&format!("2026-11-26T18:{minute:02}:00Z"))
}

pub(crate) fn append(diary: &mut Diary, device: &str, minutes: u64, entry: &Entry) -> RecordId {
    let record = diary.append(device, minute(minutes), entry).unwrap();
    record.id().clone()
}

pub(crate) fn harp_entry(name: &str) -> Entry {
    Entry::Harp(HarpKept {
        harp: name.to_owned(),
        toml: Harp::named("lever34").unwrap().to_toml(),
    })
}

pub(crate) fn begun(harp: &str) -> RoundBegun {
    let (built_in, setup) = (
        Harp::named("pedal47").unwrap(),
        Setup::open(ReferencePitch::A440),
    );
    let plan = Plan::of(&built_in, &setup).unwrap();
    RoundBegun::of(harp, &built_in, &setup, &plan, 0.6)
}

/// A beginning with something in every field.
pub(crate) fn begun_with_all() -> RoundBegun {
    let harp = Harp::named("lever36").unwrap();
    let harp = harp.with_name("Little \"one\", \u{1F3B6} 𝄞\n");
    let harp = harp.with_unmoved(&[name("C2"), name("D2")]).unwrap();
    let setup = Setup {
        reference: ReferencePitch::new(441.3).unwrap(),
        open: Some(OpenTuning::Ab),
        position: Position::Open,
        setting: Some(Setting::from_pairs(&[(Letter::E, 0), (Letter::B, -1)]).unwrap()),
        levers: vec![name("A4")],
        discless: vec![(name("C2"), "Bn1".parse().unwrap())],
    };
    let mut setup = setup;
    // E strings without a lever stand where they are open
    if let Err(error) = harp.standing(&setup) {
        panic!("{error}");
    }
    setup.levers.push(name("D5"));
    let mut plan = Plan::of(&harp, &setup).unwrap();
    plan.order = Order::List(vec![name("A4"), name("C3")]);
    plan.tolerance = Tolerance {
        middle_cents: 2.5,
        outer_cents: 4.0,
    };
    plan.usual_a4_hz = Some(440.0);
    plan.touch_up = Some(vec![name("A4"), name("C3"), name("D5")]);
    plan.strings[7].highest_hz = Some(201.25);
    RoundBegun::of("little", &harp, &setup, &plan, 0.8)
}

pub(crate) fn reading() -> Reading {
    Reading {
        last: true,
        at_s: 12.034_5,
        string: Some(name("G3")),
        candidates: vec![name("G3"), name("F#3")],
        position: Some(pitch::Alteration::Flat),
        target_hz: 184.997_211_355_817_2,
        heard_hz: 183.1,
        off_cents: -17.9,
        u95_cents: 0.31,
        shows_as: "F♯3".to_owned(),
        shows_off_cents: -17.9,
        f1_hz: 183.05,
        f1_u95_cents: 0.4,
        f0_hz: 183.049,
        b: 6.1e-5,
        glide_cents: 0.7,
        partials: vec![
            Partial {
                n: 1,
                hz: 183.05,
                u95_cents: 0.4,
            },
            Partial {
                n: 2,
                hz: 366.2,
                u95_cents: 0.5,
            },
        ],
        listened_s: 0.6,
        string_certainty: 0.991,
        direction: Some(Direction::Up),
        stiffness_cents: 0.47,
        t60_s: None,
        level_dbfs: None,
    }
}

pub(crate) fn acts() -> Vec<Act> {
    let g = name("G3");
    vec![
        Act::Begin,
        Act::ThisOne(g),
        Act::LetGo,
        Act::Skip(g),
        Act::Broke(g, Then::PlayWithout),
        Act::Broke(g, Then::FittedNow),
        Act::Next,
        Act::Again(g),
        Act::NotInTune(g),
        Act::InTuneByEar(g),
        Act::Pause,
        Act::Resume,
        Act::SetTo(name("C1"), "Bn0".parse().unwrap()),
        Act::BetweenPieces,
        Act::MovedOnPurpose(g),
        Act::AsSaid(Letter::B),
        Act::UseA {
            a4_hz: 442.0,
            technician_asked: true,
        },
        Act::Finish,
    ]
}

/// The place of an act's kind among all; a new kind does not compile until it has one.
pub(crate) fn kind_of(act: &Act) -> usize {
    match act {
        Act::Begin => 0,
        Act::ThisOne(_) => 1,
        Act::LetGo => 2,
        Act::Skip(_) => 3,
        Act::Broke(_, Then::PlayWithout) => 4,
        Act::Broke(_, Then::FittedNow) => 5,
        Act::Next => 6,
        Act::Again(_) => 7,
        Act::NotInTune(_) => 8,
        Act::InTuneByEar(_) => 9,
        Act::Pause => 10,
        Act::Resume => 11,
        Act::SetTo(..) => 12,
        Act::BetweenPieces => 13,
        Act::MovedOnPurpose(_) => 14,
        Act::AsSaid(_) => 15,
        Act::UseA { .. } => 16,
        Act::Finish => 17,
    }
}

/// The same for events.
pub(crate) fn kind_of_event(event: &Event) -> usize {
    match event {
        Event::Heard(Heard::Reading(_)) => 0,
        Event::Heard(Heard::Refused(_)) => 1,
        Event::Heard(Heard::Warning(_)) => 2,
        Event::Moving(_) => 3,
        Event::NoteHeld { .. } => 4,
        Event::Order { .. } => 5,
        Event::Act { act, .. } => 6 + kind_of(act),
    }
}

pub(crate) const REASONS: [Reason; 6] = [
    Reason::TooShort,
    Reason::TwoStrings,
    Reason::TooNoisy,
    Reason::AudioBroke,
    Reason::NoString,
    Reason::NotSure,
];

/// An event that came with the second version of their records.
pub(crate) fn ordered() -> Event {
    Event::Order {
        at_s: 19.5,
        strings: vec![name("C4"), name("G3")],
    }
}

pub(crate) fn events() -> Vec<Event> {
    let heard = |heard| Event::Heard(heard);
    let mut events = vec![
        heard(Heard::Reading(reading())),
        heard(Heard::Warning(Warning {
            at_s: 13.0,
            string: None,
            warning: WarningKind::Clipped,
            detail: "7 samples".to_owned(),
        })),
        heard(Heard::Warning(Warning {
            at_s: 13.5,
            string: Some(name("C4")),
            warning: WarningKind::AudioBroke,
            detail: String::new(),
        })),
        Event::Moving(Moving {
            at_s: 13.25,
            string: name("G3"),
            hz: 183.9,
            u95_cents: 1.5,
        }),
        Event::NoteHeld {
            at_s: 20.0,
            note: "A4".parse().unwrap(),
            estimates: vec![
                Estimate {
                    hz: 442.1,
                    u95_cents: 1.0,
                },
                Estimate {
                    hz: 441.9,
                    u95_cents: 1.25,
                },
            ],
        },
    ];
    events.extend(REASONS.map(|reason| {
        heard(Heard::Refused(Refused {
            at_s: 14.0,
            string: Some(name("C4")).filter(|_| reason == Reason::TooShort),
            reason,
            detail: "0.1 s".to_owned(),
        }))
    }));
    events.extend((30..).zip(acts()).map(|(at_s, act)| Event::Act {
        at_s: f64::from(at_s),
        act,
    }));
    events
}

pub(crate) const STATES: [State; 10] = [
    State::NotYetHeard,
    State::BeforeKnown,
    State::Moving,
    State::InTune,
    State::InTuneByEar,
    State::Near,
    State::Skipped,
    State::Broken,
    State::New,
    State::Again,
];

pub(crate) fn over(round: &RecordId) -> RoundOver {
    let kept = |aside| Kept {
        at_s: 12.034_5,
        target_hz: 184.997,
        heard_hz: 183.1,
        off_cents: -17.9,
        u95_cents: 0.31,
        b: None,
        t60_s: None,
        level_dbfs: None,
        aside,
    };
    let strings = STATES.iter().enumerate().map(|(at, state)| StringOver {
        string: StringName::new(Letter::ALL[at % 7], 3),
        before: [None, Some(kept(Some(Aside::Position))), Some(kept(None))][at % 3],
        after: [None, Some(kept(None)), Some(kept(Some(Aside::OldString)))][at % 3],
        plucks: 2 * (at % 3) as u64,
        state: *state,
        fitted: at == 8,
    });
    RoundOver {
        round: round.clone(),
        finished: true,
        minutes: 17.25,
        left: 2,
        again: vec![name("G3")],
        strings: strings.collect(),
    }
}
