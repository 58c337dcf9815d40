//! Warnings in German.

use super::{German, high_or_low, listed, number, signed};
use crate::round::Limit;
use crate::round::words::speaks::Warnings;

impl Warnings for German {
    fn pedal_up(&self, letter: &str, semitones: u32, up: bool, strings: &[String]) -> String {
        let place = if up { "oben" } else { "wie angesagt" };
        let sound = if strings.len() == 1 {
            "klingt"
        } else {
            "klingen"
        };
        let step = if semitones == 1 { "Halbton" } else { "Ganzton" };
        format!(
            "Steht das {letter}-Pedal {place}? {} {sound} einen {step} zu hoch. Nachsehen, bevor ein Wirbel gedreht wird.",
            listed(strings)
        )
    }

    fn lever_off(&self, string: &str) -> String {
        format!(
            "{string}: einen Halbton zu hoch. Ist ihre Klappe gelöst? Nachsehen, bevor der Wirbel gedreht wird."
        )
    }

    fn found_high(&self, string: &str, off_cents: f64) -> String {
        format!(
            "{string}: {}. Steht sie wie angesagt, Pedal, Klappe oder Tonhöhe? Nachsehen, dann noch einmal zupfen.",
            high_or_low(off_cents)
        )
    }

    fn key_elsewhere(&self, string: &str, plucks: u32) -> String {
        format!(
            "{string}: {plucks}-mal gezupft, und nichts hat sich geändert. Sitzt der Schlüssel auf einem anderen Wirbel? Der Saite nach oben und hinüber bis zu ihrem eigenen folgen."
        )
    }

    fn octave_high(&self, expected: &str, heard_as: &str) -> String {
        format!(
            "Das klang wie {heard_as}. War es {expected}, dann wurde sie eine Oktave zu hoch gehört: näher an der Mitte zupfen, und allein."
        )
    }

    fn reference(&self, off_cents: f64, a4_hz: f64, strings: usize) -> String {
        format!(
            "Alle {strings} bisher liegen um {} Cent daneben, wie auf einer Harfe mit A = {}. Stimmt das A?",
            signed(off_cents),
            number(a4_hz, 0)
        )
    }

    fn another_moves(&self, expected: &str, moving: &str, by_cents: f64) -> String {
        format!(
            "Stopp: {moving} hat sich um {} Cent bewegt, gedreht werden sollte {expected}. Der Schlüssel sitzt auf dem falschen Wirbel.",
            signed(by_cents)
        )
    }

    fn over_pull(&self, string: &str, off_cents: f64, limit: Limit) -> String {
        let passed = match limit {
            Limit::AboveTarget(_) => "",
            Limit::HighestKnown(_) => ", über allem, was von ihr bekannt ist",
        };
        format!(
            "Stopp. {string}: {}{passed}. Langsam tiefer, und die Augen von der Saite weghalten.",
            high_or_low(off_cents)
        )
    }
}
