//! An attempt as it is heard: samples in; what little there is to say, out.

use pitch::ReferencePitch;

use super::{Attempt, Guess, Pair, Stage, Told};
use crate::{Ear, EarError, Heard, Listening};

/// An attempt and the ear in front of it. The ear is told which string is asked for; what it hears stays here until the
/// attempt is over.
pub struct SilentEar {
    ear: Ear,
    attempt: Attempt,
    reference: ReferencePitch,
    listen_s: f64,
    told: Option<Stage>,
    /// breaks that an earlier ear heard
    breaks: usize,
}

impl SilentEar {
    /// For sound at `rate_hz` (8,000 to 192,000); each pluck is listened to for `listen_s` seconds.
    ///
    /// Errors: the rate or the time is out of range, or no strings stand.
    pub fn new(
        rate_hz: u32,
        pair: Pair,
        reference: ReferencePitch,
        listen_s: f64,
    ) -> Result<SilentEar, EarError> {
        SilentEar::hearing(rate_hz, Attempt::new(pair), reference, listen_s)
    }

    fn hearing(
        rate_hz: u32,
        attempt: Attempt,
        reference: ReferencePitch,
        listen_s: f64,
    ) -> Result<SilentEar, EarError> {
        let listening = Listening {
            listen_s,
            ..Listening::new(reference)
        };
        let ear = Ear::new(rate_hz, attempt.pair().standing.clone(), listening)?;
        let mut silent = SilentEar {
            ear,
            attempt,
            reference,
            listen_s,
            told: None,
            breaks: 0,
        };
        silent.tell_ear();
        Ok(silent)
    }

    /// The attempt so far.
    pub fn attempt(&self) -> &Attempt {
        &self.attempt
    }

    /// How often samples were missing so far.
    pub fn breaks(&self) -> usize {
        self.breaks + self.ear.breaks()
    }

    /// Takes in samples, −1 to 1, any number at a time.
    pub fn push(&mut self, samples: &[f32]) -> Vec<Told> {
        let heard = self.ear.push(samples);
        self.take(&heard)
    }

    /// So many samples are known to be missing here: the pluck that they fall into is not read.
    pub fn lost(&mut self, samples: u64) -> Vec<Told> {
        let heard = self.ear.lost(samples);
        self.take(&heard)
    }

    /// Goes on with another microphone, whose sound may have another rate: what rings when it begins is no pluck.
    ///
    /// Errors: the rate is out of range.
    pub fn change_rate(&mut self, rate_hz: u32) -> Result<(), EarError> {
        let breaks = self.breaks();
        let attempt = self.attempt.clone();
        *self = SilentEar::hearing(rate_hz, attempt, self.reference, self.listen_s)?;
        self.breaks = breaks;
        self.ear.begin_after(u64::from(rate_hz));
        Ok(())
    }

    /// The string that is asked for cannot be read: on without it.
    pub fn pass(&mut self) {
        self.attempt.pass();
        self.tell_ear();
    }

    /// What she says of the string before she turns.
    pub fn say(&mut self, guess: Option<Guess>) {
        self.attempt.say(guess);
        self.tell_ear();
    }

    /// She says that it is there.
    pub fn there(&mut self) {
        self.attempt.there();
        self.tell_ear();
    }

    fn take(&mut self, heard: &[Heard]) -> Vec<Told> {
        let mut told = Vec::new();
        for heard in heard {
            told.extend(self.attempt.heard(heard));
            self.tell_ear();
        }
        told
    }

    /// The ear is told what has changed; both strings stand, so it cannot refuse.
    fn tell_ear(&mut self) {
        if self.told == Some(self.attempt.stage()) {
            return;
        }
        self.told = Some(self.attempt.stage());
        let _ = match self.attempt.expected() {
            Some((string, between)) => self.ear.guide(Some(string), Some(between)),
            None => self.ear.guide(None, None),
        };
    }
}
