//! Which strings are to be checked, and how long that takes.

use harp::{Harp, StringName};
use pitch::ReferencePitch;
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use tuning::regulation::{Check, PLUCKS_OF_A_LEVER, PLUCKS_OF_DISCS, Pace, seconds, within_time};
use wasm_bindgen::prelude::*;

use crate::harp_choice::{ChoiceError, HarpChoice, Kind};
use crate::harps::NamedString;
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;

/// A check as it is asked for; strings as in files.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct CheckAsk {
    /// The harp.
    pub harp: HarpChoice,
    /// The reference pitch: A4, Hz, 380 to 480.
    pub a4_hz: f64,
    /// The strings.
    pub strings: Vec<String>,
    /// Those put on less than two weeks ago: shown and not judged.
    pub new: Vec<String>,
    /// Strings without discs and what they sound, as in `C1` and `Cb1`.
    pub discless: Vec<(String, String)>,
}

/// What there is to choose from, and what there is time for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct CheckChoice {
    /// Every string that a disc or a lever moves, from the bass up.
    pub strings: Vec<NamedString>,
    /// Those that are chosen, as in files.
    pub chosen: Vec<String>,
    /// How often each is plucked.
    pub times: u32,
    /// How long it takes, seconds.
    pub seconds: f64,
}

/// The strings of a harp that can be checked: these few of them, or as many as there is time for.
#[wasm_bindgen]
pub fn check_choice(
    choice: Ts<HarpChoice>,
    few: Option<Vec<String>>,
    minutes: Option<f64>,
    shown: Ts<ShownChoice>,
) -> Result<Ts<CheckChoice>, JsError> {
    let voice = Voice::of(&shown.to_rust()?);
    Ok(chosen(&choice.to_rust()?, few, minutes, &voice)?.into_ts()?)
}

fn chosen(
    choice: &HarpChoice,
    few: Option<Vec<String>>,
    minutes: Option<f64>,
    voice: &Voice,
) -> Result<CheckChoice, ChoiceError> {
    let harp = choice.harp()?;
    let pace = Pace::default();
    let all = within_time(&harp, None, &pace);
    let chosen = match few {
        Some(few) => {
            let few = few.iter().map(|s| s.parse());
            let few = few.collect::<Result<Vec<StringName>, _>>()?;
            // from the bass up, whatever the order in which they were named
            all.iter().copied().filter(|s| few.contains(s)).collect()
        }
        None => within_time(&harp, minutes.map(|minutes| 60.0 * minutes), &pace),
    };
    let named = all.iter().map(|&string| NamedString {
        id: string.to_string(),
        name: voice.string(string),
    });
    Ok(CheckChoice {
        strings: named.collect(),
        times: match choice.kind {
            Kind::Pedal => PLUCKS_OF_DISCS,
            Kind::Lever => PLUCKS_OF_A_LEVER,
        },
        seconds: seconds(&harp, &chosen, &pace),
        chosen: chosen.iter().map(ToString::to_string).collect(),
    })
}

impl CheckAsk {
    pub(crate) fn reference(&self) -> Result<ReferencePitch, ChoiceError> {
        Ok(ReferencePitch::new(self.a4_hz)?)
    }

    /// The harp, and a check of it that begins.
    pub(crate) fn begun(&self) -> Result<(Harp, Check), ChoiceError> {
        let (harp, setup) = self.harp.open(self.reference()?, &self.discless)?;
        let strings = self.strings.iter().map(|s| s.parse());
        let strings = strings.collect::<Result<Vec<StringName>, _>>()?;
        let check = Check::new(&harp, &setup, &strings)?;
        Ok((harp, check))
    }

    pub(crate) fn is_new(&self, string: StringName) -> bool {
        self.new.contains(&string.to_string())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pedal() -> HarpChoice {
        HarpChoice {
            kind: Kind::Pedal,
            lowest: "C1".to_owned(),
            highest: "G7".to_owned(),
            open: None,
            unmoved: ["C1", "D1", "G7"].map(str::to_owned).to_vec(),
        }
    }

    // 44 strings by four plucks of 4 s, and all pedals moved three times in 10 s: by hand
    #[test]
    fn all_strings_or_those_that_there_is_time_for_are_chosen() {
        let voice = Voice::of(&ShownChoice::default());
        let told = |few, minutes| chosen(&pedal(), few, minutes, &voice).unwrap();
        let all = told(None, None);
        assert_eq!((all.strings.len(), all.chosen.len()), (44, 44));
        assert_eq!((all.times, all.seconds), (4, 734.0));
        let some = told(None, Some(5.0));
        assert!(some.seconds <= 300.0 && some.strings.len() == 44);
        let few = ["A3", "C1", "G3"].map(str::to_owned).to_vec();
        let few = told(Some(few), None);
        assert_eq!(
            (few.chosen.join(" ").as_str(), few.seconds),
            ("G3 A3", 62.0)
        );
    }
}
