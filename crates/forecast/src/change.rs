//! The whole harp moved to another pitch.

use std::collections::BTreeMap;

use harp::StringName;

use crate::learned::Learned;

/// Farther than this above its usual pitch nobody is told to go without asking a technician first, cents.
const ASK_FIRST: f64 = 30.0;
/// A fall-back is used where it is known this well: half of its 95 % interval, as a share of the turning, and beyond nought.
const KNOWN: f64 = 0.1;
/// Strings are not taken farther than this beyond where they shall stand, cents.
const MOST_BEYOND: f64 = 8.0;
/// What is left after a pass, as a share of the way, where nothing was measured: tightening some strings lets others down
/// (common practice, no source: rough, closer, fine).
const CLOSE: f64 = 25.0;

/// What it takes.
#[derive(Clone, Debug, PartialEq)]
pub struct PitchChange {
    /// From one reference to the other, cents; up is above nought.
    pub cents: f64,
    /// Above the harp's usual pitch, cents.
    pub above_usual_cents: f64,
    /// By how many times the pull of every string changes: the square of the frequencies' ratio (M. Mersenne 1636; physics
    /// of an ideal string).
    pub load_times: f64,
    /// Whether a technician is to be asked first.
    pub ask_first: bool,
    /// How often all strings are gone through: rough, closer, fine; those in the middle before the ends.
    pub passes: u32,
    /// How far beyond the new pitch each string is taken at the last pass but one, cents, from this harp's own fall-back;
    /// none for strings of which it is not known.
    pub beyond_cents: BTreeMap<StringName, f64>,
}

impl Learned {
    /// What moving the harp from one A4 to another takes; all in Hz. `usual_hz` is where it mostly stands.
    pub fn pitch_change(&self, from_hz: f64, to_hz: f64, usual_hz: f64) -> PitchChange {
        let cents = pitch::cents(from_hz, to_hz);
        let above_usual_cents = pitch::cents(usual_hz, to_hz);
        let beyond = self.names.iter().enumerate().filter_map(|(at, name)| {
            let (share, _) = self.falls_back(at)?;
            let beyond = (share * cents).clamp(-MOST_BEYOND, MOST_BEYOND);
            Some((*name, beyond))
        });
        PitchChange {
            cents,
            above_usual_cents,
            load_times: (to_hz / from_hz).powi(2),
            ask_first: above_usual_cents > ASK_FIRST,
            passes: if cents.abs() > CLOSE { 3 } else { 2 },
            // over-shooting downwards is no use: a string that was let down is tuned from below
            beyond_cents: if cents > 0.0 {
                beyond.collect()
            } else {
                BTreeMap::new()
            },
        }
    }

    /// What share of its turning a string falls back by until it is next found, and half of the 95 % interval; none where
    /// this harp has not shown it.
    pub(crate) fn falls_back(&self, at: usize) -> Option<(f64, f64)> {
        let own = &self.own[at];
        let (share, half) = (own.mean[3], 1.96 * own.covariance[(3, 3)].sqrt());
        (half < KNOWN && share > half).then_some((share, half))
    }
}
