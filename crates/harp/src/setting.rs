//! A setting: where the seven pedals stand, `{"D":0,"C":-1,"B":-1,"E":0,"F":0,"G":1,"A":-1}`.

use std::fmt;
use std::str::FromStr;

use pitch::{Alteration, Letter, MajorKey};

/// The alterations of up to seven letters; a letter that is not named stands as the position says.
///
/// ```
/// use harp::Setting;
/// use pitch::{Alteration, Letter};
/// let setting: Setting = r#"{"D":0, "C":-1}"#.parse()?;
/// assert_eq!(setting.get(Letter::C), Some(Alteration::Flat));
/// assert_eq!(setting.get(Letter::G), None);
/// # Ok::<(), harp::SettingError>(())
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Setting {
    letters: [Option<Alteration>; 7],
}

/// How many pedals move from one setting to another, and how far in all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PedalMoves {
    /// Pedals that move, 0 to 7.
    pub pedals: u32,
    /// Notches they move, 0 to 14.
    pub notches: u32,
}

/// A text that is no setting.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SettingError {
    /// Not of the form `{"D":0,"C":-1}`.
    #[error(r#"a setting is written {{"D":0,"C":-1,…}}; from character {at} on it says '{rest}'"#)]
    Form {
        /// Characters before the place, from 0.
        at: usize,
        /// What stands there, at most 12 characters.
        rest: String,
    },
    /// A name that is none of the seven letters.
    #[error("'{name}' in a setting is none of the letters D C B E F G A")]
    Letter {
        /// The name given.
        name: String,
    },
    /// A value other than −1, 0 and 1.
    #[error("{letter} is set to {value}: only -1 (flat), 0 (natural) and 1 (sharp) exist")]
    Value {
        /// The letter.
        letter: Letter,
        /// What was given for it.
        value: String,
    },
    /// The same letter twice.
    #[error("{letter} stands twice in the setting")]
    Twice {
        /// The letter.
        letter: Letter,
    },
}

impl Setting {
    /// The letters as their pedals stand from left to right: left foot D C B, right foot E F G A.
    pub const PEDAL_ORDER: [Letter; 7] = [
        Letter::D,
        Letter::C,
        Letter::B,
        Letter::E,
        Letter::F,
        Letter::G,
        Letter::A,
    ];

    /// A setting from (letter, semitones) pairs, each −1, 0 or 1 and no letter twice.
    ///
    /// ```
    /// use harp::Setting;
    /// use pitch::Letter;
    /// assert!(Setting::from_pairs(&[(Letter::G, 1)]).is_ok());
    /// assert!(Setting::from_pairs(&[(Letter::G, 2)]).is_err());
    /// ```
    pub fn from_pairs(pairs: &[(Letter, i64)]) -> Result<Self, SettingError> {
        let mut setting = Self::default();
        for &(letter, semitones) in pairs {
            let alteration =
                Alteration::from_semitones(semitones).ok_or_else(|| SettingError::Value {
                    letter,
                    value: semitones.to_string(),
                })?;
            setting.add(letter, alteration)?;
        }
        Ok(setting)
    }

    /// Where the pedal of a letter stands, if the setting names it.
    pub fn get(&self, letter: Letter) -> Option<Alteration> {
        self.letters[letter.index()]
    }

    /// The same setting with one letter set.
    #[must_use]
    pub fn with(mut self, letter: Letter, alteration: Alteration) -> Self {
        self.letters[letter.index()] = Some(alteration);
        self
    }

    /// The setting of a major key's signature, all seven letters named.
    ///
    /// ```
    /// let e_flat = pitch::MajorKey::new(-3).map(|key| harp::Setting::of_key(key).to_string());
    /// assert_eq!(e_flat.as_deref(), Some(r#"{"D":0,"C":0,"B":-1,"E":-1,"F":0,"G":0,"A":-1}"#));
    /// ```
    pub fn of_key(key: MajorKey) -> Self {
        Letter::ALL
            .into_iter()
            .fold(Self::default(), |setting, letter| {
                setting.with(letter, key.alteration(letter))
            })
    }

    /// What it takes to go from this setting to another; a letter that either leaves unnamed is
    /// left where it stands.
    pub fn moves_to(&self, other: &Self) -> PedalMoves {
        let mut moves = PedalMoves {
            pedals: 0,
            notches: 0,
        };
        for (from, to) in self.letters.iter().zip(other.letters) {
            if let (&Some(from), Some(to)) = (from, to) {
                moves.pedals += u32::from(from != to);
                moves.notches += u32::from(from.semitones().abs_diff(to.semitones()));
            }
        }
        moves
    }

    /// Whether all seven letters are named.
    pub fn is_complete(&self) -> bool {
        self.letters.iter().all(Option::is_some)
    }

    fn add(&mut self, letter: Letter, alteration: Alteration) -> Result<(), SettingError> {
        let place = &mut self.letters[letter.index()];
        if place.is_some() {
            return Err(SettingError::Twice { letter });
        }
        *place = Some(alteration);
        Ok(())
    }
}

/// In pedal order, as files hold it; letters that are not named are left out.
impl fmt::Display for Setting {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let named = Self::PEDAL_ORDER.iter().filter_map(|&letter| {
            self.get(letter)
                .map(|alteration| format!("\"{letter}\":{}", alteration.semitones()))
        });
        write!(f, "{{{}}}", named.collect::<Vec<_>>().join(","))
    }
}

/// Reads a JSON object whose keys are single letters and whose values are −1, 0 or 1.
impl FromStr for Setting {
    type Err = SettingError;

    fn from_str(text: &str) -> Result<Self, SettingError> {
        let mut reader = Reader { text, at: 0 };
        let mut setting = Self::default();
        reader.expect('{')?;
        if reader.take('}') {
            return reader.expect_end().map(|()| setting);
        }
        loop {
            let letter = reader.letter()?;
            reader.expect(':')?;
            let alteration = reader.alteration(letter)?;
            setting.add(letter, alteration)?;
            if !reader.take(',') {
                reader.expect('}')?;
                return reader.expect_end().map(|()| setting);
            }
        }
    }
}

/// A place in the text; JSON's blanks are skipped before every sign.
struct Reader<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Reader<'a> {
    fn rest(&mut self) -> &'a str {
        let rest = &self.text[self.at..];
        let trimmed = rest.trim_start_matches([' ', '\t', '\n', '\r']);
        self.at += rest.len() - trimmed.len();
        trimmed
    }

    fn take(&mut self, sign: char) -> bool {
        let found = self.rest().starts_with(sign);
        if found {
            self.at += sign.len_utf8();
        }
        found
    }

    fn expect(&mut self, sign: char) -> Result<(), SettingError> {
        if self.take(sign) {
            Ok(())
        } else {
            Err(self.form())
        }
    }

    fn expect_end(&mut self) -> Result<(), SettingError> {
        if self.rest().is_empty() {
            Ok(())
        } else {
            Err(self.form())
        }
    }

    fn letter(&mut self) -> Result<Letter, SettingError> {
        self.expect('"')?;
        let rest = &self.text[self.at..];
        let end = rest.find('"').ok_or_else(|| self.form())?;
        let name = &rest[..end];
        self.at += end + 1;
        let mut signs = name.chars();
        match (signs.next(), signs.next()) {
            (Some(sign), None) if sign.is_ascii_uppercase() => Letter::from_char(sign),
            _ => None,
        }
        .ok_or_else(|| SettingError::Letter {
            name: name.to_owned(),
        })
    }

    fn alteration(&mut self, letter: Letter) -> Result<Alteration, SettingError> {
        let rest = self.rest();
        let value = rest
            .split([',', '}', ' ', '\t', '\n', '\r'])
            .next()
            .unwrap_or(rest);
        if value.is_empty() {
            return Err(self.form());
        }
        self.at += value.len();
        match value {
            "-1" => Ok(Alteration::Flat),
            "0" => Ok(Alteration::Natural),
            "1" => Ok(Alteration::Sharp),
            _ => Err(SettingError::Value {
                letter,
                value: value.to_owned(),
            }),
        }
    }

    fn form(&self) -> SettingError {
        SettingError::Form {
            at: self.text[..self.at].chars().count(),
            rest: self.text[self.at..].chars().take(12).collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_refused(text: &str, message: &str) {
        let error = text.parse::<Setting>().unwrap_err().to_string();
        assert!(error.contains(message), "{text}: {error}");
    }

    #[test]
    fn a_full_setting_is_written_as_it_was_read() {
        let text = r#"{"D":0,"C":-1,"B":-1,"E":0,"F":0,"G":1,"A":-1}"#;
        let setting: Setting = text.parse().unwrap();
        assert!(setting.is_complete());
        assert_eq!(setting.get(Letter::G), Some(Alteration::Sharp));
        assert_eq!(setting.to_string(), text);
        assert_eq!("{ }".parse::<Setting>().unwrap().to_string(), "{}");
    }

    #[test]
    fn an_error_names_the_letter_and_the_value() {
        check_refused(r#"{"D":2}"#, "D is set to 2");
        check_refused(r#"{"D":0,"G":"sharp"}"#, r#"G is set to "sharp""#);
        check_refused(r#"{"H":0}"#, "'H'");
        check_refused(r#"{"d":0}"#, "'d'");
        check_refused(r#"{"D":0,"D":0}"#, "D stands twice");
        check_refused(r#"{"D":0.5}"#, "0.5");
    }

    #[test]
    fn what_is_no_setting_is_refused_with_its_place() {
        check_refused("", "character 0");
        check_refused("D:0", "D:0");
        check_refused(r#"{"D":0,}"#, "character 7");
        check_refused(r#"{"D":0} x"#, "'x'");
        check_refused(r#"{"D" 0}"#, "'0}'");
        check_refused(r#"{"D":}"#, "'}'");
        check_refused(r#"{"D"#, "character 2");
    }
}
