//! A held note: its pitch, ten times a second, while it sounds.

use crate::displaced::Displaced;
use crate::joined::joined;
use crate::listener::ListenError;
use crate::stands::stands;
use crate::thin::Thinner;

/// Seconds from one estimate to the next, and looks that are joined in one: at ten looks a second a vibrato of five
/// would be seen at two of its phases only.
const EVERY_S: f64 = 0.1;
const LOOKS: usize = 4;
/// Looks that may fail.
const FAILED: usize = 1;
/// Seconds that one look takes in, and how many periods of the lowest pitch it takes in at least: short enough that a
/// vibrato's loud half does not outweigh its soft one, long enough that a semitone is told apart.
const LOOK_S: f64 = 0.1;
const PERIODS: f64 = 22.0;
/// Pitches that can be followed, Hz.
const LOWEST_HZ: f64 = 20.0;
const HIGHEST_HZ: f64 = 5_000.0;
/// Farthest that the pitch may be looked for, cents to each side: beyond, other notes fit.
const FARTHEST_CENTS: f64 = 400.0;
/// Cents by which partials may be off in common, which no mean takes away.
const COMMON_CENTS: f64 = 0.1;
/// Widest interval that is still an estimate, cents.
const WIDEST_CENTS: f64 = 25.0;

/// A held note's pitch over a fifth of a second, longer below 220 Hz.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// The middle of what was looked at, seconds from the start of the sound.
    pub at_s: f64,
    /// Pitch of the first partial, whether it sounds or not, Hz.
    pub hz: f64,
    /// Half of its 95 % interval, cents: noise, and partials that disagree.
    pub u95_cents: f64,
}

/// Why a held note cannot be followed.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum HeldError {
    /// The sound cannot be listened to.
    #[error(transparent)]
    Listen(#[from] ListenError),
    /// The pitch, with its reach, is out of range, or too high for the sample rate.
    #[error(
        "{about_hz} Hz: a note from 20 to 5,000 Hz, and below 0.45 of the sample rate, can be followed"
    )]
    Pitch {
        /// The pitch that was proposed, Hz.
        about_hz: f64,
    },
    /// The reach is out of range.
    #[error("looking {below_cents} cents down and {above_cents} up: 0 to 400 can be used")]
    Reach {
        /// Cents downwards.
        below_cents: f64,
        /// Cents upwards.
        above_cents: f64,
    },
}

/// Follows one held note near a pitch that is proposed. Holds a quarter of a second of sound, over one for the lowest notes.
pub struct HeldNote {
    thin: Thinner,
    look: Displaced,
    low_hz: f64,
    high_hz: f64,
    rate_hz: f64,
    /// samples from one look to the next
    every: usize,
    /// looks since the last estimate: how many, and what they gave, in Hz and cents
    looks: usize,
    seen: Vec<(f64, f64)>,
    /// noise of their mean against that of one
    quieter: f64,
    kept: Vec<f32>,
    /// samples dropped before `kept`
    dropped: usize,
}

impl HeldNote {
    /// Follows, in sound at `rate_hz` (8,000 to 192,000), a note from `below_cents` under `about_hz` to `above_cents`
    /// over it (0 to 400 each; the range within 20 to 5,000 Hz and below 0.45 of the rate).
    ///
    /// ```
    /// let mut note = signal::HeldNote::new(48_000, 440.0, (260.0, 160.0))?;
    /// let tone: Vec<f32> = (0..48_000u16)
    ///     .map(|i| 0.1 * (std::f32::consts::TAU * 442.0 * f32::from(i) / 48_000.0).sin())
    ///     .collect();
    /// let held = note.push(&tone);
    /// assert_eq!(held.len(), 9);
    /// assert!(held.iter().all(|h| (h.hz - 442.0).abs() < 0.05 && h.u95_cents < 1.0));
    /// # Ok::<(), signal::HeldError>(())
    /// ```
    pub fn new(
        rate_hz: u32,
        about_hz: f64,
        (below_cents, above_cents): (f64, f64),
    ) -> Result<Self, HeldError> {
        if !(8_000..=192_000).contains(&rate_hz) {
            return Err(ListenError::Rate { rate_hz }.into());
        }
        let reach = 0.0..=FARTHEST_CENTS;
        if !reach.contains(&below_cents) || !reach.contains(&above_cents) {
            return Err(HeldError::Reach {
                below_cents,
                above_cents,
            });
        }
        let thin = Thinner::new(rate_hz);
        let rate = thin.rate_hz();
        let low_hz = about_hz * (-below_cents / 1200.0).exp2();
        let high_hz = about_hz * (above_cents / 1200.0).exp2();
        let top_hz = HIGHEST_HZ.min(0.45 * rate);
        // what is no number is in no range
        if !(LOWEST_HZ..=top_hz).contains(&low_hz) || !(LOWEST_HZ..=top_hz).contains(&high_hz) {
            return Err(HeldError::Pitch { about_hz });
        }
        let seconds = LOOK_S.max(PERIODS / low_hz);
        let look = Displaced::new(rate, seconds, low_hz.max(200.0));
        let every = (EVERY_S / LOOKS as f64 * rate).round() as usize;
        Ok(HeldNote {
            thin,
            quieter: look.noise_of_mean(LOOKS, every),
            look,
            low_hz,
            high_hz,
            rate_hz: rate,
            every,
            looks: 0,
            seen: Vec::new(),
            kept: Vec::new(),
            dropped: 0,
        })
    }

    /// Takes in samples of any number, −1 to 1; gives the estimates that they complete, in order. Where no note stands,
    /// or two as loud as each other, there is none.
    pub fn push(&mut self, samples: &[f32]) -> Vec<Held> {
        let mut found = Vec::new();
        // short pieces, so that little is kept
        for piece in samples.chunks(4096) {
            self.kept.extend(self.thin.push(piece));
            while self.kept.len() >= self.look.length() {
                let seen = self.seen();
                self.seen.extend(seen);
                let gone = self.every.min(self.kept.len());
                self.kept.drain(..gone);
                self.dropped += gone;
                self.looks += 1;
                if self.looks == LOOKS {
                    found.extend(self.estimate());
                    self.looks = 0;
                    self.seen.clear();
                }
            }
        }
        found
    }

    /// Seconds of sound that one estimate takes in.
    pub fn look_s(&self) -> f64 {
        (self.look.length() + (LOOKS - 1) * self.every) as f64 / self.rate_hz
    }

    /// One look at the sound: pitch in Hz and half its interval in cents.
    fn seen(&mut self) -> Option<(f64, f64)> {
        self.look.look(&self.kept[..self.look.length()]);
        let rough = stands(&self.look, self.low_hz, self.high_hz)?;
        let (hz, u95_cents) = joined(&self.look, rough)?;
        let there = (self.low_hz..=self.high_hz).contains(&hz) && u95_cents <= WIDEST_CENTS;
        there.then_some((hz, u95_cents))
    }

    /// The last looks as one. Their weights are alike: a vibrato is not to count more where it is louder.
    fn estimate(&self) -> Option<Held> {
        if self.seen.len() + FAILED < LOOKS {
            return None;
        }
        let count = self.seen.len() as f64;
        let end = self.dropped - self.every + self.look.length();
        Some(Held {
            at_s: end as f64 / self.rate_hz - self.look_s() / 2.0,
            hz: self.seen.iter().map(|s| s.0).sum::<f64>() / count,
            u95_cents: (self.seen.iter().map(|s| s.1).sum::<f64>() / count * self.quieter)
                .hypot(1.96 * COMMON_CENTS),
        })
    }
}
