//! A check as it is heard: samples in; what happened, and what there is to say of it, out.

use harp::StringName;
use pitch::ReferencePitch;

use super::check::{Check, Say};
use crate::{Ear, EarError, Heard, Listening};

/// One thing that happened, and what the check says to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Happened {
    /// What was heard; `None` where the player said something.
    pub heard: Option<Heard>,
    /// What there is to say.
    pub says: Vec<Say>,
}

/// A check and the ear in front of it. The ear is told which string is asked for, and between which pitches it can be;
/// another string that is plain outside them keeps its own name, and the order is hers.
pub struct Hearing {
    ear: Ear,
    check: Check,
    reference: ReferencePitch,
    told: Option<(harp::Position, StringName)>,
    position: Option<harp::Position>,
    listen_s: f64,
    own_sound: bool,
    /// breaks that an earlier ear heard
    breaks: usize,
}

impl Hearing {
    /// For sound at `rate_hz` (8,000 to 192,000); each pluck is listened to for `listen_s` seconds. The check may be one that
    /// was begun before.
    ///
    /// Errors: nothing is left to be checked; the rate or the time is out of range.
    pub fn new(
        rate_hz: u32,
        check: Check,
        reference: ReferencePitch,
        listen_s: f64,
    ) -> Result<Self, EarError> {
        let listening = Listening {
            listen_s,
            ..Listening::new(reference)
        };
        let ear = Ear::new(rate_hz, check.standing().to_vec(), listening)?;
        let mut hearing = Hearing {
            ear,
            position: check.next().map(|(position, _)| position),
            check,
            reference,
            told: None,
            listen_s,
            own_sound: false,
            breaks: 0,
        };
        hearing.tell_ear();
        Ok(hearing)
    }

    /// The check so far.
    pub fn check(&self) -> &Check {
        &self.check
    }

    /// Takes in samples, −1 to 1, any number at a time.
    pub fn push(&mut self, samples: &[f32]) -> Vec<Happened> {
        let heard = self.ear.push(samples);
        heard.into_iter().map(|heard| self.take(heard)).collect()
    }

    /// So many samples are known to be missing here: the pluck that they fall into is refused.
    pub fn lost(&mut self, samples: u64) -> Vec<Happened> {
        let heard = self.ear.lost(samples);
        heard.into_iter().map(|heard| self.take(heard)).collect()
    }

    /// How often samples were missing so far.
    pub fn breaks(&self) -> usize {
        self.breaks + self.ear.breaks()
    }

    /// The tool makes a sound itself from the next sample on, or makes none any more: while it does, no pluck is heard to
    /// begin.
    pub fn own_sound(&mut self, sounds: bool) {
        self.own_sound = sounds;
        self.ear.own_sound(sounds);
    }

    /// Goes on with another microphone, whose sound may have another rate: what rings when it begins is no pluck.
    ///
    /// Errors: nothing is left to be checked; the rate is out of range.
    pub fn change_rate(&mut self, rate_hz: u32) -> Result<Vec<Happened>, EarError> {
        let happened = self.finish();
        let mut next = Hearing::new(rate_hz, self.check.clone(), self.reference, self.listen_s)?;
        next.breaks = self.breaks();
        next.ear.begin_after(u64::from(rate_hz));
        next.own_sound(self.own_sound);
        *self = next;
        Ok(happened)
    }

    /// Ends the sound: what comes of the last pluck.
    pub fn finish(&mut self) -> Vec<Happened> {
        let heard = self.ear.finish();
        heard.into_iter().map(|heard| self.take(heard)).collect()
    }

    /// The string is left out.
    pub fn skip(&mut self, string: StringName) -> Happened {
        let says = self.check.skip(string);
        self.tell_ear();
        Happened { heard: None, says }
    }

    fn take(&mut self, heard: Heard) -> Happened {
        let says = match &heard {
            Heard::Reading(reading) if reading.last => match reading.string {
                Some(string) => {
                    let says = self
                        .check
                        .heard(string, reading.off_cents, reading.u95_cents);
                    self.tell_ear();
                    says
                }
                None => Vec::new(),
            },
            _ => Vec::new(),
        };
        Happened {
            heard: Some(heard),
            says,
        }
    }

    /// The ear is told what has changed; strings that are asked for always stand, so it cannot refuse.
    fn tell_ear(&mut self) {
        let next = self.check.next();
        let Some((position, string)) = next else {
            return;
        };
        if self.position != Some(position) {
            let _ = self
                .ear
                .stand(self.check.standing().to_vec(), self.reference);
            self.position = Some(position);
        }
        if self.told != next {
            let _ = self.ear.guide(Some(string), self.check.expected_hz(string));
            self.told = next;
        }
    }
}
