//! Two spans of one pluck of a real string, 0.05–0.55 s and 0.55–1.05 s after it, measured apart,
//! agree within what the two say of themselves.

use crate::heard::{hear, natural, readings};
use crate::recorded::{file, samples, table};
use crate::slow_pitch::slow_pitch;
use crate::still_missed;
use pitch::cents;
use signal::{Fit, Law, Prior, fit};

/// Seconds of each file that are listened to.
const SECONDS: f64 = 2.0;
/// The spans, in seconds after the onset.
const SPANS: [(f64, f64); 2] = [(0.05, 0.55), (0.55, 1.05)];
/// Strings of which so many pairs of 95 % intervals may miss each other.
const MISSES: usize = 2;

#[test]
fn two_spans_of_one_pluck_agree_within_their_joint_interval() {
    let strings: Vec<_> = table()
        .into_iter()
        .filter(|row| row.s_to_minus_30_db >= SPANS[1].1)
        .collect();
    assert!(
        strings.len() >= 15,
        "{} strings ring long enough",
        strings.len()
    );
    let (mut misses, mut missing) = (Vec::new(), Vec::new());
    for row in &strings {
        let (sound, rate_hz) = samples(&file("harp-wav", &row.label), SECONDS);
        let rate = f64::from(rate_hz);
        let heard = hear(&natural("pedal47"), &sound, rate_hz, row.label.parse().ok());
        let Some(whole) = readings(&heard).into_iter().find(|r| r.last).cloned() else {
            missing.push(row.label.clone());
            continue;
        };
        let law = Law {
            f0_hz: whole.f0_hz,
            b: whole.b,
        };
        let span = |(from_s, to_s): (f64, f64)| -> Option<Fit> {
            let at = |s: f64| ((whole.at_s + s) * rate) as usize;
            fit(
                &[],
                &sound[at(from_s)..at(to_s)],
                rate,
                law,
                Prior::usual(whole.f1_hz),
            )
        };
        let (Some(first), Some(second)) = (span(SPANS[0]), span(SPANS[1])) else {
            missing.push(row.label.clone());
            continue;
        };
        let apart = cents(first.f1_hz, second.f1_hz);
        let joint = 1.96 * first.f1_sd.hypot(second.f1_sd);
        let heard_apart = cents(first.heard_hz, second.heard_hz);
        let heard_joint = 1.96 * first.heard_sd.hypot(second.heard_sd);
        let slow = slow_pitch(&sound, rate, row.hz, row.b.unwrap_or(6e-4));
        let moved = slow.between(&sound, rate, SPANS);
        let line = format!(
            "{}: f1 {apart:+.2} cents apart (±{joint:.2}); heard {heard_apart:+.2} (±{heard_joint:.2}); by slow reckoning the partials moved {}, their mean {:+.2}",
            row.label, moved.0, moved.1
        );
        println!("{line}");
        if apart.abs() > joint || heard_apart.abs() > heard_joint {
            misses.push(line);
        }
    }
    assert!(
        missing.iter().all(|label| label == "G1"),
        "not measured: {missing:?}"
    );
    println!("{} of {} miss, {MISSES} may", misses.len(), strings.len());
    if misses.len() > MISSES {
        still_missed::hold("recorded_spans", strings.len(), &misses);
    }
}
