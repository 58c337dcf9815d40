//! What a moment asks of the seven pedals, as prices: a table for each pair of neighbouring
//! letters, since a sound has at most two names and these are neighbours.

use pitch::Letter;

use crate::code::{Code, place, places_of};
use crate::ways::{By, Strings, Way};
use crate::{Demand, Moment, Spelling, Wishes};

/// A broken pin outweighs everything.
pub(crate) const PIN: u64 = 1 << 44;

/// Prices by the places of a letter and of the next one, C D, D E … B C.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Pair {
    /// The first letter's index; the second is the next, B before C.
    pub(crate) first: usize,
    /// By place of the first × 3 + place of the second.
    pub(crate) price: [u64; 9],
}

/// What a moment costs in each setting.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Asked {
    /// What it costs in any.
    pub(crate) constant: u64,
    /// What it costs beside; the least of each table is 0.
    pub(crate) pairs: Vec<Pair>,
    /// The letters on which it depends, a bit for each index.
    pub(crate) uses: u8,
}

impl Asked {
    /// The price of the moment in a setting.
    pub(crate) fn price(&self, code: Code) -> u64 {
        let places = places_of(code);
        self.pairs.iter().fold(self.constant, |sum, pair| {
            let second = (pair.first + 1) % 7;
            sum + pair.price[usize::from(places[pair.first] * 3 + places[second])]
        })
    }

    pub(crate) fn uses(&self, letter: usize) -> bool {
        self.uses & 1 << letter != 0
    }

    /// The same with a letter held to a place, for a price.
    pub(crate) fn held(&self, letter: usize, place: u8, price: u64) -> Self {
        let mut tables = Tables {
            constant: self.constant,
            ..Tables::default()
        };
        for pair in &self.pairs {
            tables.price[pair.first] = pair.price;
        }
        tables.letter(letter, place, price);
        tables.done()
    }
}

/// What every moment asks; `tuned` says which key number a string without discs has there.
pub(crate) fn asked(
    demand: &Demand,
    strings: &Strings,
    wishes: &Wishes,
    tuned: impl Fn(usize, usize) -> Option<i32>,
) -> Vec<Asked> {
    let mut all: Vec<Tables> = Vec::with_capacity(demand.moments.len());
    for (index, moment) in demand.moments.iter().enumerate() {
        let mut tables = Tables::default();
        for attack in &moment.attacks {
            let ways = allowed_ways(moment, attack.pitch, strings, wishes);
            let midi = attack.pitch.midi();
            let prices = (wishes.weights.respelled.into(), wishes.weights.lost);
            tables.note(&ways, prices, |string| tuned(index, string) == Some(midi));
        }
        for &written in &moment.tremolo {
            let ways = allowed_ways(moment, written, strings, wishes);
            let prices = (0, wishes.weights.glissando);
            tables.note(&ways, prices, |string| {
                tuned(index, string) == Some(written.midi())
            });
        }
        for letter in Letter::ALL {
            if let Some(wanted) = moment.glissando.get(letter) {
                tables.letter(letter.index(), place(wanted), wishes.weights.glissando);
            }
            if let Some(marked) = moment.marks.get(letter) {
                let price = u64::from(wishes.weights.mark);
                tables.letter(letter.index(), place(marked), price);
            }
            if let Some(open) = wishes.opening.get(letter).filter(|_| index == 0) {
                tables.letter(letter.index(), place(open), PIN);
            }
        }
        all.push(tables);
    }
    for pin in &wishes.pins {
        if let Some(tables) = all.get_mut(pin.moment) {
            tables.letter(pin.letter.index(), place(pin.alteration), PIN);
        }
    }
    all.into_iter().map(Tables::done).collect()
}

/// The ways that the spelling rule leaves a note.
pub(crate) fn allowed_ways(
    moment: &Moment,
    written: pitch::SpelledPitch,
    strings: &Strings,
    wishes: &Wishes,
) -> Vec<Way> {
    let mut ways = strings.ways(written);
    let stuck = |way: &Way| match way.by {
        By::Pedal { place: at } => wishes
            .broken
            .stuck
            .iter()
            .any(|&(letter, where_)| letter == way.string.letter && place(where_) != at),
        By::Key { .. } => false,
    };
    ways.retain(|way| !stuck(way));
    let attacks = moment.attacks.iter().map(|attack| attack.pitch);
    let mut others = attacks.chain(moment.tremolo.iter().copied());
    let clash = others.any(|other| other.letter == written.letter && other.alter != written.alter);
    let written_stands = ways.first().is_some_and(|way| !way.respelled);
    if wishes.spelling == Spelling::Written && written_stands && !clash {
        ways.truncate(1);
    }
    ways
}

#[derive(Clone, Copy, Default)]
struct Tables {
    constant: u64,
    price: [[u64; 9]; 7],
}

impl Tables {
    /// A note with its prices on another string than the written one, and where it does not sound.
    fn note(&mut self, ways: &[Way], (respelled, lost): (u64, u64), tuned: impl Fn(usize) -> bool) {
        let price = |way: &Way| u64::from(way.respelled) * respelled;
        let mut by_key: Option<u64> = None;
        let mut by_pedal: Vec<(usize, u8, u64)> = Vec::new();
        for way in ways {
            match way.by {
                By::Key { string } if tuned(string) => {
                    by_key = Some(by_key.map_or(price(way), |other| other.min(price(way))));
                }
                By::Key { .. } => {}
                By::Pedal { place } => {
                    by_pedal.push((way.string.letter.index(), place, price(way)));
                }
            }
        }
        // a string that stands there sounds it, even if that should cost more than to lose it
        let least = |ways: [Option<u64>; 2]| {
            let all = ways.into_iter().chain([by_key]).flatten();
            all.min().unwrap_or(lost)
        };
        match by_pedal[..] {
            [] => self.constant += least([None; 2]),
            [(letter, place, price)] => self.add(letter, |first, _| {
                least([(first == place).then_some(price), None])
            }),
            [one, other, ..] => {
                let (low, high) = if (one.0 + 1) % 7 == other.0 {
                    (one, other)
                } else {
                    (other, one)
                };
                self.add(low.0, |first, second| {
                    let by_low = (first == low.1).then_some(low.2);
                    let by_high = (second == high.1).then_some(high.2);
                    least([by_low, by_high])
                });
            }
        }
    }

    fn letter(&mut self, letter: usize, wanted: u8, price: u64) {
        self.add(letter, |first, _| if first == wanted { 0 } else { price });
    }

    fn add(&mut self, first: usize, price: impl Fn(u8, u8) -> u64) {
        for place in 0..9 {
            self.price[first][usize::from(place)] += price(place / 3, place % 3);
        }
    }

    fn done(self) -> Asked {
        let mut asked = Asked {
            constant: self.constant,
            ..Asked::default()
        };
        for (first, mut price) in self.price.into_iter().enumerate() {
            let least = price.iter().copied().min().unwrap_or(0);
            asked.constant += least;
            price.iter_mut().for_each(|price| *price -= least);
            if price.iter().all(|&price| price == 0) {
                continue;
            }
            let differs = |a: usize, b: usize| price[a] != price[b];
            if (0..3).any(|p| differs(p, 3 + p) || differs(p, 6 + p)) {
                asked.uses |= 1 << first;
            }
            if (0..3).any(|p| differs(3 * p, 3 * p + 1) || differs(3 * p, 3 * p + 2)) {
                asked.uses |= 1 << ((first + 1) % 7);
            }
            asked.pairs.push(Pair { first, price });
        }
        asked
    }
}
