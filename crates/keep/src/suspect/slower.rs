//! A string that settles slower than the one before it in the same place.

use super::{Asked, Question, Suspected};
use crate::Age;
use crate::age::age;
use crate::moves::Excess;
use crate::settling::{Settling, of_fitting, speed};

/// It is asked about when it has been on for so many times as long, and so many days longer at least; after so many days
/// it is no longer new.
const TIMES: f64 = 2.0;
const LONGER: f64 = 7.0;
const NEW: f64 = 90.0;
/// The last of its moves since the age at which the one before it had settled, and how many there must be.
const LAST: usize = 14;
const LEAST: usize = 6;
/// It must still sink by more than this beyond its interval, cents a day.
const SINKS: f64 = 1.0;

impl Asked<'_> {
    pub(super) fn settles_slower(&self) -> Question {
        let Age::Days(days) = age(self.own, self.now) else {
            return None;
        };
        let fitting = self.own.fittings;
        let before = fitting.checked_sub(1).filter(|before| *before > 0)?;
        let Settling::Settled { after_days } = of_fitting(self.moves, self.string, before) else {
            return None;
        };
        let late =
            |one: &&Excess| one.string == fitting && one.age.is_some_and(|age| age >= after_days);
        let all = self.moves.of_string(self.string).iter();
        let late: Vec<&Excess> = all.filter(late).collect();
        let last = late.get(late.len().saturating_sub(LAST)..)?;
        if last.len() < LEAST || days > NEW || days < (TIMES * after_days).max(after_days + LONGER)
        {
            return None;
        }
        let kind = self.moves.of_kind(self.string);
        let (cents_per_day, u95_cents) = speed(last, kind);
        let what = Suspected::SettlesSlower {
            days,
            before_days: after_days,
            cents_per_day,
            u95_cents,
        };
        let sinks = -cents_per_day - u95_cents > SINKS;
        let fitted = self.own.fitted.as_ref()?.when;
        sinks.then_some((what, fitted))
    }
}
