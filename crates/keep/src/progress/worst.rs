//! Strings that were found out of tune most often.

use std::collections::BTreeMap;

use harp::StringName;
use tuning::round::Tolerance;

use super::{Middle, Share};

/// A string that was found out of tune: surely farther off than its round called in tune.
#[derive(Clone, Debug, PartialEq)]
pub struct WorstString {
    /// The string.
    pub string: StringName,
    /// How often it was out, of how many times that it was found at the beginning of a round.
    pub out: Share,
    /// How far off it was found, either way, cents.
    pub off_cents: Middle,
    /// Which way: the median with its sign, cents; up is above nought.
    pub way_cents: f64,
    /// The farthest that it was found off, with its sign, cents.
    pub farthest_cents: f64,
}

/// Every string as it was found, before any pin was turned.
#[derive(Default)]
pub(super) struct FoundStrings {
    found: BTreeMap<StringName, Vec<(f64, bool)>>,
}

impl FoundStrings {
    /// A string was found so far off, ± half of the 95 % interval, cents.
    pub(super) fn add(
        &mut self,
        string: StringName,
        (off_cents, u95_cents): (f64, f64),
        tolerance: Tolerance,
    ) {
        if off_cents.is_finite() && u95_cents.is_finite() {
            let out = off_cents.abs() - u95_cents > tolerance.of(string);
            self.found.entry(string).or_default().push((off_cents, out));
        }
    }

    /// Those that were out at least once: first those of which it is surest that they often are, by the lower end of the
    /// interval of their share; of the same, the one that is farther off.
    pub(super) fn worst(self) -> Vec<WorstString> {
        let found = self.found.into_iter();
        let mut worst: Vec<WorstString> = found.filter_map(|(s, found)| of(s, &found)).collect();
        worst.sort_by(|a, b| {
            let by_share = b.out.lower.total_cmp(&a.out.lower);
            by_share.then(b.off_cents.middle.total_cmp(&a.off_cents.middle))
        });
        worst
    }
}

fn of(string: StringName, found: &[(f64, bool)]) -> Option<WorstString> {
    let out = found.iter().filter(|(_, out)| *out).count();
    if out == 0 {
        return None;
    }
    let off = || found.iter().map(|(off, _)| *off);
    Some(WorstString {
        string,
        out: Share::of(out, found.len())?,
        off_cents: Middle::of(off().map(f64::abs))?,
        way_cents: Middle::of(off())?.middle,
        farthest_cents: off().max_by(|a, b| a.abs().total_cmp(&b.abs()))?,
    })
}
