//! An invented year of a harp, said so: weather, mornings, breaks, restrings, a technician's visit. It goes in as records of
//! a diary and is replayed every second week; each fault that was put in must be found, and of years without faults hardly
//! anything may be.
//!
//! `SEVENFLATS_LONG=1` lives ten years without faults instead of two, and looks every week.

#![allow(
    clippy::disallowed_macros,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may fail loudly; tells what was found; a long run is asked for from outside"
)]

mod checked;
mod draws;
mod hidden;
mod lived;
mod weather;
mod written;

use std::collections::BTreeMap;

use diary::{HarpKnown, Moment};
use harp::StringName;
use keep::{Age, Finding, Intervals, Mended, Settling, State, Suspected, Suspicion, Use, Whose};
use keep::{age, due, findings, settling, suspected};
use pitch::{Alteration, Letter};

use lived::{CHECKS, Lived, Wrong, name};
use written::{HARP, moment};

/// Years without faults in every run, and in a long one.
const YEARS: u64 = 2;
const LONG_YEARS: u64 = 10;
/// At most so many false findings in a harp's year.
const FALSE_A_YEAR: f64 = 1.0;

/// What was found in a year: each question once, with the day on which it was first asked.
struct Found {
    questions: BTreeMap<(StringName, &'static str), (Moment, Suspicion)>,
    mechanism: Vec<Finding>,
    last: HarpKnown,
}

fn kind(what: &Suspected) -> &'static str {
    match what {
        Suspected::PinSlips { .. } => "pin",
        Suspected::Wide { .. } => "wide",
        Suspected::Strays { .. } => "strays",
        Suspected::RingsShorter { .. } | Suspected::Softer { .. } => "dull",
        Suspected::StiffnessChanged { .. } => "stiffness",
        Suspected::OtherString { .. } => "other string",
        Suspected::OtherGauge { .. } => "gauge",
        Suspected::SettlesSlower { .. } => "slower",
    }
}

fn year(seed: u64, wrong: &[Wrong]) -> Found {
    let mut questions = BTreeMap::new();
    let mut last = None;
    let every = if long() { 7 } else { 14 };
    Lived::new(seed).live(wrong, every, |harp, diary, now| {
        let known = diary.known();
        let own = known.harp(HARP).unwrap();
        for suspicion in suspected(harp, own, now) {
            let key = (suspicion.string, kind(&suspicion.what));
            questions.entry(key).or_insert((now, suspicion));
        }
        last = Some(own.clone());
    });
    let last = last.unwrap();
    let visit = moment(CHECKS[0] + 7, 12.0);
    Found {
        questions,
        mechanism: findings(&last, Some(visit)),
        last,
    }
}

/// Years with faults in a long run.
const FAULTY_YEARS: usize = 10;
/// A fault must be asked about within so many days.
const WITHIN: f64 = 45.0;

/// Where the faults of a year are: a loose pin, a wrong string, a false one, one that settles slowly, a dull one, a disc.
const PLACES: [[&str; 6]; 5] = [
    ["4G", "3C", "3A", "4D", "3F", "2D"],
    ["6D", "5A", "2G", "3G", "5B", "4B"],
    ["2B", "3E", "5D", "2C", "4A", "3D"],
    ["3D", "4E", "6B", "5C", "2D", "5A"],
    ["4C", "2A", "4F", "3B", "5G", "1C"],
];

/// Strings that are put on twice and settle alike: no fault.
const NOT_WRONG: [Wrong; 3] = [
    Wrong::SlowString("4D", 180, 1.0),
    Wrong::SlowString("2G", 120, 1.0),
    Wrong::SlowString("6E", 250, 1.0),
];

/// What goes wrong with one string: the fault, its name, the day on which it begins, the questions that it may raise.
struct Fault {
    wrong: Wrong,
    string: &'static str,
    from: u32,
    raises: &'static [&'static str],
}

fn faults([pin, other, false_, slow, dull, _]: [&'static str; 6], stiff: f64) -> [Fault; 5] {
    let fault = |wrong, string, from, raises| Fault {
        wrong,
        string,
        from,
        raises,
    };
    [
        fault(Wrong::LoosePin(pin, 100, 6.0), pin, 100, &["pin"]),
        fault(
            Wrong::OtherString(other, 80, stiff),
            other,
            80,
            &["other string"],
        ),
        fault(
            Wrong::FalseString(false_, 250),
            false_,
            250,
            &["wide", "stiffness", "strays"],
        ),
        fault(
            Wrong::SlowString(slow, 180, 8.0),
            slow,
            180,
            &["slower", "pin"],
        ),
        fault(Wrong::DullString(dull, 290), dull, 290, &["dull"]),
    ]
}

#[test]
fn each_fault_of_a_faulty_year_is_found() {
    let years = if long() { FAULTY_YEARS } else { 1 };
    let (mut told, mut missed, mut beside) = (Vec::new(), Vec::new(), Vec::new());
    for at in 0..years {
        let places = PLACES[at % PLACES.len()];
        let faults = faults(places, if at % 2 == 0 { 0.5 } else { 2.0 });
        let mut wrong: Vec<Wrong> = faults.iter().map(|fault| fault.wrong).collect();
        wrong.extend([Wrong::Pedal(Letter::F, 8.0), Wrong::Disc(places[5], -12.0)]);
        let found = year(400 + at as u64, &wrong);
        for fault in &faults {
            match asked(&found, fault) {
                Some((kind, days)) => told.push(format!("{}: {kind} {days:.0}", fault.string)),
                None => missed.push(format!("{at} {:?}", fault.wrong)),
            }
        }
        let is_fault = |string| faults.iter().any(|fault| name(fault.string) == string);
        let others = found
            .questions
            .iter()
            .filter(|((string, _), _)| !is_fault(*string));
        beside.extend(others.map(|(_, (when, one))| format!("{at} {when}: {one:?}")));
        let (not_found, others) = mechanism(&found.mechanism, name(places[5]));
        missed.extend(not_found.iter().map(|what| format!("{at} {what}")));
        beside.extend(others.iter().map(|finding| format!("{at} {finding:?}")));
    }
    let all = format!(
        "{} found with the days it took: {told:?}; missed: {missed:#?}; beside them: {beside:#?}",
        told.len()
    );
    println!("{all}");
    // in one year each is found; of seventy in ten years three may be too small to be told from the weather
    let most = if long() { 3 } else { 0 };
    assert!(missed.len() <= most, "{all}");
    assert!(beside.len() as f64 <= FALSE_A_YEAR * years as f64, "{all}");
}

/// Which question a fault raised first, and after how many days.
fn asked(found: &Found, fault: &Fault) -> Option<(&'static str, f64)> {
    let own = found
        .questions
        .iter()
        .filter(|((string, kind), _)| *string == name(fault.string) && fault.raises.contains(kind));
    let (when, kind) = own.map(|(key, (when, _))| (*when, key.1)).min()?;
    let days = when.since_s(moment(fault.from, 0.0)) / 86_400.0;
    (0.0..WITHIN).contains(&days).then_some((kind, days))
}

/// What was not found of the pedal that was mended and the disc that was not, and what was found beside them.
fn mechanism(found: &[Finding], disc: StringName) -> (Vec<&'static str>, Vec<&Finding>) {
    let pedal = Whose::Pedal(Letter::F);
    let is_pedal = |f: &&Finding| f.whose == pedal && f.position == Alteration::Natural;
    let is_disc = |f: &&Finding| f.whose == Whose::Disc(disc) && f.position == Alteration::Sharp;
    let mut missed = Vec::new();
    let near = |cents: f64, truth: f64| (cents - truth).abs() < 3.0;
    let mended = found.iter().find(is_pedal).is_some_and(|f| {
        let after = f.after_cents.is_some_and(|after| near(after, 0.0));
        f.mended == Mended::Mended && near(f.cents, 8.0) && after
    });
    if !mended {
        missed.push("the pedal, mended");
    }
    // its own error of up to two cents lies under the twelve
    let still = found.iter().find(is_disc);
    if !still.is_some_and(|f| f.mended == Mended::Still && (f.cents + 12.0).abs() < 5.0) {
        missed.push("the disc, still out");
    }
    // the pedal takes away from sharp what it adds to natural, and discs of its letter may stand beside it
    let of_f = |f: &&Finding| match f.whose {
        Whose::Pedal(letter) => letter == Letter::F,
        Whose::Disc(string) | Whose::Lever(string) => string.letter == Letter::F,
    };
    let others = found.iter().filter(|f| !of_f(f) && !is_disc(f));
    (missed, others.collect())
}

#[test]
fn hardly_anything_is_found_in_years_without_faults() {
    let years = if long() { LONG_YEARS } else { YEARS };
    let mut all = Vec::new();
    for seed in 600..600 + years {
        let found = year(seed, &NOT_WRONG);
        let questions = found.questions.into_iter();
        all.extend(questions.map(|(key, (when, one))| format!("{seed} {key:?} {when}: {one:?}")));
        let mechanism = found.mechanism.into_iter();
        all.extend(mechanism.map(|finding| format!("{seed} {finding:?}")));
    }
    println!("{} false findings in {years} years: {all:#?}", all.len());
    let a_year = all.len() as f64 / years as f64;
    assert!(
        a_year <= FALSE_A_YEAR,
        "{} in {years} years: {all:#?}",
        all.len()
    );
}

fn long() -> bool {
    std::env::var("SEVENFLATS_LONG").is_ok()
}

#[test]
fn new_strings_settle_and_the_top_is_due_after_a_year() {
    let found = year(11, &[]);
    let known = &found.last;
    let harp = harp::Harp::named("pedal47").unwrap();
    let end = moment(364, 20.0);
    let top: Vec<StringName> = harp
        .strings()
        .iter()
        .rev()
        .take(9)
        .map(|s| s.name)
        .collect();
    let told = settling(&harp, known, end);
    let settled = top.iter().filter(
        |string| matches!(told[*string], Settling::Settled { after_days } if after_days < 60.0),
    );
    let settled = settled.count();
    assert!(settled >= 8, "{settled} of 9 settled");
    for string in &top {
        let Age::Days(days) = age(&known.strings[string], end) else {
            panic!("{string}: the day it was put on is known");
        };
        assert!(days < 145.5, "{string}: {days}");
    }
    let intervals = Intervals::of(Use::Professional);
    let later = moment(220 + 366, 20.0);
    let due = due(&harp, known, later, &intervals);
    let of = |string| due.iter().find(|d| d.string == string).unwrap().state;
    // but for one that broke meanwhile
    let old = top
        .iter()
        .filter(|string| of(**string) == State::Due)
        .count();
    assert!(old >= 7, "{old} of 9 due");
}
