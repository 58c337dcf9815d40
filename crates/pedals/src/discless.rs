//! Strings without discs, told: those that are played, and by what they sound.

use pitch::{Alteration, Letter, SpelledPitch};

use crate::{Demand, Plan, Tuned};

/// The tunings by which some note sounds; how a string stands that nothing plays is nobody's care.
pub fn played<'a>(demand: &Demand, plan: &'a Plan) -> Vec<&'a Tuned> {
    let until = |tuned: &Tuned| {
        let later = plan
            .tuned
            .iter()
            .filter(|other| other.string == tuned.string);
        let later = later.map(|other| other.from_moment);
        let next = later.filter(|&from| from > tuned.from_moment).min();
        next.unwrap_or(demand.moments.len())
    };
    let sounds = |tuned: &&Tuned| {
        let within = demand.moments.get(tuned.from_moment..until(tuned));
        let mut attacks = within
            .into_iter()
            .flatten()
            .flat_map(|moment| &moment.attacks);
        attacks.any(|attack| attack.pitch.midi() == tuned.midi)
    };
    plan.tuned.iter().filter(sounds).collect()
}

/// What the string sounds, by its own letter where that can be, else as it is usually called: C1 at
/// B0 is C♭1, at A0 it is A0.
pub fn sounding(tuned: &Tuned) -> SpelledPitch {
    let string = tuned.string;
    let own = Alteration::from_semitones(i64::from(tuned.midi - string.key()))
        .map(|alteration| SpelledPitch::new(string.letter, alteration, string.octave));
    let octave = i8::try_from(tuned.midi.div_euclid(12) - 1).unwrap_or(string.octave);
    let usual = [Alteration::Natural, Alteration::Flat].into_iter();
    let mut usual = usual.flat_map(|alteration| {
        let letters = Letter::ALL.into_iter();
        letters.map(move |letter| SpelledPitch::new(letter, alteration, octave))
    });
    own.or_else(|| usual.find(|pitch| pitch.midi() == tuned.midi))
        .unwrap_or(SpelledPitch::new(
            string.letter,
            Alteration::Natural,
            string.octave,
        ))
}

/// The name of a sound on its string; a string tuned further down than two semitones has as many
/// signs as it has semitones.
pub fn on_its_string(played: SpelledPitch) -> String {
    if played.alter.abs() <= 2 {
        return played.to_string();
    }
    let sign = if played.alter < 0 { "b" } else { "#" };
    let signs = sign.repeat(usize::from(played.alter.unsigned_abs()));
    format!("{}{signs}{}", played.letter, played.octave)
}
