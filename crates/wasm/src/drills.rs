//! Drills about the harp: questions with their choices, as the page shows them.

use harp::{Naming, Numbers, Setting, StringName};
use pitch::{Alteration, Letter, MajorKey, SpelledPitch};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use tuning::practice::quiz::{About, Answer, Asked, Choice, Question, Quiz};
use wasm_bindgen::prelude::*;

use crate::choice::PEDALS;
use crate::harp_choice::{HarpChoice, Kind};
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;

/// What a drill is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum DrillAbout {
    /// What a tuner shows.
    TunerName,
    /// Which pin holds a string.
    Pin,
    /// The harp's octave numbers.
    OctaveNumber,
    /// Diagrams, or a key's levers, read.
    DiagramRead,
    /// The same set.
    DiagramSet,
}

/// What is asked, for words.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum DrillAsks {
    /// What a tuner shows for `name`.
    Shown,
    /// Which letter it is that a tuner shows as `shown`.
    ShownBy,
    /// Which pin holds `name`.
    PinOf,
    /// Which string the pin `at` holds.
    HeldBy,
    /// What the string `at` is called.
    Called,
    /// Which string is `name`.
    Find,
    /// What the diagram says.
    Read,
    /// What the strings `name` sound in the diagram.
    SoundsIn,
    /// Which levers are on in the key `name`.
    LeversIn,
    /// The key `name` is to be set.
    SetKey,
    /// The letters `name` are to be set.
    SetLetters,
}

/// A string as it is drawn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct DrillString {
    /// As it is called.
    pub name: String,
    /// `red`, `dark`, `metallic`, `plain`.
    pub colour: String,
    /// Its place on the harp, from 1 at the top.
    pub from_top: usize,
}

/// A question as it is shown; which choice is right is not in it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct DrillView {
    /// What is asked.
    pub asks: DrillAsks,
    /// Whose name it is about: a letter as it sounds, a string, a key, letters.
    pub name: String,
    /// Pedals or levers alike: 0 up or off, 1 in the middle or on, 2 down; only where a tuner is asked about.
    pub notch: Option<i8>,
    /// A diagram's pedals, in the order D C B E F G A: −1, 0, 1.
    pub setting: Option<Vec<i8>>,
    /// Strings that are drawn, from the bass.
    pub drawn: Vec<DrillString>,
    /// Which of them it is about, from 0; none where that is the question.
    pub at: Option<usize>,
    /// All strings of the harp by colour, from the bass, where the whole harp is drawn.
    pub harp: Vec<DrillString>,
    /// What may be answered, in words; none where a setting is set.
    pub choices: Vec<String>,
    /// Where she sets: how each pedal or lever may stand, in the order D C B E F G A; each named as it then sounds.
    pub settable: Vec<Vec<DrillStand>>,
}

/// How a pedal or a letter's levers may stand.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct DrillStand {
    /// As the strings then sound.
    pub name: String,
    /// −1, 0, 1.
    pub alter: i8,
    /// 0 up or off, 1 in the middle or on, 2 down.
    pub notch: i8,
}

/// What became of an answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct DrillJudged {
    /// Whether it was right.
    pub right: bool,
    /// The place of the right choice.
    pub place: Option<usize>,
    /// The right one in words.
    pub answer: String,
    /// The setting that is right.
    pub setting: Option<Vec<i8>>,
}

/// A drill about the chosen harp.
#[wasm_bindgen]
pub struct DrillRun {
    quiz: Quiz,
    harp: harp::Harp,
    kind: Kind,
    voice: Voice,
}

#[wasm_bindgen]
impl DrillRun {
    /// A drill, from a seed; an error where this harp has nothing to ask.
    #[wasm_bindgen(constructor)]
    pub fn new(
        choice: Ts<HarpChoice>,
        about: Ts<DrillAbout>,
        seed: u64,
        shown: Ts<ShownChoice>,
    ) -> Result<DrillRun, JsError> {
        let (choice, shown) = (choice.to_rust()?, shown.to_rust()?);
        let run = DrillRun::of(&choice, about.to_rust()?, seed, &shown);
        run.map_err(|why| JsError::new(&why))
    }

    /// What is asked now.
    pub fn view(&self) -> Result<Ts<DrillView>, JsError> {
        Ok(self.viewed().into_ts()?)
    }

    /// Takes a choice, and goes on to the next question.
    pub fn choose(&mut self, place: usize) -> Result<Ts<DrillJudged>, JsError> {
        Ok(self.judged(Answer::Choice(place)).into_ts()?)
    }

    /// Takes a setting in the order D C B E F G A, and goes on to the next question.
    pub fn set(&mut self, setting: Vec<i8>) -> Result<Ts<DrillJudged>, JsError> {
        let setting = taken(&setting);
        Ok(self.judged(Answer::Set(setting)).into_ts()?)
    }
}

/// A setting from alterations in the order of the pedals.
fn taken(setting: &[i8]) -> Setting {
    let stands = PEDALS.into_iter().zip(setting);
    let stands = stands.filter_map(|(letter, alter)| {
        Some((letter, Alteration::from_semitones(i64::from(*alter))?))
    });
    stands.fold(Setting::default(), |made, (letter, alteration)| {
        made.with(letter, alteration)
    })
}

impl DrillRun {
    fn of(
        choice: &HarpChoice,
        about: DrillAbout,
        seed: u64,
        shown: &ShownChoice,
    ) -> Result<DrillRun, String> {
        let harp = choice.harp().map_err(|error| error.to_string())?;
        let about = match about {
            DrillAbout::TunerName => About::TunerName,
            DrillAbout::Pin => About::Pin,
            DrillAbout::OctaveNumber => About::OctaveNumber,
            DrillAbout::DiagramRead => About::DiagramRead,
            DrillAbout::DiagramSet => About::DiagramSet,
        };
        let mut voice = Voice::of(shown);
        if about == About::OctaveNumber {
            // the harp's own numbers are what is asked
            voice.naming = Naming {
                numbers: Numbers::Harp,
                ..voice.naming
            };
        }
        let quiz = Quiz::new(&harp, about, seed);
        Ok(DrillRun {
            quiz: quiz.ok_or_else(|| "this harp has too few strings for it".to_owned())?,
            harp,
            kind: choice.kind,
            voice,
        })
    }

    fn judged(&mut self, answer: Answer) -> DrillJudged {
        let place = self.quiz.right_place();
        let setting = self.quiz.right_setting();
        let choices = &self.quiz.question().choices;
        let choice = place.and_then(|place| choices.get(place));
        let answer_words = match (choice, setting) {
            (Some(choice), _) => self.said(choice),
            (None, Some(setting)) => self.in_scale(&setting),
            (None, None) => String::new(),
        };
        DrillJudged {
            right: self.quiz.answer(answer),
            place,
            answer: answer_words,
            setting: setting.map(|setting| alters(&setting)),
        }
    }

    fn viewed(&self) -> DrillView {
        let Question {
            asked,
            drawn,
            choices,
        } = self.quiz.question();
        let place = |string: &StringName| drawn.iter().position(|s| s == string);
        let mut view = DrillView {
            asks: DrillAsks::Shown,
            name: String::new(),
            notch: None,
            setting: None,
            drawn: drawn.iter().map(|string| self.drawn(*string)).collect(),
            at: None,
            harp: Vec::new(),
            choices: choices.iter().map(|choice| self.said(choice)).collect(),
            settable: Vec::new(),
        };
        match asked {
            Asked::Shown { letter, sounds } => view.name = self.sounding(*letter, *sounds),
            Asked::ShownBy {
                letter,
                sounds,
                notch,
            } => {
                view.asks = DrillAsks::ShownBy;
                let above = letter.semitones() + i32::from(sounds.semitones());
                view.name = self.display(above.rem_euclid(12));
                view.notch = Some(*notch);
            }
            Asked::PinOf(string) => {
                view.asks = DrillAsks::PinOf;
                view.name = self.voice.string(*string);
                view.at = place(string);
                // pins have no names: they are pointed at
                view.choices = (1..=choices.len()).map(|at| at.to_string()).collect();
            }
            Asked::HeldBy(string) => {
                view.asks = DrillAsks::HeldBy;
                view.at = place(string);
            }
            Asked::Called(string) => {
                view.asks = DrillAsks::Called;
                view.at = place(string);
                view.harp = self.whole();
            }
            Asked::Find(string) => {
                view.asks = DrillAsks::Find;
                view.name = self.voice.string(*string);
                view.harp = self.whole();
                view.choices = ('a'..='z').take(choices.len()).map(String::from).collect();
            }
            Asked::Read(setting) => {
                view.asks = DrillAsks::Read;
                view.setting = Some(alters(setting));
            }
            Asked::SoundsIn(setting, letter) => {
                view.asks = DrillAsks::SoundsIn;
                view.setting = Some(alters(setting));
                view.name = self.sounding(*letter, Alteration::Natural);
            }
            Asked::LeversIn(key) => {
                view.asks = DrillAsks::LeversIn;
                view.name = self.tonic(*key);
            }
            Asked::SetKey(key) => {
                view.asks = DrillAsks::SetKey;
                view.name = self.tonic(*key);
                view.settable = self.settable();
            }
            Asked::SetLetters(setting) => {
                view.asks = DrillAsks::SetLetters;
                view.name = self.in_scale(setting);
                view.settable = self.settable();
            }
        }
        view
    }

    fn settable(&self) -> Vec<Vec<DrillStand>> {
        let open = self.harp.open_tuning();
        let most = match self.kind {
            Kind::Pedal => 2,
            Kind::Lever => 1,
        };
        let of = |letter: Letter| {
            let open = open.map_or(Alteration::Flat, |open| open.alteration(letter));
            let stands = (0..=most).filter_map(|notch| {
                let alter = open.semitones() + notch;
                let alteration = Alteration::from_semitones(i64::from(alter))?;
                Some(DrillStand {
                    name: self.sounding(letter, alteration),
                    alter,
                    notch,
                })
            });
            stands.collect()
        };
        PEDALS.map(of).into()
    }

    fn whole(&self) -> Vec<DrillString> {
        let strings = self.harp.strings().iter();
        strings.map(|string| self.drawn(string.name)).collect()
    }

    fn drawn(&self, name: StringName) -> DrillString {
        let strings = self.harp.strings();
        let place = strings.iter().position(|string| string.name == name);
        let colour = place.and_then(|at| strings.get(at));
        DrillString {
            name: self.voice.string(name),
            colour: colour
                .map_or("plain", |string| string.colour.as_str())
                .to_owned(),
            from_top: place.map_or(0, |at| strings.len() - at),
        }
    }

    fn said(&self, choice: &Choice) -> String {
        match choice {
            Choice::Display(above) => self.display(*above),
            Choice::Sounds(letter, alteration) => self.sounding(*letter, *alteration),
            Choice::String(string) => self.voice.string(*string),
            Choice::Pin(string) => {
                let drawn = &self.quiz.question().drawn;
                let place = drawn.iter().position(|s| s == string);
                place.map_or(String::new(), |at| (at + 1).to_string())
            }
            Choice::Setting(setting) => self.in_pedals(setting),
            Choice::Levers(letters) => {
                let names = letters.iter();
                let names = names.map(|letter| self.sounding(*letter, Alteration::Natural));
                names.collect::<Vec<_>>().join(" ")
            }
        }
    }

    /// What a tuner with sharps shows, without its octave.
    fn display(&self, above_c: i32) -> String {
        let reference = pitch::ReferencePitch::A440;
        let shown = pitch::shown_as(reference.hz_of_key(60 + above_c), reference);
        self.voice.naming.display(&shown.name)
    }

    fn sounding(&self, letter: Letter, alteration: Alteration) -> String {
        let pitch = SpelledPitch::new(letter, alteration, 4);
        self.voice.naming.language.name(pitch)
    }

    fn tonic(&self, key: MajorKey) -> String {
        let (letter, alteration) = key.tonic();
        self.sounding(letter, alteration)
    }

    /// Left foot, a stroke, right foot.
    fn in_pedals(&self, setting: &Setting) -> String {
        let named: Vec<String> = PEDALS
            .iter()
            .map(|letter| self.stands(setting, *letter))
            .collect();
        let (left, right) = named.split_at(3);
        format!("{} | {}", left.join(" "), right.join(" "))
    }

    /// From C up.
    fn in_scale(&self, setting: &Setting) -> String {
        let named = Letter::ALL.map(|letter| self.stands(setting, letter));
        named.join(" ")
    }

    fn stands(&self, setting: &Setting, letter: Letter) -> String {
        let alteration = setting.get(letter).unwrap_or(Alteration::Natural);
        self.sounding(letter, alteration)
    }
}

fn alters(setting: &Setting) -> Vec<i8> {
    let alter = |letter| setting.get(letter).map_or(0, Alteration::semitones);
    PEDALS.map(alter).into()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run(kind: Kind, about: DrillAbout, language: &str) -> DrillRun {
        let (lowest, highest) = match kind {
            Kind::Pedal => ("C1", "G7"),
            Kind::Lever => ("C2", "A6"),
        };
        let choice = HarpChoice {
            kind,
            lowest: lowest.to_owned(),
            highest: highest.to_owned(),
            open: None,
            unmoved: Vec::new(),
        };
        let shown = ShownChoice {
            language: language.to_owned(),
            scientific: true,
            other_side: false,
        };
        DrillRun::of(&choice, about, 12, &shown).unwrap()
    }

    const ALL: [DrillAbout; 5] = [
        DrillAbout::TunerName,
        DrillAbout::Pin,
        DrillAbout::OctaveNumber,
        DrillAbout::DiagramRead,
        DrillAbout::DiagramSet,
    ];

    #[test]
    fn choices_read_differently_and_the_right_one_is_named() {
        for kind in [Kind::Pedal, Kind::Lever] {
            for about in ALL {
                for language in ["en", "de", "fr"] {
                    let mut run = run(kind, about, language);
                    for _ in 0..40 {
                        let view = run.viewed();
                        let mut words = view.choices.clone();
                        words.sort();
                        words.dedup();
                        assert_eq!(words.len(), view.choices.len(), "{view:?}");
                        assert_eq!(
                            view.choices.is_empty(),
                            view.settable.len() == 7,
                            "{view:?}"
                        );
                        let judged = run.judged(Answer::Choice(usize::MAX));
                        assert!(!judged.right);
                        match (judged.place, &judged.setting) {
                            (Some(place), None) if about != DrillAbout::OctaveNumber => {
                                assert_eq!(view.choices[place], judged.answer, "{view:?}");
                            }
                            (Some(_), None) => assert!(!judged.answer.is_empty()),
                            (None, Some(setting)) => assert_eq!(setting.len(), 7),
                            both => panic!("{both:?}"),
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn a_key_can_be_set_as_it_is_asked() {
        for kind in [Kind::Pedal, Kind::Lever] {
            let mut run = run(kind, DrillAbout::DiagramSet, "en");
            for _ in 0..30 {
                let view = run.viewed();
                let right = run.quiz.right_setting().map(|s| alters(&s)).unwrap();
                let settable = view.settable.iter().zip(&right);
                assert!(
                    settable
                        .into_iter()
                        .all(|(stands, alter)| stands.iter().any(|s| s.alter == *alter)),
                    "{view:?}"
                );
                assert!(run.judged(Answer::Set(taken(&right))).right);
            }
        }
    }

    // the harp's numbers, whatever numbers are shown elsewhere: 4C is C4 and 3A is A4 (S. Moss, how harp strings are numbered)
    #[test]
    fn octaves_are_the_harps() {
        let run = run(Kind::Pedal, DrillAbout::OctaveNumber, "en");
        let whole = run.whole();
        let called = |name: &str| whole.iter().any(|string| string.name == name);
        assert!(["7C", "4C", "3A", "0G", "1E"].into_iter().all(called));
        assert_eq!(
            whole.last().map(|top| (top.name.as_str(), top.from_top)),
            Some(("0G", 1))
        );
    }
}
