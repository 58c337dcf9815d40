//! The harp's way of counting octaves: from the top, turning over between F and E.

use crate::Letter;

/// The harp's octave number of a letter in a scientific octave: C, D, E → 8 − octave;
/// F, G, A, B → 7 − octave (agreed by several teaching pages; arithmetic).
///
/// Middle C is 4 in both countings; the top G (G7) is 0, the bottom C (C1) is 7.
///
/// ```
/// use pitch::{Letter, harp_octave};
/// assert_eq!(harp_octave(Letter::C, 4), 4);
/// assert_eq!(harp_octave(Letter::A, 4), 3);
/// assert_eq!(harp_octave(Letter::G, 7), 0);
/// ```
pub fn harp_octave(letter: Letter, octave: i8) -> i32 {
    turn(letter) - i32::from(octave)
}

/// The scientific octave of a letter in a harp octave: the inverse of [`harp_octave`].
///
/// ```
/// use pitch::{Letter, scientific_octave};
/// assert_eq!(scientific_octave(Letter::G, 5), 2);
/// ```
pub fn scientific_octave(letter: Letter, harp_octave: i32) -> i32 {
    turn(letter) - harp_octave
}

fn turn(letter: Letter) -> i32 {
    match letter {
        Letter::C | Letter::D | Letter::E => 8,
        Letter::F | Letter::G | Letter::A | Letter::B => 7,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counting_there_and_back_returns_the_octave() {
        for letter in Letter::ALL {
            for octave in -1..=9 {
                let harp = harp_octave(letter, octave);
                assert_eq!(scientific_octave(letter, harp), i32::from(octave));
            }
        }
    }

    #[test]
    fn the_octave_turns_over_between_f_and_e() {
        assert_eq!(harp_octave(Letter::E, 7), 1);
        assert_eq!(harp_octave(Letter::F, 7), 0);
    }
}
