//! Strings tuned by ear on her own harp: samples and what she says in; what to do next, out. Where a string stands is not
//! told before it is tuned.

use harp::{Harp, Setup, StringName};
use pitch::{Alteration, Letter, SpelledPitch};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use tuning::practice::{Came, Drill, Guess, Pair, SilentEar, Stage, Told, Which, pairs};
use tuning::round;
use wasm_bindgen::prelude::*;

use super::ear_view::{EarMoved, EarStage, EarString, EarView, outcome, told_word, word_of};
use super::kept::{EarKept, HeardAt, StoodAt};
use crate::harp_choice::{ChoiceError, HarpChoice};
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;

/// Seconds that each pluck is listened to: nothing is turned meanwhile, and low strings want it.
const LISTEN_S: f64 = 0.8;

/// What is to be practised, on which harp; strings as in files.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct EarAsk {
    /// The harp.
    pub harp: HarpChoice,
    /// The reference pitch: A4, Hz, 380 to 480.
    pub a4_hz: f64,
    /// Strings without discs and what they sound, as in `C1` and `Cb1`.
    pub discless: Vec<(String, String)>,
    /// `octave`, `unison`, `fifth`, `letter`
    pub drill: String,
    /// One of the harp's octaves; without meaning for a letter.
    pub octave: i32,
    /// The letter, where one is practised.
    pub letter: String,
}

/// Where a drill can be practised.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct EarChoice {
    /// The harp's octaves, from the top, in which there is anything of it.
    pub octaves: Vec<i32>,
    /// The letters, and as the reader calls them.
    pub letters: Vec<(String, String)>,
    /// How many strings are tuned as it is asked.
    pub strings: usize,
}

/// Where a drill can be practised on a harp.
#[wasm_bindgen]
pub fn ear_choice(ask: Ts<EarAsk>, shown: Ts<ShownChoice>) -> Result<Ts<EarChoice>, JsError> {
    let voice = Voice::of(&shown.to_rust()?);
    Ok(ask.to_rust()?.choice(&voice)?.into_ts()?)
}

/// Strings tuned by ear, one after the other.
#[wasm_bindgen]
pub struct ByEarPractice {
    harp: Harp,
    drill: String,
    pairs: Vec<Pair>,
    at: usize,
    ear: SilentEar,
    reference: pitch::ReferencePitch,
    rate_hz: u32,
    voice: Voice,
    told: Option<Told>,
    breaks: usize,
}

#[wasm_bindgen]
impl ByEarPractice {
    /// Begins with the first string; sound comes at `rate_hz`.
    pub fn begin(
        ask: Ts<EarAsk>,
        shown: Ts<ShownChoice>,
        rate_hz: u32,
    ) -> Result<ByEarPractice, JsError> {
        let ask = ask.to_rust()?;
        let (harp, setup) = ask.setup()?;
        let pairs = pairs(&harp, &setup, ask.drill()?)?;
        let first = pairs.first().cloned().ok_or_else(|| {
            JsError::new("this harp has no two strings for that: choose another drill or octave")
        })?;
        Ok(ByEarPractice {
            ear: SilentEar::new(rate_hz, first, setup.reference, LISTEN_S)?,
            harp,
            drill: ask.drill,
            pairs,
            at: 0,
            reference: setup.reference,
            rate_hz,
            voice: Voice::of(&shown.to_rust()?),
            told: None,
            breaks: 0,
        })
    }

    /// Takes in samples, −1 to 1; whether there is anything new to show.
    pub fn push(&mut self, samples: &[f32]) -> bool {
        let told = self.ear.push(samples);
        self.take(&told)
    }

    /// So many samples are known to be missing.
    pub fn lost(&mut self, samples: u32) -> bool {
        let told = self.ear.lost(u64::from(samples));
        self.take(&told);
        true
    }

    /// Goes on with another microphone.
    pub fn change_rate(&mut self, rate_hz: u32) -> Result<(), JsError> {
        self.ear.change_rate(rate_hz)?;
        self.rate_hz = rate_hz;
        Ok(())
    }

    /// The string that is asked for cannot be read: on without it.
    pub fn pass(&mut self) {
        self.told = None;
        self.ear.pass();
    }

    /// What she says of it: `high`, `low`; none: she cannot tell.
    pub fn say(&mut self, guess: Option<String>) {
        self.told = None;
        self.ear.say(match guess.as_deref() {
            Some("high") => Some(Guess::High),
            Some("low") => Some(Guess::Low),
            _ => None,
        });
    }

    /// She says that it is there.
    pub fn there(&mut self) {
        self.told = None;
        self.ear.there();
    }

    /// The next string; false where there is none.
    pub fn go_on(&mut self) -> Result<bool, JsError> {
        let Some(pair) = self.pairs.get(self.at + 1).cloned() else {
            return Ok(false);
        };
        self.breaks += self.ear.breaks();
        self.ear = SilentEar::new(self.rate_hz, pair, self.reference, LISTEN_S)?;
        self.at += 1;
        self.told = None;
        Ok(true)
    }

    /// Shows it otherwise from now on.
    pub fn show(&mut self, shown: Ts<ShownChoice>) -> Result<(), JsError> {
        self.voice = Voice::of(&shown.to_rust()?);
        Ok(())
    }

    /// What stands on the screen.
    pub fn view(&self) -> Result<Ts<EarView>, JsError> {
        Ok(self.viewed().into_ts()?)
    }

    /// What is kept of this string, which took so many seconds; none where the string itself was not read.
    pub fn kept(&self, took_s: f64) -> Result<Option<Ts<EarKept>>, JsError> {
        let attempt = self.ear.attempt();
        let (pair, outcome) = (attempt.pair(), attempt.outcome());
        if outcome.found.is_none() && outcome.left.is_none() {
            return Ok(None);
        }
        let stood = |came: Came| StoodAt {
            off_cents: came.off_cents,
            u95_cents: came.u95_cents,
        };
        let heard = |(heard_hz, u95_cents)| HeardAt {
            heard_hz,
            u95_cents,
        };
        let kept = EarKept {
            drill: self.drill.clone(),
            string: pair.tuned.to_string(),
            against: Some(pair.stays.to_string()),
            guess: outcome.guess.map(|guess| word_of(guess).to_owned()),
            before: outcome.before.map(stood),
            after: outcome.after.map(stood),
            target_hz: pair.by_ear.tuned_hz,
            found: outcome.found.map(heard),
            left: outcome.left.map(heard),
            took_s,
        };
        Ok(Some(kept.into_ts()?))
    }
}

impl EarAsk {
    fn setup(&self) -> Result<(Harp, Setup), ChoiceError> {
        let reference = pitch::ReferencePitch::new(self.a4_hz)?;
        self.harp.open(reference, &self.discless)
    }

    fn drill(&self) -> Result<Drill, ChoiceError> {
        let octave = self.octave;
        Ok(match self.drill.as_str() {
            "octave" => Drill::Octave(octave),
            "unison" => Drill::Unison(octave),
            "fifth" => Drill::Fifth(octave),
            "letter" => {
                let of = |letter: &Letter| letter.to_string() == self.letter;
                let letter = Letter::ALL.into_iter().find(of);
                Drill::Letter(letter.ok_or_else(|| ChoiceError::Letter(self.letter.clone()))?)
            }
            other => return Err(ChoiceError::Practice(other.to_owned())),
        })
    }

    fn choice(&self, voice: &Voice) -> Result<EarChoice, ChoiceError> {
        let (harp, setup) = self.setup()?;
        let of = |octave: i32| EarAsk {
            octave,
            ..self.clone()
        };
        let has = |octave: &i32| {
            let drill = of(*octave).drill().ok();
            drill.is_some_and(|drill| pairs(&harp, &setup, drill).is_ok_and(|all| !all.is_empty()))
        };
        let letters = Letter::ALL.map(|letter| {
            let natural = SpelledPitch::new(letter, Alteration::Natural, 4);
            (letter.to_string(), voice.pitch(natural))
        });
        Ok(EarChoice {
            octaves: match self.drill.as_str() {
                "letter" => Vec::new(),
                _ => (0..=8).filter(has).collect(),
            },
            letters: letters.to_vec(),
            strings: pairs(&harp, &setup, self.drill()?)?.len(),
        })
    }
}

impl ByEarPractice {
    fn take(&mut self, told: &[Told]) -> bool {
        for told in told {
            self.told = (*told != Told::Taken).then_some(*told);
        }
        !told.is_empty()
    }

    fn viewed(&self) -> EarView {
        let attempt = self.ear.attempt();
        let pair = attempt.pair();
        let (stage, asked) = match attempt.stage() {
            Stage::Before(which) => (EarStage::Before, Some(which)),
            Stage::Say => (EarStage::Say, None),
            Stage::Tune => (EarStage::Tune, None),
            Stage::After(which) => (EarStage::After, Some(which)),
            Stage::Known => (EarStage::Known, None),
        };
        let asked = asked.map(|which| match which {
            Which::Stays => pair.stays,
            Which::Tuned => pair.tuned,
        });
        let done = usize::from(stage == EarStage::Known);
        EarView {
            stage,
            asked: asked.map(|string| self.string(string)),
            stays: self.string(pair.stays),
            tuned: self.string(pair.tuned),
            moved: pair.moved.map(|to| self.moved(pair.stays, to)),
            wanted_per_s: pair.by_ear.wanted().map(|beats| beats.per_s),
            told: self.told.map(|told| told_word(told).to_owned()),
            words: self.words(),
            outcome: (stage == EarStage::Known).then(|| outcome(&attempt.outcome())),
            done: self.at + done,
            of: self.pairs.len(),
            breaks: self.breaks + self.ear.breaks(),
        }
    }

    fn string(&self, string: StringName) -> EarString {
        let found = self.harp.string(string);
        EarString {
            id: string.to_string(),
            name: self.voice.string(string),
            looks: found.map_or(String::new(), |found| {
                round::colour_words(found.colour, found.wire, self.voice.tongue).to_owned()
            }),
        }
    }

    fn moved(&self, stays: StringName, to: Alteration) -> EarMoved {
        let is_pedal = self.harp.kind() == harp::HarpKind::Pedal;
        let natural = SpelledPitch::new(stays.letter, Alteration::Natural, 4);
        EarMoved {
            what: if is_pedal { "pedal" } else { "lever" }.to_owned(),
            of: match is_pedal {
                true => self.voice.pitch(natural),
                false => self.voice.string(stays),
            },
            to: to.as_str().to_owned(),
        }
    }

    fn words(&self) -> String {
        match self.told {
            Some(Told::NotRead(reason)) => self.voice.sentence(&round::Say::NotRead {
                string: None,
                reason,
            }),
            Some(Told::Another(string)) => self.voice.string(string),
            _ => String::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harp_choice::Kind;

    fn ask(drill: &str) -> EarAsk {
        EarAsk {
            harp: HarpChoice {
                kind: Kind::Pedal,
                lowest: "C1".to_owned(),
                highest: "G7".to_owned(),
                open: None,
                unmoved: ["C1", "D1", "G7"].map(str::to_owned).to_vec(),
            },
            a4_hz: 442.0,
            discless: vec![("C1".to_owned(), "Cb1".to_owned())],
            drill: drill.to_owned(),
            octave: 4,
            letter: "C".to_owned(),
        }
    }

    fn begun(drill: &str) -> ByEarPractice {
        let ask = ask(drill);
        let (harp, setup) = ask.setup().unwrap();
        let pairs = pairs(&harp, &setup, ask.drill().unwrap()).unwrap();
        ByEarPractice {
            ear: SilentEar::new(48_000, pairs[0].clone(), setup.reference, LISTEN_S).unwrap(),
            harp,
            drill: ask.drill,
            pairs,
            at: 0,
            reference: setup.reference,
            rate_hz: 48_000,
            voice: Voice::of(&ShownChoice::default()),
            told: None,
            breaks: 0,
        }
    }

    #[test]
    fn what_is_asked_first_and_what_is_moved_for_it() {
        let octave = begun("octave").viewed();
        assert_eq!(octave.stage, EarStage::Before);
        assert_eq!(
            (octave.stays.id.as_str(), octave.tuned.id.as_str()),
            ("E5", "E4")
        );
        assert_eq!((octave.done, octave.of, octave.moved), (0, 7, None));
        let unison = begun("unison").viewed();
        let moved = unison.moved.unwrap();
        assert_eq!(
            (moved.what.as_str(), moved.of.as_str(), moved.to.as_str()),
            ("pedal", "D", "sharp")
        );
    }

    #[test]
    fn every_drill_says_where_it_can_be_practised() {
        let voice = Voice::of(&ShownChoice::default());
        let told = |drill: &str| ask(drill).choice(&voice).unwrap();
        assert_eq!(told("octave").octaves, [0, 1, 2, 3, 4, 5, 6, 7]);
        assert_eq!(told("unison").strings, 7);
        assert_eq!(
            (told("letter").octaves.len(), told("letter").strings),
            (0, 6)
        );
        assert!(ask("fourth").choice(&voice).is_err());
    }

    #[test]
    fn nothing_is_kept_of_a_string_of_which_nothing_was_heard() {
        let mut practice = begun("fifth");
        practice.pass();
        practice.pass();
        practice.say(Some("low".to_owned()));
        assert_eq!(practice.viewed().stage, EarStage::Tune);
        assert!(practice.viewed().outcome.is_none());
        practice.there();
        practice.pass();
        practice.pass();
        let view = practice.viewed();
        assert_eq!((view.stage, view.done), (EarStage::Known, 1));
        let outcome = view.outcome.unwrap();
        assert_eq!(
            (outcome.guess.as_deref(), outcome.said),
            (Some("low"), None)
        );
    }
}
