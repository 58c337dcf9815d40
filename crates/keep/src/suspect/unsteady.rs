//! A false string: its readings have grown wide, or its pitch strays both ways, as they did not before.

use diary::{Moment, StringKnown};

use super::{Asked, Question, SETTLED, Suspected};
use crate::DAY_S;
use crate::spread::Spread;

/// The last readings that are looked at, none older than so many days, and how many there must be before them.
const LAST: usize = 10;
const RECENT: f64 = 30.0;
const PAST: usize = 20;
/// No more than so many readings are asked.
const MOST: usize = 400;
/// Readings must be so many times as wide, beyond what the neighbours' have grown, and by so many standard errors.
const WIDER: f64 = 1.8;
const SURE: f64 = 5.0;
/// The last moves that are looked at, and how many times as far they must stray.
const MOVES: usize = 14;
const FARTHER: f64 = 4.0;

impl Asked<'_> {
    pub(super) fn wide(&self) -> Question {
        let own = widths(self.own);
        let (past, last) = own.split_at_checked(own.len().checked_sub(LAST)?)?;
        let first = last.first()?.0;
        if past.len() < PAST || self.days_ago(first) > RECENT {
            return None;
        }
        let before = Spread::of(past.iter().map(|one| one.1))?;
        let now = Spread::of(last.iter().map(|one| one.1))?;
        let grown = now.middle - before.middle;
        let error = now.error(before.sd.max(0.1)).hypot(before.error(0.1));
        let others = Spread::of(self.neighbours().filter_map(|string| {
            let (past, last): (Vec<_>, Vec<_>) =
                widths(string).into_iter().partition(|one| one.0 < first);
            let middle = |all: Vec<(Moment, f64)>| Spread::of(all.into_iter().map(|one| one.1));
            Some(middle(last)?.middle - middle(past)?.middle)
        }));
        let grown = grown - others.map_or(0.0, |others| others.middle.max(0.0));
        let is_wide = grown > WIDER.ln() && grown > SURE * error;
        let what = Suspected::Wide { times: grown.exp() };
        is_wide.then_some((what, first))
    }

    pub(super) fn strays(&self) -> Question {
        let all = self.settled_moves();
        let (past, last) = all.split_at_checked(all.len().checked_sub(MOVES)?)?;
        let first = last.first()?.from;
        if past.len() < PAST || self.days_ago(first) > RECENT {
            return None;
        }
        let before = Spread::of(past.iter().map(|one| one.cents))?;
        let now = Spread::of(last.iter().map(|one| one.cents))?;
        let times = now.sd / before.sd.max(0.3);
        (times > FARTHER).then_some((Suspected::Strays { times }, first))
    }
}

/// The last logarithms of how wide the readings of the string were, in order; where it was not turned one reading stands
/// for found and left.
fn widths(string: &StringKnown) -> Vec<(Moment, f64)> {
    let fitted = string.fitted.as_ref().map(|fitted| fitted.when);
    // of a string that sinks while it is new the readings are wider
    let settled = |when: Moment| fitted.is_none_or(|fitted| when.since_s(fitted) > SETTLED * DAY_S);
    let all = string.history.iter().rev();
    let own = all.filter(|point| point.string == string.fittings && settled(point.when));
    let wide = own.filter(|point| point.u95_cents > 0.0 && point.u95_cents.is_finite());
    let wide = wide.map(|point| (point.when, point.u95_cents.ln()));
    let mut wide: Vec<_> = wide.take(MOST).collect();
    wide.reverse();
    wide
}
