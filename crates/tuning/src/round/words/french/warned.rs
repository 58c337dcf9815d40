//! Warnings in French.

use super::{French, high_or_low, listed, number, signed, unit};
use crate::round::Limit;
use crate::round::words::speaks::Warnings;

impl Warnings for French {
    fn pedal_up(&self, letter: &str, semitones: u32, up: bool, strings: &[String]) -> String {
        let place = if up { "en haut" } else { "comme annoncé" };
        let sound = if strings.len() == 1 {
            "sonne"
        } else {
            "sonnent"
        };
        let step = if semitones == 1 { "demi-ton" } else { "ton" };
        format!(
            "La pédale de {letter} est-elle {place} ? {} {sound} un {step} trop haut. Regarder avant de tourner la moindre cheville.",
            listed(strings)
        )
    }

    fn lever_off(&self, string: &str) -> String {
        format!(
            "{string} : un demi-ton trop haut. Son levier est-il baissé ? Regarder avant de tourner la cheville."
        )
    }

    fn found_high(&self, string: &str, off_cents: f64) -> String {
        format!(
            "{string} : {}. Est-elle comme annoncé, pédale, levier ou hauteur ? Regarder, puis la pincer encore une fois.",
            high_or_low(off_cents)
        )
    }

    fn key_elsewhere(&self, string: &str, plucks: u32) -> String {
        format!(
            "{string} : pincée {plucks} fois, rien ne change. La clef est-elle sur une autre cheville ? Suivre la corde vers le haut et par-dessus, jusqu'à la sienne."
        )
    }

    fn octave_high(&self, expected: &str, heard_as: &str) -> String {
        format!(
            "Cela sonnait comme {heard_as}. Si c'était {expected}, elle a été entendue une octave trop haut : la pincer plus près du milieu, et seule."
        )
    }

    fn reference(&self, off_cents: f64, a4_hz: f64, strings: usize) -> String {
        format!(
            "Toutes jusqu'ici ({strings}) sont à côté de {} {}, comme sur une harpe accordée à {}. Le la est-il bon ?",
            signed(off_cents),
            unit(off_cents, 1),
            number(a4_hz, 0)
        )
    }

    fn another_moves(&self, expected: &str, moving: &str, by_cents: f64) -> String {
        format!(
            "Stop : {moving} a bougé de {} {}, et c'est {expected} qu'il fallait tourner. La clef est sur la mauvaise cheville.",
            signed(by_cents),
            unit(by_cents, 1)
        )
    }

    fn over_pull(&self, string: &str, off_cents: f64, limit: Limit) -> String {
        let passed = match limit {
            Limit::AboveTarget(_) => "",
            Limit::HighestKnown(_) => ", au-dessus de tout ce qu'on sait d'elle",
        };
        format!(
            "Stop. {string} : {}{passed}. Doucement plus bas, et garder les yeux loin de la corde.",
            high_or_low(off_cents)
        )
    }
}
