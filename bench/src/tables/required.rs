//! What must be reached, what was measured, whether it was reached.

use super::cost::Cost;
use super::{cell_name, table};
use crate::diary::Replay;
use crate::figures::{Figure, Results};
use crate::plan::Plan;
use crate::planning::Planning;
use crate::reading::Reading;
use crate::requirement::{About, Finding, Limit, Register, Requirement, requirements};
use crate::round_time::RoundTime;
use crate::speed::Load;

/// Computing time ÷ sound time of a whole ringing round, on one core.
const LOAD: Limit = Limit::AtMost(0.02);
/// MiB for an hour-long file; the limit is meant in megabytes of 1024².
const MEMORY_MIB: Limit = Limit::AtMost(64.0);
/// Milliseconds for one event into a round, median and slowest.
const EVENT_MS: Limit = Limit::AtMost(1.0);
/// Seconds for ten minutes' events run again.
const AGAIN_S: Limit = Limit::AtMost(1.0);

/// How many times as fast as another reader a score is read.
const TIMES_AS_FAST: Limit = Limit::AtLeast(20.0);
/// Milliseconds for a plan made again after one chosen pedal.
const AGAIN_MS: Limit = Limit::AtMost(100.0);

struct Row {
    group: &'static str,
    what: String,
    limit: String,
    measured: String,
    /// Whether it is met; `None` where it was not measured.
    met: Option<bool>,
}

/// How many were reached, by kind, then each of them.
pub fn write(plan: &Plan, results: &Results, cost: &Cost<'_>) -> String {
    let cells = plan.all_cells();
    let asked = requirements()
        .into_iter()
        .filter(|r| cells.contains(&r.cell()));
    let mut rows: Vec<Row> = asked.map(|r| row(&r, r.judge(results))).collect();
    rows.extend(of_ear_and_memory(cost));
    rows.extend(of_round(cost.round_time));
    rows.extend(cost.readings.iter().map(of_reading));
    rows.extend(cost.plannings.iter().flat_map(of_planning));
    rows.extend(cost.replays.iter().flat_map(of_replay));
    lay_out(&rows)
}

fn of_ear_and_memory(cost: &Cost<'_>) -> [Row; 2] {
    let load = cost.speed.map(|s| s.ear);
    [
        Row {
            group: "time and memory",
            what: "computing time ÷ sound time, one core, a whole ringing round".to_owned(),
            limit: limit(LOAD, 2),
            measured: in_runs(load),
            met: load.map(|load| LOAD.is_met(load.median)),
        },
        Row {
            group: "time and memory",
            what: "memory, hour-long file, MB".to_owned(),
            limit: limit(MEMORY_MIB, 0),
            measured: cost
                .memory
                .map_or("not run".to_owned(), |m| format!("{:.1}", m.peak_mib)),
            met: cost.memory.map(|m| MEMORY_MIB.is_met(m.peak_mib)),
        },
    ]
}

/// One event: the slowest is held to the limit, so that the median is too.
fn of_round(time: Option<&RoundTime>) -> [Row; 2] {
    let again = time.map(|t| t.again_s);
    [
        Row {
            group: "time of the round",
            what: "one event into a round of ten minutes, ms: median, slowest".to_owned(),
            limit: limit(EVENT_MS, 0),
            measured: time.map_or("not run".to_owned(), |t| {
                format!("{:.4}, {:.4}", t.event_ms, t.slowest_ms)
            }),
            met: time.map(|t| EVENT_MS.is_met(t.event_ms) && EVENT_MS.is_met(t.slowest_ms)),
        },
        Row {
            group: "time of the round",
            what: "a round of ten minutes run again from its events, s".to_owned(),
            limit: limit(AGAIN_S, 0),
            measured: in_runs(again),
            met: again.map(|again| AGAIN_S.is_met(again.median)),
        },
    ]
}

fn of_reading(reading: &Reading) -> Row {
    let times = reading.times();
    Row {
        group: "reading scores",
        what: format!(
            "a made-up harp part, {}: times as fast as music21",
            reading.name
        ),
        limit: limit(TIMES_AS_FAST, 0),
        measured: times.map_or("not run".to_owned(), |times| format!("{times:.0}")),
        met: times.map(|times| TIMES_AS_FAST.is_met(times)),
    }
}

fn of_replay(replay: &Replay) -> Vec<Row> {
    let limits = [replay.limit_s, replay.forecast_limit_s, replay.next_limit_s];
    let loads = [replay.known_s, replay.forecast_s, replay.next_s];
    let whats = ["replayed, s", "forecast, s", "next string of the order, s"];
    let all = limits.into_iter().zip(loads).zip(whats);
    let rows = all.filter_map(|((limit_s, load), what)| {
        let most = Limit::AtMost(limit_s?);
        Some(Row {
            group: "diary",
            what: format!(
                "a made-up diary, {}, {} readings: {what}",
                replay.name, replay.readings
            ),
            limit: limit(most, 2),
            measured: in_runs(Some(load)),
            met: Some(most.is_met(load.median)),
        })
    });
    rows.collect()
}

/// Only a plan that is proven the cheapest meets its limit.
fn of_planning(planning: &Planning) -> [Row; 2] {
    let what = format!(
        "a made-up harp part, {}, '{}'",
        planning.name, planning.preset
    );
    let row = |what: String, most: Limit, load: Load, proven: bool| {
        let ms = 1000.0 * load.median;
        let unproven = if proven {
            ""
        } else {
            ", not proven the cheapest"
        };
        Row {
            group: "planning",
            what,
            limit: limit(most, 0),
            measured: format!("{ms:.0}{unproven}"),
            met: Some(proven && most.is_met(ms)),
        }
    };
    [
        row(
            format!("{what}: read and planned, ms"),
            Limit::AtMost(planning.limit_ms),
            planning.all_s,
            planning.optimal,
        ),
        row(
            format!("{what}: planned again after a chosen pedal, ms"),
            AGAIN_MS,
            planning.again_s,
            planning.again_optimal,
        ),
    ]
}

/// The middle run, the fastest and the slowest.
fn in_runs(load: Option<Load>) -> String {
    load.map_or("not run".to_owned(), |l| {
        format!("{:.4} [{:.4}, {:.4}]", l.median, l.fastest, l.slowest)
    })
}

fn lay_out(rows: &[Row]) -> String {
    let mut text = count(rows);
    let cells = rows.iter().map(|row| {
        let met = match row.met {
            Some(true) => "reached",
            Some(false) => "**not reached**",
            None => "not run",
        };
        vec![
            row.what.clone(),
            row.limit.clone(),
            row.measured.clone(),
            met.to_owned(),
        ]
    });
    text.push('\n');
    text.push_str(&table(
        &["figure", "must reach", "measured [95 %]", "reached?"],
        &cells.collect::<Vec<_>>(),
    ));
    text
}

fn count(rows: &[Row]) -> String {
    let mut groups: Vec<&str> = rows.iter().map(|row| row.group).collect();
    groups.dedup();
    let line = |name: &str, rows: &[&Row]| {
        let of = |met: Option<bool>| rows.iter().filter(|row| row.met == met).count().to_string();
        vec![name.to_owned(), of(Some(true)), of(Some(false)), of(None)]
    };
    let mut lines: Vec<Vec<String>> = groups
        .into_iter()
        .map(|group| {
            line(
                group,
                &rows
                    .iter()
                    .filter(|row| row.group == group)
                    .collect::<Vec<_>>(),
            )
        })
        .collect();
    lines.push(line("**all**", &rows.iter().collect::<Vec<_>>()));
    table(&["figures", "reached", "not reached", "not run"], &lines)
}

fn row(requirement: &Requirement, finding: Option<Finding>) -> Row {
    let (name, places) = name(requirement.figure);
    let about = match requirement.about {
        About::Register(_, Register::FromC4) => ", from C4 up",
        About::Register(_, Register::BelowC4) => ", below C4",
        About::WorstOctave(_) | About::WorstOctaveOfBound(_) => ", worst octave",
        About::Cell(_) => "",
    };
    let measured = finding.map_or("not run".to_owned(), |found| {
        let e = found.estimate;
        let octave = found
            .octave
            .map_or(String::new(), |octave| format!(", octave {octave}"));
        format!(
            "{:.places$} [{:.places$}, {:.places$}]{octave}",
            e.value, e.low, e.high
        )
    });
    Row {
        group: group(requirement.figure),
        what: format!("{}: {name}{about}", cell_name(requirement.cell())),
        limit: limit(requirement.limit, places),
        measured,
        met: finding.map(|found| found.met),
    }
}

/// The kind of a figure.
fn group(figure: Figure) -> &'static str {
    match figure {
        Figure::Median(_) | Figure::P95(_) => "accuracy",
        Figure::Wrong | Figure::Before | Figure::After => "wrong",
        Figure::Refused => "refused",
        Figure::OverBound => "against the bound",
        Figure::Holds(_) | Figure::Width(_) | Figure::U95(_) => "honesty of intervals",
        Figure::FirstRight
        | Figure::FirstU95(_)
        | Figure::FirstWithin(_)
        | Figure::FirstHolds(_)
        | Figure::FirstGiven(_)
        | Figure::FirstListened(_)
        | Figure::FirstEarly => "first reading",
    }
}

/// A figure in words, and to how many places it is shown.
fn name(figure: Figure) -> (String, usize) {
    let (name, places) = match figure {
        Figure::Median(m) => (format!("`{}` median, cents", m.as_str()), 3),
        Figure::P95(m) => (format!("`{}` p95, cents", m.as_str()), 3),
        Figure::Wrong => ("wrong, %".to_owned(), 2),
        Figure::Before => ("string named before the pluck, %".to_owned(), 2),
        Figure::After => ("another string named after the pluck, %".to_owned(), 2),
        Figure::Refused => ("refused, %".to_owned(), 2),
        Figure::Holds(m) => (format!("`{}` interval holds, %", m.as_str()), 1),
        Figure::Width(m) => (format!("`{}` median u95 ÷ median error", m.as_str()), 2),
        Figure::U95(m) => (format!("`{}` median u95, cents", m.as_str()), 2),
        Figure::OverBound => ("`f1_hz` RMSE ÷ bound".to_owned(), 2),
        Figure::FirstRight => ("first reading: right string, %".to_owned(), 1),
        Figure::FirstU95(p) => (format!("first reading: u95, percentile {p}, cents"), 2),
        Figure::FirstWithin(cents) => (format!("first reading: u95 ≤ {cents} cents, %"), 1),
        Figure::FirstHolds(m) => (
            format!("first reading: `{}` interval holds, %", m.as_str()),
            1,
        ),
        Figure::FirstGiven(p) => (format!("first reading: sound given, percentile {p}, s"), 3),
        Figure::FirstListened(p) => (format!("first reading: listened, percentile {p}, s"), 3),
        Figure::FirstEarly => ("first reading before the last word, %".to_owned(), 1),
    };
    (name, places)
}

fn limit(limit: Limit, places: usize) -> String {
    match limit {
        Limit::AtMost(most) => format!("≤ {most:.places$}"),
        Limit::AtLeast(least) => format!("≥ {least:.places$}"),
        Limit::Within(least, most) => format!("{least:.0}–{most:.0}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_missed_or_not_run_is_said() {
        let row = |group, what: &str, met| Row {
            group,
            what: what.to_owned(),
            limit: "≤ 1.00".to_owned(),
            measured: "2.00 [1.50, 2.50]".to_owned(),
            met,
        };
        let rows = [
            row("wrong", "a", Some(true)),
            row("wrong", "b", Some(false)),
            row("time and memory", "c", None),
        ];
        let text = lay_out(&rows);
        for line in [
            "| wrong | 1 | 1 | 0 |",
            "| time and memory | 0 | 0 | 1 |",
            "| **all** | 1 | 1 | 1 |",
            "| b | ≤ 1.00 | 2.00 [1.50, 2.50] | **not reached** |",
            "| c | ≤ 1.00 | 2.00 [1.50, 2.50] | not run |",
        ] {
            assert!(text.lines().any(|l| l == line), "{line}\n{text}");
        }
    }

    #[test]
    fn limits_are_written_as_they_are_asked() {
        assert_eq!(limit(Limit::AtMost(0.4), 2), "≤ 0.40");
        assert_eq!(limit(Limit::Within(93.0, 97.0), 1), "93–97");
    }

    #[test]
    fn a_quick_plan_that_is_not_proven_is_not_enough() {
        let load = |median| Load {
            median,
            fastest: median,
            slowest: median,
        };
        let planning = |all_s, optimal| Planning {
            name: "300 bars",
            preset: "fewest",
            limit_ms: 150.0,
            all_s: load(all_s),
            plan_s: load(all_s),
            again_s: load(0.05),
            moves: 200,
            optimal,
            gap: u64::from(!optimal),
            again_optimal: true,
        };
        let met = |all_s, optimal| of_planning(&planning(all_s, optimal)).map(|row| row.met);
        assert_eq!(met(0.1, true), [Some(true), Some(true)]);
        assert_eq!(met(0.1, false), [Some(false), Some(true)]);
        assert_eq!(met(0.2, true), [Some(false), Some(true)]);
    }

    #[test]
    fn a_round_is_as_quick_as_its_slowest_event() {
        let time = |slowest_ms, median| RoundTime {
            round_s: 600.0,
            events: 9000,
            event_ms: 0.01,
            slowest_ms,
            again_s: Load {
                median,
                fastest: median,
                slowest: median,
            },
        };
        let met = |time: Option<&RoundTime>| of_round(time).map(|row| row.met);
        assert_eq!(met(Some(&time(1.0, 1.0))), [Some(true), Some(true)]);
        assert_eq!(met(Some(&time(1.1, 1.1))), [Some(false), Some(false)]);
        assert_eq!(met(None), [None, None]);
    }
}
