//! A spelled pitch: letter, accidental and scientific octave, so that C♭4 and B3 stay two names.

use std::fmt;
use std::str::FromStr;

use crate::{Alteration, Letter};

/// A pitch as it is written: C♭4 is not B3, though both sound the same.
///
/// Written `Gb3`, `F#7`, `Cn4`, `Fbb3`, `F##3` in files ([`fmt::Display`], [`FromStr`]) and G♭3
/// on screens ([`SpelledPitch::pretty`]). The octave is the letter's: C♭4 sounds as B3.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct SpelledPitch {
    /// The letter.
    pub letter: Letter,
    /// Semitones above the letter, −2 to 2.
    pub alter: i8,
    /// Scientific octave of the letter, −1 to 9; middle C begins octave 4.
    pub octave: i8,
}

/// A text that names no pitch.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SpellingError {
    /// Does not begin with a letter from A to G.
    #[error("'{text}' is no pitch: it must begin with a letter from A to G, as in Gb3")]
    Letter {
        /// What was given.
        text: String,
    },
    /// The accidental is none of n, b, bb, #, ##.
    #[error("'{text}' is no pitch: after the letter comes n, b, bb, # or ##, then the octave")]
    Accidental {
        /// What was given.
        text: String,
    },
    /// The octave is missing or outside −1 to 9.
    #[error("'{text}' is no pitch: it must end with an octave from -1 to 9, as in Gb3")]
    Octave {
        /// What was given.
        text: String,
    },
}

impl SpelledPitch {
    /// A letter with one of the three alterations of a pedal.
    pub fn new(letter: Letter, alteration: Alteration, octave: i8) -> Self {
        Self {
            letter,
            alter: alteration.semitones(),
            octave,
        }
    }

    /// Sounding key number, as MIDI counts them (A4 = 69); C♭4 is 59, the key of B3.
    ///
    /// ```
    /// use pitch::SpelledPitch;
    /// assert_eq!("Cb4".parse::<SpelledPitch>()?.midi(), 59);
    /// assert_eq!("B#3".parse::<SpelledPitch>()?.midi(), 60);
    /// # Ok::<(), pitch::SpellingError>(())
    /// ```
    pub fn midi(self) -> i32 {
        12 * (i32::from(self.octave) + 1) + self.letter.semitones() + i32::from(self.alter)
    }

    /// The pitch as screens and paper show it: G♭3, C♮4, F♯7, F𝄫3.
    ///
    /// ```
    /// assert_eq!("Gb3".parse::<pitch::SpelledPitch>()?.pretty(), "G♭3");
    /// # Ok::<(), pitch::SpellingError>(())
    /// ```
    pub fn pretty(self) -> String {
        format!("{}{}{}", self.letter, sign(self.alter, SIGNS), self.octave)
    }

    /// Whether two spellings name the same sound.
    pub fn sounds_like(self, other: Self) -> bool {
        self.midi() == other.midi()
    }
}

impl fmt::Display for SpelledPitch {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{}{}{}",
            self.letter,
            sign(self.alter, PLAIN),
            self.octave
        )
    }
}

/// Reads the file form, a bare letter (`C4`, natural), and what screens show; the letter may be
/// small.
impl FromStr for SpelledPitch {
    type Err = SpellingError;

    fn from_str(text: &str) -> Result<Self, SpellingError> {
        let given = || text.to_owned();
        let mut rest = text.chars();
        let letter = rest.next().and_then(Letter::from_char);
        let letter = letter.ok_or_else(|| SpellingError::Letter { text: given() })?;
        let rest = rest.as_str();
        let digits = rest
            .find(|c: char| c.is_ascii_digit() || c == '-')
            .unwrap_or(rest.len());
        let (accidental, octave) = rest.split_at(digits);
        let alter = read_accidental(accidental)
            .ok_or_else(|| SpellingError::Accidental { text: given() })?;
        let octave = read_octave(octave).ok_or_else(|| SpellingError::Octave { text: given() })?;
        Ok(Self {
            letter,
            alter,
            octave,
        })
    }
}

const PLAIN: [&str; 5] = ["bb", "b", "n", "#", "##"];
const SIGNS: [&str; 5] = ["𝄫", "♭", "♮", "♯", "𝄪"];

fn sign(alter: i8, signs: [&'static str; 5]) -> &'static str {
    signs[(alter.clamp(-2, 2) + 2) as usize]
}

fn read_accidental(text: &str) -> Option<i8> {
    match text {
        "" => Some(0),
        "x" | "♯♯" => Some(2),
        "♭♭" => Some(-2),
        _ => (-2..=2).find(|&alter| sign(alter, PLAIN) == text || sign(alter, SIGNS) == text),
    }
}

fn read_octave(text: &str) -> Option<i8> {
    match text.as_bytes() {
        b"-1" => Some(-1),
        [digit @ b'0'..=b'9'] => Some((digit - b'0') as i8),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, file_form: &str, pretty: &str, key: i32) {
        let pitch: SpelledPitch = text.parse().unwrap();
        assert_eq!(pitch.to_string(), file_form);
        assert_eq!(pitch.pretty(), pretty);
        assert_eq!(pitch.midi(), key);
    }

    #[test]
    fn a_pitch_is_read_in_every_form_it_is_written_in() {
        check("Gb3", "Gb3", "G♭3", 54);
        check("G♭3", "Gb3", "G♭3", 54);
        check("C4", "Cn4", "C♮4", 60);
        check("Cn4", "Cn4", "C♮4", 60);
        check("F#7", "F#7", "F♯7", 102);
        check("bb3", "Bb3", "B♭3", 58);
        check("Bbb3", "Bbb3", "B𝄫3", 57);
        check("Fx3", "F##3", "F𝄪3", 55);
        check("A-1", "An-1", "A♮-1", 9);
    }

    #[test]
    fn names_that_sound_across_the_octave_keep_their_own_octave() {
        check("Fb4", "Fb4", "F♭4", 64); // E4
        check("Cb4", "Cb4", "C♭4", 59); // B3
        check("B#3", "B#3", "B♯3", 60); // C4
    }

    #[test]
    fn what_names_no_pitch_is_refused_with_what_was_given() {
        for text in [
            "", "H3", "4", "Gq3", "G", "Gb", "G10", "G-2", "G 3", "Gb3 ", "Gbbb3", "G+3",
        ] {
            let error = text.parse::<SpelledPitch>().unwrap_err();
            assert!(error.to_string().contains(text), "{error}");
        }
    }
}
