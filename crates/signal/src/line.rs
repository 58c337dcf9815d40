//! One spectral line in two windows: its frequency by how far its phase turned from the one to the other.

use crate::frames::Frame;

/// Power over the noise about it, from which a line stands out.
const PLAIN: f64 = 12.0;
/// Bins either way in which the noise is looked for.
const ABOUT: usize = 14;
/// Bins by which the two ways of measuring a line may differ.
const AGREE: f64 = 0.35;

/// A line that stands out of the noise.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Line {
    pub(crate) hz: f64,
    /// standard deviation by noise, Hz
    pub(crate) sd_hz: f64,
    pub(crate) power: f64,
}

/// The strongest line within `reach_hz` of `hz`, if it stands out in both windows, `hop_s` apart.
pub(crate) fn line(
    now: &Frame,
    before: &Frame,
    (hz, reach_hz): (f64, f64),
    bin_hz: f64,
    hop_s: f64,
) -> Option<Line> {
    let low = ((hz - reach_hz) / bin_hz).round().max(2.0) as usize;
    let high = ((hz + reach_hz) / bin_hz).round() as usize;
    if high + 2 >= now.power.len() || low > high {
        return None;
    }
    let at = (low..=high).max_by(|a, b| now.power[*a].total_cmp(&now.power[*b]))?;
    let p = &now.power;
    if p[at] < p[at - 1] || p[at] < p[at + 1] {
        return None;
    }
    let noise = noise_about(p, at);
    let power = f64::from(p[at]);
    if power < PLAIN * noise {
        return None;
    }
    let coarse = (at as f64 + vertex(p[at - 1], p[at], p[at + 1])) * bin_hz;
    let turned = f64::from((now.bins[at] * before.bins[at].conj()).arg());
    let turns = (coarse * hop_s - turned / std::f64::consts::TAU).round();
    let hz = (turns + turned / std::f64::consts::TAU) / hop_s;
    if (hz - coarse).abs() > AGREE * bin_hz {
        return None;
    }
    // phase of a line in noise, of either window; they share three quarters of their samples
    let sd = (noise / power).sqrt() / (std::f64::consts::TAU * hop_s);
    Some(Line {
        hz,
        sd_hz: sd,
        power,
    })
}

/// Mean power of noise near a line: from the lower quartile of the bins about it.
fn noise_about(power: &[f32], at: usize) -> f64 {
    let beside = |i: usize| i.abs_diff(at) > 2;
    let from = at.saturating_sub(ABOUT).max(1);
    let mut about: Vec<f32> = (from..(at + ABOUT + 1).min(power.len()))
        .filter(|i| beside(*i))
        .map(|i| power[i])
        .collect();
    let quarter = about.len() / 4;
    let (_, q, _) = about.select_nth_unstable_by(quarter, f32::total_cmp);
    f64::from(*q / 0.2877).max(1e-20)
}

/// Where between its bins a Hann window's line has its top: a parabola through the logarithms.
fn vertex(left: f32, top: f32, right: f32) -> f64 {
    let l = |p: f32| f64::from(p.max(1e-30)).ln();
    let (a, b, c) = (l(left), l(top), l(right));
    let curve = a - 2.0 * b + c;
    if curve < 0.0 {
        (0.5 * (a - c) / curve).clamp(-0.5, 0.5)
    } else {
        0.0
    }
}
