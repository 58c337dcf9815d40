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
