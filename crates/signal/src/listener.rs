//! From a stream of samples to single strikes, each with the sound before it and after it.

use crate::breaks::broken_at;
use crate::onset::{OnsetFinder, refine};
use crate::own_sound::{Doubtful, OwnSound, Whose};
use crate::thin::Thinner;

/// Seconds of sound kept from before an onset.
pub(crate) const BEFORE_S: f64 = 0.12;
/// Seconds after the onset at which a first and a second look are offered.
pub(crate) const LOOKS_S: [f64; 2] = [0.097, 0.245];
/// Seconds before the next onset at which listening ends: its first frame may already hold the next string.
const CUT_S: f64 = 0.024;

/// Rise below which an onset may be no pluck; such a one does not end a strike younger than this.
pub const SOFT_RISE: f32 = 0.6;
const YOUNG_S: f64 = 0.5;

/// Why listening to a strike ended, or that it has not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Look {
    /// After a tenth of a second.
    First,
    /// After a quarter of a second.
    Second,
    /// As long as was asked.
    Whole,
    /// The next onset came.
    NextOnset,
    /// The tool's own sound began.
    OwnSound,
    /// Samples after it are known to be missing.
    Lost,
    /// The sound ended.
    EndOfSound,
}

impl Look {
    /// Whether this is the strike's last look.
    pub fn is_last(self) -> bool {
        !matches!(self, Look::First | Look::Second)
    }
}

/// Something struck or plucked, as far as it has sounded.
#[derive(Clone, Debug)]
pub struct Strike {
    /// The onset, seconds from the start of the sound.
    pub at_s: f64,
    /// Which look this is.
    pub look: Look,
    /// Samples from before the onset, up to 0.12 s; empty where the sound begins with the strike.
    pub before: Vec<f32>,
    /// Samples from the onset on.
    pub after: Vec<f32>,
    /// How sharply it rose, over all bands, in natural logarithms of power: what is soft may be no pluck at all.
    pub rise: f32,
    /// Whether it is a cut in sound that goes on, rather than a pluck.
    pub cut: bool,
    /// Samples a second in both.
    pub rate_hz: f64,
}

/// Why a stream cannot be listened to.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum ListenError {
    /// The sample rate is out of range.
    #[error("{rate_hz} samples a second: 8,000 to 192,000 can be heard")]
    Rate {
        /// The rate asked for.
        rate_hz: u32,
    },
    /// The time to listen is out of range.
    #[error("listening for {listen_s} s: 0.08 to 4 s can be used")]
    Time {
        /// The time asked for.
        listen_s: f64,
    },
}

struct Pending {
    /// samples from the start of the stream
    onset: usize,
    refined: bool,
    looks: usize,
    rise: f32,
    cut: bool,
}

/// Cuts a stream into strikes. Holds a few seconds of sound at most.
pub struct Listener {
    thin: Thinner,
    onsets: OnsetFinder,
    listen_s: f64,
    rate_hz: f64,
    kept: Vec<f32>,
    /// samples dropped before `kept`
    dropped: usize,
    pending: Option<Pending>,
    own: OwnSound,
    doubtful: Option<Doubtful>,
    /// the last onset that began nothing, though something was struck there
    passed_over: Option<usize>,
    /// samples of the stream so far, those lost among them, and its rate
    taken: u64,
    stream_hz: u32,
    /// the second at which the samples that are counted here begin
    from_s: f64,
}

impl Listener {
    /// Listens at `rate_hz` (8,000 to 192,000), to each strike for `listen_s` seconds (0.08 to 4).
    pub fn new(rate_hz: u32, listen_s: f64) -> Result<Self, ListenError> {
        if !(8_000..=192_000).contains(&rate_hz) {
            return Err(ListenError::Rate { rate_hz });
        }
        if !(0.08..=4.0).contains(&listen_s) {
            return Err(ListenError::Time { listen_s });
        }
        let thin = Thinner::new(rate_hz);
        let rate = thin.rate_hz();
        Ok(Listener {
            thin,
            onsets: OnsetFinder::new(rate),
            listen_s,
            rate_hz: rate,
            kept: Vec::new(),
            dropped: 0,
            pending: None,
            own: OwnSound::none(rate),
            doubtful: None,
            passed_over: None,
            taken: 0,
            stream_hz: rate_hz,
            from_s: 0.0,
        })
    }

    /// Samples a second that strikes are given in: the stream's own, or a half or a quarter where that is very high.
    pub fn rate_hz(&self) -> f64 {
        self.rate_hz
    }

    /// The onset of what is being listened to, seconds from the start of the stream.
    pub fn onset_s(&self) -> Option<f64> {
        let pending = self.pending.as_ref();
        pending.map(|p| self.second(p.onset))
    }

    /// Seconds of the stream so far, what was lost among them.
    pub fn now_s(&self) -> f64 {
        self.taken as f64 / f64::from(self.stream_hz)
    }

    /// The tool makes a sound itself from the next sample on, or makes none any more.
    ///
    /// While it does and for [`crate::ECHO_S`] after, nothing that is struck begins a strike. What was being listened to
    /// ends just before, with [`Look::OwnSound`]. To be said before the first sample that may hold the sound, and not
    /// before the last one that does.
    pub fn own_sound(&mut self, sounds: bool) {
        let now = self.now();
        self.own.sounds(sounds, now);
    }

    /// Whether the next sample belongs to the tool's own sound or to the room's answer to it.
    pub fn is_own_sound(&self) -> bool {
        self.own.lasts(self.now())
    }

    /// So many samples of the stream are missing here. What was being listened to ends, with [`Look::Lost`]; what rings
    /// when the sound goes on begins no strike.
    pub fn lost(&mut self, samples: u64) -> Vec<Strike> {
        let now = self.now();
        let mut strikes = Vec::new();
        self.end(now, Look::Lost, &mut strikes);
        self.taken = self.taken.saturating_add(samples);
        let lost = samples as f64 / f64::from(self.stream_hz) * self.rate_hz;
        self.own = self.own.after_lost(now, lost as usize);
        self.thin = Thinner::new(self.stream_hz);
        self.onsets = OnsetFinder::new(self.rate_hz);
        self.kept.clear();
        self.dropped = 0;
        self.doubtful = None;
        self.passed_over = Some(0);
        self.from_s = self.now_s();
        strikes
    }

    /// Takes in samples of any number; gives the looks that they complete.
    pub fn push(&mut self, samples: &[f32]) -> Vec<Strike> {
        let mut strikes = Vec::new();
        if !samples.is_empty() {
            self.interrupt(&mut strikes);
        }
        // short pieces, so that looks come in their order
        for piece in samples.chunks(4096) {
            let thinned = self.thin.push(piece);
            self.taken = self.taken.saturating_add(piece.len() as u64);
            self.kept.extend_from_slice(&thinned);
            let found = self.onsets.push(&thinned);
            for (rough, rise) in found {
                self.settle(&mut strikes);
                self.advance(rough, &mut strikes);
                self.onset(rough, rise, &mut strikes);
                self.interrupt(&mut strikes);
            }
            self.settle(&mut strikes);
            self.advance(self.now(), &mut strikes);
            self.forget();
        }
        strikes
    }

    /// Ends the stream.
    pub fn finish(&mut self) -> Vec<Strike> {
        let mut strikes = Vec::new();
        let end = self.now();
        self.advance(end, &mut strikes);
        self.end(end, Look::EndOfSound, &mut strikes);
        strikes
    }

    /// The samples so far.
    fn now(&self) -> usize {
        self.dropped + self.kept.len()
    }

    /// The second of a sample.
    fn second(&self, sample: usize) -> f64 {
        self.from_s + sample as f64 / self.rate_hz
    }

    /// Where listening ends if something else begins at `rough`.
    fn cut_before(&self, rough: usize) -> usize {
        rough.saturating_sub((CUT_S * self.rate_hz) as usize)
    }

    /// Ends what is being listened to.
    fn end(&mut self, end: usize, look: Look, strikes: &mut Vec<Strike>) {
        if let Some(p) = self.pending.take() {
            let p = self.refined(p, end);
            strikes.extend(self.strike(&p, end.max(p.onset), look));
        }
    }

    /// Ends what is being listened to where the tool's own sound begins.
    fn interrupt(&mut self, strikes: &mut Vec<Strike>) {
        let Some(onset) = self.pending.as_ref().map(|p| p.onset) else {
            return;
        };
        if let Some(from) = self.own.begins_in(onset, self.now()) {
            self.passed_over = Some(onset);
            self.end(self.cut_before(from), Look::OwnSound, strikes);
        }
    }

    /// An onset begins a strike, or not, or it is too soon to say.
    fn onset(&mut self, rough: usize, rise: f32, strikes: &mut Vec<Strike>) {
        let young = (YOUNG_S * self.rate_hz) as usize;
        let may_swell = |onset: usize| rise < SOFT_RISE && rough < onset + young;
        // what rises softly while a strike is young is its own beating, or the hand leaving
        if (self.pending.as_ref()).is_some_and(|p| p.onset > 0 && may_swell(p.onset)) {
            return;
        }
        let soft = self.passed_over.is_some_and(may_swell);
        match self.own.whose(rough) {
            Whose::Own => self.passed_over = Some(rough),
            Whose::Harps if !soft => self.begin(rough, rise, strikes),
            _ => self.doubtful = Some(Doubtful { rough, rise, soft }),
        }
    }

    /// Decides on a doubtful onset once enough of it was heard.
    fn settle(&mut self, strikes: &mut Vec<Strike>) {
        let now = self.now();
        let Some(d) = self.doubtful.take_if(|d| now >= self.own.due(d)) else {
            return;
        };
        let onset = refine(
            &self.kept,
            d.rough.saturating_sub(self.dropped),
            self.rate_hz,
        );
        if !self.own.is_after(self.dropped + onset) {
            self.passed_over = Some(d.rough);
        } else if !d.soft || self.own.grew(&self.kept, onset) {
            self.begin(d.rough, d.rise, strikes);
        }
    }

    fn begin(&mut self, rough: usize, rise: f32, strikes: &mut Vec<Strike>) {
        self.end(self.cut_before(rough), Look::NextOnset, strikes);
        self.pending = Some(Pending {
            onset: rough,
            refined: false,
            looks: 0,
            rise,
            cut: false,
        });
    }

    /// Gives the looks that are due once the stream has come to sample `now`.
    fn advance(&mut self, now: usize, strikes: &mut Vec<Strike>) {
        while let Some(p) = self.pending.take() {
            let margin = (0.02 * self.rate_hz) as usize;
            let p = if !p.refined && now > p.onset + margin {
                self.refined(p, now)
            } else {
                p
            };
            let whole = p.onset + (self.listen_s * self.rate_hz).round() as usize;
            if p.refined && now >= whole {
                strikes.extend(self.strike(&p, whole, Look::Whole));
                return;
            }
            let due = LOOKS_S
                .get(p.looks)
                .map(|s| p.onset + (s * self.rate_hz).round() as usize);
            match due {
                Some(due) if p.refined && now >= due && due + margin < whole => {
                    let look = if p.looks == 0 {
                        Look::First
                    } else {
                        Look::Second
                    };
                    strikes.extend(self.strike(&p, due, look));
                    self.pending = Some(Pending {
                        looks: p.looks + 1,
                        ..p
                    });
                }
                _ => {
                    self.pending = Some(p);
                    return;
                }
            }
        }
    }

    fn refined(&self, p: Pending, now: usize) -> Pending {
        if p.refined {
            return p;
        }
        let end = now.saturating_sub(self.dropped).min(self.kept.len());
        let rough = p.onset.saturating_sub(self.dropped);
        let onset = if p.onset == 0 {
            0
        } else {
            self.dropped + refine(&self.kept[..end], rough, self.rate_hz)
        };
        let cut = self.is_cut(onset.saturating_sub(self.dropped), end);
        Pending {
            onset,
            refined: true,
            cut,
            ..p
        }
    }

    /// Whether the sound goes on over `at` as loud as before with a step in it: then samples are missing there.
    fn is_cut(&self, at: usize, end: usize) -> bool {
        let reach = (0.02 * self.rate_hz) as usize;
        let (Some(from), to) = (at.checked_sub(reach), (at + reach).min(end)) else {
            return false;
        };
        let loud =
            |part: &[f32]| part.iter().map(|y| y * y).sum::<f32>() / part.len().max(1) as f32;
        let (before, after) = (&self.kept[from..at], &self.kept[at.min(to)..to]);
        loud(after) < 2.5 * loud(before) && broken_at(&self.kept[from..to], self.rate_hz).is_some()
    }

    fn strike(&self, pending: &Pending, end: usize, look: Look) -> Option<Strike> {
        let onset = pending.onset;
        let at = onset.checked_sub(self.dropped)?;
        let end = end.checked_sub(self.dropped)?.min(self.kept.len());
        let from = at.saturating_sub((BEFORE_S * self.rate_hz) as usize);
        // the last milliseconds before may hold the finger
        let guard = at.saturating_sub((0.002 * self.rate_hz) as usize).max(from);
        Some(Strike {
            at_s: self.second(onset),
            look,
            rise: pending.rise,
            cut: pending.cut,
            before: self.kept.get(from..guard)?.to_vec(),
            after: self.kept.get(at..end)?.to_vec(),
            rate_hz: self.rate_hz,
        })
    }

    fn forget(&mut self) {
        let reach = ((BEFORE_S + 0.2) * self.rate_hz) as usize;
        let now = self.now();
        let oldest = self
            .pending
            .as_ref()
            .map_or(now, |p| p.onset)
            .saturating_sub(reach);
        if oldest > self.dropped + (self.rate_hz as usize) / 2 {
            self.kept.drain(..oldest - self.dropped);
            self.dropped = oldest;
        }
    }
}
