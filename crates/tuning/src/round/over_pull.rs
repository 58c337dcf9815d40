//! Over-pull: a rising string is stopped before it breaks. A string merely found high is a question, not this.

use harp::StringName;

use super::{Limit, Round, Say, Warning};

/// Cents above the target beyond which no rising string goes.
const OVER: f64 = 30.0;
/// The same for the highest pitch known of a string: an ordinary pass over the target is no alarm.
const PASSED: f64 = 10.0;

impl Round {
    /// A string that rises past what it is known to bear: said once until it has come down again.
    pub(super) fn over_pull(&mut self, string: StringName, off: f64, rising: bool) -> Option<Say> {
        let record = self.records.get_mut(&string)?;
        let highest = record
            .plan
            .highest_hz
            .map(|hz| (hz, record.off(hz).max(PASSED)));
        let (limit_cents, limit) = match highest {
            Some((hz, above)) if above < OVER => (above, Limit::HighestKnown(hz)),
            _ => (OVER, Limit::AboveTarget(OVER)),
        };
        if off <= limit_cents {
            record.over = false;
            return None;
        }
        if !rising {
            return None;
        }
        record.over = true;
        Some(Say::Warning(Warning::OverPull {
            string,
            off_cents: off,
            limit,
        }))
    }
}
