//! `<pitch>`: it alone says what is written; accidentals and octave shifts only display.

use pitch::{Letter, SpelledPitch};

use super::element::{Element, text, whole};
use crate::spelling::spell;
use crate::{Doubt, Fraction};

/// The pitch of a `<pitch>` element, with a doubt where it had to be rounded. `None`: unreadable.
pub(crate) fn written_pitch(pitch: Element<'_, '_>) -> Option<(SpelledPitch, Option<Doubt>)> {
    let step = text(pitch, "step")?;
    let mut signs = step.chars();
    let letter = signs.next().and_then(Letter::from_char)?;
    if signs.next().is_some() {
        return None;
    }
    let octave = i8::try_from(whole(pitch, "octave")?).ok()?;
    if !(-1..=9).contains(&octave) {
        return None;
    }
    let alter = match text(pitch, "alter") {
        None | Some("") => Fraction::ZERO,
        Some(alter) => Fraction::decimal(alter)?,
    };
    // towards the letter's own pitch: a quarter tone flat is a natural
    let rounded = alter.numerator() / alter.denominator();
    let natural = SpelledPitch {
        letter,
        alter: 0,
        octave,
    };
    let read = match i8::try_from(rounded).ok()? {
        alter @ -2..=2 => SpelledPitch { alter, ..natural },
        alter @ -12..=12 => spell(natural.midi() + i32::from(alter), 0)?,
        _ => return None,
    };
    let exact = Fraction::whole(rounded) == alter && read.letter == letter;
    let doubt = (!exact).then(|| Doubt::Microtone {
        written: format!("{letter}{octave}"),
        alter: alter.to_f64().to_string(),
        read: read.pretty(),
    });
    Some((read, doubt))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::musicxml::element::parse;

    #[track_caller]
    fn check(inside: &str, expected: &str, doubtful: bool) {
        let text = format!("<pitch>{inside}</pitch>");
        let found = parse(&text, |element, _| written_pitch(element)).unwrap();
        let found = found.map(|(pitch, doubt)| (pitch.to_string(), doubt.is_some()));
        let expected = (!expected.is_empty()).then(|| (expected.to_owned(), doubtful));
        assert_eq!(found, expected, "{inside}");
    }

    #[test]
    fn a_letter_without_alter_is_natural() {
        check("<step>C</step><octave>4</octave>", "Cn4", false);
        check(
            "<step>B</step><alter>-2</alter><octave>0</octave>",
            "Bbb0",
            false,
        );
        check(
            "<step>F</step><alter> 1.0 </alter><octave>9</octave>",
            "F#9",
            false,
        );
    }

    #[test]
    fn what_no_string_can_give_is_rounded_and_said() {
        check(
            "<step>E</step><alter>-0.5</alter><octave>4</octave>",
            "En4",
            true,
        );
        check(
            "<step>E</step><alter>-1.5</alter><octave>4</octave>",
            "Eb4",
            true,
        );
        check(
            "<step>B</step><alter>3</alter><octave>4</octave>",
            "Dn5",
            true,
        );
    }

    #[test]
    fn what_is_no_pitch_is_refused() {
        check("<step>H</step><octave>4</octave>", "", false);
        check("<step>CC</step><octave>4</octave>", "", false);
        check("<step>C</step>", "", false);
        check("<step>C</step><octave>40</octave>", "", false);
        check(
            "<step>C</step><alter>x</alter><octave>4</octave>",
            "",
            false,
        );
        check(
            "<step>C</step><alter>99</alter><octave>4</octave>",
            "",
            false,
        );
    }
}
