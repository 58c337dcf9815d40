//! Hear the A: from the sound of a note that is named and held to the estimates that the A is taken from.

use pitch::{ReferencePitch, SpelledPitch, cents};
use signal::{Held, HeldError, HeldNote};

use super::{Estimate, Event, TakeError, TakenA, take_the_a};

/// Seconds that a note is to be held.
pub const HOLD_S: f64 = 3.0;
/// Seconds without the note that end it: a bow is changed sooner, a breath takes longer.
const APART_S: f64 = 0.55;
/// Least share of a stretch in which the pitch could be told: holes may fall on the same side of every vibrato.
const FILLED: f64 = 0.8;
/// What a swinging pitch may be off by, of its swing's standard deviation: it is louder on one side, and a room's echoes
/// bend it (by our own sounds: up to 0.1, no source).
const SWING: f64 = 0.15;
/// How far the note is looked for around 440, cents: an A4 of 370 to 494, so that one outside 380 to 480 is told as such.
const REACH_CENTS: (f64, f64) = (300.0, 200.0);

/// Hears one note that was named, whoever holds it: an oboe's A4, a piano's C4.
pub struct HeldEar {
    note: SpelledPitch,
    follower: HeldNote,
    look_s: f64,
    /// the stretch that sounds now, and the longest before it
    now: Vec<Held>,
    longest: Vec<Held>,
}

/// The longest stretch through which the note stood.
#[derive(Clone, Debug, PartialEq)]
pub struct HeardNote {
    /// The note that was named.
    pub note: SpelledPitch,
    /// When it began, seconds from the start of the sound, to a tenth or two.
    pub from_s: f64,
    /// How long it stood, seconds, to a tenth or two; 0 where it was never heard.
    pub held_s: f64,
    /// Share of that time in which its pitch could be told, 0 to 1.
    pub told_share: f64,
    /// Its pitch ten times a second, where it could be told.
    pub estimates: Vec<Estimate>,
}

/// Why no A came out of the sound.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum HearError {
    /// The note never stood alone or clearly enough.
    #[error("the note that was named was not heard")]
    NotHeard,
    /// It ended before its pitch could be trusted.
    #[error("the note was held for {held_s:.1} s: at least {HOLD_S:.0} are needed")]
    HeldTooShort {
        /// Seconds that it was held.
        held_s: f64,
    },
    /// Something as loud sounded beside it too often.
    #[error("the note stood out only in {:.0} % of the time: let it sound alone", 100.0 * share)]
    NotAlone {
        /// Share of the time in which its pitch could be told, 0 to 1.
        share: f64,
    },
    /// It was heard, and no A can be taken from it.
    #[error(transparent)]
    Take(#[from] TakeError),
}

impl HeldEar {
    /// For sound at `rate_hz` (8,000 to 192,000) and the note that is named, between 20 and 5,000 Hz with its reach.
    pub fn new(rate_hz: u32, note: SpelledPitch) -> Result<Self, HeldError> {
        let follower = HeldNote::new(rate_hz, ReferencePitch::A440.hz(note), REACH_CENTS)?;
        Ok(HeldEar {
            note,
            look_s: follower.look_s(),
            follower,
            now: Vec::new(),
            longest: Vec::new(),
        })
    }

    /// Takes in samples, −1 to 1, any number at a time; gives the estimates that they complete, to be shown.
    pub fn push(&mut self, samples: &[f32]) -> Vec<Held> {
        let found = self.follower.push(samples);
        for held in &found {
            if (self.now.last()).is_some_and(|last| held.at_s - last.at_s > APART_S) {
                self.keep_the_longer();
            }
            self.now.push(*held);
        }
        found
    }

    /// Seconds that the note has been held by now, without a break; 0 before it is heard.
    pub fn held_s(&self) -> f64 {
        self.seconds(&self.now)
    }

    /// Ends the sound: what was heard of the note.
    pub fn finish(mut self) -> HeardNote {
        self.keep_the_longer();
        let held = &self.longest;
        HeardNote {
            note: self.note,
            from_s: held.first().map_or(0.0, |h| h.at_s - self.look_s / 2.0),
            held_s: self.seconds(held),
            told_share: told_share(held),
            estimates: estimates(held),
        }
    }

    fn keep_the_longer(&mut self) {
        let now = std::mem::take(&mut self.now);
        if self.seconds(&now) > self.seconds(&self.longest) {
            self.longest = now;
        }
    }

    fn seconds(&self, held: &[Held]) -> f64 {
        match (held.first(), held.last()) {
            (Some(first), Some(last)) => last.at_s - first.at_s + self.look_s,
            _ => 0.0,
        }
    }
}

/// The same, with what the swing may hide.
fn estimates(held: &[Held]) -> Vec<Estimate> {
    let count = held.len().max(1) as f64;
    let mean = held.iter().map(|h| h.hz).sum::<f64>() / count;
    let square = held.iter().map(|h| cents(mean, h.hz).powi(2)).sum::<f64>() / count;
    let hidden = SWING * square.sqrt();
    let estimate = |h: &Held| Estimate {
        hz: h.hz,
        u95_cents: h.u95_cents.hypot(hidden),
    };
    held.iter().map(estimate).collect()
}

/// How many estimates there are of those that ten a second would be.
fn told_share(held: &[Held]) -> f64 {
    match (held.first(), held.last()) {
        (Some(first), Some(last)) => {
            let due = (10.0 * (last.at_s - first.at_s)).round() + 1.0;
            (held.len() as f64 / due).min(1.0)
        }
        _ => 0.0,
    }
}

impl HeardNote {
    /// The A4 that the note stands for, if it was held for three seconds and steadily.
    ///
    /// ```
    /// use tuning::round::HeldEar;
    /// let mut ear = HeldEar::new(48_000, "A4".parse()?)?;
    /// let oboe: Vec<f32> = (0..4 * 48_000u32)
    ///     .map(|i| std::f64::consts::TAU * 442.0 * f64::from(i) / 48_000.0)
    ///     .map(|x| (0.1 * x.sin() + 0.2 * (2.0 * x).sin() + 0.1 * (3.0 * x).sin()) as f32)
    ///     .collect();
    /// ear.push(&oboe);
    /// assert_eq!(ear.finish().take_the_a()?.a4_hz, 442.0);
    /// # Ok::<(), Box<dyn std::error::Error>>(())
    /// ```
    pub fn take_the_a(&self) -> Result<TakenA, HearError> {
        self.is_fit()?;
        Ok(take_the_a(self.note, &self.estimates)?)
    }

    /// What happened, for the round: the note was held until now. An error where no A can come of it.
    pub fn event(self) -> Result<Event, HearError> {
        self.is_fit()?;
        Ok(Event::NoteHeld {
            at_s: self.from_s + self.held_s,
            note: self.note,
            estimates: self.estimates,
        })
    }

    /// Whether it stood for three seconds, and nearly all the time.
    fn is_fit(&self) -> Result<(), HearError> {
        if self.estimates.is_empty() {
            return Err(HearError::NotHeard);
        }
        // the last look may end a tenth of a second before the note
        if self.held_s < HOLD_S - 0.1 {
            let held_s = self.held_s;
            return Err(HearError::HeldTooShort { held_s });
        }
        if self.told_share < FILLED {
            let share = self.told_share;
            return Err(HearError::NotAlone { share });
        }
        Ok(())
    }
}
