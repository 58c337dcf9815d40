//! Prices reckoned anew, slowly and plainly, in every register: what a plan is judged by.
#![allow(dead_code, reason = "each test takes what it needs")]

use pedals::{Demand, Foot, Spelling, Strength, Wishes};
use pitch::{Alteration, Letter, SpelledPitch};

/// Flat −1 to sharp 1, by letter.
pub(crate) type Places = [i8; 7];

pub(crate) fn sounds(letter: Letter, alter: i8, pitch: SpelledPitch) -> bool {
    (letter.semitones() + i32::from(alter) - pitch.midi()).rem_euclid(12) == 0
}

pub(crate) fn price_of_move(
    demand: &Demand,
    wishes: &Wishes,
    moment: usize,
    letter: Letter,
    foot: Foot,
    notches: i8,
) -> u64 {
    let weights = &wishes.weights;
    let now = &demand.moments[moment];
    let mut price = weights.moved;
    if notches == 2 {
        price += weights.two_notches;
    }
    if now.strength == Strength::Off && !now.rest {
        price += weights.off_beat;
    }
    let left = [Letter::D, Letter::C, Letter::B].contains(&letter);
    if left != (foot == Foot::Left) {
        price += weights.crossing;
    }
    u64::from(price) + ringing(demand, wishes, moment, letter)
}

pub(crate) fn ringing(demand: &Demand, wishes: &Wishes, moment: usize, letter: Letter) -> u64 {
    let seconds = [8.0, 8.0, 6.0, 4.5, 3.0, 2.0, 1.2, 0.7, 0.5];
    let mut loudest = 0;
    for (octave, seconds) in seconds.into_iter().enumerate() {
        let fades = (seconds * 1e6) as u64;
        let mut struck = None;
        for (index, earlier) in demand.moments[..=moment].iter().enumerate() {
            if earlier.damped {
                struck = None;
            }
            for note in earlier.attacks.iter().filter(|_| index < moment) {
                let same = note.pitch.letter == letter && note.pitch.octave == octave as i8;
                struck = if same {
                    Some((earlier.at_us, note.rings_us))
                } else {
                    struck
                };
            }
            let here = (octave as i8, letter.index());
            let height = |pitch: SpelledPitch| (pitch.octave, pitch.letter.index());
            let swept = earlier
                .swept
                .is_some_and(|(low, high)| height(low) <= here && here <= height(high));
            let again = earlier.tremolo.iter().any(|&pitch| height(pitch) == here);
            if index < moment && (swept || again) {
                struck = Some((earlier.at_us, u64::MAX));
            }
        }
        if let Some((at, rings)) = struck {
            let age = demand.moments[moment].at_us - at;
            if age < fades && age < rings {
                loudest = loudest.max(1024 * (fades - age) / fades);
            }
        }
    }
    u64::from(wishes.weights.ringing) * loudest / 1024
}

/// What a moment costs as the pedals stand.
pub(crate) fn notes(demand: &Demand, wishes: &Wishes, index: usize, places: &Places) -> u64 {
    let weights = &wishes.weights;
    let moment = &demand.moments[index];
    let mut cost = 0;
    let respelled = u64::from(weights.respelled);
    let attacks = moment.attacks.iter();
    let attacks = attacks.map(|attack| (attack.pitch, weights.lost, respelled));
    let tremolo = moment.tremolo.iter();
    let tremolo = tremolo.map(|&note| (note, weights.glissando, 0));
    for (written, lost, respelled) in attacks.chain(tremolo) {
        let as_written = places[written.letter.index()] == written.alter;
        let stuck_away = wishes
            .broken
            .stuck
            .iter()
            .any(|&(letter, at)| letter == written.letter && at.semitones() != written.alter);
        let attacks = moment.attacks.iter().map(|attack| attack.pitch);
        let clash = attacks
            .chain(moment.tremolo.iter().copied())
            .any(|other| other.letter == written.letter && other.alter != written.alter);
        let forced = wishes.spelling == Spelling::Written
            && written.alter.abs() < 2
            && !stuck_away
            && !clash;
        let otherwise = Letter::ALL
            .into_iter()
            .any(|letter| sounds(letter, places[letter.index()], written));
        cost += match (as_written, otherwise && !forced) {
            (true, _) => 0,
            (false, true) => respelled,
            (false, false) => lost,
        };
    }
    let mut price = |wanted: Option<Alteration>, letter: Letter, price: u64| {
        if wanted.is_some_and(|wanted| wanted.semitones() != places[letter.index()]) {
            cost += price;
        }
    };
    for letter in Letter::ALL {
        price(moment.glissando.get(letter), letter, weights.glissando);
        price(moment.marks.get(letter), letter, u64::from(weights.mark));
        if index == 0 {
            price(wishes.opening.get(letter), letter, 1 << 44);
        }
    }
    for pin in wishes.pins.iter().filter(|pin| pin.moment == index) {
        price(Some(pin.alteration), pin.letter, 1 << 44);
    }
    cost
}
