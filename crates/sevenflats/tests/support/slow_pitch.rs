//! The sounding pitch of one plucked string, slowly and openly, by its definition alone:
//!
//! heard = Σ w·f_n/n ÷ Σ w over n = 1…8, w = n² × the energy of partial n from 50 to 500 ms after the
//! onset, f_n the frequency once the glide has died.
//!
//! Nothing of the product is used here: sums of sines and cosines only. What the definition leaves
//! open is decided so:
//! - *The onset* is the first 1 ms whose energy over 4 ms reaches a tenth of the loudest in the first
//!   half second after silence; a few milliseconds change the weights by less than 0.01 cent.
//! - *The glide has died* 0.15 s after the onset; f_n is where the Hann-windowed Fourier sum of
//!   0.15–1.2 s is largest. Where a partial still moves, that is its mean over the middle of the
//!   span; how far it moves is given beside it (`early`, `late`; `late` means nothing where the string
//!   is silent by then), and is the definition's own doubt. It is large where a partial beats (E5, G5:
//!   1.2 cents), or glides for seconds: partial 5 of E1 falls by 10 cents in 8 s.
//! - *The energy* is that of the sound turned back by f_n and averaged by a Hann window of 2.5 periods
//!   of the string (at least 20 ms: neighbours fall on its zeros), every 2 ms from 50 to 500 ms, less
//!   what stands half-way to the neighbouring partials.
//! - A partial above 0.45 of the sampling rate, or less than twice what stands about it, has none.

/// A partial as heard slowly.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SlowPartial {
    /// Its number.
    pub(crate) n: usize,
    /// Its frequency, Hz.
    pub(crate) hz: f64,
    /// Its share of the weights, 0 to 1.
    pub(crate) share: f64,
    /// Cents from `hz` to the frequency over 0.1–0.6 s.
    pub(crate) early: f64,
    /// Cents from `hz` to the frequency over 0.5–1.2 s.
    pub(crate) late: f64,
}

/// The sounding pitch as heard slowly.
#[derive(Clone, Debug)]
pub(crate) struct Slow {
    /// The sounding pitch, Hz.
    pub(crate) heard_hz: f64,
    /// Cents by which the same sum moves when f_n is taken over 0.1–0.6 s.
    pub(crate) early: f64,
    /// The same for 0.5–1.2 s.
    pub(crate) late: f64,
    /// What it is made of.
    pub(crate) partials: Vec<SlowPartial>,
    onset_s: f64,
}

impl Slow {
    /// How far each partial that counts moved from one span to another (seconds after the onset), in
    /// words, and their weighted mean in cents.
    pub(crate) fn between(
        &self,
        sound: &[f32],
        rate_hz: f64,
        spans: [(f64, f64); 2],
    ) -> (String, f64) {
        let [first, second] = spans.map(|(from_s, to_s)| {
            Windowed::new(sound, rate_hz, self.onset_s + from_s, self.onset_s + to_s)
        });
        let moved =
            |p: &SlowPartial| cents(first.strongest(p.hz, 8.0), second.strongest(p.hz, 8.0));
        let counting = self.partials.iter().filter(|p| p.share > 0.05);
        let words: Vec<String> = counting
            .map(|p| format!("{}: {:+.1}", p.n, moved(p)))
            .collect();
        let mean = self.partials.iter().map(|p| p.share * moved(p)).sum();
        (words.join(" "), mean)
    }
}

/// Measures a pluck whose partial n lies within some cents of n·`f1_hz`·√((1+`b`n²)/(1+`b`)): 12 cents
/// for the first, up to 30 for the eighth.
pub(crate) fn slow_pitch(sound: &[f32], rate_hz: f64, f1_hz: f64, b: f64) -> Slow {
    let onset_s = onset(sound, rate_hz) as f64 / rate_hz;
    let span =
        |from_s: f64, to_s: f64| Windowed::new(sound, rate_hz, onset_s + from_s, onset_s + to_s);
    let (whole, early, late) = (span(0.15, 1.2), span(0.1, 0.6), span(0.5, 1.2));
    let mut partials = Vec::new();
    for n in 1..=8usize {
        let nf = n as f64;
        let expected = nf * f1_hz * ((1.0 + b * nf * nf) / (1.0 + b)).sqrt();
        if expected > 0.45 * rate_hz {
            break;
        }
        let hz = whole.strongest(expected, 12.0 + 2.5 * (nf - 1.0));
        let own = energy(sound, rate_hz, onset_s, hz, f1_hz);
        let about = 0.5
            * (energy(sound, rate_hz, onset_s, hz - 0.5 * f1_hz, f1_hz)
                + energy(sound, rate_hz, onset_s, hz + 0.5 * f1_hz, f1_hz));
        if own < 2.0 * about {
            continue;
        }
        partials.push(SlowPartial {
            n,
            hz,
            share: nf * nf * (own - about),
            early: cents(hz, early.strongest(hz, 8.0)),
            late: cents(hz, late.strongest(hz, 8.0)),
        });
    }
    let total: f64 = partials.iter().map(|p| p.share).sum();
    for p in &mut partials {
        p.share /= total;
    }
    let mean = |cents: &dyn Fn(&SlowPartial) -> f64| -> f64 {
        let part = |p: &SlowPartial| p.share * p.hz * (cents(p) / 1200.0).exp2() / p.n as f64;
        partials.iter().map(part).sum()
    };
    let heard_hz = mean(&|_| 0.0);
    Slow {
        heard_hz,
        early: cents(heard_hz, mean(&|p| p.early)),
        late: cents(heard_hz, mean(&|p| p.late)),
        partials,
        onset_s,
    }
}

/// Where the string is let go, in samples.
pub(crate) fn onset(sound: &[f32], rate_hz: f64) -> usize {
    let (hop, long) = ((0.001 * rate_hz) as usize, (0.004 * rate_hz) as usize);
    let frames: Vec<f64> = sound
        .windows(long)
        .step_by(hop)
        .map(|w| w.iter().map(|y| f64::from(*y).powi(2)).sum())
        .collect();
    let loudest = frames.iter().fold(0.0f64, |m, e| m.max(*e));
    let wakes = frames.iter().position(|e| *e > 1e-3 * loudest).unwrap();
    let half_second = &frames[wakes..frames.len().min(wakes + 500)];
    let peak = half_second.iter().fold(0.0f64, |m, e| m.max(*e));
    let first = half_second.iter().position(|e| *e > 0.1 * peak).unwrap();
    (wakes + first) * hop
}

/// A span of sound under a Hann window.
struct Windowed {
    samples: Vec<f64>,
    rate_hz: f64,
}

impl Windowed {
    fn new(sound: &[f32], rate_hz: f64, from_s: f64, to_s: f64) -> Self {
        let (from, to) = ((from_s * rate_hz) as usize, (to_s * rate_hz) as usize);
        let part = &sound[from..to.min(sound.len())];
        let samples = (part.iter().enumerate())
            .map(|(k, y)| f64::from(*y) * hann(k, part.len()))
            .collect();
        Self { samples, rate_hz }
    }

    /// The frequency within `reach` cents (and at least three widths of a line) of `hz` where the
    /// Fourier sum is largest: a coarse search, then ever finer about the best.
    fn strongest(&self, hz: f64, reach: f64) -> f64 {
        let line = self.rate_hz / self.samples.len() as f64;
        let mut half = (hz * ((reach / 1200.0).exp2() - 1.0)).max(1.5 * line);
        let mut step = 0.5 * line;
        let mut best = hz;
        while step > 1e-7 * hz {
            let steps = (half / step).ceil() as i32;
            let powers = (-steps..=steps).map(|i| {
                let hz = best + f64::from(i) * step;
                (hz, self.power(hz))
            });
            best = powers
                .fold((best, 0.0), |m, p| if p.1 > m.1 { p } else { m })
                .0;
            half = 1.2 * step;
            step *= 0.2;
        }
        best
    }

    fn power(&self, hz: f64) -> f64 {
        let (re, im) = fourier(&self.samples, hz / self.rate_hz);
        re * re + im * im
    }
}

/// Σ y·exp(−2πi·turns·k), the sine and cosine advanced by multiplication and renewed now and then.
fn fourier(samples: &[f64], turns: f64) -> (f64, f64) {
    let (mut re, mut im) = (0.0, 0.0);
    let step = (std::f64::consts::TAU * turns).sin_cos();
    for (block, part) in samples.chunks(1024).enumerate() {
        let start = (turns * (1024 * block) as f64).fract() * std::f64::consts::TAU;
        let (mut s, mut c) = start.sin_cos();
        for y in part {
            re += y * c;
            im -= y * s;
            (s, c) = (s * step.1 + c * step.0, c * step.1 - s * step.0);
        }
    }
    (re, im)
}

/// The energy near `hz` from 50 to 500 ms after the onset.
fn energy(sound: &[f32], rate_hz: f64, onset_s: f64, hz: f64, f1_hz: f64) -> f64 {
    let length = ((2.5 / f1_hz).max(0.02) * rate_hz) as usize;
    let mut sum = 0.0;
    for frame in 0..225 {
        let middle = ((onset_s + 0.051 + 0.002 * f64::from(frame)) * rate_hz) as usize;
        let from = middle.saturating_sub(length / 2);
        let part: Vec<f64> = (sound[from..from + length].iter().enumerate())
            .map(|(k, y)| f64::from(*y) * hann(k, length))
            .collect();
        let (re, im) = fourier(&part, hz / rate_hz);
        sum += (re * re + im * im) / (length * length) as f64;
    }
    sum
}

fn hann(k: usize, length: usize) -> f64 {
    let x = std::f64::consts::PI * (k as f64 + 0.5) / length as f64;
    x.sin().powi(2)
}

pub(crate) fn cents(from_hz: f64, to_hz: f64) -> f64 {
    1200.0 * (to_hz / from_hz).log2()
}
