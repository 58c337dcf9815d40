//! Strings without discs: no pedal moves them, so they are set by key before the piece.

use pitch::{Alteration, Letter, SpelledPitch};

use crate::{HarpError, StringName};

/// The strings of a pedal harp that have no discs unless its file says otherwise: C1, D1 and G7.
///
/// C1 and D1 nearly always, G7 usually (several teaching and orchestration texts); harps differ.
pub const DISCLESS_BY_DEFAULT: [StringName; 3] = [
    StringName {
        letter: Letter::C,
        sharp: false,
        octave: 1,
    },
    StringName {
        letter: Letter::D,
        sharp: false,
        octave: 1,
    },
    StringName {
        letter: Letter::G,
        sharp: false,
        octave: 7,
    },
];

/// How far from its own written pitch a string without discs may be set, in semitones either way.
///
/// Orchestral parts ask for C1 down to A0 at most (three semitones) and for G7 up to A flat.
pub const NEAR_SEMITONES: i32 = 3;

/// Refuses a pitch further than [`NEAR_SEMITONES`] from the string's own.
pub(crate) fn check_near(string: StringName, wanted: SpelledPitch) -> Result<(), HarpError> {
    let semitones = wanted.midi() - string.key();
    if semitones.abs() > NEAR_SEMITONES {
        return Err(HarpError::TooFar {
            string,
            wanted,
            semitones,
        });
    }
    Ok(())
}

/// The alteration that stands nearest to a pitch set by key: C1 at B0 stands flat.
pub(crate) fn nearest_alteration(string: StringName, pitch: SpelledPitch) -> Alteration {
    match (pitch.midi() - string.key()).signum() {
        -1 => Alteration::Flat,
        0 => Alteration::Natural,
        _ => Alteration::Sharp,
    }
}
