//! The spelling of a key where the source gives none: the nearest on the line of fifths.

use pitch::{Letter, SpelledPitch};

/// Letters on the line of fifths, F = 0.
const LINE: [Letter; 7] = [
    Letter::F,
    Letter::C,
    Letter::G,
    Letter::D,
    Letter::A,
    Letter::E,
    Letter::B,
];

/// The spelling of a sounding key (A4 = 69) in a key signature of so many sharps: the twelve
/// spellings from five fifths below its major tonic to six above (common practice, no source: in
/// C from D♭ to F♯, in E from F♮ to A♯). `None` outside C−1 to B9.
pub(crate) fn spell(key: i32, fifths: i8) -> Option<SpelledPitch> {
    let fifths = i32::from(fifths.clamp(-7, 7));
    // Places on the line: the key whose place is p sounds 7·p semitones above an F.
    let place =
        (fifths - 4..=fifths + 7).find(|place| (5 + 7 * place - key).rem_euclid(12) == 0)?;
    let letter = LINE[usize::try_from(place.rem_euclid(7)).ok()?];
    let alter = place.div_euclid(7);
    of_letter(letter, key).filter(|pitch| i32::from(pitch.alter) == alter)
}

/// A key spelled with a given letter, where that takes at most two accidentals.
pub(crate) fn of_letter(letter: Letter, key: i32) -> Option<SpelledPitch> {
    let octave = (key - letter.semitones() + 6).div_euclid(12) - 1;
    let natural = 12 * (octave + 1) + letter.semitones();
    let alter = i8::try_from(key - natural).ok()?;
    let octave = i8::try_from(octave).ok()?;
    ((-2..=2).contains(&alter) && (-1..=9).contains(&octave)).then_some(SpelledPitch {
        letter,
        alter,
        octave,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(fifths: i8, expected: &str) {
        let names: Vec<String> = (60..72)
            .map(|key| {
                let pitch = spell(key, fifths).unwrap();
                assert_eq!(pitch.midi(), key);
                pitch.pretty()
            })
            .collect();
        assert_eq!(names.join(" "), expected);
    }

    #[test]
    fn each_key_signature_spells_the_twelve_notes_its_own_way() {
        check(0, "C♮4 D♭4 D♮4 E♭4 E♮4 F♮4 F♯4 G♮4 A♭4 A♮4 B♭4 B♮4");
        check(4, "C♮4 C♯4 D♮4 D♯4 E♮4 F♮4 F♯4 G♮4 G♯4 A♮4 A♯4 B♮4");
        check(-7, "D𝄫4 D♭4 E𝄫4 E♭4 F♭4 F♮4 G♭4 A𝄫4 A♭4 B𝄫4 B♭4 C♭5");
    }

    #[test]
    fn every_key_of_midi_has_a_spelling_in_every_signature() {
        for key in 2..=127 {
            for fifths in -7..=7 {
                let pitch = spell(key, fifths).unwrap();
                assert_eq!(pitch.midi(), key, "{key} in {fifths}");
            }
        }
    }
}
