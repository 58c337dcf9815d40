//! Names of pitches in English, German and solfège.

use crate::{Letter, SpelledPitch};

/// The language in which notes are named.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Language {
    /// C D E F G A B; B is a semitone below C.
    #[default]
    English,
    /// C D E F G A H, with Ces, Cis…; B is a whole tone below C.
    German,
    /// do ré mi fa sol la si, with bémol and dièse.
    Solfege,
}

impl Language {
    /// All three.
    pub const ALL: [Self; 3] = [Self::English, Self::German, Self::Solfege];

    /// The name of a pitch without its octave, as written: G♭, Ges, sol♭; a natural is bare.
    ///
    /// ```
    /// use pitch::{Language, SpelledPitch};
    /// let b_flat: SpelledPitch = "Bb3".parse()?;
    /// assert_eq!(Language::English.name(b_flat), "B♭");
    /// assert_eq!(Language::German.name(b_flat), "B");
    /// assert_eq!(Language::Solfege.name(b_flat), "si♭");
    /// # Ok::<(), pitch::SpellingError>(())
    /// ```
    pub fn name(self, pitch: SpelledPitch) -> String {
        let sign = ["𝄫", "♭", "", "♯", "𝄪"][place(pitch.alter)];
        match self {
            Self::English => format!("{}{sign}", pitch.letter),
            Self::German => german(pitch.letter, pitch.alter),
            Self::Solfege => format!("{}{sign}", SOLFEGE[pitch.letter.index()]),
        }
    }

    /// The name of a pitch without its octave, as a voice or a screen reader says it:
    /// "G flat", "Ges", "sol bémol".
    ///
    /// ```
    /// use pitch::{Language, SpelledPitch};
    /// let pitch: SpelledPitch = "F##3".parse()?;
    /// assert_eq!(Language::English.spoken(pitch), "F double sharp");
    /// assert_eq!(Language::Solfege.spoken(pitch), "fa double dièse");
    /// # Ok::<(), pitch::SpellingError>(())
    /// ```
    pub fn spoken(self, pitch: SpelledPitch) -> String {
        let word = match self {
            Self::English => [" double flat", " flat", "", " sharp", " double sharp"],
            Self::German => return german(pitch.letter, pitch.alter),
            Self::Solfege => [" double bémol", " bémol", "", " dièse", " double dièse"],
        };
        let letter = match self {
            Self::Solfege => SOLFEGE[pitch.letter.index()].to_owned(),
            Self::English | Self::German => pitch.letter.to_string(),
        };
        letter + word[place(pitch.alter)]
    }

    /// Reads a name without octave, written or spoken, in this language: the letter and its
    /// semitones (−2 to 2); `None` for what is no name. Capitals do not matter.
    ///
    /// ```
    /// use pitch::{Language, Letter};
    /// assert_eq!(Language::German.read("B"), Some((Letter::B, -1)));
    /// assert_eq!(Language::German.read("H"), Some((Letter::B, 0)));
    /// ```
    pub fn read(self, name: &str) -> Option<(Letter, i8)> {
        let name = name.to_lowercase();
        every_name().find_map(|pitch| {
            let known = [self.name(pitch), self.spoken(pitch)];
            let known = known.iter().any(|known| known.to_lowercase() == name);
            known.then_some((pitch.letter, pitch.alter))
        })
    }
}

const SOLFEGE: [&str; 7] = ["do", "ré", "mi", "fa", "sol", "la", "si"];

fn place(alter: i8) -> usize {
    (alter.clamp(-2, 2) + 2) as usize
}

fn german(letter: Letter, alter: i8) -> String {
    match (letter, alter) {
        (Letter::B, -1) => "B".to_owned(),
        (Letter::E | Letter::A, -1) => format!("{letter}s"),
        (Letter::A, -2) => "Asas".to_owned(),
        (Letter::E, -2) => "Eses".to_owned(),
        _ => {
            let stem = if letter == Letter::B {
                'H'
            } else {
                letter.as_char()
            };
            format!("{stem}{}", ["eses", "es", "", "is", "isis"][place(alter)])
        }
    }
}

fn every_name() -> impl Iterator<Item = SpelledPitch> {
    Letter::ALL.into_iter().flat_map(|letter| {
        (-2..=2).map(move |alter| SpelledPitch {
            letter,
            alter,
            octave: 4,
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(language: Language, pitches: &str, names: &str) {
        let found: Vec<_> = pitches
            .split(' ')
            .map(|pitch| language.name(pitch.parse().unwrap()))
            .collect();
        assert_eq!(found.join(" "), names);
    }

    // The German names: common usage, no single source.
    #[test]
    fn the_open_harp_is_named_in_three_languages() {
        let open = "Cb4 Db4 Eb4 Fb4 Gb4 Ab4 Bb4";
        check(Language::English, open, "C♭ D♭ E♭ F♭ G♭ A♭ B♭");
        check(Language::German, open, "Ces Des Es Fes Ges As B");
        check(Language::Solfege, open, "do♭ ré♭ mi♭ fa♭ sol♭ la♭ si♭");
    }

    #[test]
    fn german_calls_the_natural_h_and_doubles_the_ending() {
        check(Language::German, "B4 B#4 F#4 E#4", "H His Fis Eis");
        check(
            Language::German,
            "Ebb4 Abb4 Bbb4 F##4",
            "Eses Asas Heses Fisis",
        );
    }

    #[test]
    fn every_name_is_read_back_as_the_same_pitch() {
        let mut cases = 0;
        for language in Language::ALL {
            for pitch in every_name() {
                for name in [language.name(pitch), language.spoken(pitch)] {
                    assert_eq!(
                        language.read(&name),
                        Some((pitch.letter, pitch.alter)),
                        "{name}"
                    );
                    cases += 1;
                }
            }
        }
        assert_eq!(cases, 3 * 35 * 2);
        assert_eq!(Language::English.read("H"), None);
    }
}
