//! What may be wrong with a string: always a question, with what it rests on.
//!
//! Nothing here knows what strings are like as a rule. Each is held against its own past, the past of its place, and its
//! neighbours over the same time; what moves them all alike is the air, the room or the microphone.
//!
//! What cannot be told: a string of a neighbouring gauge, for its stiffness differs by less than strings of one gauge do;
//! and a string that was always false or dull, for it has no better past.

mod duller;
mod pin;
mod slower;
mod stiffness;
mod unsteady;

use diary::{HarpKnown, Moment, StringKnown};
use harp::{Field, Harp, HarpString, StringName};

use crate::moves::{Excess, Moves};

/// A question about a string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suspicion {
    /// The string.
    pub string: StringName,
    /// What may be wrong.
    pub what: Suspected,
    /// The first of the readings that it rests on.
    pub since: Moment,
}

/// What may be wrong with a string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Suspected {
    /// It sinks again and again after being left, more than its neighbours over the same time: does its pin slip?
    PinSlips {
        /// How far each time, beyond its neighbours, cents, below nought.
        cents: f64,
        /// Half of the 95 % interval.
        u95_cents: f64,
        /// How many times it sank.
        times: usize,
        /// Out of how many.
        of: usize,
        /// What its neighbours did over the same times, cents.
        neighbours_cents: f64,
    },
    /// Its readings are so many times as wide as they were, and its neighbours' are not: is it false?
    Wide {
        /// How many times.
        times: f64,
    },
    /// Its pitch strays, up and down, so many times as far as it did: is it false?
    Strays {
        /// How many times.
        times: f64,
    },
    /// It rings so many times as long as it did, and its neighbours as long as ever: is it worn, or false?
    RingsShorter {
        /// How many times, below one.
        times: f64,
    },
    /// It sounds softer by so many decibels than it did, and its neighbours do not: is it worn, or false?
    Softer {
        /// By how many decibels.
        db: f64,
    },
    /// Its stiffness is so many times what it was, though no other string was put on: is it false?
    StiffnessChanged {
        /// How many times.
        times: f64,
        /// The 95 % interval, as a factor either way.
        u95_factor: f64,
    },
    /// Its stiffness is so many times that of the string before it: is it of the wrong gauge, or of another octave?
    OtherString {
        /// How many times.
        times: f64,
        /// The 95 % interval, as a factor either way.
        u95_factor: f64,
        /// How many readings of it that rests on.
        readings: usize,
    },
    /// What was written of it and what the harp's file says are two gauges.
    OtherGauge {
        /// As it was written when it was put on, millimetres.
        written_mm: f64,
        /// As the harp's file says, millimetres.
        harp_mm: f64,
    },
    /// It still moves when the string before it had settled for long.
    SettlesSlower {
        /// Days that it has been on.
        days: f64,
        /// Days after which the string before it was settled.
        before_days: f64,
        /// How fast it moves, cents a day.
        cents_per_day: f64,
        /// Half of the 95 % interval.
        u95_cents: f64,
    },
}

/// All that may be wrong with the strings of a harp at a moment, from the bass.
pub fn suspected(harp: &Harp, known: &HarpKnown, now: Moment) -> Vec<Suspicion> {
    let moves = Moves::of(harp, known, now);
    let mut all = Vec::new();
    for string in harp.strings() {
        let Some(own) = known.strings.get(&string.name) else {
            continue;
        };
        if own.stands != diary::Stands::On {
            continue;
        }
        let asked = Asked {
            known,
            moves: &moves,
            string: string.name,
            own,
            now,
        };
        let slower = asked.settles_slower();
        let pin = if slower.is_some() {
            None
        } else {
            asked.pin_slips()
        };
        // a string that sinks strays too: that is one question
        let strays = if slower.is_some() || pin.is_some() {
            None
        } else {
            asked.strays()
        };
        let questions = [
            slower,
            pin,
            strays,
            asked.wide(),
            asked.duller(),
            asked.stiffness_changed(),
            asked.other_string(harp),
            other_gauge(harp, string, own),
        ];
        all.extend(
            questions
                .into_iter()
                .flatten()
                .map(|(what, since)| Suspicion {
                    string: string.name,
                    what,
                    since,
                }),
        );
    }
    all
}

/// A string that is asked about.
struct Asked<'a> {
    known: &'a HarpKnown,
    moves: &'a Moves,
    string: StringName,
    own: &'a StringKnown,
    now: Moment,
}

type Question = Option<(Suspected, Moment)>;

/// Days after which a string has settled: a younger one sinks because it is new.
const SETTLED: f64 = 28.0;

impl Asked<'_> {
    fn days_ago(&self, when: Moment) -> f64 {
        self.now.since_s(when) / crate::DAY_S
    }

    /// The moves of the string that is on, since it settled.
    fn settled_moves(&self) -> Vec<&Excess> {
        let moves = self.moves.of_string(self.string).iter();
        let own = moves.filter(|one| one.string == self.own.fittings);
        own.filter(|one| one.age.is_none_or(|days| days >= SETTLED))
            .collect()
    }

    fn neighbours(&self) -> impl Iterator<Item = &StringKnown> {
        let names = self.moves.neighbours(self.string).iter();
        names.filter_map(|name| self.known.strings.get(name))
    }
}

/// A gauge that was written beside the string and is another than the harp's, by more than packets are rounded.
fn other_gauge(harp: &Harp, string: &HarpString, own: &StringKnown) -> Question {
    const SAME: f64 = 0.04;
    let fitted = own.fitted.as_ref()?;
    let figures = harp.figures(string);
    let written_mm = fitted.gauge_mm.filter(|mm| *mm > 0.0)?;
    let harp_mm = figures.get(Field::GaugeMm).filter(|mm| *mm > 0.0)?;
    let other_material = fitted
        .material
        .zip(figures.material)
        .is_some_and(|(own, its)| own != its);
    let differs = (written_mm / harp_mm).ln().abs() > SAME && !other_material;
    let what = Suspected::OtherGauge {
        written_mm,
        harp_mm,
    };
    differs.then_some((what, fitted.when))
}
