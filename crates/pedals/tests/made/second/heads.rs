//! What the notes of each moment cost in every setting, by the strings that stand on the harp.

use harp::{Harp, Mechanism, NEAR_SEMITONES, StringName};
use pedals::{Demand, Moment, Spelling, Wishes};
use pitch::{Letter, SpelledPitch};

use super::{ALL, place_of};

/// What strings without discs are tuned to.
pub(crate) type Tuned = Vec<(StringName, i32)>;

/// A string that can have a note: with which pedal at which place, or only by its tuning.
struct Way {
    string: StringName,
    alter: Option<i8>,
    as_written: bool,
}

/// Every way of tuning the strings without discs that some note could want.
pub(crate) fn tunings(demand: &Demand, harp: &Harp, wishes: &Wishes) -> Vec<Tuned> {
    let mut all = vec![Vec::new()];
    if wishes.any_octave {
        return all;
    }
    for name in by_key(harp) {
        let mut wanted = Vec::new();
        for note in demand.moments.iter().flat_map(|moment| &moment.attacks) {
            let could = ways(harp, wishes, note.pitch);
            if could.iter().any(|way| way.string == name) {
                wanted.push(note.pitch.midi());
            }
        }
        wanted.sort_unstable();
        wanted.dedup();
        if wanted.is_empty() {
            continue;
        }
        let with = |tuned: &Tuned, midi: i32| [&tuned[..], &[(name, midi)]].concat();
        all = all
            .iter()
            .flat_map(|tuned| wanted.iter().map(|&midi| with(tuned, midi)))
            .collect();
    }
    all
}

/// By moment and setting.
pub(crate) fn head_prices(
    demand: &Demand,
    harp: &Harp,
    wishes: &Wishes,
    tuned: &Tuned,
) -> Vec<Vec<u64>> {
    let of = |moment: &Moment| {
        let ways: Vec<Vec<Way>> = moment
            .attacks
            .iter()
            .map(|note| allowed(harp, wishes, moment, note.pitch))
            .collect();
        let again: Vec<Vec<Way>> = moment
            .tremolo
            .iter()
            .map(|&note| allowed(harp, wishes, moment, note))
            .collect();
        let prices = (wishes.weights.lost, u64::from(wishes.weights.respelled));
        let tremolo = (wishes.weights.glissando, 0);
        (0..ALL)
            .map(|code| {
                let notes = moment.attacks.iter().zip(&ways).map(|(note, ways)| {
                    price_of_note(prices, tuned, code, note.pitch.midi(), ways)
                });
                let again = moment
                    .tremolo
                    .iter()
                    .zip(&again)
                    .map(|(note, ways)| price_of_note(tremolo, tuned, code, note.midi(), ways));
                notes.chain(again).sum::<u64>() + letters(wishes, moment, code)
            })
            .collect()
    };
    demand.moments.iter().map(of).collect()
}

fn price_of_note(
    (lost, respelled): (u64, u64),
    tuned: &Tuned,
    code: usize,
    midi: i32,
    ways: &[Way],
) -> u64 {
    let mut price = lost;
    for way in ways {
        let sounds = match way.alter {
            Some(alter) => place_of(code, way.string.letter.index()) as i8 - 1 == alter,
            None => tuned.contains(&(way.string, midi)),
        };
        if sounds && way.as_written {
            return 0;
        }
        if sounds {
            price = respelled;
        }
    }
    price
}

fn letters(wishes: &Wishes, moment: &Moment, code: usize) -> u64 {
    let mut price = 0;
    for letter in Letter::ALL {
        let stands = place_of(code, letter.index()) as i8 - 1;
        let differs =
            |wanted: Option<pitch::Alteration>| wanted.is_some_and(|w| w.semitones() != stands);
        if differs(moment.glissando.get(letter)) {
            price += wishes.weights.glissando;
        }
        if differs(moment.marks.get(letter)) {
            price += u64::from(wishes.weights.mark);
        }
    }
    price
}

fn by_key(harp: &Harp) -> Vec<StringName> {
    let strings = harp.strings().iter();
    let without = strings.filter(|string| string.mechanism == Mechanism::Nothing);
    without.map(|string| string.name).collect()
}

/// Every string on which a note could be had. Strings without discs are within a semitone of their
/// name; further only for what no other string has.
fn ways(harp: &Harp, wishes: &Wishes, written: SpelledPitch) -> Vec<Way> {
    let mut found = Vec::new();
    for letter in Letter::ALL {
        for octave in written.octave - 2..=written.octave + 2 {
            let string = StringName::new(letter, octave);
            let alter = written.midi() - string.key();
            let stands = harp.string(string);
            if alter.abs() > 1 || !(wishes.any_octave || stands.is_some()) {
                continue;
            }
            let discs = wishes.any_octave
                || stands.is_some_and(|stands| stands.mechanism != Mechanism::Nothing);
            found.push(Way {
                string,
                alter: discs.then_some(alter as i8),
                as_written: letter == written.letter && alter as i8 == written.alter,
            });
        }
    }
    if found.is_empty() && !wishes.any_octave {
        let near = |name: &StringName| (written.midi() - name.key()).abs() <= NEAR_SEMITONES;
        found.extend(by_key(harp).into_iter().find(near).map(|string| Way {
            string,
            alter: None,
            as_written: string == StringName::new(written.letter, written.octave),
        }));
    }
    found
}

/// Those that the spelling leaves open.
fn allowed(harp: &Harp, wishes: &Wishes, moment: &Moment, written: SpelledPitch) -> Vec<Way> {
    let mut all = ways(harp, wishes, written);
    let clash =
        |other: SpelledPitch| other.letter == written.letter && other.alter != written.alter;
    let attacks = moment.attacks.iter().map(|attack| attack.pitch);
    let mut others = attacks.chain(moment.tremolo.iter().copied());
    let free = wishes.spelling == Spelling::Free || others.any(clash);
    if !free && all.iter().any(|way| way.as_written) {
        all.retain(|way| way.as_written);
    }
    all
}
