//! A string rings on. A syllable, a knock and a note that somebody plays do not, or they swell: they get no name.

use signal::{Law, Strike, ringing};

use crate::refusal::refuse;
use crate::{Reading, Reason, Refused};

/// Decibels by which even the best partial may fall short of a string's ringing; of the strings of made-up rounds one in a
/// thousand falls short by more than 11.
const SHORT_DB: f64 = 14.0;
/// Hz, below which strings ring for seconds; above, each dies at its own rate, and nobody speaks there.
const LONG_HZ: f64 = 800.0;
/// Decibels by which all partials may swell: of those strings one in a thousand swelled by 1.
const SWELLS_DB: f64 = 3.0;

/// The last word of a pluck, unless what sounded does not ring as a string does.
pub(crate) fn rings_on(reading: Reading, strike: &Strike) -> Result<Reading, Refused> {
    let refused = |reason, detail| Err(refuse(strike, reading.string, reason, detail));
    let law = Law {
        f0_hz: reading.f0_hz,
        b: reading.b,
    };
    let Some(ringing) = ringing(&strike.after, strike.rate_hz, law) else {
        return Ok(reading);
    };
    if law.partial(1) < LONG_HZ && ringing.short_db > SHORT_DB {
        let short = ringing.short_db;
        return refused(
            Reason::NoString,
            format!("it was over {short:.0} dB too soon for a string"),
        );
    }
    if ringing.fell_db < -SWELLS_DB {
        let swelled = -ringing.fell_db;
        return refused(
            Reason::NoString,
            format!("it grew louder by {swelled:.0} dB, as no string does"),
        );
    }
    Ok(reading)
}
