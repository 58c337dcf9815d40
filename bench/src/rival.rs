//! What others made of the same plucks. They name no string: their pitch is held against the sounding pitch.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use pluck::Set;

use crate::cpu_clock::CpuClock;
use crate::figures::Results;
use crate::listener::Measure;
use crate::mcleod;
use crate::perform::each_on_two_threads;
use crate::plan::{Plan, RIVAL_SPAN_MS};
use crate::sounds::{heard_by_others, places};
use crate::statistics::{Estimate, estimate, median, per_cent, percentile};
use crate::trial::{Cell, Place, WRONG_CENTS};
use crate::trouble::Trouble;

/// One of the others.
#[derive(Clone, Debug, PartialEq)]
pub struct Rival {
    /// Its name.
    pub name: String,
    /// Version, licence and settings; or why it was not run.
    pub about: String,
    /// Computing time ÷ sound time on one core; `None` where it was not run.
    pub load: Option<f64>,
    /// Its pitch of every pluck in hertz, or that it found none. Empty where it was not run.
    pub pitches: Pitches,
}

/// Pitch in hertz by set and pluck.
pub type Pitches = BTreeMap<(&'static str, Place), Option<f64>>;

/// One pluck as a rival, or we, read it: how far off in cents, or nothing; and whether it counts as wrong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Read {
    /// Cents off, where there is a value.
    pub error_cents: Option<f64>,
    /// As [`crate::trial::Trial::is_wrong`].
    pub wrong: bool,
}

/// The figures of one of them on one set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// Median of the absolute error, cents.
    pub median: Option<Estimate>,
    /// Its 95th percentile.
    pub p95: Option<Estimate>,
    /// Wrong, per cent of all plucks.
    pub wrong: Option<Estimate>,
    /// Without a value, per cent.
    pub none: Option<Estimate>,
}

impl Figures {
    /// From all plucks of a set.
    pub fn of(reads: &[Read]) -> Self {
        let errors = |reads: &[Read]| -> Vec<f64> {
            reads
                .iter()
                .filter_map(|read| read.error_cents.map(f64::abs))
                .collect()
        };
        Self {
            median: estimate(reads, |reads| median(&errors(reads))),
            p95: estimate(reads, |reads| percentile(&errors(reads), 95.0)),
            wrong: estimate(reads, |reads| per_cent(reads, |read| read.wrong)),
            none: estimate(reads, |reads| {
                per_cent(reads, |read| read.error_cents.is_none())
            }),
        }
    }
}

impl Rival {
    /// What it made of a set; `truths` are the sounding pitches of the plucks it was given.
    pub fn reads(&self, set: Set, truths: &BTreeMap<(&'static str, Place), f64>) -> Vec<Read> {
        let of_set = truths.iter().filter(|((name, _), _)| *name == set.as_str());
        let reads = of_set.map(|(key, truth)| {
            let pitch = self.pitches.get(key).copied().flatten();
            let error_cents = pitch.map(|hz| pitch::cents(*truth, hz));
            Read {
                error_cents,
                wrong: error_cents.is_some_and(|error| error.abs() > WRONG_CENTS),
            }
        });
        reads.collect()
    }
}

/// Ours on a set, as the others are judged: every reading that names a string, right or not.
pub fn our_reads(results: &Results, set: Set) -> Vec<Read> {
    let cell = Cell {
        set,
        span_ms: RIVAL_SPAN_MS,
        guided: false,
    };
    let trials = results.cell(cell).into_iter();
    let reads = trials.map(|trial| Read {
        error_cents: trial
            .last
            .map(|judged| judged.of(Measure::Heard).error_cents),
        wrong: trial.is_wrong(),
    });
    reads.collect()
}

/// McLeod's method on the plucks of the plan, and the sounding pitches of these.
pub fn mcleod(plan: &Plan) -> (Rival, BTreeMap<(&'static str, Place), f64>) {
    let places = places(plan);
    let heard = each_on_two_threads(&places, |&(set, place)| {
        let pluck = set.pluck(place.index, place.take, plan.seed);
        let clock = CpuClock::start();
        let pitch = mcleod::pitch_hz(heard_by_others(&pluck), pluck.rate);
        (pitch, pluck.truth.sounding_hz, clock.seconds())
    });
    let mut pitches = Pitches::new();
    let mut truths = BTreeMap::new();
    let mut computed_s = 0.0;
    for ((set, place), (pitch, truth, seconds)) in places.iter().zip(heard) {
        pitches.insert((set.as_str(), *place), pitch);
        truths.insert((set.as_str(), *place), truth);
        computed_s += seconds;
    }
    let sound_s = pitches.len() as f64 * f64::from(RIVAL_SPAN_MS) / 1000.0;
    let rival = Rival {
        name: mcleod::NAME.to_owned(),
        about: mcleod::ABOUT.to_owned(),
        load: (sound_s > 0.0).then(|| computed_s / sound_s),
        pitches,
    };
    (rival, truths)
}

/// Those that were run as programs of their own: `about.tsv` (name, load, about) and `pitches.tsv` (name, set, index, take,
/// hertz or nothing) in a folder, both with a heading. None where there is no such folder.
///
/// # Errors
/// A table that cannot be read or understood.
pub fn read(folder: &Path) -> Result<Vec<Rival>, Trouble> {
    let mut rivals = Vec::new();
    let about_path = folder.join("about.tsv");
    if !about_path.exists() {
        return Ok(rivals);
    }
    for (line, text) in rows(&about_path)? {
        let fields: Vec<&str> = text.split('\t').collect();
        let [name, load, about] = fields[..] else {
            return Err(not_understood(&about_path, line, &text));
        };
        rivals.push(Rival {
            name: name.to_owned(),
            about: about.to_owned(),
            load: load.parse().ok(),
            pitches: Pitches::new(),
        });
    }
    let path = folder.join("pitches.tsv");
    for (line, text) in rows(&path)? {
        let (name, key, pitch) =
            pitch_row(&text).ok_or_else(|| not_understood(&path, line, &text))?;
        let rival = rivals.iter_mut().find(|rival| rival.name == name);
        let rival = rival.ok_or_else(|| not_understood(&path, line, &text))?;
        rival.pitches.insert(key, pitch);
    }
    Ok(rivals)
}

fn pitch_row(text: &str) -> Option<(&str, (&'static str, Place), Option<f64>)> {
    let fields: Vec<&str> = text.split('\t').collect();
    let [name, set, index, take, hz] = fields[..] else {
        return None;
    };
    let set: Set = set.parse().ok()?;
    let place = Place {
        index: index.parse().ok()?,
        take: take.parse().ok()?,
    };
    let pitch = if hz.is_empty() {
        None
    } else {
        Some(hz.parse().ok()?)
    };
    Some((name, (set.as_str(), place), pitch))
}

fn rows(path: &Path) -> Result<Vec<(usize, String)>, Trouble> {
    let text = fs::read_to_string(path).map_err(Trouble::at(path))?;
    let lines = text.lines().enumerate().skip(1);
    Ok(lines.map(|(at, line)| (at + 1, line.to_owned())).collect())
}

fn not_understood(path: &Path, line: usize, text: &str) -> Trouble {
    Trouble::Line {
        path: path.to_owned(),
        line,
        text: text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rival_is_judged_against_the_sounding_pitch() {
        let place = |take| Place { index: 26, take };
        let truths = BTreeMap::from([
            (("real20", place(0)), 440.0),
            (("real20", place(1)), 440.0),
            (("real20", place(2)), 440.0),
            (("pit0", place(0)), 440.0),
        ]);
        let pitches = Pitches::from([
            (("real20", place(0)), Some(pitch::raise(440.0, 3.0))),
            (("real20", place(1)), Some(220.0)),
            (("real20", place(2)), None),
        ]);
        let rival = Rival {
            name: "a".to_owned(),
            about: String::new(),
            load: None,
            pitches,
        };
        let figures = Figures::of(&rival.reads(Set::Real20, &truths));
        let value = |e: Option<Estimate>| e.unwrap().value;
        assert!((value(figures.median) - 601.5).abs() < 1e-9);
        assert!((value(figures.wrong) - 100.0 / 3.0).abs() < 1e-9);
        assert!((value(figures.none) - 100.0 / 3.0).abs() < 1e-9);
    }

    #[test]
    fn rows_of_other_programs_are_read_or_refused() {
        let (name, key, pitch) = pitch_row("yin\treal20\t3\t1\t55.5").unwrap();
        assert_eq!(
            (name, key.0, key.1.index, pitch),
            ("yin", "real20", 3, Some(55.5))
        );
        assert_eq!(pitch_row("yin\treal20\t3\t1\t").unwrap().2, None);
        for bad in [
            "yin\treal20\t3\t1",
            "yin\tloud\t3\t1\t5",
            "yin\treal20\tx\t1\t5",
            "yin\treal20\t3\t1\tx",
        ] {
            assert!(pitch_row(bad).is_none(), "{bad}");
        }
    }
}
