//! A new string climbs, sinks and settles: watched by its own moves against its neighbours', with what they are worth.
//!
//! Common practice: tuned several times a day at first; it holds after a few days, gut and nylon later than wire. How soon
//! it is settled here is told by itself. In measurements of nylon and gut 'settled' took weeks (Lynch-Aird & Woodhouse,
//! Materials 11 (2018) 2160, §3.1); what a player calls so comes earlier.

use std::collections::BTreeMap;

use diary::{HarpKnown, Moment};
use harp::{Harp, StringName};

use crate::DAY_S;
use crate::moves::{Excess, Moves};

/// A string that moves by no more than this against its neighbours holds, cents a day: our proposal, as wide as what is
/// called in tune.
pub const STEADY_CENTS_PER_DAY: f64 = 3.0;
/// So many moves in a row say whether it does.
const IN_A_ROW: usize = 6;

/// How a new string settles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Settling {
    /// When it was put on new is not known.
    NotNew,
    /// It was left and found again too few times to say.
    TooFew {
        /// How many times so far.
        moves: usize,
    },
    /// It still moves, or may.
    Moving {
        /// How fast of late, cents a day; down is below nought.
        cents_per_day: f64,
        /// Half of the 95 % interval.
        u95_cents: f64,
    },
    /// It holds.
    Settled {
        /// Days after which it was seen to.
        after_days: f64,
    },
}

/// How each string of a harp settles.
pub fn settling(harp: &Harp, known: &HarpKnown, now: Moment) -> BTreeMap<StringName, Settling> {
    let moves = Moves::of(harp, known, now);
    let strings = harp.strings().iter().map(|string| string.name);
    strings
        .map(|name| (name, of(known, &moves, name)))
        .collect()
}

fn of(known: &HarpKnown, moves: &Moves, string: StringName) -> Settling {
    let own = known.strings.get(&string);
    let is_new = own
        .and_then(|own| own.fitted.as_ref())
        .is_some_and(|f| !f.used);
    let (Some(own), true) = (own, is_new) else {
        return Settling::NotNew;
    };
    of_fitting(moves, string, own.fittings)
}

/// The same of the string that was put on as the so-manieth.
pub(crate) fn of_fitting(moves: &Moves, string: StringName, fitting: u32) -> Settling {
    let all = moves.of_string(string).iter();
    let own: Vec<&Excess> = all.filter(|one| one.string == fitting).collect();
    let kind = moves.of_kind(string);
    let Some(last) = own.windows(IN_A_ROW).next_back() else {
        return Settling::TooFew { moves: own.len() };
    };
    let steady = own.windows(IN_A_ROW).find(|row| {
        let (cents, u95) = speed(row, kind);
        cents.abs() + u95 <= STEADY_CENTS_PER_DAY
    });
    let days = steady.and_then(|row| {
        let last = row.last()?;
        Some(last.age? + last.to.since_s(last.from) / DAY_S)
    });
    match days {
        Some(after_days) => Settling::Settled { after_days },
        None => {
            let (cents_per_day, u95_cents) = speed(last, kind);
            Settling::Moving {
                cents_per_day,
                u95_cents,
            }
        }
    }
}

/// How fast a string moved over some moves, cents a day, and half of its 95 % interval: what its readings are worth, and
/// what strings of its kind stray when they are settled.
pub(crate) fn speed(row: &[&Excess], kind: f64) -> (f64, f64) {
    let days: f64 = row.iter().map(|one| one.days()).sum();
    let cents: f64 = row.iter().map(|one| one.cents).sum();
    let squares: f64 = row.iter().map(|one| one.sd.powi(2).max(kind.powi(2))).sum();
    (cents / days, 1.96 * squares.sqrt() / days)
}
