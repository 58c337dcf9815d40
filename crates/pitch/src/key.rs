//! Major keys and their signatures.

use std::fmt;

use crate::{Alteration, Letter};

/// A major key, from C flat (seven flats) to C sharp (seven sharps).
///
/// ```
/// use pitch::{Alteration, Letter, MajorKey};
/// let e_flat = MajorKey::new(-3);
/// assert_eq!(e_flat.map(|key| key.to_string()), Some("Eb".to_owned()));
/// assert_eq!(e_flat.map(|key| key.alteration(Letter::A)), Some(Alteration::Flat));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct MajorKey {
    fifths: i8,
}

/// Letters in the order in which a signature sharpens them; flats come from its end.
const SHARPS: [Letter; 7] = [
    Letter::F,
    Letter::C,
    Letter::G,
    Letter::D,
    Letter::A,
    Letter::E,
    Letter::B,
];

impl MajorKey {
    /// The key with so many sharps (flats, when negative), −7 to 7; `None` beyond.
    pub fn new(fifths: i8) -> Option<Self> {
        (-7..=7).contains(&fifths).then_some(Self { fifths })
    }

    /// All fifteen, from seven flats to seven sharps: one fifth up at each step.
    pub fn all() -> impl Iterator<Item = Self> {
        (-7..=7).map(|fifths| Self { fifths })
    }

    /// Sharps of its signature; flats count negative.
    pub fn fifths(self) -> i8 {
        self.fifths
    }

    /// How the signature alters a letter.
    pub fn alteration(self, letter: Letter) -> Alteration {
        let count = usize::from(self.fifths.unsigned_abs());
        if self.fifths > 0 && SHARPS[..count].contains(&letter) {
            Alteration::Sharp
        } else if self.fifths < 0 && SHARPS[7 - count..].contains(&letter) {
            Alteration::Flat
        } else {
            Alteration::Natural
        }
    }

    /// Its first degree.
    pub fn tonic(self) -> (Letter, Alteration) {
        let letter = SHARPS[usize::from((self.fifths + 1).rem_euclid(7).unsigned_abs())];
        (letter, self.alteration(letter))
    }
}

/// The tonic in file form: `Eb`, `C`, `F#`.
impl fmt::Display for MajorKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (letter, alteration) = self.tonic();
        let sign = match alteration {
            Alteration::Flat => "b",
            Alteration::Natural => "",
            Alteration::Sharp => "#",
        };
        write!(f, "{letter}{sign}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_fifteen_keys_follow_the_circle_of_fifths() {
        let names: Vec<_> = MajorKey::all().map(|key| key.to_string()).collect();
        assert_eq!(names.join(" "), "Cb Gb Db Ab Eb Bb F C G D A E B F# C#");
        assert_eq!(MajorKey::new(8), None);
    }

    #[test]
    fn each_key_stands_on_the_steps_of_a_major_scale() {
        for key in MajorKey::all() {
            let (tonic, _) = key.tonic();
            let heights: Vec<i32> = (0..8)
                .map(|step| {
                    let place = tonic.index() + step;
                    let letter = Letter::ALL[place % 7];
                    let octave = 12 * i32::from(place >= 7);
                    letter.semitones() + i32::from(key.alteration(letter).semitones()) + octave
                })
                .collect();
            let steps: Vec<i32> = heights.windows(2).map(|pair| pair[1] - pair[0]).collect();
            assert_eq!(steps, [2, 2, 1, 2, 2, 2, 1], "{key}");
        }
    }
}
