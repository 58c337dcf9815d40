//! Names of strings: `G3` (letter and scientific octave) and `4G` (the harp's own number).

use std::cmp::Ordering;
use std::fmt;
use std::str::FromStr;

use pitch::{Letter, harp_octave, scientific_octave};

/// A string, named by what is written for it with every pedal on natural.
///
/// `G3` whatever its position; `F#3` only on an instrument that is not a harp. Read in both
/// countings: letter first is scientific, digit first is the harp's own.
///
/// ```
/// use harp::StringName;
/// let string: StringName = "4G".parse()?;
/// assert_eq!(string.to_string(), "G3");
/// assert_eq!(string.harp_number(), "4G");
/// # Ok::<(), harp::StringNameError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct StringName {
    /// The letter.
    pub letter: Letter,
    /// Whether it is the semitone above the letter (C, D, F, G, A only).
    pub sharp: bool,
    /// Scientific octave, 0 to 8; middle C begins octave 4.
    pub octave: i8,
}

/// A text that names no string.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StringNameError {
    /// Neither form.
    #[error("'{text}' names no string: write G3 (scientific) or 4G (the harp's own number)")]
    Malformed {
        /// What was given.
        text: String,
    },
    /// Below C0 or above E8.
    #[error("'{text}' lies outside every instrument: strings run from C0 (8C) to E8 (0E)")]
    OutOfRange {
        /// What was given.
        text: String,
    },
}

impl StringName {
    /// The string of a letter in a scientific octave.
    pub fn new(letter: Letter, octave: i8) -> Self {
        Self {
            letter,
            sharp: false,
            octave,
        }
    }

    /// The harp's own number, octave first: `4G`, `0G`, `7C`; a semitone keeps its sign, `4F#`.
    ///
    /// ```
    /// use harp::StringName;
    /// use pitch::Letter;
    /// assert_eq!(StringName::new(Letter::C, 1).harp_number(), "7C");
    /// ```
    pub fn harp_number(self) -> String {
        let sign = if self.sharp { "#" } else { "" };
        format!(
            "{}{}{sign}",
            harp_octave(self.letter, self.octave),
            self.letter
        )
    }

    /// Sounding key number (A4 = 69) of the string as written, every pedal on natural.
    pub fn key(self) -> i32 {
        12 * (i32::from(self.octave) + 1) + self.letter.semitones() + i32::from(self.sharp)
    }

    /// The next string above among the letters, without regard to any harp.
    pub fn next_letter(self) -> Self {
        match self.letter {
            Letter::B => Self::new(Letter::C, self.octave.saturating_add(1)),
            other => Self::new(Letter::ALL[other.index() + 1], self.octave),
        }
    }
}

impl fmt::Display for StringName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sign = if self.sharp { "#" } else { "" };
        write!(f, "{}{sign}{}", self.letter, self.octave)
    }
}

/// By written pitch, from the bass.
impl Ord for StringName {
    fn cmp(&self, other: &Self) -> Ordering {
        let place = |name: &Self| (name.key(), name.octave, name.letter);
        place(self).cmp(&place(other))
    }
}

impl PartialOrd for StringName {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl FromStr for StringName {
    type Err = StringNameError;

    fn from_str(text: &str) -> Result<Self, StringNameError> {
        let read = if text.starts_with(|c: char| c.is_ascii_digit()) {
            read_harp_number(text)
        } else {
            read_scientific(text)
        };
        let name = read.ok_or_else(|| StringNameError::Malformed {
            text: text.to_owned(),
        })?;
        if (LOWEST..=HIGHEST).contains(&name) {
            Ok(name)
        } else {
            Err(StringNameError::OutOfRange {
                text: text.to_owned(),
            })
        }
    }
}

const LOWEST: StringName = StringName {
    letter: Letter::C,
    sharp: false,
    octave: 0,
};
const HIGHEST: StringName = StringName {
    letter: Letter::E,
    sharp: false,
    octave: 8,
};

fn read_scientific(text: &str) -> Option<StringName> {
    let digits = text.find(|c: char| c.is_ascii_digit())?;
    let (written, octave) = text.split_at(digits);
    let (letter, sharp) = read_letter(written)?;
    Some(StringName {
        letter,
        sharp,
        octave: read_digit(octave)?,
    })
}

/// Octave 0 may be written 0 or 00, as some do for the two top strings.
fn read_harp_number(text: &str) -> Option<StringName> {
    let letters = text.find(|c: char| !c.is_ascii_digit())?;
    let (number, written) = text.split_at(letters);
    let number = if number == "00" {
        0
    } else {
        read_digit(number)?
    };
    let (letter, sharp) = read_letter(written)?;
    let octave = i8::try_from(scientific_octave(letter, i32::from(number))).ok()?;
    Some(StringName {
        letter,
        sharp,
        octave,
    })
}

fn read_letter(written: &str) -> Option<(Letter, bool)> {
    let mut written = written.chars();
    let letter = Letter::from_char(written.next()?)?;
    match written.as_str() {
        "" => Some((letter, false)),
        "#" | "♯" if !matches!(letter, Letter::E | Letter::B) => Some((letter, true)),
        _ => None,
    }
}

fn read_digit(text: &str) -> Option<i8> {
    match text.as_bytes() {
        [digit @ b'0'..=b'9'] => Some((digit - b'0') as i8),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, scientific: &str, harp_number: &str) {
        let name: StringName = text.parse().unwrap();
        assert_eq!(name.to_string(), scientific);
        assert_eq!(name.harp_number(), harp_number);
        assert_eq!(scientific.parse(), Ok(name));
        assert_eq!(harp_number.parse(), Ok(name));
    }

    #[test]
    fn letter_first_is_scientific_and_digit_first_is_the_harps_own() {
        check("C4", "C4", "4C");
        check("4C", "C4", "4C");
        check("A4", "A4", "3A");
        check("4A", "A3", "4A");
        check("00G", "G7", "0G");
        check("00F", "F7", "0F");
        check("0g", "G7", "0G");
        check("g3", "G3", "4G");
        check("F#3", "F#3", "4F#");
        check("B0", "B0", "7B");
    }

    #[test]
    fn what_names_no_string_is_refused_with_what_was_given() {
        for text in [
            "", "G", "4", "H4", "Gb3", "E#4", "B#2", "G33", "44G", "000G", "4GG", "G-1",
        ] {
            let error = text.parse::<StringName>().unwrap_err();
            assert!(error.to_string().contains(text), "{error}");
        }
        for text in ["F8", "G9", "9C"] {
            let error = text.parse::<StringName>().unwrap_err();
            assert!(
                matches!(error, StringNameError::OutOfRange { .. }),
                "{error}"
            );
        }
    }

    #[test]
    fn strings_are_ordered_by_written_pitch() {
        let mut names: Vec<StringName> = ["C4", "B3", "F#3", "F3", "G3", "C1"]
            .map(|name| name.parse().unwrap())
            .to_vec();
        names.sort();
        let names: Vec<_> = names.iter().map(ToString::to_string).collect();
        assert_eq!(names, ["C1", "F3", "F#3", "G3", "B3", "C4"]);
    }
}
