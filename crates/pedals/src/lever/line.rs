//! One string through the piece: when it is wanted open, when raised.

use std::collections::BTreeMap;

use harp::{Harp, Mechanism, OpenTuning, StringName};
use pitch::{Alteration, Letter, SpelledPitch};

use super::hands::Hands;
use super::{LeverCannot, LeverReason, LeverRespelled, LeverWishes};
use crate::{Demand, Hand};

/// A moment at which a string is wanted in a position.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    pub(super) moment: usize,
    on: bool,
    /// The note heads, by their places among the moment's attacks.
    pub(super) attacks: Vec<usize>,
    /// Where it stands instead, if it does.
    stands: bool,
    pub(super) reason: LeverReason,
}

/// A string and all that is wanted of it.
#[derive(Clone, Debug)]
pub(super) struct Line {
    pub(super) string: StringName,
    wanted: Vec<Wanted>,
}

/// A flip that is wanted between two moments.
#[derive(Clone, Copy, Debug)]
pub(super) struct WantedFlip {
    pub(super) string: StringName,
    pub(super) on: bool,
    /// The moment at which the string is last played before.
    pub(super) after: usize,
    /// The moment for which it must be done.
    pub(super) moment: usize,
}

/// What the notes want of each string in an open tuning; which notes take another string than the
/// written one; which no string can have.
pub(super) fn lines(
    demand: &Demand,
    harp: &Harp,
    open: OpenTuning,
) -> (Vec<Line>, Vec<LeverRespelled>, Vec<LeverCannot>) {
    let mut by_string: BTreeMap<StringName, Vec<Wanted>> = BTreeMap::new();
    let (mut respelled, mut cannot) = (Vec::new(), Vec::new());
    for (moment, notes) in demand.moments.iter().enumerate() {
        for (attack, note) in notes.attacks.iter().enumerate() {
            let written = note.pitch;
            let Some((string, on)) = string_for(harp, open, written) else {
                cannot.push(out_of_reach(harp, moment, attack, written));
                continue;
            };
            let played = SpelledPitch {
                letter: string.letter,
                alter: (written.midi() - string.key()) as i8,
                octave: string.octave,
            };
            if played != written {
                respelled.push(LeverRespelled {
                    moment,
                    attack,
                    written,
                    played,
                });
            }
            let line = by_string.entry(string).or_default();
            let same = line.iter_mut().find(|w| w.moment == moment && w.on == on);
            match same {
                Some(wanted) => wanted.attacks.push(attack),
                None => line.push(Wanted {
                    moment,
                    on,
                    attacks: vec![attack],
                    stands: on,
                    reason: LeverReason::LeverElsewhere,
                }),
            }
        }
    }
    let lines = by_string.into_iter();
    let lines = lines.map(|(string, wanted)| Line { string, wanted });
    (lines.collect(), respelled, cannot)
}

impl Line {
    /// The cheapest positions: at each moment where it is wanted open or raised, against the price
    /// of a flip, which takes a free hand. Gives what they cost: less, for this string, no plan can,
    /// for here it has the hands to itself.
    pub(super) fn plan(&mut self, demand: &Demand, wishes: &LeverWishes, hands: &Hands) -> u64 {
        let weights = &wishes.weights;
        let mut costs = [0, u64::from(weights.before)];
        let mut from: Vec<[bool; 2]> = Vec::with_capacity(self.wanted.len());
        for (index, wanted) in self.wanted.iter().enumerate() {
            let before = index.checked_sub(1).map(|index| &self.wanted[index]);
            let flip = before.and_then(|before| {
                let hand = hands.first_free(demand, before.moment, wanted.moment)?;
                let more = if hand == Hand::Right {
                    weights.right_hand
                } else {
                    0
                };
                Some(u64::from(weights.flip) + u64::from(more))
            });
            let lost = wanted.attacks.len() as u64 * u64::from(weights.lost);
            let mut next = [(0, false); 2];
            for on in [false, true] {
                let stays = costs[usize::from(on)];
                let flips = flip.map(|flip| costs[usize::from(!on)] + flip);
                let flips = flips.filter(|&cost| cost < stays);
                let here = if on == wanted.on { 0 } else { lost };
                next[usize::from(on)] = (flips.unwrap_or(stays) + here, flips.is_some());
            }
            costs = next.map(|(cost, _)| cost);
            from.push(next.map(|(_, flipped)| flipped));
        }
        let mut on = costs[1] < costs[0];
        for (wanted, flipped) in self.wanted.iter_mut().zip(&from).rev() {
            wanted.stands = on;
            on ^= flipped[usize::from(on)];
        }
        costs[0].min(costs[1])
    }

    /// Whether its lever is on at the beginning.
    pub(super) fn on_at_first(&self) -> bool {
        self.wanted.first().is_some_and(|wanted| wanted.stands)
    }

    /// The flips that its positions need.
    pub(super) fn flips(&self) -> Vec<WantedFlip> {
        let pairs = self.wanted.windows(2);
        let flips = pairs.filter(|pair| pair[0].stands != pair[1].stands);
        flips
            .map(|pair| WantedFlip {
                string: self.string,
                on: pair[1].stands,
                after: pair[0].moment,
                moment: pair[1].moment,
            })
            .collect()
    }

    /// No hand can make the flip for a moment: the string stays until its next flip, which then is
    /// none.
    pub(super) fn give_up(&mut self, moment: usize) {
        let Some(first) = self
            .wanted
            .iter()
            .position(|wanted| wanted.moment == moment)
        else {
            return;
        };
        let stood = self.wanted[first].stands;
        for wanted in &mut self.wanted[first..] {
            if wanted.stands != stood {
                break;
            }
            wanted.stands = !stood;
            wanted.reason = LeverReason::HandsBusy;
        }
    }

    /// The moments at which it does not stand as wanted.
    pub(super) fn silent(&self) -> impl Iterator<Item = &Wanted> {
        self.wanted
            .iter()
            .filter(|wanted| wanted.stands != wanted.on)
    }
}

/// The string for a note and whether its lever is on: the written one if it can have it.
fn string_for(harp: &Harp, open: OpenTuning, written: SpelledPitch) -> Option<(StringName, bool)> {
    let on = |string: StringName| {
        let stands = harp.string(string)?;
        let above =
            written.midi() - string.key() - i32::from(open.alteration(string.letter).semitones());
        match above {
            0 => Some((string, false)),
            1 if stands.mechanism == Mechanism::Lever => Some((string, true)),
            _ => None,
        }
    };
    on(StringName::new(written.letter, written.octave)).or_else(|| {
        let octaves = [-1, 0, 1].map(|by| written.octave.saturating_add(by));
        let all = Letter::ALL
            .into_iter()
            .flat_map(|letter| octaves.map(|octave| StringName::new(letter, octave)));
        let mut all = all.filter_map(on);
        all.next()
    })
}

fn out_of_reach(harp: &Harp, moment: usize, attack: usize, written: SpelledPitch) -> LeverCannot {
    let near = |alteration: Alteration| {
        let key = written.midi() - i32::from(alteration.semitones());
        harp.strings().iter().any(|string| string.name.key() == key)
    };
    LeverCannot {
        moment,
        attack,
        pitch: written,
        reason: if Alteration::ALL.into_iter().any(near) {
            LeverReason::OutOfReach
        } else {
            LeverReason::OutsideTheHarp
        },
        remedies: Vec::new(),
    }
}
