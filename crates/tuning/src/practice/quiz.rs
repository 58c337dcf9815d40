//! Questions about the harp itself: what a tuner calls a string, where its pin is, its octave number, diagrams and levers.
//!
//! What was answered wrong comes again after two others. Words are for whoever shows it.

mod diagrams;
mod made;
mod strings;

use harp::{Harp, HarpKind, Setting, StringName};
use pitch::{Alteration, Letter, MajorKey};

use super::draws::Draws;

/// What a drill is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum About {
    /// The harp's own name against what a tuner shows.
    TunerName,
    /// Which pin holds a string.
    Pin,
    /// The harp's octave numbers.
    OctaveNumber,
    /// A printed diagram, or a key's levers, read.
    DiagramRead,
    /// The same set.
    DiagramSet,
}

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Asked {
    /// What does a tuner show for the strings of a letter that sound so?
    Shown {
        /// The letter.
        letter: Letter,
        /// How its strings stand.
        sounds: Alteration,
    },
    /// A tuner shows this, with all pedals or levers alike: the strings of which letter are that?
    ShownBy {
        /// The letter.
        letter: Letter,
        /// How its strings stand.
        sounds: Alteration,
        /// How far pedals or levers are: 0 up or off, 1 in the middle or on, 2 down.
        notch: i8,
    },
    /// Which pin holds this string?
    PinOf(StringName),
    /// Which string does this pin hold?
    HeldBy(StringName),
    /// What is this string called?
    Called(StringName),
    /// Which string is so called?
    Find(StringName),
    /// What does this diagram say?
    Read(Setting),
    /// What do the strings of a letter sound in this diagram?
    SoundsIn(Setting, Letter),
    /// Which levers are on in this key?
    LeversIn(MajorKey),
    /// Set this key.
    SetKey(MajorKey),
    /// Set these seven.
    SetLetters(Setting),
}

/// What may be answered.
#[derive(Clone, Debug, PartialEq)]
pub enum Choice {
    /// A tuner's name, as semitones above C, 0 to 11.
    Display(i32),
    /// A letter as it stands.
    Sounds(Letter, Alteration),
    /// A string.
    String(StringName),
    /// The pin of a string.
    Pin(StringName),
    /// A whole setting.
    Setting(Setting),
    /// Letters whose levers are on.
    Levers(Vec<Letter>),
}

/// A question with its choices; where there are none, a setting is the answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// What is asked.
    pub asked: Asked,
    /// Strings that are drawn, from the bass.
    pub drawn: Vec<StringName>,
    /// What may be answered; exactly one is right.
    pub choices: Vec<Choice>,
}

/// An answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Answer {
    /// The choice at this place.
    Choice(usize),
    /// A setting that was set.
    Set(Setting),
}

/// After so many others a question that was answered wrong comes again.
pub const OTHERS_BETWEEN: usize = 2;

/// A drill under way.
///
/// ```
/// use harp::Harp;
/// use tuning::practice::quiz::{About, Answer, Quiz};
/// let mut quiz = Quiz::new(&Harp::named("pedal47")?, About::TunerName, 5);
/// let right = quiz.as_mut().map(|quiz| {
///     let place = quiz.right_place().unwrap_or_default();
///     quiz.answer(Answer::Choice(place))
/// });
/// assert_eq!(right, Some(true));
/// # Ok::<(), harp::HarpError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Quiz {
    facts: Facts,
    about: About,
    draws: Draws,
    /// What was answered wrong, and from which question on it comes again.
    again: Vec<(usize, Asked)>,
    turn: usize,
    now: Question,
}

/// What questions need of a harp.
#[derive(Clone, Debug, PartialEq)]
struct Facts {
    kind: HarpKind,
    strings: Vec<StringName>,
    /// How each letter stands with pedals up or levers off.
    open: [Alteration; 7],
    /// Letters that have a disc or lever somewhere.
    moved: Vec<Letter>,
}

impl Quiz {
    /// A drill about a harp, from a seed; `None` where the harp has too few strings, or neither pedals nor levers, to ask it.
    #[must_use]
    pub fn new(harp: &Harp, about: About, seed: u64) -> Option<Quiz> {
        let facts = Facts::of(harp)?;
        let mut draws = Draws::new(seed);
        let asked = facts.fresh(about, &[], &mut draws)?;
        let now = facts.question(asked, &mut draws);
        Some(Quiz {
            facts,
            about,
            draws,
            again: Vec::new(),
            turn: 0,
            now,
        })
    }

    /// What is asked now; the same until it is answered.
    #[must_use]
    pub fn question(&self) -> &Question {
        &self.now
    }

    /// Whether an answer would be right.
    #[must_use]
    pub fn is_right(&self, answer: Answer) -> bool {
        match answer {
            Answer::Choice(place) => {
                let choice = self.now.choices.get(place);
                choice.is_some_and(|choice| self.facts.fits(self.now.asked, choice))
            }
            Answer::Set(setting) => self.facts.setting_of(self.now.asked) == Some(setting),
        }
    }

    /// The place of the right choice; `None` where a setting is set.
    #[must_use]
    pub fn right_place(&self) -> Option<usize> {
        (0..self.now.choices.len()).find(|place| self.is_right(Answer::Choice(*place)))
    }

    /// The setting that is right; `None` where there are choices.
    #[must_use]
    pub fn right_setting(&self) -> Option<Setting> {
        self.facts.setting_of(self.now.asked)
    }

    /// Takes an answer, gives whether it was right, and goes on to the next question.
    pub fn answer(&mut self, answer: Answer) -> bool {
        let right = self.is_right(answer);
        let asked = self.now.asked;
        self.turn += 1;
        if !right {
            self.again.push((self.turn + OTHERS_BETWEEN, asked));
        }
        let due = self.again.iter().position(|(from, _)| *from <= self.turn);
        let next = match due {
            Some(place) => Some(self.again.remove(place).1),
            None => {
                let mut not = vec![asked];
                not.extend(self.again.iter().map(|(_, asked)| *asked));
                self.facts.fresh(self.about, &not, &mut self.draws)
            }
        };
        let next = next.unwrap_or(asked);
        self.now = self.facts.question(next, &mut self.draws);
        right
    }
}

impl Facts {
    fn of(harp: &Harp) -> Option<Facts> {
        let open = harp.open_tuning()?;
        let strings: Vec<StringName> = harp.strings().iter().map(|string| string.name).collect();
        let moved = |letter: &Letter| {
            let mut own = harp.strings().iter().filter(|s| s.name.letter == *letter);
            own.any(|string| string.mechanism != harp::Mechanism::Nothing)
        };
        Some(Facts {
            kind: harp.kind(),
            strings,
            open: Letter::ALL.map(|letter| open.alteration(letter)),
            moved: Letter::ALL.into_iter().filter(moved).collect(),
        })
    }

    /// How a letter stands so many notches from open; `None` where nothing moves it so far.
    fn at(&self, letter: Letter, notch: i8) -> Option<Alteration> {
        if notch > 0 && !self.moved.contains(&letter) {
            return None;
        }
        let open = self.open[letter.index()];
        Alteration::from_semitones(i64::from(open.semitones() + notch))
    }

    fn notches(&self) -> std::ops::RangeInclusive<i8> {
        match self.kind {
            HarpKind::Pedal => 0..=2,
            _ => 0..=1,
        }
    }
}
