//! The seven letters of the scale.

use std::fmt;

/// A letter of the scale, in the order of one scientific octave (C lowest).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Letter {
    /// C
    C,
    /// D
    D,
    /// E
    E,
    /// F
    F,
    /// G
    G,
    /// A
    A,
    /// B (H in German)
    B,
}

impl Letter {
    /// The seven letters from C to B.
    pub const ALL: [Self; 7] = [
        Self::C,
        Self::D,
        Self::E,
        Self::F,
        Self::G,
        Self::A,
        Self::B,
    ];

    /// Place in the octave, 0 (C) to 6 (B).
    pub fn index(self) -> usize {
        self as usize
    }

    /// Semitones of the natural above the C below it: 0, 2, 4, 5, 7, 9, 11.
    ///
    /// ```
    /// assert_eq!(pitch::Letter::A.semitones(), 9);
    /// ```
    pub fn semitones(self) -> i32 {
        [0, 2, 4, 5, 7, 9, 11][self.index()]
    }

    /// The letter of an English name, small or capital; `None` for anything else.
    ///
    /// ```
    /// use pitch::Letter;
    /// assert_eq!(Letter::from_char('g'), Some(Letter::G));
    /// assert_eq!(Letter::from_char('H'), None);
    /// ```
    pub fn from_char(c: char) -> Option<Self> {
        let c = c.to_ascii_uppercase();
        Self::ALL.into_iter().find(|letter| letter.as_char() == c)
    }

    /// The English capital, `'A'` to `'G'`.
    pub fn as_char(self) -> char {
        ['C', 'D', 'E', 'F', 'G', 'A', 'B'][self.index()]
    }
}

impl fmt::Display for Letter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.as_char())
    }
}
