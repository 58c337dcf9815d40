//! Every thing that can be said, each with figures and names of our own invention.

use harp::StringName;
use pitch::{Alteration, Letter, SpelledPitch};
use tuning::round::{
    Amount, Limit, Raise, Say, State, TakeError, TakenA, Then, Turn, Warning, Why,
};
use tuning::{Direction, Reason, WarningKind};

pub(crate) const WAYS: [Direction; 3] = [Direction::Up, Direction::Down, Direction::There];
pub(crate) const AMOUNTS: [Amount; 4] = [Amount::Hair, Amount::Little, Amount::More, Amount::Half];
pub(crate) const REASONS: [Reason; 6] = [
    Reason::TooShort,
    Reason::TwoStrings,
    Reason::TooNoisy,
    Reason::AudioBroke,
    Reason::NoString,
    Reason::NotSure,
];
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

/// All of it.
pub(crate) fn says() -> Vec<Say> {
    let mut all = of_the_round();
    all.extend(of_one_string());
    all.extend(of_the_a());
    all.extend(warnings().into_iter().map(Say::Warning));
    all
}

/// Which kind it is: a new kind does not compile until it has a place here, and a sample above.
pub(crate) fn kind(say: &Say) -> usize {
    match say {
        Say::Begun { .. } => 0,
        Say::SecondBest { .. } => 1,
        Say::AskPitch(_) => 2,
        Say::Next { .. } => 3,
        Say::Left { .. } => 4,
        Say::Sounds { .. } => 5,
        Say::Turn(_) => 6,
        Say::InTune { .. } => 7,
        Say::Near { .. } => 8,
        Say::PluckStill(_) => 9,
        Say::Which(_) => 10,
        Say::NotRead { .. } => 11,
        Say::Sound(_) => 12,
        Say::Moving { .. } => 13,
        Say::Enough(_) => 14,
        Say::ReachedForNow { .. } => 15,
        Say::Holds(_) => 16,
        Say::Again { .. } => 17,
        Say::Offer(_) => 18,
        Say::WillStand(..) => 19,
        Say::Broke(..) => 20,
        Say::Pinned(_) => 21,
        Say::LetGo => 22,
        Say::Skipped(_) => 23,
        Say::Undone(_) => 24,
        Say::ByEar(_) => 25,
        Say::OnPurpose(_) => 26,
        Say::NotHere(_) => 27,
        Say::Paused => 28,
        Say::Resumed => 29,
        Say::TheA { .. } => 30,
        Say::NoA(_) => 31,
        Say::AskTechnician(_) => 32,
        Say::Uses(_) => 33,
        Say::AllHeard => 34,
        Say::Finished => 35,
        Say::Warning(warning) => 36 + kind_of_warning(warning),
    }
}

/// How many kinds there are.
pub(crate) const KINDS: usize = 44;

fn kind_of_warning(warning: &Warning) -> usize {
    match warning {
        Warning::PedalUp { .. } => 0,
        Warning::LeverOff { .. } => 1,
        Warning::FoundHigh { .. } => 2,
        Warning::KeyElsewhere { .. } => 3,
        Warning::OctaveHigh { .. } => 4,
        Warning::Reference { .. } => 5,
        Warning::AnotherMoves { .. } => 6,
        Warning::OverPull { .. } => 7,
    }
}

pub(crate) fn name(text: &str) -> StringName {
    text.parse().unwrap()
}

fn pitch(text: &str) -> SpelledPitch {
    text.parse().unwrap()
}

fn some(count: usize) -> Vec<StringName> {
    ["G3", "F3", "E3", "B3"].map(name)[..count].to_vec()
}

fn of_the_round() -> Vec<Say> {
    let (string, strings) = (name("G3"), 47);
    let mut all = vec![
        Say::Begun { strings },
        Say::Begun { strings: 1 },
        Say::AskPitch(some(1)),
        Say::AskPitch(some(2)),
        Say::Again {
            strings: some(3),
            moved_cents: 61.7,
        },
        Say::Offer(vec![(name("C1"), pitch("Cb1")), (name("G7"), pitch("G7"))]),
        Say::LetGo,
        Say::Paused,
        Say::Resumed,
        Say::AllHeard,
        Say::Finished,
        Say::Sound(WarningKind::Clipped),
        Say::Sound(WarningKind::AudioBroke),
    ];
    for (touch_up, open) in [(true, true), (true, false), (false, true), (false, false)] {
        all.push(Say::SecondBest { touch_up, open });
    }
    for why in [Why::InOrder, Why::Asked, Why::New, Why::Again] {
        all.push(Say::Next { string, why });
    }
    for minutes in [None, Some(0.4), Some(7.2)] {
        all.push(Say::Left { strings, minutes });
    }
    for reason in REASONS {
        for string in [None, Some(string)] {
            all.push(Say::NotRead { string, reason });
        }
    }
    all.extend((0..=4).map(|count| Say::Which(some(count))));
    all
}

fn of_one_string() -> Vec<Say> {
    let (string, u95_cents) = (name("B3"), 1.4);
    let mut all = vec![
        Say::PluckStill(string),
        Say::Enough(string),
        Say::Holds(string),
        Say::WillStand(string, pitch("Bb3")),
        Say::Broke(string, Then::PlayWithout),
        Say::Broke(string, Then::FittedNow),
        Say::Pinned(string),
        Say::Skipped(string),
        Say::Undone(string),
        Say::ByEar(string),
        Say::OnPurpose(string),
        Say::NotHere(string),
    ];
    for octave_above in [None, Some(name("B4"))] {
        all.push(Say::Near {
            string,
            off_cents: 1.0,
            u95_cents: 6.25,
            octave_above,
        });
    }
    for off_cents in [
        -480.3, -33.25, -12.0, -1.5, 0.0, 0.2, 1.96, 12.0, 33.25, 100.5,
    ] {
        let way = match off_cents {
            off if off < 0.0 => Direction::Up,
            off if off > 0.0 => Direction::Down,
            _ => Direction::There,
        };
        all.push(Say::Sounds {
            string,
            off_cents,
            u95_cents,
        });
        all.push(Say::InTune {
            string,
            off_cents,
            u95_cents,
        });
        all.push(Say::ReachedForNow {
            string,
            off_cents,
            u95_cents,
        });
        all.push(Say::Moving {
            string,
            off_cents,
            u95_cents,
            way,
        });
        all.extend([false, true].map(|climbing| {
            Say::Turn(Turn {
                string,
                way,
                amount: Amount::of(off_cents),
                by_cents: Amount::at_once(off_cents),
                off_cents,
                u95_cents,
                climbing,
            })
        }));
    }
    all
}

fn of_the_a() -> Vec<Say> {
    let taken = TakenA {
        heard_hz: 442.1,
        u95_cents: 1.2,
        a4_hz: 442.0,
    };
    let mut all = vec![
        Say::Uses(442.5),
        Say::AskTechnician(Raise::between(432.0, 442.0)),
    ];
    for usual in [None, Some(441.0), Some(432.0)] {
        for strings in [0, 1, 3] {
            all.push(Say::TheA {
                taken,
                raise: usual.map(|usual| Raise::between(usual, 442.0)),
                strings: some(strings),
            });
        }
    }
    all.extend([
        Say::NoA(TakeError::TooShort { estimates: 4 }),
        Say::NoA(TakeError::Unsteady { u95_cents: 8.4 }),
        Say::NoA(TakeError::OutOfRange { a4_hz: 500.0 }),
    ]);
    all
}

fn warnings() -> Vec<Warning> {
    let string = name("G3");
    let mut all = vec![
        Warning::LeverOff { string },
        Warning::FoundHigh {
            string,
            off_cents: 41.5,
        },
        Warning::KeyElsewhere { string, plucks: 3 },
        Warning::OctaveHigh {
            expected: name("C2"),
            heard_as: name("C3"),
        },
        Warning::Reference {
            off_cents: -31.8,
            a4_hz: 432.0,
            strings: 6,
        },
        Warning::AnotherMoves {
            expected: string,
            moving: name("A3"),
            by_cents: 9.5,
        },
    ];
    for limit in [Limit::AboveTarget(30.0), Limit::HighestKnown(200.0)] {
        all.push(Warning::OverPull {
            string,
            off_cents: 38.5,
            limit,
        });
    }
    for (semitones, position) in [(1, Alteration::Flat), (2, Alteration::Natural)] {
        for count in [1, 3] {
            all.push(Warning::PedalUp {
                letter: Letter::B,
                semitones,
                position,
                strings: some(count),
            });
        }
    }
    all
}
