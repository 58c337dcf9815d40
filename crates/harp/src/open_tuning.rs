//! Open tunings: how a harp stands with every pedal up or every lever off.

use std::fmt;

use pitch::{Alteration, Letter, MajorKey};

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
        self.key()
            .map_or(Alteration::Natural, |key| key.alteration(letter))
    }

    /// The major key itself.
    pub fn key(self) -> Option<MajorKey> {
        MajorKey::new(match self {
            Self::Cb => -7,
            Self::Ab => -4,
            Self::Eb => -3,
            Self::F => -1,
            Self::C => 0,
        })
    }

    /// The major keys that a harp open in this key plays with a lever on every string, each lever
    /// raising it one semitone: its own key and the next seven up the circle of fifths.
    ///
    /// ```
    /// let keys: Vec<_> =
    ///     harp::OpenTuning::Eb.lever_keys().iter().map(|key| key.to_string()).collect();
    /// assert_eq!(keys.join(" "), "Eb Bb F C G D A E");
    /// ```
    pub fn lever_keys(self) -> Vec<MajorKey> {
        let reaches = |key: MajorKey, letter| {
            let open = self.alteration(letter);
            let wanted = key.alteration(letter);
            wanted == open || wanted.semitones() == open.semitones() + 1
        };
        MajorKey::all()
            .filter(|&key| Letter::ALL.into_iter().all(|letter| reaches(key, letter)))
            .collect()
    }
}

impl fmt::Display for OpenTuning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}
