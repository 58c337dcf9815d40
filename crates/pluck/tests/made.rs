//! Strings made for practice: how fast two of them beat, measured from their samples alone; how loud they ever get.

use std::f64::consts::TAU;

use pitch::{ReferencePitch, beats_between};
use pluck::{LOUDEST, RATE_HZ, made_in_turn, made_sample, made_together};

const RATE: f64 = RATE_HZ as f64;

fn hz(name: &str) -> f64 {
    ReferencePitch::A440.hz(name.parse().unwrap())
}

/// Beats per second near `centre_hz`, from samples: the band about it is brought down to nought, squared, freed of its dying
/// away, and the strongest period of what is left is looked for. Knows nothing of how the sound was made.
fn beats_of(sound: &[f32], centre_hz: f64, band_hz: f64) -> f64 {
    // down to nought, and through a window that lets ±band pass, two hundred values a second
    let step = RATE_HZ as usize / 200;
    let half = (RATE / band_hz) as usize;
    let down: Vec<(f64, f64)> = (half..sound.len() - half)
        .step_by(step)
        .map(|middle| {
            let mut sum = (0.0, 0.0);
            for (at, sample) in sound
                .iter()
                .enumerate()
                .take(middle + half)
                .skip(middle - half)
            {
                let far = (at as f64 - middle as f64) / half as f64;
                let window = 0.5 + 0.5 * (std::f64::consts::PI * far).cos();
                let (sin, cos) = (TAU * centre_hz * at as f64 / RATE).sin_cos();
                sum.0 += window * f64::from(*sample) * cos;
                sum.1 -= window * f64::from(*sample) * sin;
            }
            sum
        })
        .collect();
    let power: Vec<f64> = down.iter().map(|(re, im)| re * re + im * im).collect();
    // the straight line of its logarithm is how it dies away
    let n = power.len() as f64;
    let (mut sx, mut sy, mut sxx, mut sxy) = (0.0, 0.0, 0.0, 0.0);
    for (at, p) in power.iter().enumerate() {
        let (x, y) = (at as f64, p.max(1e-30).ln());
        sx += x;
        sy += y;
        sxx += x * x;
        sxy += x * y;
    }
    let slope = (n * sxy - sx * sy) / (n * sxx - sx * sx);
    let level: Vec<f64> = (power.iter().enumerate())
        .map(|(at, p)| p * (-slope * at as f64).exp())
        .collect();
    let mean = level.iter().sum::<f64>() / n;
    let strength = |per_s: f64| {
        let mut sum = (0.0, 0.0);
        for (at, p) in level.iter().enumerate() {
            let x = at as f64;
            let window = 0.5 - 0.5 * (TAU * x / n).cos();
            let (sin, cos) = (TAU * per_s * x / 200.0).sin_cos();
            sum.0 += window * (p - mean) * cos;
            sum.1 += window * (p - mean) * sin;
        }
        sum.0.hypot(sum.1)
    };
    let rates = (30..1600).map(|hundredth| f64::from(hundredth) / 100.0);
    rates
        .max_by(|a, b| strength(*a).total_cmp(&strength(*b)))
        .unwrap()
}

// S. Teki et al., J. Neurosci. 32(35) (2012) 12251, Table 1, beats a second in equal temperament at A4 = 440 Hz, rounded to a
// tenth. The check asks for the published rate within 0.1 a second.
#[test]
fn two_made_strings_beat_as_published() {
    let published = [
        ("F3", "A3", 6.9),
        ("F3", "Bb3", 0.8),
        ("F3", "C4", 0.6),
        ("F3", "D4", 7.9),
        ("A3", "D4", 1.0),
        ("A3", "E4", 0.7),
        ("C4", "E4", 10.4),
    ];
    for (low, high, per_s) in published {
        let (low_hz, high_hz) = (hz(low), hz(high));
        let meet = beats_between(low_hz, high_hz).unwrap();
        let centre =
            0.5 * (f64::from(meet.low_partial) * low_hz + f64::from(meet.high_partial) * high_hz);
        for seed in [1, 77] {
            let sound = made_together(low_hz, high_hz, seed);
            let found = beats_of(&sound, centre, 30.0);
            assert!(
                (found - per_s).abs() <= 0.1,
                "{low}–{high}: {found} for {per_s}"
            );
        }
    }
}

// by hand: A3 and a unison so far off that they differ by 2.5 Hz; A3–A4 with the octave 3 Hz high
#[test]
fn unisons_and_octaves_beat_by_what_they_differ() {
    let unison = made_together(220.0, 222.5, 3);
    assert!((beats_of(&unison, 221.0, 30.0) - 2.5).abs() < 0.05);
    let octave = made_together(220.0, 443.0, 3);
    assert!((beats_of(&octave, 441.0, 30.0) - 3.0).abs() < 0.05);
}

#[test]
fn no_sample_exceeds_the_bound_in_any_register() {
    let peak = |sound: &[f32]| {
        sound
            .iter()
            .fold(0.0, |most: f64, s| most.max(f64::from(s.abs())))
    };
    let sample = peak(&made_sample());
    assert!(sample <= LOUDEST && sample > 0.99 * LOUDEST, "{sample}");
    for key in (24..=104).step_by(4) {
        let hz = ReferencePitch::A440.hz_of_key(key);
        for seed in 0..3 {
            let off = hz * 2f64.powf(100.0 / 1200.0);
            let mut all = vec![made_in_turn(hz, off, seed)];
            for times in [1.0, 1.01, 1.26, 1.335, 1.5, 2.0] {
                all.push(made_together(hz, hz * times, seed));
            }
            for sound in all {
                let loudest = peak(&sound);
                assert!(loudest <= LOUDEST && loudest > 0.01, "{hz} Hz: {loudest}");
            }
        }
    }
}

// what an ear feels as a bang is a rise within a few milliseconds: each string takes at least five to half its height
#[test]
fn every_string_comes_in_over_at_least_five_milliseconds() {
    for hz in [41.2, 110.0, 440.0, 1760.0, 2960.0] {
        for sound in [
            made_in_turn(hz, 1.02 * hz, 5),
            made_together(hz, 1.5 * hz, 5),
        ] {
            let loudest = sound.iter().fold(0f32, |most, s| most.max(s.abs()));
            let mut quiet_before = true;
            let mut silent = 48_000;
            for (at, sample) in sound.iter().enumerate() {
                if silent > 480 {
                    let ahead = sound[at..]
                        .iter()
                        .take(240)
                        .fold(0f32, |most, s| most.max(s.abs()));
                    quiet_before &= ahead < 0.5 * loudest;
                }
                silent = if sample.abs() < 1e-7 { silent + 1 } else { 0 };
            }
            assert!(quiet_before, "{hz} Hz");
        }
    }
}
