//! What strings without discs are tuned to, as it is told: only where some note sounds by it.

use harp::StringName;
use pitch::{Alteration, Letter, SpelledPitch};

use crate::by_key::Tuned;
use crate::{Demand, Plan};

/// A string without discs as a movement wants it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct KeySet {
    /// The string.
    pub string: StringName,
    /// What it sounds.
    pub pitch: SpelledPitch,
    /// The movement, from 0.
    pub movement: usize,
    /// The moment of the rest in which it is retuned; `None` where that is done before the movement.
    pub in_rest_at: Option<usize>,
}

impl Tuned {
    /// What the string sounds, by its own letter where that can be, else as it is usually called: C1 at B0 is C♭1, at
    /// A0 it is A0.
    pub fn pitch(&self) -> SpelledPitch {
        let string = self.string;
        let own = Alteration::from_semitones(i64::from(self.midi - string.key()))
            .map(|alteration| SpelledPitch::new(string.letter, alteration, string.octave));
        let octave = i8::try_from(self.midi.div_euclid(12) - 1).unwrap_or(string.octave);
        let usual = [Alteration::Natural, Alteration::Flat].into_iter();
        let mut usual = usual.flat_map(|alteration| {
            let letters = Letter::ALL.into_iter();
            letters.map(move |letter| SpelledPitch::new(letter, alteration, octave))
        });
        own.or_else(|| usual.find(|pitch| pitch.midi() == self.midi))
            .unwrap_or(SpelledPitch::new(
                string.letter,
                Alteration::Natural,
                string.octave,
            ))
    }
}

/// The tunings by which some note sounds; how a string stands that nothing plays is nobody's care.
pub fn tuned_and_played<'a>(demand: &Demand, plan: &'a Plan) -> Vec<&'a Tuned> {
    let is_played =
        |tuned: &&Tuned| plays(demand, tuned, tuned.from_moment, until(demand, plan, tuned));
    plan.tuned.iter().filter(is_played).collect()
}

/// The same for each movement: what must be set for it, whether or not it stands so already.
pub(crate) fn key_sets(demand: &Demand, plan: &Plan) -> Vec<KeySet> {
    let starts: Vec<usize> = std::iter::once(0)
        .chain(demand.movements.iter().copied())
        .collect();
    let mut sets = Vec::new();
    for (movement, &start) in starts.iter().enumerate() {
        let end = starts
            .get(movement + 1)
            .copied()
            .unwrap_or(demand.moments.len());
        for tuned in &plan.tuned {
            let from = tuned.from_moment.max(start);
            let until = until(demand, plan, tuned).min(end);
            if from < until && plays(demand, tuned, from, until) {
                sets.push(KeySet {
                    string: tuned.string,
                    pitch: tuned.pitch(),
                    movement,
                    in_rest_at: (tuned.in_a_rest && from > start).then_some(from),
                });
            }
        }
    }
    sets
}

/// The moment at which it is tuned anew.
fn until(demand: &Demand, plan: &Plan, tuned: &Tuned) -> usize {
    let same = plan
        .tuned
        .iter()
        .filter(|other| other.string == tuned.string);
    let later = same.map(|other| other.from_moment);
    let next = later.filter(|&from| from > tuned.from_moment).min();
    next.unwrap_or(demand.moments.len())
}

fn plays(demand: &Demand, tuned: &Tuned, from: usize, until: usize) -> bool {
    let within = demand.moments.get(from..until).unwrap_or_default();
    let mut attacks = within.iter().flat_map(|moment| &moment.attacks);
    attacks.any(|attack| attack.pitch.midi() == tuned.midi)
}
