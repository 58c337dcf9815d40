//! Sentences for what a round says, in every language: short, as a teacher would say them.
//!
//! Directions are up and down. 'Flat' and 'sharp' are positions of a pedal: every string is called flat.
//! `speaks` names what a language must be able to say, and each language has a file, or a few, of its own.

mod english;
mod french;
mod german;
mod speaks;
mod told;

use harp::{Colour, StringName};
use pitch::{Letter, SpelledPitch, Tongue};

use super::{Amount, Say, State};
use crate::{Direction, Reason};
use speaks::{Side, Speaks};

/// How strings, letters and pitches are written: the octave's number and the language of notes are the reader's choice,
/// apart from the language of the sentence around them.
pub struct Names<'a> {
    /// A string: 4G.
    pub string: &'a dyn Fn(StringName) -> String,
    /// A letter: G.
    pub letter: &'a dyn Fn(Letter) -> String,
    /// A pitch: G♭3.
    pub pitch: &'a dyn Fn(SpelledPitch) -> String,
}

/// What is said, as a sentence or a few.
///
/// ```
/// use pitch::Tongue;
/// use tuning::round::{Names, Say, sentence};
/// let names = Names {
///     string: &|s| s.harp_number(),
///     letter: &|l| l.to_string(),
///     pitch: &|p| p.pretty(),
/// };
/// let enough = Say::Enough("G3".parse()?);
/// let english = sentence(&enough, &names, Tongue::English);
/// assert_eq!(english, "4G: enough. Leave the key and pluck it still.");
/// let german = sentence(&enough, &names, Tongue::German);
/// assert_eq!(german, "4G: genug. Den Schlüssel in Ruhe lassen und die Saite zupfen.");
/// # Ok::<(), harp::StringNameError>(())
/// ```
pub fn sentence(say: &Say, names: &Names, tongue: Tongue) -> String {
    let words = words(tongue);
    words.set(told::told(say, names, words))
}

/// The usual cautions, once, before a key is turned far: three lines.
pub fn care(tongue: Tongue) -> &'static str {
    words(tongue).care()
}

/// Which way the key turns: usual practice, from memory; harps differ, and so it is to be tried.
pub fn which_way_the_key_turns(way: Direction, tongue: Tongue) -> &'static str {
    words(tongue).which_way_the_key_turns(way)
}

/// What to do about a pluck that was not read.
pub fn advice(reason: Reason, tongue: Tongue) -> &'static str {
    words(tongue).advice(reason)
}

/// Why a pluck was not read, in a few words.
pub fn reason_words(reason: Reason, tongue: Tongue) -> &'static str {
    words(tongue).reason(reason)
}

/// A direction at a glance: up, höher, plus haut.
pub fn way_words(way: Direction, tongue: Tongue) -> &'static str {
    words(tongue).way(way)
}

/// An amount in the hand's words, by itself: a hair, a little, more, by half of that.
pub fn amount_words(amount: Amount, tongue: Tongue) -> &'static str {
    words(tongue).amount(amount)
}

/// A direction with its amount, each language in its own order: up a little, ein wenig höher.
///
/// ```
/// use pitch::Tongue;
/// use tuning::{Direction, round::{Amount, how_far}};
/// let say = |tongue| how_far(Direction::Up, Amount::Little, tongue);
/// assert_eq!(Tongue::ALL.map(say), ["up a little", "ein wenig höher", "un peu plus haut"]);
/// ```
pub fn how_far(way: Direction, amount: Amount, tongue: Tongue) -> String {
    words(tongue).how_far(way, amount)
}

/// How a string stands, in a few words: in tune; near, cannot say; moving; skipped; broken.
pub fn state_words(state: State, tongue: Tongue) -> &'static str {
    words(tongue).state(state)
}

/// The string has come far enough: the key is to be left.
pub fn enough_words(tongue: Tongue) -> &'static str {
    words(tongue).enough_at_a_glance()
}

/// A string as the eye finds it: the red string, a wire. `wire` says whether it is one; C and F wires are tinted.
pub fn colour_words(colour: Colour, wire: bool, tongue: Tongue) -> &'static str {
    words(tongue).by_colour(colour, wire)
}

/// What an equal-tempered display would show for a string, by a pitch that has no flats, as in [`pitch::Shown`]: without
/// its octave, in these names.
///
/// ```
/// use pitch::{Language, Tongue};
/// use tuning::round::a_tuner_shows;
/// let shown = "B3".parse()?;
/// assert_eq!(a_tuner_shows(shown, Language::English, Tongue::English), "a tuner shows B");
/// assert_eq!(a_tuner_shows(shown, Language::Solfege, Tongue::French), "un accordeur affiche si");
/// # Ok::<(), pitch::SpellingError>(())
/// ```
pub fn a_tuner_shows(shown: SpelledPitch, notes: pitch::Language, tongue: Tongue) -> String {
    words(tongue).a_tuner_shows(&notes.name(shown))
}

/// What comes after a string, and on which side of it: then 4B below.
///
/// ```
/// use pitch::Tongue;
/// use tuning::round::{Names, then};
/// let names = Names {
///     string: &|s| s.harp_number(),
///     letter: &|l| l.to_string(),
///     pitch: &|p| p.pretty(),
/// };
/// let (now, next) = ("C4".parse()?, "B3".parse()?);
/// assert_eq!(then(now, next, &names, Tongue::English), "then 4B below");
/// # Ok::<(), harp::StringNameError>(())
/// ```
pub fn then(now: StringName, next: StringName, names: &Names, tongue: Tongue) -> String {
    let side = match next.cmp(&now) {
        std::cmp::Ordering::Less => Some(Side::Below),
        std::cmp::Ordering::Equal => None,
        std::cmp::Ordering::Greater => Some(Side::Above),
    };
    words(tongue).then(&(names.string)(next), side)
}

fn words(tongue: Tongue) -> &'static dyn Speaks {
    match tongue {
        Tongue::English => &english::English,
        Tongue::German => &german::German,
        Tongue::French => &french::French,
    }
}
