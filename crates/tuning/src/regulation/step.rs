//! The size of a step: what a disc or a lever adds to its string.

use pitch::Alteration;

use super::Pluck;
use super::own::Own;

/// Half of a 95 % interval, over the standard deviation.
const U95: f64 = 1.96;

/// Which step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// From flat to natural: the upper disc, or the lever of a string that stands open at flat.
    Natural,
    /// From natural to sharp: the lower disc, or the lever of a string that stands open at natural.
    Sharp,
}

impl Step {
    /// Both, from below.
    pub const ALL: [Self; 2] = [Self::Natural, Self::Sharp];

    /// Where the step leads to, as files and records say it: `natural`, `sharp`.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Natural => "natural",
            Self::Sharp => "sharp",
        }
    }
}

/// A step as it was measured, in cents.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StepSize {
    /// How far it goes.
    pub cents: f64,
    /// How much further than a semitone (or two) of equal temperament; negative if not so far.
    pub error_cents: f64,
    /// Half of the 95 % interval of both.
    pub u95_cents: f64,
}

/// A string in one position, over all its plucks there.
pub(super) struct Mean {
    stands: Alteration,
    pub(super) cents: f64,
    /// Variance of the reading, in square cents.
    reading: f64,
    /// The square of half the 95 % interval that its unrest makes.
    own: f64,
}

/// The mean of a string's plucks in one position.
pub(super) fn mean(plucks: &[Pluck], stands: Alteration, own: Own) -> Option<Mean> {
    let here: Vec<&Pluck> = plucks.iter().filter(|p| p.stands == stands).collect();
    let count = here.len() as f64;
    if here.is_empty() {
        return None;
    }
    let variances = here.iter().map(|p| (p.u95_cents / U95).powi(2));
    Some(Mean {
        stands,
        cents: here.iter().map(|p| p.off_cents).sum::<f64>() / count,
        reading: variances.sum::<f64>() / (count * count),
        own: (own.t * own.sd_cents).powi(2) / count,
    })
}

/// The step between two positions.
pub(super) fn between(from: &Mean, to: &Mean) -> StepSize {
    let semitones = to.stands.semitones() - from.stands.semitones();
    let error = to.cents - from.cents;
    let reading = U95 * U95 * (from.reading + to.reading);
    StepSize {
        cents: 100.0 * f64::from(semitones) + error,
        error_cents: error,
        u95_cents: (reading + from.own + to.own).sqrt(),
    }
}
