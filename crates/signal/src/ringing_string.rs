//! One ringing string as it is followed: which of its partials can be trusted, and what they agree on.

use std::collections::VecDeque;

use crate::cent::CENT;
use crate::frames::Frame;
use crate::line::line;

/// Cents a second that a pin may be turned, and no fewer bins than a window needs.
pub(crate) const FASTEST: f64 = 280.0;
pub(crate) const LEAST_BINS: f64 = 1.2;
/// Bins by which the line of another string must stand off.
const CLEAR_BINS: f64 = 2.3;
/// Cents within which partials agree, beside their noise.
const AGREE: f64 = 4.0;
/// Cents of a partial's own unrest.
const UNREST: f64 = 0.6;
/// Amplitude against a moment ago, from which something was struck there again.
const STRUCK: f64 = 1.5;
/// Widest interval of a word, cents.
const WIDEST: f64 = 12.0;
/// Cents by which words may miss their line (standard deviation).
const OFF_LINE: f64 = 1.5;
/// Power against what stood there before the string was plucked, from which a line is the string's.
const OVER_STOOD: f64 = 8.0;
/// Power against its least of late, from which a partial is covered by something new; and for how long, seconds.
const SWOLLEN: f64 = 2.5;
const COVERED_S: f64 = 0.5;
/// What the least of late grows by, a frame, so that a beat is forgotten.
const FORGOTTEN: f64 = 1.02;

/// Where a followed string is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Followed {
    /// What the caller calls it.
    pub key: usize,
    /// Seconds from the start of the stream.
    pub at_s: f64,
    /// Cents above the partials that were told.
    pub cents: f64,
    /// Half of the 95 % interval, cents.
    pub u95_cents: f64,
}

/// One partial of a followed string.
pub(crate) struct Part {
    /// Hz, as told
    pub(crate) hz: f64,
    /// power that stood there before the pluck
    pub(crate) stood: f64,
    /// least power of late
    pub(crate) least: f64,
    pub(crate) covered_until_s: f64,
}

/// A string that is followed.
pub(crate) struct Voice {
    pub(crate) key: usize,
    pub(crate) parts: Vec<Part>,
    /// the last words: cents, half interval
    pub(crate) lately: VecDeque<(f64, f64)>,
    pub(crate) cents: f64,
    pub(crate) amplitude: Option<f64>,
    /// partials that agreed in the last word
    pub(crate) agreed: usize,
    pub(crate) silent_s: f64,
    /// no word before this
    pub(crate) not_before_s: f64,
}

/// What a string's partials agree on.
pub(crate) struct Agreed {
    cents: f64,
    u95_cents: f64,
    amplitude: f64,
    partials: usize,
}

impl Voice {
    pub(crate) fn lines(&self) -> impl Iterator<Item = f64> {
        let moved = (self.cents * CENT).exp();
        self.parts.iter().map(move |part| part.hz * moved)
    }

    pub(crate) fn stood_near(&self, hz: f64) -> f64 {
        let apart = |part: &&Part| (part.hz - hz).abs();
        let nearest = self
            .parts
            .iter()
            .min_by(|a, b| apart(a).total_cmp(&apart(b)));
        nearest.map_or(0.0, |part| part.stood)
    }

    pub(crate) fn agreeing(
        &mut self,
        now: &Frame,
        before: &Frame,
        taken: &[f64],
        (bin_hz, hop_s): (f64, f64),
    ) -> Option<Agreed> {
        let free = |hz: f64| taken.iter().all(|t| (t - hz).abs() > CLEAR_BINS * bin_hz);
        let mut found: Vec<(f64, f64, f64)> = Vec::new();
        let mut looked_for = 0;
        let moved = (self.cents * CENT).exp();
        for part in &mut self.parts {
            let hz = part.hz * moved;
            if !free(hz) || now.middle_s < part.covered_until_s {
                continue;
            }
            looked_for += 1;
            let reach = (LEAST_BINS * bin_hz).max(FASTEST * hop_s * CENT * hz);
            if let Some(l) = line(now, before, (hz, reach), bin_hz, hop_s) {
                let sd = (l.sd_hz / (hz * CENT)).hypot(UNREST);
                // a bin holds far more than a pin can do to a low partial
                let strays = ((l.hz / hz).ln() / CENT).abs() > FASTEST * hop_s + 3.0 * sd;
                if strays || l.power < OVER_STOOD * part.stood {
                    continue;
                }
                part.least = (FORGOTTEN * part.least).min(l.power);
                if l.power > SWOLLEN * part.least {
                    (part.covered_until_s, part.least) = (now.middle_s + COVERED_S, f64::INFINITY);
                    continue;
                }
                let cents = (l.hz / part.hz).ln() / CENT;
                let place = found.partition_point(|f| f.0.total_cmp(&cents).is_le());
                found.insert(place, (cents, sd, l.power));
            }
        }
        let middle = weighted_median(&found)?;
        let near =
            |(cents, sd, _): &&(f64, f64, f64)| (cents - middle).abs() <= AGREE.max(3.0 * sd);
        let kept: Vec<_> = found.iter().filter(near).collect();
        let weight = |sd: f64| 1.0 / (sd * sd);
        let all: f64 = found.iter().map(|f| weight(f.1)).sum();
        let sum: f64 = kept.iter().map(|f| weight(f.1)).sum();
        // one line may be anybody's: it must be the only one that could be looked for, as of the highest strings
        if sum < 0.6 * all || (kept.len() < 2 && looked_for > 2) {
            return None;
        }
        let cents = kept.iter().map(|f| weight(f.1) * f.0).sum::<f64>() / sum;
        let misfit: f64 = kept
            .iter()
            .map(|f| weight(f.1) * (f.0 - cents).powi(2))
            .sum();
        let excess = (misfit / (kept.len().max(2) - 1) as f64).max(1.0);
        let amplitude = kept.iter().map(|f| f.2.sqrt()).sum();
        let u95_cents = 1.96 * (excess / sum).sqrt() + 0.3;
        (u95_cents <= WIDEST).then_some(Agreed {
            cents,
            u95_cents,
            amplitude,
            partials: kept.len(),
        })
    }

    pub(crate) fn word(
        &mut self,
        agreed: Option<Agreed>,
        at_s: f64,
        hop_s: f64,
        words_in_line: usize,
    ) -> Option<Followed> {
        if at_s < self.not_before_s {
            return None;
        }
        let heard = agreed.filter(|a| {
            // what grew louder was struck again: its first moments say nothing
            let was = self.amplitude.replace(a.amplitude);
            // and partials that leave it all at once are another string's
            was.is_none_or(|was| a.amplitude < STRUCK * was) && 2 * a.partials >= self.agreed
        });
        let Some(a) = heard else {
            self.silent_s += hop_s;
            // what is left of them may go on
            self.agreed = self.agreed.saturating_sub(1);
            self.lately.clear();
            return None;
        };
        self.silent_s = 0.0;
        self.cents = a.cents;
        self.agreed = a.partials;
        self.lately.push_back((a.cents, a.u95_cents));
        if self.lately.len() < words_in_line {
            return None;
        }
        let (cents, missed) = end_of_line(self.lately.iter().map(|l| l.0));
        let u95_cents = self.lately.iter().map(|l| l.1).sum::<f64>() / words_in_line as f64;
        self.lately.pop_front();
        (missed <= OFF_LINE).then_some(Followed {
            key: self.key,
            at_s,
            cents,
            u95_cents: u95_cents.max(1.96 * missed),
        })
    }
}

/// Where a straight line through evenly spaced figures ends, and by how much they miss it (standard deviation).
fn end_of_line(figures: impl Iterator<Item = f64>) -> (f64, f64) {
    let y: Vec<f64> = figures.collect();
    let n = y.len() as f64;
    let middle = 0.5 * (n - 1.0);
    let mean = y.iter().sum::<f64>() / n;
    let x = |i: usize| i as f64 - middle;
    let over: f64 = y.iter().enumerate().map(|(i, y)| x(i) * (y - mean)).sum();
    let under: f64 = (0..y.len()).map(|i| x(i) * x(i)).sum();
    let slope = over / under;
    let missed = y
        .iter()
        .enumerate()
        .map(|(i, y)| (y - mean - slope * x(i)).powi(2));
    let missed: f64 = missed.sum();
    (mean + slope * middle, (missed / (n - 2.0)).sqrt())
}

/// The middle one of figures in ascending order, each weighted by its standard deviation.
fn weighted_median(found: &[(f64, f64, f64)]) -> Option<f64> {
    let all: f64 = found.iter().map(|f| 1.0 / (f.1 * f.1)).sum();
    let mut sum = 0.0;
    let middle = found.iter().find(|f| {
        sum += 1.0 / (f.1 * f.1);
        sum >= 0.5 * all
    });
    middle.map(|f| f.0)
}
