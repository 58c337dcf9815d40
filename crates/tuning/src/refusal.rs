//! A pluck that gets no reading, and why.

use harp::StringName;
use signal::Strike;

use crate::{Reason, Refused};

/// A refusal of `strike`.
pub(crate) fn refuse(
    strike: &Strike,
    string: Option<StringName>,
    reason: Reason,
    detail: String,
) -> Refused {
    Refused {
        at_s: strike.at_s,
        string,
        reason,
        detail,
    }
}
