//! The fit of one plucked string: from samples and a rough law to sounding pitch and stiff-string law.

use crate::beating::ring_time_s;
use crate::blocks::{Grid, demodulate};
use crate::cent::CENT;
use crate::comb::Law;
use crate::common_law::{follow_law, law_of, lend_decay};
use crate::joint::{Answer, Question, Stand};
use crate::noise::{attack_noise, noise_levels, probes};
use crate::prior::Prior;
use crate::track::{Track, Weight, improve, look_back, start_track, subtract_others};
use crate::voice::Voice;

/// Energy over noise from which a partial counts as heard.
pub(crate) const PRESENT: f64 = 20.0;
/// Time constants of the glide that are weighed against each other, seconds; the second is tried first.
pub(crate) const TAUS: [f64; 4] = [0.08, 0.13, 0.2, 0.3];
const FIRST_TAU: usize = 1;
/// Amplitude of what beats with a partial, against its own, and how often it is so.
const RHOS: [f64; 4] = [0.12, 0.25, 0.4, 0.8];
const RHO_PRIOR: [f64; 4] = [0.3, 0.35, 0.3, 0.05];
/// The way of beating by which decays are found.
const USUAL_WAY: usize = 1;
/// A partial's distance from where the rough law put it, Hz, from which long blocks lose some of it.
const STRAYED_HZ: f64 = 3.0;
/// Strings that ring along, against the string: −30 dB.
const ECHO: f64 = 0.0316;
/// Spreads of the partials' departures from the law, cents, and the logarithm of how often they are so.
const OFF_LAW: [(f64, f64); 4] = [(0.0, 0.0), (0.7, -3.0), (2.0, -5.0), (5.0, -8.0)];
/// Standard deviations between the model's and the plain sounding pitch from which the model is believed less, and from
/// which not at all.
const DISAGREE: (f64, f64) = (4.0, 7.0);
/// What no figure is surer than, cents: a faultless string heard for a second (the oscillators' single precision), and another.
const LEAST: (f64, f64) = (0.0003, 0.09);
/// Seconds of sound from which a plain figure counts, as the glide dies, and from which it counts wholly.
const PLAIN_S: (f64, f64) = (0.4, 0.6);

/// A partial measured by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FitPartial {
    /// Its number, 1 the first.
    pub n: usize,
    /// Its frequency once the glide has died, Hz.
    pub hz: f64,
    /// Standard deviation, cents.
    pub sd_cents: f64,
}

/// What a pluck says of its string.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// First partial by the law, f0·√(1+B), Hz.
    pub f1_hz: f64,
    /// Standard deviation of `f1_hz`, cents.
    pub f1_sd: f64,
    /// Sounding pitch: Σ w f_n/n ÷ Σ w over the first eight partials, w = n² × energy from 50 to 500 ms, Hz.
    pub heard_hz: f64,
    /// Standard deviation of `heard_hz`, cents.
    pub heard_sd: f64,
    /// The law.
    pub law: Law,
    /// How far above its later pitch the string began, cents.
    pub glide_cents: f64,
    /// Decay of the strongest partial, seconds to −60 dB.
    pub t60_s: f64,
    /// The partials that stand out of the noise, each by itself.
    pub partials: Vec<FitPartial>,
}

/// Fits a string near `law` (its first partials within some ten cents) to `sound`, which begins at the onset; `before` is the tenth of a
/// second or so that came before it, or nothing.
///
/// `None` where no partial stands out of the noise or the sound is shorter than three of its blocks (some 20 ms, or
/// three periods).
pub fn fit(before: &[f32], sound: &[f32], rate_hz: f64, law: Law, prior: Prior) -> Option<Fit> {
    let attack = attack_noise(sound, rate_hz);
    let f1 = law.partial(1);
    // a finger's noise is let pass; what is left after a string has all but died is other strings'
    let first = if attack {
        (0.012 * rate_hz) as usize
    } else {
        (0.002 * rate_hz) as usize
    };
    let useful_s = if attack {
        (0.9 * ring_time_s(f1)).max(0.2)
    } else {
        f64::INFINITY
    };
    let length = sound.len().min((useful_s * rate_hz) as usize);
    let grid = Grid::new(f1, first, length, rate_hz, 0.006);
    if grid.len() < 3 {
        return None;
    }
    let mut tracks = follow(sound, &grid, law, prior, attack);
    // where the rough law was too rough, once more from what was found
    let strayed = tracks
        .iter()
        .filter(|t| t.strength(&grid) > PRESENT)
        .any(|t| t.shift_hz.abs() > STRAYED_HZ);
    let mut law = law;
    if strayed {
        let (x, ln_b) = law_of(&tracks, &grid, law, prior);
        law = Law {
            f0_hz: law.f0_hz * (x * CENT).exp(),
            b: ln_b.exp(),
        };
        tracks = follow(sound, &grid, law, prior, attack);
    }
    look_back(&mut tracks, before, &grid);
    Table::of(tracks, grid, law, prior, attack)?.answer()
}

/// Follows every partial of `law` through the blocks.
fn follow(sound: &[f32], grid: &Grid, law: Law, prior: Prior, attack: bool) -> Vec<Track> {
    let top = (0.45 * grid.rate_hz).min(14_000.0);
    let mut hz: Vec<f64> = (1..=50)
        .map(|n| law.partial(n))
        .take_while(|f| *f < top)
        .collect();
    let count = hz.len();
    let between = probes(law, count);
    hz.extend(&between);
    let mut turned = demodulate(sound, &hz, grid);
    let raw = turned.split_off(count);
    let mut tracks: Vec<Track> = turned
        .into_iter()
        .enumerate()
        .map(|(i, raw)| start_track(i + 1, hz[i], raw, grid))
        .collect();
    for sweep in 0..4 {
        subtract_others(&mut tracks, grid);
        if sweep < 3 {
            let noise = noise_levels(&between, &raw, &tracks, grid, attack);
            for (t, n) in tracks.iter_mut().zip(noise) {
                t.noise = n;
            }
        }
        for t in &mut tracks {
            improve(t, grid);
        }
        if sweep > 0 {
            lend_decay(&mut tracks, grid);
        }
        if sweep < 3 {
            follow_law(&mut tracks, grid, law, prior);
        }
    }
    subtract_others(&mut tracks, grid);
    tracks
}

/// The partials of one pluck, ready to be weighed together.
pub(crate) struct Table {
    pub(crate) grid: Grid,
    pub(crate) law: Law,
    pub(crate) prior: Prior,
    pub(crate) all: Vec<Track>,
    /// numbers of the partials that count
    pub(crate) heard: Vec<usize>,
    pub(crate) weights: Vec<Weight>,
    pub(crate) start: (f64, f64),
    pub(crate) attack: bool,
}

impl Table {
    fn of(all: Vec<Track>, grid: Grid, law: Law, prior: Prior, attack: bool) -> Option<Table> {
        let heard = standing_out(&all, &grid);
        if heard.is_empty() {
            return None;
        }
        let tracks: Vec<Track> = all
            .iter()
            .filter(|t| heard.contains(&t.n))
            .cloned()
            .collect();
        let start = law_of(&tracks, &grid, law, prior);
        let weights = all.iter().take(8).map(|t| t.weight(&grid)).collect();
        Some(Table {
            grid,
            law,
            prior,
            all,
            heard,
            weights,
            start,
            attack,
        })
    }

    fn tracks(&self) -> Vec<Track> {
        self.all
            .iter()
            .filter(|t| self.heard.contains(&t.n))
            .cloned()
            .collect()
    }

    fn answer(&self) -> Option<Fit> {
        // no hand: perhaps no fault either
        let faultless = if self.attack { None } else { self.faultless() };
        match faultless {
            Some(answer) => self.mixed(&[answer]),
            None => self.mixed(&self.real()),
        }
    }

    pub(crate) fn question<'a>(
        &'a self,
        voices: &'a [Voice],
        tau: Option<usize>,
        off_law: f64,
    ) -> Question<'a> {
        Question {
            voices,
            reference_hz: self.law.f0_hz,
            prior: self.prior,
            tau,
            off_law,
            weights: &self.weights,
        }
    }

    pub(crate) fn hz(&self, at: Stand, n: f64) -> f64 {
        n * self.law.f0_hz * (1.0 + at.ln_b.exp() * n * n).sqrt() * (at.x * CENT).exp()
    }

    /// A string as strings are: it glides, its partials beat and may leave the law, others ring along.
    fn real(&self) -> Vec<Answer> {
        let mut tracks = self.tracks();
        let level = tracks
            .iter()
            .map(|t| t.amp.norm_sqr() * (1.0 - (-t.decay).exp()) / t.decay)
            .sum::<f64>()
            .sqrt();
        let voices = |tracks: &[Track]| -> Vec<Voice> {
            tracks
                .iter()
                .filter_map(|t| Voice::new(t, &self.grid, &RHOS, &RHO_PRIOR, ECHO * level, &TAUS))
                .collect()
        };
        let mut real = voices(&tracks);
        for _ in 0..2 {
            let Some(a) = self
                .question(&real, Some(FIRST_TAU), 0.0)
                .answer(self.from(FIRST_TAU, 0.4))
            else {
                return Vec::new();
            };
            for t in &mut tracks {
                let Some(v) = real.iter().find(|v| v.n == t.n as f64) else {
                    continue;
                };
                let found = v.ask(USUAL_WAY, FIRST_TAU, self.hz(a.stand, v.n), a.stand.glide);
                t.amp *= found.gain.clamp(0.5, 2.0);
                t.decay = (t.decay - found.slope.clamp(-2.0, 2.0)).clamp(0.02, 80.0);
            }
            real = voices(&tracks);
        }
        self.weighed(&real)
    }

    /// Answers for every spread of departures and every time constant that is worth it.
    fn weighed(&self, voices: &[Voice]) -> Vec<Answer> {
        // the ways there may be are told apart with one time constant…
        let mut modes: Vec<(f64, Answer)> = Vec::new();
        for (off_law, log_prior) in OFF_LAW {
            for share in [0.1, 0.45, 0.85] {
                let q = self.question(voices, Some(FIRST_TAU), off_law);
                if let Some(a) = q.answer(self.from(FIRST_TAU, share)) {
                    let log_z = a.log_z + log_prior;
                    let known = modes.iter().any(|(o, m)| {
                        *o == off_law
                            && (m.log_z - log_z).abs() < 0.1
                            && (m.f1.0 - a.f1.0).abs() < 0.02
                    });
                    if !known {
                        modes.push((off_law, Answer { log_z, ..a }));
                    }
                }
            }
        }
        let best = modes.iter().fold(f64::MIN, |m, (_, a)| m.max(a.log_z));
        modes.retain(|(_, a)| a.log_z > best - 12.0);
        // …and carried to the others
        let mut answers = Vec::new();
        for (off_law, mode) in modes {
            let log_prior = OFF_LAW.iter().find(|o| o.0 == off_law).map_or(0.0, |o| o.1);
            for tau in (0..TAUS.len()).filter(|t| *t != FIRST_TAU) {
                let q = self.question(voices, Some(tau), off_law);
                answers.extend(q.answer(mode.stand).map(|a| Answer {
                    log_z: a.log_z + log_prior,
                    ..a
                }));
            }
            answers.push(mode);
        }
        answers
    }

    /// Where to begin with a glide of `share` of the largest: the partials' own frequencies hold its mean.
    fn from(&self, tau: usize, share: f64) -> Stand {
        let glide = share * self.prior.glide_cents;
        let length_s = self.grid.edges[self.grid.len()] as f64 / self.grid.rate_hz;
        let mean = TAUS[tau] * (1.0 - (-length_s / TAUS[tau]).exp()) / length_s;
        Stand {
            x: self.start.0 - glide * mean,
            ln_b: self.start.1,
            glide,
        }
    }

    /// The answers' mean, each by its evidence, with what they disagree on added to what each leaves open.
    fn mixed(&self, answers: &[Answer]) -> Option<Fit> {
        let top = answers.iter().fold(f64::MIN, |m, a| m.max(a.log_z));
        let z: f64 = answers.iter().map(|a| (a.log_z - top).exp()).sum();
        if !(z.is_finite() && z > 0.0) {
            return None;
        }
        let mean = |f: &dyn Fn(&Answer) -> f64| {
            answers
                .iter()
                .map(|a| (a.log_z - top).exp() * f(a))
                .sum::<f64>()
                / z
        };
        let both = |f: &dyn Fn(&Answer) -> (f64, f64)| {
            let m = mean(&|a| f(a).0);
            (m, mean(&|a| f(a).1 + (f(a).0 - m).powi(2)).sqrt())
        };
        let hz = |cents: f64| self.law.f0_hz * (cents * CENT).exp();
        let best = answers.iter().max_by(|a, b| a.log_z.total_cmp(&b.log_z))?;
        let faultless = best.plain;
        let (law_doubt, doubt) = self.doubt(faultless);
        let least = if faultless {
            LEAST.0 / self.grid.length_s()
        } else {
            LEAST.1
        };
        let (f1, f1_sd) = both(&|a| a.f1);
        let (heard, heard_sd) = both(&|a| a.heard);
        let (heard, heard_sd) = if !faultless {
            let lawless = mean(&|a| f64::from(u8::from(a.off_law > 0.0)));
            self.checked((heard, heard_sd), lawless, best.stand)
        } else {
            (heard, heard_sd)
        };
        let partials = best
            .own
            .iter()
            .map(|own| {
                let (cents, sd) = both(&|a| {
                    a.own
                        .iter()
                        .find(|o| o.n == own.n)
                        .map_or((own.cents, own.var), |o| (o.cents, o.var))
                });
                let seen = self
                    .all
                    .iter()
                    .find(|t| t.n == own.n as usize)
                    .map_or(own.n * hz(cents), |t| {
                        self.plain_hz(t, best.stand, faultless)
                    });
                let apart = (seen / (own.n * hz(cents))).ln() / CENT;
                FitPartial {
                    n: own.n as usize,
                    hz: seen,
                    sd_cents: doubt * (sd * sd + 0.25 * apart * apart).sqrt(),
                }
            })
            .collect();
        let loudest = self
            .all
            .iter()
            .max_by(|a, b| a.amp.norm_sqr().total_cmp(&b.amp.norm_sqr()))?;
        Some(Fit {
            f1_hz: hz(f1),
            f1_sd: law_doubt * f1_sd.hypot(least),
            heard_hz: hz(heard),
            heard_sd: doubt * heard_sd.hypot(least),
            law: Law {
                f0_hz: hz(mean(&|a| a.stand.x)),
                b: mean(&|a| a.stand.ln_b).exp(),
            },
            glide_cents: mean(&|a| a.stand.glide),
            t60_s: 6.9 / loudest.decay,
            partials,
        })
    }

    /// The sounding pitch held against the partials' plainly measured frequencies: where the two do not agree, or the
    /// partials leave the law, the string is not what was modelled, and the plain figure counts with what they disagree on
    /// as its doubt.
    fn checked(&self, (heard, sd): (f64, f64), lawless: f64, stand: Stand) -> (f64, f64) {
        let (mut sum, mut total) = (0.0, 0.0);
        for (w, t) in self.weights.iter().zip(&self.all) {
            if self.heard.contains(&t.n) {
                let hz = self.plain_hz(t, stand, false);
                sum += w.size * (hz / (w.n * self.law.f0_hz)).ln() / CENT;
                total += w.size;
            }
        }
        if total <= 0.0 {
            return (heard, sd);
        }
        let apart = sum / total - heard;
        let ramp = |x: f64, from: f64, to: f64| ((x - from) / (to - from)).clamp(0.0, 1.0);
        let doubts = apart.abs() / (sd * sd + 0.1).sqrt();
        let share = ramp(lawless, 0.3, 0.7).max(ramp(doubts, DISAGREE.0, DISAGREE.1))
            * ramp(self.grid.length_s(), PLAIN_S.0, PLAIN_S.1);
        (
            heard + share * apart,
            (sd * sd + 0.25 * share * apart * apart).sqrt(),
        )
    }

    /// Where a partial stands, by itself: in a sound long enough the glide is waited for.
    fn plain_hz(&self, t: &Track, stand: Stand, faultless: bool) -> f64 {
        if faultless || self.grid.length_s() < PLAIN_S.0 {
            return t.now_hz();
        }
        t.hz + t.late_shift_hz(&self.grid, self.hz(stand, t.n as f64) - t.hz)
    }

    /// What the model leaves out, as factors on the standard deviations of the law and of the sounding pitch: found on
    /// synthetic plucks of other seeds than are reported on; for a string with faults more the longer the sound.
    fn doubt(&self, faultless: bool) -> (f64, f64) {
        if faultless {
            return (1.05, 1.05);
        }
        let longer = (self.grid.length_s() - 0.25).clamp(0.0, 0.75);
        (0.93 + 0.35 * longer, 0.95 + 0.5 * longer)
    }
}

/// The partials that stand out of the noise: beyond a run that cannot be told from it, what looks like one is noise.
fn standing_out(tracks: &[Track], grid: &Grid) -> Vec<usize> {
    let mut heard: Vec<usize> = Vec::new();
    for t in tracks {
        // the lowest partials of the lowest strings hardly reach a microphone
        if t.n > heard.last().map_or(14, |l| l + 5) {
            break;
        }
        if t.strength(grid) > PRESENT {
            heard.push(t.n);
        }
    }
    heard
}
