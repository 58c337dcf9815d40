//! What is said of an invented harp after so many rounds, as a table to be read: nothing absurd, nothing overclaimed.

use std::collections::BTreeMap;

use forecast::{because_words, in_tune, in_turn, learn};
use harp::StringName;
use pitch::Tongue;

use crate::harp_lived::{Lived, TOLERANCE};

const ROUNDS: [usize; 5] = [0, 1, 3, 10, 50];
const SHOWN: [&str; 7] = ["C1", "G2", "C3", "C4", "C5", "C6", "C7"];

/// What is said of all strings at once.
struct Told {
    lines: Vec<String>,
    u95s: Vec<f64>,
    may_be_called: bool,
}

/// Some hours after the last of so many rounds, one a morning, in a hall that is warmer and drier by then.
fn told(seed: u64, rounds: usize) -> Told {
    let mut lived = Lived::new(seed, 60);
    for day in 0..rounds as u32 {
        lived.until(day, 8);
        lived.reads_air();
        lived.whole_round();
    }
    lived.until(rounds.saturating_sub(1) as u32, 19);
    let learned = learn(&lived.harp, &lived.known, &lived.air);
    let targets = lived.targets();
    let mut ask = lived.ask(&targets);
    let (celsius, percent) = (ask.air_then.temperature_c, ask.air_then.humidity_percent);
    ask.air_then.temperature_c = celsius.map(|c| c + 4.0);
    ask.air_then.humidity_percent = percent.map(|p| p - 10.0);
    let ahead = learned.ahead(&ask);
    let tolerances: BTreeMap<StringName, f64> =
        lived.names.iter().map(|n| (*n, TOLERANCE)).collect();
    let weights = lived.names.iter().map(|n| (*n, 1.0)).collect();
    let order = in_turn(&ahead.joint, &weights, &tolerances, &[]);
    let now = in_tune(&ahead.joint, &weights, &tolerances, &[], 0.9);
    let mut lines = vec![format!("after {rounds} rounds:")];
    for one in &ahead.strings {
        let (expected, u95) = (one.expected_cents, one.u95_cents);
        let p_out = ahead.joint.p_out(one.string, TOLERANCE);
        assert!(expected.abs() <= 40.0 && u95 > 0.5 && (0.0..=1.0).contains(&p_out));
        if SHOWN.contains(&one.string.to_string().as_str()) {
            let why: Vec<String> = one
                .because
                .iter()
                .map(|why| because_words(why, Tongue::English))
                .collect();
            lines.push(format!(
                "  {} {expected:+.1} ± {u95:.1}, out {:.0} %: {}",
                one.string,
                100.0 * p_out,
                why.join("; ")
            ));
        }
    }
    let first: Vec<String> = order
        .iter()
        .take(6)
        .map(|next| format!("{} {:.0} %", next.string, 100.0 * next.p_out))
        .collect();
    lines.push(format!(
        "  first {}; in tune, 90 % sure, after {:?} strings, now {:.3}",
        first.join(", "),
        now.after_plucks,
        now.confidence
    ));
    let mut u95s: Vec<f64> = ahead.strings.iter().map(|one| one.u95_cents).collect();
    u95s.sort_by(f64::total_cmp);
    Told {
        lines,
        u95s,
        may_be_called: now.after_plucks == Some(0),
    }
}

#[test]
fn what_is_said_grows_surer_with_the_rounds_and_never_says_more_than_it_knows() {
    let mut medians = Vec::new();
    for rounds in ROUNDS {
        let told = told(3, rounds);
        for line in &told.lines {
            println!("{line}");
        }
        medians.push(told.u95s[told.u95s.len() / 2]);
        // four degrees warmer than any string was ever left in: that all 47 stand is never said beforehand
        assert!(!told.may_be_called, "{rounds}");
    }
    println!("± of the middle string: {medians:.1?}");
    assert!(medians[0] > 30.0, "nothing is known: {medians:?}");
    assert!(
        medians.windows(2).all(|two| two[1] <= 1.1 * two[0]),
        "{medians:?}"
    );
    assert!(medians[4] < 0.7 * medians[1], "{medians:?}");
}
