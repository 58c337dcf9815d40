//! Spelled pitches: any text is read or refused, and what is written is read back.

use pitch::{Language, Letter, ReferencePitch, SpelledPitch, cents, raise, shown_as};
use proptest::prelude::*;

fn pitch() -> impl Strategy<Value = SpelledPitch> {
    (0usize..7, -2i8..=2, -1i8..=9).prop_map(|(letter, alter, octave)| SpelledPitch {
        letter: Letter::ALL[letter],
        alter,
        octave,
    })
}

proptest! {
    #[test]
    fn any_text_is_a_pitch_or_refused(text in "\\PC{0,12}") {
        let _ = text.parse::<SpelledPitch>();
        for language in Language::ALL {
            let _ = language.read(&text);
        }
    }

    #[test]
    fn every_pitch_is_read_back_from_files_and_screens(pitch in pitch()) {
        prop_assert_eq!(pitch.to_string().parse(), Ok(pitch));
        prop_assert_eq!(pitch.pretty().parse(), Ok(pitch));
    }

    #[test]
    fn every_pitch_is_shown_as_the_name_of_its_sound(pitch in pitch(), a4 in 380.0..480.0f64) {
        if let Ok(reference) = ReferencePitch::new(a4) {
            let shown = shown_as(reference.hz(pitch), reference);
            let named: Option<SpelledPitch> = shown.name.parse().ok();
            // Below C-1 there is no octave that could be written.
            if pitch.midi() >= 0 && pitch.midi() < 132 {
                prop_assert!(named.is_some_and(|named| named.sounds_like(pitch)), "{}", shown.name);
            }
            prop_assert!(shown.off_cents.abs() < 1e-6);
        }
    }

    #[test]
    fn raising_by_the_cents_between_two_pitches_gets_from_one_to_the_other(
        from in 20.0..5000.0f64,
        to in 20.0..5000.0f64,
    ) {
        prop_assert!((raise(from, cents(from, to)) / to - 1.0).abs() < 1e-12);
    }
}
