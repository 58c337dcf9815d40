//! Where the strings are expected to stand when a round begins, from what the diary knows: made by whoever read the diary,
//! and handed to the round in another thread.

use std::collections::BTreeMap;

use diary::{At, Moment};
use forecast::{
    AirNow, Ask, Because, Joint, Minutes, Rests, USUAL_S, air_lately, learn, pace_s, weights_of,
};
use harp::{StringName, StringNameError};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use tuning::round::Tolerance;
use wasm_bindgen::prelude::*;

use crate::choice::RoundChoice;
use crate::strings::{KeptStrings, nothing_known};

/// What is asked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ForeseeAsk {
    /// The round that is about to begin.
    pub choice: RoundChoice,
    /// Now, RFC 3339, UTC.
    pub now: String,
    /// °C, where she said it; else as it was written in the hour before.
    pub temperature_c: Option<f64>,
    /// Per cent.
    pub humidity_percent: Option<f64>,
    /// How much each string is played tonight, piece by piece: as in files, `G3`, and its notes. None at all: not known.
    pub played: Vec<Vec<(String, f64)>>,
    /// Whether that names all notes; else any string may be played, and counts one at least.
    pub all_played: bool,
}

/// Where the strings are expected, and how what is not known hangs together.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Foreseen {
    /// The strings from the bass.
    pub strings: Vec<ForeseenString>,
    /// What is not known, cents², row by row.
    pub covariance_cents2: Vec<f64>,
    /// Whether a programme says how much each string is played.
    pub tonight: bool,
    /// Times that the strings were left and found again.
    pub stretches: usize,
    /// Strings of which nothing was ever read.
    pub never_read: usize,
    /// The air that it counts with.
    pub temperature_c: Option<f64>,
    /// Per cent.
    pub humidity_percent: Option<f64>,
    /// Seconds that she takes for a string.
    pub seconds_per_string: f64,
    /// Whether these are her own.
    pub own_pace: bool,
}

/// One string.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ForeseenString {
    /// As in files.
    pub string: String,
    /// What it is to sound, Hz.
    pub target_hz: f64,
    /// Where it is expected, cents above that.
    pub expected_cents: f64,
    /// Half of its 95 % interval, cents.
    pub u95_cents: f64,
    /// Its notes; nought where it rests.
    pub weight: f64,
}

#[wasm_bindgen]
impl KeptStrings {
    /// Where the strings are expected to stand now.
    pub fn foresee(&self, ask: Ts<ForeseeAsk>) -> Result<Ts<Foreseen>, JsError> {
        let foreseen = self.foreseen(&ask.to_rust()?)?;
        Ok(foreseen.into_ts()?)
    }
}

impl KeptStrings {
    fn foreseen(&self, ask: &ForeseeAsk) -> Result<Foreseen, JsError> {
        let (choice, name) = (&ask.choice, ask.choice.harp.name());
        let harp = choice.harp.harp()?;
        let standing = harp.standing(&choice.setup()?)?;
        let targets: BTreeMap<StringName, f64> =
            standing.iter().map(|s| (s.string, s.target_hz)).collect();
        let when = Moment::of(&ask.now.parse::<At>()?);
        let nothing;
        let known = match self.known.harp(&name) {
            Some(known) => known,
            None => {
                nothing = nothing_known(&name, &harp);
                &nothing
            }
        };
        let lately = air_lately(&self.known.air, &name, when);
        let air_then = AirNow {
            temperature_c: ask.temperature_c.or(lately.temperature_c),
            humidity_percent: ask.humidity_percent.or(lately.humidity_percent),
        };
        let learned = learn(&harp, known, &self.known.air);
        let ahead = learned.ahead(&Ask {
            known,
            air: &self.known.air,
            targets: &targets,
            when,
            air_then,
        });
        let weights = weights_of(ahead.joint.names(), played(&ask.played)?, ask.all_played);
        let tonight = !weights.is_empty();
        let strings = ahead.strings.iter().map(|one| ForeseenString {
            string: one.string.to_string(),
            target_hz: targets.get(&one.string).copied().unwrap_or_default(),
            expected_cents: one.expected_cents,
            u95_cents: one.u95_cents,
            weight: weights
                .get(&one.string)
                .copied()
                .unwrap_or(if tonight { 0.0 } else { 1.0 }),
        });
        let never = |one: &&forecast::StringAhead| one.because.contains(&Because::NeverRead);
        let own = pace_s(known);
        Ok(Foreseen {
            strings: strings.collect(),
            covariance_cents2: ahead.joint.covariance_cents2(),
            tonight,
            stretches: learned.stretches,
            never_read: ahead.strings.iter().filter(never).count(),
            temperature_c: air_then.temperature_c,
            humidity_percent: air_then.humidity_percent,
            seconds_per_string: own.unwrap_or(USUAL_S),
            own_pace: own.is_some(),
        })
    }
}

/// Strings and their notes, out of all pieces.
pub(crate) fn played(
    pieces: &[Vec<(String, f64)>],
) -> Result<Vec<(StringName, f64)>, StringNameError> {
    let all = pieces.iter().flatten();
    all.map(|(string, notes)| Ok((string.parse()?, *notes)))
        .collect()
}

impl Foreseen {
    /// What a round counts with; `None` where the figures do not fit one another.
    pub(crate) fn minutes(&self, tolerance: Tolerance) -> Option<Minutes> {
        let names = self.strings.iter().map(|one| one.string.parse().ok());
        let names: Vec<StringName> = names.collect::<Option<_>>()?;
        let weights = names.iter().copied();
        let weights = weights.zip(self.strings.iter().map(|one| one.weight));
        let mean = self.strings.iter().map(|one| one.expected_cents);
        let joint = Joint::of_parts(
            names.clone(),
            mean.collect(),
            self.covariance_cents2.clone(),
        )?;
        let weights = weights.collect();
        let seconds = self.seconds_per_string;
        Some(Minutes::new(
            joint,
            weights,
            |string| tolerance.of(string),
            seconds,
        ))
    }

    /// What it rests on.
    pub(crate) fn rests(&self) -> Rests {
        Rests {
            stretches: self.stretches,
            never_read: self.never_read,
            air: AirNow {
                temperature_c: self.temperature_c,
                humidity_percent: self.humidity_percent,
            },
            seconds_per_string: self.seconds_per_string,
            own_pace: self.own_pace,
            not_played: self.strings.iter().filter(|one| one.weight <= 0.0).count(),
        }
    }
}
