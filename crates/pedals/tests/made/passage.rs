//! Random passages and wishes for tests.
#![allow(
    dead_code,
    clippy::disallowed_methods,
    reason = "each test takes what it needs"
)]

use harp::Setting;
use pedals::{
    Attack, Broken, Demand, Feet, Hand, Moment, Pin, Spelling, Strength, Weights, Wishes,
};
use pitch::{Alteration, Letter, SpelledPitch};
use proptest::prelude::*;

/// How many cases each property is tried on; with `SEVENFLATS_LONG` twenty times as many.
pub(crate) fn cases(usual: u32) -> u32 {
    if std::env::var("SEVENFLATS_LONG").is_ok() {
        20 * usual
    } else {
        usual
    }
}

/// Moments from times and note names.
pub(crate) fn of(moments: &[(u64, &[&str])]) -> Vec<Moment> {
    let of = |&(at_us, notes): &(u64, &[&str])| Moment {
        at_us,
        attacks: notes
            .iter()
            .map(|n| Attack::of(n.parse().unwrap()))
            .collect(),
        ..Moment::empty()
    };
    moments.iter().map(of).collect()
}

fn letters() -> impl Strategy<Value = Letter> {
    (0_usize..7).prop_map(|index| Letter::ALL[index])
}

fn alterations() -> impl Strategy<Value = Alteration> {
    (0_usize..3).prop_map(|index| Alteration::ALL[index])
}

fn attacks() -> impl Strategy<Value = Attack> {
    let alter = prop_oneof![8 => -1_i8..=1, 1 => Just(2_i8), 1 => Just(-2_i8)];
    let octave = prop_oneof![6 => 2_i8..6, 1 => Just(1_i8), 1 => Just(7_i8)];
    let rings = prop_oneof![3 => Just(u64::MAX), 1 => 0_u64..500_000];
    let hand = prop_oneof![Just(None), Just(Some(Hand::Left)), Just(Some(Hand::Right))];
    (letters(), alter, octave, rings, hand).prop_map(|(letter, alter, octave, rings_us, hand)| {
        Attack {
            pitch: SpelledPitch {
                letter,
                alter,
                octave,
            },
            rings_us,
            hand,
        }
    })
}

fn settings() -> impl Strategy<Value = Setting> {
    let pairs = proptest::collection::vec((letters(), alterations()), 0..3);
    prop_oneof![
        9 => Just(Setting::default()),
        1 => pairs.prop_map(|pairs| pairs.into_iter().fold(Setting::default(), |s, (l, a)| s.with(l, a))),
    ]
}

fn moments(widest_us: u64) -> impl Strategy<Value = Moment> {
    let strength = prop_oneof![
        Just(Strength::Bar),
        Just(Strength::Beat),
        Just(Strength::Off)
    ];
    let notes = proptest::collection::vec(attacks(), 0..4);
    (
        1..widest_us,
        notes,
        strength,
        proptest::bool::weighted(0.2),
        proptest::bool::weighted(0.1),
        settings(),
        settings(),
    )
        .prop_map(
            |(at_us, attacks, strength, rest, damped, glissando, marks)| Moment {
                at_us,
                rest: rest && attacks.is_empty(),
                attacks,
                strength,
                damped,
                glissando,
                marks,
                ..Moment::empty()
            },
        )
}

/// Passages of so many moments, no two further apart than that.
pub(crate) fn passages(most: usize, widest_us: u64) -> impl Strategy<Value = Demand> {
    proptest::collection::vec(moments(widest_us), 1..=most).prop_map(|mut moments| {
        let mut now = 0;
        for moment in &mut moments {
            now += moment.at_us;
            moment.at_us = now;
        }
        Demand {
            moments,
            ..Demand::default()
        }
    })
}

/// What wishes differ in.
#[derive(Clone, Debug)]
pub(crate) struct Changed {
    pub(crate) fewest: bool,
    pub(crate) one_notch_us: u64,
    pub(crate) crossing: bool,
    pub(crate) together: bool,
    pub(crate) written: bool,
    pub(crate) any_octave: bool,
    pub(crate) opening: Setting,
    pub(crate) stuck: Option<(Letter, Alteration)>,
    pub(crate) pin: Option<(usize, Letter, Alteration)>,
}

/// Prices of every kind, none of them sensible.
pub(crate) fn weights() -> impl Strategy<Value = Weights> {
    let small = || prop_oneof![1 => Just(0_u32), 4 => 0_u32..3_000];
    let great = || prop_oneof![2_000_u64..200_000, 0_u64..4_000];
    let small = proptest::array::uniform8(small());
    (great(), great(), small, 0_u32..20_000).prop_map(|(lost, glissando, small, differ)| {
        let [
            respelled,
            moved,
            two_notches,
            off_beat,
            ringing,
            crossing,
            together,
            mark,
        ] = small;
        Weights {
            lost,
            glissando,
            respelled,
            moved,
            two_notches,
            off_beat,
            ringing,
            crossing,
            together,
            mark,
            retuned: 10_000,
            passes_differ: differ,
        }
    })
}

/// Wishes of every kind.
pub(crate) fn wishes() -> impl Strategy<Value = Changed> {
    let times = prop_oneof![Just(0), Just(150_000), Just(400_000), 1_u64..600_000];
    let stuck = proptest::option::weighted(0.1, (letters(), alterations()));
    let pin = proptest::option::weighted(0.2, (0_usize..12, letters(), alterations()));
    let flags = proptest::array::uniform5(any::<bool>());
    (times, flags, settings(), stuck, pin).prop_map(
        |(one_notch_us, [fewest, crossing, together, written, any_octave], opening, stuck, pin)| {
            Changed {
                fewest,
                one_notch_us,
                crossing,
                together,
                written,
                any_octave,
                opening,
                stuck,
                pin,
            }
        },
    )
}

impl Changed {
    /// The wishes for a piece.
    pub(crate) fn on(&self, demand: &Demand) -> Wishes {
        let wishes = if self.fewest {
            Wishes::fewest(demand)
        } else {
            Wishes::comfortable()
        };
        Wishes {
            feet: Feet {
                crossing: self.crossing,
                together: self.together,
                ..Feet::with_least_time(self.one_notch_us)
            },
            spelling: if self.written {
                Spelling::Written
            } else {
                Spelling::Free
            },
            any_octave: self.any_octave,
            opening: self.opening,
            broken: Broken {
                stuck: self.stuck.into_iter().collect(),
                ..Broken::default()
            },
            pins: self
                .pin
                .iter()
                .map(|&(moment, letter, alteration)| Pin {
                    moment,
                    letter,
                    alteration,
                })
                .collect(),
            ..wishes
        }
    }
}
