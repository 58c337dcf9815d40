//! `bench sounds`: the plucks that others hear; `bench measure`: everything, as a page.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use bench::diary::{self, Replay};
use bench::ear::Ours;
use bench::figures::Results;
use bench::listener::Measure;
use bench::memory::{self, Memory};
use bench::perform::{hold_trials, standing};
use bench::plan::Plan;
use bench::planning::{self, Planning};
use bench::reading::{self, Reading};
use bench::rival::{self, Rival};
use bench::round_time::{self, RoundTime};
use bench::speed::{self, Speed};
use bench::tables::cost::Cost;
use bench::trial::{Cell, Place, Trial};
use bench::trouble::Trouble;
use bench::{machine, page, sounds, statistics, tables, trial_list};
use clap::{Parser, Subcommand};
use harp::StringName;
use pitch::ReferencePitch;

/// Where everything in between lies; not kept.
const FOLDER: &str = "bench/target";
/// Where the full run is published.
const PUBLISHED: &str = "docs/measured.md";

#[derive(Parser)]
#[command(
    about = "How well plucks are heard, and what it costs; run from the root of the repository by bench/run"
)]
struct Line {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Time the replay of diaries alone, and show its part of the page
    Diaries,
    /// Time plans alone, and show their part of the page
    Plans,
    /// Write the plucks that others hear to bench/target/sounds, the scores that they read to
    /// bench/target/scores
    Sounds {
        #[command(flatten)]
        plan: Plan,
    },
    /// Hear all plucks, time everything, write the page
    Measure {
        #[command(flatten)]
        plan: Plan,
        /// The built command whose memory is measured
        #[arg(long, default_value = "target/release/sevenflats")]
        command: PathBuf,
    },
}

fn main() -> ExitCode {
    let done = match Line::parse().command {
        Command::Sounds { plan } => sounds::write(&plan, &Path::new(FOLDER).join("sounds"))
            .and_then(|()| reading::write(&Path::new(FOLDER).join("scores"))),
        Command::Plans => planning::measure().map(|plannings| {
            println!(
                "Measured on {}.\n\n{}",
                machine::describe(),
                tables::cost::of_plannings(&plannings)
            );
        }),
        Command::Diaries => diary::measure().map(|replays| {
            println!(
                "Measured on {}.\n\n{}",
                machine::describe(),
                tables::cost::of_replays(&replays)
            );
        }),
        Command::Measure { plan, command } => measure(&plan, &command),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(trouble) => {
            eprintln!("bench: {trouble}");
            ExitCode::FAILURE
        }
    }
}

/// Everything that was measured, before it is laid out.
struct Run {
    plan: Plan,
    results: Results,
    rivals: Vec<Rival>,
    truths: BTreeMap<(&'static str, Place), f64>,
    speed: Speed,
    round_time: RoundTime,
    readings: Vec<Reading>,
    plannings: Vec<Planning>,
    replays: Vec<Replay>,
    memory: Option<Memory>,
}

impl Run {
    fn cost(&self) -> Cost<'_> {
        Cost {
            speed: Some(&self.speed),
            round_time: Some(&self.round_time),
            readings: &self.readings,
            plannings: &self.plannings,
            replays: &self.replays,
            memory: self.memory.as_ref(),
        }
    }
}

fn measure(plan: &Plan, command: &Path) -> Result<(), Trouble> {
    let folder = Path::new(FOLDER);
    fs::create_dir_all(folder).map_err(Trouble::at(folder))?;
    eprintln!("speed");
    let speed = speed::measure(plan.seed)?;
    eprintln!("round");
    let round_time = round_time::measure(plan.seed)?;
    eprintln!("scores");
    let readings = reading::measure(&folder.join("rivals/reading.tsv"))?;
    eprintln!("plans");
    let plannings = planning::measure()?;
    eprintln!("diaries");
    let replays = diary::measure()?;
    let memory = if plan.quick {
        None
    } else {
        Some(hour(folder, command, plan.seed)?)
    };
    let standing = standing()?;
    let strings: Vec<StringName> = standing.iter().map(|s| s.string).collect();
    eprintln!("plucks");
    let trials = hold_trials(plan, &strings, &Ours::new(standing, ReferencePitch::A440));
    list(&folder.join("trials.csv"), &trials, &strings)?;
    eprintln!("others");
    let (mcleod, truths) = rival::mcleod(plan);
    let mut rivals = if plan.alone { Vec::new() } else { vec![mcleod] };
    if !plan.alone {
        rivals.extend(rival::read(&folder.join("rivals"))?);
    }
    eprintln!("page");
    let text = lay_out(&Run {
        plan: plan.clone(),
        results: Results::new(plan, trials),
        rivals,
        truths,
        speed,
        round_time,
        readings,
        plannings,
        replays,
        memory,
    });
    publish(plan, folder, &text)
}

fn hour(folder: &Path, command: &Path, seed: u64) -> Result<Memory, Trouble> {
    eprintln!("memory");
    let path = folder.join("hour.wav");
    memory::write_hour(&path, seed)?;
    let memory = memory::measure(command, &path);
    fs::remove_file(&path).map_err(Trouble::at(&path))?;
    memory
}

fn list(path: &Path, trials: &[Trial], strings: &[StringName]) -> Result<(), Trouble> {
    let write = || {
        let mut file = BufWriter::new(File::create(path)?);
        writeln!(file, "{}", trial_list::HEADING)?;
        for trial in trials {
            writeln!(file, "{}", trial_list::line(trial, strings))?;
        }
        file.flush()
    };
    write().map_err(Trouble::at(path))
}

/// Only a full run is published; any other is shown and kept beside the other things in between.
fn publish(plan: &Plan, folder: &Path, text: &str) -> Result<(), Trouble> {
    if plan.is_full() {
        page::write(Path::new(PUBLISHED), text)?;
        println!("{PUBLISHED} is written");
        return Ok(());
    }
    let path = folder.join("measured.md");
    fs::write(&path, text).map_err(Trouble::at(&path))?;
    println!(
        "{text}\n(not the full run: kept in {} only)",
        path.display()
    );
    Ok(())
}

fn lay_out(run: &Run) -> String {
    let (plan, results) = (&run.plan, &run.results);
    let mut text = head(run);
    let mut section = |title: &str, words: &str, body: String| {
        text.push_str(&format!("\n## {title}\n\n"));
        if !words.is_empty() {
            text.push_str(&format!("{words}\n\n"));
        }
        text.push_str(&body);
    };
    let cost = run.cost();
    let required = tables::required::write(plan, results, &cost);
    section("What must be reached", "", required);
    if !run.rivals.is_empty() {
        let others =
            tables::others::write(plan, results, &run.rivals, &run.truths, Some(&run.speed));
        section("Others on the same plucks", OTHERS, others);
    }
    section(
        "Refused, wrong, off",
        ACCURACY,
        tables::plucks::accuracy(plan, results),
    );
    let halves = plan
        .all_cells()
        .into_iter()
        .filter(|c| c.span_ms == 500 && !c.guided);
    let octaves: Vec<String> = halves
        .map(|c| tables::plucks::errors_by_octave(results, c))
        .collect();
    section(
        "Errors by octave",
        "Cents; half a second.",
        octaves.join("\n"),
    );
    section(
        "Why plucks were refused",
        "",
        tables::plucks::refusals(plan, results),
    );
    for measure in Measure::ALL {
        let title = format!("Intervals of `{}`", measure.as_str());
        section(
            &title,
            INTERVALS,
            tables::plucks::intervals(plan, results, measure),
        );
    }
    section(
        "Against the bound",
        BOUND,
        tables::plucks::over_bound(plan, results),
    );
    let half = Cell {
        set: pluck::Set::Real20,
        span_ms: 500,
        guided: false,
    };
    if plan.all_cells().contains(&half) {
        section(
            "First readings",
            FIRST,
            tables::plucks::first_readings(results, half),
        );
    }
    section("Time and memory", "", tables::cost::write(&cost));
    text
}

fn head(run: &Run) -> String {
    let words: Vec<String> = std::env::args().skip(2).collect();
    let options = shown(&words);
    let count = 47 * run.plan.takes() as usize;
    format!(
        "Measured by `./dev bench{options}` on {}. {} takes of 47 strings, {count} plucks a set, seed {}; {} takes where \
         figures are held against the bound. One build, one setting for everything. In brackets: 95 % intervals, plucks drawn \
         anew {} times. A rate of 0 out of {count} leaves up to {:.2} % possible.\n",
        machine::describe(),
        run.plan.takes(),
        run.plan.seed,
        run.plan.bound_takes(),
        statistics::RESAMPLES,
        100.0 * statistics::rule_of_three(count),
    )
}

/// The options as given, without the path of the command, which is the script's own.
fn shown(words: &[String]) -> String {
    let mut text = String::new();
    let mut words = words.iter();
    while let Some(word) = words.next() {
        match word.as_str() {
            "--command" => _ = words.next(),
            _ => text.push_str(&format!(" {word}")),
        }
    }
    text
}

const OTHERS: &str = "Half a second from the pluck on, against the sounding pitch, as median of their frames between 30 and 3400 Hz. They \
are general-purpose libraries and are told neither the harp's strings nor what sounded before the pluck; ours is told both. Wrong: more \
than 50 cents off (ours also: another string). An error is blank where it is itself beyond 50 cents.";

const ACCURACY: &str = "Cents. Errors are those of accepted readings of the right string; rates are over all plucks. Wrong: another string \
named, or a value more than 50 cents off; guided, only the latter. Refused: no value, or no name. After: of \
the wrong, those where another string was named for a pluck that never was, later than the true one. Before: a string was named for what sounded \
already when the sound began, 0.1 s before the pluck (in the real and pit sets something does); not counted as wrong.";

const INTERVALS: &str =
    "How often the 95 % interval holds the truth, of accepted readings of the right string.";

const BOUND: &str = "Root mean square of error ÷ Cramér–Rao bound of each pluck, `f1_hz`.";

const FIRST: &str = "real20, as heard in half a second. Early: before the last word. Sound given: what had been handed over after the true onset, \
in steps of 1 ms, when the first reading came; listened: what the reading says of itself.";

#[cfg(test)]
mod tests {
    use super::shown;

    #[test]
    fn the_options_are_shown_without_paths() {
        let words = ["--quick", "--command", "somewhere", "--set", "pit0"].map(str::to_owned);
        assert_eq!(shown(&words), " --quick --set pit0");
        assert_eq!(shown(&[]), "");
    }
}
