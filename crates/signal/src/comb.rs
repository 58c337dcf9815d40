//! Where the partials of a stiff string stand best in a spectrum.

use crate::spectrum::Spectrum;

/// A law f_n = n·f0·√(1+B·n²), in hertz.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Law {
    /// Hz.
    pub f0_hz: f64,
    /// Inharmonicity, without dimension.
    pub b: f64,
}

impl Law {
    /// Partial `n`, Hz.
    pub fn partial(&self, n: usize) -> f64 {
        let n = n as f64;
        n * self.f0_hz * (1.0 + self.b * n * n).sqrt()
    }
}

/// What power counts from, for each partial near `law`: the floor, or the skirt of the strongest line about.
fn floors(spectrum: &Spectrum, law: Law, cents: f64, count: usize) -> Vec<f32> {
    let reach = (cents / 1731.0).min(0.4);
    (1..=count)
        .map(|n| {
            let hz = law.partial(n);
            let half = (hz * reach * 1.2)
                .min(0.4 * law.f0_hz)
                .max(2.0 * spectrum.line_hz);
            spectrum.floor(hz).max(1e-5 * spectrum.peak(hz, half).1)
        })
        .collect()
}

/// Sum of log power over floor at the law's partials.
fn score(spectrum: &Spectrum, law: Law, floors: &[f32]) -> f64 {
    let mut sum = 0.0;
    for (n, floor) in (1..).zip(floors) {
        let hz = law.partial(n);
        let ratio = spectrum.at(hz) / floor;
        sum += f64::from(ratio.sqrt().sqrt());
    }
    sum
}

/// The best law near `start`: within `cents` of its pitch, its stiffness within a factor of e.
pub fn search(spectrum: &Spectrum, start: Law, cents: f64, top_hz: f64) -> (Law, f64) {
    let most = ((top_hz / start.f0_hz) as usize).clamp(1, 50);
    let start = on_its_peak(spectrum, start, 35.0, most);
    let mut centre = start;
    let mut half = cents;
    let mut half_b = 0.6f64;
    let mut best = (centre, f64::MIN);
    let floors = floors(spectrum, start, cents, most);
    let low = most.min(((400.0 / start.f0_hz) as usize).max(6));
    for count in [low, most.min(14), most.min(28), most] {
        let top = centre.partial(count);
        let step = (0.25 * spectrum.line_hz / top * 1731.0).min(half / 2.0);
        let steps = (half / step).ceil() as i32;
        let bend = 865.6 * centre.b * (count * count) as f64;
        let steps_b = ((half_b * bend / step / 1.5).ceil() as i32).clamp(0, 8);
        let mut found = (centre, f64::MIN);
        for j in -steps_b..=steps_b {
            let b = centre.b * (half_b * f64::from(j) / f64::from(steps_b.max(1))).exp();
            for i in -steps..=steps {
                let c = half * f64::from(i) / f64::from(steps.max(1));
                let law = Law {
                    f0_hz: centre.f0_hz * (c / 1200.0).exp2(),
                    b,
                };
                let s = score(spectrum, law, &floors[..count]);
                if s > found.1 {
                    found = (law, s);
                }
            }
        }
        best = found;
        centre = found.0;
        half = (2.0 * step).max(0.5);
        half_b = if steps_b > 1 {
            2.0 * half_b / f64::from(steps_b)
        } else {
            half_b
        };
    }
    best
}

/// The law moved onto its loudest partial's peak, where it stands on that peak's skirt instead.
fn on_its_peak(spectrum: &Spectrum, law: Law, cents: f64, most: usize) -> Law {
    let mut loudest = (0usize, 0.0, 0.0f32);
    for n in 1..=most.min(8) {
        let (hz, power) = spectrum.peak(
            law.partial(n),
            (law.partial(n) * cents / 1731.0).min(0.4 * law.f0_hz),
        );
        if power > loudest.2 {
            loudest = (n, hz, power);
        }
    }
    let (n, hz, power) = loudest;
    if n == 0 || power < 30.0 * spectrum.at(law.partial(n)) {
        return law;
    }
    let bend = (1.0 + law.b * (n * n) as f64).sqrt();
    Law {
        f0_hz: hz / (n as f64 * bend),
        b: law.b,
    }
}
