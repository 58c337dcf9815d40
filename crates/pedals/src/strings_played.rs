//! Which string plays each note of a plan, how often each is played, and how exposed it is.
//!
//! *Exposed* is ours, and plain: a note is exposed where nothing else is plucked with it and either nothing else is
//! plucked for a second after it, so that it rings on alone, or its string lies where an ear hears every cent of it: the
//! wires of the bass, up to G2, and the top, from F6 up. How loud it is, no plan knows. Strings that a glissando only
//! sweeps over are not counted.

use std::collections::BTreeMap;

use harp::{Harp, StringName};
use pitch::SpelledPitch;

use crate::{Demand, LeverPlan, Moment, Plan};

/// A note rings on alone where nothing else is plucked for so long after it, in microseconds. Ours, no source.
const ALONE_FOR_US: u64 = 1_000_000;
/// The highest wire of the bass, by its key number: G2.
const HIGHEST_WIRE: i32 = 43;
/// The lowest string of the top, by its key number: F6.
const LOWEST_OF_TOP: i32 = 89;

/// How a string is played in a piece.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Played {
    /// How often it is plucked, repeats counted.
    pub attacks: u32,
    /// Of these, how often with nothing else plucked at the same moment.
    pub alone: u32,
    /// Of these, how often exposed.
    pub exposed: u32,
}

/// How often each string is played, from the bass.
pub fn strings_played(demand: &Demand, harp: &Harp, plan: &Plan) -> BTreeMap<StringName, Played> {
    let other = plan
        .respelled
        .iter()
        .map(|head| ((head.moment, head.attack), head.string));
    let lost = plan.cannot.iter().map(|head| (head.moment, head.attack));
    count(demand, harp, other.collect(), lost.collect())
}

/// The same on a lever harp.
pub fn lever_strings_played(
    demand: &Demand,
    harp: &Harp,
    plan: &LeverPlan,
) -> BTreeMap<StringName, Played> {
    let other = plan
        .respelled
        .iter()
        .map(|head| ((head.moment, head.attack), own(head.played)));
    let lost = plan.cannot.iter().map(|head| (head.moment, head.attack));
    count(demand, harp, other.collect(), lost.collect())
}

fn own(pitch: SpelledPitch) -> StringName {
    StringName::new(pitch.letter, pitch.octave)
}

fn count(
    demand: &Demand,
    harp: &Harp,
    other: BTreeMap<(usize, usize), StringName>,
    lost: Vec<(usize, usize)>,
) -> BTreeMap<StringName, Played> {
    let mut played: BTreeMap<StringName, Played> = BTreeMap::new();
    for (at, moment) in demand.moments.iter().enumerate() {
        let alone = moment.attacks.len() == 1 && !is_busy(moment);
        for (head, attack) in moment.attacks.iter().enumerate() {
            let string = other.get(&(at, head)).copied().unwrap_or(own(attack.pitch));
            if lost.contains(&(at, head)) || harp.string(string).is_none() {
                continue;
            }
            let edge = string.key() <= HIGHEST_WIRE || string.key() >= LOWEST_OF_TOP;
            let rings_on = attack.rings_us >= ALONE_FOR_US && rings_alone(demand, at);
            let count = played.entry(string).or_default();
            count.attacks += 1;
            count.alone += u32::from(alone);
            count.exposed += u32::from(alone && (edge || rings_on));
        }
    }
    played
}

/// Whether more than what is plucked sounds: a glissando, a tremolo.
fn is_busy(moment: &Moment) -> bool {
    moment.swept.is_some() || !moment.tremolo.is_empty()
}

/// Whether nothing is plucked for a second after a moment, as far as the piece goes.
fn rings_alone(demand: &Demand, at: usize) -> bool {
    let start = demand.moments[at].at_us;
    let mut later = demand.moments[at + 1..].iter();
    let next = later.find(|moment| !moment.attacks.is_empty() || moment.damped || is_busy(moment));
    next.is_none_or(|next| next.at_us.saturating_sub(start) >= ALONE_FOR_US)
}

#[cfg(test)]
mod tests {
    use pitch::Letter;

    use super::*;
    use crate::Wishes;

    fn check(chords: &[(f64, &str)], letter: Letter, octave: i8, expected: (u32, u32, u32)) {
        let (demand, harp) = (Demand::of_chords(chords), Harp::named("pedal47").unwrap());
        let plan = crate::plan(&demand, &harp, &Wishes::comfortable());
        let played = strings_played(&demand, &harp, &plan);
        let found = played
            .get(&StringName::new(letter, octave))
            .copied()
            .unwrap_or_default();
        assert_eq!((found.attacks, found.alone, found.exposed), expected);
    }

    #[test]
    fn a_note_that_rings_alone_is_exposed() {
        check(&[(0.0, "A4"), (1.0, "B4")], Letter::A, 4, (1, 1, 1));
        check(&[(0.0, "A4"), (0.9, "B4")], Letter::A, 4, (1, 1, 0));
        check(&[(0.0, "A4 C5"), (2.0, "B4")], Letter::A, 4, (1, 0, 0));
    }

    #[test]
    fn wires_and_the_top_are_exposed_whenever_alone() {
        check(
            &[(0.0, "G2"), (0.2, "A2"), (0.4, "G2")],
            Letter::G,
            2,
            (2, 2, 2),
        );
        check(&[(0.0, "A2"), (0.2, "G2")], Letter::A, 2, (1, 1, 0));
        check(&[(0.0, "F6"), (0.2, "E6")], Letter::F, 6, (1, 1, 1));
        check(&[(0.0, "E6"), (0.2, "F6")], Letter::E, 6, (1, 1, 0));
    }

    #[test]
    fn a_note_on_another_string_counts_there() {
        let chords = [
            (0.0, "C4"),
            (1.0, "C#4"),
            (2.0, "C4"),
            (3.0, "C#4"),
            (4.0, "C4"),
        ];
        let (demand, harp) = (Demand::of_chords(&chords), Harp::named("pedal47").unwrap());
        let plan = crate::plan(&demand, &harp, &Wishes::fewest(&demand));
        let played = strings_played(&demand, &harp, &plan);
        let attacks = |letter| {
            played
                .get(&StringName::new(letter, 4))
                .map(|played| played.attacks)
        };
        assert_eq!((attacks(Letter::C), attacks(Letter::D)), (Some(3), Some(2)));
    }

    #[test]
    fn a_note_that_begins_a_glissando_is_not_alone() {
        let mut demand = Demand::of_chords(&[(0.0, "A4"), (2.0, "A5")]);
        demand.moments[0].swept = Some(("A4".parse().unwrap(), "A5".parse().unwrap()));
        let harp = Harp::named("pedal47").unwrap();
        let plan = crate::plan(&demand, &harp, &Wishes::comfortable());
        let played = strings_played(&demand, &harp, &plan);
        let of = |octave| played[&StringName::new(Letter::A, octave)];
        assert_eq!((of(4).attacks, of(4).alone), (1, 0));
        assert_eq!((of(5).alone, of(5).exposed), (1, 1));
    }
}
