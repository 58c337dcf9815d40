//! What stands large on the music stand: this string, the one word about it, and what waits for an answer.
//!
//! A round says many things; a player with both hands on the harp reads one. Here it is decided which, and for how long it
//! stays: until the next string sounds.

use harp::StringName;
use tuning::round::{Say, Turn, Warning};
use tuning::{Direction, Reason};

/// The one word about the string that is shown.
#[derive(Clone, Debug, PartialEq)]
pub enum Word {
    /// It is asked for.
    Pluck,
    /// It sounds; its last word is still to come.
    Sounds,
    /// Turn its pin.
    Turn(Turn),
    /// Its pin is being turned: which way it still has to go.
    Moving(Direction),
    /// High enough: leave the key.
    Enough,
    /// It moved while it was read.
    PluckStill,
    /// In tune.
    InTune,
    /// In tune by her ear.
    ByEar,
    /// Nearer cannot be said; the string an octave above, to compare by ear.
    Near(Option<StringName>),
    /// A new string is there for now.
    ThereForNow,
    /// It may be any of these.
    Which(Vec<StringName>),
    /// A pluck was not read.
    NotRead(Reason),
    /// Look before you turn.
    Question(Warning),
    /// Stop.
    Stop(Warning),
    /// Not listening.
    Paused,
    /// The round is over.
    Finished,
}

/// What stands on the music stand.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stand {
    /// The string, where the word is about one.
    pub string: Option<StringName>,
    /// The word; none before the round begins.
    pub word: Option<Word>,
    /// Where the string is, cents above its target, and half of its 95 % interval.
    pub off_cents: Option<(f64, f64)>,
    /// The string to pluck next.
    pub next: Option<StringName>,
    /// Minutes left at her own pace.
    pub minutes: Option<f64>,
    /// What waits for an answer or is to be known, the latest last.
    pub notices: Vec<Say>,
}

impl Stand {
    /// Takes in what a round says to one event, most urgent first.
    ///
    /// ```
    /// use sheet::{Stand, Word};
    /// use tuning::round::{Say, Why};
    /// let mut stand = Stand::default();
    /// let string = "G3".parse()?;
    /// stand.take(&[Say::Next { string, why: Why::InOrder }]);
    /// assert_eq!((stand.string, stand.word), (Some(string), Some(Word::Pluck)));
    /// # Ok::<(), harp::StringNameError>(())
    /// ```
    pub fn take(&mut self, says: &[Say]) {
        if says.iter().any(is_last_word) {
            self.notices.retain(|notice| !passes(notice));
        }
        // what was said first is the most urgent: it is shown last
        let shown: Vec<Shown> = says.iter().rev().filter_map(shown).collect();
        for say in says {
            self.note(say);
        }
        let is_stop = |s: &&Shown| matches!(s.word, Word::Stop(_));
        if let Some(shown) = shown.iter().find(is_stop).or(shown.last()) {
            self.show(shown.clone());
        } else if let Some(Say::Next { string, .. }) = says.iter().find(is_next) {
            self.show(Shown {
                string: Some(*string),
                off_cents: None,
                word: Word::Pluck,
            });
        }
    }

    /// Takes a notice away: it was answered or read.
    pub fn settle(&mut self, place: usize) {
        if place < self.notices.len() {
            self.notices.remove(place);
        }
    }

    /// Shows a string that she chose.
    pub fn point_at(&mut self, string: StringName) {
        self.show(Shown {
            string: Some(string),
            off_cents: None,
            word: Word::Pluck,
        });
    }

    fn show(&mut self, shown: Shown) {
        self.string = shown.string;
        self.off_cents = shown.off_cents;
        self.word = Some(shown.word);
    }

    fn note(&mut self, say: &Say) {
        match say {
            Say::Next { string, .. } => self.next = Some(*string),
            Say::Left { minutes, .. } => self.minutes = *minutes,
            Say::AllHeard | Say::Finished => self.next = None,
            _ => {}
        }
        if waits(say) {
            let same = std::mem::discriminant(say);
            self.notices.retain(|n| {
                std::mem::discriminant(n) != same || is_question(n) != is_question(say)
            });
            self.notices.push(say.clone());
        }
        if let Say::WillStand(string, _) = say {
            self.answered(*string);
        }
    }

    /// A string without discs was given its pitch: it is asked for no more.
    fn answered(&mut self, string: StringName) {
        for notice in &mut self.notices {
            if let Say::AskPitch(strings) = notice {
                strings.retain(|s| *s != string);
            }
        }
        self.notices
            .retain(|n| !matches!(n, Say::AskPitch(strings) if strings.is_empty()));
    }
}

#[derive(Clone)]
struct Shown {
    string: Option<StringName>,
    off_cents: Option<(f64, f64)>,
    word: Word,
}

/// What is shown large of one thing said; nothing where it is not for that.
fn shown(say: &Say) -> Option<Shown> {
    let at = |string: &StringName, off: Option<(f64, f64)>, word: Word| {
        Some(Shown {
            string: Some(*string),
            off_cents: off,
            word,
        })
    };
    let nowhere = |word: Word| {
        Some(Shown {
            string: None,
            off_cents: None,
            word,
        })
    };
    match say {
        Say::Sounds {
            string,
            off_cents,
            u95_cents,
        } => at(string, Some((*off_cents, *u95_cents)), Word::Sounds),
        Say::Turn(t) => at(&t.string, Some((t.off_cents, t.u95_cents)), Word::Turn(*t)),
        Say::InTune {
            string,
            off_cents,
            u95_cents,
        } => at(string, Some((*off_cents, *u95_cents)), Word::InTune),
        Say::Near {
            string,
            off_cents,
            u95_cents,
            octave_above,
        } => at(
            string,
            Some((*off_cents, *u95_cents)),
            Word::Near(*octave_above),
        ),
        Say::ReachedForNow {
            string,
            off_cents,
            u95_cents,
        } => at(string, Some((*off_cents, *u95_cents)), Word::ThereForNow),
        Say::Moving {
            string,
            off_cents,
            u95_cents,
            way,
        } => at(string, Some((*off_cents, *u95_cents)), Word::Moving(*way)),
        Say::PluckStill(string) => at(string, None, Word::PluckStill),
        Say::Enough(string) => at(string, None, Word::Enough),
        Say::ByEar(string) => at(string, None, Word::ByEar),
        Say::Pinned(string) | Say::Undone(string) => at(string, None, Word::Pluck),
        Say::Which(strings) => nowhere(Word::Which(strings.clone())),
        Say::NotRead { string, reason } => Some(Shown {
            string: *string,
            off_cents: None,
            word: Word::NotRead(*reason),
        }),
        Say::Warning(warning) => warned(warning),
        Say::Paused => nowhere(Word::Paused),
        Say::Finished => nowhere(Word::Finished),
        _ => None,
    }
}

fn warned(warning: &Warning) -> Option<Shown> {
    let (string, off_cents) = match warning {
        Warning::LeverOff { string } | Warning::KeyElsewhere { string, .. } => {
            (Some(*string), None)
        }
        Warning::FoundHigh { string, off_cents }
        | Warning::OverPull {
            string, off_cents, ..
        } => (Some(*string), Some((*off_cents, 0.0))),
        Warning::OctaveHigh { expected, .. } | Warning::AnotherMoves { expected, .. } => {
            (Some(*expected), None)
        }
        Warning::PedalUp { strings, .. } => (strings.last().copied(), None),
        // about the whole harp: it waits as a notice, and the string keeps its word
        Warning::Reference { .. } => return None,
    };
    let word = if warning.is_stop() {
        Word::Stop(warning.clone())
    } else {
        Word::Question(warning.clone())
    };
    Some(Shown {
        string,
        off_cents,
        word,
    })
}

/// Whether something said is to be answered, or known beyond the next pluck.
fn waits(say: &Say) -> bool {
    match say {
        Say::Warning(_)
        | Say::SecondBest { .. }
        | Say::AskPitch(_)
        | Say::Which(_)
        | Say::Near { .. }
        | Say::NotRead { .. }
        | Say::Sound(_)
        | Say::Again { .. }
        | Say::Offer(_)
        | Say::Broke(..)
        | Say::TheA { .. }
        | Say::NoA(_)
        | Say::AskTechnician(_)
        | Say::AllHeard
        | Say::NotHere(_)
        | Say::Holds(_) => true,
        Say::Begun { .. }
        | Say::Next { .. }
        | Say::Left { .. }
        | Say::Sounds { .. }
        | Say::Turn(_)
        | Say::InTune { .. }
        | Say::PluckStill(_)
        | Say::Moving { .. }
        | Say::Enough(_)
        | Say::ReachedForNow { .. }
        | Say::WillStand(..)
        | Say::Pinned(_)
        | Say::LetGo
        | Say::Skipped(_)
        | Say::Undone(_)
        | Say::ByEar(_)
        | Say::OnPurpose(_)
        | Say::Paused
        | Say::Resumed
        | Say::Uses(_)
        | Say::Finished => false,
    }
}

/// Whether a notice is over once a string has got its word.
fn passes(notice: &Say) -> bool {
    match notice {
        Say::Warning(Warning::Reference { .. }) => false,
        Say::Warning(_) | Say::Which(_) | Say::Near { .. } | Say::NotRead { .. } => true,
        Say::Sound(_) | Say::NotHere(_) | Say::Holds(_) => true,
        _ => false,
    }
}

/// Whether it is the last word about a pluck.
fn is_last_word(say: &Say) -> bool {
    matches!(
        say,
        Say::Turn(_)
            | Say::InTune { .. }
            | Say::Near { .. }
            | Say::ReachedForNow { .. }
            | Say::PluckStill(_)
            | Say::Which(_)
            | Say::NotRead { .. }
            | Say::ByEar(_)
            | Say::Warning(_)
    )
}

fn is_question(say: &Say) -> bool {
    matches!(say, Say::Warning(Warning::Reference { .. }))
}

fn is_next(say: &&Say) -> bool {
    matches!(say, Say::Next { .. })
}

#[cfg(test)]
mod tests {
    use super::*;
    use tuning::round::{Amount, Why};

    fn string(name: &str) -> StringName {
        name.parse().unwrap()
    }

    fn next(name: &str) -> Say {
        Say::Next {
            string: string(name),
            why: Why::InOrder,
        }
    }

    fn in_tune(name: &str) -> Say {
        Say::InTune {
            string: string(name),
            off_cents: 0.4,
            u95_cents: 0.9,
        }
    }

    fn turn(name: &str) -> Say {
        Say::Turn(Turn {
            string: string(name),
            way: Direction::Up,
            amount: Amount::Little,
            by_cents: 14.0,
            off_cents: -14.0,
            u95_cents: 1.0,
            climbing: false,
        })
    }

    /// What stands after each batch: string, word, next, notices.
    fn check(batches: &[&[Say]], shown: &str) {
        let mut stand = Stand::default();
        for batch in batches {
            stand.take(batch);
        }
        let name = |s: Option<StringName>| s.map_or("-".to_owned(), |s| s.to_string());
        let word = format!("{:?}", stand.word);
        let word = word.trim_start_matches("Some(");
        let end = word
            .find(|c: char| !c.is_alphabetic())
            .unwrap_or(word.len());
        let told = format!(
            "{} {} then {} notices {}",
            name(stand.string),
            &word[..end],
            name(stand.next),
            stand.notices.len()
        );
        assert_eq!(told, shown);
    }

    #[test]
    fn a_string_asked_for_stands_until_another_sounds() {
        check(&[&[next("G3")]], "G3 Pluck then G3 notices 0");
        check(&[&[next("G3")], &[turn("F3")]], "F3 Turn then G3 notices 0");
    }

    #[test]
    fn in_tune_stays_and_the_next_stands_beside_it() {
        check(
            &[&[in_tune("G3"), next("F3")]],
            "G3 InTune then F3 notices 0",
        );
        check(
            &[
                &[in_tune("G3"), next("F3")],
                &[Say::Skipped(string("F3")), next("E3")],
            ],
            "E3 Pluck then E3 notices 0",
        );
    }

    #[test]
    fn a_stop_stands_above_everything_said_with_it() {
        let stop = Say::Warning(Warning::AnotherMoves {
            expected: string("G3"),
            moving: string("A3"),
            by_cents: 12.0,
        });
        check(&[&[stop, turn("G3")]], "G3 Stop then - notices 1");
    }

    #[test]
    fn a_question_is_over_with_the_strings_next_word() {
        let question = Say::Warning(Warning::LeverOff {
            string: string("G3"),
        });
        check(
            &[std::slice::from_ref(&question)],
            "G3 Question then - notices 1",
        );
        check(
            &[&[question], &[in_tune("G3")]],
            "G3 InTune then - notices 0",
        );
    }

    #[test]
    fn a_pitch_is_asked_for_until_every_string_has_one() {
        let ask = Say::AskPitch(vec![string("C1"), string("D1")]);
        let stands = |name: &str| Say::WillStand(string(name), "C1".parse().unwrap());
        check(
            &[std::slice::from_ref(&ask), &[stands("C1")]],
            "- None then - notices 1",
        );
        check(
            &[&[ask], &[stands("C1")], &[stands("D1")]],
            "- None then - notices 0",
        );
    }
}
