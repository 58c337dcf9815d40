//! What a ringing partial leaves in blocks that are turned back by another frequency: a geometric sum, so that all partials
//! can be taken off all others.

use crate::blocks::{Grid, Phasor};
use crate::track::Track;

/// A frequency's e^(−iωt) at the edges of the blocks.
pub(crate) struct Turn {
    radians: f64,
    edges: Vec<Phasor>,
}

impl Turn {
    pub(crate) fn of(hz: f64, grid: &Grid) -> Turn {
        let radians = std::f64::consts::TAU * hz / grid.rate_hz;
        let edges = grid
            .edges
            .iter()
            .map(|e| Phasor::from_polar(1.0, -radians * *e as f64))
            .collect();
        Turn { radians, edges }
    }
}

/// A partial as it rings, at the edges of the blocks.
pub(crate) struct Ring {
    step: Phasor,
    edges: Vec<Phasor>,
}

impl Ring {
    pub(crate) fn of(t: &Track, grid: &Grid) -> Ring {
        let step = Phasor::new(-t.decay, std::f64::consts::TAU * t.now_hz()) / grid.rate_hz;
        let edges = grid
            .edges
            .iter()
            .map(|e| t.amp * (step * *e as f64).exp())
            .collect();
        Ring { step, edges }
    }

    /// Takes from `blocks`, which were turned back by `turn`, what this partial left in them.
    pub(crate) fn take_off(&self, turn: &Turn, blocks: &mut [Phasor]) {
        let back = Phasor::new(0.0, -turn.radians);
        let own = ((self.step + back).exp() - 1.0).inv();
        let mirrored = ((self.step.conj() + back).exp() - 1.0).inv();
        for ((block, e), t) in blocks
            .iter_mut()
            .zip(self.edges.windows(2))
            .zip(turn.edges.windows(2))
        {
            let here = (e[1] * t[1] - e[0] * t[0]) * own;
            let there = (e[1].conj() * t[1] - e[0].conj() * t[0]) * mirrored;
            *block -= here + there;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A real damped partial, turned back and summed sample by sample, against the closed sum.
    #[test]
    fn what_a_partial_leaves_is_taken_off_wholly() {
        let rate_hz = 48_000.0;
        let grid = Grid::new(98.0, 96, 24_000, rate_hz, 0.006);
        let mut t = crate::track::start_track(1, 98.0, vec![Phasor::default(); grid.len()], &grid);
        (t.amp, t.decay, t.shift_hz) = (Phasor::from_polar(0.3, 1.1), 7.0, 0.4);
        for hz in [40.0, 147.3, 196.2, 2_900.0] {
            let turn = Turn::of(hz, &grid);
            let mut blocks: Vec<Phasor> = (0..grid.len())
                .map(|k| {
                    (grid.edges[k]..grid.edges[k + 1])
                        .map(|i| {
                            let at_s = i as f64 / rate_hz;
                            let phase = std::f64::consts::TAU * t.now_hz() * at_s + t.amp.arg();
                            let y = 2.0 * t.amp.norm() * (-t.decay * at_s).exp() * phase.cos();
                            Phasor::from_polar(y, -std::f64::consts::TAU * hz * at_s)
                        })
                        .sum()
                })
                .collect();
            let before: f64 = blocks.iter().map(Phasor::norm_sqr).sum();
            Ring::of(&t, &grid).take_off(&turn, &mut blocks);
            let after: f64 = blocks.iter().map(Phasor::norm_sqr).sum();
            assert!(after < 1e-18 * before, "{hz} Hz: {after} of {before}");
        }
    }
}
