//! The sounding pitch of real strings against a slow reckoning by its definition alone
//! (`support/slow_pitch.rs`), which is itself tried first on a sound whose pitch is known by formula.

use crate::heard::{natural, readings, told};
use crate::recorded::{Row, file, samples, table};
use crate::slow_pitch::{Slow, cents, slow_pitch};
use crate::still_missed;
use crate::wav;
use pitch::ReferencePitch;
use tuning::{Ear, Listening};

/// Seconds of each file that are listened to.
const SECONDS: f64 = 2.0;
/// Seconds after the onset that a reading listens: as it does unasked, and as long as the reckoning does, since a real
/// string moves.
const LISTEN_S: [f64; 2] = [0.6, 1.2];
/// What a string of no known B is begun with; it decides only where a partial is looked for.
const USUAL_B: f64 = 6e-4;
/// Cents within which the reading is held.
const WITHIN: f64 = 1.0;
/// The one string that may be refused.
const MAY_BE_REFUSED: &str = "G1";

/// Holds `heard_hz` of every string of a package to the slow reckoning.
fn check(package: &str) {
    for listen_s in LISTEN_S {
        check_after(package, listen_s);
    }
}

fn check_after(package: &str, listen_s: f64) {
    let mut wrong = Vec::new();
    for row in table() {
        let (sound, rate_hz) = samples(&file(package, &row.label), SECONDS);
        let slow = slow_pitch(&sound, f64::from(rate_hz), row.hz, row.b.unwrap_or(USUAL_B));
        let line = compare(&row, &sound, (rate_hz, listen_s), &slow);
        match line {
            Ok(line) => println!("{line}"),
            Err(line) => {
                println!("{line}  <- wrong");
                wrong.push(line);
            }
        }
    }
    still_missed::hold(
        &format!("recorded_pitch {package} {listen_s} s"),
        23,
        &wrong,
    );
}

fn compare(
    row: &Row,
    sound: &[f32],
    (rate_hz, listen_s): (u32, f64),
    slow: &Slow,
) -> Result<String, String> {
    let string = row.label.parse().unwrap();
    let listening = Listening {
        guided: Some(string),
        listen_s,
        ..Listening::new(ReferencePitch::A440)
    };
    let mut ear = Ear::new(rate_hz, natural("pedal47"), listening).unwrap();
    let mut heard = ear.push(sound);
    heard.extend(ear.finish());
    let Some(reading) = readings(&heard).into_iter().find(|r| r.last).cloned() else {
        let line = format!("{}: {}", row.label, told(&heard));
        return if row.label == MAY_BE_REFUSED {
            Ok(line)
        } else {
            Err(line)
        };
    };
    let off = cents(slow.heard_hz, reading.heard_hz);
    let shares: Vec<String> = slow
        .partials
        .iter()
        .filter(|p| p.share > 0.02)
        .map(|p| {
            let ours = reading.partials.iter().find(|q| q.n as usize == p.n);
            let ours =
                ours.map_or_else(|| "-".to_owned(), |q| format!("{:+.2}", cents(p.hz, q.hz)));
            format!(
                "{}: {:.0} % at {:+.2} (early {:+.2}, late {:+.2}; ours {ours})",
                p.n,
                100.0 * p.share,
                cents(row.hz, p.hz / p.n as f64),
                p.early,
                p.late
            )
        })
        .collect();
    let own: f64 = slow
        .partials
        .iter()
        .filter_map(|p| Some((p, reading.partials.iter().find(|q| q.n as usize == p.n)?)))
        .map(|(p, q)| p.share * cents(p.hz, q.hz))
        .sum();
    let line = format!(
        "{}: {off:+.2} cents from the slow reckoning, ±{:.2} (its own partials would give {own:+.2}; the reckoning moves early {:+.2}, late {:+.2}); partials {}",
        row.label,
        reading.u95_cents,
        slow.early,
        slow.late,
        shares.join(", ")
    );
    if off.abs() <= WITHIN {
        Ok(line)
    } else {
        Err(line)
    }
}

#[test]
fn a_real_string_is_heard_where_the_definition_puts_it() {
    check("harp-wav");
}

#[test]
fn a_real_string_is_heard_where_the_definition_puts_it_after_compression() {
    check("harp-mp3");
}

/// The invented pluck of `support/wav.rs` sounds exactly what its formula says.
#[test]
fn the_slow_reckoning_finds_a_pitch_known_by_formula() {
    for hz in [41.2, 98.0, 220.0, 523.25, 1318.5, 2637.0] {
        let sound = wav::pluck(hz, 44_100, 2.0);
        let slow = slow_pitch(&sound, 44_100.0, hz, 1e-4);
        let off = cents(hz, slow.heard_hz);
        assert!(off.abs() < 0.05, "{hz} Hz: {off:+.3} cents, {slow:?}");
    }
}
