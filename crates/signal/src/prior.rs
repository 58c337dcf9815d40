//! What is believed of a string before it is heard, from its frequency alone.

/// What is believed before listening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Prior {
    /// Inharmonicity, the middle of what is believed.
    pub b: f64,
    /// Spread of ln B.
    pub b_spread: f64,
    /// Largest usual glide, cents.
    pub glide_cents: f64,
}

/// Points of (Hz, value) joined by straight lines in logarithms of both.
pub(crate) fn along(points: &[(f64, f64)], hz: f64) -> f64 {
    let (first, last) = (points[0], points[points.len() - 1]);
    if hz <= first.0 {
        return first.1;
    }
    for w in points.windows(2) {
        if hz <= w[1].0 {
            let t = (hz / w[0].0).ln() / (w[1].0 / w[0].0).ln();
            return (w[0].1.ln() * (1.0 - t) + w[1].1.ln() * t).exp();
        }
    }
    last.1
}

impl Prior {
    /// For a harp's string of about `hz`.
    ///
    /// Inharmonicity: what wound wire, gut and nylon of usual stress give by B = (π²/16)(E/σ)(d/L)² (Fletcher 1964), a
    /// starting point that two or three partials outweigh. Largest glide: some ten cents on wires, one or two at the top
    /// (tension modulation, Legge & Fletcher 1984; sizes judged from recordings).
    pub fn usual(hz: f64) -> Prior {
        let b = if hz < 104.0 {
            along(&[(32.7, 3.6e-5), (98.0, 6.9e-5)], hz)
        } else if hz < 1357.0 {
            along(
                &[
                    (110.0, 2.1e-4),
                    (261.6, 1.3e-4),
                    (440.0, 1.8e-4),
                    (1046.5, 4.0e-4),
                    (1318.5, 5.0e-4),
                ],
                hz,
            )
        } else {
            along(&[(1396.9, 1.13e-3), (3136.0, 2.7e-3)], hz)
        };
        let glide = {
            let t = |a: f64, b: f64| ((hz / a).ln() / (b / a).ln()).clamp(0.0, 1.0);
            if hz < 261.6 {
                14.0 - 8.0 * t(32.7, 261.6)
            } else {
                6.0 - 4.5 * t(261.6, 3136.0)
            }
        };
        Prior {
            b,
            b_spread: 0.4,
            glide_cents: glide,
        }
    }
}
