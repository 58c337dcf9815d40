//! The room's own sounds, without end: blocks faded into each other at equal power.

use crate::generator::Generator;
use crate::noise::pink;
use crate::pit::pit;

/// Samples in a block of noise: a power of two, as the transform behind it likes.
const NOISE_BLOCK: usize = 65_536;
/// Seconds in a block of the pit: each instrument holds its note for about half of that.
const PIT_BLOCK_S: f64 = 4.0;

/// What a block is made of.
#[derive(Clone, Copy)]
pub(crate) enum Source {
    /// Pink noise.
    Pink,
    /// The orchestra pit through a microphone with this corner in Hz; new instruments with every block.
    Pit { corner_hz: f64 },
}

/// A stream of sound of one power.
pub(crate) struct Unending {
    source: Source,
    rate_hz: f64,
    power: f64,
    draws: Generator,
    /// The second half of the last block, already faded out.
    fading: Vec<f64>,
    ready: Vec<f64>,
    at: usize,
}

impl Unending {
    pub(crate) fn new(source: Source, rate_hz: f64, power: f64, draws: Generator) -> Self {
        let mut stream = Self {
            source,
            rate_hz,
            power,
            draws,
            fading: Vec::new(),
            ready: Vec::new(),
            at: 0,
        };
        stream.more(); // fades in from nothing: dropped
        stream.more();
        stream
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
        let mut block = self.block();
        let n = block.len();
        for (k, y) in block.iter_mut().enumerate() {
            *y *= (std::f64::consts::PI * (k as f64 + 0.5) / n as f64).sin();
        }
        self.fading.resize(n / 2, 0.0);
        let (rising, falling) = block.split_at(n / 2);
        self.ready = rising
            .iter()
            .zip(&self.fading)
            .map(|(a, b)| a + b)
            .collect();
        self.fading = falling.to_vec();
        self.at = 0;
    }

    /// The next block, of an even length, unfaded.
    fn block(&mut self) -> Vec<f64> {
        match self.source {
            Source::Pink => pink(NOISE_BLOCK, self.rate_hz, self.power, &mut self.draws),
            Source::Pit { corner_hz } => {
                let n = 2 * (PIT_BLOCK_S * self.rate_hz / 2.0).round() as usize;
                let mut block = pit(n, (self.rate_hz, corner_hz), &mut self.draws);
                let loud = self.power.sqrt();
                block.iter_mut().for_each(|y| *y *= loud);
                block
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::rms;

    const PIT: Source = Source::Pit { corner_hz: 100.0 };

    #[test]
    fn the_hiss_keeps_its_power_from_its_first_sample() {
        let mut hiss = Unending::new(Source::Pink, 48_000.0, 0.25, Generator::new(&[4]));
        for _ in 0..6 {
            let mut second = vec![0.0; 48_000];
            hiss.add(&mut second);
            assert!((rms(&second) / 0.5 - 1.0).abs() < 0.15, "{}", rms(&second));
        }
    }

    #[test]
    fn the_pit_keeps_its_level_within_a_decibel_and_never_stops() {
        for rate_hz in [16_000.0, 48_000.0] {
            let mut stream = Unending::new(PIT, rate_hz, 0.25, Generator::new(&[4]));
            for _ in 0..3 {
                let mut stretch = vec![0.0; (20.0 * rate_hz) as usize];
                stream.add(&mut stretch);
                let db = 20.0 * (rms(&stretch) / 0.5).log10();
                assert!(db.abs() < 1.0, "{db} dB at {rate_hz} Hz");
                // Instruments swell and beat, but no half second is without them.
                let quietest = stretch.chunks((0.5 * rate_hz) as usize).map(rms);
                let quietest = quietest.fold(f64::INFINITY, f64::min);
                assert!(quietest > 0.1, "{quietest} at {rate_hz} Hz");
            }
        }
    }

    #[test]
    fn a_silent_room_adds_nothing() {
        for source in [Source::Pink, PIT] {
            let mut y = vec![0.0; 100];
            Unending::new(source, 48_000.0, 0.0, Generator::new(&[4])).add(&mut y);
            assert!(y.iter().all(|&x| x == 0.0));
        }
    }
}
