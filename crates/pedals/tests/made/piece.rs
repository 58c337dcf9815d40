//! Pieces of our own invention, by a seed: wandering keys, some chromatic notes, chords on beats.
#![allow(dead_code, reason = "each test takes what it needs")]

use pedals::{Attack, Demand, Moment, Quarters, Strength};
use pitch::{Letter, MajorKey, SpelledPitch};

/// A stream of numbers from a seed (splitmix64, S. Vigna, public domain).
pub(crate) struct Dice(pub(crate) u64);

impl Dice {
    /// 0 to `sides` − 1.
    pub(crate) fn roll(&mut self, sides: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        (z ^ (z >> 31)) % sides
    }
}

/// How a piece is made.
pub(crate) struct Making {
    /// Measures of three quarters, twelve moments each.
    pub(crate) measures: u32,
    /// Quarters a minute.
    pub(crate) tempo: u64,
    /// One note in so many is outside the key.
    pub(crate) chromatic: u64,
    /// The key changes every so many measures.
    pub(crate) key_lasts: u32,
}

/// The piece of a seed.
pub(crate) fn piece(making: &Making, seed: u64) -> Demand {
    let mut dice = Dice(seed);
    let mut fifths = dice.roll(9) as i8 - 4;
    let mut moments = Vec::new();
    let sixteenth_us = 15_000_000 / making.tempo;
    for measure in 0..making.measures {
        if measure % making.key_lasts == 0 && measure > 0 {
            fifths = (fifths + dice.roll(5) as i8 - 2).clamp(-6, 6);
        }
        for sixteenth in 0..12 {
            let place = u64::from(measure) * 12 + sixteenth;
            let notes = if sixteenth % 4 == 0 {
                1 + dice.roll(4)
            } else {
                1
            };
            let attacks = (0..notes).map(|_| note(&mut dice, fifths, making.chromatic));
            moments.push(Moment {
                at: Quarters::new(place as i64, 4),
                at_us: place * sixteenth_us,
                measure: measure + 1,
                beat: Quarters::new(4 + sixteenth as i64, 4),
                strength: match sixteenth {
                    0 => Strength::Bar,
                    4 | 8 => Strength::Beat,
                    _ => Strength::Off,
                },
                attacks: attacks.collect(),
                ..Moment::empty()
            });
        }
    }
    Demand {
        moments,
        ..Demand::default()
    }
}

/// The same with every so many measures played twice, the second time right after the first.
pub(crate) fn each_twice(once: &Demand, section: u32) -> Demand {
    let mut all = Demand::default();
    let sections = once
        .moments
        .chunk_by(|a, b| (a.measure - 1) / section == (b.measure - 1) / section);
    let mut begins_us = 0;
    let mut moments = sections.peekable();
    while let Some(own) = moments.next() {
        let from_us = own[0].at_us;
        let until_us = moments.peek().map_or_else(
            || 2 * own[own.len() - 1].at_us - own[own.len() - 2].at_us,
            |next| next[0].at_us,
        );
        for pass in 1..=2 {
            all.moments.extend(own.iter().map(|moment| Moment {
                at_us: begins_us + moment.at_us - from_us,
                pass,
                ..moment.clone()
            }));
            begins_us += until_us - from_us;
        }
    }
    all
}

fn note(dice: &mut Dice, fifths: i8, chromatic: u64) -> Attack {
    let key = MajorKey::new(fifths).unwrap();
    let letter = Letter::ALL[dice.roll(7) as usize];
    let mut alter = key.alteration(letter).semitones();
    if dice.roll(chromatic) == 0 {
        alter = if alter == 0 {
            [-1, 1][dice.roll(2) as usize]
        } else {
            0
        };
    }
    Attack::of(SpelledPitch {
        letter,
        alter,
        octave: 2 + dice.roll(4) as i8,
    })
}
