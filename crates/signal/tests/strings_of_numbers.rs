//! Strings made of numbers by the formulas themselves, so that their pitch is known exactly.
//!
//! The law is Fletcher's (JASA 36, 1964): f_n = n·f0·√(1+B·n²). Sounding pitch is Σ w f_n/n ÷ Σ w, w = n² × energy from 50 to
//! 500 ms, summed here sample by sample.
#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

use proptest::prelude::*;
use signal::{Law, ListenError, Listener, OnsetFinder, Prior, fit};

const RATE: f64 = 48_000.0;

struct Made {
    sound: Vec<f32>,
    f1_hz: f64,
    heard_hz: f64,
}

/// Partials of amplitude 0.1/n and decay 1 + n/2 a second, with faint noise of a fixed pattern.
fn make(f0_hz: f64, b: f64, seconds: f64) -> Made {
    let law = Law { f0_hz, b };
    let length = (seconds * RATE) as usize;
    let mut sound = vec![0.0f64; length];
    let (mut top, mut bottom) = (0.0, 0.0);
    for n in 1..=30usize {
        let hz = law.partial(n);
        if hz > 12_000.0 {
            break;
        }
        let mut energy = 0.0;
        for (i, y) in sound.iter_mut().enumerate() {
            let t = i as f64 / RATE;
            let v = 0.1 / n as f64
                * (-(1.0 + 0.5 * n as f64) * t).exp()
                * (std::f64::consts::TAU * hz * t + n as f64).cos();
            *y += v;
            if (0.05..0.5).contains(&t) {
                energy += v * v;
            }
        }
        let w = (n * n) as f64 * energy;
        if n <= 8 {
            top += w * hz / n as f64;
            bottom += w;
        }
    }
    let mut x = 1u64;
    let sound = sound
        .iter()
        .map(|y| {
            x = x
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            (y + 1e-4 * ((x >> 40) as f64 / f64::from(1 << 23) - 1.0)) as f32
        })
        .collect();
    Made {
        sound,
        f1_hz: law.partial(1),
        heard_hz: top / bottom,
    }
}

fn cents(a: f64, b: f64) -> f64 {
    1200.0 * (b / a).log2()
}

/// Fits with a rough start `off` cents away and a little less stiffness, and holds the
/// first partial to `within` cents, the sounding pitch, which hangs on the partials' energies too, to 0.15.
fn check(f0_hz: f64, b: f64, off: f64, within: f64) {
    let made = make(f0_hz, b, 0.6);
    let start = Law {
        f0_hz: f0_hz * (off / 1200.0).exp2(),
        b: 0.95 * b,
    };
    let found = fit(&[], &made.sound, RATE, start, Prior::usual(f0_hz)).unwrap();
    let (f1, heard) = (
        cents(made.f1_hz, found.f1_hz),
        cents(made.heard_hz, found.heard_hz),
    );
    assert!(
        f1.abs() < within && heard.abs() < 0.15,
        "{f0_hz} Hz: f1 {f1:.4}, heard {heard:.4} cents"
    );
    assert!(
        f1.abs() < 4.0 * found.f1_sd.max(1e-4),
        "{f0_hz} Hz: {f1:.4} ± {:.4}",
        found.f1_sd
    );
    assert!(!found.partials.is_empty());
}

#[test]
fn a_wire_of_the_lowest_octave_is_fitted_to_a_tenth_of_a_cent() {
    check(41.2, 4.0e-5, 1.5, 0.1);
}

#[test]
fn a_gut_string_is_fitted_to_a_fiftieth_of_a_cent() {
    check(196.0, 1.5e-4, -2.0, 0.02);
    check(440.0, 1.8e-4, 1.0, 0.02);
}

#[test]
fn a_top_string_is_fitted_to_a_fiftieth_of_a_cent() {
    check(1568.0, 1.3e-3, 2.0, 0.02);
}

#[test]
fn noise_alone_is_no_string() {
    let mut x = 7u64;
    let noise: Vec<f32> = (0..24_000)
        .map(|_| {
            x = x
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            ((x >> 40) as f32 / (1u32 << 23) as f32 - 1.0) * 0.1
        })
        .collect();
    let found = fit(
        &[],
        &noise,
        RATE,
        Law {
            f0_hz: 220.0,
            b: 1e-4,
        },
        Prior::usual(220.0),
    );
    assert!(found.is_none_or(|f| f.heard_sd > 1.0));
}

#[test]
fn a_string_after_silence_begins_where_it_begins() {
    for rate in [8_000u32, 44_100, 96_000] {
        let rate_hz = f64::from(rate);
        let at = 0.4;
        let sound: Vec<f32> = (0..(1.4 * rate_hz) as usize)
            .map(|i| {
                let t = i as f64 / rate_hz - at;
                if t < 0.0 {
                    0.0
                } else {
                    (0.2 * (-3.0 * t).exp() * (1382.0 * t + 1.0).cos()) as f32
                }
            })
            .collect();
        let mut listener = Listener::new(rate, 0.5).unwrap();
        let mut strikes = listener.push(&sound);
        strikes.extend(listener.finish());
        let last: Vec<_> = strikes
            .iter()
            .filter(|s| s.look.is_last() && s.at_s > 0.0)
            .collect();
        assert_eq!(
            last.len(),
            1,
            "{rate}: {:?}",
            strikes.iter().map(|s| (s.at_s, s.look)).collect::<Vec<_>>()
        );
        assert!(
            (last[0].at_s - at).abs() < 0.003,
            "{rate}: {}",
            last[0].at_s
        );
        assert!((last[0].after.len() as f64 / last[0].rate_hz - 0.5).abs() < 0.001);
    }
}

#[test]
fn impossible_rates_and_times_are_named() {
    assert_eq!(
        Listener::new(4_000, 0.5).err(),
        Some(ListenError::Rate { rate_hz: 4_000 })
    );
    assert_eq!(
        Listener::new(48_000, 9.0).err(),
        Some(ListenError::Time { listen_s: 9.0 })
    );
}

#[test]
fn silence_has_no_onset() {
    assert!(OnsetFinder::new(RATE).push(&vec![0.0; 96_000]).is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn no_sound_makes_the_listener_fall(
        sound in proptest::collection::vec(prop_oneof![Just(f32::NAN), Just(f32::INFINITY), -1.0f32..1.0, Just(0.0f32)], 0..9000),
        rate in 8_000u32..=192_000,
    ) {
        let mut listener = Listener::new(rate, 0.2).unwrap();
        let mut strikes = listener.push(&sound);
        strikes.extend(listener.finish());
        for s in strikes {
            prop_assert!(s.after.iter().all(|y| y.is_finite()));
            let _ = fit(&s.before, &s.after, s.rate_hz, Law { f0_hz: 220.0, b: 1e-4 }, Prior::usual(220.0));
        }
    }
}
