//! The tool's own sound: a word or a tone, and the room's answer to it. No onset in it is anybody's pluck.
//!
//! What is struck meanwhile is passed over and rings on; that it goes on sounding afterwards makes no onset of it.

/// Seconds after its own sound in which the room still answers.
pub const ECHO_S: f64 = 0.15;
/// Seconds after lost samples in which an onset is the join, or what began unheard.
const JOIN_S: f64 = 0.025;
/// Seconds that an onset's rough place may stand before the first sample that made it.
const AHEAD_S: f64 = 0.01;
/// Seconds by which a rough place may stand after the onset, and before it.
const LATE_S: f64 = 0.028;
const EARLY_S: f64 = 0.014;
/// Seconds between two own sounds, below which they are one: no pluck between them could be read.
const BETWEEN_S: f64 = 0.06;
/// Seconds after a rough place at which it can be refined; at which it has shown how loud it is.
const REFINED_S: f64 = 0.02;
const LOUD_S: f64 = 0.07;
/// Power after a soft onset over that before it, from which it is a pluck and not the swelling of what was passed over.
const GREW: f32 = 2.0;

/// Whose an onset is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Whose {
    /// Somebody plucked.
    Harps,
    /// The tool's own, or hidden by it.
    Own,
    /// Its rough place is too near the end of the own sound to say.
    Unsure,
}

/// The latest stretch of own sound, in samples of the stream.
#[derive(Clone, Copy, Debug)]
pub(crate) struct OwnSound {
    from: usize,
    /// the first sample that is no more its
    until: usize,
    rate_hz: f64,
}

/// An onset of which it is not yet known whether it begins something.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Doubtful {
    pub(crate) rough: usize,
    pub(crate) rise: f32,
    /// whether it must prove to be more than a swelling
    pub(crate) soft: bool,
}

impl OwnSound {
    /// None so far.
    pub(crate) fn none(rate_hz: f64) -> Self {
        OwnSound {
            from: 0,
            until: 0,
            rate_hz,
        }
    }

    fn samples(&self, seconds: f64) -> usize {
        (seconds * self.rate_hz).round() as usize
    }

    /// It begins, or ends, with sample `now`.
    pub(crate) fn sounds(&mut self, sounds: bool, now: usize) {
        let on = self.until == usize::MAX;
        if sounds {
            if now > self.until.saturating_add(self.samples(BETWEEN_S)) || self.until == 0 {
                self.from = now;
            }
            self.until = usize::MAX;
        } else if on {
            self.until = now + self.samples(ECHO_S);
        }
    }

    /// The same sound counted from `now` on, after which `lost` samples are missing: nothing that begins there was heard to
    /// begin.
    pub(crate) fn after_lost(&self, now: usize, lost: usize) -> Self {
        let left = match self.until {
            usize::MAX => usize::MAX,
            until => until.saturating_sub(now).saturating_sub(lost),
        };
        OwnSound {
            from: 0,
            until: left.max(self.samples(JOIN_S)),
            rate_hz: self.rate_hz,
        }
    }

    /// Whether sample `now` is its.
    pub(crate) fn lasts(&self, now: usize) -> bool {
        (self.from..self.until).contains(&now)
    }

    /// Its first sample, where that lies between an onset and `now`.
    pub(crate) fn begins_in(&self, onset: usize, now: usize) -> Option<usize> {
        let begins = self.until > 0 && onset < self.from && self.from <= now;
        begins.then_some(self.from)
    }

    /// Whose the onset with this rough place is.
    pub(crate) fn whose(&self, rough: usize) -> Whose {
        if self.until == 0
            || rough + self.samples(AHEAD_S) < self.from
            || rough >= self.until.saturating_add(self.samples(LATE_S))
        {
            Whose::Harps
        } else if rough + self.samples(EARLY_S) < self.until {
            Whose::Own
        } else {
            Whose::Unsure
        }
    }

    /// Whether an onset with this refined place is none of its.
    pub(crate) fn is_after(&self, onset: usize) -> bool {
        onset >= self.until
    }

    /// From which sample on more is known of a doubtful onset.
    pub(crate) fn due(&self, doubtful: &Doubtful) -> usize {
        let wait_s = if doubtful.soft { LOUD_S } else { REFINED_S };
        doubtful.rough + self.samples(wait_s)
    }

    /// Whether `sound` is louder after its sample `at` than it was before.
    pub(crate) fn grew(&self, sound: &[f32], at: usize) -> bool {
        let ms = |count: f64| self.samples(count / 1e3);
        let before = &sound[at.saturating_sub(ms(100.0))..at.saturating_sub(ms(4.0))];
        let after = &sound[(at + ms(4.0)).min(sound.len())..(at + ms(50.0)).min(sound.len())];
        power(after) > GREW * power(before)
    }
}

/// Mean square.
fn power(part: &[f32]) -> f32 {
    part.iter().map(|y| y * y).sum::<f32>() / part.len().max(1) as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    const RATE_HZ: f64 = 1_000.0;

    /// Own sound from 1,000 to 1,500 ms, and its echo to 1,650.
    fn own() -> OwnSound {
        let mut own = OwnSound::none(RATE_HZ);
        own.sounds(true, 1_000);
        own.sounds(false, 1_500);
        own
    }

    #[test]
    fn an_onset_is_its_own_from_its_first_sample_to_the_end_of_its_echo() {
        let check = |rough, whose| assert_eq!(own().whose(rough), whose, "{rough}");
        check(980, Whose::Harps);
        check(995, Whose::Own);
        check(1_500, Whose::Own);
        check(1_630, Whose::Own);
        check(1_640, Whose::Unsure);
        check(1_670, Whose::Unsure);
        check(1_680, Whose::Harps);
        assert_eq!(OwnSound::none(RATE_HZ).whose(0), Whose::Harps);
    }

    #[test]
    fn two_that_leave_no_room_for_a_pluck_are_one() {
        let mut soon = own();
        soon.sounds(true, 1_700);
        assert_eq!(soon.begins_in(900, 1_800), Some(1_000));
        let mut late = own();
        late.sounds(true, 1_800);
        assert_eq!(late.begins_in(900, 1_800), Some(1_800));
        assert!(!late.lasts(1_750) && late.lasts(1_800));
    }

    #[test]
    fn to_end_what_does_not_sound_changes_nothing() {
        let mut silent = OwnSound::none(RATE_HZ);
        silent.sounds(false, 300);
        assert_eq!(silent.whose(310), Whose::Harps);
        let mut ended = own();
        ended.sounds(false, 1_600);
        assert!(!ended.lasts(1_700));
    }

    #[test]
    fn after_lost_samples_only_what_is_left_of_it_counts() {
        assert_eq!(own().after_lost(1_550, 40).until, 60);
        assert_eq!(own().after_lost(1_550, 400).until, 25);
        let mut on = OwnSound::none(RATE_HZ);
        on.sounds(true, 10);
        assert_eq!(on.after_lost(50, 1_000).until, usize::MAX);
    }
}
