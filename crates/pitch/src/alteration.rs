//! Flat, natural and sharp: the three places of a pedal.

use std::fmt;

/// What a pedal, a lever or an accidental does to a letter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Alteration {
    /// A semitone below the letter.
    Flat,
    /// The letter itself.
    Natural,
    /// A semitone above the letter.
    Sharp,
}

impl Alteration {
    /// All three, from the lowest.
    pub const ALL: [Self; 3] = [Self::Flat, Self::Natural, Self::Sharp];

    /// The word used in files: `flat`, `natural` or `sharp`.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Natural => "natural",
            Self::Sharp => "sharp",
        }
    }

    /// Semitones above the letter: −1, 0 or 1.
    pub fn semitones(self) -> i8 {
        match self {
            Self::Flat => -1,
            Self::Natural => 0,
            Self::Sharp => 1,
        }
    }

    /// The alteration of so many semitones; `None` outside −1 to 1.
    ///
    /// ```
    /// use pitch::Alteration;
    /// assert_eq!(Alteration::from_semitones(-1), Some(Alteration::Flat));
    /// assert_eq!(Alteration::from_semitones(2), None);
    /// ```
    pub fn from_semitones(semitones: i64) -> Option<Self> {
        match semitones {
            -1 => Some(Self::Flat),
            0 => Some(Self::Natural),
            1 => Some(Self::Sharp),
            _ => None,
        }
    }
}

impl fmt::Display for Alteration {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}
