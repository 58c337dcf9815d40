//! The partials of a held note joined to one pitch: that of its first partial, sounding or not.

use crate::displaced::Displaced;
use crate::stands::PARTIALS;

/// Peak power over noise from which a line is used.
const SEEN: f64 = 12.0;
/// Cents by which a partial may be off for reasons that are not noise, one standard deviation.
const OWN_CENTS: f64 = 0.15;
/// What is known beforehand of the pitch, cents, one standard deviation.
const START_CENTS: f64 = 25.0;
/// What is known beforehand of how partials are stretched: cents by (n²−1), one standard deviation. A piano's stiffness
/// of 4e-4 gives 0.35 (865.6·B, from f_n = n·f0·√(1+B·n²), Fletcher, JASA 36, 1964).
const STRETCH: f64 = 0.5;
/// Cents that a partial may be off beside what is uncertain.
const SLACK_CENTS: f64 = 3.0;
/// Cents from its place beyond which nothing is the note's partial.
const FARTHEST_CENTS: f64 = 40.0;

/// Pitch of the first partial, Hz, and its 95 % half width in cents.
///
/// The strongest partial begins; each further one is used where it fits those before it, so that what other
/// instruments play, and the free partials of a bar, are left out. Partials may be stretched evenly, as a stiff
/// string's are.
pub(crate) fn joined(look: &Displaced, start_hz: f64) -> Option<(f64, f64)> {
    let partials = (1..=PARTIALS).map(|n| (n, n as f64 * start_hz));
    let partials = partials.take_while(|(_, hz)| *hz < look.top_hz());
    let mut order: Vec<(usize, f64)> = Vec::new();
    for (n, hz) in partials {
        let strength = look.above_noise(0.98 * hz, 1.02 * hz);
        let place = order.partition_point(|(_, other)| other.total_cmp(&strength).is_ge());
        order.insert(place, (n, strength));
    }
    let mut used: Vec<Seen> = Vec::new();
    for (n, _) in order {
        let law = Joined::of(&used);
        used.extend(seen(look, start_hz, n, &law));
    }
    // what fitted early and does not fit the rest
    let law = Joined::of(&used);
    let fits = |s: &Seen| (s.cents - law.at(s.n).0).abs() < SLACK_CENTS.max(4.0 * s.sd);
    let kept: Vec<Seen> = used.iter().copied().filter(fits).collect();
    if kept.is_empty() {
        return None;
    }
    let law = Joined::of(&kept);
    let (cents, sd) = law.at(1);
    let square: f64 = (kept.iter())
        .map(|s| ((s.cents - law.at(s.n).0) / s.sd).powi(2))
        .sum();
    // partials that disagree among themselves widen it
    let widen = (square / kept.len().saturating_sub(2).max(1) as f64).max(1.0);
    Some((start_hz * (cents / 1200.0).exp2(), 1.96 * sd * widen.sqrt()))
}

/// One partial as it was seen.
#[derive(Clone, Copy)]
struct Seen {
    n: usize,
    /// its n-th part, cents above the start
    cents: f64,
    sd: f64,
}

/// Partial `n` where it is expected, if a line stands there.
fn seen(look: &Displaced, start_hz: f64, n: usize, law: &Joined) -> Option<Seen> {
    let (expected, sd) = law.at(n);
    let within = (SLACK_CENTS + 3.0 * sd).min(FARTHEST_CENTS);
    let hz = n as f64 * start_hz * (expected / 1200.0).exp2();
    let half = look.line_hz().max(0.012 * hz).min(0.3 * start_hz);
    let line = look.line(
        hz,
        (hz * within / 1731.0).max(0.5 * look.line_hz()).min(half),
        half,
    )?;
    let cents = 1200.0 * (line.hz / (n as f64 * start_hz)).log2();
    let noise = 1731.0 * line.sd_hz / line.hz;
    let near = (cents - expected).abs() < within + 3.0 * noise;
    (line.over_noise > SEEN && near).then_some(Seen {
        n,
        cents,
        sd: noise.hypot(OWN_CENTS),
    })
}

/// Least squares of cents = pitch + stretch·(n²−1), with what is known beforehand.
struct Joined {
    pitch: f64,
    stretch: f64,
    /// variances of both and what they share
    variance: [f64; 3],
}

impl Joined {
    fn of(used: &[Seen]) -> Joined {
        let (mut a, mut b, mut c) = (START_CENTS.powi(-2), 0.0, STRETCH.powi(-2));
        let (mut p, mut q) = (0.0, 0.0);
        for s in used {
            let (w, x) = (s.sd.powi(-2), beyond(s.n));
            a += w;
            b += w * x;
            c += w * x * x;
            p += w * s.cents;
            q += w * x * s.cents;
        }
        // positive, for both diagonal terms hold what is known beforehand
        let det = a * c - b * b;
        Joined {
            pitch: (c * p - b * q) / det,
            stretch: (a * q - b * p) / det,
            variance: [c / det, -b / det, a / det],
        }
    }

    /// Cents of partial `n`'s n-th part above the start, and one standard deviation.
    fn at(&self, n: usize) -> (f64, f64) {
        let x = beyond(n);
        let [pitch, both, stretch] = self.variance;
        let variance = pitch + 2.0 * x * both + x * x * stretch;
        (self.pitch + self.stretch * x, variance.max(0.0).sqrt())
    }
}

fn beyond(n: usize) -> f64 {
    (n * n) as f64 - 1.0
}
