//! A string that has grown dull: it dies away sooner than it did, or sounds softer, and its neighbours do not.

use diary::{Moment, Point, StringKnown};

use super::{Asked, Question, Suspected};
use crate::spread::Spread;

/// The last readings, none older than so many days, and how many there must be before them.
const LAST: usize = 10;
const RECENT: f64 = 30.0;
const PAST: usize = 20;
/// No more than so many readings are asked.
const MOST: usize = 400;
/// It must ring less than so much of its time, or sound softer by so many decibels (our proposals), by so many standard
/// errors.
const SHORTER: f64 = 0.65;
const SOFTER_DB: f64 = 6.0;
const SURE: f64 = 5.0;
/// Readings of either are never surer than this: a logarithm, decibels.
const LEAST: f64 = 0.1;
const LEAST_DB: f64 = 1.5;

impl Asked<'_> {
    pub(super) fn duller(&self) -> Question {
        let shorter = self.falls(|point| point.t60_s.map(f64::ln), LEAST);
        let shorter = shorter.filter(|(change, _)| *change < SHORTER.ln());
        if let Some((change, since)) = shorter {
            let times = change.exp();
            return Some((Suspected::RingsShorter { times }, since));
        }
        let softer = self.falls(|point| point.level_dbfs, LEAST_DB);
        let (db, since) = softer.filter(|(db, _)| *db < -SOFTER_DB)?;
        Some((Suspected::Softer { db: -db }, since))
    }

    /// By how much something of the string changed, beyond what changed for its neighbours, where it surely fell.
    fn falls(&self, of: impl Fn(&Point) -> Option<f64>, least: f64) -> Option<(f64, Moment)> {
        let own = read(self.own, &of);
        let (past, last) = own.split_at_checked(own.len().checked_sub(LAST)?)?;
        let since = last.first()?.0;
        if past.len() < PAST || self.days_ago(since) > RECENT {
            return None;
        }
        let before = middle(past)?;
        let now = middle(last)?;
        let error = now.error(before.sd.max(least)).hypot(before.error(least));
        // another room, another place of the microphone, another hand: all of them change
        let others = Spread::of(self.neighbours().filter_map(|string| {
            let (past, last): (Vec<_>, Vec<_>) =
                read(string, &of).into_iter().partition(|one| one.0 < since);
            Some(middle(&last)?.middle - middle(&past)?.middle)
        }))?;
        let change = now.middle - before.middle - others.middle;
        (-change > SURE * error).then_some((change, since))
    }
}

fn middle(read: &[(Moment, f64)]) -> Option<Spread> {
    Spread::of(read.iter().map(|one| one.1))
}

/// The last readings of the string that is on, in order.
fn read(string: &StringKnown, of: impl Fn(&Point) -> Option<f64>) -> Vec<(Moment, f64)> {
    let own = string
        .history
        .iter()
        .rev()
        .filter(|point| point.string == string.fittings);
    let read = own.filter_map(|point| Some((point.when, of(point)?)));
    let finite = read.filter(|(_, figure)| figure.is_finite());
    let mut read: Vec<_> = finite.take(MOST).collect();
    read.reverse();
    read
}
