//! A pin that slips: the string sinks again and again, more than its neighbours.

use super::{Asked, Question, Suspected};
use crate::moves::Excess;
use crate::spread::Spread;

/// The last times that are looked at, so many of them at least, none older than so many days.
const LAST: usize = 10;
const LEAST: usize = 6;
const RECENT: f64 = 21.0;
/// It must sink by so much in the middle, cents: less is nothing to see to.
const SINKS: f64 = 2.5;
/// Of ten times it must have sunk eight.
const OFTEN: f64 = 0.8;
/// It must sink by so many standard errors: forty-seven strings are looked at every day for years.
const SURE: f64 = 4.0;

impl Asked<'_> {
    pub(super) fn pin_slips(&self) -> Question {
        let all = self.settled_moves();
        let (past, last) = all.split_at(all.len().saturating_sub(LAST));
        let last: Vec<&&Excess> = last
            .iter()
            .filter(|one| self.days_ago(one.to) <= RECENT)
            .collect();
        let first = last.first()?;
        let now = Spread::of(last.iter().map(|one| one.cents))?;
        // how far it strays by itself: its own past where that is long enough, else the strings of its kind
        let before = Spread::of(past.iter().map(|one| one.cents)).filter(|s| s.count >= 12);
        let strays = before.map_or(self.moves.of_kind(self.string), |spread| spread.sd);
        let reading = Spread::of(last.iter().map(|one| one.sd))?.middle;
        let error = now.error(strays.max(reading));
        let sank = last.iter().filter(|one| one.cents < 0.0).count();
        let sinks = now.count >= LEAST
            && now.middle <= -SINKS
            && -now.middle >= SURE * error
            && sank as f64 >= OFTEN * now.count as f64;
        let what = Suspected::PinSlips {
            cents: now.middle,
            u95_cents: 1.96 * error,
            times: sank,
            of: now.count,
            neighbours_cents: Spread::of(last.iter().map(|one| one.neighbours_cents))?.middle,
        };
        sinks.then_some((what, first.from))
    }
}
