//! Tables: a row is an event, a bar, and what must be said of it.
//!
//! After the bar stand pieces of the sentences, each between semicolons: every one must be said; one after `not` must
//! not; `nothing` means that nothing is said. Strings are written as harpists count them.

use harp::{Harp, Setup, Standing, StringName};
use pitch::{ReferencePitch, Tongue, cents, raise};
use tuning::round::{Act, Event, Moving, Names, Plan, Round, Say, Then, sentence};
use tuning::{Direction, Heard, Reading, Reason, Refused};

/// Seconds from one pluck to the next, and between two live values.
const PLUCK_S: f64 = 8.0;
const LIVE_S: f64 = 0.5;

pub(crate) fn plan(harp: &str) -> Plan {
    let harp = Harp::named(harp).unwrap();
    Plan::of(&harp, &Setup::open(ReferencePitch::A440)).unwrap()
}

pub(crate) fn name(text: &str) -> StringName {
    text.parse().unwrap_or_else(|_| panic!("no string: {text}"))
}

/// Runs a table on a round of this plan.
#[track_caller]
pub(crate) fn check(plan: Plan, table: &str) -> Round {
    let mut round = Round::new(plan);
    let (mut at_s, mut rows) = (0.0, 0);
    for row in table.lines().map(str::trim).filter(|row| !row.is_empty()) {
        let (event, expected) = row
            .split_once('|')
            .unwrap_or_else(|| panic!("no bar: {row}"));
        let words: Vec<&str> = event.split_whitespace().collect();
        if let ["wait", seconds] = words.as_slice() {
            at_s += seconds.parse::<f64>().unwrap();
            continue;
        }
        at_s += if words[0] == "move" { LIVE_S } else { PLUCK_S };
        let said = round.step(&event_of(&round, at_s, &words));
        check_row(row, expected, &said);
        rows += 1;
    }
    assert!(rows > 0, "an empty table checks nothing");
    round
}

#[track_caller]
fn check_row(row: &str, expected: &str, said: &[Say]) {
    let sentences: Vec<String> = said.iter().map(words).collect();
    let all = sentences.join(" / ");
    for piece in expected.split(';').map(str::trim).filter(|p| !p.is_empty()) {
        match piece.strip_prefix("not ") {
            _ if piece == "nothing" => assert!(said.is_empty(), "{row}\nsaid: {all}"),
            Some(piece) => assert!(!all.contains(piece), "{row}\nsaid: {all}"),
            None => assert!(all.contains(piece), "{row}\nsaid: {all}"),
        }
    }
}

pub(crate) fn words(say: &Say) -> String {
    let names = Names {
        string: &|s| s.harp_number(),
        letter: &|l| l.to_string(),
        pitch: &|p| p.pretty(),
    };
    sentence(say, &names, Tongue::English)
}

/// Reads an event: `pluck 4G -20`, `pluck 4G -20 ±6`, `move 4G -12`, `this 4G`, `broke 3A new`…
fn event_of(round: &Round, at_s: f64, words: &[&str]) -> Event {
    let act = |act| Event::Act { at_s, act };
    let number = |text: &str| -> f64 { text.trim_start_matches(['+', '±']).parse().unwrap() };
    match *words {
        ["pluck", string, off] => pluck(round, at_s, name(string), number(off), 0.8),
        ["pluck", string, off, u95] => pluck(round, at_s, name(string), number(off), number(u95)),
        ["octave", string, off] => {
            let hz = raise(target(round, name(string)), 1200.0 + number(off));
            Event::Heard(Heard::Reading(
                ear(round, at_s, hz, 0.8).expect("an octave"),
            ))
        }
        ["move", string, off] => Event::Moving(Moving {
            at_s,
            string: name(string),
            hz: raise(target(round, name(string)), number(off)),
            u95_cents: 1.5,
        }),
        ["noise"] => Event::Heard(Heard::Refused(Refused {
            at_s,
            string: None,
            reason: Reason::TooNoisy,
            detail: String::new(),
        })),
        ["order", ref strings @ ..] => Event::Order {
            at_s,
            strings: strings.iter().map(|string| name(string)).collect(),
        },
        ["begin"] => act(Act::Begin),
        ["this", string] => act(Act::ThisOne(name(string))),
        ["let-go"] => act(Act::LetGo),
        ["skip", string] => act(Act::Skip(name(string))),
        ["broke", string, "without"] => act(Act::Broke(name(string), Then::PlayWithout)),
        ["broke", string, "new"] => act(Act::Broke(name(string), Then::FittedNow)),
        ["next"] => act(Act::Next),
        ["again", string] => act(Act::Again(name(string))),
        ["undo", string] => act(Act::NotInTune(name(string))),
        ["by-ear", string] => act(Act::InTuneByEar(name(string))),
        ["pause"] => act(Act::Pause),
        ["resume"] => act(Act::Resume),
        ["set", string, to] => act(Act::SetTo(name(string), to.parse().unwrap())),
        ["between-pieces"] => act(Act::BetweenPieces),
        ["on-purpose", string] => act(Act::MovedOnPurpose(name(string))),
        ["as-said", letter] => act(Act::AsSaid(
            pitch::Letter::from_char(letter.chars().next().unwrap()).unwrap(),
        )),
        ["use", a4_hz] => act(Act::UseA {
            a4_hz: number(a4_hz),
            technician_asked: false,
        }),
        ["use", a4_hz, "asked"] => act(Act::UseA {
            a4_hz: number(a4_hz),
            technician_asked: true,
        }),
        ["finish"] => act(Act::Finish),
        _ => panic!("no event: {words:?}"),
    }
}

pub(crate) fn target(round: &Round, string: StringName) -> f64 {
    standing(round, string).target_hz
}

fn standing(round: &Round, string: StringName) -> Standing {
    let all = &round.plan().strings;
    all.iter()
        .map(|s| s.standing)
        .find(|s| s.string == string)
        .expect("a string of the plan")
}

pub(crate) fn pluck(round: &Round, at_s: f64, string: StringName, off: f64, u95: f64) -> Event {
    let hz = raise(target(round, string), off);
    Event::Heard(match ear(round, at_s, hz, u95) {
        Some(reading) => Heard::Reading(reading),
        // an ear that knows no string so far from any: guided by the string that was named, as the real one
        None => Heard::Reading(reading(standing(round, string), at_s, hz, u95)),
    })
}

/// What an ear without memory says of a frequency: the nearest string, every other within 112 cents that would not have
/// to be a semitone off, no name where two are as near.
pub(crate) fn ear(round: &Round, at_s: f64, hz: f64, u95: f64) -> Option<Reading> {
    let mut near: Vec<(f64, Standing)> = (round.plan().strings.iter())
        .map(|s| (cents(s.standing.target_hz, hz).abs(), s.standing))
        .filter(|(off, _)| *off <= 112.0)
        .collect();
    near.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (best, string) = near.first().copied()?;
    near.retain(|(off, s)| s.string == string.string || *off <= 96.0 + u95);
    let shared = near.get(1).is_some_and(|(off, _)| off - best < 20.0);
    let mut reading = reading(string, at_s, hz, u95);
    reading.candidates = near.iter().map(|(_, s)| s.string).collect();
    if near.len() > 1 {
        reading.direction = None;
    }
    if shared {
        reading.string = None;
        reading.string_certainty = 0.49;
    }
    Some(reading)
}

pub(crate) fn reading(standing: Standing, at_s: f64, hz: f64, u95: f64) -> Reading {
    let off = cents(standing.target_hz, hz);
    let direction = if off.abs() <= u95 {
        Direction::There
    } else if off < 0.0 {
        Direction::Up
    } else {
        Direction::Down
    };
    Reading {
        last: true,
        at_s,
        string: Some(standing.string),
        candidates: vec![standing.string],
        position: Some(standing.alteration),
        target_hz: standing.target_hz,
        heard_hz: hz,
        off_cents: off,
        u95_cents: u95,
        shows_as: String::new(),
        shows_off_cents: 0.0,
        f1_hz: hz,
        f1_u95_cents: u95,
        f0_hz: hz,
        b: 1e-4,
        glide_cents: 0.5,
        partials: Vec::new(),
        listened_s: 0.6,
        string_certainty: 0.98,
        direction: Some(direction),
        stiffness_cents: 0.0,
        t60_s: None,
        level_dbfs: None,
    }
}
