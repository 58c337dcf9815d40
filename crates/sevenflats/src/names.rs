//! How strings, letters and pitches are called in what is said of a harp.

use harp::Naming;
use pitch::SpelledPitch;
use tuning::round::Names;

/// Says something in these names.
pub(crate) fn said<T>(naming: Naming, say: impl FnOnce(&Names<'_>) -> T) -> T {
    let natural = |letter| SpelledPitch {
        letter,
        alter: 0,
        octave: 4,
    };
    say(&Names {
        string: &|string| naming.string(string),
        letter: &|letter| naming.language.name(natural(letter)),
        pitch: &|pitch| naming.language.name(pitch),
    })
}
