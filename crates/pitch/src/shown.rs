//! What a chromatic display would show for a frequency: "a tuner shows B".

use crate::{ReferencePitch, cents};

/// Names of the twelve sounding keys of an octave, with sharps.
const NAMES: [&str; 12] = [
    "C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B",
];

/// The nearest equal-tempered key, and how far off it the sound is.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// Name with sharps and scientific octave, such as `F#3`.
    pub name: String,
    /// Cents above that key, −50 to 50.
    pub off_cents: f64,
}

/// What an equal-tempered display at the same A4 shows for `hz` (Hz, positive).
///
/// A frequency that is no pitch (zero, negative, not a number) gives an empty name.
///
/// ```
/// use pitch::{ReferencePitch, shown_as};
/// let c_flat = ReferencePitch::A440.hz("Cb4".parse()?);
/// assert_eq!(shown_as(c_flat, ReferencePitch::A440).name, "B3");
/// # Ok::<(), pitch::SpellingError>(())
/// ```
pub fn shown_as(hz: f64, reference: ReferencePitch) -> Shown {
    if !(hz.is_finite() && hz > 0.0) {
        return Shown {
            name: String::new(),
            off_cents: 0.0,
        };
    }
    let key = reference.key_of_hz(hz).round() as i32;
    let name = NAMES[key.rem_euclid(12) as usize];
    Shown {
        name: format!("{name}{}", key.div_euclid(12) - 1),
        off_cents: cents(reference.hz_of_key(key), hz),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::raise;

    #[track_caller]
    fn check(spelled: &str, off_cents: f64, name: &str) {
        let reference = ReferencePitch::new(442.0).unwrap();
        let hz = raise(reference.hz(spelled.parse().unwrap()), off_cents);
        let shown = shown_as(hz, reference);
        assert_eq!(shown.name, name, "{spelled}");
        assert!(
            (shown.off_cents - off_cents).abs() < 1e-9,
            "{spelled}: {}",
            shown.off_cents
        );
    }

    // Common practice, several teaching pages: a display shows B for C♭ and E for F♭.
    #[test]
    fn the_open_harp_shows_sharps_on_a_display() {
        check("Cb4", 0.0, "B3");
        check("Fb4", 3.5, "E4");
        check("Gb3", -12.0, "F#3");
        check("Bb2", 49.0, "A#2");
        check("Cb1", -49.0, "B0");
        check("B#3", 1.0, "C4");
    }

    #[test]
    fn what_is_no_frequency_shows_nothing() {
        for hz in [0.0, -3.0, f64::NAN, f64::INFINITY] {
            assert_eq!(shown_as(hz, ReferencePitch::A440).name, "");
        }
    }
}
