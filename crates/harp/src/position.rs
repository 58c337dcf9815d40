//! Where all the pedals or levers stand at once.

use std::fmt;

/// Every pedal or lever in the same place: the three positions of a regulation check.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Position {
    /// Every pedal up, every lever off: the position in which a harp is tuned.
    #[default]
    Open,
    /// Every pedal in the middle; on a lever harp, the levers of the flat strings on, so that
    /// every string stands at natural where it has a lever.
    Natural,
    /// Every pedal down; on a lever harp, every lever on, whatever it then sounds.
    Sharp,
}

impl Position {
    /// All three, in the order of a regulation check.
    pub const ALL: [Self; 3] = [Self::Open, Self::Natural, Self::Sharp];

    /// The word used in files and commands: `open`, `natural`, `sharp`.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Natural => "natural",
            Self::Sharp => "sharp",
        }
    }

    /// The position of a word; `flat` is another name for `open`. `None` for any other.
    ///
    /// ```
    /// assert_eq!(harp::Position::from_name("natural"), Some(harp::Position::Natural));
    /// ```
    pub fn from_name(name: &str) -> Option<Self> {
        match name {
            "open" | "flat" => Some(Self::Open),
            "natural" => Some(Self::Natural),
            "sharp" => Some(Self::Sharp),
            _ => None,
        }
    }
}

impl fmt::Display for Position {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}
