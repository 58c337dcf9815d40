//! Time and memory.

use super::table;
use crate::diary::Replay;
use crate::memory::Memory;
use crate::planning::Planning;
use crate::reading::{Other, Reading};
use crate::round_time::RoundTime;
use crate::speed::{Load, RUNS, Speed};

/// What was measured of both; `None` is not run.
#[derive(Clone, Copy, Debug, Default)]
pub struct Cost<'a> {
    /// The ear.
    pub speed: Option<&'a Speed>,
    /// The round.
    pub round_time: Option<&'a RoundTime>,
    /// Scores, read.
    pub readings: &'a [Reading],
    /// Scores, planned.
    pub plannings: &'a [Planning],
    /// Diaries, replayed.
    pub replays: &'a [Replay],
    /// The command on an hour-long file.
    pub memory: Option<&'a Memory>,
}

/// Both, in words and a table.
pub fn write(cost: &Cost<'_>) -> String {
    let not_run = |what: &str| format!("{what}: not run.\n");
    [
        cost.speed.map_or(not_run("Speed"), of_speed),
        cost.round_time.map_or(not_run("A round"), of_round),
        of_readings(cost.readings),
        of_plannings(cost.plannings),
        of_replays(cost.replays),
        cost.memory.map_or(not_run("Memory"), of_memory),
    ]
    .join("\n")
}

fn of_speed(speed: &Speed) -> String {
    let row = |name: &str, load: &Load| {
        let times = speed.ear.median / load.median;
        vec![
            name.to_owned(),
            format!("{:.4}", load.median),
            format!("{:.4}–{:.4}", load.fastest, load.slowest),
            format!("{times:.2}"),
        ]
    };
    let rows = [
        row("the ear", &speed.ear),
        row(
            "McLeod (crate pitch-detection), frames of 8192, hop 1024",
            &speed.mcleod,
        ),
        row(
            "one Fourier transform a frame, the same frames",
            &speed.fourier,
        ),
    ];
    let heading = [
        "computing time ÷ sound time",
        "median",
        "fastest–slowest",
        "the ear ÷ this",
    ];
    format!(
        "One thread's time on the processor, {RUNS} runs each in turn, on one round of {:.0} s: 47 strings plucked 2 s \
         apart and left to ring, rendered beforehand; the ear gave {} last readings.\n\n{}",
        speed.round_s,
        speed.readings,
        table(&heading, &rows)
    )
}

fn of_round(time: &RoundTime) -> String {
    format!(
        "A round of {:.0} s, an invented beginner's, made {} events. One of them into the round: median {:.4} ms, the slowest \
         {:.3} ms (wall clock, each event's middle run of {RUNS}). All of them run again, as an interrupted round is taken up: \
         {:.4} s ({:.4}–{:.4}, one thread's time on the processor).\n",
        time.round_s,
        time.events,
        time.event_ms,
        time.slowest_ms,
        time.again_s.median,
        time.again_s.fastest,
        time.again_s.slowest,
    )
}

fn of_readings(readings: &[Reading]) -> String {
    if readings.is_empty() {
        return "Scores: not run.\n".to_owned();
    }
    let rows = readings.iter().map(|reading| {
        let other = match &reading.other {
            Other::Ran(seconds, _) => format!("{:.0}", 1000.0 * seconds.median),
            Other::NotRun(why) => format!("not run: {why}"),
        };
        vec![
            format!(
                "{}, {} notes, {} bars played, {} kB",
                reading.name,
                reading.notes,
                reading.played,
                reading.bytes / 1000
            ),
            format!("{:.1}", 1000.0 * reading.ours_s.median),
            format!(
                "{:.1}–{:.1}",
                1000.0 * reading.ours_s.fastest,
                1000.0 * reading.ours_s.slowest
            ),
            other,
            reading
                .times()
                .map_or("–".to_owned(), |times| format!("{times:.0}")),
        ]
    });
    let about = readings.iter().find_map(|reading| match &reading.other {
        Other::Ran(_, about) => Some(format!(" Beside it {about}.")),
        Other::NotRun(_) => None,
    });
    let heading = [
        "a made-up harp part",
        "read, ms",
        "fastest–slowest",
        "music21, ms",
        "times as fast",
    ];
    format!(
        "Reading scores: from the bytes to notes in playing order, {RUNS} runs each, the middle one; one thread's time on the \
         processor.{}\n\n{}",
        about.unwrap_or_default(),
        table(&heading, &rows.collect::<Vec<_>>())
    )
}

/// Diaries, in words and a table.
pub fn of_replays(replays: &[Replay]) -> String {
    if replays.is_empty() {
        return "The diary: not run.\n".to_owned();
    }
    let seconds = |l: Load| format!("{:.2} ({:.2}–{:.2})", l.median, l.fastest, l.slowest);
    let ms = |l: Load| {
        let [median, fastest, slowest] = [l.median, l.fastest, l.slowest].map(|s| 1000.0 * s);
        format!("{median:.2} ({fastest:.2}–{slowest:.2})")
    };
    let rows = replays.iter().map(|replay| {
        vec![
            replay.name.to_owned(),
            replay.readings.to_string(),
            format!("{:.0}", replay.bytes as f64 / 1e6),
            seconds(replay.read_s),
            seconds(replay.known_s),
            ms(replay.forecast_s),
            ms(replay.next_s),
        ]
    });
    let heading = [
        "a made-up diary",
        "readings",
        "MB",
        "read, s",
        "replayed, s",
        "forecast, ms",
        "next string, ms",
    ];
    format!(
        "The diary: a round a day on 47 strings, from the lines of beginnings and ends of rounds to what is known of each string \
         now, to a forecast of all strings, and from a pluck to the next string of the order: {RUNS} runs each, the middle one (fastest–slowest). One thread's time on the processor.\n\n{}",
        table(&heading, &rows.collect::<Vec<_>>())
    )
}

/// Plans, in words and a table.
pub fn of_plannings(plannings: &[Planning]) -> String {
    if plannings.is_empty() {
        return "Plans: not run.\n".to_owned();
    }
    let ms = |load: Load| {
        format!(
            "{:.0} ({:.0}–{:.0})",
            1000.0 * load.median,
            1000.0 * load.fastest,
            1000.0 * load.slowest
        )
    };
    let rows = plannings.iter().map(|planning| {
        let proven = if planning.optimal {
            "yes".to_owned()
        } else {
            format!("no, gap {}", planning.gap)
        };
        vec![
            format!(
                "{}, {}, {} moves",
                planning.name, planning.preset, planning.moves
            ),
            ms(planning.all_s),
            ms(planning.plan_s),
            proven,
            ms(planning.again_s),
            if planning.again_optimal { "yes" } else { "no" }.to_owned(),
        ]
    });
    let heading = [
        "a made-up harp part",
        "read and planned, ms",
        "planned, ms",
        "proven the cheapest",
        "again after a chosen pedal, ms",
        "proven each time",
    ];
    format!(
        "Plans for a pedal harp, from the bytes of the score, feet at 0.4 s, as played with all repeats: {RUNS} runs each, the \
         middle one (fastest–slowest); again after F was put elsewhere at one moment, another each time. One thread's time on \
         the processor.\n\n{}",
        table(&heading, &rows.collect::<Vec<_>>())
    )
}

fn of_memory(memory: &Memory) -> String {
    format!(
        "`sevenflats hear --json` on a WAV file of {} s (16 bits, one channel, 48 kHz; {} plucks): at most {:.1} MB resident \
         (MB of 1024² bytes; the system's high-water mark).\n",
        memory.file_s, memory.plucks, memory.peak_mib
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_not_run_says_so() {
        assert_eq!(
            write(&Cost::default()),
            "Speed: not run.\n\nA round: not run.\n\nScores: not run.\n\nPlans: not run.\n\nThe diary: not run.\n\nMemory: not run.\n"
        );
    }

    #[test]
    fn the_ratio_is_to_each_of_the_others() {
        let load = |median| Load {
            median,
            fastest: median,
            slowest: median,
        };
        let speed = Speed {
            round_s: 97.0,
            readings: 47,
            ear: load(0.02),
            mcleod: load(0.04),
            fourier: load(0.01),
        };
        let text = of_speed(&speed);
        assert!(text.contains("| 0.0400 | 0.0400–0.0400 | 0.50 |"), "{text}");
    }

    #[test]
    fn a_reading_is_told_beside_the_other() {
        let load = |median| Load {
            median,
            fastest: median,
            slowest: median,
        };
        let reading = |other| Reading {
            name: "300 bars",
            bytes: 900_000,
            notes: 3000,
            played: 300,
            ours_s: load(0.02),
            other,
        };
        let ran = of_readings(&[reading(Other::Ran(load(1.5), "music21 1".to_owned()))]);
        assert!(
            ran.contains("| 20.0 | 20.0–20.0 | 1500 | 75 |")
                && ran.contains("Beside it music21 1."),
            "{ran}"
        );
        let alone = of_readings(&[reading(Other::NotRun("no such module".to_owned()))]);
        assert!(alone.contains("| not run: no such module | – |"), "{alone}");
    }

    #[test]
    fn a_plan_that_is_not_proven_says_by_how_much() {
        let load = |median| Load {
            median,
            fastest: median,
            slowest: median,
        };
        let planning = Planning {
            name: "300 bars",
            preset: "fewest",
            limit_ms: 150.0,
            all_s: load(0.2),
            plan_s: load(0.15),
            again_s: load(0.05),
            moves: 200,
            optimal: false,
            gap: 12,
            again_optimal: true,
        };
        let text = of_plannings(&[planning]);
        let row = "| 300 bars, fewest, 200 moves | 200 (200–200) | 150 (150–150) | no, gap 12 | 50 (50–50) | yes |";
        assert!(text.contains(row), "{text}");
    }

    #[test]
    fn a_round_is_told_in_milliseconds_and_seconds() {
        let time = RoundTime {
            round_s: 600.0,
            events: 9000,
            event_ms: 0.0123,
            slowest_ms: 0.5,
            again_s: Load {
                median: 0.25,
                fastest: 0.2,
                slowest: 0.3,
            },
        };
        let text = of_round(&time);
        for words in ["median 0.0123 ms", "0.500 ms", "0.2500 s (0.2000–0.3000"] {
            assert!(text.contains(words), "{words}: {text}");
        }
    }
}
