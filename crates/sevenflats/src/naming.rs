//! How strings and pitches are written for people: the octave's number and the letters' language.
//! JSON and files are not touched by it: there a string is always `G3`.

use std::str::FromStr;

use harp::StringName;
use pitch::{Alteration, Language, SpelledPitch};
use thiserror::Error;

/// The two choices behind `--names`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Naming {
    /// Whose octave number is shown.
    pub numbers: Numbers,
    /// In which language letters are named.
    pub language: Language,
}

/// Whose octave number is shown: never both on one page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Numbers {
    /// The harp's own, counted from the top and said first: 4G.
    #[default]
    Harp,
    /// Scientific, said last: G3.
    Scientific,
}

impl From<Numbers> for sheet::Names {
    fn from(numbers: Numbers) -> Self {
        match numbers {
            Numbers::Harp => Self::Harp,
            Numbers::Scientific => Self::Scientific,
        }
    }
}

/// A word that `--names` does not know.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error(
    "'{word}' is no way of naming: say harp (4G) or scientific (G3), english, german or solfege, or one of each with a comma between: scientific,german"
)]
pub struct NamingError {
    /// The word.
    pub word: String,
}

impl Naming {
    /// A string: 4G or G3; 4sol or sol3 in solfège.
    pub fn string(self, string: StringName) -> String {
        let alter = i8::from(string.sharp);
        let pitch = SpelledPitch {
            letter: string.letter,
            alter,
            octave: 4,
        };
        let letter = self.language.name(pitch);
        match self.numbers {
            Numbers::Scientific => format!("{letter}{}", string.octave),
            Numbers::Harp => {
                let octave = pitch::harp_octave(string.letter, string.octave);
                format!("{octave}{letter}")
            }
        }
    }

    /// A string as it can be typed after an option, in the same numbers, whatever the language.
    pub fn typed(self, string: StringName) -> String {
        match self.numbers {
            Numbers::Harp => string.harp_number(),
            Numbers::Scientific => string.to_string(),
        }
    }

    /// Several strings: 4C or 3B.
    pub fn strings(self, strings: &[StringName]) -> String {
        strings
            .iter()
            .map(|&string| self.string(string))
            .collect::<Vec<_>>()
            .join(" or ")
    }

    /// What a string sounds, without an octave: G♭, Ges, sol♭.
    pub fn sounding(self, string: StringName, alteration: Alteration) -> String {
        self.language
            .name(SpelledPitch::new(string.letter, alteration, 4))
    }

    /// What a chromatic display shows, without its octave: `F#3` → F♯.
    pub fn display(self, shown: &str) -> String {
        match shown.parse::<SpelledPitch>() {
            Ok(pitch) => self.language.name(pitch),
            Err(_) => shown.to_owned(),
        }
    }
}

impl FromStr for Naming {
    type Err = NamingError;

    fn from_str(text: &str) -> Result<Naming, NamingError> {
        let mut naming = Naming::default();
        for word in text.split(',').map(str::trim) {
            match word.to_lowercase().as_str() {
                "harp" => naming.numbers = Numbers::Harp,
                "scientific" => naming.numbers = Numbers::Scientific,
                "english" => naming.language = Language::English,
                "german" => naming.language = Language::German,
                "solfege" | "solfège" => naming.language = Language::Solfege,
                _ => {
                    return Err(NamingError {
                        word: word.to_owned(),
                    });
                }
            }
        }
        Ok(naming)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(names: &str, string: &str, expected: &str, flat: &str, shown: &str) {
        let naming: Naming = names.parse().unwrap();
        let string: StringName = string.parse().unwrap();
        assert_eq!(naming.string(string), expected);
        assert_eq!(naming.sounding(string, Alteration::Flat), flat);
        assert_eq!(naming.display("F#3"), shown);
    }

    #[test]
    fn strings_are_named_as_the_reader_chose() {
        check("harp", "G3", "4G", "G♭", "F♯");
        check("scientific", "4G", "G3", "G♭", "F♯");
        check("german", "B3", "4H", "B", "Fis");
        check("scientific,german", "B3", "H3", "B", "Fis");
        check("solfege", "G3", "4sol", "sol♭", "fa♯");
    }

    #[test]
    fn an_unknown_way_of_naming_is_said() {
        assert_eq!(
            "scientific,runic".parse::<Naming>().unwrap_err().word,
            "runic"
        );
    }
}
