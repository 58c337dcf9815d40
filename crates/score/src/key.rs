//! Key signatures as they are written.

use pitch::{Alteration, Letter, MajorKey};

use crate::Letters;

/// A key signature: usual ones by their sharps, others letter by letter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct KeySignature {
    fifths: Option<i8>,
    letters: Letters,
}

impl KeySignature {
    /// The signature with so many sharps (flats, when negative), −7 to 7; `None` beyond.
    pub fn of_fifths(fifths: i8) -> Option<Self> {
        let key = MajorKey::new(fifths)?;
        let letters = Letter::ALL
            .into_iter()
            .fold(Letters::default(), |letters, letter| {
                letters.with(letter, key.alteration(letter))
            });
        Some(Self {
            fifths: Some(fifths),
            letters,
        })
    }

    /// A signature of single letters; those that are not named are natural.
    pub fn of_letters(letters: Letters) -> Self {
        let natural = Letter::ALL
            .into_iter()
            .fold(Letters::default(), |all, letter| {
                all.with(letter, Alteration::Natural)
            });
        Self {
            fifths: None,
            letters: letters.or(natural),
        }
    }

    /// Sharps; flats count negative; `None` for a signature of single letters.
    pub fn fifths(&self) -> Option<i8> {
        self.fifths
    }

    /// What it makes of each of the seven letters.
    pub fn letters(&self) -> Letters {
        self.letters
    }
}

/// No sharps and no flats.
impl Default for KeySignature {
    fn default() -> Self {
        Self {
            fifths: Some(0),
            ..Self::of_letters(Letters::default())
        }
    }
}
