//! What the diary knows of a harp that matters to a check: strings put on lately, and the checks before.

use diary::{HarpKnown, Moment};
use harp::{Harp, StringName};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use tuning::regulation::SETTLED_DAYS;
use wasm_bindgen::prelude::*;

use crate::harp_choice::HarpChoice;
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;
use crate::strings::KeptStrings;

/// A string that was put on lately.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct FreshString {
    /// As in files.
    pub id: String,
    /// As it is called.
    pub name: String,
    /// Whole days since.
    pub days: u32,
}

/// A check of before.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PastCheck {
    /// When, RFC 3339, UTC.
    pub at: String,
    /// How many strings.
    pub strings: usize,
    /// Its reference pitch: A4, Hz.
    pub a4_hz: f64,
}

/// A harp's past.
#[wasm_bindgen]
pub struct PastChecks {
    pub(crate) name: String,
    pub(crate) choice: HarpChoice,
    pub(crate) harp: Harp,
    pub(crate) known: Option<HarpKnown>,
}

#[wasm_bindgen]
impl PastChecks {
    /// Of a harp, from what the diary knows.
    pub fn of(kept: &KeptStrings, choice: Ts<HarpChoice>) -> Result<PastChecks, JsError> {
        let choice = choice.to_rust()?;
        Ok(PastChecks {
            name: choice.name(),
            harp: choice.harp()?,
            known: kept.known.harp(&choice.name()).cloned(),
            choice,
        })
    }

    /// Strings put on less than two weeks ago, from the bass up; `at` is now.
    pub fn fresh(&self, at: &str, shown: Ts<ShownChoice>) -> Result<Vec<Ts<FreshString>>, JsError> {
        let (now, voice) = (Moment::of(&at.parse()?), Voice::of(&shown.to_rust()?));
        let fresh = self.fresh_strings(now).into_iter();
        let named = fresh.map(|(string, days)| FreshString {
            id: string.to_string(),
            name: voice.string(string),
            days,
        });
        named.map(|one| Ok(one.into_ts()?)).collect()
    }

    /// Its checks, the first one first.
    pub fn checks(&self) -> Result<Vec<Ts<PastCheck>>, JsError> {
        let checks = self.known.iter().flat_map(|known| &known.checks);
        let listed = checks.map(|(when, check)| PastCheck {
            at: when.to_string(),
            strings: check.strings.len(),
            a4_hz: check.a4_hz,
        });
        listed.map(|one| Ok(one.into_ts()?)).collect()
    }
}

impl PastChecks {
    fn fresh_strings(&self, now: Moment) -> Vec<(StringName, u32)> {
        let strings = self.harp.strings().iter().map(|string| string.name);
        let known = self.known.as_ref();
        let days = strings.filter_map(|string| Some((string, known?.days_on(string, now)?)));
        days.filter(|(_, days)| *days < SETTLED_DAYS).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harp_choice::Kind;
    use diary::{Diary, Entry, StringFitted};

    #[test]
    fn strings_put_on_within_two_weeks_are_fresh_used_ones_too() {
        let choice = HarpChoice {
            kind: Kind::Pedal,
            lowest: "C1".to_owned(),
            highest: "G7".to_owned(),
            open: None,
            unmoved: Vec::new(),
        };
        let mut diary = Diary::default();
        let mut fitted = |at: &str, string: &str, used| {
            let entry = Entry::StringFitted(StringFitted {
                harp: choice.name(),
                string: string.parse().unwrap(),
                on: None,
                material: None,
                gauge_mm: None,
                used,
                by: String::new(),
            });
            diary.append("phone", at.parse().unwrap(), &entry).unwrap();
        };
        fitted("2026-11-01T12:00:00Z", "G3", false);
        fitted("2026-11-12T12:00:00Z", "A3", false);
        fitted("2026-11-20T12:00:00Z", "B3", true);
        let past = PastChecks {
            name: choice.name(),
            harp: choice.harp().unwrap(),
            known: diary.known().harp(&choice.name()).cloned(),
            choice,
        };
        let fresh = |now: &str| {
            let fresh = past.fresh_strings(Moment::of(&now.parse().unwrap()));
            let named = fresh
                .into_iter()
                .map(|(string, days)| (string.to_string(), days));
            named.collect::<Vec<_>>()
        };
        let named = |string: &str, days| (string.to_owned(), days);
        assert_eq!(
            fresh("2026-11-26T11:00:00Z"),
            [named("A3", 13), named("B3", 5)]
        );
        // two weeks are enough
        assert_eq!(fresh("2026-11-26T12:00:00Z"), [named("B3", 6)]);
    }
}
