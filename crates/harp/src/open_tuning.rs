//! Open tunings: how a harp stands with every pedal up or every lever off.

use std::fmt;

use pitch::{Alteration, Letter};

/// The major key in which the open strings stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum OpenTuning {
    /// C flat major: a pedal harp with all pedals up.
    Cb,
    /// E flat major, the commonest of lever harps.
    Eb,
    /// C major.
    C,
    /// F major.
    F,
    /// A flat major.
    Ab,
}

impl OpenTuning {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Cb, Self::Eb, Self::C, Self::F, Self::Ab];

    /// The key's name in files: `Cb`, `Eb`, `C`, `F`, `Ab`.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Cb => "Cb",
            Self::Eb => "Eb",
            Self::C => "C",
            Self::F => "F",
            Self::Ab => "Ab",
        }
    }

    /// The tuning of a name as [`OpenTuning::as_str`] writes it, or with ♭; `None` for any other.
    ///
    /// ```
    /// assert_eq!(harp::OpenTuning::from_name("E♭"), Some(harp::OpenTuning::Eb));
    /// assert_eq!(harp::OpenTuning::from_name("D"), None);
    /// ```
    pub fn from_name(name: &str) -> Option<Self> {
        let name = name.replace('♭', "b");
        Self::ALL
            .into_iter()
            .find(|open| open.as_str().eq_ignore_ascii_case(&name))
    }

    /// Flat or natural: how the open strings of a letter stand in this key.
    ///
    /// ```
    /// use pitch::{Alteration, Letter};
    /// assert_eq!(harp::OpenTuning::Eb.alteration(Letter::A), Alteration::Flat);
    /// ```
    pub fn alteration(self, letter: Letter) -> Alteration {
        let flats: &[Letter] = match self {
            Self::Cb => &Letter::ALL,
            Self::Eb => &[Letter::B, Letter::E, Letter::A],
            Self::C => &[],
            Self::F => &[Letter::B],
            Self::Ab => &[Letter::B, Letter::E, Letter::A, Letter::D],
        };
        if flats.contains(&letter) {
            Alteration::Flat
        } else {
            Alteration::Natural
        }
    }
}

impl fmt::Display for OpenTuning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}
