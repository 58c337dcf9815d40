//! Which moments are playings of the same written place, and which marks must not be followed at
//! all of them.

use std::collections::{BTreeMap, BTreeSet};

use crate::code::{Code, places_of};
use crate::{Demand, Quarters};

/// The written places of a piece, in order of their first playing.
pub(crate) struct Playings {
    /// By moment.
    written: Vec<usize>,
    /// By written place.
    moments: Vec<Vec<usize>>,
}

/// A mark that holds for some passes only: a pedal moves to a place there, and at another pass
/// stands elsewhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct OnlyThen {
    pub(crate) written: usize,
    pub(crate) letter: usize,
    pub(crate) to: u8,
}

impl Playings {
    pub(crate) fn of(demand: &Demand) -> Self {
        let mut names: BTreeMap<(u32, Quarters, usize), usize> = BTreeMap::new();
        let mut seen: BTreeMap<(u32, u32, Quarters), usize> = BTreeMap::new();
        let mut playings = Self {
            written: Vec::with_capacity(demand.moments.len()),
            moments: Vec::new(),
        };
        for (index, moment) in demand.moments.iter().enumerate() {
            // grace notes stand at the beat of their main note: the first of them, the second …
            let here = seen
                .entry((moment.measure, moment.pass, moment.beat))
                .or_default();
            let name = (moment.measure, moment.beat, *here);
            *here += 1;
            let written = *names.entry(name).or_insert(playings.moments.len());
            if written == playings.moments.len() {
                playings.moments.push(Vec::new());
            }
            playings.moments[written].push(index);
            playings.written.push(written);
        }
        playings
    }

    /// The written place of a moment.
    pub(crate) fn written(&self, moment: usize) -> usize {
        self.written[moment]
    }

    /// The moments at which a written place is played, in order; none beyond the last place.
    pub(crate) fn at(&self, written: usize) -> &[usize] {
        self.moments.get(written).map_or(&[], Vec::as_slice)
    }

    /// The moments of each written place, in order of their first playing.
    pub(crate) fn all(&self) -> impl Iterator<Item = &[usize]> {
        self.moments.iter().map(Vec::as_slice)
    }

    /// The marks that hold for some passes only, as the pedals stand at each moment.
    pub(crate) fn only_then(&self, codes: &[Code]) -> BTreeSet<OnlyThen> {
        let mut found = BTreeSet::new();
        for (moment, pair) in codes.windows(2).enumerate() {
            if pair[0] == pair[1] {
                continue;
            }
            let written = self.written[moment + 1];
            let (before, after) = (places_of(pair[0]), places_of(pair[1]));
            for letter in (0..7).filter(|&letter| before[letter] != after[letter]) {
                let to = after[letter];
                let stands = |&other: &usize| places_of(codes[other])[letter] == to;
                if !self.moments[written].iter().all(stands) {
                    found.insert(OnlyThen {
                        written,
                        letter,
                        to,
                    });
                }
            }
        }
        found
    }
}
