//! A string's stiffness B, against its own past and that of the strings before it in its place.
//!
//! B = (π²/64)·(E/ρ)·d²/(f²L⁴) for a plain string (H. Fletcher 1964): at one place it goes with the square of the diameter.
//! A disc shortens the string at the same tension, so B grows by 2^(1/6) a semitone, which is taken off again.

use diary::{Moment, StringKnown};
use harp::Harp;

use super::{Asked, Question, Suspected};
use crate::spread::Spread;

/// The last readings, none older than so many days, and how many there must be before them.
const LAST: usize = 10;
const RECENT: f64 = 30.0;
const PAST: usize = 20;
/// No more than so many readings are asked.
const MOST: usize = 400;
/// Readings of a new string, and of those before it.
const NEW: usize = 6;
const OLD: usize = 8;
/// B must differ by this factor, beyond what two strings of one packet differ by (our proposal), and by so many standard
/// errors.
const DIFFERS: f64 = 1.35;
const SURE: f64 = 5.0;
/// Readings of B are never surer than this, as a logarithm.
const LEAST: f64 = 0.03;

impl Asked<'_> {
    pub(super) fn stiffness_changed(&self) -> Question {
        let own = read(self.own, |s| s == self.own.fittings);
        let (past, last) = own.split_at_checked(own.len().checked_sub(LAST)?)?;
        let since = last.first()?.0;
        if past.len() < PAST || self.days_ago(since) > RECENT {
            return None;
        }
        let (change, u95) = self.change(past, last, since)?;
        let what = Suspected::StiffnessChanged {
            times: change.exp(),
            u95_factor: u95.exp(),
        };
        Some((what, since))
    }

    pub(super) fn other_string(&self, harp: &Harp) -> Question {
        let new = read(self.own, |s| s == self.own.fittings);
        let old = read(self.own, |s| s < self.own.fittings);
        let since = new.first()?.0;
        let material = self.own.fitted.as_ref()?.material;
        let given = harp
            .string(self.string)
            .and_then(|s| harp.figures(s).material);
        let meant = material.zip(given).is_some_and(|(own, its)| own != its);
        if new.len() < NEW || old.len() < OLD || meant {
            return None;
        }
        let (change, u95) = self.change(&old, &new, since)?;
        let what = Suspected::OtherString {
            times: change.exp(),
            u95_factor: u95.exp(),
            readings: new.len(),
        };
        Some((what, since))
    }

    /// By how much the logarithm of B changed, and half of its 95 % interval, where that is surely more than strings differ
    /// by and more than the neighbours' changed with it.
    fn change(
        &self,
        past: &[(Moment, f64)],
        last: &[(Moment, f64)],
        since: Moment,
    ) -> Option<(f64, f64)> {
        let before = Spread::of(past.iter().map(|one| one.1))?;
        let now = Spread::of(last.iter().map(|one| one.1))?;
        let error = now.error(before.sd.max(LEAST)).hypot(before.error(LEAST));
        let others = Spread::of(self.neighbours().filter_map(|string| {
            let (past, last): (Vec<_>, Vec<_>) = read(string, |s| s == string.fittings)
                .into_iter()
                .partition(|one| one.0 < since);
            let middle = |all: Vec<(Moment, f64)>| Spread::of(all.into_iter().map(|one| one.1));
            Some(middle(last)?.middle - middle(past)?.middle)
        }));
        // another microphone or room makes all of them seem a little stiffer: that is taken off
        let common = others.map_or(0.0, |others| others.middle);
        let change = now.middle - before.middle - common;
        let alone = common.abs() < DIFFERS.ln();
        let differs = change.abs() > DIFFERS.ln() && change.abs() > SURE * error && alone;
        differs.then_some((change, 1.96 * error))
    }
}

/// The last logarithms of B of the strings of a place, as if without disc or lever.
fn read(string: &StringKnown, of: impl Fn(u32) -> bool) -> Vec<(Moment, f64)> {
    let own = string.history.iter().rev().filter(|point| of(point.string));
    let read = own.filter_map(|point| Some((point.when, open(point.b?, point.raised)?)));
    let mut read: Vec<_> = read.take(MOST).collect();
    read.reverse();
    read
}

/// The logarithm of B without the disc or lever that raised the string by so many semitones.
fn open(b: f64, raised: u8) -> Option<f64> {
    let is_read = b > 0.0 && b.is_finite();
    is_read.then(|| b.ln() - f64::from(raised) / 6.0 * 2f64.ln())
}

#[cfg(test)]
mod tests {
    use super::*;

    // law: B = π³Ed⁴/(64TL²) (H. Fletcher 1964); a semitone is a speaking length of 0.94387, the tension the same
    #[test]
    fn a_disc_makes_a_string_stiffer_by_the_square_of_its_shortening() {
        let b = |length_m: f64| {
            let (modulus, diameter, tension) = (6e9, 1.45e-3_f64, 240.75);
            std::f64::consts::PI.powi(3) * modulus * diameter.powi(4)
                / (64.0 * tension * length_m * length_m)
        };
        let flat = open(b(0.64), 0).unwrap();
        let natural = open(b(0.64 * 0.94387), 1).unwrap();
        let sharp = open(b(0.64 * 0.89090), 2).unwrap();
        assert!((b(0.64) - 1.303e-4).abs() < 1e-6, "{}", b(0.64));
        assert!((flat - natural).abs() < 1e-4 && (flat - sharp).abs() < 1e-4);
        assert_eq!(open(f64::NAN, 0), None);
        assert_eq!(open(0.0, 0), None);
    }
}
