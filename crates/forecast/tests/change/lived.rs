//! An invented harp, said so, whose strings fall back by a known share of what they are turned up.

use diary::{HarpKnown, Moment, Point, StringKnown};
use harp::{Harp, Setup};
use pitch::ReferencePitch;

use crate::draws::Draws;

/// How it truly falls back.
#[derive(Clone, Copy)]
pub(crate) struct Truth {
    /// Of gut and nylon, by the first time it is found.
    pub(crate) others: f64,
    /// Of wires.
    pub(crate) wires: f64,
    /// What comes after that, of all.
    pub(crate) later: f64,
}

pub(crate) fn nothing_known(harp: &Harp) -> HarpKnown {
    HarpKnown {
        harp: "an invented harp".to_owned(),
        toml: None,
        strings: harp
            .strings()
            .iter()
            .map(|s| (s.name, StringKnown::default()))
            .collect(),
        pedals: Vec::new(),
        checks: Vec::new(),
        a4_hz: None,
        visits: Vec::new(),
        rounds: 0,
    }
}

pub(crate) fn begin() -> Moment {
    Moment::of_unix_s(1.7e9)
}

/// So many rounds a day apart, at 440 Hz: strings that are more than 3 cents out are turned.
pub(crate) fn rounds(harp: &Harp, truth: Truth, rounds: usize, seed: u64) -> HarpKnown {
    let mut draws = Draws::new(seed);
    let mut known = nothing_known(harp);
    let standing = harp.standing(&Setup::open(ReferencePitch::A440)).unwrap();
    // off, what comes by the next time, what comes after that
    let mut strings = vec![(0.0f64, 0.0f64, 0.0f64); standing.len()];
    for round in 0..rounds {
        let when = begin().plus_s(86_400.0 * round as f64);
        let all = 0.8 * draws.normal();
        for ((off, soon, later), (stands, string)) in
            strings.iter_mut().zip(standing.iter().zip(harp.strings()))
        {
            *off += all + 1.8 * draws.normal() - *soon;
            (*soon, *later) = (*later, 0.0);
            let history = &mut known.strings.get_mut(&string.name).unwrap().history;
            let mut write = |when: Moment, off: f64, found: bool, left: bool| {
                history.push(Point {
                    when,
                    heard_hz: pitch::raise(stands.target_hz, off),
                    target_hz: stands.target_hz,
                    off_cents: off,
                    u95_cents: 0.6,
                    b: None,
                    t60_s: None,
                    level_dbfs: None,
                    raised: 0,
                    found,
                    left,
                    string: 0,
                });
            };
            let out = off.abs() > 3.0;
            let read = *off + 0.3 * draws.normal();
            write(when, read, true, !out);
            if out {
                let left = 0.5 * draws.normal();
                let turned = left - *off;
                let share = if string.wire {
                    truth.wires
                } else {
                    truth.others
                };
                // only what goes up falls back
                (*soon, *later) = if turned > 0.0 {
                    (share * turned, truth.later * turned)
                } else {
                    (0.0, 0.0)
                };
                *off = left;
                write(when.plus_s(5.0), left + 0.3 * draws.normal(), false, true);
            }
            let own = known.strings.get_mut(&string.name).unwrap();
            own.last = own.history.last().copied();
        }
        known.rounds += 1;
    }
    known.a4_hz = Some((begin(), 440.0));
    known
}
