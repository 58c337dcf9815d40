//! A stream in which the tool sounds itself, and one in which samples are missing: what begins a strike, and what does not.
//! The sounds are written out here.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

use signal::{ECHO_S, Listener, Look, Strike};

const RATE: u32 = 48_000;

fn sample(s: f64) -> usize {
    (s * f64::from(RATE)).round() as usize
}

/// Faint noise of so many seconds, with plucks of 233 Hz at some of them and tones of 120 ms at others.
fn sound(seconds: f64, plucks_s: &[f64], tones: &[(f64, f64)]) -> Vec<f32> {
    let mut seed = 9u64;
    let turn = std::f64::consts::TAU / f64::from(RATE);
    let value = |i: usize| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
        let noise = (seed >> 40) as f64 / f64::from(1 << 23) - 1.0;
        let mut y = 2e-4 * noise;
        for t in plucks_s
            .iter()
            .map(|s| i as f64 / f64::from(RATE) - s)
            .filter(|t| *t >= 0.0)
        {
            y += 0.02 * noise * (-t / 0.008).exp();
            for n in (1..=10).map(f64::from) {
                let hz = 233.08 * n * (1.0 + 1e-4 * n * n).sqrt();
                y +=
                    0.1 / n * (-(1.0 + 0.5 * n) * t).exp() * (std::f64::consts::TAU * hz * t).sin();
            }
        }
        for (from_s, hz) in tones {
            let into = i as f64 / f64::from(RATE) - from_s;
            if (0.0..0.12).contains(&into) {
                let edge = (into.min(0.12 - into) / 0.005).min(1.0);
                y += 0.15 * edge * (turn * hz * i as f64).sin();
            }
        }
        y as f32
    };
    (0..sample(seconds)).map(value).collect()
}

/// Hears a sound with what is done at certain seconds, in blocks of 128.
fn hear(sound: &[f32], done: &[(f64, Done)]) -> Vec<Strike> {
    let mut listener = Listener::new(RATE, 0.5).unwrap();
    let (mut strikes, mut from) = (Vec::new(), 0);
    for (at_s, done) in done {
        let to = sample(*at_s);
        strikes.extend(sound[from..to].chunks(128).flat_map(|c| listener.push(c)));
        from = to;
        match done {
            Done::Sounds(sounds) => listener.own_sound(*sounds),
            Done::Lost(samples) => {
                strikes.extend(listener.lost(*samples as u64));
                from += samples;
            }
        }
    }
    strikes.extend(sound[from..].chunks(128).flat_map(|c| listener.push(c)));
    strikes.extend(listener.finish());
    strikes
}

#[derive(Clone, Copy)]
enum Done {
    Sounds(bool),
    Lost(usize),
}

/// The last looks must come of these onsets and end so.
fn check(sound: &[f32], done: &[(f64, Done)], expected: &[(f64, Look)]) {
    let strikes = hear(sound, done);
    let last: Vec<(f64, Look)> = strikes
        .iter()
        .filter(|s| s.look.is_last())
        .map(|s| (s.at_s, s.look))
        .collect();
    let same = |(one, other): (&(f64, Look), &(f64, Look))| {
        (one.0 - other.0).abs() < 0.005 && one.1 == other.1
    };
    assert!(
        last.len() == expected.len() && last.iter().zip(expected).all(same),
        "{last:?}, not {expected:?}"
    );
}

/// Own sound from a second on, for so long.
fn own(from_s: f64, seconds: f64) -> [(f64, Done); 2] {
    [
        (from_s, Done::Sounds(true)),
        (from_s + seconds, Done::Sounds(false)),
    ]
}

#[test]
fn a_tone_begins_nothing_and_a_pluck_just_after_its_echo_is_whole() {
    for hz in [440.0, 932.3, 1_800.0] {
        let pluck_s = 1.12 + ECHO_S + 0.01;
        let sound = sound(2.5, &[pluck_s], &[(1.0, hz)]);
        check(&sound, &own(1.0, 0.12), &[(pluck_s, Look::Whole)]);
        // the tone alone is an onset to who is not told
        assert!(
            hear(&sound, &[])
                .iter()
                .any(|s| (s.at_s - 1.0).abs() < 0.01)
        );
    }
}

#[test]
fn what_is_listened_to_ends_before_the_own_sound() {
    let sound = sound(2.5, &[1.0], &[(1.3, 880.0)]);
    check(&sound, &own(1.3, 0.12), &[(1.0, Look::OwnSound)]);
    let strikes = hear(&sound, &own(1.3, 0.12));
    assert!(strikes.last().unwrap().after.len() <= sample(0.3));
}

#[test]
fn a_pluck_in_the_own_sound_is_no_strike_when_it_is_over() {
    for pluck_s in [1.05, 1.2, 1.12 + ECHO_S - 0.005] {
        let sound = sound(3.0, &[pluck_s, 2.0], &[(1.0, 880.0)]);
        check(&sound, &own(1.0, 0.12), &[(2.0, Look::Whole)]);
    }
}

#[test]
fn a_string_plucked_in_the_own_sound_that_swells_within_half_a_second_is_no_strike() {
    // a low string whose two directions beat eight times a second, one two thirds as loud as the other
    let pluck_s = 1.12 + ECHO_S - 0.1;
    let mut swelling = sound(1.12 + ECHO_S + 0.5, &[], &[]);
    for (i, y) in swelling.iter_mut().enumerate().skip(sample(pluck_s)) {
        let t = i as f64 / f64::from(RATE) - pluck_s;
        for n in (1..=60).map(f64::from) {
            let level = 0.05 / n * (-2.0 * t).exp();
            let wave = |hz: f64| (std::f64::consts::TAU * hz * t).sin();
            *y += (level * (wave(65.4 * n) + 0.67 * wave(65.4 * n + 8.0))) as f32;
        }
    }
    check(&swelling[..sample(pluck_s + 0.45)], &own(1.0, 0.12), &[]);
}

#[test]
fn a_gap_ends_what_is_listened_to_and_what_rings_on_begins_nothing() {
    let sound = sound(3.0, &[1.0, 2.0], &[]);
    for lost in [100, 480, 24_000] {
        let done = [(1.2, Done::Lost(lost))];
        check(&sound, &done, &[(1.0, Look::Lost), (2.0, Look::Whole)]);
    }
    let between = [(1.7, Done::Lost(480))];
    check(&sound, &between, &[(1.0, Look::Whole), (2.0, Look::Whole)]);
}

#[test]
fn the_clock_goes_on_by_what_is_lost_at_any_rate() {
    for rate in [8_000, 44_100, 96_000, 192_000] {
        let mut listener = Listener::new(rate, 0.5).unwrap();
        listener.push(&vec![0.0; rate as usize]);
        assert!(listener.lost(u64::from(rate) / 2).is_empty());
        listener.push(&vec![0.0; rate as usize]);
        assert_eq!(listener.now_s(), 2.5);
    }
}
