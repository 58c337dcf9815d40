//! How long the diary of many years takes: from its lines to what is known of each string now, and to a forecast.
//!
//! As the store gives it: rounds by their beginnings and ends, without the events of rounds that are over. A round a day on 47
//! strings, of which eight are turned, so that 55 readings are kept; the air with each. All of it is made up.

use std::hint::black_box;

use ::diary::{
    Air, At, Diary, Entry, Known, Moment, Record, RoundBegun, RoundOver, StringOver, Writer,
};
use forecast::{AirNow, Ask, learn, next};
use harp::{Harp, Setup, StringName};
use pitch::ReferencePitch;
use tuning::round::{Kept, Plan, State};

use crate::cpu_clock::CpuClock;
use crate::speed::{Load, RUNS, load};
use crate::trouble::Trouble;

/// Rounds of ten years.
const ROUNDS: usize = 3_650;
/// How many times as long the longer diary is.
const TIMES: usize = 10;
/// Strings of a round that are turned.
const TURNED: usize = 8;

/// A diary as it was replayed.
#[derive(Clone, Debug, PartialEq)]
pub struct Replay {
    /// How long it was kept.
    pub name: &'static str,
    /// Seconds that the replay may take, where there is a limit.
    pub limit_s: Option<f64>,
    /// Its readings.
    pub readings: usize,
    /// Its lines, bytes.
    pub bytes: usize,
    /// Seconds on the processor from the lines to a diary.
    pub read_s: Load,
    /// Seconds on the processor from the diary to what is known.
    pub known_s: Load,
    /// Seconds on the processor from what is known to a forecast of all strings.
    pub forecast_s: Load,
    /// Seconds that it may take, where there is a limit.
    pub forecast_limit_s: Option<f64>,
    /// Seconds on the processor from a pluck to the next string of the order.
    pub next_s: Load,
    /// Seconds that it may take, where there is a limit.
    pub next_limit_s: Option<f64>,
}

/// Replays ten years, and ten times as much.
///
/// # Errors
/// None, as long as the harp is built in.
pub fn measure() -> Result<Vec<Replay>, Trouble> {
    Ok(vec![
        timed("10 years", Some(0.5), ROUNDS)?,
        timed("100 years", None, TIMES * ROUNDS)?,
    ])
}

fn timed(name: &'static str, limit_s: Option<f64>, rounds: usize) -> Result<Replay, Trouble> {
    let lines = lines(rounds)?;
    let (mut read, mut known, mut readings) = (Vec::new(), Vec::new(), 0);
    let (mut ahead, mut nexts) = (Vec::new(), Vec::new());
    for _ in 0..RUNS {
        let clock = CpuClock::start();
        let mut diary = Diary::default();
        diary.merge(
            lines
                .iter()
                .filter_map(|line| Record::parse_again(line).ok()),
        );
        read.push(clock.seconds());
        let clock = CpuClock::start();
        let all = black_box(diary.known());
        known.push(clock.seconds());
        let strings = all.harps.iter().flat_map(|harp| harp.strings.values());
        readings = strings.map(|string| string.history.len()).sum();
        let (forecast_s, next_s) = forecast_of(&all, rounds)?;
        ahead.push(forecast_s);
        nexts.push(next_s);
    }
    Ok(Replay {
        name,
        limit_s,
        readings,
        bytes: lines.iter().map(String::len).sum(),
        read_s: load(&read),
        known_s: load(&known),
        forecast_s: load(&ahead),
        forecast_limit_s: limit_s.map(|_| 0.050),
        next_s: load(&nexts),
        next_limit_s: limit_s.map(|_| 0.010),
    })
}

/// Seconds from what is known to a forecast of all strings, the next morning; and from one pluck to the next string.
fn forecast_of(known: &Known, rounds: usize) -> Result<(f64, f64), Trouble> {
    let harp = Harp::named("pedal47")?;
    let standing = harp.standing(&Setup::open(ReferencePitch::A440))?;
    let targets = standing.iter().map(|s| (s.string, s.target_hz)).collect();
    let Some(own) = known.harp("big") else {
        return Ok((0.0, 0.0));
    };
    let clock = CpuClock::start();
    let learned = learn(&harp, own, &known.air);
    let mut ahead = black_box(learned.ahead(&Ask {
        known: own,
        air: &known.air,
        targets: &targets,
        when: Moment::of_unix_s(1e9 + 86_400.0 * rounds as f64),
        air_then: AirNow {
            temperature_c: Some(22.0),
            humidity_percent: Some(50.0),
        },
    }));
    let forecast_s = clock.seconds();
    let all = standing.iter().map(|s| s.string);
    let (weights, tolerances) = all.map(|s| ((s, 1.0), (s, 3.0))).unzip();
    let clock = CpuClock::start();
    ahead.joint.heard(standing[20].string, 1.0, 0.5);
    black_box(next(
        &ahead.joint,
        &weights,
        &tolerances,
        &[standing[20].string],
    ));
    Ok((forecast_s, clock.seconds()))
}

/// The records, three a day: a round begins, is over, and the air is read.
fn lines(rounds: usize) -> Result<Vec<String>, Trouble> {
    let (harp, setup) = (Harp::named("pedal47")?, Setup::open(ReferencePitch::A440));
    let plan = Plan::of(&harp, &setup)?;
    let begun = RoundBegun::of("big", &harp, &setup, &plan, 0.6);
    let targets: Vec<(StringName, f64)> = (plan.strings.iter())
        .map(|planned| (planned.standing.string, planned.standing.target_hz))
        .collect();
    let mut writer = Writer::new("phone", 1)?;
    let mut lines = Vec::new();
    for day in 0..rounds {
        let at = |hour: f64| Moment::of_unix_s(1e9 + 86_400.0 * day as f64 + 3_600.0 * hour).at();
        let round = writer.next().clone();
        let strings = targets.iter().enumerate();
        let over = RoundOver {
            round,
            finished: true,
            minutes: 6.25,
            left: 0,
            again: Vec::new(),
            strings: strings
                .map(|(at, target)| string(day, at, *target))
                .collect(),
        };
        let air = Air {
            harp: None,
            temperature_c: Some(20.0 + (day % 7) as f64 / 2.0),
            humidity_percent: Some(45.0),
        };
        let mut line = |at: At, entry: &Entry| writer.line(&at, entry);
        lines.push(line(at(18.0), &Entry::Round(begun.clone()))?);
        lines.push(line(at(18.2), &Entry::RoundOver(over))?);
        lines.push(line(at(18.3), &Entry::Air(air))?);
    }
    Ok(lines)
}

/// One string of a day, with as many digits as real figures have.
fn string(day: usize, at: usize, (string, target_hz): (StringName, f64)) -> StringOver {
    let kept = |at_s: f64, off_cents: f64| Kept {
        at_s,
        target_hz,
        heard_hz: target_hz * (off_cents / 1200.0).exp2(),
        off_cents,
        u95_cents: 0.3 + off_cents.abs() / 37.0,
        b: Some(1.3e-4 * (1.0 + at_s / 997.0)),
        t60_s: Some(3.0 + at_s / 499.0),
        level_dbfs: Some(-30.0 + off_cents / 7.0),
        aside: None,
    };
    let turned = (at + TURNED * day) % 47 < TURNED;
    let found = kept(
        7.0 * at as f64,
        ((day * 31 + at * 17) % 97) as f64 / 17.0 - 3.0,
    );
    let left = kept(7.0 * at as f64 + 4.1, ((day + at) % 13) as f64 / 13.0 - 0.4);
    StringOver {
        string,
        before: Some(found),
        after: Some(if turned { left } else { found }),
        plucks: if turned { 3 } else { 1 },
        state: State::InTune,
        fitted: false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_month_is_replayed_whole() {
        let replay = timed("a month", None, 30).unwrap();
        // 8 strings found and left, 39 found and left at once
        assert_eq!(replay.readings, 30 * 55);
        assert!(replay.known_s.median > 0.0 && replay.bytes > 30 * 10_000);
    }
}
