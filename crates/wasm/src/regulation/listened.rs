//! A check under way: samples in; what to do next, out.

use harp::{Harp, Position, StringName};
use serde::{Deserialize, Serialize};
use sheet::share_of_reach;
use tsify::{Ts, Tsify};
use tuning::regulation::{Happened, Hearing, Pace, Pluck, Say, sentence};
use tuning::{Heard, Reason, round};
use wasm_bindgen::prelude::*;

use super::kept::{KeptCheck, KeptStep};
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;
use crate::view::ShownString;

/// Seconds that each pluck is listened to: longer than in a round, for nothing is turned meanwhile.
const LISTEN_S: f64 = 0.8;

/// What came of a block of samples, or of what she said.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, Tsify)]
pub struct CheckStep {
    /// Whether there is anything new to show.
    pub changed: bool,
    /// Whether something is to be kept.
    pub taken: bool,
    /// Whether all is read.
    pub done: bool,
}

/// What stands on the screen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct CheckView {
    /// Where all pedals or levers are to stand; none when all is read.
    pub position: Option<CheckPosition>,
    /// The string that is asked for.
    pub string: Option<ShownString>,
    /// What is to be seen large about it.
    pub word: CheckWord,
    /// What there is to say of the last pluck; empty where it was simply taken.
    pub words: String,
    /// The string that was taken last.
    pub last: Option<LastRead>,
    /// Plucks that were read.
    pub read: usize,
    /// Plucks that are still to come.
    pub left: usize,
    /// About how many seconds more.
    pub seconds: f64,
    /// How often the sound was broken.
    pub breaks: usize,
    /// How much of it is missing, seconds.
    pub missing_s: f64,
}

/// Where all pedals or levers stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum CheckPosition {
    /// Up, or off.
    Open,
    /// In the middle.
    Natural,
    /// Down, or on.
    Sharp,
}

/// What is to be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum CheckWord {
    /// Pluck it.
    Pluck,
    /// Move all pedals or levers, then pluck it.
    Move,
    /// Pluck it once more: it was not read.
    Again,
    /// Look: is the pedal, or the lever, where it should be?
    Look,
    /// All is read.
    Done,
}

/// What was read of a string.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct LastRead {
    /// As it is called.
    pub name: String,
    /// Against what it should sound, cents.
    pub off_cents: f64,
    /// Half of the 95 % interval.
    pub u95_cents: f64,
}

/// A check that listens.
#[wasm_bindgen]
pub struct RegulationCheck {
    hearing: Hearing,
    harp: Harp,
    kept: KeptCheck,
    voice: Voice,
    word: CheckWord,
    /// what there is to say of the last pluck
    says: Option<Said>,
    rate_hz: u32,
    missing_s: f64,
}

/// What is said, until it is put into the reader's words.
enum Said {
    OfCheck(Say),
    NotRead(Option<StringName>, Reason),
}

#[wasm_bindgen]
impl RegulationCheck {
    /// A check that begins, or one that was left and goes on; sound comes at `rate_hz`.
    pub fn begin(
        kept: Ts<KeptCheck>,
        shown: Ts<ShownChoice>,
        rate_hz: u32,
    ) -> Result<RegulationCheck, JsError> {
        let kept = kept.to_rust()?;
        let (harp, check) = kept.again()?;
        let hearing = Hearing::new(rate_hz, check, kept.ask.reference()?, LISTEN_S)?;
        Ok(RegulationCheck {
            hearing,
            harp,
            // pedals may stand anywhere when it begins, or goes on
            word: CheckWord::Move,
            kept,
            voice: Voice::of(&shown.to_rust()?),
            says: None,
            rate_hz,
            missing_s: 0.0,
        })
    }

    /// Takes in samples, −1 to 1; `own_sound` where the page may be heard in them.
    pub fn push(&mut self, samples: &[f32], own_sound: bool) -> Result<Ts<CheckStep>, JsError> {
        self.hearing.own_sound(own_sound);
        let happened = self.hearing.push(samples);
        Ok(self.stepped(&happened).into_ts()?)
    }

    /// So many samples are known to be missing.
    pub fn lost(&mut self, samples: u32) -> Result<Ts<CheckStep>, JsError> {
        self.missing_s += f64::from(samples) / f64::from(self.rate_hz);
        let happened = self.hearing.lost(u64::from(samples));
        let mut step = self.stepped(&happened);
        step.changed = true;
        Ok(step.into_ts()?)
    }

    /// Goes on with another microphone.
    pub fn change_rate(&mut self, rate_hz: u32) -> Result<Ts<CheckStep>, JsError> {
        let happened = self.hearing.change_rate(rate_hz)?;
        self.rate_hz = rate_hz;
        Ok(self.stepped(&happened).into_ts()?)
    }

    /// The string that is asked for is left out.
    pub fn skip(&mut self) -> Result<Ts<CheckStep>, JsError> {
        let mut step = CheckStep::default();
        if let Some((_, string)) = self.hearing.check().next() {
            self.kept.steps.push(KeptStep::skipped(string));
            let happened = self.hearing.skip(string);
            if self.word != CheckWord::Move {
                (self.word, self.says) = (CheckWord::Pluck, None);
            }
            step = self.stepped(&[happened]);
            (step.changed, step.taken) = (true, true);
        }
        Ok(step.into_ts()?)
    }

    /// Shows it otherwise from now on.
    pub fn show(&mut self, shown: Ts<ShownChoice>) -> Result<(), JsError> {
        self.voice = Voice::of(&shown.to_rust()?);
        Ok(())
    }

    /// The check so far, to be kept.
    pub fn kept(&self) -> Result<Ts<KeptCheck>, JsError> {
        Ok(self.kept.clone().into_ts()?)
    }

    /// What stands on the screen.
    pub fn view(&self) -> Result<Ts<CheckView>, JsError> {
        Ok(self.viewed().into_ts()?)
    }
}

impl RegulationCheck {
    fn stepped(&mut self, happened: &[Happened]) -> CheckStep {
        let mut step = CheckStep::default();
        for one in happened {
            match &one.heard {
                Some(Heard::Refused(refused)) => {
                    step.changed = true;
                    self.not_read(refused.string, refused.reason);
                }
                Some(Heard::Reading(reading)) if reading.last && reading.string.is_none() => {
                    step.changed = true;
                    self.not_read(None, Reason::NotSure);
                }
                _ => {}
            }
            for say in &one.says {
                step.changed = true;
                step.taken |= self.said(say);
            }
        }
        step.done = self.word == CheckWord::Done;
        step
    }

    fn not_read(&mut self, string: Option<StringName>, reason: Reason) {
        if self.word != CheckWord::Move {
            self.word = CheckWord::Again;
        }
        self.says = Some(Said::NotRead(string, reason));
    }

    /// Whether something was taken.
    fn said(&mut self, say: &Say) -> bool {
        match *say {
            Say::Taken(pluck) => {
                self.kept.steps.push(step_of(&pluck));
                (self.word, self.says) = (CheckWord::Pluck, None);
                return true;
            }
            Say::Set(_) => (self.word, self.says) = (CheckWord::Move, None),
            Say::Done => (self.word, self.says) = (CheckWord::Done, Some(Said::OfCheck(*say))),
            Say::AsBefore(_) | Say::Far(..) => {
                (self.word, self.says) = (CheckWord::Look, Some(Said::OfCheck(*say)));
            }
            Say::NotAsked(_) => self.says = Some(Said::OfCheck(*say)),
        }
        false
    }

    fn words(&self) -> String {
        let (tongue, kind) = (self.voice.tongue, self.harp.kind());
        match &self.says {
            Some(Said::OfCheck(say)) => {
                let words = |names: &round::Names| sentence(say, kind, names, tongue);
                self.voice.with_names(words).unwrap_or_default()
            }
            Some(Said::NotRead(string, reason)) => self.voice.sentence(&round::Say::NotRead {
                string: *string,
                reason: *reason,
            }),
            None => String::new(),
        }
    }

    fn viewed(&self) -> CheckView {
        let check = self.hearing.check();
        let next = check.next();
        let last = check.plucks().last();
        CheckView {
            position: next.map(|(position, _)| match position {
                Position::Open => CheckPosition::Open,
                Position::Natural => CheckPosition::Natural,
                Position::Sharp => CheckPosition::Sharp,
            }),
            string: next.map(|(_, string)| self.shown(string)),
            word: self.word,
            words: self.words(),
            last: last.map(|pluck| LastRead {
                name: self.voice.string(pluck.string),
                off_cents: pluck.off_cents,
                u95_cents: pluck.u95_cents,
            }),
            read: check.plucks().len(),
            left: check.left(),
            seconds: check.left() as f64 * Pace::default().pluck_s,
            breaks: self.hearing.breaks(),
            missing_s: self.missing_s,
        }
    }

    fn shown(&self, string: StringName) -> ShownString {
        let standing = self.hearing.check().standing();
        let standing = standing.iter().find(|s| s.string == string);
        let found = self.harp.string(string);
        let read = self.hearing.check().plucks().iter();
        let cents: Vec<f64> = read
            .filter(|pluck| pluck.string == string)
            .map(|pluck| pluck.off_cents)
            .collect();
        ShownString {
            id: string.to_string(),
            name: self.voice.string(string),
            colour: found
                .map_or("plain", |found| found.colour.as_str())
                .to_owned(),
            wire: found.is_some_and(|found| found.wire),
            looks: found.map_or(String::new(), |found| {
                round::colour_words(found.colour, found.wire, self.voice.tongue).to_owned()
            }),
            sounds: standing.map_or(String::new(), |s| self.voice.pitch(s.pitch)),
            tuner_shows: String::new(),
            plucks_shares: cents.iter().map(|&cents| share_of_reach(cents)).collect(),
            plucks_cents: cents,
        }
    }
}

fn step_of(pluck: &Pluck) -> KeptStep {
    KeptStep {
        string: pluck.string.to_string(),
        off_cents: Some(pluck.off_cents),
        u95_cents: Some(pluck.u95_cents),
    }
}
