//! What is common to all strings: a reference pitch that slipped, or a harp that moved as a whole.
//!
//! Strings tuned to another A are all off by the same amount, as near as they were tuned; a harp that moved in the air
//! moves its gut, nylon and wire each its own way. Only the first is asked about.

use pitch::cents;

use super::{Aside, Round, Say, Warning};
use crate::median::median;

/// A4s in use, Hz: old and modern ensembles and the devices that count them by the hertz (common practice, no source).
const REFERENCES: [f64; 13] = [
    415.0, 430.0, 432.0, 435.0, 438.0, 440.0, 441.0, 442.0, 443.0, 444.0, 445.0, 446.0, 447.0,
];
/// Cents from such a difference. From the choice of A's these stand four cents apart.
const NEAR_KNOWN: f64 = 1.5;
/// Cents below which a common offset is no more than tuning.
const NO_MATTER: f64 = 5.0;
/// Fewest strings for the question, and the standard deviation in cents that they may have.
const FEW: (usize, f64) = (5, 1.2);
/// The same where more were heard: an ordinary tuner's own spread.
const MANY: (usize, f64) = (8, 1.8);
/// Strings and spread, from which one string is like the others.
const LIKE: (usize, f64) = (3, 6.0);

impl Round {
    /// The offset common to the strings as they were found, cents, if they have one.
    pub(super) fn common_offset(&self) -> Option<f64> {
        let found = self.found_off();
        let (least, spread) = LIKE;
        if found.len() < least || deviation(&found)? > spread {
            return None;
        }
        median(&found)
    }

    /// Is A right? Asked once.
    pub(super) fn ask_reference(&mut self) -> Vec<Say> {
        let found = self.found_off();
        let (Some(middle), Some(spread)) = (median(&found), deviation(&found)) else {
            return Vec::new();
        };
        let enough = |(least, most): (usize, f64)| found.len() >= least && spread <= most;
        if self.reference_was_asked
            || !(enough(FEW) || enough(MANY))
            || middle.abs() < NO_MATTER
            || self.is_expected(middle)
        {
            return Vec::new();
        }
        let own = self.plan.reference.a4_hz();
        let distance = |a4: f64| (cents(own, a4) - middle).abs();
        let near = REFERENCES
            .iter()
            .copied()
            .filter(|a4| distance(*a4) <= NEAR_KNOWN);
        let Some(a4_hz) = near.min_by(|a, b| distance(*a).total_cmp(&distance(*b))) else {
            return Vec::new();
        };
        self.reference_was_asked = true;
        vec![Say::Warning(Warning::Reference {
            off_cents: middle,
            a4_hz,
            strings: found.len(),
        })]
    }

    /// A harp that is brought from its usual pitch to another is off by just that.
    fn is_expected(&self, off: f64) -> bool {
        let usual = self
            .plan
            .usual_a4_hz
            .map(|a4| cents(self.plan.reference.a4_hz(), a4));
        usual.is_some_and(|usual| usual.abs() > 1.0 && (usual - off).abs() <= NEAR_KNOWN)
    }

    /// How far off the strings were found, before their pins were turned, against the targets of now.
    fn found_off(&self) -> Vec<f64> {
        let found = self
            .records
            .values()
            .filter(|r| !r.fitted && !r.asked && !r.on_purpose);
        let first = found.filter_map(|r| {
            let before = r.before().filter(|k| k.aside != Some(Aside::Position))?;
            Some(r.off(before.heard_hz))
        });
        first.collect()
    }
}

/// Standard deviation, one degree of freedom taken by the mean.
fn deviation(numbers: &[f64]) -> Option<f64> {
    if numbers.len() < 2 {
        return None;
    }
    let mean = numbers.iter().sum::<f64>() / numbers.len() as f64;
    let square: f64 = numbers.iter().map(|n| (n - mean).powi(2)).sum();
    Some((square / (numbers.len() - 1) as f64).sqrt())
}
