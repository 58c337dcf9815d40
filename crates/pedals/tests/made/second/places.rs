//! When feet may act, and what moving each pedal costs there.

use pedals::{Demand, Strength, Wishes};
use pitch::{Letter, SpelledPitch};

/// A moment, or a place between two moments.
pub(crate) struct Place {
    pub(crate) at_us: u64,
    /// The moment whose notes sound here.
    pub(crate) moment: Option<usize>,
    /// By letter, over one notch and over two.
    pub(crate) price: [[u64; 2]; 7],
}

/// The seconds after which a string no longer troubles a pedal, by octave.
const SECONDS: [f64; 9] = [8.0, 8.0, 6.0, 4.5, 3.0, 2.0, 1.2, 0.7, 0.5];

/// As the planner's words have it: before a note, no two places lie more than 0.2 s apart, twelve
/// of these parts at most, evenly over the time since the moment before. In a sweep or a tremolo there are none.
pub(crate) fn places(demand: &Demand, wishes: &Wishes) -> Vec<Place> {
    let mut all = Vec::new();
    let mut struck = [[None; 9]; 7];
    for (index, moment) in demand.moments.iter().enumerate() {
        if index > 0 {
            let before = &demand.moments[index - 1];
            let gap = moment.at_us - before.at_us;
            let sweep = Letter::ALL
                .iter()
                .any(|&l| before.glissando.get(l).is_some())
                || !before.tremolo.is_empty();
            let parts = if sweep { 0 } else { gap.div_ceil(200_000) };
            for part in 1..parts {
                if parts - part <= 12 {
                    let at_us = before.at_us + gap * part / parts;
                    let price = prices(&struck, at_us, !before.rest, wishes);
                    all.push(Place {
                        at_us,
                        moment: None,
                        price,
                    });
                }
            }
        }
        if moment.damped {
            struck = [[None; 9]; 7];
        }
        let off = moment.strength == Strength::Off && !moment.rest;
        all.push(Place {
            at_us: moment.at_us,
            moment: Some(index),
            price: prices(&struck, moment.at_us, off, wishes),
        });
        for note in &moment.attacks {
            let octave = note.pitch.octave.clamp(0, 8) as usize;
            struck[note.pitch.letter.index()][octave] = Some((moment.at_us, note.rings_us));
        }
        for letter in Letter::ALL {
            for (octave, struck) in struck[letter.index()].iter_mut().enumerate() {
                let height = |pitch: SpelledPitch| (pitch.octave, pitch.letter.index());
                let here = (octave as i8, letter.index());
                let swept = |(low, high)| height(low) <= here && here <= height(high);
                let again = moment.tremolo.iter().any(|&pitch| height(pitch) == here);
                if again || moment.swept.is_some_and(swept) {
                    *struck = Some((moment.at_us, u64::MAX));
                }
            }
        }
    }
    all
}

type Struck = [[Option<(u64, u64)>; 9]; 7];

fn prices(struck: &Struck, at_us: u64, off: bool, wishes: &Wishes) -> [[u64; 2]; 7] {
    let weights = &wishes.weights;
    std::array::from_fn(|letter| {
        let mut loudest = 0;
        for (octave, seconds) in SECONDS.into_iter().enumerate() {
            let fades = (seconds * 1e6) as u64;
            if let Some((since, rings)) = struck[letter][octave] {
                let age = at_us - since;
                if age < fades.min(rings) {
                    loudest = loudest.max(1024 * (fades - age) / fades);
                }
            }
        }
        let ringing = u64::from(weights.ringing) * loudest / 1024;
        let off = if off { u64::from(weights.off_beat) } else { 0 };
        let one = u64::from(weights.moved) + off + ringing;
        [one, one + u64::from(weights.two_notches)]
    })
}
