//! How often strings break in one place.

use diary::{Moment, StringKnown};

use crate::DAY_S;

/// Days within which a second break is one too many: our proposal, nothing is published.
const SOON: f64 = 183.0;

/// The breaks in one string's place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Breaks {
    /// How many were written.
    pub count: usize,
    /// The last of them.
    pub last: Option<Moment>,
    /// Days between them on the average, where there were two at least.
    pub days_between: Option<f64>,
    /// Whether two of the last half year ask for a look at disc, bridge pin and tuning pin (common practice, no source).
    pub again_and_again: bool,
}

/// The breaks in a string's place, as they stand at a moment.
pub fn breaks(string: &StringKnown, now: Moment) -> Breaks {
    let mut when = string.breaks.clone();
    when.sort();
    let (first, last) = (when.first(), when.last());
    let days = |from: Moment, to: Moment| to.since_s(from) / DAY_S;
    let between = first.zip(last).filter(|_| when.len() > 1);
    let recent = when.iter().filter(|at| days(**at, now) <= SOON);
    Breaks {
        count: when.len(),
        last: last.copied(),
        days_between: between.map(|(from, to)| days(*from, *to) / (when.len() - 1) as f64),
        again_and_again: recent.count() > 1,
    }
}
