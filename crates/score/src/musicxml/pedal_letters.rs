//! Pedal changes as people write them: letters with accidentals, in words or as a diagram.

use pitch::{Alteration, Letter};

use super::element::{Element, children, text};
use crate::{Fraction, Letters};

/// The letters of a `<harp-pedals>` diagram; `None` where none can be read. A letter with an
/// alteration that no pedal has is left out.
pub(crate) fn of_diagram(diagram: Element<'_, '_>) -> Option<Letters> {
    let mut letters = Letters::default();
    for tuning in children(diagram, "pedal-tuning") {
        let letter = text(tuning, "pedal-step").and_then(only_letter);
        let alteration = text(tuning, "pedal-alter")
            .and_then(Fraction::decimal)
            .filter(|alter| alter.denominator() == 1)
            .and_then(|alter| Alteration::from_semitones(alter.numerator()));
        if let (Some(letter), Some(alteration)) = (letter, alteration) {
            letters.set(letter, alteration);
        }
    }
    (letters.known().count() > 0).then_some(letters)
}

/// The letters that words name, if they name nothing else: `F♯ B♭`, `Eb, Ab`, `C# | G#`, `D nat.`
/// Every letter must have its accidental: a bare `A` is a rehearsal mark or a word.
pub(crate) fn of_words(words: &str) -> Option<Letters> {
    let mut letters = Letters::default();
    let mut open: Option<Letter> = None;
    for word in words.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '|' | '/' | '·'))
    {
        let word = word.trim_matches(['(', ')', '[', ']', '.']);
        if word.is_empty() {
            continue;
        }
        match open.take() {
            Some(letter) => letters.set(letter, accidental(word)?),
            None => {
                let letter = word.chars().next().filter(char::is_ascii_uppercase);
                let letter = letter.and_then(Letter::from_char)?;
                match &word[1..] {
                    "" => open = Some(letter),
                    sign => letters.set(letter, accidental(sign)?),
                }
            }
        }
    }
    (open.is_none() && letters.known().count() > 0).then_some(letters)
}

fn only_letter(text: &str) -> Option<Letter> {
    let mut signs = text.chars();
    let letter = signs.next().and_then(Letter::from_char);
    letter.filter(|_| signs.next().is_none())
}

/// Signs as typed, as Unicode has them, as SMuFL fonts have them (U+E260 to U+E262), and in words.
fn accidental(sign: &str) -> Option<Alteration> {
    match sign {
        "b" | "♭" | "\u{e260}" | "flat" | "-flat" => Some(Alteration::Flat),
        "n" | "♮" | "\u{e261}" | "nat" | "natural" | "-natural" => Some(Alteration::Natural),
        "#" | "♯" | "\u{e262}" | "sharp" | "-sharp" => Some(Alteration::Sharp),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(words: &str, expected: &str) {
        let found = of_words(words).map(|letters| letters.to_string());
        assert_eq!(found.unwrap_or_default(), expected, "{words}");
    }

    #[test]
    fn letters_with_accidentals_are_pedal_changes() {
        check("F♯", "F♯");
        check("F# Bb", "F♯ B♭");
        check("E\u{e260}\nA\u{e260}", "E♭ A♭");
        check("(C nat.), G sharp", "C♮ G♯");
        check("D♮ C♯ B♭ | E♭ F♯ G♮ A♭", "C♯ D♮ E♭ F♯ G♮ A♭ B♭");
    }

    #[test]
    fn other_words_are_not() {
        for words in [
            "",
            "A",
            "B",
            "Fine",
            "D.C. al Fine",
            "Bb7",
            "F♯ m",
            "flat",
            "F F♯",
            "é♯",
            "b♭",
        ] {
            check(words, "");
        }
    }
}
