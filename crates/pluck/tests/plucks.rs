//! What every single pluck must be, whatever its set, string, take and seed.

use std::f64::consts::TAU;

use pluck::{Pluck, Set};
use proptest::prelude::*;

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn samples_are_finite_and_peak_at_a_fifth(set in 0..8usize, string in 0..47usize, take in 0..100u64, seed: u64) {
        let pluck = Set::ALL[set].pluck(string, take, seed);
        prop_assert_eq!(pluck.samples.len(), 105_600);
        prop_assert!(pluck.samples.iter().all(|x| x.is_finite()));
        let peak = pluck.samples.iter().fold(0f32, |p, x| p.max(x.abs()));
        prop_assert!((peak - 0.2).abs() < 1e-6, "{}", peak);
    }

    #[test]
    fn equal_arguments_give_equal_plucks(set in 0..8usize, string in 0..47usize, take in 0..3u64, seed: u64) {
        let set = Set::ALL[set];
        prop_assert_eq!(set.pluck(string, take, seed), set.pluck(string, take, seed));
        prop_assert_ne!(set.pluck(string, take, seed).samples, set.pluck(string, take + 1, seed).samples);
    }

    #[test]
    fn the_truth_stays_within_what_was_promised(set in 0..8usize, string in 0..47usize, seed: u64) {
        let truth = Set::ALL[set].pluck(string, 0, seed).truth;
        let stiffness = 600.0 * (1.0 + truth.b).log2();
        prop_assert!((truth.off_cents() - stiffness).abs() <= 30.0 + 1e-9);
        prop_assert!(truth.b > 0.0 && (0.0..14.01).contains(&truth.glide_cents));
        // The sounding pitch lies between the lowest and the highest f_n/n.
        prop_assert!(truth.sounding_hz >= truth.f1_hz * (1.0 - 1e-12));
        let highest = truth.partials.iter().filter(|p| p.n <= 8).map(|p| p.hz / f64::from(p.n)).fold(0.0, f64::max);
        prop_assert!(truth.sounding_hz <= highest * (1.0 + 1e-12));
    }

    #[test]
    fn a_string_is_as_far_off_as_asked(hz in 28.0..4000.0f64, off in -1200.0..1200.0f64, seed: u64) {
        let pluck = Set::Clean40.pluck_at(hz, off, "any", seed).unwrap();
        prop_assert!((1200.0 * (pluck.truth.f0_hz / hz).log2() - off).abs() < 1e-6);
        prop_assert!(pluck.samples.iter().all(|x| x.is_finite()));
    }
}

/// A clean pluck written out as its formula, one cosine for each partial and sample.
fn direct(pluck: &Pluck) -> Vec<f64> {
    let sample = |k: usize| {
        let Some(after) = k.checked_sub(pluck.onset) else {
            return 0.0;
        };
        let t = after as f64 / f64::from(pluck.rate);
        pluck
            .truth
            .partials
            .iter()
            .map(|p| p.amp * (-p.decay * t).exp() * (TAU * p.hz * t + p.phase).cos())
            .sum()
    };
    (0..pluck.samples.len()).map(sample).collect()
}

#[test]
fn what_the_truth_leaves_over_is_the_noise_it_states() {
    for string in [0, 13, 30, 46] {
        let pluck = Set::Clean40.pluck(string, 0, 3);
        let direct = direct(&pluck);
        let over: f64 = pluck
            .samples
            .iter()
            .zip(&direct)
            .map(|(&x, y)| (f64::from(x) - y).powi(2))
            .sum();
        let rms = (over / direct.len() as f64).sqrt();
        let stated = pluck.truth.noise_power.sqrt();
        // Pink noise over 2.2 s: 20 % is beyond four standard errors of its RMS.
        assert!(
            (rms / stated - 1.0).abs() < 0.2,
            "string {string}: {rms:e}, stated {stated:e}"
        );
    }
}

#[test]
fn a_sounding_pitch_is_the_weighted_mean_of_its_partials() {
    let pluck = Set::Clean40.pluck(5, 0, 2);
    let (mut sum, mut weights) = (0.0, 0.0);
    for p in pluck.truth.partials.iter().filter(|p| p.n <= 8) {
        let energy: f64 = (2_400..24_000)
            .map(|k| f64::from(k) / 48_000.0)
            .map(|t| (p.amp * (-p.decay * t).exp() * (TAU * p.hz * t + p.phase).cos()).powi(2))
            .sum();
        let weight = f64::from(p.n).powi(2) * energy;
        sum += weight * p.hz / f64::from(p.n);
        weights += weight;
    }
    assert!((sum / weights / pluck.truth.sounding_hz - 1.0).abs() < 1e-12);
}
