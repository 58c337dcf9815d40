//! Room noise without end: pink blocks faded into each other at equal power.

use crate::generator::Generator;
use crate::noise::pink;

const BLOCK: usize = 65_536;
const HOP: usize = BLOCK / 2;

/// A stream of pink noise.
pub(crate) struct Hiss {
    rate_hz: f64,
    power: f64,
    draws: Generator,
    /// The second half of the last block, already faded out.
    fading: Vec<f64>,
    ready: Vec<f64>,
    at: usize,
}

impl Hiss {
    pub(crate) fn new(rate_hz: f64, power: f64, draws: Generator) -> Self {
        let mut hiss = Self {
            rate_hz,
            power,
            draws,
            fading: vec![0.0; HOP],
            ready: Vec::new(),
            at: 0,
        };
        hiss.more(); // fades in from nothing: dropped
        hiss.more();
        hiss
    }

    /// Adds the next samples.
    pub(crate) fn add(&mut self, out: &mut [f64]) {
        if self.power == 0.0 {
            return;
        }
        for sum in out {
            if self.at == self.ready.len() {
                self.more();
            }
            *sum += self.ready[self.at];
            self.at += 1;
        }
    }

    fn more(&mut self) {
        if self.power == 0.0 {
            return;
        }
        let mut block = pink(BLOCK, self.rate_hz, self.power, &mut self.draws);
        for (k, y) in block.iter_mut().enumerate() {
            *y *= (std::f64::consts::PI * (k as f64 + 0.5) / BLOCK as f64).sin();
        }
        let (rising, falling) = block.split_at(HOP);
        self.ready = rising
            .iter()
            .zip(&self.fading)
            .map(|(a, b)| a + b)
            .collect();
        self.fading = falling.to_vec();
        self.at = 0;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::rms;

    #[test]
    fn the_hiss_keeps_its_power_from_its_first_sample() {
        let mut hiss = Hiss::new(48_000.0, 0.25, Generator::new(&[4]));
        for _ in 0..6 {
            let mut second = vec![0.0; 48_000];
            hiss.add(&mut second);
            assert!((rms(&second) / 0.5 - 1.0).abs() < 0.15, "{}", rms(&second));
        }
    }

    #[test]
    fn a_silent_room_adds_nothing() {
        let mut y = vec![0.0; 100];
        Hiss::new(48_000.0, 0.0, Generator::new(&[4])).add(&mut y);
        assert!(y.iter().all(|&x| x == 0.0));
    }
}
