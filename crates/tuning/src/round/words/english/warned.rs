//! Warnings in English.

use pitch::signed;

use super::{English, high_or_low, listed};
use crate::round::Limit;
use crate::round::words::speaks::Warnings;

impl Warnings for English {
    fn pedal_up(&self, letter: &str, semitones: u32, up: bool, strings: &[String]) -> String {
        let place = if up { "up" } else { "where you said" };
        let sound = if strings.len() == 1 {
            "sounds"
        } else {
            "sound"
        };
        let step = if semitones == 1 { "semitone" } else { "tone" };
        format!(
            "Is the {letter} pedal {place}? {} {sound} a {step} high. Look before you turn any pin.",
            listed(strings)
        )
    }

    fn lever_off(&self, string: &str) -> String {
        format!("{string}: a semitone high. Is its lever off? Look before you turn the pin.")
    }

    fn found_high(&self, string: &str, off_cents: f64) -> String {
        format!(
            "{string}: {}. Is it where you said, pedal, lever or pitch? Look, then pluck it again.",
            high_or_low(off_cents)
        )
    }

    fn key_elsewhere(&self, string: &str, plucks: u32) -> String {
        format!(
            "{string}: {plucks} plucks and no change. Is the key on another pin? Follow the string up and over to its own."
        )
    }

    fn octave_high(&self, expected: &str, heard_as: &str) -> String {
        format!(
            "That sounded as {heard_as}. If it was {expected}, it was heard an octave high: pluck it nearer the middle, and alone."
        )
    }

    fn reference(&self, off_cents: f64, a4_hz: f64, strings: usize) -> String {
        format!(
            "All {strings} so far are off by {} cents, as on a harp tuned to {a4_hz:.0}. Is the A right?",
            signed(off_cents)
        )
    }

    fn another_moves(&self, expected: &str, moving: &str, by_cents: f64) -> String {
        format!(
            "Stop: {moving} has moved by {} cents, and {expected} was to be turned. The key is on the wrong pin.",
            signed(by_cents)
        )
    }

    fn over_pull(&self, string: &str, off_cents: f64, limit: Limit) -> String {
        let passed = match limit {
            Limit::AboveTarget(_) => "",
            Limit::HighestKnown(_) => ", above all that is known of it",
        };
        format!(
            "Stop. {string}: {}{passed}. Ease it down, and keep your eyes away from the string.",
            high_or_low(off_cents)
        )
    }
}
