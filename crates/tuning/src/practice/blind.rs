//! Two made strings, one after the other: is the second higher or lower? Nobody who asks knows.

use pitch::ReferencePitch;

use super::draws::Draws;
use super::{Estimate, Threshold};

/// The harp's octaves that can be chosen, from the top.
pub const OCTAVES: std::ops::RangeInclusive<u8> = 1..=6;

/// Fewer answers tell too little to name a threshold.
pub const FEWEST_ANSWERS: usize = 8;

/// A run: pairs of strings, sizes that follow the answers, and what they came to.
///
/// Size, direction and place in the octave are drawn for each pair, so that no string and no order can be learned.
///
/// ```
/// let mut run = tuning::practice::Blind::new(4, 17);
/// let pair = run.pair();
/// let right = run.answer(pair.second_hz > pair.first_hz);
/// assert!(right);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Blind {
    octave: u8,
    draws: Draws,
    threshold: Threshold,
    pair: BlindPair,
    answered: Vec<SizeAnswered>,
}

/// Two strings, Hz each, and by how many cents they differ.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlindPair {
    /// What sounds first.
    pub first_hz: f64,
    /// What sounds second.
    pub second_hz: f64,
    /// How far they are apart, cents, above nought.
    pub size_cents: f64,
}

/// An answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SizeAnswered {
    /// The first string, Hz.
    pub hz: f64,
    /// By how much the second differed, cents, above nought.
    pub size_cents: f64,
    /// Whether she said which way.
    pub right: bool,
}

impl Blind {
    /// A run in one of the harp's octaves (E down to F; [`OCTAVES`], what lies outside is taken to its end), from a seed that
    /// nobody could guess.
    #[must_use]
    pub fn new(octave: u8, seed: u64) -> Blind {
        let octave = octave.clamp(*OCTAVES.start(), *OCTAVES.end());
        let mut draws = Draws::new(seed);
        let threshold = Threshold::default();
        let pair = drawn(&mut draws, octave, threshold.next_cents());
        Blind {
            octave,
            draws,
            threshold,
            pair,
            answered: Vec::new(),
        }
    }

    /// The pair that is to be answered now; the same until it is.
    #[must_use]
    pub fn pair(&self) -> BlindPair {
        self.pair
    }

    /// Takes the answer to this pair, and gives whether it was right; the next pair is drawn.
    pub fn answer(&mut self, second_is_higher: bool) -> bool {
        let pair = self.pair;
        let right = second_is_higher == (pair.second_hz > pair.first_hz);
        self.threshold.answer(pair.size_cents, right);
        self.answered.push(SizeAnswered {
            hz: pair.first_hz,
            size_cents: pair.size_cents,
            right,
        });
        self.pair = drawn(&mut self.draws, self.octave, self.threshold.next_cents());
        right
    }

    /// What was answered, in order.
    #[must_use]
    pub fn answered(&self) -> &[SizeAnswered] {
        &self.answered
    }

    /// The threshold, once there are [`FEWEST_ANSWERS`].
    #[must_use]
    pub fn estimate(&self) -> Option<Estimate> {
        (self.answered.len() >= FEWEST_ANSWERS).then(|| self.threshold.estimate())
    }
}

fn drawn(draws: &mut Draws, octave: u8, size_cents: f64) -> BlindPair {
    // F is the lowest letter of the harp's octave; E, eleven semitones above it, the highest
    let lowest = 12 * (8 - i32::from(octave)) + 5;
    let base = ReferencePitch::A440.hz_of_key(lowest) * 2f64.powf(11.0 / 12.0 * draws.unit());
    let by = if draws.coin() {
        size_cents
    } else {
        -size_cents
    };
    let other = pitch::raise(base, by);
    // which of the two stands where it was drawn: else the first alone would be spread evenly
    let (first_hz, second_hz) = match draws.coin() {
        true => (base, other),
        false => (other, base),
    };
    BlindPair {
        first_hz,
        second_hz,
        size_cents,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pair_stays_until_it_is_answered_and_is_as_far_apart_as_it_says() {
        for octave in 0..9 {
            let mut run = Blind::new(octave, u64::from(octave) + 3);
            for turn in 0..20 {
                let pair = run.pair();
                assert_eq!(run.pair(), pair);
                let apart = pitch::cents(pair.first_hz, pair.second_hz).abs();
                assert!((apart - pair.size_cents).abs() < 1e-9);
                run.answer(turn % 3 == 0);
                assert_ne!(run.pair(), pair);
            }
            assert_eq!(run.answered().len(), 20);
        }
    }

    // the harp's octave 4 runs from F3, 174.6 Hz, to E4, 329.6 Hz (how harps are counted: see pitch::harp_octave)
    #[test]
    fn strings_lie_in_the_octave_that_was_chosen() {
        let mut run = Blind::new(4, 9);
        let mut lowest = f64::MAX;
        let mut highest = 0f64;
        for _ in 0..200 {
            let pair = run.pair();
            lowest = lowest.min(pair.first_hz.min(pair.second_hz));
            highest = highest.max(pair.first_hz.max(pair.second_hz));
            run.answer(true);
        }
        let cents = |from: f64, to: f64| pitch::cents(from, to);
        assert!(cents(174.614, lowest) > -101.0 && cents(329.628, highest) < 101.0);
        assert!(cents(lowest, highest) > 1000.0, "{lowest} {highest}");
    }

    /// One who always says the same is right as often as not, and so has no threshold to show.
    #[test]
    fn neither_way_is_the_usual_one() {
        let mut run = Blind::new(3, 21);
        let right = (0..400).filter(|_| run.answer(true)).count();
        assert!((150..250).contains(&right), "{right}");
        // and what was right before tells nothing of what will be: runs of equal answers are no longer than a coin's
        let answered = run.answered();
        let same = answered
            .windows(2)
            .filter(|two| two[0].right == two[1].right);
        assert!((140..260).contains(&same.count()));
    }

    // a listener of nine cents who slips twice in a hundred, by the law of `Threshold`
    #[test]
    fn a_listeners_threshold_is_found() {
        let mut held = 0;
        for seed in 0..20 {
            let mut run = Blind::new(3, seed);
            let mut chance = Draws::new(seed ^ 0xffff);
            assert_eq!(run.estimate(), None);
            for _ in 0..40 {
                let pair = run.pair();
                let p = 0.5 + 0.48 * (1.0 - (-(pair.size_cents / 9.0).powf(1.9)).exp());
                let right = chance.unit() < p;
                run.answer((pair.second_hz > pair.first_hz) == right);
            }
            let found = run.estimate();
            held += usize::from(found.is_some_and(|e| e.lower_cents < 9.0 && 9.0 < e.upper_cents));
        }
        // intervals of 95 %: fewer than seventeen of twenty is one chance in four hundred
        assert!(held >= 17, "{held}");
    }
}
