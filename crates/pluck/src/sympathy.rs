//! Strings that ring though nobody plucked them: octaves and fifths of the one that was, and the one before it.

use crate::RATE_HZ;
use crate::carrier::{Mode, add_partial};
use crate::concert_harp::{COMPASS, microphone, typical_b, typical_t60};
use crate::generator::Generator;
use crate::noise::rms;

/// Both kinds ring 30 dB under the string.
const UNDER: f64 = 0.031_622_776_601_683_79;
/// 60 dB in nepers, as rounded throughout these two sounds.
const SIXTY_DB: f64 = 6.9;
const FLOOR: f64 = 1e-11;

/// Octaves, fifths and twelfths of a string of `nominal_hz`, ringing where their partials meet the string's: added to
/// `out`, which begins at the pluck. `level` is the string's RMS over its first half second.
pub(crate) fn add_sympathy(nominal_hz: f64, level: f64, out: &mut [f64], draws: &mut Generator) {
    for ratio in [0.5, 2.0, 1.5, 2.0 / 3.0, 3.0] {
        let hz = nominal_hz * ratio * 2f64.powf(5.0 * draws.normal() / 1200.0);
        if !(32.0..=3200.0).contains(&hz) {
            continue;
        }
        let mut ringing = vec![0.0; out.len()];
        let mut any = false;
        for m in (1..=12).map(f64::from) {
            let meets = (m * ratio - (m * ratio).round()).abs() < 1e-6 && m * hz < 14_000.0;
            if meets {
                let decay = SIXTY_DB / typical_t60(m * hz);
                let (amplitude, phase) = (microphone(m * hz) / m, draws.between(0.0, 6.3));
                // Energy takes time to cross: × (1 − exp(−t/0.12 s)).
                let modes = [
                    Mode::new(amplitude, decay, 0.0, phase),
                    Mode::new(-amplitude, decay + 1.0 / 0.12, 0.0, phase),
                ];
                add_partial(
                    &mut ringing,
                    (m * hz, f64::from(RATE_HZ)),
                    &modes,
                    None,
                    FLOOR,
                    |_, _| {},
                );
                any = true;
            }
        }
        if any {
            add_scaled(out, &ringing, level);
        }
    }
}

/// Another string of the harp, up to nine away, that has been ringing since before the first sample of `out`.
pub(crate) fn add_previous_string(
    index: usize,
    nominals_hz: &[f64],
    level: f64,
    out: &mut [f64],
    draws: &mut Generator,
) {
    let away = draws
        .pick(&[-9isize, -7, -5, -4, -3, -2, 2, 3, 4, 5, 7, 9])
        .unwrap_or(2);
    let other = index.saturating_add_signed(away).min(COMPASS - 1);
    let Some(&nominal_hz) = nominals_hz.get(other).filter(|_| other != index) else {
        return;
    };
    let hz = nominal_hz * 2f64.powf(6.0 * draws.normal() / 1200.0);
    let mut ringing = vec![0.0; out.len()];
    for m in (1..=10).map(f64::from).filter(|m| m * hz < 14_000.0) {
        let decay = SIXTY_DB / typical_t60(hz) * (1.0 + 0.15 * (m - 1.0));
        let phase = draws.between(0.0, 6.3);
        let mode = Mode::new(microphone(m * hz) / m, decay, 0.0, phase);
        let at = m * hz * (1.0 + typical_b(hz) * m * m).sqrt();
        add_partial(
            &mut ringing,
            (at, f64::from(RATE_HZ)),
            &[mode],
            None,
            FLOOR,
            |_, _| {},
        );
    }
    add_scaled(out, &ringing, level);
}

fn add_scaled(out: &mut [f64], ringing: &[f64], level: f64) {
    let half_second = ringing.len().min(RATE_HZ as usize / 2);
    let factor = level * UNDER / rms(&ringing[..half_second]);
    for (sum, y) in out.iter_mut().zip(ringing) {
        *sum += y * factor;
    }
}
