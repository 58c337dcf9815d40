//! Ringing strings followed live: by how many cents each has moved since its partials were told.
//!
//! All partials of a string move by the same number of cents when its pin is turned. So each is followed by itself, and what
//! most of them agree on is the string's; a partial that another string covers says something else and is left out.

use std::collections::VecDeque;

use crate::cent::CENT;
use crate::frames::{Frame, Frames};
use crate::listener::ListenError;
use crate::ringing_string::{FASTEST, Followed, LEAST_BINS, Part, Voice};
use crate::thin::Thinner;

/// Strings followed at a time: those told last.
const MOST: usize = 6;
/// Partials of a string that are followed.
const PARTIALS: usize = 10;
/// Seconds without a word, after which a string has died away.
const SILENT_S: f64 = 0.6;
/// Words that must lie on a line: a pin moves a string evenly for a quarter of a second, a vibrato does not.
const LINE_OF: usize = 6;
/// Seconds of spectra that are kept from before a pluck, and the last of them that may hold it.
const PAST_S: f64 = 1.4;
const HOLDS_PLUCK_S: f64 = 0.1;
const LOOK_BACK_S: f64 = 0.5;

/// Follows strings that ring.
pub struct Follower {
    thin: Thinner,
    frames: Frames,
    before: Option<Frame>,
    /// power of the last seconds' windows, by their middles
    past: VecDeque<(f64, Vec<f32>)>,
    /// the last stretch of seconds that is none of the strings'
    covered: (f64, f64),
    /// samples of the stream so far, those lost among them, and its rate
    taken: u64,
    stream_hz: u32,
    /// the string told last stands last
    voices: Vec<Voice>,
}

impl Follower {
    /// For a stream of `rate_hz`, 8,000 to 192,000.
    pub fn new(rate_hz: u32) -> Result<Follower, ListenError> {
        if !(8_000..=192_000).contains(&rate_hz) {
            return Err(ListenError::Rate { rate_hz });
        }
        let thin = Thinner::new(rate_hz);
        Ok(Follower {
            frames: Frames::new(thin.rate_hz()),
            thin,
            before: None,
            past: VecDeque::new(),
            covered: (f64::NEG_INFINITY, f64::NEG_INFINITY),
            taken: 0,
            stream_hz: rate_hz,
            voices: Vec::new(),
        })
    }

    /// Follows what was plucked at `onset_s` and rings with these partials, Hz, from `from_s` on; in place of what was told
    /// of `key` before.
    pub fn follow(&mut self, key: usize, partials_hz: &[f64], onset_s: f64, from_s: f64) {
        let was = self.voices.iter().position(|v| v.key == key);
        let was = was.map(|at| self.voices.remove(at));
        let good = |hz: &f64| hz.is_finite() && *hz > 20.0;
        let partials = partials_hz.iter().copied().filter(good).take(PARTIALS);
        let parts: Vec<Part> = partials
            .map(|hz| Part {
                hz,
                stood: match &was {
                    // what rang there was the string itself
                    Some(voice) => voice.stood_near(hz),
                    None => self.stood(hz, onset_s),
                },
                least: f64::INFINITY,
                covered_until_s: 0.0,
            })
            .collect();
        if parts.is_empty() {
            return;
        }
        self.voices.push(Voice {
            key,
            parts,
            lately: VecDeque::new(),
            cents: 0.0,
            amplitude: None,
            agreed: 0,
            silent_s: 0.0,
            not_before_s: from_s,
        });
        if self.voices.len() > MOST {
            self.voices.remove(0);
        }
    }

    /// The most power that stood near `hz` in the windows before `onset_s`.
    fn stood(&self, hz: f64, onset_s: f64) -> f64 {
        let bin = hz / self.frames.bin_hz();
        let reach = LEAST_BINS.max(FASTEST * self.frames.hop_s() * CENT * bin);
        let (low, high) = (
            (bin - reach).floor() as usize,
            (bin + reach).ceil() as usize,
        );
        let lately = self
            .past
            .iter()
            .rev()
            .filter(|(at, _)| *at < onset_s - HOLDS_PLUCK_S);
        // where the last seconds are covered, what stood there before
        let latest = lately.clone().next().map_or(onset_s, |(at, _)| *at);
        let from_s = if latest < onset_s - LOOK_BACK_S {
            latest - LOOK_BACK_S + HOLDS_PLUCK_S
        } else {
            onset_s - LOOK_BACK_S
        };
        let windows = lately.take_while(|(at, _)| *at >= from_s);
        let near = windows.flat_map(|(_, power)| power.iter().take(high + 1).skip(low));
        near.fold(0.0, |most, p| f64::from(*p).max(most))
    }

    /// Follows `key` no more.
    pub fn forget(&mut self, key: usize) {
        self.voices.retain(|v| v.key != key);
    }

    /// Says nothing of what rings before `at_s`, but for `but`: something was struck, and covers all else.
    pub fn wait_until(&mut self, at_s: f64, but: Option<usize>) {
        for voice in self.voices.iter_mut().filter(|v| Some(v.key) != but) {
            voice.not_before_s = voice.not_before_s.max(at_s);
            voice.lately.clear();
            voice.amplitude = None;
        }
    }

    /// What sounds from now until `at_s` is the tool's own: windows that hold it say nothing, and were nobody's before.
    pub fn cover_until(&mut self, at_s: f64) {
        let now_s = self.now_s();
        if now_s > self.covered.1 {
            self.covered.0 = now_s;
        }
        self.covered.1 = at_s.max(now_s);
        self.wait_until(at_s, None);
    }

    /// So many samples of the stream are missing here. What rang through a short gap is followed on.
    pub fn lost(&mut self, samples: u64) {
        let was_s = self.now_s();
        self.taken = self.taken.saturating_add(samples);
        let now_s = self.now_s();
        self.thin = Thinner::new(self.stream_hz);
        self.frames.start_at(now_s);
        self.before = None;
        if now_s - was_s > SILENT_S {
            self.voices.clear();
        }
        self.wait_until(now_s, None);
    }

    /// Seconds of the stream so far, what was lost among them.
    fn now_s(&self) -> f64 {
        self.taken as f64 / f64::from(self.stream_hz)
    }

    /// Takes in samples, −1 to 1, any number at a time; says where the followed strings are, the one told last first.
    pub fn push(&mut self, samples: &[f32]) -> Vec<Followed> {
        let thinned = self.thin.push(samples);
        self.taken = self.taken.saturating_add(samples.len() as u64);
        let mut words = Vec::new();
        for frame in self.frames.push(&thinned) {
            let covered = self.is_covered(&frame);
            if let Some(before) = self.before.take() {
                if !covered {
                    words.extend(self.hear(&frame, &before));
                }
                self.past.push_back((before.middle_s, before.power));
                while self.past.len() as f64 * self.frames.hop_s() > PAST_S {
                    self.past.pop_front();
                }
            }
            self.before = Some(frame).filter(|_| !covered);
        }
        words
    }

    /// Whether a window holds the tool's own sound. Its first half may hold the end: there only the room answers.
    fn is_covered(&self, frame: &Frame) -> bool {
        frame.middle_s + self.frames.half_s() > self.covered.0 && frame.middle_s < self.covered.1
    }

    fn hear(&mut self, now: &Frame, before: &Frame) -> Vec<Followed> {
        let (bin_hz, hop_s) = (self.frames.bin_hz(), self.frames.hop_s());
        let mut words = Vec::new();
        // lines of the strings told later, which are louder
        let mut taken: Vec<f64> = Vec::new();
        for (younger, voice) in self.voices.iter_mut().rev().enumerate() {
            // whatever else sounds since covers an older string
            let words_in_line = if younger == 0 { LINE_OF } else { 2 * LINE_OF };
            let agreed = voice.agreeing(now, before, &taken, (bin_hz, hop_s));
            let at_s = 0.5 * (now.middle_s + before.middle_s);
            words.extend(voice.word(agreed, at_s, hop_s, words_in_line));
            taken.extend(voice.lines());
        }
        self.voices.retain(|v| v.silent_s < SILENT_S);
        words
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const RATE: u32 = 48_000;
    const F1: f64 = 220.0;

    /// A damped string of ten partials from one second on, whose pitch is `cents` of the seconds since then, in faint noise.
    fn sound(seconds: f64, cents: impl Fn(f64) -> f64) -> Vec<f32> {
        let rate = f64::from(RATE);
        let (mut seed, mut turn) = (7u64, 0.0);
        let mut samples = Vec::new();
        for i in 0..(seconds * rate) as usize {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            let noise = (seed >> 40) as f64 / f64::from(1 << 23) - 1.0;
            let t = i as f64 / rate - 1.0;
            let mut y = 1e-4 * noise;
            if t >= 0.0 {
                turn += F1 * (cents(t) * CENT).exp() / rate;
                for n in (1..=10).map(f64::from) {
                    let loud = 0.1 / n * (-(0.6 + 0.2 * n) * t).exp();
                    y += loud * (std::f64::consts::TAU * n * turn).sin();
                }
            }
            samples.push(y as f32);
        }
        samples
    }

    fn followed(sound: &[f32], piece: usize) -> Vec<Followed> {
        let mut follower = Follower::new(RATE).unwrap();
        let (before, after) = sound.split_at(76_800);
        let mut words: Vec<Followed> = before
            .chunks(piece)
            .flat_map(|c| follower.push(c))
            .collect();
        assert!(words.is_empty());
        let partials: Vec<f64> = (1..=10).map(|n| F1 * f64::from(n)).collect();
        follower.follow(3, &partials, 1.0, 1.45);
        words.extend(after.chunks(piece).flat_map(|c| follower.push(c)));
        words
    }

    #[test]
    fn a_string_whose_pin_is_turned_is_followed_within_its_interval() {
        // half a second still, twenty cents up within a second, then still
        let course = |t: f64| 20.0 * (t - 1.0).clamp(0.0, 1.0);
        let words = followed(&sound(4.0, course), 1_024);
        assert!(words.len() > 30, "{} words", words.len());
        let missed = words
            .iter()
            .filter(|w| (w.cents - course(w.at_s - 1.0)).abs() > w.u95_cents + 1.0)
            .count();
        assert!(missed * 20 <= words.len(), "{missed} of {}", words.len());
        let last = words.last().unwrap();
        assert!((last.cents - 20.0).abs() < 0.5 && last.key == 3, "{last:?}");
    }

    #[test]
    fn a_still_string_stays_where_it_was() {
        for word in followed(&sound(4.0, |_| 0.0), 1_000) {
            assert!(word.cents.abs() < 0.5, "{word:?}");
        }
    }

    #[test]
    fn a_vibrato_is_no_pin() {
        let vibrato = |t: f64| 15.0 * (std::f64::consts::TAU * 5.5 * t).sin();
        let words = followed(&sound(4.0, vibrato), 1_024);
        let moved = words.iter().filter(|w| w.cents.abs() > 8.0).count();
        assert!(moved <= 1, "{moved} of {}", words.len());
    }

    #[test]
    fn what_sounded_before_the_pluck_is_not_the_string() {
        // the same sound all along: it stood there before the pluck that is told
        let all: Vec<f32> = sound(6.0, |t| 10.0 * (t - 2.0).clamp(0.0, 2.0));
        let mut follower = Follower::new(RATE).unwrap();
        let (before, after) = all.split_at(144_000);
        assert!(follower.push(before).is_empty());
        let partials: Vec<f64> = (1..=10).map(|n| F1 * f64::from(n)).collect();
        follower.follow(0, &partials, 2.5, 2.9);
        assert_eq!(follower.push(after), []);
    }

    #[test]
    fn the_size_of_the_pieces_changes_nothing() {
        let sound = sound(3.0, |t| 5.0 * t);
        assert_eq!(followed(&sound, 480), followed(&sound, 4_000));
    }

    /// Words on a still string from two seconds on, with a tone of 442 Hz as loud from 2.5 to 2.7 s, told or not.
    fn with_a_tone(told: bool) -> Vec<Followed> {
        let mut sound = sound(4.5, |_| 0.0);
        for (i, y) in sound.iter_mut().enumerate().take(129_600).skip(120_000) {
            *y += 0.1 * (std::f32::consts::TAU * 442.0 * i as f32 / RATE as f32).sin();
        }
        let mut follower = Follower::new(RATE).unwrap();
        follower.push(&sound[..76_800]);
        let partials: Vec<f64> = (1..=10).map(|n| F1 * f64::from(n)).collect();
        follower.follow(3, &partials, 1.0, 1.45);
        let mut words = follower.push(&sound[76_800..120_000]);
        if told {
            follower.cover_until(2.85);
        }
        words.extend(follower.push(&sound[120_000..]));
        words
    }

    #[test]
    fn nothing_is_said_in_a_tone_of_ones_own_and_the_string_is_followed_on() {
        let hidden = |w: &&Followed| (2.45..2.85).contains(&w.at_s);
        let told = with_a_tone(true);
        assert_eq!(told.iter().filter(hidden).count(), 0);
        assert!(with_a_tone(false).iter().any(|w| hidden(&w)));
        assert!(told.iter().any(|w| w.at_s < 2.45));
        let after: Vec<_> = told.iter().filter(|w| w.at_s > 2.85).collect();
        assert!(after.len() > 15, "{} words", after.len());
        assert!(after.iter().all(|w| w.cents.abs() < 0.5), "{after:?}");
    }

    #[test]
    fn a_string_is_followed_on_through_a_gap() {
        let sound = sound(4.0, |_| 0.0);
        let mut follower = Follower::new(RATE).unwrap();
        follower.push(&sound[..76_800]);
        let partials: Vec<f64> = (1..=10).map(|n| F1 * f64::from(n)).collect();
        follower.follow(3, &partials, 1.0, 1.45);
        follower.push(&sound[76_800..110_000]);
        follower.lost(480);
        let words = follower.push(&sound[110_480..]);
        assert!(words.len() > 20, "{} words", words.len());
        let first = words.first().unwrap().at_s;
        assert!(first > 110_480.0 / 48_000.0 && words.iter().all(|w| w.cents.abs() < 0.5));
        // what was not heard for so long may be anywhere
        follower.lost(96_000);
        assert_eq!(follower.push(&sound[144_000..]), []);
    }

    #[test]
    fn nothing_is_followed_that_is_no_frequency() {
        let mut follower = Follower::new(RATE).unwrap();
        follower.follow(0, &[f64::NAN, -3.0, f64::INFINITY], 0.0, 0.0);
        assert_eq!(follower.push(&vec![f32::NAN; 48_000]), []);
        assert!(Follower::new(100).is_err());
    }
}
