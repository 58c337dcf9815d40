//! Strings made for practice: how fast two of them beat, measured from their samples alone; how loud they ever get.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

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
    for key in (24..=104).step_by(8) {
        let hz = ReferencePitch::A440.hz_of_key(key);
        for seed in 0..2 {
            let off = hz * 2f64.powf(100.0 / 1200.0);
            let mut all = vec![made_in_turn(hz, off, seed)];
            for times in [1.0, 1.01, 1.26, 1.335, 1.5, 2.0] {
                all.push(made_together(hz, hz * times, seed));
            }
            for sound in all {
                let loudest = peak(&sound);
                assert!(loudest <= LOUDEST && loudest > 0.001, "{hz} Hz: {loudest}");
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

/// A-weighting, dB, at the nominal third-octave frequencies from 25 Hz to 10 kHz: IEC 61672-1:2013, table 3 (values from
/// memory).
const A_WEIGHTS_DB: [f64; 27] = [
    -44.7, -39.4, -34.6, -30.2, -26.2, -22.5, -19.1, -16.1, -13.4, -10.9, -8.6, -6.6, -4.8, -3.2,
    -1.9, -0.8, 0.0, 0.6, 1.0, 1.2, 1.3, 1.2, 1.0, 0.5, -0.1, -1.1, -2.5,
];

/// The A-weighted level of the loudest quarter of a second, dB under full scale, from the spectrum.
fn weighted_db(sound: &[f32]) -> f64 {
    let length = RATE_HZ as usize / 4;
    let plan = realfft::RealFftPlanner::<f64>::new().plan_fft_forward(length);
    let level = |from: usize| {
        let mut piece: Vec<f64> = (0..length)
            .map(|at| sound.get(from + at).map_or(0.0, |s| f64::from(*s)))
            .collect();
        let mut spectrum = plan.make_output_vec();
        plan.process(&mut piece, &mut spectrum).unwrap();
        let power = spectrum.iter().enumerate().skip(1).map(|(at, bin)| {
            // third octaves are tenths of a decade
            let third = ((at as f64 * 4.0 / 25.0).log10() * 10.0).clamp(0.0, 26.0);
            let (below, share) = (third.floor() as usize, third.fract());
            let above = A_WEIGHTS_DB.get(below + 1).unwrap_or(&-2.5);
            let db = A_WEIGHTS_DB[below] * (1.0 - share) + above * share;
            2.0 * bin.norm_sqr() / (length as f64).powi(2) * 10f64.powf(db / 10.0)
        });
        10.0 * power.sum::<f64>().log10()
    };
    // what dies away is loudest at its beginnings, the second of them 1.55 s on
    let places = (0..2 * RATE_HZ as usize).step_by(length / 5);
    places.map(level).fold(f64::MIN, f64::max)
}

#[test]
fn nothing_is_louder_to_an_ear_than_the_quiet_string_that_comes_first() {
    let sample = weighted_db(&made_sample());
    assert!((-40.0..-15.0).contains(&sample), "{sample} dB");
    for key in (29..=100).step_by(6) {
        let hz = ReferencePitch::A440.hz_of_key(key);
        let mut all = vec![made_in_turn(hz, 1.03 * hz, 4)];
        if (48..=72).contains(&key) {
            all.extend([1.0, 1.26, 1.5, 2.0].map(|times| made_together(hz, times * hz, 4)));
        }
        for sound in all {
            let found = weighted_db(&sound);
            // what windows and the table's corners leave open
            assert!(
                found < sample + 0.5,
                "{hz} Hz: {found} dB above {sample} dB"
            );
        }
    }
}
