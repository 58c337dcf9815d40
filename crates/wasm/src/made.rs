//! Practice without a harp: made strings to be told apart, and beats to be counted.

use pitch::{ReferencePitch, SpelledPitch, Tongue};
use pluck::{RATE_HZ, made_in_turn, made_sample, made_together};
use tuning::practice::{Blind, Interval, ToCount, to_count};
use wasm_bindgen::prelude::*;

/// Samples a second of all made sounds.
#[wasm_bindgen]
pub fn made_rate_hz() -> u32 {
    RATE_HZ
}

/// A quiet string to set the loudness by; nothing that follows is louder.
#[wasm_bindgen]
pub fn made_quietly() -> Vec<f32> {
    made_sample()
}

/// Two strings after each other, again and again: which way does the second differ?
///
/// What the pair is does not leave before its answer has come.
#[wasm_bindgen]
pub struct MadeRun {
    run: Blind,
    seed: u64,
}

/// An answer, as it is kept.
#[wasm_bindgen]
#[derive(Clone, Copy)]
pub struct MadeAnswer {
    /// The first string, Hz.
    pub hz: f64,
    /// By how much the second differed, cents.
    pub size_cents: f64,
    /// Whether she said which way.
    pub right: bool,
}

/// From which size on she tells, cents.
#[wasm_bindgen]
#[derive(Clone, Copy)]
pub struct MadeThreshold {
    /// As likely below as above.
    pub cents: f64,
    /// The lower end of the 95 % interval.
    pub lower_cents: f64,
    /// The upper end of the 95 % interval.
    pub upper_cents: f64,
}

#[wasm_bindgen]
impl MadeRun {
    /// A run in one of the harp's octaves, 1 to 6, from a seed that nobody could guess.
    #[wasm_bindgen(constructor)]
    pub fn new(octave: u8, seed: u64) -> MadeRun {
        MadeRun {
            run: Blind::new(octave, seed),
            seed,
        }
    }

    /// The pair that is to be answered now, −1 to 1; the same until it is.
    pub fn sound(&self) -> Vec<f32> {
        let pair = self.run.pair();
        let turn = self.run.answered().len() as u64;
        made_in_turn(pair.first_hz, pair.second_hz, self.seed.wrapping_add(turn))
    }

    /// Takes the answer to this pair and draws the next.
    pub fn answer(&mut self, second_is_higher: bool) -> Option<MadeAnswer> {
        self.run.answer(second_is_higher);
        let last = self.run.answered().last();
        last.map(|answered| MadeAnswer {
            hz: answered.hz,
            size_cents: answered.size_cents,
            right: answered.right,
        })
    }

    /// What the answers came to; none where there are too few.
    pub fn threshold(&self) -> Option<MadeThreshold> {
        self.run.estimate().map(|estimate| MadeThreshold {
            cents: estimate.cents,
            lower_cents: estimate.lower_cents,
            upper_cents: estimate.upper_cents,
        })
    }
}

/// Two strings together, whose beats are to be counted.
#[wasm_bindgen]
pub struct MadeBeats {
    asked: ToCount,
    seed: u64,
}

#[wasm_bindgen]
impl MadeBeats {
    /// An interval (`unison`, `octave`, `fifth`, `fourth`, `third`) at a reference pitch, from a seed.
    #[wasm_bindgen(constructor)]
    pub fn new(interval: &str, a4_hz: f64, seed: u64) -> Result<MadeBeats, JsError> {
        let named = |known: &&Interval| name(**known) == interval;
        let interval = Interval::ALL.iter().find(named);
        let interval = interval.ok_or_else(|| JsError::new("no such interval"))?;
        let asked = to_count(*interval, ReferencePitch::new(a4_hz)?, seed);
        let asked = asked.ok_or_else(|| JsError::new("nothing beats there"))?;
        Ok(MadeBeats { asked, seed })
    }

    /// Both together, −1 to 1.
    pub fn sound(&self) -> Vec<f32> {
        made_together(self.asked.low_hz, self.asked.high_hz, self.seed)
    }

    /// How they beat, per second.
    pub fn per_s(&self) -> f64 {
        self.asked.beats.per_s
    }

    /// How the interval beats in equal temperament, per second.
    pub fn tempered_per_s(&self) -> f64 {
        self.asked.tempered.per_s
    }

    /// Which partial of the lower string meets.
    pub fn low_partial(&self) -> u32 {
        self.asked.beats.low_partial
    }

    /// Which partial of the higher string it meets.
    pub fn high_partial(&self) -> u32 {
        self.asked.beats.high_partial
    }

    /// By how many cents the interval is wider than equal temperament has it.
    pub fn wide_cents(&self) -> f64 {
        self.asked.beats.wide_cents - self.asked.tempered.wide_cents
    }

    /// The letters of both strings, the lower one first, in a language (`en`, `de`, `fr`).
    pub fn names(&self, language: &str) -> Vec<String> {
        let notes = Tongue::from_code(language).unwrap_or_default().notes();
        let named = |string: harp::StringName| {
            notes.name(SpelledPitch {
                letter: string.letter,
                alter: 0,
                octave: string.octave,
            })
        };
        vec![named(self.asked.low), named(self.asked.high)]
    }
}

fn name(interval: Interval) -> &'static str {
    match interval {
        Interval::Unison => "unison",
        Interval::Octave => "octave",
        Interval::Fifth => "fifth",
        Interval::Fourth => "fourth",
        Interval::Third => "third",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pair_sounds_alike_until_it_is_answered() {
        let mut run = MadeRun::new(4, 11);
        let first = run.sound();
        assert!(run.sound() == first);
        assert!(run.answer(true).is_some());
        assert!(run.sound() != first);
        assert!(run.threshold().is_none());
    }

    #[test]
    fn beats_name_their_strings_in_each_language() {
        let thirds = (0..40).filter_map(|seed| MadeBeats::new("third", 440.0, seed).ok());
        let names: Vec<String> = thirds.flat_map(|beats| beats.names("de")).collect();
        assert_eq!(names.len(), 80);
        assert!(names.contains(&"H".to_owned()) && !names.contains(&"B".to_owned()));
    }
}
