//! The string without fault: it keeps its law, rings down evenly and does not glide. Wherever a sound may be one it is asked
//! first, as its faint partials can then be found where the law puts them.

use crate::blocks::Phasor;
use crate::common_law::lend_decay;
use crate::fit::{PRESENT, TAUS, Table};
use crate::joint::{Answer, Stand};
use crate::track::{Track, subtract_others};
use crate::voice::Voice;

/// Energy over noise from which a partial counts, once it is known where it is.
const FAINT: f64 = 5.0;
/// Misfit for each degree of freedom up to which a string may be without fault: what noise leaves, with some slack.
const LAWFUL: f64 = 2.2;
/// Misfit against energy over noise up to which it is so whatever the noise.
const FAULTLESS: f64 = 0.006;

impl Table {
    /// The string that obeys the law, without glide or beating: every partial is put on the law, refitted, and its
    /// neighbours' leakage taken off again. `None` where more is left over than noise leaves.
    pub(crate) fn faultless(&self) -> Option<Answer> {
        let mut own = self.all.clone();
        let mut answer = None;
        for round in 0..4 {
            let voices: Vec<Voice> = own
                .iter()
                .filter(|t| t.strength(&self.grid) > if round == 0 { PRESENT } else { FAINT })
                .filter_map(|t| Voice::new(t, &self.grid, &[0.0], &[1.0], 0.0, &TAUS[..1]))
                .collect();
            let start = Stand {
                x: self.start.0,
                ln_b: self.start.1,
                glide: 0.0,
            };
            answer = self.question(&voices, None, 0.0).answer(start);
            let Some(a) = &answer else { break };
            if round == 3 {
                let (mut misfit, mut freedom) = (0.0, 0.0);
                for v in &voices {
                    let q = v.ask(0, 0, self.hz(a.stand, v.n), 0.0);
                    misfit += q.left + q.q[5];
                    freedom += 2.0 * v.x.len() as f64 - 4.0;
                }
                if misfit > self.allowed(freedom, &own) {
                    return None;
                }
                break;
            }
            for t in &mut own {
                let hz = self.hz(a.stand, t.n as f64);
                let Some(v) = Voice::new(t, &self.grid, &[0.0], &[1.0], 0.0, &TAUS[..1]) else {
                    continue;
                };
                let found = v.ask(0, 0, hz, 0.0);
                t.amp = Phasor::from_polar(t.amp.norm() * found.gain, found.phase);
                let strength = found.gain.powi(2) * t.strength(&self.grid);
                let sure = strength / (strength + 30.0);
                t.decay = (t.decay - sure * found.slope.clamp(-3.0, 3.0)).clamp(0.02, 80.0);
                t.shift_hz = hz - t.hz;
            }
            lend_decay(&mut own, &self.grid);
            subtract_others(&mut own, &self.grid);
        }
        answer
    }

    /// The misfit that a string without fault may have.
    fn allowed(&self, freedom: f64, own: &[Track]) -> f64 {
        let strength: f64 = own.iter().map(|t| t.strength(&self.grid)).sum();
        let by_noise = if self.grid.length_s() > 0.2 {
            LAWFUL * freedom
        } else {
            0.0
        };
        by_noise.max(FAULTLESS * strength)
    }
}
