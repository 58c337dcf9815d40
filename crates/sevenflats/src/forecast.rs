//! `sevenflats forecast`: where each string will be, and which to touch first.

pub mod arguments;
mod json;
mod moved;
mod page;

use std::collections::BTreeMap;
use std::io::Write;
use std::path::Path;

use ::diary::{HarpKnown, Known, Moment};
use forecast::{Ahead, Ask, InTune, Minutes, Next, learn};
use harp::{Harp, Setup, StringName};
use pitch::ReferencePitch;
use store::Store;
use tuning::round::Tolerance;

use crate::diary::place;
use crate::trouble::Trouble;
use arguments::{ForecastArguments, When};

/// All that is told.
struct Told<'a> {
    known: &'a HarpKnown,
    when: Moment,
    a4_hz: f64,
    rests_on: usize,
    ahead: Ahead,
    within: Minutes,
    order: Vec<Next>,
    in_tune: InTune,
    asked: f64,
    minutes: Option<f64>,
    plucks: Option<usize>,
}

/// Tells where the strings of a harp will be; gives what of the programme could not be read.
pub(crate) fn forecast(
    arguments: &ForecastArguments,
    out: &mut dyn Write,
) -> Result<Vec<Trouble>, Trouble> {
    let path = place::place(arguments.diary.as_ref())?;
    let all = Store::open_existing(&path)?.ends()?.known();
    let known = of_harp(&all, arguments.harp.as_deref())?;
    if let Some(to) = arguments.move_to {
        moved::tell(arguments, &all, known, to, out)?;
        out.flush()?;
        return Ok(Vec::new());
    }
    let (weights, troubles) = match &arguments.programme {
        Some(evening) => weights(evening)?,
        None => (BTreeMap::new(), Vec::new()),
    };
    let told = told(arguments, &all, known, weights)?;
    match arguments.shown.json {
        true => json::write(&told, out)?,
        false => page::write(&told, arguments.shown.names, out)?,
    }
    out.flush()?;
    Ok(troubles)
}

/// The harp that was named, or the one that was read last.
fn of_harp<'a>(all: &'a Known, named: Option<&str>) -> Result<&'a HarpKnown, Trouble> {
    let last = |harp: &&HarpKnown| {
        let readings = harp
            .strings
            .values()
            .filter_map(|string| string.last.as_ref());
        readings.map(|point| point.when).max()
    };
    match named {
        Some(name) => all.harp(name).ok_or_else(|| Trouble::NoHarpInDiary {
            name: name.to_owned(),
        }),
        None => all.harps.iter().max_by_key(last).ok_or(Trouble::NoHarpYet),
    }
}

/// How much each string is played: its notes, those that are exposed three times.
fn weights(evening: &Path) -> Result<(BTreeMap<StringName, f64>, Vec<Trouble>), Trouble> {
    let (used, troubles) = crate::programme::used(evening)?;
    let mut weights = BTreeMap::new();
    for one in used {
        *weights.entry(one.string).or_insert(0.0) += one.weight();
    }
    Ok((weights, troubles))
}

/// The harp's file, as its diary has it.
fn harp_of(known: &HarpKnown) -> Result<Harp, Trouble> {
    let no_file = || Trouble::NoHarpFile {
        name: known.harp.clone(),
    };
    let toml = known.toml.as_deref().ok_or_else(no_file)?;
    Harp::from_toml(toml).map_err(|_| no_file())
}

/// The pitch that was named, or the one that was tuned to last.
fn stands_at(arguments: &ForecastArguments, known: &HarpKnown) -> ReferencePitch {
    let last = known.a4_hz.and_then(|(_, hz)| ReferencePitch::new(hz).ok());
    arguments.a4.or(last).unwrap_or(ReferencePitch::A440)
}

fn when(arguments: &ForecastArguments) -> Moment {
    match arguments.at {
        When::At(when) => when,
        When::In(seconds) => Moment::of(&place::now()).plus_s(seconds),
    }
}

fn told<'a>(
    arguments: &ForecastArguments,
    all: &'a Known,
    known: &'a HarpKnown,
    weights: BTreeMap<StringName, f64>,
) -> Result<Told<'a>, Trouble> {
    let harp = harp_of(known)?;
    let reference = stands_at(arguments, known);
    let standing = harp.standing(&Setup::open(reference))?;
    let targets = standing.iter().map(|s| (s.string, s.target_hz)).collect();
    let when = when(arguments);
    let learned = learn(&harp, known, &all.air);
    let ahead = learned.ahead(&Ask {
        known,
        air: &all.air,
        targets: &targets,
        when,
        air_then: arguments.air.unwrap_or_default(),
    });
    let own = arguments
        .tolerance
        .map_or(Tolerance::default(), Tolerance::everywhere);
    let within = Minutes::new(
        ahead.joint.clone(),
        weights,
        |string| own.of(string),
        arguments.seconds_per_string,
    );
    let seconds = arguments.minutes.map(|minutes| 60.0 * minutes);
    Ok(Told {
        order: within.in_turn(&[]),
        in_tune: within.in_tune(&[], arguments.confidence),
        known,
        when,
        a4_hz: reference.a4_hz(),
        rests_on: learned.stretches,
        ahead,
        asked: arguments.confidence,
        minutes: arguments.minutes,
        plucks: seconds.map(|seconds| within.strings_in(seconds)),
        within,
    })
}

impl Told<'_> {
    fn p_out(&self, string: StringName) -> f64 {
        self.within.p_out(string)
    }

    /// What is expected to be left out of tune after the minutes that there are, of all notes.
    fn left_out(&self) -> Option<f64> {
        Some(self.within.left_out(&[], self.plucks?))
    }
}
