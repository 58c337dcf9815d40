//! How things are shown: the language, whose octave numbers, from which side the harp is seen.

use harp::{Naming, StringName};
use pitch::{Letter, SpelledPitch, Tongue};
use tuning::round::{Names, Say, sentence};

use crate::shown_choice::ShownChoice;

/// The same, ready to name and speak.
#[derive(Clone, Copy)]
pub(crate) struct Voice {
    pub(crate) tongue: Tongue,
    pub(crate) naming: Naming,
    pub(crate) side: sheet::Side,
}

impl Voice {
    pub(crate) fn of(shown: &ShownChoice) -> Voice {
        Voice {
            tongue: shown.tongue(),
            naming: shown.naming(),
            side: if shown.other_side {
                sheet::Side::Other
            } else {
                sheet::Side::Player
            },
        }
    }

    pub(crate) fn string(&self, string: StringName) -> String {
        self.naming.string(string)
    }

    /// A pitch without its octave: C♭, Ces, do♭.
    pub(crate) fn pitch(&self, pitch: SpelledPitch) -> String {
        self.naming.language.name(pitch)
    }

    /// Hands the names to whoever makes sentences.
    pub(crate) fn with_names<T>(&self, say: impl FnOnce(&Names) -> T) -> T {
        let natural = |letter: Letter| SpelledPitch {
            letter,
            alter: 0,
            octave: 4,
        };
        say(&Names {
            string: &|s| self.string(s),
            letter: &|l| self.naming.language.name(natural(l)),
            pitch: &|p| self.pitch(p),
        })
    }

    pub(crate) fn sentence(&self, say: &Say) -> String {
        self.with_names(|names| sentence(say, names, self.tongue))
    }
}
