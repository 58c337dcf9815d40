//! From the written to the sounding pitch: MusicXML 4.0, `<transpose>`.

use pitch::{Letter, SpelledPitch};

use super::element::{Element, child, whole};
use crate::spelling::{of_letter, spell};

/// How far what sounds lies above what is written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Transposition {
    semitones: i32,
    letters: i32,
}

impl Transposition {
    /// Of a `<transpose>` element: sounding = written + chromatic + 12 · octave-change; the
    /// letter moves by diatonic + 7 · octave-change. Where `<diatonic>` is missing, the letters are
    /// those that the semitones usually have (a second for one or two …).
    pub(crate) fn read(transpose: Element<'_, '_>) -> Option<Self> {
        let limited = |name| match child(transpose, name) {
            Some(_) => whole(transpose, name)
                .and_then(|value| i32::try_from(value).ok())
                .filter(|value| value.abs() <= 120)
                .map(Some),
            None => Some(None),
        };
        let chromatic = limited("chromatic")?.unwrap_or(0);
        let diatonic = limited("diatonic")?.unwrap_or_else(|| usual_letters(chromatic));
        let octaves = limited("octave-change")?.unwrap_or(0);
        Some(Self {
            semitones: chromatic + 12 * octaves,
            letters: diatonic + 7 * octaves,
        })
    }

    /// What sounds. A spelling that would need three accidentals gets the nearest usual one;
    /// `None` outside the octaves −1 to 9.
    pub(crate) fn sounding(self, written: SpelledPitch) -> Option<SpelledPitch> {
        if self == Self::default() {
            return Some(written);
        }
        let key = written.midi() + self.semitones;
        let place = i32::try_from(written.letter.index()).ok()? + self.letters;
        let letter = Letter::ALL[usize::try_from(place.rem_euclid(7)).ok()?];
        of_letter(letter, key).or_else(|| spell(key, 0))
    }
}

fn usual_letters(semitones: i32) -> i32 {
    const LETTERS: [i32; 12] = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6];
    let up = semitones.abs();
    let letters = LETTERS[usize::try_from(up % 12).unwrap_or(0)] + 7 * (up / 12);
    letters * semitones.signum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::musicxml::element::parse;

    #[track_caller]
    fn check(inside: &str, written: &str, sounding: &str) {
        let text = format!("<transpose>{inside}</transpose>");
        let found = parse(&text, |element, _| Transposition::read(element)).unwrap();
        let found = found.unwrap().sounding(written.parse().unwrap()).unwrap();
        assert_eq!(found.to_string(), sounding, "{inside}");
    }

    // MusicXML 4.0, <transpose>: clarinet in B flat, horn in F, double bass; from the standard.
    #[test]
    fn the_letter_follows_the_diatonic_step() {
        check(
            "<diatonic>-1</diatonic><chromatic>-2</chromatic>",
            "D4",
            "Cn4",
        );
        check(
            "<diatonic>-1</diatonic><chromatic>-2</chromatic>",
            "F#4",
            "En4",
        );
        check(
            "<diatonic>-4</diatonic><chromatic>-7</chromatic>",
            "G4",
            "Cn4",
        );
        check(
            "<diatonic>0</diatonic><chromatic>0</chromatic><octave-change>-1</octave-change>",
            "B#3",
            "B#2",
        );
        check("<chromatic>-3</chromatic>", "A4", "F#4");
        check("<chromatic>3</chromatic>", "C4", "Eb4");
    }

    #[test]
    fn a_third_accidental_is_respelled() {
        check(
            "<diatonic>0</diatonic><chromatic>1</chromatic>",
            "F##4",
            "Ab4",
        );
    }
}
