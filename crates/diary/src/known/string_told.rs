//! What one string is told, and what is known of it then.

use super::{FaultKnown, FittedKnown, Point, Stands, StringKnown};
use crate::{Fault, Moment};

/// Hours within which two records of a string that was put on are of the same one: the round, and what she wrote after it.
const SAME_H: f64 = 24.0;

impl StringKnown {
    /// A reading; one from before the string was put on is of the string before it.
    pub(super) fn heard(&mut self, mut point: Point) {
        let fitted = self.fitted.as_ref().map(|fitted| fitted.when);
        let own = fitted.is_none_or(|fitted| point.when >= fitted);
        point.string = self.fittings - u32::from(!own && self.fittings > 0);
        self.history.push(point);
        if !own {
            return;
        }
        if self.last.is_none_or(|last| last.when <= point.when) {
            self.last = Some(point);
        }
        let hz = point.open_hz();
        if hz.is_finite() && self.highest_hz.is_none_or(|highest| highest < hz) {
            self.highest_hz = Some(hz);
        }
    }

    pub(super) fn in_tune(&mut self, when: Moment) {
        let fitted = self.fitted.as_ref().map(|fitted| fitted.when);
        if fitted.is_none_or(|fitted| when >= fitted) {
            self.in_tune = self.in_tune.max(Some(when));
        }
    }

    /// Another string was put on by a round, which knows nothing else of it.
    pub(super) fn fitted_in_round(&mut self, when: Moment) {
        if self.stands == Stands::On {
            self.breaks.push(when);
        }
        self.put_on(FittedKnown {
            when,
            used: false,
            material: None,
            gauge_mm: None,
            by: String::new(),
        });
    }

    /// Another string was put on. Of one that was put on within a day before or after, and of which no more is known yet, it
    /// says the rest.
    pub(super) fn fitted(&mut self, fitted: FittedKnown) {
        if let Some(own) = &mut self.fitted {
            let bare = own.material.is_none() && own.gauge_mm.is_none() && own.by.is_empty();
            let hours = fitted.when.since_s(own.when).abs() / 3600.0;
            if bare && hours <= SAME_H && self.stands == Stands::On {
                let when = own.when;
                *own = FittedKnown { when, ..fitted };
                return;
            }
        }
        self.put_on(fitted);
    }

    fn put_on(&mut self, fitted: FittedKnown) {
        self.fitted = Some(fitted);
        self.fittings += 1;
        self.stands = Stands::On;
        self.last = None;
        self.in_tune = None;
        self.highest_hz = None;
    }

    pub(super) fn broke(&mut self, when: Moment) {
        if self.stands != Stands::Broken {
            self.breaks.push(when);
        }
        self.gone(Stands::Broken);
    }

    pub(super) fn removed(&mut self) {
        if self.stands == Stands::On {
            self.gone(Stands::Off);
        }
    }

    fn gone(&mut self, stands: Stands) {
        self.stands = stands;
        self.in_tune = None;
    }
}

/// The last word on a part: what it does since when, or nothing where it is mended.
pub(super) fn fault(faults: &mut Vec<FaultKnown>, told: &Fault, when: Moment) {
    let known = faults.iter_mut().find(|fault| fault.part == told.part);
    match (known, told.does) {
        (Some(known), Some(does)) => {
            known.does = does;
            told.note.clone_into(&mut known.note);
        }
        (None, Some(does)) => faults.push(FaultKnown {
            part: told.part.clone(),
            does,
            since: when,
            note: told.note.clone(),
        }),
        (_, None) => faults.retain(|fault| fault.part != told.part),
    }
}
