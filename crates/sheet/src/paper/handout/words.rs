//! The words of a handout; none can be forgotten in one of its languages.
//!
//! Facts are common practice, no source, where a word beside them says nothing else.

use keep::{Caution, StepKind};
use pitch::Tongue;

use super::{english, french, german};

/// Said of a pedal harp, and of a lever harp.
pub(super) type EachKind = [&'static str; 2];

/// A language.
pub(super) struct Words {
    pub(super) title: &'static str,
    pub(super) student: fn(&str) -> String,
    /// The harp by its kind, and how many strings it has.
    pub(super) kind: [fn(usize) -> String; 2],
    /// The note of the reference pitch.
    pub(super) a: &'static str,
    pub(super) sounds: EachKind,
    pub(super) shows: &'static str,
    /// Where notes are not named in the letters that most devices write; nothing in English.
    pub(super) in_letters: &'static str,
    /// The names of C and F.
    pub(super) colours: fn(&str, &str) -> String,
    /// The names of E, F and C.
    pub(super) octaves: fn([&str; 3]) -> String,
    /// Where one string has no discs, or no lever.
    pub(super) unmoved: EachKind,
    /// The same key by two names, in the letters of most devices.
    pub(super) flats: fn(&str, &str) -> String,

    pub(super) before: &'static str,
    pub(super) open: EachKind,
    pub(super) the_a: fn(&str) -> String,
    pub(super) quiet: &'static str,

    pub(super) round: &'static str,
    /// The first string, the lowest, the next one up, the highest.
    pub(super) from_middle: fn([&str; 4]) -> String,
    /// From which string to which: of the middle octave, or of the whole harp.
    pub(super) middle_octave: fn([&str; 2]) -> String,
    pub(super) from_bass: fn([&str; 2]) -> String,
    /// The first letter and the last.
    pub(super) letters: fn([&str; 2]) -> String,
    pub(super) octave_by_octave: fn([&str; 2]) -> String,
    pub(super) list: fn(&str) -> String,
    pub(super) again: &'static str,

    pub(super) key: &'static str,
    pub(super) pin: &'static str,
    pub(super) way: &'static str,
    pub(super) way_here: &'static str,

    pub(super) turns: &'static str,
    pub(super) small: [&'static str; 5],

    pub(super) daily: &'static str,
    pub(super) every_day: [&'static str; 2],

    pub(super) breaks: &'static str,
    pub(super) when_it_breaks: [&'static str; 2],
    pub(super) where_it_broke: EachKind,
    pub(super) then: [&'static str; 3],

    pub(super) new: &'static str,
    /// A step, with the minutes to wait; `None` where the step before has told it.
    pub(super) step: fn(StepKind, bool, &str) -> Option<String>,
    pub(super) other_ways: &'static str,

    pub(super) care: &'static str,
    pub(super) caution: fn(Caution) -> &'static str,
    pub(super) more_care: [&'static str; 4],

    pub(super) call: &'static str,
    pub(super) teacher: &'static str,
    pub(super) technician: &'static str,
    pub(super) telephone: &'static str,

    pub(super) notes: &'static str,
}

impl Words {
    /// The one of two that is said of this harp.
    pub(super) fn of(&self, each: EachKind, lever: bool) -> &'static str {
        each[usize::from(lever)]
    }
}

pub(super) fn words(tongue: Tongue) -> &'static Words {
    match tongue {
        Tongue::English => &english::WORDS,
        Tongue::German => &german::WORDS,
        Tongue::French => &french::WORDS,
    }
}
