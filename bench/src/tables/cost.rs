//! Time and memory.

use super::table;
use crate::memory::Memory;
use crate::speed::{Load, RUNS, Speed};

/// Both, in words and a table.
pub fn write(speed: Option<&Speed>, memory: Option<&Memory>) -> String {
    let mut text = speed.map_or("Speed: not run.\n".to_owned(), of_speed);
    text.push('\n');
    text.push_str(&memory.map_or("Memory: not run.\n".to_owned(), of_memory));
    text
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
        assert_eq!(write(None, None), "Speed: not run.\n\nMemory: not run.\n");
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
}
