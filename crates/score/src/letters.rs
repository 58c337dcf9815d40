//! The alterations of up to seven letters, as a diagram, pedal letters or a key give them.

use std::fmt;

use pitch::{Alteration, Letter};

/// What is known of each letter: its alteration, or nothing.
///
/// ```
/// use pitch::{Alteration, Letter};
/// let letters = score::Letters::default().with(Letter::F, Alteration::Sharp);
/// assert_eq!(letters.get(Letter::F), Some(Alteration::Sharp));
/// assert_eq!(letters.get(Letter::G), None);
/// assert_eq!(letters.to_string(), "F♯");
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Letters {
    known: [Option<Alteration>; 7],
}

impl Letters {
    /// The alteration of a letter, where it is known.
    pub fn get(&self, letter: Letter) -> Option<Alteration> {
        self.known[letter.index()]
    }

    /// The same with one letter set.
    #[must_use]
    pub fn with(mut self, letter: Letter, alteration: Alteration) -> Self {
        self.known[letter.index()] = Some(alteration);
        self
    }

    /// Sets one letter.
    pub fn set(&mut self, letter: Letter, alteration: Alteration) {
        self.known[letter.index()] = Some(alteration);
    }

    /// The same, with what `other` knows where this knows nothing.
    #[must_use]
    pub fn or(mut self, other: Self) -> Self {
        for (own, theirs) in self.known.iter_mut().zip(other.known) {
            *own = own.or(theirs);
        }
        self
    }

    /// The letters that are known, C first.
    pub fn known(&self) -> impl Iterator<Item = (Letter, Alteration)> + '_ {
        Letter::ALL
            .into_iter()
            .filter_map(|letter| self.get(letter).map(|alteration| (letter, alteration)))
    }

    /// Whether all seven are known.
    pub fn is_complete(&self) -> bool {
        self.known.iter().all(Option::is_some)
    }
}

/// As a player reads them, C first: `C♮ F♯ B♭`; nothing for letters that are not known.
impl fmt::Display for Letters {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (place, (letter, alteration)) in self.known().enumerate() {
            let sign = match alteration {
                Alteration::Flat => '♭',
                Alteration::Natural => '♮',
                Alteration::Sharp => '♯',
            };
            let gap = if place == 0 { "" } else { " " };
            write!(f, "{gap}{letter}{sign}")?;
        }
        Ok(())
    }
}
